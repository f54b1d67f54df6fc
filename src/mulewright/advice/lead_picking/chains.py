"""Which chains of leads would join two ends, with no lead in them that one could leave out?"""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
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

    end: End
    branches: int = 1
    flipped: bool = False

    @property
    def key(self) -> tuple[object, ...]:
        return self.end.key, self.branches, self.flipped

    @property
    def goes_on(self) -> bool:
        """Whether another lead can be plugged in: not into wire ends, nor into all ends of a Y-lead at once."""
        return self.end.contacts != "open" and self.branches == 1


@dataclass(frozen=True)
class _Step:
    place: int
    turned: bool
    length: float
    flips: bool
    to: _State


@dataclass
class Finder:
    """Finds chains for one need among leads."""

    need: Need
    leads: Sequence[ShelfLead]
    odd: bool = False  # look for those that swap plus and minus in the end
    _steps: dict[tuple[object, ...], list[_Step]] = field(default_factory=dict)

    def chains(self, size: int) -> Iterator[Chain]:
        """Every chain of so many leads that serves, each set of leads once, and none with a lead too many."""
        seen: set[tuple[int, ...]] = set()
        for chain in self._from([_State(self.need.start)], [], size):
            key = tuple(sorted(chain.places))
            if key not in seen:
                seen.add(key)
                yield chain

    def _from(self, states: list[_State], steps: list[_Step], size: int) -> Iterator[Chain]:
        so_far = sum(step.length for step in steps)
        options = self._at(states[-1])
        if len(steps) + 1 < size:
            for step in options:
                if step.to.goes_on:
                    yield from self._from([*states, step.to], [*steps, step], size)
            return
        shortest = self.need.length - so_far - TOLERANCE
        for step in options[bisect_left(options, shortest, key=lambda one: one.length) :]:
            if self._arrived(step.to) and not self._too_many([*states, step.to], [*steps, step]):
                every = [*steps, step]
                yield Chain(
                    tuple(one.place for one in every),
                    tuple(one.turned for one in every),
                    so_far + step.length,
                    sum(one.flips for one in every),
                )

    def _arrived(self, state: _State) -> bool:
        need = self.need
        return (
            state.branches == need.branches and state.flipped == self.odd and mates(state.end, need.end)
        )

    def _too_many(self, states: Sequence[_State], steps: Sequence[_Step]) -> bool:
        """Whether some of the leads could be left out, and the others still join and reach."""
        total = sum(step.length for step in steps)
        keys = [state.key for state in states]
        for start in range(len(steps)):
            for stop in range(start + 1, len(steps) + (start > 0)):
                spared = sum(step.length for step in steps[start:stop])
                if keys[start] == keys[stop] and total - spared >= self.need.length - TOLERANCE:
                    return True
        return False

    @cached_property
    def _allowed(self) -> list[tuple[int, ShelfLead]]:
        return [(place, lead) for place, lead in enumerate(self.leads) if self.need.allows(lead)]

    def _at(self, state: _State) -> list[_Step]:
        """What may be plugged into a free end, the shortest first."""
        if state.key not in self._steps:
            found = [*self._ways(state)]
            self._steps[state.key] = sorted(found, key=lambda step: (step.length, step.place))
        return self._steps[state.key]

    def _ways(self, state: _State) -> Iterator[_Step]:
        for place, lead in self._allowed:
            for turned in (False, True):
                near, far = (lead.second, lead.first) if turned else (lead.first, lead.second)
                if turned and (lead.branches > 1 or near.key == far.key):
                    continue
                if mates(near, state.end):
                    flips = bool(lead.flips)
                    to = _State(far, lead.branches, state.flipped != flips)
                    yield _Step(place, turned, lead.length, flips, to)
