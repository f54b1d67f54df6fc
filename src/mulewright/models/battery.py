"""What voltage does a battery hold, for how long, and how full is it? Sag, run time, rest voltage."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import Floats, between, not_negative, number, positive
from mulewright.models.formula import formula, valid_for

HOUR = 3600.0  # [s]

# Rested for 6 h or more: empty, a quarter, half, three quarters, full. Common practice, no source; +/- 0.1 V.
LEAD_ACID_REST = (11.6, 12.0, 12.2, 12.4, 12.6)  # [V] battery of 12 V


@formula("open_circuit_voltage - resistance * current")
def sagged_voltage(
    open_circuit_voltage: ArrayLike, resistance: ArrayLike, current: ArrayLike
) -> NDArray[np.float64]:
    """Voltage at the terminals under load.

    Parameters
    ----------
    open_circuit_voltage : array_like
        At rest and at this state of charge. [V]
    resistance : array_like
        Internal resistance; >= 0. [ohm]
    current : array_like
        Positive out of the battery. [A]

    Returns
    -------
    voltage : ndarray
        Negative if more current is asked for than a short circuit would draw. [V]

    Raises
    ------
    DomainError
        If the resistance is negative.
    """
    sag = not_negative(resistance, "resistance", "ohm") * number(current)
    return np.asarray(number(open_circuit_voltage) - sag)


@formula("(light_voltage - heavy_voltage) / (heavy_current - light_current)")
def internal_resistance_from_two_loads(
    light_voltage: ArrayLike, light_current: ArrayLike, heavy_voltage: ArrayLike, heavy_current: ArrayLike
) -> NDArray[np.float64]:
    """Internal resistance from two readings, one of which may be without load.

    Parameters
    ----------
    light_voltage : array_like
        Voltage at the smaller current. [V]
    light_current : array_like
        The smaller current; 0 for an open circuit. [A]
    heavy_voltage : array_like
        Voltage at the larger current. [V]
    heavy_current : array_like
        The larger current; > light_current. [A]

    Returns
    -------
    resistance : ndarray
        Of everything between the two points of the meter. [ohm]

    Raises
    ------
    DomainError
        If the larger current is not the larger one.

    Examples
    --------
    >>> print(f"{internal_resistance_from_two_loads(12.60, 0, 12.12, 8):.3f} ohm")
    0.060 ohm
    """
    more = np.asarray(number(heavy_current) - number(light_current))
    require(~(more <= 0), "heavy_current", "must be above light_current; difference in A", more)
    return np.asarray((number(light_voltage) - number(heavy_voltage)) / more)


@formula("current ** 2 * resistance")
def battery_heat(current: ArrayLike, resistance: ArrayLike) -> NDArray[np.float64]:
    """Heat that a current makes inside the battery.

    Parameters
    ----------
    current : array_like
        Of either sign. [A]
    resistance : array_like
        Internal resistance; >= 0. [ohm]

    Returns
    -------
    power : ndarray
        Never negative. [W]

    Raises
    ------
    DomainError
        If the resistance is negative.
    """
    return np.asarray(number(current) ** 2 * not_negative(resistance, "resistance", "ohm"))


@formula("cells_in_series * cell_voltage")
def pack_voltage(cells_in_series: ArrayLike, cell_voltage: ArrayLike) -> NDArray[np.float64]:
    """Voltage of cells in series: fresh, nominal or at the cut-off, as the cell's voltage is.

    Parameters
    ----------
    cells_in_series : array_like
        How many; >= 1. [1]
    cell_voltage : array_like
        Of one cell. [V]

    Returns
    -------
    voltage : ndarray
        Of the pack. [V]

    Raises
    ------
    DomainError
        If there is not a single cell.
    """
    cells = number(cells_in_series)
    require(~(cells < 1), "cells_in_series", "must be >= 1", cells)
    return np.asarray(cells * number(cell_voltage))


@formula("c_rate * capacity / HOUR")
def c_rate_current(c_rate: ArrayLike, capacity: ArrayLike) -> NDArray[np.float64]:
    """Current that a C-rate stands for.

    Parameters
    ----------
    c_rate : array_like
        25 for "25C": emptied in 1/25 h; >= 0. [1/h]
    capacity : array_like
        Rated charge; 1 Ah is 3600 A s; >= 0. [A s]

    Returns
    -------
    current : ndarray
        Peak or continuous, as the rate is. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(
        not_negative(c_rate, "c_rate", "1/h") * not_negative(capacity, "capacity", "A s") / HOUR
    )


