"""How does a new part get onto a shelf? Said in keys and texts, validated, then written."""

from __future__ import annotations

import re
from collections.abc import Mapping, MutableMapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from mulewright.errors import ShelfError
from mulewright.shelf.catalog import ID, ID_RULE, Catalog, known_kind
from mulewright.shelf.keys import Key, inner_tables, key_at
from mulewright.shelf.parts import PART_KINDS
from mulewright.shelf.problems import part_of
from mulewright.shelf.sources import SOURCE_KEYS, UNKNOWN, checked_source, with_sources
from mulewright.shelf.writing import part_text, write_all
from mulewright.units.kinds import KINDS
from mulewright.units.table import Table, kinds_of

_WHOLE = re.compile("[0-9]{1,15}")
_DECIMAL = re.compile("[0-9]{1,15}[.][0-9]{1,15}")


@dataclass(frozen=True)
class Draft:
    """A part that may be written: its file's text, and where it was said."""

    kind: str
    id: str
    text: str
    where: str


def draft(kind: str, id: str, said: Mapping[str, str], where: str, source: Mapping[str, str]) -> Draft:
    """Make a part out of texts by key, such as ``6 V`` for ``regulator.voltage``.

    What is known about a number has a key below its own, such as ``stall_torque.plus_minus``. The keys
    ``from``, ``with`` and ``ref`` speak of every quantity that does not say otherwise. An empty text or
    ``?`` stands for unknown.

    Raises
    ------
    NotFound
        If there is no such kind of part.
    ShelfError
        If the id or a key or a value cannot be.
    Problems
        If several values cannot be.
    """
    schema = PART_KINDS[known_kind(kind)]
    if not ID.fullmatch(id):
        slug = "-".join("".join(sign if sign.isalnum() else " " for sign in id.lower()).split())
        raise ShelfError("not an id", where, ID_RULE, id, (slug,) if ID.fullmatch(slug) else ())
    known = {key: text.strip() for key, text in said.items() if text.strip() not in ("", UNKNOWN)}
    source = checked_source({**source, **{key: known.pop(key) for key in SOURCE_KEYS if key in known}}, where)
    raw: dict[str, Any] = {}
    for dotted, text in known.items():
        key = key_at(schema, tuple(dotted.split(".")))
        _put(raw, key.path, _value(key, text))
    part = part_of(kind, with_sources(raw, schema, source, id), where)
    return Draft(kind, id, part_text(_typed(raw, part), source, schema), where)


def write(drafts: Sequence[Draft], folder: Path, catalog: Catalog, replace: bool = False) -> list[Path]:
    """Write part files into a shelf: all of them, or none.

    Raises
    ------
    ShelfError
        If a part of that kind and id exists already and is not to be replaced, or a file cannot be written.
    """
    taken = set(catalog.ids())
    for new in drafts:
        if (new.kind, new.id) in taken and not replace:
            raise ShelfError(
                what=f"there is a {new.kind} called {new.id!r} already",
                where=new.where,
                rule="choose another id, or say that it is to be replaced",
            )
        taken.add((new.kind, new.id))
    texts = {folder / new.kind / f"{new.id}.toml": new.text for new in drafts}
    try:
        write_all(texts)
    except (OSError, UnicodeEncodeError) as no:
        raise ShelfError(what="cannot be written", where=str(folder), found=str(no)) from no
    return list(texts)


def _value(key: Key, text: str) -> Any:
    """What a text means at its key; quantities stay texts."""
    if key.quantity and key.is_number:
        return _number(text) if KINDS[key.quantity.kind].bare_ok else text
    if key.quantity or text in key.choices or not key.is_list:
        return text
    return [item.strip() for item in text.replace(";", ",").split(",")]


def _number(text: str) -> int | float | str:
    if _WHOLE.fullmatch(text):
        return int(text)
    return float(text) if _DECIMAL.fullmatch(text) else text


def _put(raw: MutableMapping[str, Any], path: tuple[str, ...], value: Any) -> None:
    """Set a value deep inside; a quantity that was a text so far becomes a table."""
    name, rest = path[0], path[1:]
    if not rest:
        known = raw.get(name)
        raw[name] = {**known, "value": value} if isinstance(known, dict) else value
        return
    if not isinstance(raw.setdefault(name, {}), dict):
        raw[name] = {"value": raw[name]}
    _put(raw[name], rest, value)


def _typed(raw: Mapping[str, Any], part: Table) -> dict[str, Any]:
    """What was said, with yes and no, counts and lists as the validated part has them."""
    kinds, inner = kinds_of(type(part)), inner_tables(type(part))

    def typed(name: str, value: Any) -> Any:
        found = getattr(part, name)
        if name in kinds:
            return value
        if name not in inner:
            return found
        if inner[name].named:
            return {key: _typed(below, found[key]) for key, below in value.items()}
        return _typed(value, found)

    return {name: typed(name, value) for name, value in raw.items()}
