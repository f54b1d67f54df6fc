"""Which printed numbers do the models reach? Compare as tightly as printed, and keep the list."""

from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, Literal, TypeVar

import pytest

Mark = Literal["R", "M", "C"]
MARKS: dict[Mark, str] = {
    "R": "read in the source",
    "M": "from memory",
    "C": "computed independently",
}

Test = TypeVar("Test", bound=Callable[..., None])


@dataclass(frozen=True)
class Outside:
    """One number from outside that a test compares with."""

    id: str
    quantity: str
    source: str
    mark: Mark
    test: str


OUTSIDE: list[Outside] = []


def as_printed(text: str) -> Any:
    """Half a unit of the last printed digit is the whole tolerance.

    >>> 1.5884 == as_printed("1.588")
    True
    >>> 1.5886 == as_printed("1.588")
    False
    """
    exponent = Decimal(text).as_tuple().exponent
    assert isinstance(exponent, int)
    return pytest.approx(float(text), rel=0, abs=0.5 * 10.0**exponent)


def outside(id: str, *, quantity: str, source: str, mark: Mark) -> Callable[[Test], Test]:
    """Put a test on the list of comparisons with the outside; the test itself is unchanged."""
    if mark not in MARKS:
        raise ValueError(f"{id}: mark {mark!r} is none of {', '.join(MARKS)}")

    def register(test: Test) -> Test:
        OUTSIDE.append(Outside(id, quantity, source, mark, f"{test.__module__}::{test.__qualname__}"))
        return test

    return register
