"""What does a heating run show? One lag: its rise, its two numbers from readings, short-time load."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.bounds import Floats, not_negative, number, positive
from mulewright.models.formula import formula


@formula("final_rise + (start_rise - final_rise) * exp(-time / time_constant)")
def rise_after(
    time: ArrayLike, start_rise: ArrayLike, final_rise: ArrayLike, time_constant: ArrayLike
) -> NDArray[np.float64]:
    """Temperature rise of one body under a steady heat.

    Parameters
    ----------
    time : array_like
        Since the start; >= 0. [s]
    start_rise : array_like
        Above the air at the start. [K]
    final_rise : array_like
        Above the air after a long time. [K]
    time_constant : array_like
        In which it makes 63 % of the way; > 0. [s]

    Returns
    -------
    rise : ndarray
        Above the air. [K]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    left = np.exp(-not_negative(time, "time", "s") / positive(time_constant, "time_constant", "s"))
    return np.asarray(number(final_rise) + (number(start_rise) - number(final_rise)) * left)


@formula("-time / log(double_rise / rise - 1)")
def time_constant_from_two_rises(
    time: ArrayLike, rise: ArrayLike, double_rise: ArrayLike
) -> NDArray[np.float64]:
    """Time constant of a heating run from rises after a time and after twice that time.

    Parameters
    ----------
    time : array_like
        From the cold start to the first reading; > 0. [s]
    rise : array_like
        At the first reading; > 0. [K]
    double_rise : array_like
        At twice the time; above the first rise, below twice the first rise. [K]

    Returns
    -------
    time_constant : ndarray
        Of one body. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Gupta and Singhal, Fundamentals of Electric Drives, ex. 4.1.
    """
    first, second = _two_rises(rise, double_rise)
    return np.asarray(-positive(time, "time", "s") / np.log(second / first - 1))


@formula("rise**2 / (2 * rise - double_rise)")
def final_rise_from_two_rises(rise: ArrayLike, double_rise: ArrayLike) -> NDArray[np.float64]:
    """Final rise of a heating run from rises after a time and after twice that time.

    Parameters
    ----------
    rise : array_like
        At the first reading after a cold start; > 0. [K]
    double_rise : array_like
        At twice the time; above the first rise, below twice the first rise. [K]

    Returns
    -------
    rise : ndarray
        After a long time. [K]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Gupta and Singhal, Fundamentals of Electric Drives, ex. 4.1.
    """
    first, second = _two_rises(rise, double_rise)
    return np.asarray(first**2 / (2 * first - second))


@formula("(late_rise - early_rise) / (early_rate - late_rate)")
def time_constant_from_two_rates(
    early_rise: ArrayLike, early_rate: ArrayLike, late_rise: ArrayLike, late_rate: ArrayLike
) -> NDArray[np.float64]:
    """Time constant of a heating run from how fast it warms at two rises.

    Parameters
    ----------
    early_rise : array_like
        At the first slope. [K]
    early_rate : array_like
        First slope; above the second. [K/s]
    late_rise : array_like
        At the second slope; above the first rise. [K]
    late_rate : array_like
        Second slope. [K/s]

    Returns
    -------
    time_constant : ndarray
        Of one body. [s]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Gupta and Singhal, Fundamentals of Electric Drives, ex. 4.5.
    """
    early, late, fast, slow = map(number, (early_rise, late_rise, early_rate, late_rate))
    require(~(late <= early), "late_rise", "must be above the early rise, in K", late)
    require(~(slow >= fast), "late_rate", "must be below the early rate, in K/s", slow)
    return np.asarray((late - early) / (fast - slow))


@formula("rise + rate * time_constant")
def final_rise_from_rate(rise: ArrayLike, rate: ArrayLike, time_constant: ArrayLike) -> NDArray[np.float64]:
    """Final rise of a heating run from how fast it warms now.

    Parameters
    ----------
    rise : array_like
        Now. [K]
    rate : array_like
        How fast it grows now. [K/s]
    time_constant : array_like
        Of one body; > 0. [s]

    Returns
    -------
    rise : ndarray
        After a long time. [K]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Gupta and Singhal, Fundamentals of Electric Drives, ex. 4.5.
    """
    return np.asarray(number(rise) + number(rate) * positive(time_constant, "time_constant", "s"))


@formula(
    "sqrt((1 - exp(-on_time / heating_time_constant - off_time / cooling_time_constant))"
    " / (1 - exp(-on_time / heating_time_constant)))"
)
def overload_factor(
    on_time: ArrayLike,
    off_time: ArrayLike,
    heating_time_constant: ArrayLike,
    cooling_time_constant: ArrayLike,
) -> NDArray[np.float64]:
    """Load above the continuous one that a motor bears if it may rest in between.

    Heat is taken as the square of the load, with no loss that stays.

    Parameters
    ----------
    on_time : array_like
        Of each run; > 0. [s]
    off_time : array_like
        Of each rest; >= 0; infinite for a single run from cold. [s]
    heating_time_constant : array_like
        While it runs; > 0. [s]
    cooling_time_constant : array_like
        While it rests, longer without its fan; > 0. [s]

    Returns
    -------
    factor : ndarray
        Times the load that it bears for ever. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.

    References
    ----------
    Dubey, Fundamentals of Electrical Drives, ex. 4.4.
    """
    heating = positive(on_time, "on_time", "s") / positive(
        heating_time_constant, "heating_time_constant", "s"
    )
    cooling = not_negative(off_time, "off_time", "s") / positive(
        cooling_time_constant, "cooling_time_constant", "s"
    )
    return np.asarray(np.sqrt(np.expm1(-heating - cooling) / np.expm1(-heating)))


def _two_rises(rise: ArrayLike, double_rise: ArrayLike) -> tuple[Floats, Floats]:
    first, second = positive(rise, "rise", "K"), number(double_rise)
    between = ~((second <= first) | (second >= 2 * first))
    require(between, "double_rise", "must lie between one and two times the first rise, in K", second)
    return first, second
