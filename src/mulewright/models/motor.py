"""What does a brushed motor give? Current, torque and speed at a duty and a voltage."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.bounds import between, not_negative, number, positive
from mulewright.models.formula import formula


@formula("duty * voltage / resistance")
def stall_current(duty: ArrayLike, voltage: ArrayLike, resistance: ArrayLike) -> NDArray[np.float64]:
    """Current through a motor that is held.

    Parameters
    ----------
    duty : array_like
        Share of the supply that the motor gets; 0 to 1. [1]
    voltage : array_like
        Supply of the controller under that load; >= 0. [V]
    resistance : array_like
        Of the winding, with the wires if the voltage is taken before them; > 0. [ohm]

    Returns
    -------
    current : ndarray
        In the motor; the battery gives ``duty`` times as much. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    volts = between(duty, "duty", 0, 1) * not_negative(voltage, "voltage", "V")
    return np.asarray(volts / positive(resistance, "resistance", "ohm"))


@formula("torque_constant * maximum(duty * voltage / resistance - free_current, 0)")
def stall_torque_at(
    duty: ArrayLike,
    voltage: ArrayLike,
    resistance: ArrayLike,
    torque_constant: ArrayLike,
    free_current: ArrayLike,
) -> NDArray[np.float64]:
    """Torque of a motor that is held, at any duty and voltage.

    Parameters
    ----------
    duty : array_like
        Share of the supply that the motor gets; 0 to 1. [1]
    voltage : array_like
        Supply of the controller under that load; >= 0. [V]
    resistance : array_like
        Of the winding, with the wires if the voltage is taken before them; > 0. [ohm]
    torque_constant : array_like
        At the shaft that comes out; > 0. [N m/A]
    free_current : array_like
        What its own friction takes; >= 0. [A]

    Returns
    -------
    torque : ndarray
        Nothing while the current does not overcome the motor's own friction. [N m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    useful = stall_current(duty, voltage, resistance) - not_negative(free_current, "free_current", "A")
    return np.asarray(positive(torque_constant, "torque_constant", "N m/A") * np.maximum(useful, 0))


@formula("duty * voltage / nominal_voltage * stall_torque")
def scaled_stall_torque(
    duty: ArrayLike, voltage: ArrayLike, nominal_voltage: ArrayLike, stall_torque: ArrayLike
) -> NDArray[np.float64]:
    """Stall torque of the sheet scaled with the volts: simpler than ``stall_torque_at``, a little higher.

    Parameters
    ----------
    duty : array_like
        Share of the supply that the motor gets; 0 to 1. [1]
    voltage : array_like
        Supply of the controller under that load; >= 0. [V]
    nominal_voltage : array_like
        At which the sheet's torque holds; > 0. [V]
    stall_torque : array_like
        Of the sheet; > 0. [N m]

    Returns
    -------
    torque : ndarray
        With the shaft held. [N m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    volts = between(duty, "duty", 0, 1) * not_negative(voltage, "voltage", "V")
    of_sheet = positive(stall_torque, "stall_torque", "N m")
    return np.asarray(volts / positive(nominal_voltage, "nominal_voltage", "V") * of_sheet)


@formula("free_current + torque / torque_constant")
def current_for_torque(
    torque: ArrayLike, torque_constant: ArrayLike, free_current: ArrayLike
) -> NDArray[np.float64]:
    """Current that a steady torque takes.

    Parameters
    ----------
    torque : array_like
        Asked of the shaft that comes out; >= 0. [N m]
    torque_constant : array_like
        At that shaft; > 0. [N m/A]
    free_current : array_like
        With nothing on the shaft; >= 0. [A]

    Returns
    -------
    current : ndarray
        In the motor. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    amps = not_negative(torque, "torque", "N m") / positive(torque_constant, "torque_constant", "N m/A")
    return np.asarray(not_negative(free_current, "free_current", "A") + amps)


@formula("torque_constant * (current - free_current)")
def torque_at_current(
    current: ArrayLike, torque_constant: ArrayLike, free_current: ArrayLike
) -> NDArray[np.float64]:
    """Torque that a current gives at the shaft while it turns forwards.

    Parameters
    ----------
    current : array_like
        In the motor; negative while it brakes. [A]
    torque_constant : array_like
        At the shaft that comes out; > 0. [N m/A]
    free_current : array_like
        With nothing on the shaft; >= 0. [A]

    Returns
    -------
    torque : ndarray
        Negative while the shaft drives the motor. [N m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    useful = number(current) - not_negative(free_current, "free_current", "A")
    return np.asarray(positive(torque_constant, "torque_constant", "N m/A") * useful)


@formula("voltage - current * resistance")
def back_emf(voltage: ArrayLike, current: ArrayLike, resistance: ArrayLike) -> NDArray[np.float64]:
    """Volts that a turning motor makes against its supply.

    Parameters
    ----------
    voltage : array_like
        Across the motor. [V]
    current : array_like
        Into the motor; negative while it generates. [A]
    resistance : array_like
        Of the winding; >= 0. [ohm]

    Returns
    -------
    back_emf : ndarray
        Grows with the speed. [V]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Fitzgerald, Kingsley and Umans, Electric Machinery, ex. 7.1.
    """
    return np.asarray(number(voltage) - number(current) * not_negative(resistance, "resistance", "ohm"))


@formula("(duty * voltage - current * resistance) / back_emf_constant")
def speed_under_load(
    duty: ArrayLike,
    voltage: ArrayLike,
    current: ArrayLike,
    resistance: ArrayLike,
    back_emf_constant: ArrayLike,
) -> NDArray[np.float64]:
    """Steady speed of a motor that takes a current.

    Parameters
    ----------
    duty : array_like
        Share of the supply that the motor gets; -1 to 1. [1]
    voltage : array_like
        Supply of the controller under that load; >= 0. [V]
    current : array_like
        In the motor. [A]
    resistance : array_like
        Of the winding, with the wires if the voltage is taken before them; >= 0. [ohm]
    back_emf_constant : array_like
        At the shaft that comes out; > 0. [V s/rad]

    Returns
    -------
    speed : ndarray
        Negative if the load would drive it backwards. [rad/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    applied = between(duty, "duty", -1, 1) * not_negative(voltage, "voltage", "V")
    made = back_emf(applied, current, resistance)
    return np.asarray(made / positive(back_emf_constant, "back_emf_constant", "V s/rad"))


@formula("(duty * voltage - back_emf_constant * speed) / resistance")
def current_at_speed(
    duty: ArrayLike,
    voltage: ArrayLike,
    speed: ArrayLike,
    back_emf_constant: ArrayLike,
    resistance: ArrayLike,
) -> NDArray[np.float64]:
    """Current in a motor that turns at a speed.

    Parameters
    ----------
    duty : array_like
        Share of the supply that the motor gets; -1 to 1. [1]
    voltage : array_like
        Supply of the controller under that load; >= 0. [V]
    speed : array_like
        Of the shaft that comes out. [rad/s]
    back_emf_constant : array_like
        At that shaft; > 0. [V s/rad]
    resistance : array_like
        Of the winding, with the wires if the voltage is taken before them; > 0. [ohm]

    Returns
    -------
    current : ndarray
        Negative while the motor brakes and gives current back. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    applied = between(duty, "duty", -1, 1) * not_negative(voltage, "voltage", "V")
    made = positive(back_emf_constant, "back_emf_constant", "V s/rad") * number(speed)
    return np.asarray((applied - made) / positive(resistance, "resistance", "ohm"))


@formula("(duty * voltage + back_emf_constant * speed) / resistance")
def reversal_peak_current(
    duty: ArrayLike,
    voltage: ArrayLike,
    speed: ArrayLike,
    back_emf_constant: ArrayLike,
    resistance: ArrayLike,
) -> NDArray[np.float64]:
    """Current at the moment in which a running motor is told to run the other way.

    Parameters
    ----------
    duty : array_like
        Of the reverse command, without its sign; 0 to 1. [1]
    voltage : array_like
        Supply of the controller under that load; >= 0. [V]
    speed : array_like
        At which it still runs forwards; >= 0. [rad/s]
    back_emf_constant : array_like
        At that shaft; > 0. [V s/rad]
    resistance : array_like
        Of the winding, with the wires if the voltage is taken before them; > 0. [ohm]

    Returns
    -------
    current : ndarray
        Up to twice the stall current. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    backwards = -not_negative(speed, "speed", "rad/s")
    return current_at_speed(between(duty, "duty", 0, 1), voltage, backwards, back_emf_constant, resistance)


@formula("where(relief < limit, inf, limit)")
def relieved_limit(limit: ArrayLike, relief: ArrayLike) -> NDArray[np.float64]:
    """Current that something bears, or no limit where the load gives way before it is reached.

    Parameters
    ----------
    limit : array_like
        Current that it bears; >= 0. [A]
    relief : array_like
        Current at which the load gives way, e.g. a wheel slips; >= 0. [A]

    Returns
    -------
    limit : ndarray
        Infinite where the relief comes first. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    borne, given = not_negative(limit, "limit", "A"), not_negative(relief, "relief", "A")
    return np.asarray(np.where(given < borne, np.inf, borne + 0 * given))
