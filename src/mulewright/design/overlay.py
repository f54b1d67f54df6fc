"""How a mule differs from its file: a variant laid over it, settings such as ``fuse.main.rating=40 A``."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any, get_origin

from mulewright.design.merging import Raw, keys_of, put
from mulewright.design.paths import Path, look_up, parse_path, written
from mulewright.design.reading import is_writable, parse
from mulewright.design.schema.file import MuleFile
from mulewright.errors import DesignError, FileProblem, NotFound, closest

THINGS = frozenset(
    name
    for name, field in MuleFile.model_fields.items()
    if get_origin(field.annotation) is dict and name != "limits"
)

TARGET = "target:"  # what the paths of a mule's target begin with

_SETTING = re.compile(r"""\s*((?:"[^"]*"|'[^']*'|[^="'])+)=(.*)""", re.DOTALL)
_LITERAL = re.compile(r"""true|false|[+-]?\d[\d_]*|[\[{"'].*""", re.DOTALL)


def apply_variant(raw: Raw, name: str) -> Raw:
    """Lay one of the file's own variants over it.

    Raises
    ------
    NotFound
        If the file has no variant of that name.
    """
    known = keys_of(raw.get("variant"))
    if name not in known:
        raise NotFound(
            what=f"there is no variant called {name!r}",
            where="variant",
            rule=f"the file has {', '.join(known)}" if known else "the file has no variants",
            nearest=closest(name, known),
        )
    changes = look_up(raw, ("variant", name))
    if not isinstance(changes, dict):
        raise DesignError(what="is not a table", where=written(("variant", name)), found=repr(changes))
    for key, value in changes.items():
        raw = put(raw, _known(parse_path(key)), value)
    return raw


def apply_settings(raw: Raw, settings: Iterable[str]) -> Raw:
    """Apply settings such as ``fuse.main.rating = 40 A``, in their order.

    Raises
    ------
    DesignError
        If one is no setting, or there is no such place.
    """
    for setting in settings:
        path, value = parse_setting(setting)
        _require_thing(raw, path)
        raw = put(raw, path, value)
    return raw


def by_design(settings: Iterable[str]) -> tuple[list[str], list[str]]:
    """Part settings of the mule from those of its target, such as ``target:fuse.main.rating=20 A``."""
    own: list[str] = []
    of_target: list[str] = []
    for setting in settings:
        plain = setting.strip()
        (of_target if plain.startswith(TARGET) else own).append(plain.removeprefix(TARGET))
    return own, of_target


def _require_thing(raw: Raw, path: Path) -> None:
    """Refuse a value inside a thing that is not there: most likely its name is misspelt."""
    things = keys_of(raw.get(path[0]))
    if len(path) < 3 or path[0] not in THINGS or "*" in path[1] or path[1] in things:
        return
    raise NotFound(
        what=f"there is no {path[0]} called {path[1]!r}",
        where=written(path),
        rule=f"to add one, set it whole: {written(path[:2])}={{ ... }}",
        nearest=closest(path[1], things),
    )


def parse_setting(setting: str) -> tuple[Path, Any]:
    """Split ``PATH=VALUE``; VALUE is text unless it reads as true, false, a number, a list or a table."""
    match = _SETTING.fullmatch(setting)
    text = match[2].strip() if match else ""
    if not match or not text or not is_writable(setting):
        raise DesignError(
            what="is not a setting",
            where=setting.encode(errors="replace").decode(),
            rule="PATH=VALUE, such as fuse.main.rating=40 A; VALUE ? is unknown",
        )
    path = _known(parse_path(match[1].strip()))
    if not _LITERAL.fullmatch(text):
        return path, text
    try:
        return path, parse(f"value = {text}", "value")["value"]
    except FileProblem as no:
        if text[0] in "+-0123456789":
            return path, text
        raise DesignError(
            what="the value does not read", where=written(path), rule=no.what, found=text
        ) from no


def _known(path: Path) -> Path:
    fields = MuleFile.model_fields
    if path[0] not in fields:
        raise DesignError(
            what=f"there is no table called {path[0]!r}",
            where=written(path),
            nearest=closest(path[0], fields),
        )
    return path
