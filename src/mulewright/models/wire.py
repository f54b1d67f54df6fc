"""What does a wire cost in volts, and how thick should it be? Resistance of copper by gauge and warmth."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import not_negative, number, positive
from mulewright.models.formula import formula, valid_for
from mulewright.units.gauge import DIAMETER_36, STEP

RESISTIVITY_20C = 1e-6 / 58  # [ohm m] annealed copper, IEC 60028
TEMP_COEFFICIENT_20C = 3.93e-3  # [1/K] at constant mass, IEC 60028
T_20C = 293.15  # [K]
COPPER_DENSITY = 8890.0  # [kg/m^3] annealed copper at 20 degC, IEC 60028
T_ZERO_RESISTANCE = 273.15 - 234.5  # [K] where the straight line of copper meets zero, IEC 60034-1


@formula("DIAMETER_36 * STEP ** (36 - gauge)")
def awg_diameter(gauge: ArrayLike) -> NDArray[np.float64]:
    """Diameter of a solid round wire of a gauge number.

    Parameters
    ----------
    gauge : array_like
        Gauge number, also between two sizes; 00 is -1, 000 is -2, 0000 is -3. [1]

    Returns
    -------
    diameter : ndarray
        Bare copper, without insulation. [m]

    References
    ----------
    ASTM B258, standard nominal diameters and cross-sectional areas of AWG sizes.

    Examples
    --------
    >>> print(f"{awg_diameter(36) * 1e3:.3f} mm, {awg_diameter(-3) * 1e3:.3f} mm")
    0.127 mm, 11.684 mm
    """
    return np.asarray(DIAMETER_36 * STEP ** (36 - number(gauge)))


@formula("pi / 4 * (DIAMETER_36 * STEP ** (36 - gauge)) ** 2")
def awg_area(gauge: ArrayLike) -> NDArray[np.float64]:
    """Copper cross-section of a gauge number.

    Parameters
    ----------
    gauge : array_like
        Gauge number, also between two sizes; 00 is -1, 000 is -2, 0000 is -3. [1]

    Returns
    -------
    area : ndarray
        Of a solid wire; stranded wire of the same gauge number has nearly the same. [m^2]

    References
    ----------
    ASTM B258, standard nominal diameters and cross-sectional areas of AWG sizes.
    """
    return np.asarray(np.pi / 4 * awg_diameter(gauge) ** 2)


@valid_for(temperature=(233.15, 393.15))
@formula("1 + TEMP_COEFFICIENT_20C * (temperature - T_20C)")
def copper_temperature_factor(temperature: ArrayLike) -> NDArray[np.float64]:
    """Resistance of copper as a multiple of that at 20 degC, by the coefficient of IEC 60028.

    Parameters
    ----------
    temperature : array_like
        Temperature of the copper, not of the air around it; > 0. [K]

    Returns
    -------
    factor : ndarray
        1 at 20 degC. [1]

    Raises
    ------
    DomainError
        If the temperature is not above absolute zero.

    Notes
    -----
    Cable tables built on IEC 60228 round the coefficient to 0.004 1/K: 0.4 % more at 100 degC.
    The range attached to this function, -40 to 120 degC, is our judgement.

    References
    ----------
    IEC 60028, International standard of resistance for copper.
    """
    return np.asarray(1 + TEMP_COEFFICIENT_20C * (positive(temperature, "temperature", "K") - T_20C))


@valid_for(temperature=(233.15, 473.15), reference=(233.15, 473.15))
@formula("(temperature - T_ZERO_RESISTANCE) / (reference - T_ZERO_RESISTANCE)")
def copper_resistance_ratio(temperature: ArrayLike, reference: ArrayLike) -> NDArray[np.float64]:
    """Resistance of copper as a multiple of that at another temperature, by the 234.5 degC rule.

    Parameters
    ----------
    temperature : array_like
        Temperature of the copper; > 38.65. [K]
    reference : array_like
        Temperature at which the ratio is 1; > 38.65. [K]

    Returns
    -------
    ratio : ndarray
        (234.5 + t) / (234.5 + t_reference), t in degC. [1]

    Raises
    ------
    DomainError
        If a temperature is so low that the rule gives no resistance at all.

    References
    ----------
    IEC 60034-1, Rotating electrical machines, winding rise by the resistance method.

    Examples
    --------
    50 ohm at 20 degC, how much at 100 degC?

    >>> print(f"{50 * copper_resistance_ratio(373.15, reference=293.15):.2f} ohm")
    65.72 ohm
    """
    hot, cold = number(temperature) - T_ZERO_RESISTANCE, number(reference) - T_ZERO_RESISTANCE
    require(~(hot <= 0), "temperature", "must be > 38.65 K", temperature)
    require(~(cold <= 0), "reference", "must be > 38.65 K", reference)
    return np.asarray(hot / cold)


@valid_for(temperature=(233.15, 393.15))
@formula("RESISTIVITY_20C * (1 + TEMP_COEFFICIENT_20C * (temperature - T_20C))")
def copper_resistivity(temperature: ArrayLike) -> NDArray[np.float64]:
    """Resistivity of annealed copper.

    Parameters
    ----------
    temperature : array_like
        Temperature of the copper; > 0. [K]

    Returns
    -------
    resistivity : ndarray
        1/58 ohm mm^2/m at 20 degC. [ohm m]

    Raises
    ------
    DomainError
        If the temperature is not above absolute zero.

    References
    ----------
    IEC 60028, International standard of resistance for copper.
    """
    return np.asarray(RESISTIVITY_20C * copper_temperature_factor(temperature))


@formula("resistivity * length / area")
def conductor_resistance(length: ArrayLike, area: ArrayLike, resistivity: ArrayLike) -> NDArray[np.float64]:
    """Resistance of a conductor of any metal.

    Parameters
    ----------
    length : array_like
        There and back for a pair of leads; >= 0. [m]
    area : array_like
        Cross-section of the metal; > 0. [m^2]
    resistivity : array_like
        Of the metal at its temperature; >= 0. [ohm m]

    Returns
    -------
    resistance : ndarray
        For direct current. [ohm]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    metal = not_negative(resistivity, "resistivity", "ohm m")
    return np.asarray(metal * not_negative(length, "length", "m") / positive(area, "area", "m^2"))


