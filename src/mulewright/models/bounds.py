"""May a model take this number? Each check gives it back as floats or names the broken rule."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from mulewright.errors import require

Floats = NDArray[np.float64]


def number(value: ArrayLike) -> Floats:
    """Take any number; nan stands for unknown and always passes."""
    return np.asarray(value, dtype=np.float64)


def positive(value: ArrayLike, name: str, unit: str = "") -> Floats:
    """Take a number above zero."""
    floats = number(value)
    require(~(floats <= 0), name, f"must be > 0 {unit}".rstrip(), floats)
    return floats


def not_negative(value: ArrayLike, name: str, unit: str = "") -> Floats:
    """Take a number that is zero or more."""
    floats = number(value)
    require(~(floats < 0), name, f"must be >= 0 {unit}".rstrip(), floats)
    return floats


def between(value: ArrayLike, name: str, low: float, high: float) -> Floats:
    """Take a number from ``low`` to ``high``, both included."""
    floats = number(value)
    require(~((floats < low) | (floats > high)), name, f"must be {low:g} to {high:g}", floats)
    return floats


def efficiency_of(value: ArrayLike, name: str = "efficiency") -> Floats:
    """Take an efficiency: above zero, at most one."""
    floats = number(value)
    require(~((floats <= 0) | (floats > 1)), name, "must be > 0 and <= 1", floats)
    return floats


def one_each(name: str, values: Sequence[ArrayLike], other: str, others: Sequence[ArrayLike]) -> None:
    """Refuse two lists that should go together and differ in length."""
    require(
        len(values) == len(others), name, f"must be one for each of the {len(others)} {other}", len(values)
    )
