"""How hard does a drive pull aside in a turn? Its sideways acceleration, at the worst mix of forward and turn."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import not_negative, number, positive
from mulewright.models.formula import formula


@formula(
    "minimum(minimum(maximum(forward, 0), maximum(turn, 0)), limit / 2)"
    " * minimum(maximum(maximum(forward, 0), turn),"
    " limit - minimum(minimum(maximum(forward, 0), maximum(turn, 0)), limit / 2)) / lever"
)
def turning_acceleration(
    forward: ArrayLike, turn: ArrayLike, limit: ArrayLike, lever: ArrayLike
) -> NDArray[np.float64]:
    """Largest sideways acceleration of a drive whose wheels are driven by sums of forward and turn.

    Speed times yaw rate, both as large as the wheels allow together: the outer wheels run at the sum of what
    forward and turn give them, at most at the limit. Where both give half of the limit or more, the inner
    wheels stand still in the worst turn.

    Parameters
    ----------
    forward : array_like
        Speed of the rims at full forward alone; below zero counts as standing still. [m/s]
    turn : array_like
        Speed of the rims at full turn alone; below zero counts as standing still. [m/s]
    limit : array_like
        Speed of the rims at the largest command that the mix lets through; >= 0. [m/s]
    lever : array_like
        Speed of the rims for each rad/s of yaw: half the track for plain wheels; > 0. [m]

    Returns
    -------
    acceleration : ndarray
        Towards the inside of the turn. [m/s^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Speed squared over radius, for a point that moves on a circle; common practice, no source.
    """
    ahead, around = np.maximum(number(forward), 0), np.maximum(number(turn), 0)
    most = not_negative(limit, "limit", "m/s")
    lesser = np.minimum(np.minimum(ahead, around), most / 2)
    greater = np.minimum(np.maximum(ahead, around), most - lesser)
    return np.asarray(lesser * greater / positive(lever, "lever", "m"))
