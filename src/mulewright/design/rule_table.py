"""Can the user's rule table be looked up? What each rule is about, the property it limits, and its limit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, get_args

from mulewright.design.names import KINDS_OF_THING
from mulewright.design.schema.file import MuleFile
from mulewright.design.schema.people import Rule
from mulewright.errors import DesignError, MulewrightError, UnitError, closest
from mulewright.units.quantity import read_quantity
from mulewright.units.table import Table, kinds_of

if TYPE_CHECKING:
    from mulewright.design.mule import Mule

ABOUT = (*KINDS_OF_THING, "body", "radio", "receiver")


def form_of(kind: str) -> type[Table] | None:
    """The form of the tables of a kind, where all of them have the same one."""
    annotation = MuleFile.model_fields[kind].annotation
    options = [annotation, *get_args(annotation)]
    return next((one for one in options if isinstance(one, type) and issubclass(one, Table)), None)


def misread_rules(mule: Mule) -> Iterator[MulewrightError]:
    """Every rule that is about nothing, or limits what is no number."""
    for place, rule in enumerate(mule.file.rules.rule):
        where = f"rules.rule.{place}"
        if rule.about is not None and rule.about not in ABOUT:
            known = f"one of {', '.join(ABOUT)}"
            yield DesignError(
                "is no kind of thing", f"{where}.about", known, rule.about, closest(rule.about, ABOUT)
            )
        elif rule.about and rule.property:
            yield from _misread_property(where, rule, rule.about, rule.property)


def _misread_property(where: str, rule: Rule, about: str, name: str) -> Iterator[MulewrightError]:
    form = form_of(about)
    fields = kinds_of(form) if form is not None else {}
    if name not in fields:
        known = f"a number of a {about}: {', '.join(fields)}"
        yield DesignError("is no number there", f"{where}.property", known, name, closest(name, fields))
        return
    for key in ("limit", "least"):
        try:
            if (text := getattr(rule, key)) is not None:
                read_quantity(text, fields[name].kind)
        except UnitError as no:
            yield DesignError(no.what, f"{where}.{key}", no.rule, no.found)
