"""Is this file a text of tables at all? Everything that can be wrong before a mule is even thought of."""

from __future__ import annotations

import math
import re
import tomllib
from pathlib import Path
from typing import Any

from mulewright.errors import FileProblem

LARGEST = 5_000_000  # [bytes] a mule with a thousand motors needs a tenth of it
DEEPEST = 32  # tables inside tables; the form needs six
MOST_DOTS = 200  # in one key; the parser's time grows with the square
LARGEST_INTEGER = 2**63 - 1

_PLACE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)$")
_TWICE = re.compile(r"Cannot (?:declare|overwrite|mutate|redefine)|Duplicate inline table key '(.*)'")
_NO_CHARACTER = re.compile("[\ud800-\udfff]")
_NAME = re.compile(r"\s*(\[.*\]|[^=]+?)\s*(?:=|#|$)")


def read_text(path: Path) -> str:
    """Read a mule file.

    Raises
    ------
    FileProblem
        If there is no such file, or it is no plain text of a sensible size.
    """
    where = str(path)
    try:
        if path.is_dir():
            raise FileProblem(
                what="is a folder, not a file", where=where, rule="name the mule file inside it"
            )
        if not path.exists():
            raise FileProblem(what="there is no such file", where=where, nearest=_beside(path))
        if not path.is_file():
            raise FileProblem(what="is not a plain file", where=where)
        size = path.stat().st_size
        if size > LARGEST:
            raise FileProblem(
                what="is too large for a mule file",
                where=where,
                rule=f"at most {LARGEST / 1e6:g} MB",
                found=f"{size / 1e6:.1f} MB",
            )
        return decode(path.read_bytes(), where)
    except (OSError, ValueError) as no:
        raise FileProblem(what=f"cannot be read: {getattr(no, 'strerror', None) or no}", where=where) from no


def decode(content: bytes, where: str) -> str:
    """Turn the bytes of a file into text, and refuse what is no text."""
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as no:
        line = content[: no.start].count(b"\n") + 1
        raise FileProblem(
            what="is not a text file",
            where=where,
            rule="save it as UTF-8 text",
            found=f"odd bytes in line {line}",
        ) from no
    if "\0" in text:
        raise FileProblem(
            what="is not a text file", where=where, rule="save it as UTF-8 text", found="zero bytes"
        )
    if not text.strip():
        raise FileProblem(what="is empty", where=where, rule="a mule file begins with schema_version = 1")
    return text


def parse(text: str, where: str) -> dict[str, Any]:
    """Turn text into tables.

    Raises
    ------
    FileProblem
        If it is not TOML; the message names line and column.
    """
    if not is_writable(text):
        raise FileProblem(what="is not a text file", where=where, rule="save it as UTF-8 text")
    if any(line.partition("=")[0].count(".") > MOST_DOTS for line in text.splitlines()):
        raise _too_deep(where)
    try:
        raw = tomllib.loads(text)
    except tomllib.TOMLDecodeError as no:
        raise _syntax(str(no), text, where) from no
    except RecursionError as no:
        raise _too_deep(where) from no
    except ValueError as no:  # more digits than an integer may have
        raise FileProblem(what="holds a number that is too large", where=where, found=str(no)) from no
    _check_values(raw, where)
    return raw


def is_writable(text: str) -> bool:
    """Whether a text is made of characters alone; bytes that were none may come in from a command line."""
    return _NO_CHARACTER.search(text) is None


def _check_values(raw: dict[str, Any], where: str) -> None:
    """Refuse what no table of the form needs: endless depth, numbers beyond all sense."""
    waiting: list[tuple[str, Any, int]] = [("", raw, 0)]
    while waiting:
        path, value, depth = waiting.pop()
        if depth > DEEPEST:
            raise _too_deep(where)
        if isinstance(value, dict):
            waiting += [(f"{path}.{key}".lstrip("."), inner, depth + 1) for key, inner in value.items()]
        elif isinstance(value, list):
            waiting += [(f"{path}.{index}", inner, depth + 1) for index, inner in enumerate(value)]
        elif isinstance(value, int) and abs(value) > LARGEST_INTEGER:
            raise FileProblem(
                what="the number is too large", where=f"{path} ({where})", found=f"{len(str(value))} digits"
            )
        elif isinstance(value, float) and not math.isfinite(value):
            raise FileProblem(what="the number is not finite", where=f"{path} ({where})", found=str(value))


def _syntax(message: str, text: str, where: str) -> FileProblem:
    """Say in one sentence what the parser stumbled over, and where."""
    place = _PLACE.search(message)
    said = message[: place.start()] if place else message
    if not place or not place[1]:
        last = text.rstrip().rpartition("\n")[2]
        return FileProblem(what="the text ends in the middle of something", where=where, found=last[:80])
    number = int(place[1])
    line = text.splitlines()[number - 1] if number <= len(text.splitlines()) else ""
    at = f"{where}, line {number}, column {place[2]}"
    if twice := _TWICE.match(said):
        name = twice[1] or (_NAME.match(line) or [said, said])[1]
        rule = "one table for each thing, and each key once in it"
        return FileProblem(what=f"{name} is there twice", where=at, rule=rule, found=line.strip()[:80])
    return FileProblem(what=_plain(said), where=at, found=line.strip()[:80])


def _plain(said: str) -> str:
    return f"not valid TOML: {said[:1].lower()}{said[1:]}"


def _too_deep(where: str) -> FileProblem:
    return FileProblem(
        what="tables are nested too deeply", where=where, rule=f"at most {DEEPEST} inside each other"
    )


def _beside(path: Path) -> tuple[str, ...]:
    """The mule files that lie where this one was looked for."""
    return (
        tuple(sorted(str(other) for other in path.parent.glob("*.toml"))[:3]) if path.parent.is_dir() else ()
    )
