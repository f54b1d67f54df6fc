"""What remains when one table is laid over another, when a value is put in its place, when unknowns go."""

from __future__ import annotations

from collections.abc import Mapping
from fnmatch import fnmatchcase
from typing import Any

from mulewright.design.paths import Path, look_up, written
from mulewright.errors import DesignError, NotFound
from mulewright.units.quantity import KEYS

UNKNOWN = "?"
Raw = dict[str, Any]


def is_number(raw: object) -> bool:
    """Whether a table is one number and what is known about it."""
    return (
        isinstance(raw, Mapping)
        and ("value" in raw or {"min", "max"} <= raw.keys())
        and raw.keys() <= set(KEYS)
    )


def merge(beneath: Mapping[str, Any], above: Mapping[str, Any]) -> Raw:
    """Lay one table over another: tables merge key by key, anything else is replaced whole."""
    merged = dict(beneath)
    for key, value in above.items():
        lower = merged.get(key)
        if isinstance(lower, Mapping) and isinstance(value, Mapping) and not is_number(value):
            merged[key] = merge(lower, value)
        else:
            merged[key] = value
    return merged


def put(raw: Raw, path: Path, value: Any) -> Raw:
    """Return the description with a value at a path; tables merge, a ``*`` in the path means every match."""
    for place in expand(raw, path):
        raw = _put(raw, place, value, ())
    return raw


def expand(raw: Raw, path: Path) -> list[Path]:
    """Every place that a path with ``*`` in it means; a path without is itself.

    Raises
    ------
    NotFound
        If there is no such place.
    """
    found: list[Path] = [()]
    for part in path:
        found = [(*above, name) for above in found for name in _matches(look_up(raw, above), part)]
    if not found:
        raise NotFound(what="nothing here matches", where=written(path))
    return found


def keys_of(raw: object) -> list[str]:
    """The keys of a table; none where there is no table."""
    return list(raw) if isinstance(raw, dict) else []


def _matches(node: Any, part: str) -> list[str]:
    if "*" not in part:
        return [part]
    names = [str(index) for index in range(len(node))] if isinstance(node, list) else keys_of(node)
    return [name for name in names if fnmatchcase(name, part)]


def _put(node: Any, path: Path, value: Any, above: Path) -> Any:
    if not path:
        both = isinstance(node, dict) and isinstance(value, dict) and not is_number(value)
        return merge(node, value) if both else value
    part, rest, here = path[0], path[1:], (*above, path[0])
    if isinstance(node, list):
        if not part.isdecimal() or int(part) >= len(node):
            raise NotFound(
                what=f"the list has no item {part}",
                where=written(above),
                rule="items count from 0",
                found=f"{len(node)} items",
            )
        at = int(part)
        return [*node[:at], _put(node[at], rest, value, here), *node[at + 1 :]]
    if node is None or isinstance(node, dict):
        table = node or {}
    elif part in KEYS:
        table = {"value": node}
    else:
        raise DesignError(
            what="has nothing inside it", where=written(above), rule="a value, not a table", found=str(node)
        )
    return table | {part: _put(table.get(part), rest, value, here)}


def drop_unknown(raw: Any) -> Any:
    """Take out every key that says ``?``; a list with a ``?`` in it is unknown as a whole."""
    if isinstance(raw, list):
        return [drop_unknown(value) for value in raw]
    if not isinstance(raw, dict):
        return raw
    return {key: drop_unknown(value) for key, value in raw.items() if not _is_unknown(value)}


def _is_unknown(value: Any) -> bool:
    if isinstance(value, list):
        return UNKNOWN in value
    if is_number(value) and value.get("value") == UNKNOWN:
        return not {"min", "max"} <= value.keys()
    return bool(value == UNKNOWN)
