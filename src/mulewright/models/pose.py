"""Where is what an arm carries, at an angle, and how fast may one drive so that a gentle stop is short enough?"""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import between, not_negative, number
from mulewright.models.formula import formula

TINY = 1e-12  # [m/s^2]  an acceleration that is none


@formula("first + share * (last - first)")
def part_way(first: ArrayLike, last: ArrayLike, share: ArrayLike) -> NDArray[np.float64]:
    """Place on the way from one end to the other.

    Parameters
    ----------
    first : array_like
        Where the way begins. [any]
    last : array_like
        Where it ends. [as first]
    share : array_like
        Share of the way, 0 to 1. [1]

    Returns
    -------
    place : ndarray
        Broadcast shape of the inputs. [as first]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    begin = number(first)
    return np.asarray(begin + between(share, "share", 0, 1) * (number(last) - begin))


@formula("pivot + arm * cos(angle)")
def reach_ahead(pivot: ArrayLike, arm: ArrayLike, angle: ArrayLike) -> NDArray[np.float64]:
    """Level place of a mass on an arm.

    Parameters
    ----------
    pivot : array_like
        Place of the pivot, from some mark. [m]
    arm : array_like
        From the pivot to the mass; >= 0. [m]
    angle : array_like
        Of the arm above level. [rad]

    Returns
    -------
    place : ndarray
        From the same mark. [m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(number(pivot) + not_negative(arm, "arm", "m") * np.cos(number(angle)))


@formula("pivot + arm * sin(angle)")
def reach_up(pivot: ArrayLike, arm: ArrayLike, angle: ArrayLike) -> NDArray[np.float64]:
    """Height of a mass on an arm.

    Parameters
    ----------
    pivot : array_like
        Height of the pivot. [m]
    arm : array_like
        From the pivot to the mass; >= 0. [m]
    angle : array_like
        Of the arm above level. [rad]

    Returns
    -------
    height : ndarray
        Above the same ground. [m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(number(pivot) + not_negative(arm, "arm", "m") * np.sin(number(angle)))


@formula("maximum(deceleration, 0) * (sqrt(delay**2 + 2 * distance / maximum(deceleration, TINY)) - delay)")
def speed_for_stop(distance: ArrayLike, delay: ArrayLike, deceleration: ArrayLike) -> NDArray[np.float64]:
    """Speed from which a machine stands after a given way.

    The way in the delay and the way of braking together; the positive root of their sum.

    Parameters
    ----------
    distance : array_like
        From the moment in which a stop is called for until it stands; >= 0. [m]
    delay : array_like
        Until it begins to slow down; >= 0. [s]
    deceleration : array_like
        With which it then slows down; zero or less means that it may not brake at all. [m/s^2]

    Returns
    -------
    speed : ndarray
        Before the stop. [m/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    way, wait = not_negative(distance, "distance", "m"), not_negative(delay, "delay", "s")
    slowing = number(deceleration)
    root = np.sqrt(wait**2 + 2 * way / np.maximum(slowing, TINY))
    return np.asarray(np.maximum(slowing, 0) * (root - wait))


@formula("speed * sqrt(maximum(allowed, 0) / maximum(made, TINY))")
def slowed_for_turns(speed: ArrayLike, made: ArrayLike, allowed: ArrayLike) -> NDArray[np.float64]:
    """Speed at which the worst turn pulls aside no more than is allowed.

    Sideways acceleration grows with the square of the speed, all speeds in proportion.

    Parameters
    ----------
    speed : array_like
        At which the worst turn is known; >= 0. [m/s]
    made : array_like
        Sideways acceleration of the worst turn at that speed; >= 0. [m/s^2]
    allowed : array_like
        Sideways acceleration that is allowed. [m/s^2]

    Returns
    -------
    speed : ndarray
        Slower or faster than before. [m/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    top, pull = not_negative(speed, "speed", "m/s"), not_negative(made, "made", "m/s^2")
    return np.asarray(top * np.sqrt(np.maximum(number(allowed), 0) / np.maximum(pull, TINY)))
