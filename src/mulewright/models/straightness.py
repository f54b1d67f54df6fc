"""How far a cart with unequal sides drifts off its line, and which endpoint cures it."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import between, not_negative, number, positive
from mulewright.models.formula import formula


@formula("mismatch * distance**2 / (2 * track)")
def drift_offset(mismatch: ArrayLike, distance: ArrayLike, track: ArrayLike) -> NDArray[np.float64]:
    """Sideways offset after a run that was meant to be straight.

    The parabola that starts like the true arc; good while the offset is small against the distance.

    Parameters
    ----------
    mismatch : array_like
        How much faster one side is, as a share of the mean speed. [1]
    distance : array_like
        Length of the run; >= 0. [m]
    track : array_like
        Distance between the wheels of the two sides; > 0. [m]

    Returns
    -------
    offset : ndarray
        Offset towards the slower side. [m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    run = not_negative(distance, "distance", "m")
    return np.asarray(number(mismatch) * run**2 / (2 * positive(track, "track", "m")))


@formula("2 * track * offset / distance**2")
def side_mismatch(offset: ArrayLike, distance: ArrayLike, track: ArrayLike) -> NDArray[np.float64]:
    """Mismatch of the two sides that explains a measured drift.

    Good while the offset is small against the distance.

    Parameters
    ----------
    offset : array_like
        Offset towards the slower side. [m]
    distance : array_like
        Length of the run; > 0. [m]
    track : array_like
        Distance between the wheels of the two sides; > 0. [m]

    Returns
    -------
    mismatch : ndarray
        How much faster one side is, as a share of the mean speed. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    run = positive(distance, "distance", "m")
    return np.asarray(2 * positive(track, "track", "m") * number(offset) / run**2)


@formula("travel - mismatch * (half_range * travel - dead_band) / half_range")
def straight_travel(
    travel: ArrayLike, mismatch: ArrayLike, half_range: ArrayLike, dead_band: ArrayLike
) -> NDArray[np.float64]:
    """Endpoint of the faster side that makes a two-side drive run straight.

    The duty beyond the dead band, not the pulse, has to shrink by the mismatch.

    Parameters
    ----------
    travel : array_like
        Endpoint of the faster side now, within what its controller uses; > 0. [1]
    mismatch : array_like
        How much faster that side is, as a share of its speed; 0 to 1. [1]
    half_range : array_like
        What this radio means by 100 % travel; > 0. [s]
    dead_band : array_like
        Half of the dead band of a controller that rescales; >= 0. [s]

    Returns
    -------
    travel : ndarray
        Endpoint to set. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    before, share = positive(travel, "travel"), between(mismatch, "mismatch", 0, 1)
    unit, dead = positive(half_range, "half_range", "s"), not_negative(dead_band, "dead_band", "s")
    return np.asarray(before - share * (unit * before - dead) / unit)
