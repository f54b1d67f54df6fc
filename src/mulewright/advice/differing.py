"""Which inputs and which facts differ between two mules, or two states of one?"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from mulewright.design.mule import Mule
from mulewright.design.paths import Path, look_up, written
from mulewright.design.schema.radio import FailSafe
from mulewright.design.typed import Typed
from mulewright.facts.catalog import entities, facts_about
from mulewright.facts.graph import Evaluation
from mulewright.facts.handover import HandoverFacts
from mulewright.facts.nodes import Found, Given, Node, average, number
from mulewright.units.quantity import Quantity
from mulewright.units.table import Table

NO_INPUTS = ("schema_version", "variant")  # of a file: its form, and what was not laid over it
SAME = 1e-9  # numbers closer than this share of their size are the same
_ABSENT = object()


@dataclass(frozen=True)
class InputChange:
    """A value of a mule file that is not the same on both sides; None where it was left out."""

    place: Path
    before: Any
    after: Any
    typed: bool  # whether it was typed on at least one side, and does not only come with another part

    @property
    def path(self) -> str:
        """Where it stands."""
        return written(self.place)

    @property
    def unit(self) -> str:
        """The SI unit, where it is a number with one."""
        one = self.before if isinstance(self.before, Quantity) else self.after
        return one.unit if isinstance(one, Quantity) else ""


@dataclass(frozen=True)
class FactChange:
    """A fact that is not the same on both sides."""

    entity: str
    name: str
    before: Node | None  # None where that side has no such thing
    after: Node | None

    @property
    def node(self) -> Node:
        """It on either side."""
        one = self.after or self.before
        assert one is not None
        return one

    @property
    def sides(self) -> str:
        """On which side there is such a thing: ``both``, ``before`` or ``after``."""
        if self.before is not None and self.after is not None:
            return "both"
        return "before" if self.after is None else "after"

    @property
    def numbers(self) -> tuple[float | None, float | None]:
        """Both values in SI; None where one is unknown, has no bound, or is not there."""
        was, now = (number(one) if one is not None else None for one in (self.before, self.after))
        return was, now

    @cached_property
    def relative(self) -> float | None:
        """The difference as a share of the larger of both, at most 2; None where one is no number."""
        was, now = self.numbers
        if was is None or now is None:
            return None
        return abs(now - was) / max(abs(was), abs(now))

    @property
    def worked_out(self) -> bool:
        """Whether it was computed, and is neither an input nor seen by looking at the mule."""
        return not isinstance(self.node.step, Given | Found)


def changed_inputs(before: Mule, after: Mule) -> list[InputChange]:
    """The inputs that differ, in the order of the mule file; variants that were not laid over are none."""
    here, there = (dict(_leaves(mule.file, ())) for mule in (before, after))
    said = [Typed(one.where, one.text, one.base, one.said) for one in (before.loaded, after.loaded)]

    def typed(place: Path) -> bool:
        return any(look_up(one.raw, one.said_at(place), _ABSENT) is not _ABSENT for one in said)

    return [
        InputChange(place, was, now, typed(place))
        for place in dict.fromkeys((*here, *there))
        if _differs(was := here.get(place), now := there.get(place))
    ]


def _leaves(value: Any, path: Path) -> Iterator[tuple[Path, Any]]:
    """Every value of a table, with its place; lists of plain values are one value."""
    if isinstance(value, Table):
        fields = type(value).model_fields
        inner = [(name, getattr(value, name)) for name in fields if path or name not in NO_INPUTS]
    elif isinstance(value, Mapping):
        inner = list(value.items())
    elif isinstance(value, list) and any(isinstance(one, Table) for one in value):
        inner = [(str(place), one) for place, one in enumerate(value)]
    else:
        if value is not None:
            yield path, value
        return
    for name, one in inner:
        numbered = isinstance(value, FailSafe) and name == "channels"  # which are typed beside the others
        yield from _leaves(one, path if numbered else (*path, str(name)))


def _differs(was: Any, now: Any) -> bool:
    """Whether two values of a mule file mean something else; another unit for the same number does not."""
    if not (isinstance(was, Quantity) and isinstance(now, Quantity)):
        return bool(was != now)
    ends = ((was.value, now.value), (was.low, now.low), (was.high, now.high))
    return was.origin is not now.origin or not all(_alike(*pair) for pair in ends)


def _alike(was: float | None, now: float | None) -> bool:
    if was is None or now is None:
        return was is now
    return was == now or math.isclose(was, now, rel_tol=SAME)


def changed_facts(before: Evaluation, after: Evaluation) -> list[FactChange]:
    """The facts of one machine alone that differ, those that changed most first."""
    here, there = (dict(_own_facts(one)) for one in (before, after))
    found = [FactChange(*key, here.get(key), there.get(key)) for key in dict.fromkeys((*here, *there))]
    return sorted(filter(_moved, found), key=_size)


def _own_facts(evaluation: Evaluation) -> Iterator[tuple[tuple[str, str], Node]]:
    own = (one for one in entities(evaluation) if not isinstance(one, HandoverFacts))
    return (((one.entity.removeprefix(evaluation.mark), one.name), one) for one in facts_about(own))


def _moved(one: FactChange) -> bool:
    if one.before is None or one.after is None:
        return True
    if not (one.before.known and one.after.known):
        return one.before.known is not one.after.known
    return not _alike(average(one.before.value), average(one.after.value))


def _size(one: FactChange) -> tuple[bool, float, str, str]:
    return one.relative is None, -(one.relative or 0.0), one.entity, one.name
