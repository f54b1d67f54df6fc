"""Which keys may stand in a part, and what does each hold? Read off the schemas, never listed by hand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import Any, Literal, get_args, get_origin

from pydantic.fields import FieldInfo

from mulewright.errors import ShelfError, closest
from mulewright.units.fields import Of
from mulewright.units.quantity import KEYS
from mulewright.units.table import Table, kinds_of


@dataclass(frozen=True)
class Inner:
    """A field that holds a table of its own, or one table for each name."""

    table: type[Table]
    named: bool


@dataclass(frozen=True)
class Key:
    """One place in a part where a value may stand."""

    path: tuple[str, ...]
    info: FieldInfo
    quantity: Of | None = None
    about: str = ""  # what it says about the quantity named before it, such as plus_minus

    @property
    def is_list(self) -> bool:
        """Whether it holds several values."""
        return list in {get_origin(option) for option in _options(self.info.annotation)}

    @property
    def is_number(self) -> bool:
        """Whether a number with a unit of that quantity stands there."""
        return self.quantity is not None and self.about in ("", "value", "min", "max")

    @property
    def choices(self) -> tuple[str, ...]:
        """The words that it may hold, where only some may stand there."""
        literals = (option for option in _options(self.info.annotation) if get_origin(option) is Literal)
        return tuple(word for literal in literals for word in get_args(literal))


@cache
def inner_tables(schema: type[Table]) -> dict[str, Inner]:
    """The fields of a schema that hold tables."""
    found = {name: _inner_in(info.annotation) for name, info in schema.model_fields.items()}
    return {name: inner for name, inner in found.items() if inner is not None}


def _inner_in(annotation: Any) -> Inner | None:
    named = get_origin(annotation) is Mapping
    tables = (
        option for option in _options(annotation) if isinstance(option, type) and issubclass(option, Table)
    )
    return next((Inner(table, named) for table in tables), None)


def _options(annotation: Any) -> tuple[Any, ...]:
    """An annotation and what it chooses between."""
    return (annotation, *get_args(annotation))


def key_at(schema: type[Table], path: tuple[str, ...]) -> Key:
    """Look up the place that a dotted path names.

    Raises
    ------
    ShelfError
        If a part of that kind has no such key; the message names the nearest ones.
    """
    name, rest = path[0], path[1:]
    inner = inner_tables(schema).get(name)
    if inner is not None:
        below = rest[1:] if inner.named else rest
        if below:
            return replace(key_at(inner.table, below), path=path)
    elif name in schema.model_fields:
        key = Key(path, schema.model_fields[name], kinds_of(schema).get(name))
        if not rest:
            return key
        if key.quantity and len(rest) == 1 and rest[0] in KEYS:
            return replace(key, about=rest[0])
    raise unknown_key(schema, path)


def unknown_key(schema: type[Table], path: tuple[str, ...]) -> ShelfError:
    """The message about a key that a kind of part does not have."""
    dotted = ".".join(path)
    return ShelfError(
        what=f"no key {dotted!r} in a {schema.__name__.removesuffix('Part').lower()}",
        rule="a key of that kind of part; an inner one follows its table and a dot",
        nearest=closest(dotted, [".".join(known) for known in paths(schema)]),
    )


def paths(schema: type[Table]) -> Iterator[tuple[str, ...]]:
    """Every path of a schema, in its order; NAME stands for a name that the user chooses."""
    for name in schema.model_fields:
        inner = inner_tables(schema).get(name)
        if inner is None:
            yield (name,)
        else:
            between = ("NAME",) if inner.named else ()
            yield from ((name, *between, *below) for below in paths(inner.table))
