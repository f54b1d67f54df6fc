"""How much current may a wire carry, for long or for a moment? A rule and short-time laws; tables lie on the shelf."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import not_negative, number, positive
from mulewright.models.formula import formula, valid_for
from mulewright.models.heat import COPPER_SPECIFIC_HEAT
from mulewright.models.wire import T_ZERO_RESISTANCE

CIRCULAR_MIL = np.pi / 4 * 25.4e-6**2  # [m^2] area of a circle of 0.001 in
AREA_PER_AMPERE = 700 * CIRCULAR_MIL  # [m^2/A] the rule of 700 circular mils, for bundles and windings

COPPER_DENSITY = 8960.0  # [kg/m^3] from memory
T_COPPER_MELTS = 273.15 + 1083  # [K] as in Onderdonk's equation
T_ONDERDONK = 273.15 - 234  # [K] his equation has 234 + t, t in degC
ONDERDONK_SECONDS = 33.0  # [s A^2 / circular mil^2]
SHORT_TIME_COPPER = 226e6  # [A s^0.5 / m^2] IEC 60949; 226 for mm^2, with 234.5 degC


@formula("area / area_per_ampere")
def area_rule_current(area: ArrayLike, area_per_ampere: ArrayLike) -> NDArray[np.float64]:
    """Continuous current by a fixed area for each ampere; cautious, meant for bundles and windings.

    Parameters
    ----------
    area : array_like
        Copper cross-section; >= 0. [m^2]
    area_per_ampere : array_like
        ``AREA_PER_AMPERE`` is the usual 700 circular mils; > 0. [m^2/A]

    Returns
    -------
    current : ndarray
        Continuous current. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Common practice, no source.
    """
    return np.asarray(
        not_negative(area, "area", "m^2") / positive(area_per_ampere, "area_per_ampere", "m^2/A")
    )


@formula("interp(area, areas, currents) * minimum(1, area / min(areas))")
def tabled_current(area: ArrayLike, areas: ArrayLike, currents: ArrayLike) -> NDArray[np.float64]:
    """Continuous current read off a table; thinner wire than its thinnest bears less in proportion to its copper.

    Parameters
    ----------
    area : array_like
        Copper cross-section; >= 0. [m^2]
    areas : array_like, shape (n,)
        First column of the table, rising; > 0. [m^2]
    currents : array_like, shape (n,)
        Second column. [A]

    Returns
    -------
    current : ndarray
        On a straight line between two rows; wire thicker than the table's thickest is taken to bear no more. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    Notes
    -----
    In proportion is cautious: thin wire sheds its heat better, for its size, than thick wire.
    """
    copper, points = not_negative(area, "area", "m^2"), positive(areas, "areas", "m^2")
    return np.asarray(np.interp(copper, points, number(currents)) * np.minimum(1, copper / points.min()))


@formula("(current / area) ** 2 * resistivity / (COPPER_SPECIFIC_HEAT * COPPER_DENSITY)")
def adiabatic_heating_rate(
    current: ArrayLike, area: ArrayLike, resistivity: ArrayLike
) -> NDArray[np.float64]:
    """How fast copper warms while no heat has left it yet: a stalled winding, a shorted lead.

    Parameters
    ----------
    current : array_like
        Of either sign. [A]
    area : array_like
        Copper cross-section; > 0. [m^2]
    resistivity : array_like
        Of the copper at its present temperature; >= 0. [ohm m]

    Returns
    -------
    rate : ndarray
        About 0.5 K/s at 10 A/mm^2 from room temperature. [K/s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    density = number(current) / positive(area, "area", "m^2")
    metal = not_negative(resistivity, "resistivity", "ohm m")
    return np.asarray(density**2 * metal / (COPPER_SPECIFIC_HEAT * COPPER_DENSITY))


@valid_for(duration=(0.0, 10.0))
@formula(
    "area / CIRCULAR_MIL * sqrt(log((T_COPPER_MELTS - ambient) / (ambient - T_ONDERDONK) + 1)"
    " / log(10) / (ONDERDONK_SECONDS * duration))"
)
def onderdonk_fusing_current(area: ArrayLike, duration: ArrayLike, ambient: ArrayLike) -> NDArray[np.float64]:
    """Order of the current that melts a bare copper wire within a time.

    Parameters
    ----------
    area : array_like
        Copper cross-section; >= 0. [m^2]
    duration : array_like
        Time until it melts; > 0. [s]
    ambient : array_like
        Temperature from which it starts; below 1083 degC and above -234 degC. [K]

    Returns
    -------
    current : ndarray
        A wire is ruined long before; for an order of size only. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    Notes
    -----
    The sum in the denominator is 234 *plus* the temperature in degC. A circulated worked example
    has a minus there and gets 178 A instead of 169 A for AWG 16, 5 s and 25 degC.

    The range attached to this function is our judgement: later on, heat that leaves counts.

    References
    ----------
    E. R. Stauffacher, Short-time current carrying capacity of copper wire, General Electric Review,
    1928 (for the equation of I. M. Onderdonk; known from secondary sources).
    """
    start, mils = number(ambient), not_negative(area, "area", "m^2") / CIRCULAR_MIL
    require(~(start <= T_ONDERDONK), "ambient", "must be > 39.15 K", start)
    require(~(start >= T_COPPER_MELTS), "ambient", "must be < 1356.15 K", start)
    rise = (T_COPPER_MELTS - start) / (start - T_ONDERDONK)
    return np.asarray(
        mils * np.sqrt(np.log10(rise + 1) / (ONDERDONK_SECONDS * positive(duration, "duration", "s")))
    )


@formula("SHORT_TIME_COPPER * sqrt(log(1 + (final - initial) / (initial - T_ZERO_RESISTANCE)))")
def short_time_factor(initial: ArrayLike, final: ArrayLike) -> NDArray[np.float64]:
    """Factor k of a copper conductor: what its insulation bears in a short circuit.

    Parameters
    ----------
    initial : array_like
        Temperature of the copper before; > -234.5 degC. [K]
    final : array_like
        Temperature that the insulation bears for a moment; >= initial. [K]

    Returns
    -------
    factor : ndarray
        1e6 times the tabulated k, which is for areas in mm^2. [A s^0.5/m^2]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    IEC 60364-5-54, annex on the factor k; IEC 60949 for the constants.

    Examples
    --------
    PVC, from 70 to 160 degC:

    >>> print(f"{short_time_factor(343.15, 433.15) * 1e-6:.0f}")
    115
    """
    start, rise = number(initial), np.asarray(number(final) - number(initial))
    require(~(start <= T_ZERO_RESISTANCE), "initial", "must be > 38.65 K", start)
    require(~(rise < 0), "final", "must be >= initial; rise in K", rise)
    return np.asarray(SHORT_TIME_COPPER * np.sqrt(np.log1p(rise / (start - T_ZERO_RESISTANCE))))


@valid_for(duration=(0.0, 5.0))
@formula("factor * area / sqrt(duration)")
def short_time_current(area: ArrayLike, duration: ArrayLike, factor: ArrayLike) -> NDArray[np.float64]:
    """Current that a wire's insulation survives for a short time.

    Parameters
    ----------
    area : array_like
        Copper cross-section; >= 0. [m^2]
    duration : array_like
        Until the fuse has cleared; > 0. [s]
    factor : array_like
        As from :func:`short_time_factor`; >= 0. [A s^0.5/m^2]

    Returns
    -------
    current : ndarray
        Constant over the time. [A]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    IEC 60364-5-54, protective conductors; stated for times up to 5 s.
    """
    insulation = not_negative(factor, "factor", "A s^0.5/m^2")
    return np.asarray(
        insulation * not_negative(area, "area", "m^2") / np.sqrt(positive(duration, "duration", "s"))
    )
