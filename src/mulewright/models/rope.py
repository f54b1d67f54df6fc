"""What does a rope pull, and how fast? Lifts of one or more stages, drums, winches and hoists."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import efficiency_of, not_negative, number, one_each, positive
from mulewright.models.constants import GRAVITY
from mulewright.models.formula import formula


@formula("GRAVITY * dot(masses, travel_ratios) / efficiency")
def lift_rope_force(
    masses: Sequence[ArrayLike], travel_ratios: Sequence[ArrayLike], efficiency: ArrayLike
) -> NDArray[np.float64]:
    """Pull of the rope that raises a lift, by virtual work.

    Parameters
    ----------
    masses : sequence of array_like
        One per moving stage, its load with the last; >= 0. [kg]
    travel_ratios : sequence of array_like
        One per stage, its travel for one unit of rope: 1, 2, 3 ... from the bottom where each stage is
        driven by the one below (cascade); 1 for each where one rope runs through all (continuous). [1]
    efficiency : array_like
        From the drum to the load; > 0, at most 1; 1 if the losses are counted elsewhere. [1]

    Returns
    -------
    force : ndarray
        At the drum. [N]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above, or the lists differ in length.
    """
    one_each("travel_ratios", travel_ratios, "masses", masses)
    weight = np.float64(0.0) + sum(
        not_negative(mass, "mass", "kg") * not_negative(ratio, "travel_ratio")
        for mass, ratio in zip(masses, travel_ratios, strict=True)
    )
    return np.asarray(GRAVITY * weight / efficiency_of(efficiency))


@formula("force * radius")
def drum_torque(force: ArrayLike, radius: ArrayLike) -> NDArray[np.float64]:
    """Torque of a rope on its drum.

    Parameters
    ----------
    force : array_like
        In the rope. [N]
    radius : array_like
        From the axis to the middle of the rope; > 0. [m]

    Returns
    -------
    torque : ndarray
        At the drum. [N m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(number(force) * positive(radius, "radius", "m"))


@formula("drum_radius + (layer - 1 / 2) * rope_diameter")
def layer_radius(drum_radius: ArrayLike, layer: ArrayLike, rope_diameter: ArrayLike) -> NDArray[np.float64]:
    """Radius at which a layer of rope pulls.

    Parameters
    ----------
    drum_radius : array_like
        Of the bare drum; > 0. [m]
    layer : array_like
        Which one, counted from 1 on the bare drum; >= 1. [1]
    rope_diameter : array_like
        Of the rope; > 0. [m]

    Returns
    -------
    radius : ndarray
        From the axis to the middle of the rope. [m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    count = number(layer)
    require(~(count < 1), "layer", "must be >= 1", count)
    wound = (count - 1 / 2) * positive(rope_diameter, "rope_diameter", "m")
    return np.asarray(positive(drum_radius, "drum_radius", "m") + wound)


@formula("torque * ratio * efficiency / radius")
def rope_pull(
    torque: ArrayLike, ratio: ArrayLike, efficiency: ArrayLike, radius: ArrayLike
) -> NDArray[np.float64]:
    """Pull that a motor torque makes in the rope of a drum.

    Parameters
    ----------
    torque : array_like
        Of the motor or gearmotor. [N m]
    ratio : array_like
        Its turns for one turn of the drum; > 0. [1]
    efficiency : array_like
        From its shaft to the rope; > 0, at most 1; 1 gives the most that a rope may meet. [1]
    radius : array_like
        From the axis to the middle of the rope; > 0. [m]

    Returns
    -------
    force : ndarray
        In the rope. [N]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    at_drum = number(torque) * positive(ratio, "ratio") * efficiency_of(efficiency)
    return np.asarray(at_drum / positive(radius, "radius", "m"))


@formula("travel_ratio * speed * radius")
def lift_speed(travel_ratio: ArrayLike, speed: ArrayLike, radius: ArrayLike) -> NDArray[np.float64]:
    """Speed of a stage of a lift.

    Parameters
    ----------
    travel_ratio : array_like
        Its travel for one unit of rope; > 0. [1]
    speed : array_like
        Of the drum. [rad/s]
    radius : array_like
        From the axis to the middle of the rope; > 0. [m]

    Returns
    -------
    speed : ndarray
        Upwards, or of the rope itself with a ratio of 1. [m/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(
        positive(travel_ratio, "travel_ratio") * number(speed) * positive(radius, "radius", "m")
    )


@formula("force**2 / (2 * stiffness)")
def rope_energy(force: ArrayLike, stiffness: ArrayLike) -> NDArray[np.float64]:
    """Energy in a stretched rope or spring, which a snap sets free.

    Parameters
    ----------
    force : array_like
        In the rope; >= 0. [N]
    stiffness : array_like
        Of the free length; > 0. [N/m]

    Returns
    -------
    energy : ndarray
        Elastic. [J]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(not_negative(force, "force", "N") ** 2 / (2 * positive(stiffness, "stiffness", "N/m")))


@formula("force / mass - GRAVITY")
def hoist_acceleration(force: ArrayLike, mass: ArrayLike) -> NDArray[np.float64]:
    """Upward acceleration of a mass on a rope.

    Parameters
    ----------
    force : array_like
        In the rope; >= 0. [N]
    mass : array_like
        On the rope; > 0. [kg]

    Returns
    -------
    acceleration : ndarray
        Negative downwards. [m/s^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Meriam and Kraige, Engineering Mechanics: Dynamics, sample problem 3/1.
    """
    return np.asarray(not_negative(force, "force", "N") / positive(mass, "mass", "kg") - GRAVITY)


@formula("mass * (GRAVITY + acceleration)")
def carried_force(mass: ArrayLike, acceleration: ArrayLike) -> NDArray[np.float64]:
    """Force that carries a mass which speeds up.

    Parameters
    ----------
    mass : array_like
        That is carried; >= 0. [kg]
    acceleration : array_like
        Upwards. [m/s^2]

    Returns
    -------
    force : ndarray
        On whatever carries it. [N]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Meriam and Kraige, Engineering Mechanics: Dynamics, sample problem 3/1.
    """
    return np.asarray(not_negative(mass, "mass", "kg") * (GRAVITY + number(acceleration)))


@formula("force / (falls * efficiency)")
def tackle_pull(force: ArrayLike, falls: ArrayLike, efficiency: ArrayLike) -> NDArray[np.float64]:
    """Pull at the free end of a block and tackle.

    Parameters
    ----------
    force : array_like
        Of the load. [N]
    falls : array_like
        Lengths of rope that carry the moving block; > 0. [1]
    efficiency : array_like
        Of all sheaves together; > 0, at most 1. [1]

    Returns
    -------
    force : ndarray
        By hand or drum. [N]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(number(force) / (positive(falls, "falls") * efficiency_of(efficiency)))


@formula("travel * falls")
def tackle_travel(travel: ArrayLike, falls: ArrayLike) -> NDArray[np.float64]:
    """Rope that a block and tackle takes in.

    Parameters
    ----------
    travel : array_like
        Of the load. [m]
    falls : array_like
        Lengths of rope that carry the moving block; > 0. [1]

    Returns
    -------
    travel : ndarray
        Of the free end. [m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(number(travel) * positive(falls, "falls"))
