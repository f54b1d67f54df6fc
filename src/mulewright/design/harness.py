"""Which wires are there, each with its number and its pins? The same on picture, label and list."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from mulewright.design.mule import Mule
from mulewright.design.rail import feeds
from mulewright.design.references import as_list
from mulewright.design.schema.electrics import Battery, Fuse, Lead, Switch, Wire, YLead
from mulewright.design.signals import RECEIVERS
from mulewright.design.supply import Run
from mulewright.units.quantity import Quantity

Kind = Literal["plus", "minus", "motor", "servo lead", "supply lead"]
POLES: tuple[Literal["plus", "minus"], ...] = ("plus", "minus")
SIGN = {"plus": "+", "minus": "-"}


@dataclass(frozen=True)
class Pin:
    """Where one end of a wire sits; of two plugs that are said to sit in one socket the second has seat 2."""

    thing: str  # "battery.main", "receiver"
    name: (
        str  # "+", "-", "A", "B", "in", "out", "lead", the number of a socket, the name of an input or output
    )
    seat: int = 1


@dataclass(frozen=True)
class Conductor:
    """One wire, or one servo lead of two or three wires."""

    number: int
    kind: Kind
    start: Pin
    end: Pin | None  # None where nobody noted where its plug sits
    path: str  # the table of the file that says it: "wire.main", "controller.lift"
    area: Quantity | None = None
    length: Quantity | None = None
    part_of: Quantity | None = None  # length of the whole run, where that of this piece is not known
    red_pulled: bool | None = (
        False  # whether the middle wire of its plug is pulled; None where nobody noted it
    )
    ground_pulled: bool = False
    sure: bool = True  # whether it is noted which of two pins it goes to

    @property
    def pins(self) -> tuple[Pin, ...]:
        """The pins that it ends on."""
        return (self.start,) if self.end is None else (self.start, self.end)


@dataclass(frozen=True)
class Harness:
    """Every wire of a mule."""

    conductors: tuple[Conductor, ...]

    def at(self, thing: str) -> list[Conductor]:
        """The wires that end on a thing."""
        return [one for one in self.conductors if any(pin.thing == thing for pin in one.pins)]

    def on(self, thing: str, name: str) -> list[Conductor]:
        """The wires that end on a pin of a thing, whichever seat they have."""
        return [one for one in self.conductors if any((p.thing, p.name) == (thing, name) for p in one.pins)]


def harness(mule: Mule) -> Harness:
    """Number every wire: power from the sources outwards, then motor wires, then servo leads."""
    drafts = [*_power(mule), *_motors(mule), *_leads(mule), *_supplies(mule)]
    taken: Counter[Pin] = Counter()
    found = []
    for number, draft in enumerate(drafts, start=1):
        ends = [_seat(pin, taken) if pin is not None else None for pin in (draft.start, draft.end)]
        assert ends[0] is not None
        found.append(replace(draft, number=number, start=ends[0], end=ends[1]))
    return Harness(tuple(found))


def _seat(pin: Pin, taken: Counter[Pin]) -> Pin:
    taken[pin] += 1
    return replace(pin, seat=taken[pin])


# --- power


def _power(mule: Mule) -> Iterator[Conductor]:
    leaving: Counter[str] = Counter()
    for run in _outwards(mule):
        leaving[run.start] += 1
        several = run.start.split(".", 1)[0] == "board" or len(mule.supply.runs_from(run.start)) > 1
        place = str(leaving[run.start]) if several else ""
        for pole in POLES:
            yield from _pieces(mule, run, pole, place)
    for name, lead in mule.file.y_lead.items():
        if lead.carries == "power":
            yield from _joined(mule, f"y_lead.{name}", lead)


def _outwards(mule: Mule) -> list[Run]:
    """The runs in the order in which current meets them, those of one thing in the order of the file."""
    depth = {run.id: len(mule.supply.way_to(run.end)) for run in mule.supply.runs}
    return sorted(mule.supply.runs, key=lambda run: depth[run.id])


def _pieces(mule: Mule, run: Run, pole: Literal["plus", "minus"], place: str) -> Iterator[Conductor]:
    """One conductor of a run, cut where a fuse or a switch lies in it."""
    wire = mule.things[run.wire]
    assert isinstance(wire, Wire)
    sign = SIGN[pole]
    between = [item for item in run.through if pole in _conductors(mule, item)]
    starts = [Pin(run.start, f"{sign}{place}"), *(_way_out(item, sign) for item in between)]
    ends = [*(_way_in(mule, item, sign, run.start) for item in between), Pin(run.end, sign)]
    for start, end in zip(starts, ends, strict=True):
        length = _length(mule, start, end) if between else wire.length
        part_of = wire.length if length is None else None
        yield Conductor(0, pole, start, end, run.wire, area=wire.gauge, length=length, part_of=part_of)


def _length(mule: Mule, start: Pin, end: Pin) -> Quantity | None:
    """Length of a piece of a run: known only from a battery to its fuse."""
    fuse = mule.things[end.thing]
    return fuse.from_battery if isinstance(fuse, Fuse) and start.thing.startswith("battery.") else None


def _conductors(mule: Mule, item: str) -> tuple[str, ...]:
    """Which conductors go through something in a run; a fuse or switch sits in the plus unless noted."""
    table = mule.things[item]
    return (table.conductor or "plus",) if isinstance(table, Fuse | Switch) else POLES


def _way_in(mule: Mule, item: str, sign: str, start: str) -> Pin:
    table = mule.things[item]
    if isinstance(table, YLead):
        packs = table.joins or [start]
        return Pin(item, f"{sign} {packs.index(start) + 1 if start in packs else len(packs) + 1}")
    return Pin(item, "in")


def _way_out(item: str, sign: str) -> Pin:
    return Pin(item, sign if item.startswith("y_lead.") else "out")


def _joined(mule: Mule, path: str, lead: YLead) -> Iterator[Conductor]:
    """The packs that a power lead joins, but for the one that its run already starts from."""
    started = {run.start for run in mule.supply.runs if path in run.through}
    for number, pack in enumerate(lead.joins or [], start=1):
        if pack not in started:
            for pole in POLES:
                yield Conductor(0, pole, Pin(pack, SIGN[pole]), Pin(path, f"{SIGN[pole]} {number}"), path)


# --- motors


def _motors(mule: Mule) -> Iterator[Conductor]:
    for name, controller in mule.file.controller.items():
        path, motors = f"controller.{name}", as_list(controller.feeds)
        for place, motor in enumerate(motors, start=1):
            many = str(place) if len(motors) > 1 else ""
            crossed = controller.polarity == "swapped"
            for output, sign in (("A", "-" if crossed else "+"), ("B", "+" if crossed else "-")):
                sure = controller.polarity is not None
                yield Conductor(0, "motor", Pin(path, output + many), Pin(motor, sign), path, sure=sure)


# --- servo leads


def _leads(mule: Mule) -> Iterator[Conductor]:
    legs: Counter[str] = Counter()
    for path, sockets in mule.signals.leads.items():
        thing, table, start = _lead_of(mule, path)
        for place, socket in enumerate(sockets or [None], start=1):
            several = f" {place}" if len(sockets) > 1 else ""
            yield Conductor(
                0, "servo lead", Pin(thing, f"{start}{several}"), _socket(socket, legs), path,
                area=getattr(table, "lead_gauge", None), length=getattr(table, "lead_length", None),
                red_pulled=_red_pulled(mule, path, table),
                ground_pulled=isinstance(table, Lead) and table.ground_wire == "pulled",
            )  # fmt: skip


def _lead_of(mule: Mule, path: str) -> tuple[str, object, str]:
    """The thing that a lead belongs to, its table, and the pin where it leaves it."""
    kind, name, *side = path.split(".")
    thing = f"{kind}.{name}"
    return thing, mule.things[thing], side[0] if side else "lead"


def _socket(socket: str | None, legs: Counter[str]) -> Pin | None:
    if socket is None:
        return None
    kind, _, rest = socket.partition(".")
    if kind in RECEIVERS:
        return Pin(kind, rest)
    if kind == "mixer":
        name, _, output = rest.rpartition(".")
        return Pin(f"mixer.{name}", output)
    if kind == "inline":
        return Pin(socket, "out")
    legs[socket] += 1
    return Pin(socket, f"{'leg' if kind == 'y_lead' else 'out'} {legs[socket]}")


def _red_pulled(mule: Mule, path: str, table: object) -> bool | None:
    said = getattr(table, "red_wire", None)
    if said is not None:
        return bool(said == "pulled")
    if path.startswith("servo."):
        return getattr(table, "power", None) is not None
    return None if path.startswith("controller.") else False


# --- supplies that end in a servo plug


def _supplies(mule: Mule) -> Iterator[Conductor]:
    leads: Counter[str] = Counter()
    led: set[tuple[str, str]] = set()
    for feed in feeds(mule.file):
        source = mule.things[feed.source]
        idle = isinstance(source, Battery) and source.in_use is False
        plugged = feed.target in mule.signals.sources(feed.source)  # its signal lead brings the supply along
        if idle or plugged or (feed.source, feed.target) in led:
            continue
        led.add((feed.source, feed.target))
        leads[feed.source] += 1
        thing, _, socket = feed.target.partition(".")
        end = Pin(thing, socket or "supply") if thing in RECEIVERS else Pin(feed.target, "supply")
        yield Conductor(
            0, "supply lead", Pin(feed.source, f"out {leads[feed.source]}"), end,
            feed.settles.rpartition(".")[0], red_pulled=not feed.middle,
        )  # fmt: skip
