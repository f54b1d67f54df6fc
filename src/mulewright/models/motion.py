"""How does a joint get from here to there in time? Share of the way, and the acceleration that it takes."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import Floats, not_negative, number, positive
from mulewright.models.formula import formula


@formula("where(speed > 0, way / where(speed > 0, speed, 1), inf)")
def travel_time(way: ArrayLike, speed: ArrayLike) -> NDArray[np.float64]:
    """Time over a way at a steady speed; unlimited where it does not get forward.

    Parameters
    ----------
    way : array_like
        Length or angle; >= 0. [m or rad]
    speed : array_like
        Along it. [m/s or rad/s]

    Returns
    -------
    time : ndarray
        Without the time to get up to speed and to stop. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    far, pace = np.broadcast_arrays(not_negative(way, "way"), number(speed))
    never = np.where(np.isnan(far + pace), np.nan, np.inf)
    return np.asarray(np.divide(far, pace, out=never, where=pace > 0))


@formula("4 * angle / duration**2")
def swing_acceleration(angle: ArrayLike, duration: ArrayLike) -> NDArray[np.float64]:
    """Acceleration of a swing that speeds up for half of its time and slows down for the other half.

    Parameters
    ----------
    angle : array_like
        From rest to rest; >= 0. [rad]
    duration : array_like
        Of the whole swing; > 0. [s]

    Returns
    -------
    acceleration : ndarray
        The same both ways. [rad/s^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(4 * not_negative(angle, "angle", "rad") / positive(duration, "duration", "s") ** 2)


@formula("2 * angle / duration")
def swing_peak_speed(angle: ArrayLike, duration: ArrayLike) -> NDArray[np.float64]:
    """Speed in the middle of a swing that speeds up and slows down evenly.

    Parameters
    ----------
    angle : array_like
        From rest to rest; >= 0. [rad]
    duration : array_like
        Of the whole swing; > 0. [s]

    Returns
    -------
    speed : ndarray
        Twice the mean. [rad/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(2 * not_negative(angle, "angle", "rad") / positive(duration, "duration", "s"))


@formula("3 * (time / duration)**2 - 2 * (time / duration)**3")
def cubic_share(time: ArrayLike, duration: ArrayLike) -> NDArray[np.float64]:
    """Share of the way with no speed at both ends.

    Parameters
    ----------
    time : array_like
        Since the start; 0 to the duration. [s]
    duration : array_like
        Of the whole move; > 0. [s]

    Returns
    -------
    share : ndarray
        From 0 to 1. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Lynch and Park, Modern Robotics, ch. 9.
    """
    part = _part(time, duration)
    return np.asarray(3 * part**2 - 2 * part**3)


@formula("10 * (time / duration)**3 - 15 * (time / duration)**4 + 6 * (time / duration)**5")
def quintic_share(time: ArrayLike, duration: ArrayLike) -> NDArray[np.float64]:
    """Share of the way with no speed and no acceleration at both ends.

    Parameters
    ----------
    time : array_like
        Since the start; 0 to the duration. [s]
    duration : array_like
        Of the whole move; > 0. [s]

    Returns
    -------
    share : ndarray
        From 0 to 1. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Lynch and Park, Modern Robotics, ch. 9.
    """
    part = _part(time, duration)
    return np.asarray(10 * part**3 - 15 * part**4 + 6 * part**5)


def _part(time: ArrayLike, duration: ArrayLike) -> Floats:
    """[1] share of the time that is over."""
    since, whole = not_negative(time, "time", "s"), positive(duration, "duration", "s")
    require(~(since > whole), "time", "must not exceed the duration, in s", since)
    return since / whole
