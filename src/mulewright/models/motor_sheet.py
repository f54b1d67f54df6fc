"""What are a motor's constants? From its sheet, or from a held shaft and a free run on the bench."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import not_negative, number, positive
from mulewright.models.formula import formula


@formula("voltage / current")
def winding_resistance(voltage: ArrayLike, current: ArrayLike) -> NDArray[np.float64]:
    """Resistance of the winding, its brushes and its leads, from a held shaft.

    The sheet's stall point, or volts and amps of a short test with the shaft held. An ohmmeter does
    not do: its small current meets the contact resistance of the brushes.

    Parameters
    ----------
    voltage : array_like
        Across the motor, shaft held; > 0. [V]
    current : array_like
        At that voltage; > 0. [A]

    Returns
    -------
    resistance : ndarray
        At the temperature of the test. [ohm]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(positive(voltage, "voltage", "V") / positive(current, "current", "A"))


@formula("torque / (current - free_current)")
def torque_constant(torque: ArrayLike, current: ArrayLike, free_current: ArrayLike) -> NDArray[np.float64]:
    """Torque for each ampere above the free current, at the shaft that comes out.

    From the sheet's stall point, or from a lever and a spring scale.

    Parameters
    ----------
    torque : array_like
        Measured or stall torque; > 0. [N m]
    current : array_like
        At that torque; above the free current. [A]
    free_current : array_like
        With nothing on the shaft; >= 0. [A]

    Returns
    -------
    torque_constant : ndarray
        Includes the losses of a gearbox that is in the sheet's figures. [N m/A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    amps, free = number(current), not_negative(free_current, "free_current", "A")
    require(~(amps <= free), "current", "must be above the free current, in A", amps)
    return np.asarray(positive(torque, "torque", "N m") / (amps - free))


@formula("(voltage - free_current * resistance) / free_speed")
def back_emf_constant(
    voltage: ArrayLike, free_current: ArrayLike, resistance: ArrayLike, free_speed: ArrayLike
) -> NDArray[np.float64]:
    """Volts that the motor makes for each rad/s of the shaft that comes out, from a free run.

    Parameters
    ----------
    voltage : array_like
        At which it runs free; > 0. [V]
    free_current : array_like
        With nothing on the shaft; >= 0. [A]
    resistance : array_like
        Of the winding; >= 0, and the voltage must exceed its drop. [ohm]
    free_speed : array_like
        With nothing on the shaft; > 0. [rad/s]

    Returns
    -------
    back_emf_constant : ndarray
        Of motor and gearbox together. [V s/rad]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Fitzgerald, Kingsley and Umans, Electric Machinery, ex. 7.9 (without a gearbox).
    """
    volts = positive(voltage, "voltage", "V")
    drop = not_negative(free_current, "free_current", "A") * not_negative(resistance, "resistance", "ohm")
    require(~(drop >= volts), "voltage", "must exceed free current times resistance, in V", volts)
    return np.asarray((volts - drop) / positive(free_speed, "free_speed", "rad/s"))


@formula("stall_torque * free_speed / (voltage * stall_current)")
def sheet_power_ratio(
    stall_torque: ArrayLike, free_speed: ArrayLike, voltage: ArrayLike, stall_current: ArrayLike
) -> NDArray[np.float64]:
    """Sanity figure of a motor's sheet: mechanical over electrical product of its end points.

    Above one the sheet is impossible; far below, a unit was mixed up.

    Parameters
    ----------
    stall_torque : array_like
        With the shaft held; > 0. [N m]
    free_speed : array_like
        With nothing on the shaft; > 0. [rad/s]
    voltage : array_like
        At which both hold; > 0. [V]
    stall_current : array_like
        With the shaft held; > 0. [A]

    Returns
    -------
    ratio : ndarray
        Close to the efficiency of the gearbox. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    mechanical = positive(stall_torque, "stall_torque", "N m") * positive(free_speed, "free_speed", "rad/s")
    return np.asarray(
        mechanical / (positive(voltage, "voltage", "V") * positive(stall_current, "stall_current", "A"))
    )
