"""What is known about one number: its value, where it comes from, and how far off it may be."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from enum import IntEnum
from typing import Any

from mulewright.errors import UnitError, closest
from mulewright.units.kinds import KINDS
from mulewright.units.parse import number_to_si, to_si


class Origin(IntEnum):
    """Where a number comes from, best first; a result is as good as its weakest input."""

    EXACT = 0  # counted or defined, e.g. the number of motors
    MEASURED = 1
    DATA_SHEET = 2
    DERIVED = 3
    TYPED = 4  # written down without saying from where
    ESTIMATE = 5
    ASSUMED = 6

    @property
    def word(self) -> str:
        """The word people type and read."""
        return self.name.lower().replace("_", "-")


WORDS = {origin.word: origin for origin in Origin if origin not in (Origin.EXACT, Origin.TYPED)}
KEYS = ("value", "from", "with", "ref", "plus_minus", "min", "max", "part", "note")


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with its kind, its text, its origin and its interval; values in SI."""

    value: float
    kind: str
    text: str
    origin: Origin = Origin.TYPED
    instrument: str = ""
    ref: str = ""
    low: float | None = None
    high: float | None = None
    part: str = ""

    @property
    def unit(self) -> str:
        """The SI unit of the value."""
        return KINDS[self.kind].si

    @property
    def uncertain(self) -> bool:
        """Whether an interval says how far off it may be."""
        return self.low is not None or self.high is not None

    @property
    def source(self) -> str:
        """Where the number comes from, in a few words."""
        words = [self.origin.word]
        if self.instrument:
            words.append(f"with {self.instrument}")
        if self.ref:
            words.append(f"({self.ref})")
        if self.part:
            words.append(f"[part {self.part}]")
        return " ".join(words)


def read_quantity(raw: object, kind: str) -> Quantity:
    """Read a value of a mule file or a part: text with its unit, or a table that says more about it.

    Raises
    ------
    UnitError
        If it is not a quantity of that kind, or its interval contradicts it.
    """
    if isinstance(raw, Quantity):
        return raw
    if isinstance(raw, Mapping):
        return _from_table(raw, kind)
    return Quantity(_to_si(raw, kind), kind, _text(raw))


def _from_table(raw: Mapping[str, Any], kind: str) -> Quantity:
    for key in raw:
        if key not in KEYS:
            raise UnitError(
                what=f"{key!r} is nothing that can be said about a number",
                rule=f"one of {', '.join(KEYS)}",
                found=key,
                nearest=closest(key, KEYS),
            )
    low, high = (_to_si(raw[key], kind) if key in raw else None for key in ("min", "max"))
    if "value" in raw:
        value, text = _to_si(raw["value"], kind), _text(raw["value"])
    elif low is not None and high is not None:
        value, text = (low + high) / 2, f"{_text(raw['min'])} .. {_text(raw['max'])}"
    else:
        raise UnitError(
            what="a number without its value", rule="give value, or both min and max", found=str(dict(raw))
        )
    if "plus_minus" in raw:
        spread = _spread(raw["plus_minus"], value, kind)
        low, high = value - spread, value + spread
    if (low is not None and low > value) or (high is not None and high < value):
        raise UnitError(
            what="an interval that does not hold its value", rule="min <= value <= max", found=str(dict(raw))
        )
    quantity = Quantity(value, kind, text, low=low, high=high)
    return replace(
        quantity,
        origin=_origin(raw.get("from")),
        instrument=str(raw.get("with", "")),
        ref=str(raw.get("ref", "")),
        part=str(raw.get("part", "")),
    )


def _origin(word: object) -> Origin:
    if word is None:
        return Origin.TYPED
    if not isinstance(word, str) or word not in WORDS:
        raise UnitError(
            what="not a source that numbers come from",
            rule=f"from is one of {', '.join(WORDS)}",
            found=str(word),
            nearest=closest(str(word), WORDS),
        )
    return WORDS[word]


def _spread(raw: object, value: float, kind: str) -> float:
    if isinstance(raw, str) and raw.strip().endswith("%") and kind != "percent":
        return abs(value) * to_si(raw, "percent")
    if kind == "temperature":
        return abs(_to_si(raw, "temperature_rise"))
    return abs(_to_si(raw, kind))


def _to_si(raw: object, kind: str) -> float:
    if isinstance(raw, str):
        return to_si(raw, kind)
    if isinstance(raw, int | float):
        return number_to_si(raw, kind)
    raise UnitError(
        what=f"not a {kind.replace('_', ' ')}",
        rule=f"a text with its unit, e.g. one of {KINDS[kind].accepted}",
        found=type(raw).__name__,
    )


def _text(raw: object) -> str:
    return raw if isinstance(raw, str) else f"{raw:g}" if isinstance(raw, int | float) else str(raw)
