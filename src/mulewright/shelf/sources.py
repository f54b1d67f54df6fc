"""Where does each value of a part come from? What is said of a whole file goes to every quantity in it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from mulewright.errors import ShelfError, closest
from mulewright.shelf.keys import inner_tables
from mulewright.units.quantity import WORDS
from mulewright.units.table import Table, kinds_of

SOURCE_KEYS = ("from", "with", "ref")
UNKNOWN = "?"  # what people write for a value that nobody knows


def checked_source(source: object, where: str) -> dict[str, Any]:
    """Give back what is said about the source of a whole part.

    Raises
    ------
    ShelfError
        If it is not a table with ``from``, ``with`` and ``ref``, or ``from`` is no origin of numbers.
    """
    if not isinstance(source, Mapping) or not set(source) <= set(SOURCE_KEYS):
        raise ShelfError(
            what="a source that says nothing",
            where=f"{where}, source",
            rule='a table such as { from = "data-sheet", ref = "page 2" }; its keys are from, with, ref',
            found=str(source),
        )
    word = source.get("from")
    if word is not None and word not in WORDS:
        raise ShelfError(
            what="not a source that numbers come from",
            where=f"{where}, source",
            rule=f"from is one of {', '.join(WORDS)}",
            found=str(word),
            nearest=closest(str(word), WORDS),
        )
    return dict(source)


def with_sources(
    values: Mapping[str, Any], schema: type[Table], source: Mapping[str, Any], part: str
) -> dict[str, Any]:
    """Turn every quantity into a table that says where it comes from; what is unknown is left out."""
    kinds, inner = kinds_of(schema), inner_tables(schema)

    def below(value: Any, table: type[Table]) -> Any:
        return with_sources(value, table, source, part) if isinstance(value, Mapping) else value

    def filled(name: str, value: Any) -> Any:
        if name in kinds:
            return _with_source(value, source, part)
        if name not in inner or not isinstance(value, Mapping):
            return value
        if inner[name].named:
            return {key: below(one, inner[name].table) for key, one in value.items()}
        return below(value, inner[name].table)

    return {name: filled(name, value) for name, value in values.items() if value != UNKNOWN}


def _with_source(value: Any, source: Mapping[str, Any], part: str) -> dict[str, Any]:
    own = dict(value) if isinstance(value, Mapping) else {"value": value}
    return (own if "from" in own else {**source, **own}) | {"part": part}
