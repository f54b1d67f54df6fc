"""Which ends of the mule have to be joined by which lead, and of which is not noted what they are?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from mulewright.advice.lead_picking.chains import Kind, Need
from mulewright.advice.lead_picking.leads import SCREW, End, end_of, mates
from mulewright.design.harness import Conductor, Harness, harness
from mulewright.design.mule import Mule
from mulewright.design.references import as_list
from mulewright.design.schema.electrics import Battery, Controller, Joint, Lead, Mixer, Motor, Wire, YLead
from mulewright.design.supply import Run
from mulewright.shelf.parts import OwnLead
from mulewright.shelf.tables import default
from mulewright.units.quantity import Quantity

SERVO = "3-pin 2.54 mm servo plug"  # of every receiver, controller and servo; common practice, no source
PLUG, SOCKET = End(SERVO, "sockets"), End(SERVO, "pins")


@dataclass(frozen=True)
class Connection:
    """Two ends that have to be joined, with what is noted of them."""

    id: str
    kind: Kind
    wires: tuple[int, ...]  # numbers in the harness
    start_at: str
    end_at: str
    start: End | None  # None where nobody noted it
    end: End | None
    unknown: tuple[str, ...] = ()  # paths that would say it
    way: float | None = None  # [m] None where nobody noted it
    own: float = 0.0  # [m] what leads that are built on reach of it
    own_assumed: bool = False
    gauge: Quantity | None = None
    red: bool = False
    branches: int = 1
    joins: str | None = None
    notes: tuple[str, ...] = ()

    @property
    def short(self) -> float:
        """What is lacking to reach. [m]."""
        return max(0.0, (self.way or 0.0) - self.own)

    @property
    def reaches(self) -> bool:
        """Whether nothing is needed between the two: they go together, and their own leads are long enough."""
        if self.start is None or self.end is None or self.branches > 1 or self.start == self.end == SCREW:
            return False
        return self.short == 0 and (mates(self.start, self.end) or mates(self.end, self.start))

    @property
    def need(self) -> Need | None:
        """What a lead has to be; none where an end is not noted, or nothing is needed."""
        if self.start is None or self.end is None or self.reaches:
            return None
        return Need(
            self.id, self.kind, self.start, self.end, self.short,
            self.gauge.value if self.gauge is not None else None, self.red, self.branches, self.joins,
        )  # fmt: skip

    def as_dict(self) -> dict[str, Any]:
        """The connection for programs; numbers in SI."""
        plugs = [
            {"family": end.family, "contacts": end.contacts} if end is not None else None
            for end in (self.start, self.end)
        ]
        return {
            "id": self.id,
            "kind": self.kind,
            "wires": list(self.wires),
            "between": [self.start_at, self.end_at],
            "goes_onto": plugs,
            "length": self.short if self.way is not None else None,
            "area": self.gauge.value if self.gauge is not None else None,
            "middle_wire": self.red,
            "branches": self.branches,
            "notes": list(self.notes),
        }


def connections(mule: Mule) -> list[Connection]:
    """Every connection of a mule: power from the sources outwards, then motors, then servo leads."""
    wires = harness(mule)
    return [*_power(mule, wires), *_packs(mule, wires), *_motors(mule, wires), *_signals(mule, wires)]


# --- power


def _power(mule: Mule, wires: Harness) -> Iterator[Connection]:
    runs = {run.id: run for run in mule.supply.runs}
    order = {run: min((one.number for one in _of(wires, run)), default=0) for run in runs.values()}
    for run in sorted(runs.values(), key=lambda run: order[run]):
        yield from _stretches(mule, run, tuple(one.number for one in _of(wires, run)))


def _of(wires: Harness, run: Run) -> list[Conductor]:
    """The wires of a run; of one between a controller and a motor, those of the motor too."""
    ends = {run.end, *run.through}
    of_motor = [one for one in wires.at(run.end) if one.kind == "motor" and one.start.thing == run.start]
    own = [one for one in wires.conductors if one.path == run.wire and one.end and one.end.thing in ends]
    return [*own, *of_motor]


@dataclass(frozen=True)
class _Piece:
    """A run from one connector to the next."""

    suffix: str
    start: End | None
    end: End | None
    gaps: tuple[str, ...] = ()
    is_adapter: bool = False
    is_own: bool = False  # whether it is the lead that is built onto the device


def _stretches(mule: Mule, run: Run, numbers: tuple[int, ...]) -> Iterator[Connection]:
    """A run, cut where connectors lie in it."""
    wire = mule.things[run.wire]
    assert isinstance(wire, Wire)
    pieces = [*_pieces(mule, run, wire)]
    own = _own_length(mule, run.end, "supply_lead")
    cut = [piece for piece in pieces if not piece.is_adapter and not piece.is_own]
    way = max(0.0, wire.length.value - own) if wire.length is not None else None
    for piece in pieces:
        notes = [] if wire.gauge is not None else ["gauge not noted"]
        length: float | None = 0.0
        if piece.is_adapter:
            notes.append("an adapter: the halves are of different families")
        elif not piece.is_own:
            length = way / len(cut) if way is not None else None
            notes += [f"cut it for {', '.join(run.through)}"] if run.through else []
            notes += ["length not noted"] if way is None else []
            notes += [f"one of {len(cut)} pieces, taken to be equal"] if len(cut) > 1 else []
        yield Connection(
            f"{run.id}{piece.suffix}", "power", numbers, run.start, run.end, piece.start, piece.end,
            piece.gaps, length, gauge=wire.gauge, notes=tuple(notes),
        )  # fmt: skip


def _pieces(mule: Mule, run: Run, wire: Wire) -> Iterator[_Piece]:
    own = _own_end(mule, run.end, "supply_lead")
    start: End | None = SCREW
    gaps: tuple[str, ...] = ()
    if wire.joints is None:
        start = _own_end(mule, run.start, "lead")
        yield _Piece("", start, own, (f"{run.wire}.joints",) if start is None or own is None else ())
        return
    built_on = _built_on(run)
    for place, joint in enumerate(wire.joints):
        near, path = _near(joint), f"{run.wire}.joints.{place}"
        lacks = tuple(f"{path}.{key}" for key in ("family", "battery_side") if getattr(joint, key) is None)
        if place >= built_on:
            yield _Piece(f".{place}", start, near.other if near is not None else None, (*gaps, *lacks))
        start, gaps = end_of(joint.mates_with or joint.family, joint.battery_side), lacks
        if joint.mates_with not in (None, joint.family):
            yield _Piece(f".{place}.adapter", near, start.other if start is not None else None, gaps, True)
    if _joining(run) and len(wire.joints) < built_on:
        start, gaps = None, (f"{run.wire}.joints",)
    is_own = start is not None and own is not None and start != SCREW and mates(own, start)
    suffix = f".{len(wire.joints)}" if len(wire.joints) > built_on else ""
    yield _Piece(suffix, start, own or SCREW, gaps, is_own=is_own)


def _near(joint: Joint) -> End | None:
    """The half of a connector that is towards the battery."""
    return end_of(joint.family, joint.battery_side)


def _joining(run: Run) -> list[str]:
    """The leads in a run that join packs."""
    return [item for item in run.through if item.startswith("y_lead.")]


def _built_on(run: Run) -> int:
    """How many connectors of a run are plugs of its pack, and of a lead that joins it to others."""
    return (1 + bool(_joining(run))) if run.start.startswith("battery.") else 0


def _own(mule: Mule, thing: str, key: str) -> OwnLead | None:
    table = mule.things.get(thing)
    found = getattr(table, key, None) if isinstance(table, Battery | Controller | Motor | Mixer) else None
    assert found is None or isinstance(found, OwnLead)
    return found


def _own_end(mule: Mule, thing: str, key: str) -> End | None:
    """The end of what is built onto a thing."""
    own = _own(mule, thing, key)
    return end_of(own.family, own.contacts) if own is not None else None


def _own_length(mule: Mule, thing: str, key: str) -> float:
    own = _own(mule, thing, key)
    return own.length.value if own is not None and own.length is not None else 0.0


def _packs(mule: Mule, wires: Harness) -> Iterator[Connection]:
    """Leads that join packs."""
    for name, lead in mule.file.y_lead.items():
        if lead.carries != "power":
            continue
        path = f"y_lead.{name}"
        packs = lead.joins or []
        runs = [run for run in mule.supply.runs if path in run.through]
        joints = [joint for run in runs for joint in getattr(mule.things[run.wire], "joints", None) or []]
        plugs = [_own_end(mule, pack, "lead") for pack in packs]
        end = plugs[0] if plugs and len({plug and plug.key for plug in plugs}) == 1 else None
        end = end or (_near(joints[0]) if joints else None)
        start = near.other if len(joints) > 1 and (near := _near(joints[1])) is not None else None
        said = [f"{run.wire}.joints" for run in runs] or [path]
        yield Connection(
            path, "power", tuple(one.number for one in wires.at(path) if one.path == path),
            runs[0].end if runs else "wire", ", ".join(packs) or path, start, end,
            tuple(said) if start is None or end is None else (), branches=max(2, len(packs)), joins=lead.kind,
        )  # fmt: skip


# --- motors


def _motors(mule: Mule, wires: Harness) -> Iterator[Connection]:
    wired = {run.end: run for run in mule.supply.runs}
    for name, controller in mule.file.controller.items():
        path = f"controller.{name}"
        for motor in as_list(controller.feeds):
            if motor in wired and wired[motor].start == path:
                continue  # its run says all that is known
            start, end = _own_end(mule, path, "motor_lead"), _own_end(mule, motor, "lead")
            unknown = [f"{path}.motor_lead"] * (start is None) + [f"{motor}.lead"] * (end is None)
            pins = [one for one in wires.at(motor) if one.path == path and one.kind == "motor"]
            yield Connection(
                f"{path}>{motor}", "motor", tuple(one.number for one in pins), path, motor, start, end,
                tuple(unknown), None, _own_length(mule, path, "motor_lead") + _own_length(mule, motor, "lead"),
                notes=("length not noted, own leads taken to reach",),
            )  # fmt: skip


# --- servo leads


def _signals(mule: Mule, wires: Harness) -> Iterator[Connection]:
    for wire in wires.conductors:
        if wire.kind in ("servo lead", "supply lead"):
            yield _signal(mule, wire)


def _signal(mule: Mule, wire: Conductor) -> Connection:
    thing, table = wire.start.thing, mule.things[wire.start.thing]
    kind: Kind = "supply lead" if wire.kind == "supply lead" else "servo lead"
    where = f"{wire.end.thing}.{wire.end.name}" if wire.end is not None else "?"
    found = Connection(
        wire.path, kind, (wire.number,), thing, where, PLUG, SOCKET, red=wire.red_pulled is not True, gauge=wire.area,
        own=default("lead_length").value, own_assumed=True,
    )  # fmt: skip
    if wire.end is None:
        found = replace(found, end=None, unknown=(f"{wire.path}.signal",))
    if isinstance(table, YLead):
        count = max(2, sum(wire.path in sockets for sockets in mule.signals.leads.values()))
        joins = "parallel" if kind == "servo lead" else None
        return replace(
            found, start_at=where, end_at=thing, start=found.end, end=PLUG, own=0.0,
            own_assumed=False, branches=count, joins=joins,
        )  # fmt: skip
    if isinstance(table, Lead):
        way = table.way_to_socket
        found = replace(found, way=way.value if way is not None else None)
        if table.lead_length is not None:
            found = replace(found, own=table.lead_length.value, own_assumed=False)
        return found
    if isinstance(table, Mixer | Battery):
        key = "input_lead" if isinstance(table, Mixer) else "lead"
        end = _own_end(mule, thing, key)
        gaps = () if end is not None else (f"{thing}.{key}",)
        return replace(
            found, start=end, unknown=(*found.unknown, *gaps), own=_own_length(mule, thing, key), own_assumed=False
        )  # fmt: skip
    if wire.end is not None and wire.end.name == "supply":
        return replace(found, end=None, notes=("how its supply gets into a servo lead is not noted",))
    return found
