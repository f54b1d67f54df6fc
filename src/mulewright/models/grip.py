"""Does a gripper hold, and what does its servo give? Jaw force needed and had, servo torque and speed."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import between, not_negative, number, positive
from mulewright.models.constants import GRAVITY
from mulewright.models.formula import formula


@formula("mass * (GRAVITY + acceleration) / (friction * pads)")
def needed_grip_force(
    mass: ArrayLike, acceleration: ArrayLike, friction: ArrayLike, pads: ArrayLike
) -> NDArray[np.float64]:
    """Force of each jaw that just keeps an object from slipping out.

    Parameters
    ----------
    mass : array_like
        Of the object; >= 0. [kg]
    acceleration : array_like
        Of turning and stopping, taken as if it added to gravity; >= 0. [m/s^2]
    friction : array_like
        Of pad on object; > 0. [1]
    pads : array_like
        That touch it, two for two jaws; > 0. [1]

    Returns
    -------
    force : ndarray
        Square to the pad. [N]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    load = not_negative(mass, "mass", "kg") * (GRAVITY + not_negative(acceleration, "acceleration", "m/s^2"))
    return np.asarray(load / (positive(friction, "friction") * positive(pads, "pads")))


@formula("share * torque / (jaws * finger_length)")
def jaw_force(
    torque: ArrayLike, share: ArrayLike, jaws: ArrayLike, finger_length: ArrayLike
) -> NDArray[np.float64]:
    """Force that a servo gives at the tip of each jaw.

    Parameters
    ----------
    torque : array_like
        Stall torque of the servo; >= 0. [N m]
    share : array_like
        Of the stall torque, 1 at the peak, less if it must last; 0 to 1. [1]
    jaws : array_like
        That one servo moves; > 0. [1]
    finger_length : array_like
        From the jaw's axis to the pad; > 0. [m]

    Returns
    -------
    force : ndarray
        Square to the finger. [N]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    lasting = between(share, "share", 0, 1) * not_negative(torque, "torque", "N m")
    return np.asarray(lasting / (positive(jaws, "jaws") * positive(finger_length, "finger_length", "m")))


@formula(
    "maximum(low_torque + (high_torque - low_torque)"
    " * (voltage - low_voltage) / (high_voltage - low_voltage), 0)"
)
def servo_torque(
    voltage: ArrayLike,
    low_voltage: ArrayLike,
    low_torque: ArrayLike,
    high_voltage: ArrayLike,
    high_torque: ArrayLike,
) -> NDArray[np.float64]:
    """Stall torque of a servo between, or beside, the two voltages of its sheet.

    With one figure on the sheet, the other is no torque at no volts.

    Parameters
    ----------
    voltage : array_like
        Of its rail; >= 0. [V]
    low_voltage : array_like
        Lower voltage of the sheet; >= 0. [V]
    low_torque : array_like
        Stall torque there; >= 0. [N m]
    high_voltage : array_like
        Higher voltage of the sheet; above the lower one. [V]
    high_torque : array_like
        Stall torque there; >= 0. [N m]

    Returns
    -------
    torque : ndarray
        On a straight line. [N m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    low, high = not_negative(low_voltage, "low_voltage", "V"), number(high_voltage)
    require(~(high <= low), "high_voltage", "must be above the lower voltage, in V", high)
    weak = not_negative(low_torque, "low_torque", "N m")
    gain = (not_negative(high_torque, "high_torque", "N m") - weak) / (high - low)
    return np.asarray(np.maximum(weak + gain * (not_negative(voltage, "voltage", "V") - low), 0))


@formula("free_speed * maximum(1 - torque / stall_torque, 0)")
def servo_speed_under_load(
    torque: ArrayLike, stall_torque: ArrayLike, free_speed: ArrayLike
) -> NDArray[np.float64]:
    """Speed that a servo keeps under a load.

    Parameters
    ----------
    torque : array_like
        Of the load; >= 0. [N m]
    stall_torque : array_like
        At its rail voltage; > 0. [N m]
    free_speed : array_like
        Of the sheet, without load; > 0. [rad/s]

    Returns
    -------
    speed : ndarray
        Zero where the load stalls it. [rad/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    left = 1 - not_negative(torque, "torque", "N m") / positive(stall_torque, "stall_torque", "N m")
    return np.asarray(positive(free_speed, "free_speed", "rad/s") * np.maximum(left, 0))


@formula("stall_torque * maximum(1 - speed / free_speed, 0)")
def servo_torque_at_speed(
    speed: ArrayLike, free_speed: ArrayLike, stall_torque: ArrayLike
) -> NDArray[np.float64]:
    """Torque that a servo has left while it turns.

    Parameters
    ----------
    speed : array_like
        Of its output; >= 0. [rad/s]
    free_speed : array_like
        Of the sheet, without load; > 0. [rad/s]
    stall_torque : array_like
        At its rail voltage; > 0. [N m]

    Returns
    -------
    torque : ndarray
        Zero from its free speed upwards. [N m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    left = 1 - not_negative(speed, "speed", "rad/s") / positive(free_speed, "free_speed", "rad/s")
    return np.asarray(positive(stall_torque, "stall_torque", "N m") * np.maximum(left, 0))
