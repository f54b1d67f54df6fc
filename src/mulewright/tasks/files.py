"""Begin a mule file, and say its form so that an editor can help with it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from mulewright.design.merging import UNKNOWN
from mulewright.design.schema.file import SCHEMA_VERSION, MuleFile
from mulewright.design.starters import starter
from mulewright.errors import FileProblem

DIALECT = "https://json-schema.org/draft/2020-12/schema"
_UNKNOWN_SCHEMA = {"const": UNKNOWN, "description": "unknown"}
_NUMBERS = ("value", "plus_minus", "min", "max")


def new_file(kind: str, path: Path) -> Path:
    """Write the starter file for a kind of drive; nothing is ever overwritten.

    Raises
    ------
    NotFound
        If there is no such kind of drive.
    FileProblem
        If there is something at that path already, or it cannot be written.
    """
    text = starter(kind)
    try:
        with path.open("x", encoding="utf-8") as file:
            file.write(text)
    except FileExistsError as no:
        rule = "choose another name, or move it"
        raise FileProblem(what="is there already", where=str(path), rule=rule) from no
    except (OSError, ValueError) as no:
        why = getattr(no, "strerror", None) or no
        raise FileProblem(what=f"cannot be written: {why}", where=str(path)) from no
    return path


def json_schema() -> dict[str, Any]:
    """Return the form of a mule file as a JSON schema: the file as typed, before parts are filled in."""
    schema: dict[str, Any] = _as_typed(MuleFile.model_json_schema())
    channels = schema["$defs"]["FailSafe"]["properties"]["channels"]["additionalProperties"]
    schema["$defs"]["FailSafe"]["patternProperties"] = {"^[0-9]+$": channels}
    head = {
        "$schema": DIALECT,
        "title": f"Mule file, version {SCHEMA_VERSION}",
        "description": 'A mule, one table for each thing; what is left out, or "?", is unknown.',
    }
    return head | {key: value for key, value in schema.items() if key not in head}


def _as_typed(schema: Any) -> Any:
    """Say of every value what may be typed: ``?`` for an unknown, a bare number where one may stand."""
    if isinstance(schema, list):
        return [_as_typed(inner) for inner in schema]
    if not isinstance(schema, dict):
        return schema
    if schema == {"type": "null"}:
        return _UNKNOWN_SCHEMA
    typed = {key: _as_typed(inner) for key, inner in schema.items() if (key, inner) != ("default", None)}
    if "plus_minus" in typed.get("properties", {}):
        typed["properties"] |= {key: {"type": ["string", "number"]} for key in _NUMBERS}
    return typed
