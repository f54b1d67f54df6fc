"""Which key of a part does the heading of a column mean, and in which unit do the numbers below it stand?"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from mulewright.errors import MulewrightError, ShelfError, UnitError
from mulewright.shelf.keys import Key, inner_tables, key_at
from mulewright.shelf.parts import PART_KINDS
from mulewright.units.parse import to_si

_HEADING = re.compile(r"(?P<name>[^\[(]*)(?:[\[(](?P<unit>[^\])]*)[\])])?\s*")
_NO_UNIT = ("", "1", "-")


@dataclass(frozen=True)
class Heading:
    """A heading taken apart: ``stall torque (kgf.cm)`` is the name ``stall_torque`` and a unit."""

    text: str
    name: str
    unit: str

    def key(self, kind: str) -> Key:
        """Find its key in a kind of part; the kind in front of a key, as in ``fuse.kind``, is left out.

        Raises
        ------
        ShelfError
            If that kind of part has no such key.
        """
        schema, steps = PART_KINDS[kind], self.name.split(".")
        if len(steps) > 1 and steps[0].lower() == kind and kind not in schema.model_fields:
            steps = steps[1:]
        steps[0] = steps[0].lower()
        inner = inner_tables(schema).get(steps[0])
        chosen = 1 if inner and inner.named else 0  # the user's own name for an inner table stays as it is
        return key_at(schema, tuple(step if at == chosen else step.lower() for at, step in enumerate(steps)))


def heading_of(text: str) -> Heading:
    """Take the text of a heading apart."""
    match = _HEADING.fullmatch(text)
    name, unit = (match["name"], (match["unit"] or "").strip()) if match else (text, "")
    return Heading(text, re.sub(r"[\s-]+", "_", name.strip()), "" if unit in _NO_UNIT else unit)


def heading_problems(
    headings: Sequence[Heading], own: Collection[str], kinds: Collection[str]
) -> list[MulewrightError]:
    """What is wrong with headings; ``own`` are those that are no keys, ``kinds`` the parts below them."""
    names = [heading.name.lower() for heading in headings]
    found: list[MulewrightError | None] = []
    for at, heading in enumerate(headings):
        if heading.name.lower() in names[:at]:
            found.append(ShelfError(what="the same heading twice", where=_where(heading)))
        elif heading.name.lower() not in own:
            found.append(_problem(heading, kinds))
    return [problem for problem in found if problem]


def _problem(heading: Heading, kinds: Collection[str]) -> ShelfError | None:
    unknown: ShelfError | None = None
    keys: list[Key] = []
    for kind in kinds:
        try:
            keys.append(heading.key(kind))
        except ShelfError as no:
            unknown = no
    if not keys and unknown:
        unknown.where = _where(heading)
        return unknown
    problems = (_unit_problem(heading, key) for key in keys if heading.unit and key.about != "plus_minus")
    return next((problem for problem in problems if problem), None)


def _unit_problem(heading: Heading, key: Key) -> ShelfError | None:
    if not key.quantity or not key.is_number:
        return ShelfError(
            "a unit where no number stands", _where(heading), "leave the unit out", heading.unit
        )
    try:
        to_si(f"1 {heading.unit}", key.quantity.kind)
    except UnitError as no:
        return ShelfError(no.what, _where(heading), no.rule, heading.unit, no.nearest)
    return None


def _where(heading: Heading) -> str:
    return f"heading {heading.text!r}"
