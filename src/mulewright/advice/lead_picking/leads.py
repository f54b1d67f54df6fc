"""What is a lead, what does it plug into, and which leads lie on the shelf?"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property
from typing import Literal

from mulewright.advice.money import amount
from mulewright.shelf.catalog import Catalog, PartRecord
from mulewright.shelf.parts import LeadEnd, LeadPart

Contacts = Literal["pins", "sockets", "alike", "open"]
OPPOSITE: Mapping[Contacts, Contacts] = {
    "pins": "sockets",
    "sockets": "pins",
    "alike": "alike",
    "open": "open",
}


@dataclass(frozen=True)
class End:
    """One end of a lead or of a device; an open end goes under a screw, or is soldered."""

    family: str
    contacts: Contacts

    @cached_property
    def key(self) -> tuple[str, Contacts]:
        """What has to be the same in ends that are the same; how the family is typed does not count."""
        return " ".join(self.family.casefold().split()), self.contacts

    @cached_property
    def other(self) -> End:
        """The end that it is plugged into."""
        return End(self.family, OPPOSITE[self.contacts])

    @property
    def words(self) -> str:
        """How a person would find it."""
        if self.contacts == "open":
            return self.family or "bare wire, ring or spade"
        return f"{self.family}, {'both halves alike' if self.contacts == 'alike' else self.contacts}"


SCREW = End("", "open")  # a terminal of which nobody said what it wants: it takes any open end


def mates(lead: End, place: End) -> bool:
    """Whether an end of a lead goes onto a place, which is the end of a device or of another lead."""
    if lead.contacts == place.contacts == "open" and not place.family:
        return True
    return lead.key == place.other.key


@dataclass(frozen=True)
class ShelfLead:
    """A kind of lead on the shelf, and how many of it there are."""

    id: str
    title: str
    first: End
    second: End
    length: float  # [m]
    area: float | None  # [m2]
    flips: bool | None
    red: bool | None  # whether its middle wire goes through
    branches: int = 1
    joins: str | None = None
    count: int | None = None  # None where nobody counted them
    bin: str = ""
    price: tuple[Decimal, str] | None = None  # and its currency

    @property
    def is_adapter(self) -> bool:
        """Whether it joins plugs of different families."""
        if "open" in (self.first.contacts, self.second.contacts):
            return False
        return self.first.key[0] != self.second.key[0]


def shelf_leads(catalog: Catalog) -> tuple[list[ShelfLead], dict[str, list[str]]]:
    """The leads of the shelves that say enough to be judged, and what the others lack."""
    found: list[ShelfLead] = []
    lacking: dict[str, list[str]] = {}
    for record in catalog.list("lead"):
        part = record.part
        assert isinstance(part, LeadPart)
        first, second = _end(part.first), _end(part.second)
        gaps = [name for name, end in (("first", first), ("second", second)) if end is None]
        if part.length is None:
            gaps.append("length")
        if gaps or first is None or second is None or part.length is None:
            lacking[record.id] = gaps
        else:
            found.append(_lead(record, part, first, second, part.length.value))
    return found, lacking


def _lead(record: PartRecord, part: LeadPart, first: End, second: End, length: float) -> ShelfLead:
    return ShelfLead(
        record.id,
        record.title,
        first,
        second,
        length,
        part.gauge.value if part.gauge is not None else None,
        part.flips,
        None if part.red_wire is None else part.red_wire == "in",
        int(part.branches.value) if part.branches is not None else 1,
        part.joins,
        int(part.count.value) if part.count is not None else None,
        part.bin or "",
        amount(part.price),
    )


def _end(said: LeadEnd | None) -> End | None:
    return end_of(said.family, said.contacts) if said is not None else None


def end_of(family: str | None, contacts: Contacts | None) -> End | None:
    """An end as it is described, where that is enough to find what goes together with it."""
    if contacts is None or (family is None and contacts != "open"):
        return None
    return End(family or "", contacts)
