"""What does a range such as ``20..60 mm`` or a list such as ``12, 16, 24`` mean in SI?"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from mulewright.errors import DesignError, MulewrightError
from mulewright.units.parse import number_to_si, to_si

MOST = 500  # values in one range


class Span(NamedTuple):
    """From the lowest to the highest value, in SI."""

    low: float
    high: float


def read_span(text: str, kind: str, where: str) -> Span:
    """Read a range; a lower end without a unit has that of the upper one, a single value is both ends.

    Raises
    ------
    MulewrightError
        If it is none.
    """
    low, dots, high = (word.strip() for word in text.partition(".."))
    if dots and (not low or not high):
        raise DesignError("is no range", where, "LOWEST..HIGHEST", text)
    ends = [low, high] if dots else [low, low]
    unit = ends[1].lstrip("+-.0123456789eE").strip()
    if ends[0].lstrip("+-.0123456789eE").strip() == "" and unit:
        ends[0] = f"{ends[0]} {unit}"
    try:
        span = Span(*(to_si(end, kind) for end in ends))
    except MulewrightError as no:
        no.where = no.where or where
        raise
    if span.low > span.high:
        raise DesignError("is no range", where, "the lowest value first", text)
    return span


def steps(span: Span, step: float, where: str) -> list[float]:
    """Values from one end of a range to the other.

    Raises
    ------
    DesignError
        If there are more than anybody needs.
    """
    count = int(np.floor((span.high - span.low) / step + 1e-9)) + 1
    if count > MOST:
        raise DesignError("there are too many steps", where, f"at most {MOST}", str(count))
    return [float(np.round(span.low + place * step, 9)) for place in range(count)]


def read_sizes(text: str, step: float, where: str) -> list[float]:
    """Read sizes: a range, which is walked in steps, or a list."""
    found: list[float] = []
    for word in text.split(","):
        span = read_span(word, "length", where)
        if span.low <= 0:
            raise DesignError("is no diameter", where, "above 0 mm", word.strip())
        found += steps(span, step, where)
    return list(dict.fromkeys(found))


def read_counts(text: str, where: str) -> list[float]:
    """Read whole numbers of teeth."""
    found = []
    for word in text.split(","):
        try:
            count = number_to_si(int(word), "count")
        except ValueError as no:
            raise DesignError(
                "is no number of teeth", where, "whole numbers such as 12,16,24", word.strip()
            ) from no
        if count < 3:
            raise DesignError("is no toothed wheel", where, "3 teeth at least", word.strip())
        found.append(count)
    return found
