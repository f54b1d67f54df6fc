"""What is wrong with a description, in the words of the person who wrote it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from mulewright.design.paths import Path, step_into, written
from mulewright.design.placing import Place
from mulewright.design.schema.file import MuleFile
from mulewright.design.schema.functions import Mechanism
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


def problems_of(
    error: ValidationError, raw: Any, place: Place, table: type[Table] = MuleFile
) -> list[MulewrightError]:
    """Turn the errors of validation into one error for each place."""
    grouped: dict[Path, list[ErrorDetails]] = {}
    for detail in error.errors(include_url=False):
        grouped.setdefault(_path_of(detail, raw), []).append(detail)
    around = {path[:length] for path in grouped for length in range(len(path))}
    return [
        _problem(path, details, raw, place, table) for path, details in grouped.items() if path not in around
    ]


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


def _problem(
    path: Path, details: list[ErrorDetails], raw: Any, place: Place, table: type[Table]
) -> DesignError:
    detail = details[0]
    where, kind, context = place(path), detail["type"], detail.get("ctx", {})
    if isinstance(cause := context.get("error"), UnitError):
        return DesignError(
            what=cause.what, where=where, rule=cause.rule, found=cause.found, nearest=cause.nearest
        )
    found = _short(detail["input"])
    if kind == "extra_forbidden":
        return _unknown_key(path, raw, where, table)
    if kind in ("literal_error", "enum"):
        return _not_among(_QUOTED.findall(str(context["expected"])), str(detail["input"]), where)
    if kind == "union_tag_invalid":
        return _not_among(_QUOTED.findall(str(context["expected_tags"])), str(context["tag"]), where, "kind")
    if kind == "union_tag_not_found":
        return DesignError(
            what="does not say its kind", where=where, rule=f"kind is one of {', '.join(_mechanism_kinds())}"
        )
    if kind == "missing":
        return DesignError(what="is missing", where=where)
    wanted = list(dict.fromkeys(WANTED.get(each["type"], each["msg"]) for each in details))
    return DesignError(what="is not what belongs here", where=where, rule=" or ".join(wanted), found=found)


def _unknown_key(path: Path, raw: Any, where: str, table: type[Table]) -> DesignError:
    key = path[-1]
    around = table_at(path[:-1], raw, table)
    known = list(around.model_fields) if around else []
    nearest = closest(key, known)
    if len(path) == 1 and key in _mechanism_kinds():
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


def table_at(path: Path, raw: Any, table: type[Table] = MuleFile) -> type[Table] | None:
    """Return the form of the table at a path; None where there is no table of a known form."""
    form: Any = table
    for part in path:
        form = _form_inside(form, raw, part)
        raw = step_into(raw, part)
    tables = [option for option in _options(form) if isinstance(option, type) and issubclass(option, Table)]
    return _chosen(tables, raw) if tables else None


def _form_inside(form: Any, raw: Any, part: str) -> Any:
    """The annotation of what lies one step further in."""
    options = list(_options(form))
    tables = [option for option in options if isinstance(option, type) and issubclass(option, Table)]
    if tables:
        field = _chosen(tables, raw).model_fields.get(part)
        return field.annotation if field else None
    inner = (get_args(option)[-1] for option in options if get_args(option))
    return next(inner, None)


def _chosen(tables: list[type[Table]], raw: Any) -> type[Table]:
    """Of several forms, the one whose kind the table says."""
    kind = raw.get("kind") if isinstance(raw, Mapping) else None
    fits = (
        form for form in tables if len(tables) > 1 and kind in get_args(form.model_fields["kind"].annotation)
    )
    return next(fits, tables[0])


def _options(form: Any) -> Iterator[Any]:
    """The alternatives of an annotation, without their decoration."""
    if get_origin(form) is Annotated:
        yield from _options(get_args(form)[0])
    elif get_origin(form) in (Union, UnionType):
        for option in get_args(form):
            yield from _options(option)
    elif form is not None and form is not type(None):
        yield form


def _mechanism_kinds() -> list[str]:
    return [get_args(form.model_fields["kind"].annotation)[0] for form in _options(Mechanism)]
