"""Which numbers from outside do the models reach? Compare as tightly as printed, and keep both numbers."""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Any, Literal, TypeVar

import numpy as np
import pytest
from numpy.typing import ArrayLike

Mark = Literal["R", "M", "C", "T"]
MARKS: dict[Mark, str] = {
    "R": "read in the source",
    "M": "from memory",
    "C": "computed independently",
    "T": "common practice, no source",
}
MANY = 20  # more values than this in one comparison are listed as one line
DIGITS = 6  # of our own values in the list

Test = TypeVar("Test", bound=Callable[..., None])


@dataclass(frozen=True)
class Outside:
    """One quantity from outside that a test compares with."""

    id: str
    quantity: str
    source: str
    mark: Mark
    test: str


@dataclass(frozen=True)
class Agreement:
    """One value of ours that agrees with one from outside, as texts."""

    id: str
    case: str
    ours: str
    outside: str
    tolerance: str


OUTSIDE: list[Outside] = []
AGREED: list[Agreement] = []


def tolerance_of(text: str) -> float:
    """Half a unit of the last printed digit.

    >>> tolerance_of("1.588"), tolerance_of("2e-3")
    (0.0005, 0.0005)
    """
    exponent = Decimal(text).as_tuple().exponent
    assert isinstance(exponent, int)
    return 0.5 * 10.0**exponent


def as_printed(text: str) -> Any:
    """Half a unit of the last printed digit is the whole tolerance.

    >>> 1.5884 == as_printed("1.588")
    True
    >>> 1.5886 == as_printed("1.588")
    False
    """
    return pytest.approx(float(text), rel=0, abs=tolerance_of(text))


def outside(id: str, *, quantity: str, source: str, mark: Mark) -> Callable[[Test], Test]:
    """Put a test on the list of comparisons with the outside; the test itself is unchanged."""
    if mark not in MARKS:
        raise ValueError(f"{id}: mark {mark!r} is none of {', '.join(MARKS)}")

    def register(test: Test) -> Test:
        OUTSIDE.append(Outside(id, quantity, source, mark, f"{test.__module__}::{test.__name__}"))
        return test

    return register


def agrees(
    ours: ArrayLike,
    theirs: str | ArrayLike,
    *,
    rel: float = 0.0,
    abs: float = 0.0,
    case: str = "",
    of: str = "",
) -> None:
    """Assert that ours is the number from outside, and keep both for the list.

    A text is compared as tightly as it is printed; a number within ``rel`` or ``abs``, whichever is wider, and to
    rounding where neither is given. ``case`` says which one it is where a quantity has several; ``of`` names the
    quantity where a test is decorated with several.
    """
    printed = isinstance(theirs, str)
    if printed:
        abs = max(abs, tolerance_of(str(theirs)))
    elif not rel and not abs:
        rel = 1e-9
    own, value = np.broadcast_arrays(np.asarray(ours, np.float64), np.asarray(theirs, np.float64))
    assert own == pytest.approx(value, rel=rel, abs=abs)
    said = "as printed" if printed else _tolerance(rel, abs)
    texts = [str(theirs)] * own.size if printed else None
    AGREED.extend(_agreements(own, value, texts, abs, said, case, of))


def within(ours: ArrayLike, low: float, high: float, *, case: str = "", of: str = "") -> None:
    """Assert that ours lies in a range from outside, both ends included, and keep both for the list."""
    values = np.asarray(ours, dtype=np.float64)
    assert np.all((low <= values) & (values <= high)), f"{values} is not within {low:g} to {high:g}"
    text = f"{low:g} to {high:g}"
    AGREED.extend(_agreements(values, values, [text] * values.size, 0.0, "range", case, of))


def noted(ours: str, theirs: str, tolerance: str, *, case: str = "", of: str = "") -> None:
    """Keep a comparison that the running test made in words; the test itself asserts it."""
    id, _ = _current(of)
    if id:
        AGREED.append(Agreement(id, case, ours, theirs, tolerance))


def _agreements(
    ours: Any, theirs: Any, texts: list[str] | None, abs: float, tolerance: str, case: str, of: str
) -> Iterator[Agreement]:
    """Every value of a comparison made in a test that is on the list; none elsewhere."""
    id, parameters = _current(of)
    if not id:
        return
    ours, theirs = np.ravel(ours), np.ravel(theirs)
    if ours.size > MANY:
        worst = float(np.max(np.abs(ours - theirs)))
        off = "0" if worst <= abs else f"{worst:.1g}"
        yield Agreement(id, case, f"{ours.size} values, at most {off} off", f"{ours.size} values", tolerance)
        return
    for place, (own, value) in enumerate(zip(ours, theirs, strict=True)):
        text = texts[place] if texts else shown(value, abs, DIGITS if tolerance != "rounding" else 10)
        with_its = "" if parameters == text else parameters.removesuffix(f"-{text}")
        which = (with_its, case, str(place + 1) if ours.size > 1 else "")
        yield Agreement(id, " ".join(filter(None, which)), shown(own, abs), text, tolerance)


def shown(value: float, abs: float, digits: int = DIGITS) -> str:
    """Write a value; what is nothing within the tolerance, or to rounding, is nothing."""
    return "0" if np.abs(value) <= max(abs / 10, 1e-14) else f"{value:.{digits}g}"


def _tolerance(rel: float, abs: float) -> str:
    parts = [f"{100 * rel:.2g} %"] if rel > 1e-6 else []
    parts += [f"{abs:.2g}"] if abs > 1e-9 else []
    return " or ".join(parts) or "rounding"


def _current(of: str) -> tuple[str, str]:
    """Id of the quantity that the running test compares, and the test's parameters."""
    running = os.environ.get("PYTEST_CURRENT_TEST", "").rsplit(" ", 1)[0]
    found = re.fullmatch(r"(.+)\.py::(\w+)(?:\[(.*)\])?", running)
    if found is None:
        return "", ""
    test = f"{found[1].replace('/', '.')}::{found[2]}"
    ids = [one.id for one in OUTSIDE if one.test == test]
    if of or len(ids) <= 1:
        return of or "".join(ids), found[3] or ""
    raise ValueError(f"{test} compares {', '.join(ids)}: say of which")
