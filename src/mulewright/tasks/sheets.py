"""What does a table of facts hold? Rows of facts and words, each fact with its unit, its origin and what it lacks."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, NoReturn

from mulewright.errors import NotFound, closest
from mulewright.facts.graph import Facts
from mulewright.facts.nodes import Node, trouble
from mulewright.tasks.listing import fact_as_dict
from mulewright.tasks.opening import Opened


@dataclass(frozen=True)
class Figure:
    """One fact in a table; a share may be read as percent."""

    node: Node
    as_percent: bool = False


Cell = Figure | str


def figure(of: Facts, name: str, *, as_percent: bool = False) -> Figure:
    """One fact of an entity, for a table."""
    return Figure(of.node(name), as_percent)


@dataclass(frozen=True)
class Sheet:
    """One table, with what has to be said above and below it."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]
    above: tuple[str, ...] = ()
    below: tuple[str, ...] = ()

    @property
    def nodes(self) -> list[Node]:
        """Every fact in it."""
        return [cell.node for row in self.rows for cell in row if isinstance(cell, Figure)]

    @property
    def lacks(self) -> str:
        """Why some of it cannot be told: what cannot be worked out, else what is missing; empty if nothing."""
        gaps = sorted({path for node in self.nodes for path in node.gaps})
        return trouble(self.nodes) or (f"needs {', '.join(gaps)}" if gaps else "")

    def as_dict(self) -> dict[str, Any]:
        """The table for programs; each row by its columns."""
        return {
            "title": self.title,
            "above": list(self.above),
            "columns": list(self.columns),
            "rows": [
                {column: _plain(cell) for column, cell in zip(self.columns, row, strict=True)}
                for row in self.rows
            ],
            "below": list(self.below),
            "lacks": self.lacks,
        }


def _plain(cell: Cell) -> Any:
    return cell if isinstance(cell, str) else fact_as_dict(cell.node)


@dataclass(frozen=True)
class Sheets:
    """The tables that somebody asked for."""

    opened: Opened
    sheets: tuple[Sheet, ...]
    more: Mapping[str, Any] = field(default_factory=dict)

    def as_dict(self) -> dict[str, Any]:
        """The tables for programs."""
        return {"mule": self.opened.name, **self.more, "tables": [sheet.as_dict() for sheet in self.sheets]}


def refuse(what: str, where: str, asked: str, known: Sequence[str], otherwise: str) -> NoReturn:
    """Say that the mule has nothing of the kind, and what it has instead.

    Raises
    ------
    NotFound
        Always.
    """
    rule = f"one of {', '.join(known)}" if known else otherwise
    raise NotFound(what, where, rule, asked, closest(asked, known))
