"""How hot do winding and case get together? Two bodies in a row, solved exactly by two time constants."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import Floats, not_negative, number, positive
from mulewright.models.formula import formula


@formula(
    "(winding_capacity * (inner_resistance + outer_resistance) + case_capacity * outer_resistance"
    " + sqrt((winding_capacity * (inner_resistance + outer_resistance) + case_capacity * outer_resistance)**2"
    " - 4 * winding_capacity * case_capacity * inner_resistance * outer_resistance)) / 2"
)
def slow_heating_constant(
    winding_capacity: ArrayLike,
    case_capacity: ArrayLike,
    inner_resistance: ArrayLike,
    outer_resistance: ArrayLike,
) -> NDArray[np.float64]:
    """Longer time constant of winding and case, mostly that of the case.

    Parameters
    ----------
    winding_capacity : array_like
        Heat that the winding takes for each kelvin; > 0. [J/K]
    case_capacity : array_like
        Heat that the case takes for each kelvin; > 0. [J/K]
    inner_resistance : array_like
        From winding to case; > 0. [K/W]
    outer_resistance : array_like
        From case to air; > 0. [K/W]

    Returns
    -------
    time_constant : ndarray
        Minus one over the eigenvalue nearer to zero. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    half_sum, product = _sum_and_product(winding_capacity, case_capacity, inner_resistance, outer_resistance)
    return np.asarray(half_sum + np.sqrt(half_sum**2 - product))


@formula(
    "2 * winding_capacity * case_capacity * inner_resistance * outer_resistance"
    " / (winding_capacity * (inner_resistance + outer_resistance) + case_capacity * outer_resistance"
    " + sqrt((winding_capacity * (inner_resistance + outer_resistance) + case_capacity * outer_resistance)**2"
    " - 4 * winding_capacity * case_capacity * inner_resistance * outer_resistance))"
)
def fast_heating_constant(
    winding_capacity: ArrayLike,
    case_capacity: ArrayLike,
    inner_resistance: ArrayLike,
    outer_resistance: ArrayLike,
) -> NDArray[np.float64]:
    """Shorter time constant of winding and case, mostly that of the winding.

    Parameters
    ----------
    winding_capacity : array_like
        Heat that the winding takes for each kelvin; > 0. [J/K]
    case_capacity : array_like
        Heat that the case takes for each kelvin; > 0. [J/K]
    inner_resistance : array_like
        From winding to case; > 0. [K/W]
    outer_resistance : array_like
        From case to air; > 0. [K/W]

    Returns
    -------
    time_constant : ndarray
        Minus one over the eigenvalue farther from zero. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    half_sum, product = _sum_and_product(winding_capacity, case_capacity, inner_resistance, outer_resistance)
    return np.asarray(product / (half_sum + np.sqrt(half_sum**2 - product)))


@formula("power * (inner_resistance + outer_resistance)")
def final_winding_rise(
    power: ArrayLike, inner_resistance: ArrayLike, outer_resistance: ArrayLike
) -> NDArray[np.float64]:
    """Rise of the winding above the air after a long time under a steady heat.

    Parameters
    ----------
    power : array_like
        Heat in the winding; >= 0. [W]
    inner_resistance : array_like
        From winding to case; > 0. [K/W]
    outer_resistance : array_like
        From case to air; > 0. [K/W]

    Returns
    -------
    rise : ndarray
        Of the winding. [K]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    path = positive(inner_resistance, "inner_resistance", "K/W") + positive(
        outer_resistance, "outer_resistance", "K/W"
    )
    return np.asarray(not_negative(power, "power", "W") * path)