@formula("length * area * COPPER_DENSITY")
def copper_mass(length: ArrayLike, area: ArrayLike) -> NDArray[np.float64]:
    """Mass of the copper of a wire.

    Parameters
    ----------
    length : array_like
        Of the conductor; >= 0. [m]
    area : array_like
        Copper cross-section without insulation; > 0. [m^2]

    Returns
    -------
    mass : ndarray
        Without insulation and plugs. [kg]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    IEC 60028, density of annealed copper at 20 degC: 8.89 g/cm^3 (from memory).
    """
    return np.asarray(not_negative(length, "length", "m") * positive(area, "area", "m^2") * COPPER_DENSITY)


@valid_for(temperature=(233.15, 393.15))
@formula("RESISTIVITY_20C * length / area * (1 + TEMP_COEFFICIENT_20C * (temperature - T_20C))")
def copper_wire_resistance(length: ArrayLike, area: ArrayLike, temperature: ArrayLike) -> NDArray[np.float64]:
    """Direct-current resistance of a copper wire.

    Parameters
    ----------
    length : array_like
        There and back for a pair of leads; >= 0. [m]
    area : array_like
        Copper cross-section without insulation; > 0. [m^2]
    temperature : array_like
        Temperature of the copper, not of the air around it; > 0. [K]

    Returns
    -------
    resistance : ndarray
        Of solid, untinned copper. [ohm]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    Notes
    -----
    *Leaves out.* Connectors, crimps and strand lay: fine-stranded or tinned wire has 10 to 25 %
    more, copper-clad aluminium more than half as much again.

    References
    ----------
    IEC 60028, International standard of resistance for copper.

    Examples
    --------
    0.3 m of AWG 14 lead, out and back, at 20 degC:

    >>> r = copper_wire_resistance(2 * 0.3, awg_area(14), 293.15)
    >>> print(f"{r * 1e3:.2f} mohm")
    4.97 mohm
    """
    return conductor_resistance(length, area, copper_resistivity(temperature))


