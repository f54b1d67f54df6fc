"""What is wrong with a part? Validation errors as messages that name file, key and rule."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from mulewright.errors import Problems, ShelfError, UnitError, closest
from mulewright.shelf.keys import unknown_key
from mulewright.shelf.parts import PART_KINDS
from mulewright.units.table import Table

_QUOTED = re.compile(r"'([^']*)'")
_WANTED = {
    "bool": "yes or no, in a file true or false",
    "int": "a whole number",
    "greater": "a whole number from 1",
    "string": "a text",
    "list": "a list",
    "mapping": "a table",
    "model": "a table",
}


def part_of(kind: str, raw: Mapping[str, Any], where: str) -> Table:
    """Validate what a part says.

    Raises
    ------
    ShelfError
        If it breaks the schema in one place.
    Problems
        If it breaks the schema in several places.
    """
    schema = PART_KINDS[kind]
    try:
        return schema.model_validate(raw)
    except ValidationError as no:
        found = {
            problem.where: problem
            for problem in (_problem(error, schema, raw, where) for error in no.errors())
        }
    if len(found) == 1:
        raise next(iter(found.values()))
    raise Problems(where, list(found.values()))


def _problem(error: ErrorDetails, schema: type[Table], raw: object, where: str) -> ShelfError:
    path = tuple(str(step) for step in error["loc"])
    if error["type"] == "extra_forbidden":
        unknown = unknown_key(schema, path)
        unknown.where = f"{where}, {'.'.join(path)}"
        return unknown
    at, found = f"{where}, {'.'.join(_written(path, raw))}", str(error["input"])[:60]
    cause = error.get("ctx", {}).get("error")
    if isinstance(cause, UnitError):
        return ShelfError(cause.what, at, cause.rule, cause.found, cause.nearest)
    if error["type"] == "literal_error":
        choices = _QUOTED.findall(error["ctx"]["expected"])
        return ShelfError(
            "none of the choices", at, f"one of {', '.join(choices)}", found, closest(found, choices)
        )
    rule = _WANTED.get(error["type"].partition("_")[0], error["msg"])
    return ShelfError("not a value that may stand here", at, rule, found)


def _written(path: tuple[str, ...], raw: object) -> Iterator[str]:
    """Leave out of a path what the validator adds, such as the branch of a choice that it tried."""
    for step in path:
        if isinstance(raw, Mapping) and step in raw:
            yield step
            raw = raw[step]
