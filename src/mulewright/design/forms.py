"""Which form has the table at a path of a mule file? Read off the schema, never listed by hand."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from mulewright.design.paths import Path, step_into
from mulewright.design.schema.file import MuleFile
from mulewright.design.schema.functions import Mechanism
from mulewright.units.table import Table


def table_at(path: Path, raw: Any) -> type[Table] | None:
    """Return the form of the table at a path; None where there is no table of a known form."""
    form: Any = MuleFile
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


def mechanism_kinds() -> list[str]:
    """The kinds of mechanism that a file may describe."""
    return [get_args(form.model_fields["kind"].annotation)[0] for form in _options(Mechanism)]
