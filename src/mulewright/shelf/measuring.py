"""With which instrument, how and in how many minutes is a number measured, and how far off is the result?"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fnmatch import fnmatchcase
from functools import lru_cache
from typing import Any, Protocol, TypeVar

from mulewright.shelf.tables import FOLDER, MEASURING, Mark
from mulewright.units.parse import to_si

CHOICE = "choice"  # the kind of an input that is no number
SHEET, DECISION, EYES = "data sheet", "decision", "eyes"


@dataclass(frozen=True)
class Instrument:
    """An instrument, what it is worth, and whether one always has it."""

    name: str
    about: str
    error: str
    always: bool
    mark: Mark
    source: str


@dataclass(frozen=True)
class Way:
    """One way to measure: an instrument, what to do, how long it takes."""

    instrument: str
    how: str
    minutes: float
    error: str = ""  # of the result; that of the instrument where it is left out
    most: str = ""  # the instrument reads no more


@dataclass(frozen=True)
class Row:
    """The ways to measure what some paths name, or the kinds that are measured so where no path fits."""

    name: str
    paths: tuple[str, ...]
    kinds: tuple[str, ...]
    by: tuple[Way, ...]
    same_part: bool  # one measurement serves every thing that is the same part
    mark: Mark
    source: str


@dataclass(frozen=True)
class Range:
    """Between what an unknown number usually lies."""

    name: str
    paths: tuple[str, ...]
    low: str
    high: str
    mark: Mark
    source: str


@dataclass(frozen=True)
class Spread:
    """How far off a number may be that is only an estimate, or assumed."""

    name: str
    about: str
    paths: tuple[str, ...]
    kinds: tuple[str, ...]
    estimate: str
    assumed: str
    mark: Mark
    source: str


@lru_cache(maxsize=1)
def _table() -> Mapping[str, Any]:
    return tomllib.loads((FOLDER / f"{MEASURING}.toml").read_text(encoding="utf-8"))


@lru_cache(maxsize=1)
def instruments() -> Mapping[str, Instrument]:
    """Every instrument by its name."""
    return {
        name: Instrument(
            name, one["about"], one["error"], one.get("always", False), one["mark"], one["source"]
        )
        for name, one in _table()["instrument"].items()
    }


@lru_cache(maxsize=1)
def rows() -> Sequence[Row]:
    """Every row of ways."""
    return tuple(_row(name, one) for name, one in _table()["way"].items())


@lru_cache(maxsize=1)
def ranges() -> Sequence[Range]:
    """Every usual range."""
    return tuple(
        Range(name, (path,), low, high, one["mark"], one["source"])
        for name, one in _table()["range"].items()
        for path, (low, high) in one["rows"].items()
    )


@lru_cache(maxsize=1)
def spreads() -> Sequence[Spread]:
    """Every spread."""
    return tuple(
        Spread(
            name, one["about"], tuple(one.get("paths", ())), tuple(one.get("kinds", ())), one["estimate"],
            one["assumed"], one["mark"], one["source"],
        )
        for name, one in _table()["spread"].items()
    )  # fmt: skip


class _Placed(Protocol):
    @property
    def paths(self) -> tuple[str, ...]: ...


class _Sorted(_Placed, Protocol):
    @property
    def kinds(self) -> tuple[str, ...]: ...


P = TypeVar("P", bound=_Placed)
S = TypeVar("S", bound=_Sorted)


def closest_fit(path: str, known: Iterable[P]) -> P | None:
    """The row of which a path fits most closely: the pattern that leaves least open."""
    fits = [
        (len(pattern.replace("*", "")), row)
        for row in known
        for pattern in row.paths
        if fnmatchcase(path, pattern)
    ]
    return max(fits, key=lambda fit: fit[0])[1] if fits else None


def fit(path: str, kind: str, known: Sequence[S]) -> S | None:
    """The row for a path, by path or else by kind; a pattern that leaves everything open comes last."""
    named = closest_fit(path, known)
    if named is not None and "*" not in named.paths:
        return named
    return next((row for row in known if kind in row.kinds), named)


def error_in_si(text: str, kind: str, value: float) -> float:
    """How far off a result may be: ``2 % + 50 g`` at a value, the parts added up.

    Parameters
    ----------
    text : str
        A share of the value, a number with a unit of the kind, or both joined by a plus.
    kind : str
        Kind of the quantity.
    value : float
        Where on its scale. [SI]

    Returns
    -------
    error : float
        Either way. [SI]

    Raises
    ------
    UnitError
        If a part is neither a share nor of that kind.

    >>> round(error_in_si("2 % + 50 g", "mass", 5.0), 9)
    0.15
    """
    return sum(_part(part.strip(), kind, value) for part in text.split("+"))


def _part(text: str, kind: str, value: float) -> float:
    if text.endswith("%") and kind != "percent":
        return abs(value) * to_si(text, "percent")
    return to_si(text, "temperature_rise" if kind == "temperature" else kind)


def _row(name: str, one: Mapping[str, Any]) -> Row:
    by = tuple(
        Way(way["with"], way["how"], way["minutes"], way.get("error", ""), way.get("most", ""))
        for way in one["by"]
    )
    paths, kinds = tuple(one.get("paths", ())), tuple(one.get("kinds", ()))
    return Row(name, paths, kinds, by, one.get("same_part", False), one["mark"], one["source"])
