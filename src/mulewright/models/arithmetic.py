"""The plain sums that join facts: totals, extremes, products and shares."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require
from mulewright.models.formula import formula


@formula("max(values)")
def largest(values: Sequence[ArrayLike]) -> NDArray[np.float64]:
    """Largest of several values of one kind.

    Parameters
    ----------
    values : sequence of array_like
        One per thing; at least one. [any]

    Returns
    -------
    largest : ndarray
        Broadcast shape of the values. [as given]

    Raises
    ------
    DomainError
        If there are none.
    """
    require(len(values) > 0, "values", "must hold at least one", len(values))
    return np.asarray(reduce(np.maximum, map(np.asarray, values)), dtype=float)


@formula("min(values)")
def smallest(values: Sequence[ArrayLike]) -> NDArray[np.float64]:
    """Smallest of several values of one kind.

    Parameters
    ----------
    values : sequence of array_like
        One per thing; at least one. [any]

    Returns
    -------
    smallest : ndarray
        Broadcast shape of the values. [as given]

    Raises
    ------
    DomainError
        If there are none.
    """
    require(len(values) > 0, "values", "must hold at least one", len(values))
    return np.asarray(reduce(np.minimum, map(np.asarray, values)), dtype=float)


@formula("first * second")
def product(first: ArrayLike, second: ArrayLike) -> NDArray[np.float64]:
    """Product of two values.

    Parameters
    ----------
    first : array_like
        One factor. [any]
    second : array_like
        The other. [any]

    Returns
    -------
    product : ndarray
        Broadcast shape of the inputs. [unit of first times unit of second]
    """
    return np.asarray(np.multiply(first, second), dtype=float)


@formula("part / whole")
def quotient(part: ArrayLike, whole: ArrayLike) -> NDArray[np.float64]:
    """How many times one value holds another; nothing of nothing is nan.

    Parameters
    ----------
    part : array_like
        What is divided. [any]
    whole : array_like
        What it is divided by; not 0. [any]

    Returns
    -------
    quotient : ndarray
        Broadcast shape of the inputs. [unit of part over unit of whole]

    Raises
    ------
    DomainError
        If ``whole`` is 0.
    """
    whole = np.asarray(whole, dtype=float)
    require(~(whole == 0), "whole", "must not be 0", whole)
    return np.asarray(np.asarray(part, dtype=float) / whole)


@formula("first - second")
def difference(first: ArrayLike, second: ArrayLike) -> NDArray[np.float64]:
    """What is left of one value after another of the same kind.

    Parameters
    ----------
    first : array_like
        What there is. [any]
    second : array_like
        What goes off. [as first]

    Returns
    -------
    difference : ndarray
        Broadcast shape of the inputs. [as given]
    """
    return np.asarray(np.subtract(first, second), dtype=float)


@formula("abs(value)")
def magnitude(value: ArrayLike) -> NDArray[np.float64]:
    """Size of a value without its sign.

    Parameters
    ----------
    value : array_like
        Any value. [any]

    Returns
    -------
    magnitude : ndarray
        Shape of the input. [as given]
    """
    return np.asarray(np.abs(np.asarray(value, dtype=float)))


@formula("sign * half_range * travel * rate * prod(weights)")
def stick_reach(
    sign: ArrayLike, half_range: ArrayLike, travel: ArrayLike, rate: ArrayLike, weights: Sequence[ArrayLike]
) -> NDArray[np.float64]:
    """Pulse, from neutral, that a fully pushed control adds to an output.

    Parameters
    ----------
    sign : array_like
        +1, or -1 where a mix or a reverse turns it round. [1]
    half_range : array_like
        Pulse from neutral at 100 % travel of the radio. [s]
    travel : array_like
        Endpoint of the channel, as a fraction. [1]
    rate : array_like
        Rate in force for the control, as a fraction. [1]
    weights : sequence of array_like
        Shares in the mixes on the way, and the factor of a range widener; one per device on the way. [1]

    Returns
    -------
    reach : ndarray
        Broadcast shape of the inputs. [s]
    """
    factors = [sign, half_range, travel, rate, *weights]
    return np.asarray(
        reduce(np.multiply, [np.asarray(factor, dtype=float) for factor in factors]), dtype=float
    )


@formula("abs(value / reference - 1)")
def deviation(value: ArrayLike, reference: ArrayLike) -> NDArray[np.float64]:
    """How far a value is from a reference, as a share of the reference.

    Parameters
    ----------
    value : array_like
        What there is. [any]
    reference : array_like
        What it is compared with; not 0. [as value]

    Returns
    -------
    deviation : ndarray
        Without a sign. [1]

    Raises
    ------
    DomainError
        If ``reference`` is 0.
    """
    return np.asarray(np.abs(quotient(value, reference) - 1))


@formula("maximum(low / value, value / high)")
def outside_range(value: ArrayLike, low: ArrayLike, high: ArrayLike) -> NDArray[np.float64]:
    """How far a value lies outside a range, by factors: above one it is outside.

    Parameters
    ----------
    value : array_like
        What there is; > 0. [any]
    low : array_like
        Lower end of the range. [as value]
    high : array_like
        Upper end of the range; > 0. [as value]

    Returns
    -------
    factor : ndarray
        The larger of both factors. [1]

    Raises
    ------
    DomainError
        If an input breaks the bound written beside it above.
    """
    value = np.asarray(value, dtype=float)
    require(~(value <= 0), "value", "must be > 0", value)
    return np.asarray(np.maximum(quotient(low, value), quotient(value, high)))


@formula("max(values) / min(values) - 1")
def relative_spread(values: Sequence[ArrayLike]) -> NDArray[np.float64]:
    """How much the largest of several values is above the smallest, as a share of the smallest.

    Parameters
    ----------
    values : sequence of array_like
        One per thing; at least one, the smallest not 0. [any]

    Returns
    -------
    spread : ndarray
        0 where all are alike. [1]

    Raises
    ------
    DomainError
        If there are none, or the smallest is 0.
    """
    return np.asarray(quotient(largest(values), smallest(values)) - 1)
