"""The base of every table in a mule file or a part file: unknown keys refused, every value optional."""

from __future__ import annotations

from functools import cache
from typing import Any, get_args

from pydantic import BaseModel, ConfigDict
from pydantic.fields import FieldInfo

from mulewright.units.fields import Of
from mulewright.units.quantity import Quantity


class Table(BaseModel):
    """A table whose unknown keys are errors and whose left-out keys are unknowns.

    Modules of tables do without postponed annotations: each would have to be evaluated again at start-up.
    """

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        arbitrary_types_allowed=True,
        populate_by_name=True,
        defer_build=True,  # validators are built for the tables that a command reads, not for all at start-up
    )

    def quantity(self, name: str) -> Quantity | None:
        """The quantity in one field, or None where it was left out."""
        value = getattr(self, name)
        assert value is None or isinstance(value, Quantity), name
        return value


def form_of(table: object) -> type:
    """The form that a table was written in, whatever stands in its place to tell what is read of it."""
    return getattr(type(table), "stands_for", type(table))


@cache
def kinds_of(table: type[Table]) -> dict[str, Of]:
    """Which kind of quantity each field of a table holds; fields that hold none are left out."""
    found = {name: _kind_in(info) for name, info in table.model_fields.items()}
    return {name: kind for name, kind in found.items() if kind is not None}


@cache
def description_of(table: type[Table], name: str) -> str:
    """What a field of a table means, in words."""
    return table.model_fields[name].description or ""


def _kind_in(info: FieldInfo) -> Of | None:
    markers: list[Any] = [*info.metadata]
    for option in get_args(info.annotation):
        markers += getattr(option, "__metadata__", ())
    return next((marker for marker in markers if isinstance(marker, Of)), None)
