"""How is a place in a mule file written? ``motor.lift.gears.0.ratio``, ``radio.control."SW 2".rate``."""

from __future__ import annotations

import re
from typing import Any

from mulewright.errors import DesignError

Path = tuple[str, ...]

_PART = re.compile(r"""\s*(?:"([^"]*)"|'([^']*)'|([^\s."'=\[\]{}]+))\s*(\.|$)""")
_BARE = re.compile(r"[A-Za-z0-9_*-]+")
_MISSING = object()
MOST_PARTS = 32


def parse_path(text: str) -> Path:
    """Split a dotted path into its parts; quotes keep dots and blanks inside one part.

    >>> parse_path('radio.control."SW 2".rate')
    ('radio', 'control', 'SW 2', 'rate')
    """
    parts: list[str] = []
    at, more = 0, True
    while more:
        match = _PART.match(text, at)
        if not match:
            raise DesignError(
                what="is not a path",
                where=text,
                rule='names joined by dots, such as motor.lift.part or radio.control."SW 2"',
            )
        parts.append(next(part for part in match.groups()[:3] if part is not None))
        at, more = match.end(), match[4] == "."
    if len(parts) > MOST_PARTS:
        raise DesignError(
            what="is too long for a path", where=f"{text[:40]}...", rule=f"at most {MOST_PARTS} parts"
        )
    return tuple(parts)


def written(path: Path) -> str:
    """Join the parts as a person would type them.

    >>> written(("radio", "control", "SW 2", "rate"))
    'radio.control."SW 2".rate'
    """
    return ".".join(part if _BARE.fullmatch(part) else f'"{part}"' for part in path)


def path_of(id: str) -> str:
    """Write the id of a thing, or of a place on it, as a person would type it: no name has a dot.

    >>> path_of("controller.left rear.signal")
    'controller."left rear".signal'
    """
    return written(tuple(id.split(".")))


def look_up(raw: Any, path: Path, default: Any = None) -> Any:
    """Return the value at a path, or the default where there is none."""
    for part in path:
        raw = step_into(raw, part, _MISSING)
        if raw is _MISSING:
            return default
    return raw


def step_into(raw: Any, part: str, default: Any = None) -> Any:
    """Return what one part of a path leads to: a key of a table, or a number in a list."""
    if isinstance(raw, dict):
        return raw.get(part, default)
    if isinstance(raw, list) and part.isdecimal() and int(part) < len(raw):
        return raw[int(part)]
    return default
