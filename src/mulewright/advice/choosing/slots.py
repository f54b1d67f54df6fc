"""What can be chosen for a function: motors, ratios, sizes, controllers, batteries, wires."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from mulewright.advice.choosing.bench import Bench, Option, Wanted
from mulewright.advice.choosing.parts import parts, records
from mulewright.advice.choosing.sizes import sizes, wires
from mulewright.advice.choosing.trains import trains
from mulewright.shelf.catalog import Catalog

SLOTS = ("motor", "ratio", "size", "controller", "battery", "wire")


@dataclass
class Slots:
    """The options of every slot, and what was left out with the reason."""

    motors: list[Option]
    ratios: list[Option]
    sizes: list[Option]
    controllers: list[Option]
    batteries: list[Option]
    wires: list[Option]
    skipped: list[str] = field(default_factory=list)

    @property
    def all(self) -> list[list[Option]]:
        """Every slot, in the order in which candidates are counted."""
        return [self.motors, self.ratios, self.sizes, self.controllers, self.batteries, self.wires]


def slots_of(on: Bench, wanted: Wanted, drawer: Catalog) -> Slots:
    """Gather the options of every slot; the parts of a drawer, each beside what the file has now."""
    service = on.service()
    skipped: list[str] = []

    def of(kind: str, things: Sequence[str]) -> list[Option]:
        found = [] if kind in wanted.keep else records(drawer, kind, skipped)
        return parts(on.raw, kind, things, found, skipped)

    return Slots(
        of("motor", service.motors),
        trains(on.raw, service, wanted),
        sizes(service, wanted),
        of("controller", service.controllers),
        of("battery", [service.battery]),
        wires(on.raw, service, wanted),
        skipped,
    )