@formula("power * outer_resistance")
def final_case_rise(power: ArrayLike, outer_resistance: ArrayLike) -> NDArray[np.float64]:
    """Rise of the case above the air after a long time under a steady heat.

    Parameters
    ----------
    power : array_like
        Heat that passes through the case; >= 0. [W]
    outer_resistance : array_like
        From case to air; > 0. [K/W]

    Returns
    -------
    rise : ndarray
        Of the case. [K]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    path = positive(outer_resistance, "outer_resistance", "K/W")
    return np.asarray(not_negative(power, "power", "W") * path)


@formula(
    "winding_final + slow * fast / (slow - fast)"
    " * ((exp(-time / slow) * (1 / fast - 1 / exchange) - exp(-time / fast) * (1 / slow - 1 / exchange))"
    " * (winding_start - winding_final)"
    " + (exp(-time / slow) - exp(-time / fast)) / exchange * (case_start - case_final))"
)
def winding_rise_after(
    time: ArrayLike,
    winding_start: ArrayLike,
    case_start: ArrayLike,
    winding_final: ArrayLike,
    case_final: ArrayLike,
    slow: ArrayLike,
    fast: ArrayLike,
    exchange: ArrayLike,
) -> NDArray[np.float64]:
    """Rise of the winding above the air some time after a steady heat came on, or went off.

    Parameters
    ----------
    time : array_like
        Since the change; >= 0. [s]
    winding_start : array_like
        Rise of the winding then. [K]
    case_start : array_like
        Rise of the case then. [K]
    winding_final : array_like
        Rise of the winding after a long time. [K]
    case_final : array_like
        Rise of the case after a long time. [K]
    slow : array_like
        Longer time constant; above the shorter one. [s]
    fast : array_like
        Shorter time constant; > 0. [s]
    exchange : array_like
        Heat capacity of the winding times the resistance from winding to case; > 0. [s]

    Returns
    -------
    rise : ndarray
        Of the winding. [K]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    final = number(winding_final)
    own, other = number(winding_start) - final, number(case_start) - number(case_final)
    left_slow, left_fast, spread = _decays(time, slow, fast)
    rate = 1 / positive(exchange, "exchange", "s")
    stays = left_slow * (1 / number(fast) - rate) - left_fast * (1 / number(slow) - rate)
    crosses = (left_slow - left_fast) * rate
    return np.asarray(final + spread * (stays * own + crosses * other))


@formula(
    "case_final + slow * fast / (slow - fast)"
    " * ((exp(-time / slow) * (1 / exchange - 1 / slow) - exp(-time / fast) * (1 / exchange - 1 / fast))"
    " * (case_start - case_final)"
    " + (exp(-time / slow) - exp(-time / fast)) / case_exchange * (winding_start - winding_final))"
)
def case_rise_after(
    time: ArrayLike,
    winding_start: ArrayLike,
    case_start: ArrayLike,
    winding_final: ArrayLike,
    case_final: ArrayLike,
    slow: ArrayLike,
    fast: ArrayLike,
    exchange: ArrayLike,
    case_exchange: ArrayLike,
) -> NDArray[np.float64]:
    """Rise of the case above the air some time after a steady heat came on, or went off.

    Parameters
    ----------
    time : array_like
        Since the change; >= 0. [s]
    winding_start : array_like
        Rise of the winding then. [K]
    case_start : array_like
        Rise of the case then. [K]
    winding_final : array_like
        Rise of the winding after a long time. [K]
    case_final : array_like
        Rise of the case after a long time. [K]
    slow : array_like
        Longer time constant; above the shorter one. [s]
    fast : array_like
        Shorter time constant; > 0. [s]
    exchange : array_like
        Heat capacity of the winding times the resistance from winding to case; > 0. [s]
    case_exchange : array_like
        Heat capacity of the case times the same resistance; > 0. [s]

    Returns
    -------
    rise : ndarray
        Of the case. [K]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    final = number(case_final)
    own, other = number(case_start) - final, number(winding_start) - number(winding_final)
    left_slow, left_fast, spread = _decays(time, slow, fast)
    rate = 1 / positive(exchange, "exchange", "s")
    stays = left_slow * (rate - 1 / number(slow)) - left_fast * (rate - 1 / number(fast))
    crosses = (left_slow - left_fast) / positive(case_exchange, "case_exchange", "s")
    return np.asarray(final + spread * (stays * own + crosses * other))


def _sum_and_product(
    winding_capacity: ArrayLike,
    case_capacity: ArrayLike,
    inner_resistance: ArrayLike,
    outer_resistance: ArrayLike,
) -> tuple[Floats, Floats]:
    """[s], [s^2] half the sum, and the product, of the two time constants."""
    winding = positive(winding_capacity, "winding_capacity", "J/K")
    case = positive(case_capacity, "case_capacity", "J/K")
    inner = positive(inner_resistance, "inner_resistance", "K/W")
    outer = positive(outer_resistance, "outer_resistance", "K/W")
    return (winding * (inner + outer) + case * outer) / 2, winding * case * inner * outer


def _decays(time: ArrayLike, slow: ArrayLike, fast: ArrayLike) -> tuple[Floats, Floats, Floats]:
    """[1], [1], [s] what is left of each time constant's part, and what undoes their difference."""
    longer, shorter = number(slow), positive(fast, "fast", "s")
    require(~(longer <= shorter), "slow", "must be above the shorter time constant, in s", longer)
    since = not_negative(time, "time", "s")
    spread = longer * shorter / (longer - shorter)
    return np.exp(-since / longer), np.exp(-since / shorter), spread
