"""Which chains of leads would join two ends, with no lead in them that one could leave out?"""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from mulewright.advice.lead_picking.leads import End, ShelfLead, mates

LONGEST = 3  # leads end to end; each joint more is one more to come loose
TOLERANCE = 1e-9  # [m]
Kind = Literal["power", "motor", "servo lead", "supply lead"]


@dataclass(frozen=True)
class Need:
    """Two ends of the mule that have to be joined, and what the lead between them must be."""

    id: str
    kind: Kind
    start: End  # what it plugs into, at either end
    end: End
    length: float = 0.0  # [m]
    area: float | None = None  # [m2]
    red: bool = False  # whether its middle wire has to go through
    branches: int = 1  # how often its far end is there
    joins: str | None = None

    @property
    def alike(self) -> tuple[object, ...]:
        """What is the same in needs that the same leads serve."""
        return (
            self.kind, self.start.key, self.end.key, self.length, self.area, self.red, self.branches, self.joins
        )  # fmt: skip

    def allows(self, lead: ShelfLead) -> bool:
        """Whether a lead may be part of what serves it; what nobody noted of a lead is taken for no."""
        if self.area is not None and (lead.area is None or lead.area < self.area * (1 - TOLERANCE)):
            return False
        if self.red and not lead.red:
            return False
        if self.kind in ("power", "motor") and lead.flips is None:
            return False
        joined = self.joins is None or lead.joins == self.joins
        return lead.branches == 1 or (lead.branches == self.branches and joined)


@dataclass(frozen=True)
class Chain:
    """Leads plugged end to end, from the start of a need on; by their places in the list of leads."""

    places: tuple[int, ...]
    turned: tuple[bool, ...]  # whether each is used from its second end to its first
    length: float  # [m]
    flips: int

    @cached_property
    def uses(self) -> Counter[int]:
        """How many it takes of each lead."""
        return Counter(self.places)


@dataclass(frozen=True)
class _State:
    """How far one has come: the end that is free, how often it is there, whether plus and minus are swapped."""

    end: tuple[str, str]
    branches: int = 1
    flipped: bool = False

    @property
    def goes_on(self) -> bool:
        """Whether another lead can be plugged in: not into wire ends, nor into all ends of a Y-lead at once."""
        return self.end[1] != "open" and self.branches == 1


@dataclass(frozen=True)
class _Step:
    place: int
    turned: bool
    length: float
    flips: bool
    to: _State


class Finder:
    """Finds the chains for one need among leads; ``odd`` finds those that swap plus and minus in the end."""

    def __init__(self, need: Need, leads: Sequence[ShelfLead], *, odd: bool = False) -> None:
        self.need, self.leads, self.odd = need, leads, odd
        self.tries = 0  # how many chains may still be looked at
        self._allowed = [
            (place, lead) for place, lead in enumerate(leads) if lead.count and need.allows(lead)
        ]
        self._steps: dict[_State | None, list[_Step]] = {}
        self._longest = max((lead.length for _, lead in self._allowed), default=0.0)

    def chains(self, size: int, tries: int) -> Iterator[Chain]:
        """Every chain of so many leads that serves, each set of leads once, and none with a lead too many.

        After so many tries it gives up, and :attr:`tries` is below 0.
        """
        self.tries = tries
        seen: set[tuple[int, ...]] = set()
        for steps in self._from([None], [], size):
            places = tuple(step.place for step in steps)
            key = tuple(sorted(places))
            if key not in seen:
                seen.add(key)
                turned = tuple(step.turned for step in steps)
                length, flips = sum(step.length for step in steps), sum(step.flips for step in steps)
                yield Chain(places, turned, length, flips)

    def _from(self, states: list[_State | None], steps: list[_Step], size: int) -> Iterator[list[_Step]]:
        """Chains that begin with these steps; a state is None at the start of the need."""
        left = size - len(steps)
        short = self.need.length - sum(step.length for step in steps) - TOLERANCE
        options = self._at(states[-1])
        shortest = short - (left - 1) * self._longest
        for step in options[bisect_left(options, shortest, key=lambda one: one.length) :]:
            if self.tries < 0:
                return
            every, through = [*steps, step], [*states, step.to]
            if left > 1:
                served = self._arrived(step.to) and step.length >= short
                if step.to.goes_on and not served:
                    yield from self._from(through, every, size)
                continue
            self.tries -= 1
            if self._arrived(step.to) and not self._too_many(through, every):
                yield every

    def _arrived(self, state: _State) -> bool:
        need = self.need
        if state.branches != need.branches or state.flipped != self.odd:
            return False
        return state.end == need.end.other.key or (
            state.end[1] == need.end.contacts == "open" and not need.end.family
        )

    def _too_many(self, states: Sequence[_State | None], steps: Sequence[_Step]) -> bool:
        """Whether some of the leads could be left out, and the others still join and reach."""
        spare = sum(step.length for step in steps) - self.need.length + TOLERANCE
        for start in range(len(steps)):
            for stop in range(start + 1, len(steps) + (start > 0)):
                spared = sum(step.length for step in steps[start:stop])
                if spared <= spare and self._same(states[start], states[stop]):
                    return True
        return False

    def _same(self, one: _State | None, other: _State | None) -> bool:
        return (one or self._start) == (other or self._start)

    @cached_property
    def _start(self) -> _State:
        return _State(self.need.start.key)

    def _at(self, state: _State | None) -> list[_Step]:
        """What may be plugged into a free end, the shortest first."""
        if state not in self._steps:
            found = [*self._ways(state)]
            self._steps[state] = sorted(found, key=lambda step: (step.length, step.place))
        return self._steps[state]

    def _ways(self, state: _State | None) -> Iterator[_Step]:
        for place, lead in self._allowed:
            for turned in (False, True):
                near, far = (lead.second, lead.first) if turned else (lead.first, lead.second)
                if turned and (lead.branches > 1 or near.key == far.key):
                    continue
                if mates(near, self.need.start) if state is None else near.other.key == state.end:
                    flipped = state is not None and state.flipped
                    to = _State(far.key, lead.branches, flipped != bool(lead.flips))
                    yield _Step(place, turned, lead.length, bool(lead.flips), to)
