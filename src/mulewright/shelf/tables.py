"""What does one take for a number that nobody has given? Generic tables, each row with mark and source."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from mulewright.errors import NotFound, closest
from mulewright.units.gauge import awg_to_area
from mulewright.units.quantity import Origin, Quantity, read_quantity

Mark = Literal["published", "common practice", "judgement", "from memory"]

FOLDER = Path(__file__).with_name("data") / "tables"
AMPACITY, CHANGES, MEASURING, SYMPTOMS = "ampacity", "changes", "measuring", "symptoms"
CHECKLISTS, POWER_UP = "checklists", "power_up"
_OF_ANOTHER_FORM = frozenset({AMPACITY, CHANGES, MEASURING, SYMPTOMS, CHECKLISTS, POWER_UP})
_SAID_OF_ALL = ("kind", "about", "mark", "source")


@dataclass(frozen=True)
class Row:
    """One number to assume, and how well founded it is."""

    name: str
    quantity: Quantity
    about: str
    mark: Mark
    source: str


def default(name: str) -> Quantity:
    """Look up a number to assume, e.g. ``neutral_pulse`` or ``gear_efficiency.spur``.

    Raises
    ------
    NotFound
        If there is no such row; the message names the nearest.
    """
    return row(name).quantity


def row(name: str) -> Row:
    """Look up a number to assume together with its mark and its source.

    Raises
    ------
    NotFound
        If there is no such row; the message names the nearest.
    """
    known = rows()
    if name not in known:
        raise NotFound(what=f"no default called {name!r}", nearest=closest(name, known))
    return known[name]


@lru_cache(maxsize=1)
def rows() -> Mapping[str, Row]:
    """Every number to assume by its name."""
    files = sorted(path for path in FOLDER.glob("*.toml") if path.stem not in _OF_ANOTHER_FORM)
    return {found.name: found for path in files for found in _rows_of(read_table(path))}


def group(name: str) -> Mapping[str, Quantity]:
    """All rows of a table, e.g. of ``gear_efficiency``, by what follows the dot.

    Raises
    ------
    NotFound
        If there is no such table; the message names the nearest.
    """
    found = {
        known.partition(".")[2]: row.quantity for known, row in rows().items() if known.startswith(f"{name}.")
    }
    if not found:
        groups = {known.partition(".")[0] for known in rows() if "." in known}
        raise NotFound(what=f"no table called {name!r}", nearest=closest(name, groups))
    return found


@dataclass(frozen=True)
class Column:
    """Continuous current by cross-section, for one way of laying wire."""

    name: str
    areas: NDArray[np.float64]  # [m2], ascending
    currents: NDArray[np.float64]  # [A]
    about: str
    mark: Mark
    source: str


@lru_cache(maxsize=1)
def columns() -> Mapping[str, Column]:
    """Every ampacity column by its name; the first one is the default."""
    return {name: _column(name, table) for name, table in read_table(FOLDER / f"{AMPACITY}.toml").items()}


def column(table: str = "short-chassis") -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Cross-sections [m2], ascending, and the continuous current of each [A].

    Raises
    ------
    NotFound
        If there is no such column; the message names the nearest.
    """
    found = ampacity(table)
    return found.areas, found.currents


def ampacity(table: str = "short-chassis") -> Column:
    """Look up an ampacity column together with its mark and its source.

    Raises
    ------
    NotFound
        If there is no such column; the message names the nearest.
    """
    known = columns()
    if table not in known:
        raise NotFound(
            what=f"no ampacity table called {table!r}",
            rule=f"one of {', '.join(known)}",
            nearest=closest(table, known),
        )
    return known[table]


def read_table(path: Path) -> dict[str, Any]:
    """Read one file of the tables."""
    return tomllib.loads(path.read_text(encoding="utf-8"))


def _rows_of(tables: Mapping[str, Any]) -> Iterator[Row]:
    for name, table in tables.items():
        said = {key: table[key] for key in _SAID_OF_ALL}
        if "rows" not in table:
            yield _row(name, said, table)
        for below, value in table.get("rows", {}).items():
            yield _row(f"{name}.{below}", said, value if isinstance(value, dict) else {"value": value})


def _row(name: str, said_of_all: Mapping[str, Any], own: Mapping[str, Any]) -> Row:
    said = {key: own.get(key, value) for key, value in said_of_all.items()}
    number = {key: value for key, value in own.items() if key not in _SAID_OF_ALL}
    quantity = replace(read_quantity(number, said["kind"]), origin=Origin.ASSUMED, ref=said["source"])
    return Row(name, quantity, said["about"], said["mark"], said["source"])


def _column(name: str, table: Mapping[str, Any]) -> Column:
    points = sorted(
        (awg_to_area(int(gauge)), read_quantity(text, table["kind"]).value)
        for gauge, text in table["rows"].items()
    )
    areas, currents = np.array(points).T
    areas.setflags(write=False)
    currents.setflags(write=False)
    return Column(name, areas, currents, table["about"], table["mark"], table["source"])
