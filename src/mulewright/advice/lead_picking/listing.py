"""Which leads does one take off the shelf for a mule, which are missing, and where do plus and minus swap?"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from mulewright.advice.lead_picking.chains import LONGEST, Chain, Finder, Need
from mulewright.advice.lead_picking.leads import End, ShelfLead, shelf_leads
from mulewright.advice.lead_picking.needs import Connection, connections
from mulewright.advice.lead_picking.solving import Served, solve
from mulewright.facts.graph import Evaluation
from mulewright.facts.joints import PolarityFacts
from mulewright.facts.nodes import Missing as Unsaid
from mulewright.shelf.catalog import Catalog
from mulewright.shelf.parts import ConnectorPart

TRIES = 20_000
UNCOUNTED = "nobody counted those that would do"
NOTHING = "nothing on the shelf joins these ends"


@dataclass(frozen=True)
class Lacking:
    """A connection for which there is no lead."""

    connection: Connection
    need: Need
    why: str
    get: tuple[ShelfLead, ...] = ()  # kinds of leads that the shelf knows, and that would do
    plugs: tuple[str, ...] = ()  # connectors that are counted on the shelf, for one who crimps it

    @property
    def is_plain_wire(self) -> bool:
        """Whether it is a piece of wire without any plug."""
        return self.need.start.contacts == self.need.end.contacts == "open"


@dataclass(frozen=True)
class Polarity:
    """Devices on a battery, and the connectors before them that swap plus and minus, as the file has them."""

    devices: tuple[str, ...]
    flipping: tuple[str, ...]

    @property
    def is_wrong(self) -> bool:
        """Whether they swap an odd number of times."""
        return len(self.flipping) % 2 == 1


@dataclass(frozen=True)
class PickList:
    """All connections of a mule, by what becomes of them."""

    taken: tuple[tuple[Connection, Served], ...]
    lacking: tuple[Lacking, ...]
    unknown: tuple[Connection, ...]  # of which an end is not noted
    reaching: tuple[Connection, ...]  # that need nothing but what is built on
    polarity: tuple[Polarity, ...]
    unusable: Mapping[str, Sequence[str]]  # leads of the shelf, and what is not noted of them
    proved: bool

    @property
    def leads(self) -> list[tuple[ShelfLead, int]]:
        """Every kind of lead that is taken, and how many of it."""
        kinds = {lead.id: lead for _, served in self.taken for lead in served.leads}
        counts = Counter(lead.id for _, served in self.taken for lead in served.leads)
        return [(kinds[id], counts[id]) for id in sorted(kinds)]

    def as_dict(self) -> dict[str, Any]:
        """The list for programs; numbers in SI."""
        return {
            "taken": [
                {
                    **one.as_dict(),
                    "leads": [lead.id for lead in served.leads],
                    "bins": [lead.bin for lead in served.leads],
                    "adapters": served.adapters,
                    "swaps": served.chain.flips,
                    "surplus": served.surplus if one.short else None,
                }
                for one, served in self.taken
            ],
            "missing": [
                {
                    **one.connection.as_dict(),
                    "why": one.why,
                    "would_do": [lead.id for lead in one.get],
                    "plugs": list(one.plugs),
                }
                for one in self.lacking
            ],
            "unknown": [{**one.as_dict(), "needs": list(one.unknown)} for one in self.unknown],
            "reaching": [one.as_dict() for one in self.reaching],
            "swaps": [
                {"devices": list(one.devices), "in": list(one.flipping), "wrong": one.is_wrong}
                for one in self.polarity
            ],
            "left_out": {id: list(gaps) for id, gaps in self.unusable.items()},
            "proved": self.proved,
        }


def pick_leads(evaluation: Evaluation) -> PickList:
    """Find the leads for every connection of a mule on the shelves that count for it."""
    shelf, unusable = shelf_leads(evaluation.mule.loaded.catalog)
    every = connections(evaluation.mule)
    by_need = {id(need): (one, need) for one in every if (need := one.need) is not None}
    solved = solve([need for _, need in by_need.values()], shelf)
    left = [replace(lead, count=(lead.count or 0) - solved.taken[lead.id]) for lead in shelf]
    offers = _offers(solved.unserved, shelf, left)
    plugs = _plugs_on(evaluation.mule.loaded.catalog)
    lacking = []
    for need in solved.unserved:
        get = offers.get(id(need), ())
        why = _why(need, shelf, left, offered=bool(get))
        lacking.append(Lacking(by_need[id(need)][0], need, why, get, tuple(_plugs(need, plugs))))
    return PickList(
        tuple((by_need[id(served.need)][0], served) for served in solved.served),
        tuple(lacking),
        tuple(one for one in every if one.start is None or one.end is None),
        tuple(one for one in every if one.reaches),
        tuple(_polarity(evaluation)),
        unusable,
        solved.proved,
    )


def _offers(
    needs: Sequence[Need], shelf: Sequence[ShelfLead], left: Sequence[ShelfLead]
) -> Mapping[int, tuple[ShelfLead, ...]]:
    """Kinds of leads that nobody counted, and that would serve what is missing."""
    uncounted = [replace(lead, count=LONGEST * len(needs)) for lead in shelf if lead.count is None]
    solved = solve(needs, [*uncounted, *(lead for lead in left if lead.count)])
    return {id(served.need): served.leads for served in solved.served}


def _why(need: Need, shelf: Sequence[ShelfLead], left: Sequence[ShelfLead], *, offered: bool) -> str:
    """Why nothing on the shelf serves a need: the first of the reasons that would have to go."""
    counted = [lead for lead in shelf if lead.count]
    if _first(need, counted) is not None:
        return "those that fit are taken for other wires"
    there = [lead for lead in left if lead.count]
    if (odd := _first(need, there, odd=True)) is not None:
        names = ", ".join(there[place].id for place in odd.places)
        return f"{names} would fit, but plus and minus come out swapped: not taken"
    if _first(replace(need, length=0.0), there) is not None:
        return "those that fit are too short, even plugged together"
    if need.area is not None and _first(replace(need, area=None), there) is not None:
        return "those that fit are too thin, or their gauge is not noted"
    if need.red and _first(replace(need, red=False), there) is not None:
        return "in those that fit the middle wire is pulled, or that is not noted"
    return UNCOUNTED if offered else NOTHING


def _plugs_on(catalog: Catalog) -> dict[str, str]:
    """Connectors that are counted on the shelf: where they lie, by their family."""
    found = {}
    for record in catalog.list("connector"):
        part = record.part
        assert isinstance(part, ConnectorPart)
        if part.family is not None and part.count is not None and part.count.value:
            place = f" in {part.bin}" if part.bin else ""
            found[End(part.family, "alike").key[0]] = f"{part.count.value:g} × {record.id}{place}"
    return found


def _plugs(need: Need, plugs: Mapping[str, str]) -> list[str]:
    families = dict.fromkeys(end.key[0] for end in (need.start, need.end))
    return [plugs[family] for family in families if family in plugs]


def _first(need: Need, leads: Sequence[ShelfLead], *, odd: bool = False) -> Chain | None:
    finder = Finder(need, leads, odd=odd)
    found = (chain for size in range(1, LONGEST + 1) for chain in finder.chains(size, TRIES))
    return next((chain for chain in found if _there(chain, leads)), None)


def _there(chain: Chain, leads: Sequence[ShelfLead]) -> bool:
    return all((leads[place].count or 0) >= n for place, n in chain.uses.items())


def _polarity(evaluation: Evaluation) -> Iterator[Polarity]:
    """The devices before which connectors swap plus and minus, as far as that is noted."""
    found: dict[tuple[str, ...], list[str]] = {}
    for device in PolarityFacts.all(evaluation):
        try:
            flipping = tuple(device.flipping)
        except Unsaid:
            continue
        if flipping:
            found.setdefault(flipping, []).append(device.id)
    return (Polarity(tuple(devices), flipping) for flipping, devices in found.items())