@valid_for(temperature=(233.15, 393.15))
@formula("RESISTIVITY_20C / area * (1 + TEMP_COEFFICIENT_20C * (temperature - T_20C))")
def resistance_per_length(area: ArrayLike, temperature: ArrayLike) -> NDArray[np.float64]:
    """Resistance of each metre of a copper wire.

    Parameters
    ----------
    area : array_like
        Copper cross-section without insulation; > 0. [m^2]
    temperature : array_like
        Temperature of the copper; > 0. [K]

    Returns
    -------
    resistance : ndarray
        Of one conductor; a pair has twice as much. [ohm/m]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    IEC 60028, International standard of resistance for copper.
    """
    return copper_wire_resistance(1.0, area, temperature)


@formula("resistivity * length / resistance")
def minimum_area(length: ArrayLike, resistance: ArrayLike, resistivity: ArrayLike) -> NDArray[np.float64]:
    """Thinnest conductor that keeps to a resistance.

    Parameters
    ----------
    length : array_like
        There and back for a pair of leads; >= 0. [m]
    resistance : array_like
        The most it may have; > 0. [ohm]
    resistivity : array_like
        Of the metal at its temperature; >= 0. [ohm m]

    Returns
    -------
    area : ndarray
        Cross-section of the metal; take the next thicker size that is sold. [m^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    metal = not_negative(resistivity, "resistivity", "ohm m")
    return np.asarray(metal * not_negative(length, "length", "m") / positive(resistance, "resistance", "ohm"))


@formula("current * resistance")
def voltage_drop(current: ArrayLike, resistance: ArrayLike) -> NDArray[np.float64]:
    """Volts lost along a run.

    Parameters
    ----------
    current : array_like
        Positive away from the battery. [A]
    resistance : array_like
        Of everything the current flows through, there and back; >= 0. [ohm]

    Returns
    -------
    drop : ndarray
        Negative while current flows back. [V]

    Raises
    ------
    DomainError
        If the resistance is negative.
    """
    return np.asarray(number(current) * not_negative(resistance, "resistance", "ohm"))


@formula("current * resistance / supply_voltage")
def drop_fraction(
    current: ArrayLike, resistance: ArrayLike, supply_voltage: ArrayLike
) -> NDArray[np.float64]:
    """Volts lost along a run, as a part of the supply.

    Parameters
    ----------
    current : array_like
        Positive away from the battery. [A]
    resistance : array_like
        Of everything the current flows through, there and back; >= 0. [ohm]
    supply_voltage : array_like
        At the battery end; > 0. [V]

    Returns
    -------
    fraction : ndarray
        0.05 is 5 %. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    return np.asarray(voltage_drop(current, resistance) / positive(supply_voltage, "supply_voltage", "V"))


@formula("1 - thin_resistance / (main_resistance + thin_resistance)")
def thin_ground_share(main_resistance: ArrayLike, thin_resistance: ArrayLike) -> NDArray[np.float64]:
    """Share of a motor's return current that takes a parallel path through signal grounds.

    Parameters
    ----------
    main_resistance : array_like
        Of the thick negative, plugs included; >= 0, infinite when it is open. [ohm]
    thin_resistance : array_like
        Of the whole thin loop through the receiver; > 0. [ohm]

    Returns
    -------
    share : ndarray
        0 to 1; all of it once the thick negative is open. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    Examples
    --------
    >>> print(f"{thin_ground_share(0.020, 0.060):.0%}")
    25%
    """
    thin = positive(thin_resistance, "thin_resistance", "ohm")
    return np.asarray(1 - thin / (not_negative(main_resistance, "main_resistance", "ohm") + thin))
