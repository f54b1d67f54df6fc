"""Every part of a mule as have, need, mass and price: as a table on paper, and as rows for a sheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from mulewright.advice.parts_list import LEADS, WIRES, PartRow, PartsList
from mulewright.advice.spoken import UNKNOWN, listed, spoken
from mulewright.paper.blocks import TICK, Block, Grid, Words
from mulewright.paper.spreadsheet import Cell
from mulewright.units.shown import people

COLUMNS = ("", "part", "need", "have", "bin", "mass", "price of one")
PARTS = "Parts"
MOST_NAMED = 6
COPPER = "The mass of wire is that of its copper alone. "
BORROWED = "Whether a part that lies on the shelf belongs into another mule is not known here."


def parts_table(parts: PartsList) -> Iterator[Block]:
    """The list of parts with what they weigh and cost."""
    if not parts.rows:
        return
    yield Words(PARTS, "heading")
    rows: list[tuple[str, ...]] = []
    marked: list[int] = []
    for kind in parts.kinds:
        for row in parts.rows:
            if row.kind == kind:
                marked += [len(rows)] if row.missing else []
                rows.append(_row(row))
        if parts.weighed(kind) and sum(row.kind == kind for row in parts.rows) > 1:
            rows.append(("–", f"all of the kind {spoken(kind)}", "", "", "", _known(parts, kind), ""))
    yield Grid(COLUMNS, rows, ("fit", 1, "fit", "fit", "fit", "fit", "fit"), strong=(1,), marked=marked)
    yield Words(_mass(parts))
    yield Words(_price(parts))
    copper = COPPER if WIRES in parts.kinds else ""
    yield Words(f"{UNKNOWN} is not noted; write it in. {copper}{BORROWED}", "small")


def parts_sheet(parts: Mapping[str, Any]) -> tuple[list[str], list[list[Cell]]]:
    """Headings and rows of the list of parts for a sheet, from its data for programs."""
    columns = {"mass": "mass [kg]", "price": "price of one"}
    keys = ("kind", "part", "title", "need", "have", "missing", "bin", "mass", "price", "things")
    rows = [[", ".join(row[key]) if key == "things" else row[key] for key in keys] for row in parts["rows"]]
    return [columns.get(key, key) for key in keys], rows


def _row(row: PartRow) -> tuple[str, ...]:
    mass = people(row.mass, "kg", 2) if row.mass is not None else UNKNOWN
    have = (
        UNKNOWN
        if row.have is None
        else f"{row.have}, {row.missing} missing"
        if row.missing
        else str(row.have)
    )
    part = f"{row.part}: {row.title}" if row.part and row.part != row.title else row.title
    return (
        TICK,
        part,
        str(row.need),
        have,
        row.bin or UNKNOWN,
        mass if row.rides else "–",
        row.price_text or UNKNOWN,
    )


def _known(parts: PartsList, kind: str | None = None) -> str:
    """A mass, and whether there is more to it."""
    more = " + ?" if parts.unweighed(kind) else ""
    return f"{people(parts.weighed(kind), 'kg', 2)}{more}"


def _mass(parts: PartsList) -> str:
    noted = parts.noted_mass
    whole = f" The whole mule is noted as {people(noted, 'kg', 3)}." if noted is not None else ""
    if not parts.weighed():
        return f"Mass: it is known of no part that rides along.{whole}"
    lacking = _named(parts.unweighed())
    unknown = f", without {lacking}, of which it is not known" if lacking else ""
    return f"Mass of the parts that ride along: {people(parts.weighed(), 'kg', 2)}{unknown}.{whole}"


def _price(parts: PartsList) -> str:
    if not parts.cost:
        return "Price: the shelf gives none that could be added."
    lacking = _named(parts.unpriced)
    without = f", without {lacking}, which have no price that could be added" if lacking else ""
    missing = (
        f" Of that, what is missing costs {listed(parts.cost_of_missing)}." if parts.cost_of_missing else ""
    )
    return f"Price of the parts: {listed(parts.cost)}{without}.{missing}"


def _named(rows: Sequence[PartRow]) -> str:
    """Parts by their names, or how many lines where those are too many; empty where there are none."""
    names = list(
        dict.fromkeys(row.part or ("missing leads" if row.kind == LEADS else row.title) for row in rows)
    )
    if len(names) > MOST_NAMED:
        return f"{len(rows)} lines with {UNKNOWN}"
    return listed(names) if names else ""
