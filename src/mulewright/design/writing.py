"""Changes to a mule file that leave every comment, the order and the layout as they were."""

from __future__ import annotations

import os
import pathlib
import shutil
from collections.abc import Iterator, Mapping
from typing import Any

from mulewright.design.edits import attempts, toml
from mulewright.design.merging import Raw, expand, is_number, put
from mulewright.design.paths import Path, look_up, parse_path, written
from mulewright.design.reading import parse
from mulewright.errors import DesignError, FileProblem

BEFORE = ".before"  # ending of the copy that is kept of the last state


def set_values(text: str, values: Mapping[str, Any], where: str = "mule.toml") -> str:
    """Return the text with values at dotted paths; what is not there yet is added where its like stands.

    Raises
    ------
    DesignError
        If a path leads nowhere, or the change cannot be made without touching something else.
    """
    raw = parse(text, where)
    plain = text.replace("\r\n", "\n")
    for name, value in values.items():
        for path in expand(raw, parse_path(name)):
            for place, single in _singles(raw, path, value):
                raw, plain = _set(raw, plain, place, single)
    return plain.replace("\n", "\r\n") if "\r\n" in text else plain


def save(path: pathlib.Path, text: str) -> None:
    """Write a file whole or not at all; the state before lies beside it.

    Raises
    ------
    FileProblem
        If the folder or the file cannot be written.
    """
    path = path.resolve()
    try:
        fresh = path.with_name(f".{path.name}.{os.getpid()}.new")
        try:
            with fresh.open("wb") as file:
                file.write(text.encode())
                file.flush()
                os.fsync(file.fileno())
            if path.exists():
                shutil.copymode(path, fresh)
                shutil.copy2(path, path.with_name(path.name + BEFORE))
            fresh.replace(path)
        finally:
            fresh.unlink(missing_ok=True)
    except OSError as no:
        raise FileProblem(what=f"cannot be written: {no.strerror or no}", where=str(path)) from no


def _singles(raw: Raw, path: Path, value: Any) -> Iterator[tuple[Path, Any]]:
    """Break a table that is laid over another into its single values."""
    if isinstance(value, Mapping) and not is_number(value) and isinstance(look_up(raw, path), dict):
        for key, inner in value.items():
            yield from _singles(raw, (*path, key), inner)
    else:
        yield path, value


def _set(raw: Raw, text: str, path: Path, value: Any) -> tuple[Raw, str]:
    """Make one change; only a text that reads back as wanted is taken."""
    wanted = put(raw, path, value)
    for attempt in attempts(text, path, value):
        try:
            if parse(attempt, "") == wanted:
                return wanted, attempt
        except FileProblem:
            continue
    raise DesignError(
        what="cannot be changed without touching something else",
        where=written(path),
        rule="change it by hand",
        found=toml(value),
    )
