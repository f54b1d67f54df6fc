"""How warm does a receiver's supply get, and when does its rail fall? Linear and switching regulators."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.models.arithmetic import largest
from mulewright.models.bounds import Floats, efficiency_of, not_negative, number, one_each, positive
from mulewright.models.formula import formula


@formula("(input_voltage - output_voltage) * current")
def linear_regulator_power(
    input_voltage: ArrayLike, output_voltage: ArrayLike, current: ArrayLike
) -> NDArray[np.float64]:
    """Heat made in a linear regulator.

    Parameters
    ----------
    input_voltage : array_like
        At the regulator; >= output_voltage. [V]
    output_voltage : array_like
        Of the rail; > 0. [V]
    current : array_like
        Drawn from the rail; >= 0. [A]

    Returns
    -------
    power : ndarray
        All the volts that the rail does not get, times the current. [W]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(_lost(input_voltage, output_voltage) * not_negative(current, "current", "A"))


@formula("(input_voltage - output_voltage) * current * thermal_resistance")
def linear_regulator_rise(
    input_voltage: ArrayLike, output_voltage: ArrayLike, current: ArrayLike, thermal_resistance: ArrayLike
) -> NDArray[np.float64]:
    """Temperature of a linear regulator above the air, once it is steady.

    Parameters
    ----------
    input_voltage : array_like
        At the regulator; >= output_voltage. [V]
    output_voltage : array_like
        Of the rail; > 0. [V]
    current : array_like
        Drawn from the rail; >= 0. [A]
    thermal_resistance : array_like
        To the air, as mounted; >= 0. [K/W]

    Returns
    -------
    rise : ndarray
        Above the air around it. [K]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    power = linear_regulator_power(input_voltage, output_voltage, current)
    return np.asarray(power * not_negative(thermal_resistance, "thermal_resistance", "K/W"))


@formula("rise / (thermal_resistance * (input_voltage - output_voltage))")
def linear_regulator_current_max(
    input_voltage: ArrayLike, output_voltage: ArrayLike, thermal_resistance: ArrayLike, rise: ArrayLike
) -> NDArray[np.float64]:
    """Current at which a linear regulator reaches a temperature rise.

    Parameters
    ----------
    input_voltage : array_like
        At the regulator; > output_voltage. [V]
    output_voltage : array_like
        Of the rail; > 0. [V]
    thermal_resistance : array_like
        To the air, as mounted; > 0. [K/W]
    rise : array_like
        The most it may be above the air; >= 0. [K]

    Returns
    -------
    current : ndarray
        From the rail, for long; the label may promise more. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    Examples
    --------
    A rise of 100 K at 30 K/W, from 12.6 V to 6.0 V:

    >>> print(f"{linear_regulator_current_max(12.6, 6.0, 30, 100):.2f} A")
    0.51 A
    """
    lost = positive(_lost(input_voltage, output_voltage), "input_voltage - output_voltage", "V")
    warmth = positive(thermal_resistance, "thermal_resistance", "K/W")
    return np.asarray(not_negative(rise, "rise", "K") / (warmth * lost))


@formula("output_voltage / input_voltage")
def linear_regulator_efficiency(input_voltage: ArrayLike, output_voltage: ArrayLike) -> NDArray[np.float64]:
    """Part of its power that a linear regulator passes on.

    Parameters
    ----------
    input_voltage : array_like
        At the regulator; >= output_voltage. [V]
    output_voltage : array_like
        Of the rail; > 0. [V]

    Returns
    -------
    efficiency : ndarray
        Without the small current it needs itself. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(1 - _lost(input_voltage, output_voltage) / number(input_voltage))


@formula("output_voltage * current / (efficiency * input_voltage)")
def switching_regulator_input_current(
    output_voltage: ArrayLike, current: ArrayLike, efficiency: ArrayLike, input_voltage: ArrayLike
) -> NDArray[np.float64]:
    """Current that a switching regulator draws from the bus; a linear one draws what it gives.

    Parameters
    ----------
    output_voltage : array_like
        Of the rail; >= 0. [V]
    current : array_like
        Drawn from the rail; >= 0. [A]
    efficiency : array_like
        Power out over power in; > 0, at most 1. [1]
    input_voltage : array_like
        Of the bus; > 0. [V]

    Returns
    -------
    current : ndarray
        Grows when the bus sags. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    power = not_negative(output_voltage, "output_voltage", "V") * not_negative(current, "current", "A")
    return np.asarray(power / (efficiency_of(efficiency) * positive(input_voltage, "input_voltage", "V")))


@formula("maximum(0, minimum(regulated_voltage, bus_voltage - dropout))")
def rail_voltage(
    regulated_voltage: ArrayLike, bus_voltage: ArrayLike, dropout: ArrayLike
) -> NDArray[np.float64]:
    """Voltage of a rail behind a regulator that can only step down.

    Parameters
    ----------
    regulated_voltage : array_like
        What the regulator is set to; >= 0. [V]
    bus_voltage : array_like
        What it is fed with. [V]
    dropout : array_like
        What it needs between the two; >= 0. [V]

    Returns
    -------
    voltage : ndarray
        Follows the bus down once that has sagged too far. [V]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    regulated = not_negative(regulated_voltage, "regulated_voltage", "V")
    sagged = number(bus_voltage) - not_negative(dropout, "dropout", "V")
    return np.asarray(np.maximum(0.0, np.minimum(regulated, sagged)))


@formula("max(ratings)")
def parallel_planning_current(ratings: Sequence[ArrayLike]) -> NDArray[np.float64]:
    """Current to plan on with several regulators on one rail: the one set highest carries it all.

    Parameters
    ----------
    ratings : sequence of array_like
        Continuous current of each regulator; at least one. [A]

    Returns
    -------
    current : ndarray
        Of the strongest; their sum is the hope, not the plan. [A]

    Raises
    ------
    DomainError
        If there is no regulator.
    """
    return largest(ratings)


@formula("max(values * (voltages >= max(voltages)))")
def of_highest(voltages: Sequence[ArrayLike], values: Sequence[ArrayLike]) -> NDArray[np.float64]:
    """Value of the regulator that is set highest and so carries a rail; of equal ones, the largest value.

    Parameters
    ----------
    voltages : sequence of array_like
        Of each regulator; at least one. [V]
    values : sequence of array_like
        What each would show if it carried all; >= 0, one per voltage. [any]

    Returns
    -------
    value : ndarray
        Of the one that carries all. [as values]

    Raises
    ------
    DomainError
        If there is no regulator, a value is negative, or the lists differ in length.
    """
    one_each("values", values, "voltages", voltages)
    top = largest(voltages)
    carried = [
        not_negative(value, "values") * (number(voltage) >= top)
        for voltage, value in zip(voltages, values, strict=True)
    ]
    return np.where(np.isnan(top), np.nan, largest(carried))


def _lost(input_voltage: ArrayLike, output_voltage: ArrayLike) -> Floats:
    lost = np.asarray(number(input_voltage) - positive(output_voltage, "output_voltage", "V"))
    return not_negative(lost, "input_voltage - output_voltage", "V")