@formula("capacity * depth_of_discharge * efficiency / current")
def run_time(
    capacity: ArrayLike, depth_of_discharge: ArrayLike, efficiency: ArrayLike, current: ArrayLike
) -> NDArray[np.float64]:
    """How long a pack lasts at a mean current.

    Parameters
    ----------
    capacity : array_like
        Rated charge; >= 0. [A s]
    depth_of_discharge : array_like
        Part of it that may be used: about 0.8, lead 0.5; 0 to 1. [1]
    efficiency : array_like
        Part of the rated charge that comes out at this current and age; 0 to 1. [1]
    current : array_like
        Mean over work and pauses; > 0. [A]

    Returns
    -------
    time : ndarray
        Until the pack should be changed. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    usable = between(depth_of_discharge, "depth_of_discharge", 0, 1) * between(efficiency, "efficiency", 0, 1)
    return np.asarray(not_negative(capacity, "capacity", "A s") * usable / positive(current, "current", "A"))


@valid_for(exponent=(1.0, 1.6))
@formula("capacity_at_one_ampere / current ** exponent")
def peukert_time_one_ampere(
    capacity_at_one_ampere: ArrayLike, current: ArrayLike, exponent: ArrayLike
) -> NDArray[np.float64]:
    """Peukert's law for a capacity measured at one ampere; not for the capacity on a label.

    Parameters
    ----------
    capacity_at_one_ampere : array_like
        Charge given when emptied with 1 A; >= 0. [A s]
    current : array_like
        Constant current; > 0. [A]
    exponent : array_like
        1 without loss of capacity; lead-acid 1.05 to 1.6; >= 1. [1]

    Returns
    -------
    time : ndarray
        Until empty. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    See Also
    --------
    peukert_time_rated : The same law for the capacity on a label.
    """
    charge = not_negative(capacity_at_one_ampere, "capacity_at_one_ampere", "A s")
    return np.asarray(charge / positive(current, "current", "A") ** _exponent(exponent))


@valid_for(exponent=(1.0, 1.6))
@formula("rated_time * (rated_capacity / (current * rated_time)) ** exponent")
def peukert_time_rated(
    rated_capacity: ArrayLike, rated_time: ArrayLike, current: ArrayLike, exponent: ArrayLike
) -> NDArray[np.float64]:
    """Peukert's law for a capacity rated over a time, such as 100 Ah at 20 h.

    Parameters
    ----------
    rated_capacity : array_like
        Charge given when emptied in the rated time; >= 0. [A s]
    rated_time : array_like
        The time for which the capacity is stated; > 0. [s]
    current : array_like
        Constant current; > 0. [A]
    exponent : array_like
        1 without loss of capacity; lead-acid 1.05 to 1.6; >= 1. [1]

    Returns
    -------
    time : ndarray
        Until empty; exactly the rated time at the rated current. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    See Also
    --------
    peukert_time_one_ampere : The same law for a capacity measured at one ampere.
    """
    charge, time = (
        not_negative(rated_capacity, "rated_capacity", "A s"),
        positive(rated_time, "rated_time", "s"),
    )
    return np.asarray(time * (charge / (positive(current, "current", "A") * time)) ** _exponent(exponent))


@formula(
    "("
    + " + ".join(f"clip((voltage - {v0}) / ({v1} - {v0}), 0, 1)" for v0, v1 in pairwise(LEAD_ACID_REST))
    + ") / 4"
)
def lead_acid_rest_charge(voltage: ArrayLike) -> NDArray[np.float64]:
    """How full a 12 V lead-acid battery is, by its voltage at rest.

    Parameters
    ----------
    voltage : array_like
        After 6 h or more without load and charger. [V]

    Returns
    -------
    charge : ndarray
        0 empty, 1 full. A meter that is 1 % off is 15 % of charge off. [1]

    Examples
    --------
    >>> print(f"{lead_acid_rest_charge(12.3):.3f}")
    0.625
    """
    charge = np.linspace(0, 1, len(LEAD_ACID_REST))
    return np.asarray(np.interp(number(voltage), LEAD_ACID_REST, charge))


def _exponent(exponent: ArrayLike) -> Floats:
    floats = number(exponent)
    require(~(floats < 1), "exponent", "must be >= 1", floats)
    return floats
