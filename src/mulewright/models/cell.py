"""How does a cell's voltage fall while it empties? By the Shepherd-Tremblay curve through three points."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import between, not_negative, number, positive
from mulewright.models.formula import formula

HOUR = 3600.0  # [s] the curve adds amperes to ampere hours: it has one hour built in
DEEPEST = 0.9  # [1] of the capacity; the authors claim 5 % down to a tenth of the charge
LOWEST = 0.7  # [1] of E0; judgement: usual cut-offs are 0.75 to 0.85 of it
FASTEST = 5.0  # [1/h] C-rate; the authors claim 5 % up to there


@formula("full_voltage - exponential_voltage")
def exponential_amplitude(full_voltage: ArrayLike, exponential_voltage: ArrayLike) -> NDArray[np.float64]:
    """Height A of the fall at the start of the curve.

    Parameters
    ----------
    full_voltage : array_like
        Fully charged, at the current of the data sheet's curve. [V]
    exponential_voltage : array_like
        Where the first fall ends; <= full_voltage. [V]

    Returns
    -------
    amplitude : ndarray
        A. [V]

    Raises
    ------
    DomainError
        If the curve rises.
    """
    fall = np.asarray(number(full_voltage) - number(exponential_voltage))
    return not_negative(fall, "full_voltage - exponential_voltage", "V")


@formula("3 / exponential_charge")
def exponential_decay(exponential_charge: ArrayLike) -> NDArray[np.float64]:
    """Steepness B of the fall at the start of the curve.

    Parameters
    ----------
    exponential_charge : array_like
        Drawn where the first fall ends, to 5 % of its height; > 0. [A s]

    Returns
    -------
    decay : ndarray
        B. [1/(A s)]

    Raises
    ------
    DomainError
        If no charge is drawn there.
    """
    return np.asarray(3 / positive(exponential_charge, "exponential_charge", "A s"))


@formula("full_voltage + resistance * current - amplitude")
def constant_voltage(
    full_voltage: ArrayLike, resistance: ArrayLike, current: ArrayLike, amplitude: ArrayLike
) -> NDArray[np.float64]:
    """Constant voltage E0 of the curve.

    Parameters
    ----------
    full_voltage : array_like
        Fully charged, at the current of the data sheet's curve. [V]
    resistance : array_like
        Internal resistance; >= 0. [ohm]
    current : array_like
        Of the data sheet's curve; >= 0. [A]
    amplitude : array_like
        A, see :func:`exponential_amplitude`. [V]

    Returns
    -------
    voltage : ndarray
        E0. [V]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    sag = not_negative(resistance, "resistance", "ohm") * not_negative(current, "current", "A")
    return np.asarray(number(full_voltage) + sag - number(amplitude))


@formula(
    "(constant - nominal_voltage - resistance * current + amplitude * exp(-decay * nominal_charge))"
    " * (capacity - nominal_charge) / (capacity * (nominal_charge + current * HOUR))"
)
def polarisation(
    constant: ArrayLike,
    nominal_voltage: ArrayLike,
    resistance: ArrayLike,
    current: ArrayLike,
    amplitude: ArrayLike,
    decay: ArrayLike,
    nominal_charge: ArrayLike,
    capacity: ArrayLike,
) -> NDArray[np.float64]:
    """Polarisation K of the curve: how fast it falls towards empty.

    Parameters
    ----------
    constant : array_like
        E0, see :func:`constant_voltage`. [V]
    nominal_voltage : array_like
        Where the flat part ends. [V]
    resistance : array_like
        Internal resistance. [ohm]
    current : array_like
        Of the data sheet's curve; >= 0. [A]
    amplitude : array_like
        A, see :func:`exponential_amplitude`. [V]
    decay : array_like
        B, see :func:`exponential_decay`. [1/(A s)]
    nominal_charge : array_like
        Drawn where the flat part ends; > 0, < capacity. [A s]
    capacity : array_like
        Charge at which the voltage has collapsed. [A s]

    Returns
    -------
    polarisation : ndarray
        K; 3600 times that is the usual figure in V/Ah. [V/(A s)]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    amps, drawn = not_negative(current, "current", "A"), positive(nominal_charge, "nominal_charge", "A s")
    full = number(capacity)
    left = positive(full - drawn, "capacity - nominal_charge", "A s")
    sag = not_negative(resistance, "resistance", "ohm") * amps
    first = number(amplitude) * np.exp(-number(decay) * drawn)
    fall = number(constant) - number(nominal_voltage) - sag + first
    return np.asarray(fall * left / (full * (drawn + amps * HOUR)))


@formula(
    "constant - resistance * current"
    " - polarisation * capacity / (capacity - drawn) * (slow_current * HOUR + drawn)"
    " + amplitude * exp(-decay * drawn)"
)
def cell_voltage(
    drawn: ArrayLike,
    current: ArrayLike,
    slow_current: ArrayLike,
    constant: ArrayLike,
    resistance: ArrayLike,
    polarisation: ArrayLike,
    capacity: ArrayLike,
    amplitude: ArrayLike,
    decay: ArrayLike,
) -> NDArray[np.float64]:
    """Voltage of a cell or a battery while it is discharged.

    Parameters
    ----------
    drawn : array_like
        Charge drawn since full; 0 to 0.9 of the capacity. [A s]
    current : array_like
        At this moment; 0 to five times the capacity in an hour. [A]
    slow_current : array_like
        The current through a lag of about 30 s: 0 right after the start, equal to it later. [A]
    constant : array_like
        E0, see :func:`constant_voltage`; > 0. [V]
    resistance : array_like
        Internal resistance; >= 0. [ohm]
    polarisation : array_like
        K, see :func:`polarisation`. [V/(A s)]
    capacity : array_like
        Charge at which the voltage has collapsed; > 0. [A s]
    amplitude : array_like
        A, see :func:`exponential_amplitude`. [V]
    decay : array_like
        B, see :func:`exponential_decay`. [1/(A s)]

    Returns
    -------
    voltage : ndarray
        At the terminals, to about 5 % by the authors' claim. [V]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above, or if the voltage falls below 0.7 of E0:
        every usual cut-off lies higher, and the formula soon goes negative there.

    References
    ----------
    O. Tremblay, L.-A. Dessaint, Experimental validation of a battery dynamic model for EV applications,
    World Electric Vehicle Journal 3 (2009), after C. M. Shepherd (1965); charging is left out.
    """
    full, amps, charge = positive(capacity, "capacity", "A s"), number(current), number(drawn)
    between(charge / full, "drawn / capacity", 0, DEEPEST)
    between(amps * HOUR / full, "current in units of C", 0, FASTEST)
    sag = not_negative(resistance, "resistance", "ohm") * amps
    collapse = number(polarisation) * full / (full - charge) * (number(slow_current) * HOUR + charge)
    first = number(amplitude) * np.exp(-number(decay) * charge)
    voltage = np.asarray(number(constant) - sag - collapse + first)
    require(~(voltage < LOWEST * number(constant)), "voltage", f"must be >= {LOWEST:g} of constant", voltage)
    return voltage
