"""Does the machine stay on its wheels? Where its weight is, what each axle carries, when it tips."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import not_negative, number, one_each, positive
from mulewright.models.constants import GRAVITY
from mulewright.models.formula import formula


@formula("dot(masses, positions) / sum(masses)")
def combined_centre(masses: Sequence[ArrayLike], positions: Sequence[ArrayLike]) -> NDArray[np.float64]:
    """Place of the common centre of gravity along one direction.

    Also from scales: what each wheel carries instead of the masses, and where the wheel stands.

    Parameters
    ----------
    masses : sequence of array_like
        One per body, not all zero; >= 0. [kg]
    positions : sequence of array_like
        One per body, all from the same mark. [m]

    Returns
    -------
    position : ndarray
        From that mark. [m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above, or the lists differ in length.
    """
    one_each("positions", positions, "masses", masses)
    loads = [not_negative(mass, "mass", "kg") for mass in masses]
    total = positive(np.float64(0.0) + sum(loads), "sum of masses", "kg")
    moment = sum(load * number(position) for load, position in zip(loads, positions, strict=True))
    return np.asarray(moment / total)


@formula("mass * GRAVITY * lever / wheelbase")
def axle_load(mass: ArrayLike, lever: ArrayLike, wheelbase: ArrayLike) -> NDArray[np.float64]:
    """Weight that one of two axles carries on level ground, standing still.

    Parameters
    ----------
    mass : array_like
        Of the whole machine; > 0. [kg]
    lever : array_like
        From the centre of gravity to the other axle; negative beyond it. [m]
    wheelbase : array_like
        From axle to axle; > 0. [m]

    Returns
    -------
    force : ndarray
        Of both wheels of that axle; negative if the machine falls over. [N]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    weight = positive(mass, "mass", "kg") * GRAVITY
    return np.asarray(weight * number(lever) / positive(wheelbase, "wheelbase", "m"))


@formula("(edge - centre) / half_base")
def static_margin(edge: ArrayLike, centre: ArrayLike, half_base: ArrayLike) -> NDArray[np.float64]:
    """How far the centre of gravity stays from the tipping edge, as a share of half the base.

    Parameters
    ----------
    edge : array_like
        Place of the contact over which it would tip, outward positive. [m]
    centre : array_like
        Place of the centre of gravity, from the same mark. [m]
    half_base : array_like
        Half the distance from that contact to the opposite one; > 0. [m]

    Returns
    -------
    margin : ndarray
        Zero or less: it falls over where it stands. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray((number(edge) - number(centre)) / positive(half_base, "half_base", "m"))


@formula("GRAVITY * distance / height")
def tipping_acceleration(distance: ArrayLike, height: ArrayLike) -> NDArray[np.float64]:
    """Acceleration that takes the weight off the far wheels.

    Speeding up: distance to the rear contact. Braking: to the front one. Turning: half the track.

    Parameters
    ----------
    distance : array_like
        From the centre of gravity to the edge over which it would tip, level. [m]
    height : array_like
        Of the centre of gravity above the ground; > 0. [m]

    Returns
    -------
    acceleration : ndarray
        Zero or less: it tips where it stands. [m/s^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Balance of moments about the contact; common practice, no source.
    """
    return np.asarray(GRAVITY * number(distance) / positive(height, "height", "m"))


@formula("arctan2(distance, height)")
def tipping_slope(distance: ArrayLike, height: ArrayLike) -> NDArray[np.float64]:
    """Slope on which a machine that stands still tips.

    Parameters
    ----------
    distance : array_like
        From the centre of gravity to the lower contact, along the ground. [m]
    height : array_like
        Of the centre of gravity above the ground; > 0. [m]

    Returns
    -------
    slope : ndarray
        Angle against level. [rad]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(np.arctan2(number(distance), positive(height, "height", "m")))


@formula("tan(slope) * height / distance")
def slope_ratio(slope: ArrayLike, distance: ArrayLike, height: ArrayLike) -> NDArray[np.float64]:
    """Slope that a machine stands on, against the one on which it tips, both as rise over run.

    Parameters
    ----------
    slope : array_like
        From level; 0 to less than upright. [rad]
    distance : array_like
        From the centre of gravity to the contact on the low side, along the ground; > 0. [m]
    height : array_like
        Of the centre of gravity above the ground; > 0. [m]

    Returns
    -------
    ratio : ndarray
        From one upwards it tips. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    steep = number(slope)
    require(~((steep < 0) | (steep >= np.pi / 2)), "slope", "must be level to less than upright", steep)
    return np.asarray(np.tan(steep) * positive(height, "height", "m") / positive(distance, "distance", "m"))


@formula("acceleration / tipping")
def tip_ratio(acceleration: ArrayLike, tipping: ArrayLike) -> NDArray[np.float64]:
    """Acceleration that the machine can make, against the one that tips it.

    Parameters
    ----------
    acceleration : array_like
        That it makes; >= 0. [m/s^2]
    tipping : array_like
        That takes the weight off the far wheels; > 0. [m/s^2]

    Returns
    -------
    ratio : ndarray
        From one upwards it tips. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    made = not_negative(acceleration, "acceleration", "m/s^2")
    return np.asarray(made / positive(tipping, "tipping", "m/s^2"))


@formula("abs(speed * turn_rate)")
def lateral_acceleration(speed: ArrayLike, turn_rate: ArrayLike) -> NDArray[np.float64]:
    """Sideways acceleration in a turn.

    Parameters
    ----------
    speed : array_like
        Forwards. [m/s]
    turn_rate : array_like
        Of the heading. [rad/s]

    Returns
    -------
    acceleration : ndarray
        Towards the inside, without sign. [m/s^2]
    """
    return np.asarray(np.abs(number(speed) * number(turn_rate)))


@formula("wheel_radius + load_change * wheelbase / (mass * GRAVITY * tan(slope))")
def centre_height_by_tilting(
    load_change: ArrayLike, wheelbase: ArrayLike, mass: ArrayLike, slope: ArrayLike, wheel_radius: ArrayLike
) -> NDArray[np.float64]:
    """Height of the centre of gravity from scales under one axle while the other is raised.

    Parameters
    ----------
    load_change : array_like
        What the lower axle carries more than on level ground. [N]
    wheelbase : array_like
        From axle to axle; > 0. [m]
    mass : array_like
        Of the whole machine; > 0. [kg]
    slope : array_like
        Of the machine; > 0. [rad]
    wheel_radius : array_like
        Of wheels free to roll; >= 0. [m]

    Returns
    -------
    height : ndarray
        Above the ground. [m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    above_axles = number(load_change) * positive(wheelbase, "wheelbase", "m")
    weight = positive(mass, "mass", "kg") * GRAVITY
    lift = above_axles / (weight * np.tan(positive(slope, "slope", "rad")))
    return np.asarray(not_negative(wheel_radius, "wheel_radius", "m") + lift)
