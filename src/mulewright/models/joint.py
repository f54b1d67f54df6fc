"""What does a joint ask of its motor? Gravity on an arm, torque through a reduction, counterbalance."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import Floats, efficiency_of, not_negative, number, one_each, positive
from mulewright.models.constants import GRAVITY
from mulewright.models.formula import formula

STEPS = 60  # [1] halvings of a half turn: finer than a double can tell


@formula("GRAVITY * dot(masses, arms) * cos(angle)")
def gravity_torque(
    masses: Sequence[ArrayLike], arms: Sequence[ArrayLike], angle: ArrayLike
) -> NDArray[np.float64]:
    """Torque with which gravity pulls a straight arm down.

    Parameters
    ----------
    masses : sequence of array_like
        One per lump on the arm; >= 0. [kg]
    arms : sequence of array_like
        One per lump, from the pivot to its centre. [m]
    angle : array_like
        Of the arm above level. [rad]

    Returns
    -------
    torque : ndarray
        Largest when the arm is level. [N m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above, or the lists differ in length.
    """
    one_each("arms", arms, "masses", masses)
    moment = np.float64(0.0) + sum(
        not_negative(mass, "mass", "kg") * number(arm) for mass, arm in zip(masses, arms, strict=True)
    )
    return np.asarray(GRAVITY * moment * np.cos(angle))


@formula(
    "level_torque * (maximum(sin(clip(pi / 2, lowest, highest)), sin(lowest))"
    " - minimum(sin(clip(-pi / 2, lowest, highest)), sin(highest)))"
)
def swing_energy(level_torque: ArrayLike, lowest: ArrayLike, highest: ArrayLike) -> NDArray[np.float64]:
    """Energy that an arm gives back when it falls from the highest point of its way to the lowest.

    Parameters
    ----------
    level_torque : array_like
        Torque of its weight and load about the pivot when it is level; >= 0. [N m]
    lowest : array_like
        Lower end of its way, above level; not below -270 degrees. [rad]
    highest : array_like
        Upper end of its way, above level; from ``lowest`` to 270 degrees. [rad]

    Returns
    -------
    energy : ndarray
        Twice the level torque from straight up to straight down. [J]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    low, high = number(lowest), number(highest)
    require(~(low < -3 * np.pi / 2), "lowest", "must be >= -270 degrees", low)
    require(~((high < low) | (high > 3 * np.pi / 2)), "highest", "must be from lowest to 270 degrees", high)
    top = np.maximum(np.sin(np.clip(np.pi / 2, low, high)), np.sin(low))
    bottom = np.minimum(np.sin(np.clip(-np.pi / 2, low, high)), np.sin(high))
    return np.asarray(not_negative(level_torque, "level_torque", "N m") * (top - bottom))


@formula("torque / (ratio * efficiency)")
def needed_torque(torque: ArrayLike, ratio: ArrayLike, efficiency: ArrayLike) -> NDArray[np.float64]:
    """Torque asked of the motor side of a reduction.

    Parameters
    ----------
    torque : array_like
        At the joint or drum. [N m]
    ratio : array_like
        Motor turns for one turn of the joint, after any gearbox in the motor's sheet; > 0. [1]
    efficiency : array_like
        Of that reduction; > 0, at most 1. [1]

    Returns
    -------
    torque : ndarray
        At the shaft of the motor or gearmotor. [N m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(number(torque) / (positive(ratio, "ratio") * efficiency_of(efficiency)))


@formula("available / needed")
def safety_factor(available: ArrayLike, needed: ArrayLike) -> NDArray[np.float64]:
    """How many times what is needed is there.

    Parameters
    ----------
    available : array_like
        Torque or force that can be had; >= 0. [N m]
    needed : array_like
        Torque or force that is asked for, in the same unit; > 0. [N m]

    Returns
    -------
    factor : ndarray
        Below one it does not move. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(not_negative(available, "available", "N m") / positive(needed, "needed", "N m"))


@formula("stiffness * radius**2 * result == mass * GRAVITY * arm * sin(result)")
def counterbalance_angle(
    mass: ArrayLike, arm: ArrayLike, stiffness: ArrayLike, radius: ArrayLike
) -> NDArray[np.float64]:
    """Angle from upright at which a spring on a pulley carries a leaning mass.

    Parameters
    ----------
    mass : array_like
        At the end of the arm; > 0. [kg]
    arm : array_like
        From the pivot to the mass; > 0. [m]
    stiffness : array_like
        Of the spring, slack when the arm is upright; > 0. [N/m]
    radius : array_like
        Of the pulley on the pivot that winds the spring; > 0. [m]

    Returns
    -------
    angle : ndarray
        Zero if the spring is so stiff that upright is the only place. [rad]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Beer and Johnston, Vector Mechanics for Engineers: Statics, sample problem 10.4.
    """
    spring, weight = _spring_and_weight(mass, arm, stiffness, radius)
    share = np.asarray(spring / weight)  # sin(angle) / angle falls evenly from 1 at 0 to 0 at a half turn
    low, high = np.zeros(share.shape), np.full(share.shape, np.pi)
    for _ in range(STEPS):
        middle = (low + high) / 2
        beyond = np.sin(middle) < share * middle
        low, high = np.where(beyond, low, middle), np.where(beyond, middle, high)
    return np.asarray(np.where(share >= 1, 0.0, (low + high) / 2) + 0 * share)


@formula("stiffness * radius**2 - mass * GRAVITY * arm * cos(angle)")
def counterbalance_stiffness(
    angle: ArrayLike, mass: ArrayLike, arm: ArrayLike, stiffness: ArrayLike, radius: ArrayLike
) -> NDArray[np.float64]:
    """Torque for each rad with which spring and mass return to a balance.

    Parameters
    ----------
    angle : array_like
        From upright. [rad]
    mass : array_like
        At the end of the arm; > 0. [kg]
    arm : array_like
        From the pivot to the mass; > 0. [m]
    stiffness : array_like
        Of the spring; > 0. [N/m]
    radius : array_like
        Of the pulley on the pivot that winds the spring; > 0. [m]

    Returns
    -------
    stiffness : ndarray
        Negative where the balance is unstable. [N m/rad]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    spring, weight = _spring_and_weight(mass, arm, stiffness, radius)
    return np.asarray(spring - weight * np.cos(angle))


def _spring_and_weight(
    mass: ArrayLike, arm: ArrayLike, stiffness: ArrayLike, radius: ArrayLike
) -> tuple[Floats, Floats]:
    """[N m/rad] spring's torque for each rad, and [N m] the weight's torque when level."""
    spring = positive(stiffness, "stiffness", "N/m") * positive(radius, "radius", "m") ** 2
    return spring, positive(mass, "mass", "kg") * GRAVITY * positive(arm, "arm", "m")
