"""What is wrong with a description, in the words of the person who wrote it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from mulewright.design.forms import mechanism_kinds, table_at
from mulewright.design.paths import Path, step_into, written
from mulewright.design.typed import Typed
from mulewright.errors import DesignError, MulewrightError, Problems, UnitError, closest
from mulewright.units.table import Table

MOST_SHOWN = 20
_ABSENT = object()
_QUOTED = re.compile(r"'([^']*)'")

WANTED = {
    "string_type": "a text in quotes",
    "bool_type": "true or false",
    "bool_parsing": "true or false",
    "int_type": "a whole number",
    "int_parsing": "a whole number",
    "int_from_float": "a whole number",
    "float_type": "a number",
    "float_parsing": "a number",
    "list_type": "a list in [ ]",
    "dict_type": "a table",
    "mapping_type": "a table",
    "model_type": "a table",
    "model_attributes_type": "a table",
    "date_type": "a day such as 2026-05-01",
    "date_parsing": "a day such as 2026-05-01",
    "date_from_datetime_parsing": "a day such as 2026-05-01",
    "date_from_datetime_inexact": "a day such as 2026-05-01",
}


def problems_of(error: ValidationError, raw: Any, typed: Typed) -> list[MulewrightError]:
    """Turn the errors of validation into one error for each place."""
    grouped: dict[Path, list[ErrorDetails]] = {}
    for detail in error.errors(include_url=False):
        grouped.setdefault(_path_of(detail, raw), []).append(detail)
    around = {path[:length] for path in grouped for length in range(len(path))}
    once: dict[Path, DesignError] = {}
    for path, details in grouped.items():
        if path not in around and (said := typed.said_at(path)) not in once:
            once[said] = _problem(said, details, typed.place(said), table_at(path[:-1], raw))
    return list(once.values())


def together(found: Sequence[MulewrightError], where: str) -> MulewrightError:
    """One problem stands for itself; of many, the first twenty are told."""
    if len(found) == 1:
        return found[0]
    more = len(found) - MOST_SHOWN
    rest = [DesignError(what=f"and {more} more problems", where=where)] if more > 0 else []
    return Problems(where, [*found[:MOST_SHOWN], *rest])


def _path_of(detail: ErrorDetails, raw: Any) -> Path:
    """The path as the person wrote it: without the names of the alternatives that were tried."""
    path: list[str] = []
    for part in map(str, detail["loc"]):
        inner = step_into(raw, part, _ABSENT)
        if inner is not _ABSENT:
            path.append(part)
            raw = inner
    if detail["type"] == "missing":
        path.append(str(detail["loc"][-1]))
    return tuple(path)


def _problem(path: Path, details: list[ErrorDetails], where: str, form: type[Table] | None) -> DesignError:
    detail = details[0]
    kind, context = detail["type"], detail.get("ctx", {})
    if isinstance(cause := context.get("error"), UnitError):
        return DesignError(
            what=cause.what, where=where, rule=cause.rule, found=cause.found, nearest=cause.nearest
        )
    found = _short(detail["input"])
    if kind == "extra_forbidden":
        return _unknown_key(path, where, form)
    if kind in ("literal_error", "enum"):
        return _not_among(_QUOTED.findall(str(context["expected"])), str(detail["input"]), where)
    if kind == "union_tag_invalid":
        return _not_among(_QUOTED.findall(str(context["expected_tags"])), str(context["tag"]), where, "kind")
    if kind == "union_tag_not_found":
        return DesignError(
            what="does not say its kind", where=where, rule=f"kind is one of {', '.join(mechanism_kinds())}"
        )
    if kind == "missing":
        return DesignError(what="is missing", where=where)
    wanted = list(dict.fromkeys(WANTED.get(each["type"], each["msg"]) for each in details))
    return DesignError(what="is not what belongs here", where=where, rule=" or ".join(wanted), found=found)


def _unknown_key(path: Path, where: str, form: type[Table] | None) -> DesignError:
    key = path[-1]
    known = list(form.model_fields) if form else []
    nearest = closest(key, known)
    if len(path) == 1 and key in mechanism_kinds():
        nearest = (f"mechanism.{key}",)
    name = f"[{written(path[:-1])}]" if path[:-1] else "a mule file"
    return DesignError(
        what=f"there is no {key!r} in {name}",
        where=where,
        rule=f"it knows {', '.join(known)}" if not nearest else "",
        nearest=nearest,
    )


def _not_among(choices: list[str], found: str, where: str, key: str = "it") -> DesignError:
    return DesignError(
        what="is not among the choices",
        where=where,
        rule=f"{key} is one of {', '.join(choices)}",
        found=found,
        nearest=closest(found, choices),
    )


def _short(value: object) -> str:
    text = {True: "true", False: "false"}[value] if isinstance(value, bool) else repr(value)
    return text if len(text) <= 60 else f"{text[:57]}..."
