"""Which parts does the mule need, how many of each are on the shelf, and what do they weigh and cost?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from mulewright.advice.lead_picking.leads import SCREW
from mulewright.advice.lead_picking.listing import Lacking, PickList
from mulewright.advice.money import amount, sums
from mulewright.advice.spoken import spoken
from mulewright.design.schema.electrics import Battery, Placed
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import number
from mulewright.facts.wiring import WireFacts
from mulewright.shelf.parts import LeadPart, Part
from mulewright.units.table import Table

KINDS = (
    "motor", "controller", "mixer", "servo", "battery", "bench_supply", "regulator", "fuse", "switch", "board",
    "receiver", "second_receiver", "inline", "y_lead", "tester", "radio", "second_radio",
)  # fmt: skip
BESIDE = ("bench_supply", "tester", "radio", "second_radio")  # kinds that do not ride along
LEADS, WIRES = "lead", "wire"


@dataclass(frozen=True)
class PartRow:
    """One line: things of one kind that are the same part."""

    kind: str
    part: str  # its id on the shelf; empty where the file names none
    title: str
    need: int
    have: int | None  # None where nobody counted
    bin: str
    mass: float | None  # [kg] of all of them
    price: tuple[Decimal, str] | None  # of one
    price_text: str
    things: tuple[str, ...]

    @property
    def missing(self) -> int | None:
        """How many are lacking; None where nobody counted what there is."""
        return None if self.have is None else max(0, self.need - self.have)

    @property
    def total(self) -> tuple[Decimal, str] | None:
        """The price of all of them."""
        return (self.price[0] * self.need, self.price[1]) if self.price is not None else None

    @property
    def rides(self) -> bool:
        """Whether it is a part of the mule itself."""
        return self.kind not in BESIDE


@dataclass(frozen=True)
class PartsList:
    """Every part of a mule."""

    rows: tuple[PartRow, ...]
    noted_mass: float | None  # [kg] of the whole mule, as the file has it

    def weighed(self, kind: str | None = None) -> float:
        """The mass of all parts that ride along and of which it is known, or of those of one kind. [kg]."""
        return sum(row.mass or 0.0 for row in self._riding(kind))

    def unweighed(self, kind: str | None = None) -> list[PartRow]:
        """Those of which the mass is not known."""
        return [row for row in self._riding(kind) if row.mass is None]

    def _riding(self, kind: str | None) -> list[PartRow]:
        return [row for row in self.rows if row.rides and kind in (None, row.kind)]

    @property
    def kinds(self) -> list[str]:
        """The kinds in it, in their order."""
        return list(dict.fromkeys(row.kind for row in self.rows))

    @property
    def cost(self) -> list[str]:
        """What all parts with a price cost, one text for each currency."""
        return sums(row.total for row in self.rows if row.total is not None)

    @property
    def cost_of_missing(self) -> list[str]:
        """What those cost that are missing for certain."""
        lacking = ((row.price, row.missing or 0) for row in self.rows)
        return sums((price[0] * count, price[1]) for price, count in lacking if price is not None and count)

    @property
    def unpriced(self) -> list[PartRow]:
        """Those without a price that one can add."""
        return [row for row in self.rows if row.price is None]

    def as_dict(self) -> dict[str, Any]:
        """The list for programs; masses in kg, prices as text with their currency."""
        return {
            "rows": [
                {
                    "kind": row.kind,
                    "part": row.part,
                    "title": row.title,
                    "things": list(row.things),
                    "need": row.need,
                    "have": row.have,
                    "missing": row.missing,
                    "bin": row.bin,
                    "mass": row.mass,
                    "price": row.price_text,
                }
                for row in self.rows
            ],
            "mass": self.weighed(),
            "mass_unknown": [row.part or row.title for row in self.unweighed()],
            "cost": self.cost,
            "cost_of_missing": self.cost_of_missing,
            "price_unknown": [row.part or row.title for row in self.unpriced],
        }


def list_parts(evaluation: Evaluation, picked: PickList) -> PartsList:
    """Every part that a mule names, the leads that are taken for it, and the wire that has to be cut."""
    rows = [
        *_placed(evaluation, picked),
        *_leads(evaluation, picked),
        *_lacking(picked),
        *_wires(evaluation, picked),
    ]
    body = evaluation.mule.file.body
    noted = body.mass.value if body.mass is not None else None
    return PartsList(tuple(rows), noted)


def _placed(evaluation: Evaluation, picked: PickList) -> Iterator[PartRow]:
    mule = evaluation.mule
    as_leads = {one.id for one, _ in picked.taken} | {one.connection.id for one in picked.lacking}
    same: dict[tuple[str, str], list[str]] = {}
    for kind in KINDS:
        for id, table in mule.things.items():
            idle = isinstance(table, Battery) and table.in_use is False
            as_lead = kind == "y_lead" and id in as_leads
            if id.split(".", 1)[0] == kind and not idle and not as_lead:
                part = table.part if isinstance(table, Placed) else None
                same.setdefault((kind, part or id), []).append(id)
    for (kind, part), ids in same.items():
        tables = [mule.things[id] for id in ids]
        yield _row(kind, "" if part in ids else part, ids, tables, len(ids))


def _row(kind: str, part: str, ids: Sequence[str], tables: Sequence[Table], need: int) -> PartRow:
    first = tables[0]
    known = first if isinstance(first, Part) else Part()
    masses = [
        table.mass.value if isinstance(table, Part) and table.mass is not None else None for table in tables
    ]
    known_masses = [mass for mass in masses if mass is not None]
    mass = sum(known_masses) * need / len(tables) if len(known_masses) == len(masses) else None
    return PartRow(
        kind, part, known.title or (part or ", ".join(spoken(id) for id in ids)), need,
        int(known.count.value) if part and known.count is not None else None, known.bin or "",
        mass, amount(known.price), known.price or "", tuple(ids),
    )  # fmt: skip


def _leads(evaluation: Evaluation, picked: PickList) -> Iterator[PartRow]:
    catalog = evaluation.mule.loaded.catalog
    for lead, count in picked.leads:
        part = catalog.find(LEADS, lead.id).part
        assert isinstance(part, LeadPart)
        wires = [one.id for one, served in picked.taken if lead in served.leads]
        yield _row(LEADS, lead.id, wires, [part], count)


def _lacking(picked: PickList) -> Iterator[PartRow]:
    """Leads with plugs that are missing."""
    same: dict[tuple[object, ...], list[Lacking]] = {}
    for one in picked.lacking:
        if not one.is_plain_wire:
            same.setdefault(one.need.alike, []).append(one)
    for ones in same.values():
        need = ones[0].need
        ends = [end.words if end == SCREW else end.other.words for end in (need.start, need.end)]
        title = f"lead, {ends[0]} to {f'{need.branches} × ' if need.branches > 1 else ''}{ends[1]}"
        things = tuple(one.connection.id for one in ones)
        yield PartRow(LEADS, "", title, len(ones), 0, "", None, None, "", things)


def _wires(evaluation: Evaluation, picked: PickList) -> Iterator[PartRow]:
    """Runs that no lead with plugs serves: wire by the metre, both ways, by its thickness."""
    taken = [one for one, _ in picked.taken]
    lacking = [one.connection for one in picked.lacking if not one.is_plain_wire]
    served = {(one.start_at, one.end_at) for one in (*taken, *lacking) if one.kind == "power"}
    for wire in WireFacts.all(evaluation):
        every = evaluation.mule.supply.runs_of.get(wire.id, [])
        runs = [run for run in every if (run.start, run.end) not in served]
        if not runs:
            continue
        table = evaluation.mule.table(wire.id)
        length, gauge = table.quantity("length"), table.quantity("gauge")
        each = number(wire.node("copper_mass")) if wire.node("copper_mass").known else None
        words = f"{gauge.text if gauge else '? thick'}, {length.text if length else '?'} each"
        yield PartRow(
            WIRES, "", f"wire, {words}", 2 * len(runs), None, "",
            each * len(runs) if each is not None else None, None, "", (wire.id,),
        )  # fmt: skip
