"""How fast does a spinning wheel throw a ball, how far, and how long until it is back at speed?

The ball is gripped until it rolls on the wheel without slip; it is small and light against the wheel's shaft.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import between, not_negative, number, positive
from mulewright.models.constants import GRAVITY
from mulewright.models.formula import formula

SOLID_BALL = 2 / 5  # [1] inertia of a full ball over mass times radius squared
HOLLOW_BALL = 2 / 3  # [1] the same of a thin shell


@formula("1 / (1 + 4 * inertia / ((1 + ball_share) * ball_mass * wheel_radius**2))")
def hooded_wheel_drop(
    ball_mass: ArrayLike, ball_share: ArrayLike, wheel_radius: ArrayLike, inertia: ArrayLike
) -> NDArray[np.float64]:
    """Share of its speed that a wheel gives to a ball which it throws along a fixed hood.

    The ball ends up rolling between wheel and hood, so that its middle goes half as fast as the rim and it
    spins; both take angular momentum from the wheel.

    Parameters
    ----------
    ball_mass : array_like
        Of one ball; > 0. [kg]
    ball_share : array_like
        Inertia of the ball over its mass times its radius squared: 2/5 if full, 2/3 if hollow; >= 0. [1]
    wheel_radius : array_like
        Of the wheel; > 0. [m]
    inertia : array_like
        Of everything that turns with the wheel; > 0. [kg m^2]

    Returns
    -------
    drop : ndarray
        Below one. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Angular impulse on wheel, ball and hood; common practice, no source.
    """
    share = 1 + not_negative(ball_share, "ball_share")
    taken = share * positive(ball_mass, "ball_mass", "kg") * positive(wheel_radius, "wheel_radius", "m") ** 2
    return np.asarray(1 / (1 + 4 * positive(inertia, "inertia", "kg m^2") / taken))


@formula("1 / (1 + 2 * inertia / (ball_mass * wheel_radius**2))")
def wheel_pair_drop(ball_mass: ArrayLike, wheel_radius: ArrayLike, inertia: ArrayLike) -> NDArray[np.float64]:
    """Share of their speed that two equal wheels give to a ball which goes between them.

    Parameters
    ----------
    ball_mass : array_like
        Of one ball, which does not spin; > 0. [kg]
    wheel_radius : array_like
        Of each wheel; > 0. [m]
    inertia : array_like
        Of everything that turns with one of the wheels; > 0. [kg m^2]

    Returns
    -------
    drop : ndarray
        Below one. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Angular impulse on wheels and ball; common practice, no source.
    """
    taken = positive(ball_mass, "ball_mass", "kg") * positive(wheel_radius, "wheel_radius", "m") ** 2
    return np.asarray(1 / (1 + 2 * positive(inertia, "inertia", "kg m^2") / taken))


@formula("time_constant * log(maximum(drop / tolerance, 1))")
def recovery_time(time_constant: ArrayLike, drop: ArrayLike, tolerance: ArrayLike) -> NDArray[np.float64]:
    """Time after a shot until the wheel is back at its speed, but for a tolerance.

    Parameters
    ----------
    time_constant : array_like
        In which the wheel makes 63 % of a change of speed; >= 0. [s]
    drop : array_like
        Share of its speed that the shot took; 0 to 1. [1]
    tolerance : array_like
        What may still be missing, as a share of the speed before; > 0. [1]

    Returns
    -------
    time : ndarray
        None where the shot takes less than the tolerance. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    missing = between(drop, "drop", 0, 1) / positive(tolerance, "tolerance")
    return np.asarray(not_negative(time_constant, "time_constant", "s") * np.log(np.maximum(missing, 1)))


@formula("speed * wheel_radius / 2")
def hooded_wheel_exit_speed(speed: ArrayLike, wheel_radius: ArrayLike) -> NDArray[np.float64]:
    """Speed of a ball that rolled between a wheel and a fixed hood.

    Parameters
    ----------
    speed : array_like
        Of the wheel. [rad/s]
    wheel_radius : array_like
        Of the wheel; > 0. [m]

    Returns
    -------
    speed : ndarray
        Of the middle of the ball. [m/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(number(speed) * positive(wheel_radius, "wheel_radius", "m") / 2)


@formula("speed * wheel_radius")
def wheel_pair_exit_speed(speed: ArrayLike, wheel_radius: ArrayLike) -> NDArray[np.float64]:
    """Speed of a ball that went between two wheels of the same speed.

    Parameters
    ----------
    speed : array_like
        Of each wheel. [rad/s]
    wheel_radius : array_like
        Of each wheel; > 0. [m]

    Returns
    -------
    speed : ndarray
        Of the ball. [m/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(number(speed) * positive(wheel_radius, "wheel_radius", "m"))


@formula("speed**2 / GRAVITY")
def longest_throw(speed: ArrayLike) -> NDArray[np.float64]:
    """Longest throw over level ground, at 45 degrees and without air.

    Parameters
    ----------
    speed : array_like
        With which it leaves. [m/s]

    Returns
    -------
    distance : ndarray
        To where it is as high again as where it left. [m]

    References
    ----------
    Any textbook of mechanics: flight of a thrown body.
    """
    return np.asarray(number(speed) ** 2 / GRAVITY)
