"""Does a loaded joint rise, stay or sink? The band of duties that hold it, and what holding costs."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import Floats, between, not_negative, number, positive
from mulewright.models.formula import formula
from mulewright.models.joint import needed_torque


@formula("torque * resistance / (ratio * efficiency * torque_constant * voltage)")
def hold_duty_upper(
    torque: ArrayLike,
    resistance: ArrayLike,
    ratio: ArrayLike,
    efficiency: ArrayLike,
    torque_constant: ArrayLike,
    voltage: ArrayLike,
) -> NDArray[np.float64]:
    """Duty above which a loaded joint starts to rise.

    The free current is left out: with it the duty is a little higher.

    Parameters
    ----------
    torque : array_like
        Of the load at the joint; >= 0. [N m]
    resistance : array_like
        Of the winding; > 0. [ohm]
    ratio : array_like
        Motor turns for one turn of the joint, after any gearbox in the motor's sheet; > 0. [1]
    efficiency : array_like
        Of that reduction while the motor drives; > 0, at most 1. [1]
    torque_constant : array_like
        At the shaft of the motor or gearmotor; > 0. [N m/A]
    voltage : array_like
        Supply of the controller; > 0. [V]

    Returns
    -------
    duty : ndarray
        Above one the motor cannot lift the load. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    asked = needed_torque(not_negative(torque, "torque", "N m"), ratio, efficiency)
    current = asked / positive(torque_constant, "torque_constant", "N m/A")
    return np.asarray(current * positive(resistance, "resistance", "ohm") / positive(voltage, "voltage", "V"))


