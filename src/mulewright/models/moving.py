"""How hard does it pull away, how far does it roll, with what energy? The whole machine as one mass."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import not_negative, number, positive
from mulewright.models.constants import GRAVITY
from mulewright.models.formula import formula


@formula("friction * driven_load / mass")
def traction_acceleration(
    friction: ArrayLike, driven_load: ArrayLike, mass: ArrayLike
) -> NDArray[np.float64]:
    """Acceleration at which the driven wheels slip, with the loads of standing still.

    Parameters
    ----------
    friction : array_like
        Of tyre on floor; >= 0. [1]
    driven_load : array_like
        Weight on the driven, or braked, wheels; >= 0. [N]
    mass : array_like
        Of the whole machine; > 0. [kg]

    Returns
    -------
    acceleration : ndarray
        No motor can do more. [m/s^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    grip = not_negative(friction, "friction") * not_negative(driven_load, "driven_load", "N")
    return np.asarray(grip / positive(mass, "mass", "kg"))


@formula("mass * GRAVITY * (sin(slope) + rolling * cos(slope))")
def slope_force(mass: ArrayLike, slope: ArrayLike, rolling: ArrayLike) -> NDArray[np.float64]:
    """Force that drives a machine steadily up a slope.

    Parameters
    ----------
    mass : array_like
        Of the whole machine; >= 0. [kg]
    slope : array_like
        Angle against level, negative downhill. [rad]
    rolling : array_like
        Rolling resistance as a share of the weight; >= 0. [1]

    Returns
    -------
    force : ndarray
        Along the ground. [N]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    weight = not_negative(mass, "mass", "kg") * GRAVITY
    return np.asarray(weight * (np.sin(slope) + not_negative(rolling, "rolling") * np.cos(slope)))


@formula("maximum(GRAVITY * (sin(slope) - friction * cos(slope)), 0)")
def sliding_acceleration(slope: ArrayLike, friction: ArrayLike) -> NDArray[np.float64]:
    """Acceleration with which a block starts to slide down a slope.

    Parameters
    ----------
    slope : array_like
        Angle against level; >= 0. [rad]
    friction : array_like
        Of block on slope, the same at rest and sliding; >= 0. [1]

    Returns
    -------
    acceleration : ndarray
        Zero where friction holds it. [m/s^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    steep = not_negative(slope, "slope", "rad")
    held = not_negative(friction, "friction") * np.cos(steep)
    return np.asarray(np.maximum(GRAVITY * (np.sin(steep) - held), 0))


@formula("tan(slope)")
def friction_from_slope(slope: ArrayLike) -> NDArray[np.float64]:
    """Friction from the slope on which a machine with locked wheels first slips.

    Parameters
    ----------
    slope : array_like
        Angle against level; >= 0. [rad]

    Returns
    -------
    friction : ndarray
        Of tyre on that floor. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(np.tan(not_negative(slope, "slope", "rad")))


@formula("speed * delay + speed**2 / (2 * deceleration)")
def stopping_distance(speed: ArrayLike, delay: ArrayLike, deceleration: ArrayLike) -> NDArray[np.float64]:
    """Way from the moment in which a stop is called for until the machine stands.

    Parameters
    ----------
    speed : array_like
        Before; >= 0. [m/s]
    delay : array_like
        Of driver and link together; >= 0. [s]
    deceleration : array_like
        Once it brakes or coasts; > 0. [m/s^2]

    Returns
    -------
    distance : ndarray
        Along the ground. [m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    pace = not_negative(speed, "speed", "m/s")
    rolling = pace**2 / (2 * positive(deceleration, "deceleration", "m/s^2"))
    return np.asarray(pace * not_negative(delay, "delay", "s") + rolling)


@formula("speed * (fail_safe_delay + reaction_time) + speed**2 / (2 * deceleration)")
def runaway_distance(
    speed: ArrayLike, fail_safe_delay: ArrayLike, reaction_time: ArrayLike, deceleration: ArrayLike
) -> NDArray[np.float64]:
    """Way that a machine makes after its link is lost.

    Parameters
    ----------
    speed : array_like
        When the link is lost; >= 0. [m/s]
    fail_safe_delay : array_like
        Until the receiver acts; infinite if it holds the last command; >= 0. [s]
    reaction_time : array_like
        That people need; >= 0. [s]
    deceleration : array_like
        While it coasts; > 0. [m/s^2]

    Returns
    -------
    distance : ndarray
        Along the ground; the radius in which nobody stands. [m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    delay = not_negative(fail_safe_delay, "fail_safe_delay", "s") + not_negative(
        reaction_time, "reaction_time", "s"
    )
    return stopping_distance(speed, delay, deceleration)


@formula("where(runs_on > 0, inf, delay)")
def delay_until_stop(delay: ArrayLike, runs_on: ArrayLike) -> NDArray[np.float64]:
    """Time from a lost link until the motors are let go; never, where they run on.

    Parameters
    ----------
    delay : array_like
        Until the receiver acts; >= 0. [s]
    runs_on : array_like
        1 where the last command is held, else 0. [1]

    Returns
    -------
    delay : ndarray
        Infinite where they run on. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    held, wait = np.broadcast_arrays(not_negative(runs_on, "runs_on"), not_negative(delay, "delay", "s"))
    return np.asarray(np.where(held > 0, np.where(np.isnan(wait), np.nan, np.inf), wait + 0 * held))


@formula("mass * speed**2 / 2")
def kinetic_energy(mass: ArrayLike, speed: ArrayLike) -> NDArray[np.float64]:
    """Energy of a moving mass.

    Parameters
    ----------
    mass : array_like
        That moves; >= 0. [kg]
    speed : array_like
        Of it. [m/s]

    Returns
    -------
    energy : ndarray
        Of the motion. [J]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(not_negative(mass, "mass", "kg") * number(speed) ** 2 / 2)


@formula("mass * GRAVITY * height")
def falling_energy(mass: ArrayLike, height: ArrayLike) -> NDArray[np.float64]:
    """Energy that a raised mass gives back when it falls.

    Parameters
    ----------
    mass : array_like
        That is raised; >= 0. [kg]
    height : array_like
        Through which it can fall; >= 0. [m]

    Returns
    -------
    energy : ndarray
        At the bottom. [J]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(not_negative(mass, "mass", "kg") * GRAVITY * not_negative(height, "height", "m"))
