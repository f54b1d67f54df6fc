"""Which parts of the shelf can stand in a slot, and which edits put them there?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from mulewright.advice.choosing.bench import AS_IT_IS, Edit, Option
from mulewright.design.merging import UNKNOWN, Raw, is_number
from mulewright.design.paths import Path, look_up
from mulewright.errors import MulewrightError
from mulewright.shelf.catalog import Catalog, PartRecord
from mulewright.shelf.parts import PART_KINDS

KEPT = ("part", "title", "price", "count", "bin", "note")  # said of a thing in its place, whatever part it is
KNOWN_OF_ONE = {"controller": ("calibrated_to",)}  # no value of the part, and yet not true of another one


def records(drawer: Catalog, kind: str, skipped: list[str]) -> list[PartRecord]:
    """Every part of a kind that can be read."""
    found = []
    for _, id in drawer.ids(kind):
        try:
            found.append(drawer.find(kind, id))
        except MulewrightError as no:
            skipped.append(f"{kind} {id}: {str(no).splitlines()[0]}")
    return found


def parts(
    raw: Raw, kind: str, things: Sequence[str], records: Sequence[PartRecord], skipped: list[str]
) -> list[Option]:
    """What the file has now, and each part that lies on the shelf often enough."""
    names = [thing.split(".", 1)[1] for thing in things]
    tables: list[Mapping[str, Any]] = [look_up(raw, (kind, name), {}) for name in names]
    now = {str(table.get("part", AS_IT_IS)) for table in tables}
    label = now.pop() if len(now) == 1 else AS_IT_IS
    found = [Option(label)]
    for record in records:
        count = record.part.quantity("count")
        if count is not None and count.value < len(names):
            skipped.append(f"{kind} {record.id}: {count.value:g} on the shelf, {len(names)} needed")
        elif record.id != label:
            edits = [
                edit
                for name, table in zip(names, tables, strict=True)
                for edit in _swap(kind, name, table, record)
            ]
            found.append(Option(record.id, tuple(edits)))
    return found


def _swap(kind: str, name: str, table: Mapping[str, Any], record: PartRecord) -> Iterator[Edit]:
    """Put a part in place of another; what the file says of the old one gives way to what the new one brings."""
    yield (kind, name, "part"), record.id
    yield from _replaced((kind, name), table, record.raw, set(PART_KINDS[kind].model_fields) - set(KEPT))
    for key in KNOWN_OF_ONE.get(kind, ()):
        if key in table:
            yield (kind, name, key), UNKNOWN


def _replaced(
    place: Path, table: Mapping[str, Any], part: Mapping[str, Any], keys: set[str]
) -> Iterator[Edit]:
    for key in table:
        said = part.get(key, UNKNOWN)
        if key not in keys or (key == "stopping" and said in ("either", UNKNOWN)):
            continue
        if isinstance(table[key], Mapping) and isinstance(said, Mapping) and not is_number(said):
            yield from _replaced((*place, key), table[key], said, set(table[key]))
        else:
            yield (*place, key), said
