"""How hot does a winding get, and how soon? One lump of copper, with resistance that grows as it heats."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import not_negative, number, positive
from mulewright.models.formula import formula, valid_for
from mulewright.models.wire import T_ZERO_RESISTANCE, TEMP_COEFFICIENT_20C

COPPER_SPECIFIC_HEAT = 385.0  # [J/(kg K)] near room temperature, common handbook value, from memory


@formula("copper_mass * COPPER_SPECIFIC_HEAT")
def winding_heat_capacity(copper_mass: ArrayLike) -> NDArray[np.float64]:
    """Heat that a winding takes for each kelvin.

    Parameters
    ----------
    copper_mass : array_like
        Of the winding; > 0. [kg]

    Returns
    -------
    heat_capacity : ndarray
        Without iron, varnish or housing. [J/K]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(positive(copper_mass, "copper_mass", "kg") * COPPER_SPECIFIC_HEAT)


@formula("current**2 * resistance")
def winding_heat(current: ArrayLike, resistance: ArrayLike) -> NDArray[np.float64]:
    """Power that a current turns to heat in the winding.

    Parameters
    ----------
    current : array_like
        In the motor. [A]
    resistance : array_like
        Of the winding; >= 0. [ohm]

    Returns
    -------
    power : ndarray
        Heat. [W]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(number(current) ** 2 * not_negative(resistance, "resistance", "ohm"))


@formula("rise * heat_capacity / (current**2 * resistance)")
def stall_heating_time(
    rise: ArrayLike, heat_capacity: ArrayLike, current: ArrayLike, resistance: ArrayLike
) -> NDArray[np.float64]:
    """Time in which a held motor warms by a rise, if no heat leaves and its resistance stays.

    A battery-fed winding takes longer, because its current falls as it warms:
    ``stall_heating_time_at_voltage``.

    Parameters
    ----------
    rise : array_like
        Of the winding's temperature; >= 0. [K]
    heat_capacity : array_like
        Of the winding; > 0. [J/K]
    current : array_like
        While it is held; > 0. [A]
    resistance : array_like
        Of the winding; > 0. [ohm]

    Returns
    -------
    time : ndarray
        Until the rise is reached. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    power = winding_heat(positive(current, "current", "A"), positive(resistance, "resistance", "ohm"))
    energy = not_negative(rise, "rise", "K") * positive(heat_capacity, "heat_capacity", "J/K")
    return np.asarray(energy / power)


@valid_for(rise=(0.0, 130.0))
@formula("heat_capacity * resistance / voltage**2 * (rise + TEMP_COEFFICIENT_20C * rise**2 / 2)")
def stall_heating_time_at_voltage(
    rise: ArrayLike, heat_capacity: ArrayLike, voltage: ArrayLike, resistance: ArrayLike
) -> NDArray[np.float64]:
    """Time in which a held motor on a fixed voltage warms by a rise, if no heat leaves.

    The resistance grows with the temperature, so the power falls.

    Parameters
    ----------
    rise : array_like
        Of the winding's temperature above 20 degC; >= 0. [K]
    heat_capacity : array_like
        Of the winding; > 0. [J/K]
    voltage : array_like
        Across the winding; > 0. [V]
    resistance : array_like
        Of the winding at 20 degC; > 0. [ohm]

    Returns
    -------
    time : ndarray
        Until the rise is reached. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    warmth, volts = not_negative(rise, "rise", "K"), positive(voltage, "voltage", "V")
    per_kelvin = positive(heat_capacity, "heat_capacity", "J/K") * positive(resistance, "resistance", "ohm")
    return np.asarray(per_kelvin / volts**2 * (warmth + TEMP_COEFFICIENT_20C * warmth**2 / 2))


@valid_for(rise=(0.0, 130.0))
@formula(
    "heat_capacity * log(1 + TEMP_COEFFICIENT_20C * rise) / (TEMP_COEFFICIENT_20C * current**2 * resistance)"
)
def stall_heating_time_at_current(
    rise: ArrayLike, heat_capacity: ArrayLike, current: ArrayLike, resistance: ArrayLike
) -> NDArray[np.float64]:
    """Time in which a held motor on a limited current warms by a rise, if no heat leaves.

    The resistance grows with the temperature, so the power grows too.

    Parameters
    ----------
    rise : array_like
        Of the winding's temperature above 20 degC; >= 0. [K]
    heat_capacity : array_like
        Of the winding; > 0. [J/K]
    current : array_like
        That the controller holds; > 0. [A]
    resistance : array_like
        Of the winding at 20 degC; > 0. [ohm]

    Returns
    -------
    time : ndarray
        Until the rise is reached. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    power = winding_heat(positive(current, "current", "A"), positive(resistance, "resistance", "ohm"))
    growth = np.log1p(TEMP_COEFFICIENT_20C * not_negative(rise, "rise", "K"))
    return np.asarray(
        positive(heat_capacity, "heat_capacity", "J/K") * growth / (TEMP_COEFFICIENT_20C * power)
    )


@formula("hot_resistance / cold_resistance * (cold_temperature - T_ZERO_RESISTANCE) + T_ZERO_RESISTANCE")
def winding_temperature(
    hot_resistance: ArrayLike, cold_resistance: ArrayLike, cold_temperature: ArrayLike
) -> NDArray[np.float64]:
    """Mean temperature of a copper winding from its resistance, cold and hot.

    Parameters
    ----------
    hot_resistance : array_like
        After the run; > 0. [ohm]
    cold_resistance : array_like
        Before the run, measured the same way; > 0. [ohm]
    cold_temperature : array_like
        Of the winding before the run; > 38.65. [K]

    Returns
    -------
    temperature : ndarray
        After the run. [K]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    cold = number(cold_temperature)
    require(~(cold <= T_ZERO_RESISTANCE), "cold_temperature", f"must be > {T_ZERO_RESISTANCE:.2f} K", cold)
    hot, before = (
        positive(hot_resistance, "hot_resistance", "ohm"),
        positive(cold_resistance, "cold_resistance", "ohm"),
    )
    return np.asarray(hot / before * (cold - T_ZERO_RESISTANCE) + T_ZERO_RESISTANCE)