@formula("torque * back_efficiency * resistance / (ratio * back_emf_constant * voltage)")
def hold_duty_lower(
    torque: ArrayLike,
    back_efficiency: ArrayLike,
    resistance: ArrayLike,
    ratio: ArrayLike,
    back_emf_constant: ArrayLike,
    voltage: ArrayLike,
) -> NDArray[np.float64]:
    """Duty below which a loaded joint starts to sink.

    Parameters
    ----------
    torque : array_like
        Of the load at the joint; >= 0. [N m]
    back_efficiency : array_like
        Of all gears together while the load drives, those in the motor's sheet included; 0 to 1. [1]
    resistance : array_like
        Of the winding; > 0. [ohm]
    ratio : array_like
        Motor turns for one turn of the joint, after any gearbox in the motor's sheet; > 0. [1]
    back_emf_constant : array_like
        At the shaft of the motor or gearmotor; > 0. [V s/rad]
    voltage : array_like
        Supply of the controller; > 0. [V]

    Returns
    -------
    duty : ndarray
        Zero for a train that does not let its load drive it. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    current = _back_driven_current(torque, back_efficiency, ratio, back_emf_constant)
    return np.asarray(current * positive(resistance, "resistance", "ohm") / positive(voltage, "voltage", "V"))


@formula("torque * back_efficiency * resistance / (ratio**2 * back_emf_constant**2)")
def sink_speed(
    torque: ArrayLike,
    back_efficiency: ArrayLike,
    resistance: ArrayLike,
    ratio: ArrayLike,
    back_emf_constant: ArrayLike,
) -> NDArray[np.float64]:
    """Speed at which a loaded joint sinks while its controller brakes, its two motor leads joined.

    Parameters
    ----------
    torque : array_like
        Of the load at the joint; >= 0. [N m]
    back_efficiency : array_like
        Of all gears together while the load drives, those in the motor's sheet included; 0 to 1. [1]
    resistance : array_like
        Of the winding; > 0. [ohm]
    ratio : array_like
        Motor turns for one turn of the joint, after any gearbox in the motor's sheet; > 0. [1]
    back_emf_constant : array_like
        At the shaft of the motor or gearmotor; > 0. [V s/rad]

    Returns
    -------
    speed : ndarray
        Of the joint; a controller that coasts lets it fall faster. [rad/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    current = _back_driven_current(torque, back_efficiency, ratio, back_emf_constant)
    made = positive(ratio, "ratio") * number(back_emf_constant)
    return np.asarray(current * positive(resistance, "resistance", "ohm") / made)


@formula("where(torque * back_efficiency > 0, inf, 0)")
def coasting_sink_speed(torque: ArrayLike, back_efficiency: ArrayLike) -> NDArray[np.float64]:
    """Speed that a loaded joint tends to while its controller coasts, its two motor leads apart.

    Nothing electrical brakes it then: it falls ever faster, unless its gears hold the load by themselves.

    Parameters
    ----------
    torque : array_like
        Of the load at the joint; >= 0. [N m]
    back_efficiency : array_like
        Of all gears together while the load drives; 0 to 1. [1]

    Returns
    -------
    speed : ndarray
        Infinite, or 0 where nothing drives the motor. [rad/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    driving = not_negative(torque, "torque", "N m") * between(back_efficiency, "back_efficiency", 0, 1)
    return np.asarray(np.where(driving > 0, np.inf, driving))


@formula("(duty * voltage)**2 / resistance")
def hold_power(duty: ArrayLike, voltage: ArrayLike, resistance: ArrayLike) -> NDArray[np.float64]:
    """Heat in the winding of a motor that holds still.

    Parameters
    ----------
    duty : array_like
        With which it holds; -1 to 1. [1]
    voltage : array_like
        Supply of the controller; >= 0. [V]
    resistance : array_like
        Of the winding; > 0. [ohm]

    Returns
    -------
    power : ndarray
        All of it is heat. [W]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    volts = between(duty, "duty", -1, 1) * not_negative(voltage, "voltage", "V")
    return np.asarray(volts**2 / positive(resistance, "resistance", "ohm"))


@formula("(rising_duty + sinking_duty) * voltage / 2")
def gravity_volts(rising_duty: ArrayLike, sinking_duty: ArrayLike, voltage: ArrayLike) -> NDArray[np.float64]:
    """Volts that balance the load alone, from the two ends of the hold band.

    Parameters
    ----------
    rising_duty : array_like
        At which the joint starts to rise. [1]
    sinking_duty : array_like
        At which it starts to sink. [1]
    voltage : array_like
        Supply of the controller meanwhile; >= 0. [V]

    Returns
    -------
    voltage : ndarray
        Middle of the band. [V]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(
        (number(rising_duty) + number(sinking_duty)) * not_negative(voltage, "voltage", "V") / 2
    )


@formula("(rising_duty - sinking_duty) * voltage / 2")
def friction_volts(
    rising_duty: ArrayLike, sinking_duty: ArrayLike, voltage: ArrayLike
) -> NDArray[np.float64]:
    """Volts that friction alone takes, from the two ends of the hold band.

    Parameters
    ----------
    rising_duty : array_like
        At which the joint starts to rise. [1]
    sinking_duty : array_like
        At which it starts to sink. [1]
    voltage : array_like
        Supply of the controller meanwhile; >= 0. [V]

    Returns
    -------
    voltage : ndarray
        Half the width of the band. [V]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(
        (number(rising_duty) - number(sinking_duty)) * not_negative(voltage, "voltage", "V") / 2
    )


@formula("where(sinking_duty > 0, (rising_duty + sinking_duty) * voltage / 2, 0)")
def holding_volts(rising_duty: ArrayLike, sinking_duty: ArrayLike, voltage: ArrayLike) -> NDArray[np.float64]:
    """Volts with which a stick holds a load up: those that balance it, or none where it stays by itself.

    Parameters
    ----------
    rising_duty : array_like
        At which the joint starts to rise. [1]
    sinking_duty : array_like
        At which it starts to sink; 0 for a train that its load does not drive. [1]
    voltage : array_like
        Supply of the controller meanwhile; >= 0. [V]

    Returns
    -------
    voltage : ndarray
        Middle of the hold band. [V]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    middle, low = gravity_volts(rising_duty, sinking_duty, voltage), number(sinking_duty)
    return np.asarray(np.where(low > 0, middle, 0 * middle))


def _back_driven_current(
    torque: ArrayLike, back_efficiency: ArrayLike, ratio: ArrayLike, back_emf_constant: ArrayLike
) -> Floats:
    """[A] current that keeps a load from sinking faster."""
    at_motor = not_negative(torque, "torque", "N m") * between(back_efficiency, "back_efficiency", 0, 1)
    return at_motor / (positive(ratio, "ratio") * positive(back_emf_constant, "back_emf_constant", "V s/rad"))
