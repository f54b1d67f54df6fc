"""To which values can a number be set? Steps of a radio, sizes that can be had, round numbers that can be made."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Any

import numpy as np
from numpy.typing import NDArray

from mulewright.design.mule import Mule
from mulewright.design.paths import parse_path
from mulewright.shelf.changes import Change
from mulewright.units.quantity import Quantity, read_quantity

REACH = 10  # a number that stands is at most made so many times as large or small


def grid(
    change: Change, kind: str, now: Quantity | None, mule: Mule
) -> tuple[NDArray[np.float64], list[Any]]:
    """The values to which a number can be set, in SI and ascending, each with what one would write."""
    texts = _texts(change, kind, now, mule)
    pairs = sorted({read_quantity(text, kind).value: text for text in texts}.items())
    if now is not None:
        pairs = [
            (value, text)
            for value, text in pairs
            if not np.isclose(value, now.value, rtol=1e-9)
            and not (change.only_up and value < now.value)
            and not (change.only_down and value > now.value)
        ]
    return np.array([value for value, _ in pairs]), [text for _, text in pairs]


def _texts(change: Change, kind: str, now: Quantity | None, mule: Mule) -> Sequence[Any]:
    if change.values:
        return change.values
    if change.step:
        return _stepped(change, kind, _end(change, mule))
    return _round(change, kind, now)


def _end(change: Change, mule: Mule) -> str:
    """How far it goes: what an input says, or else what is usual."""
    if not change.ends_at:
        return change.most
    *table, name = parse_path(change.ends_at)
    try:
        said = mule.table(".".join(table)).quantity(name)
    except KeyError:
        said = None
    return change.most if said is None else said.text


def _stepped(change: Change, kind: str, most: str) -> list[str]:
    unit = _unit(change.step)
    step = Decimal(change.step.split()[0])
    low, high, one = (read_quantity(text, kind).value for text in (change.least, most, f"1 {unit}".strip()))
    first, last = (round(value / one / float(step)) for value in (low, high))
    return [f"{step * count} {unit}".strip() for count in range(first, last + 1)]


def _round(change: Change, kind: str, now: Quantity | None) -> list[str]:
    """Numbers of a few digits: about what stands, or between what one would ever make."""
    if now is not None:
        unit = _unit(now.text.split("..")[0].strip())
        one = read_quantity(f"1 {unit}".strip(), kind).value
        low, high = now.value / REACH, now.value * REACH
        if low <= 0 and not (change.least and change.most):
            return []
    if now is None or now.value <= 0:
        if not (change.least and change.most):
            return []
        unit = _unit(change.least)
        one = read_quantity(f"1 {unit}".strip(), kind).value
        low, high = (read_quantity(text, kind).value for text in (change.least, change.most))
    if change.least:
        low = max(low, read_quantity(change.least, kind).value)
        high = min(high, read_quantity(change.most, kind).value)
    return [f"{number} {unit}".strip() for number in _digits(low / one, high / one, change.digits)]


def _digits(low: float, high: float, digits: int) -> list[str]:
    """Every number of so many digits between two."""
    first, last = (int(np.floor(np.log10(end))) for end in (low, high))
    found = []
    for power in range(first, last + 1):
        scale = Decimal(10) ** (power - digits + 1)
        for count in range(10 ** (digits - 1), 10**digits):
            number = count * scale
            if low <= float(number) <= high:
                found.append(f"{number.normalize():f}")
    return found


def _unit(text: str) -> str:
    return text.partition(" ")[2].strip()
