"""What is said at each step of a first power-up, with what is it read, and how far may a part be off its sheet?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from mulewright.shelf.measuring import closest_fit, error_in_si
from mulewright.shelf.tables import FOLDER, POWER_UP, Mark, read_table
from mulewright.units.parse import to_si


@dataclass(frozen=True)
class Meter:
    """With what one reads, and how far off that is."""

    instrument: str
    kind: str
    error: str
    mark: Mark
    source: str
    least: str = ""  # less is not told from nothing
    on_battery: str = ""  # what takes its place where there is no bench supply

    def told(self, value: float) -> float:
        """A value, or nothing where the meter does not tell it from that. [SI]."""
        return value if not self.least or value >= to_si(self.least, self.kind) else 0.0

    def off(self, value: float) -> float:
        """How far off it may be at a value, either way. [SI]."""
        return error_in_si(self.error, self.kind, value)


@dataclass(frozen=True)
class Tolerance:
    """How far what some paths name may be off what was typed."""

    about: str
    paths: tuple[str, ...]
    share: str
    mark: Mark
    source: str

    def off(self, value: float) -> float:
        """How far off a value may be, either way. [SI]."""
        return abs(value) * to_si(self.share, "percent")


@dataclass(frozen=True)
class ReadingWords:
    """What one reads, and what it means outside its band."""

    meter: str
    what: str
    below: str = ""
    above: str = ""
    nothing: str = ""
    minus: str = ""
    short: str = ""  # over a column of a table


@dataclass(frozen=True)
class StepWords:
    """What a step is called, what is done, and what it settles."""

    stage: int
    title: str
    then: str
    proves: tuple[str, ...] = ()
    checks: tuple[str, ...] = ()
    do: tuple[str, ...] = ()


@lru_cache(maxsize=1)
def _table() -> Mapping[str, Any]:
    return read_table(FOLDER / f"{POWER_UP}.toml")


def stages() -> Sequence[str]:
    """The stages in their order."""
    return tuple(_table()["stages"])


def without_radio() -> Sequence[str]:
    """What cannot be proven on a servo tester alone."""
    return tuple(_table()["without_radio"]["text"])


@lru_cache(maxsize=1)
def meters() -> Mapping[str, Meter]:
    """Every meter by its name."""
    return {name: Meter(**one) for name, one in _table()["meter"].items()}


@lru_cache(maxsize=1)
def tolerances() -> Sequence[Tolerance]:
    """Every tolerance of a part."""
    return tuple(Tolerance(**{**one, "paths": tuple(one["paths"])}) for one in _table()["tolerance"].values())


def tolerance(path: str) -> Tolerance | None:
    """The tolerance of what stands at a path."""
    return closest_fit(path, tolerances())


@lru_cache(maxsize=1)
def readings() -> Mapping[str, ReadingWords]:
    """The words of every reading."""
    return {name: ReadingWords(**one) for name, one in _table()["reading"].items()}


@lru_cache(maxsize=1)
def steps() -> Mapping[str, StepWords]:
    """The words of every kind of step."""
    return {name: StepWords(**_tuples(one)) for name, one in _table()["step"].items()}


def fixed(name: str) -> tuple[float | None, float | None]:
    """The ends of a band that does not hang on the mule. [SI]."""
    one = _table()["fixed"][name]
    low, high = (to_si(one[end], one["kind"]) if end in one else None for end in ("low", "high"))
    return low, high


def factor(name: str) -> float:
    """A plain number of the table. [1]."""
    return float(_table()["fixed"][name]["value"])


def sizes(name: str) -> Sequence[float]:
    """Sizes in which a thing is sold. [SI]."""
    one = _table()["fixed"][name]
    return tuple(to_si(size, one["kind"]) for size in one["sizes"])


def _tuples(one: Mapping[str, Any]) -> dict[str, Any]:
    return {key: tuple(value) if isinstance(value, list) else value for key, value in one.items()}
