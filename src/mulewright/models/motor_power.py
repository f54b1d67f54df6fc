"""Where do a motor's watts go? Shaft, losses, the best point, and what a brake on the bench shows."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import not_negative, number, positive
from mulewright.models.formula import formula
from mulewright.models.motor import back_emf


@formula("torque * speed")
def shaft_power(torque: ArrayLike, speed: ArrayLike) -> NDArray[np.float64]:
    """Mechanical power of a turning shaft.

    Parameters
    ----------
    torque : array_like
        On the shaft. [N m]
    speed : array_like
        Of the shaft. [rad/s]

    Returns
    -------
    power : ndarray
        Negative where torque and speed point opposite ways. [W]
    """
    return np.asarray(number(torque) * number(speed))


@formula("stall_torque / 2")
def torque_at_peak_power(stall_torque: ArrayLike) -> NDArray[np.float64]:
    """Torque at which a motor gives most power.

    Parameters
    ----------
    stall_torque : array_like
        With the shaft held; > 0. [N m]

    Returns
    -------
    torque : ndarray
        Half of it, for a motor whose torque falls evenly with speed. [N m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(positive(stall_torque, "stall_torque", "N m") / 2)


@formula("free_speed / 2")
def speed_at_peak_power(free_speed: ArrayLike) -> NDArray[np.float64]:
    """Speed at which a motor gives most power.

    Parameters
    ----------
    free_speed : array_like
        With nothing on the shaft; > 0. [rad/s]

    Returns
    -------
    speed : ndarray
        Half of it, for a motor whose torque falls evenly with speed. [rad/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(positive(free_speed, "free_speed", "rad/s") / 2)


@formula("stall_torque * free_speed / 4")
def peak_power(stall_torque: ArrayLike, free_speed: ArrayLike) -> NDArray[np.float64]:
    """Most power that a motor gives at its shaft.

    Parameters
    ----------
    stall_torque : array_like
        With the shaft held; > 0. [N m]
    free_speed : array_like
        With nothing on the shaft; > 0. [rad/s]

    Returns
    -------
    power : ndarray
        At half the stall torque and half the free speed. [W]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return shaft_power(torque_at_peak_power(stall_torque), speed_at_peak_power(free_speed))


@formula("(voltage - free_current * resistance) * free_current")
def no_load_loss(voltage: ArrayLike, free_current: ArrayLike, resistance: ArrayLike) -> NDArray[np.float64]:
    """Power that friction, windage and iron take in a free run; the winding's own heat is not in it.

    Parameters
    ----------
    voltage : array_like
        At which it runs free; > 0. [V]
    free_current : array_like
        With nothing on the shaft; >= 0. [A]
    resistance : array_like
        Of the winding; >= 0. [ohm]

    Returns
    -------
    power : ndarray
        At the speed of that free run. [W]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Fitzgerald, Kingsley and Umans, Electric Machinery, ex. 7.9.
    """
    amps = not_negative(free_current, "free_current", "A")
    return np.asarray(back_emf(positive(voltage, "voltage", "V"), amps, resistance) * amps)


@formula("(force - tare) * arm")
def brake_torque(force: ArrayLike, tare: ArrayLike, arm: ArrayLike) -> NDArray[np.float64]:
    """Torque of a shaft from a lever, a friction brake and a scale.

    Parameters
    ----------
    force : array_like
        Reading of the scale under load. [N]
    tare : array_like
        Reading with the brake loose. [N]
    arm : array_like
        From the shaft to the scale, square to the force; > 0. [m]

    Returns
    -------
    torque : ndarray
        On the shaft. [N m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Guru and Hiziroglu, Electric Machinery and Transformers, ex. 6.7.
    """
    return np.asarray((number(force) - number(tare)) * positive(arm, "arm", "m"))


@formula("torque * speed / (voltage * current)")
def motor_efficiency(
    torque: ArrayLike, speed: ArrayLike, voltage: ArrayLike, current: ArrayLike
) -> NDArray[np.float64]:
    """Share of the electrical power that arrives at the shaft.

    Parameters
    ----------
    torque : array_like
        On the shaft; >= 0. [N m]
    speed : array_like
        Of the shaft; >= 0. [rad/s]
    voltage : array_like
        Across the motor; > 0. [V]
    current : array_like
        Into the motor; > 0. [A]

    Returns
    -------
    efficiency : ndarray
        Of motor and gearbox together. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    given = shaft_power(not_negative(torque, "torque", "N m"), not_negative(speed, "speed", "rad/s"))
    return np.asarray(given / (positive(voltage, "voltage", "V") * positive(current, "current", "A")))
