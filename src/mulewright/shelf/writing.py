"""How are part files written: what does their text look like, and how do all get written or none?"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit import items

from mulewright.shelf.keys import inner_tables
from mulewright.units.table import Table


def write_all(texts: Mapping[Path, str]) -> None:
    """Write all files, or leave everything as it was.

    Raises
    ------
    OSError
        If one of them cannot be written.
    UnicodeEncodeError
        If a text cannot be written as UTF-8.
    """
    encoded = {path: text.encode("utf-8") for path, text in texts.items()}
    before = {path: path.read_bytes() if path.exists() else None for path in texts}
    fresh = {path: path.with_suffix(".new") for path in texts}
    done: list[Path] = []
    try:
        for path, content in encoded.items():
            path.parent.mkdir(parents=True, exist_ok=True)
            fresh[path].write_bytes(content)
        for path in texts:
            fresh[path].replace(path)
            done.append(path)
    except OSError:
        for path in done:
            old = before[path]
            path.write_bytes(old) if old is not None else path.unlink()
        for path in fresh.values():
            path.unlink(missing_ok=True)
        raise


def part_text(values: Mapping[str, Any], source: Mapping[str, str], schema: type[Table]) -> str:
    """Write what is said of a part as TOML; inner tables come last."""
    document = tomlkit.document()
    if source:
        document["source"] = _inline(source)
    inner = inner_tables(schema)
    in_order = {name: values[name] for name in schema.model_fields if name in values}
    document.update(_plain({name: value for name, value in in_order.items() if name not in inner}))
    document.update({name: _table(value) for name, value in in_order.items() if name in inner})
    return tomlkit.dumps(document)


def _plain(values: Mapping[str, Any]) -> dict[str, Any]:
    return {name: _inline(value) if isinstance(value, dict) else value for name, value in values.items()}


def _table(values: Mapping[str, Any]) -> items.Table:
    table = tomlkit.table()
    table.update(_plain(values))
    return table


def _inline(values: Mapping[str, Any]) -> items.InlineTable:
    table = tomlkit.inline_table()
    table.update(_plain(values))
    return table
