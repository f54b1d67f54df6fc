"""What push and torque the grip of the wheels allows, and what it costs to scrub them round."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import Floats, efficiency_of, not_negative, number, positive
from mulewright.models.formula import formula


def _grip(friction: ArrayLike, load: ArrayLike) -> Floats:
    return np.asarray(not_negative(friction, "friction") * not_negative(load, "load", "N"))


@formula("friction * load * wheel_radius")
def slip_torque(friction: ArrayLike, load: ArrayLike, wheel_radius: ArrayLike) -> NDArray[np.float64]:
    """Torque at which a plain wheel slips.

    Parameters
    ----------
    friction : array_like
        Coefficient of friction between wheel and floor; >= 0. [1]
    load : array_like
        Force with which the wheel stands on the floor; >= 0. [N]
    wheel_radius : array_like
        Wheel radius; > 0. [m]

    Returns
    -------
    torque : ndarray
        Torque at the wheel. [N m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(_grip(friction, load) * positive(wheel_radius, "wheel_radius", "m"))


@formula("friction * load * wheel_radius / sqrt(2)")
def roller_slip_torque(friction: ArrayLike, load: ArrayLike, wheel_radius: ArrayLike) -> NDArray[np.float64]:
    """Torque at which a 45 degree roller wheel slips.

    Parameters
    ----------
    friction : array_like
        Coefficient of friction between roller and floor; >= 0. [1]
    load : array_like
        Force with which the wheel stands on the floor; >= 0. [N]
    wheel_radius : array_like
        Wheel radius; > 0. [m]

    Returns
    -------
    torque : ndarray
        Torque at the wheel. [N m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(slip_torque(friction, load, wheel_radius) / np.sqrt(2))


@formula("torque * ratio * efficiency / wheel_radius")
def wheel_push(
    torque: ArrayLike, ratio: ArrayLike, efficiency: ArrayLike, wheel_radius: ArrayLike
) -> NDArray[np.float64]:
    """Push that a motor torque makes at the rim of its wheel while the wheel grips.

    Parameters
    ----------
    torque : array_like
        At the motor's shaft. [N m]
    ratio : array_like
        Motor turns for one turn of the wheel, after any gearbox in the motor's sheet; > 0. [1]
    efficiency : array_like
        Of that reduction; > 0, at most 1. [1]
    wheel_radius : array_like
        Wheel radius; > 0. [m]

    Returns
    -------
    push : ndarray
        Along the floor. [N]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    at_wheel = number(torque) * positive(ratio, "ratio") * efficiency_of(efficiency)
    return np.asarray(at_wheel / positive(wheel_radius, "wheel_radius", "m"))


@formula("speed / ratio * wheel_radius")
def wheel_speed(speed: ArrayLike, ratio: ArrayLike, wheel_radius: ArrayLike) -> NDArray[np.float64]:
    """Speed of the rim of a wheel or roller behind gears.

    Parameters
    ----------
    speed : array_like
        Of the motor's shaft. [rad/s]
    ratio : array_like
        Motor turns for one turn of the wheel, after any gearbox in the motor's sheet; > 0. [1]
    wheel_radius : array_like
        Wheel radius; > 0. [m]

    Returns
    -------
    speed : ndarray
        Along the rim. [m/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(number(speed) / positive(ratio, "ratio") * positive(wheel_radius, "wheel_radius", "m"))


@formula("friction * load / (sqrt(2) * (abs(cos(direction)) + abs(sin(direction))))")
def roller_push(friction: ArrayLike, load: ArrayLike, direction: ArrayLike) -> NDArray[np.float64]:
    """Push that the grip of four evenly loaded 45 degree roller wheels allows, without turning.

    A wheel can only push along the axis of the roller that it stands on. Straight ahead and sideways
    that leaves 0.71 of the grip of plain wheels; on the diagonal, where two wheels idle, half.

    Parameters
    ----------
    friction : array_like
        Coefficient of friction between rollers and floor; >= 0. [1]
    load : array_like
        Force with which all four wheels stand on the floor; >= 0. [N]
    direction : array_like
        Direction of the push, from straight ahead. [rad]

    Returns
    -------
    force : ndarray
        Largest push. [N]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    aim = number(direction)
    spread = np.sqrt(2) * (np.abs(np.cos(aim)) + np.abs(np.sin(aim)))
    return np.asarray(_grip(friction, load) / spread)


@formula("friction * load * wheelbase / (2 * track)")
def skid_turn_force(
    friction: ArrayLike, load: ArrayLike, wheelbase: ArrayLike, track: ArrayLike
) -> NDArray[np.float64]:
    """Force along each side that turns a cart whose four wheels have to scrub sideways.

    All four wheels evenly loaded and sliding straight sideways; the turn is about the middle.

    Parameters
    ----------
    friction : array_like
        Sideways coefficient of friction between wheel and floor; >= 0. [1]
    load : array_like
        Force with which all four wheels stand on the floor; >= 0. [N]
    wheelbase : array_like
        Distance from the front to the rear wheels; >= 0. [m]
    track : array_like
        Distance from the left to the right wheels; > 0. [m]

    Returns
    -------
    force : ndarray
        Force ahead on one side, and astern on the other. [N]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    lever_ratio = not_negative(wheelbase, "wheelbase", "m") / positive(track, "track", "m")
    return np.asarray(_grip(friction, load) * lever_ratio / 2)
