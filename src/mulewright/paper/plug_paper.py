"""What is plugged where? Every socket with its plug, every motor lead and power terminal, to compare with."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mulewright.advice.spoken import listed, spoken
from mulewright.design.commands import Term, channel_terms, terms
from mulewright.design.harness import Conductor, Harness, Pin, harness
from mulewright.design.mule import Mule
from mulewright.design.references import outputs_of
from mulewright.design.schema.electrics import Lead
from mulewright.design.schema.radio import Receiver
from mulewright.design.signals import RECEIVERS
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import number
from mulewright.facts.plugs import PlannedPlugFacts
from mulewright.paper.blocks import TICK, Block, Grid, Paper, Width, Words
from mulewright.paper.places import SIGNS, place

Row = tuple[str, ...]
PLUGS = ("servo lead", "supply lead")
COLUMNS = ("socket", "wire", "plug of", "red wire", "way round", "commanded by", "seen")
WIDTHS: Sequence[Width] = ("fit", "fit", 1, "fit", "fit", 1.3, "fit")
EMPTY = "(empty)"
AT_ONCE, INSTEAD = " at once", ", but should be "
GROUND = (
    "Way round: the ground wire, black or brown as a rule, goes to the pin that the case marks as ground. "
    "Where nothing is marked, look it up before you plug."
)


def plug_paper(evaluation: Evaluation) -> Paper:
    """The map of all plugs, motor leads and power terminals."""
    mule = evaluation.mule
    wires = harness(mule)
    blocks = [*_receivers(evaluation, wires), *_boxes(evaluation, wires), *_loose(evaluation, wires)]
    if any(isinstance(block, Grid) for block in blocks):
        blocks.append(Words(GROUND, "small"))
    blocks += [*_motors(mule, wires), *_power(wires)]
    return Paper(
        "plugs",
        "Plug map",
        "What belongs where. Compare it with the machine, battery off, and tick what you saw.",
        blocks or [Words("No socket, no motor lead and no power terminal is described.")],
        folds=True,
    )


# --- sockets


def _receivers(evaluation: Evaluation, wires: Harness) -> Iterator[Block]:
    for receiver, radio in zip(RECEIVERS, ("radio", "second_radio"), strict=True):
        table = evaluation.mule.things.get(receiver)
        if not isinstance(table, Receiver):
            continue
        named = set(_used(wires, receiver))
        known = [str(number) for number in range(1, (table.channels or 0) + 1)]
        rows: list[Row] = []
        for socket in [*known, *sorted(named - set(known), key=_by_number)]:
            idle = channel_terms(evaluation.mule, radio, int(socket)) if socket.isdigit() else []
            rows += _socket(evaluation, wires, receiver, socket, socket, idle)
        part = f" {table.part}" if table.part else ""
        yield from _table(f"{spoken(receiver).capitalize()}{part}", rows)
        if table.channels is None:
            yield Words("How many sockets it has is not noted.", "small")


def _by_number(name: str) -> tuple[int, str]:
    return (int(name), "") if name.isdigit() else (1_000, name)


def _boxes(evaluation: Evaluation, wires: Harness) -> Iterator[Block]:
    rows: list[Row] = []
    for id, sockets in _sockets(evaluation.mule, wires):
        for socket in sockets:
            rows += _socket(evaluation, wires, id, socket, place(Pin(id, socket)), [])
    yield from _table("Boxes, testers and Y-leads", rows)
    fed = [id for id in evaluation.mule.things if id.startswith("servo.") and _into(wires, id)]
    rows = [
        row for id in fed for row in _socket(evaluation, wires, id, "supply", place(Pin(id, "supply")), [])
    ]
    yield from _table("Supplies of their own", rows)


def _sockets(mule: Mule, wires: Harness) -> Iterator[tuple[str, list[str]]]:
    """Every thing besides receivers that plugs go into, with the names of its sockets."""
    file = mule.file
    for name, mixer in file.mixer.items():
        yield f"mixer.{name}", outputs_of(mixer)
    for name in file.tester:
        id = f"tester.{name}"
        yield id, _used(wires, id) or ["out 1"]
    for name, lead in file.y_lead.items():
        if lead.carries != "power":
            id = f"y_lead.{name}"
            yield id, list(dict.fromkeys([*_used(wires, id), "leg 1", "leg 2"]))
    for name in file.inline:
        yield f"inline.{name}", ["out"]


def _used(wires: Harness, id: str) -> list[str]:
    return sorted(wire.end.name for wire in _into(wires, id) if wire.end is not None)


def _into(wires: Harness, id: str) -> list[Conductor]:
    return [wire for wire in wires.at(id) if wire.kind in PLUGS and wire.end and wire.end.thing == id]


def _socket(
    evaluation: Evaluation, wires: Harness, id: str, socket: str, name: str, idle: Sequence[Term]
) -> Iterator[Row]:
    """One row for each plug in a socket, or one that says that it is empty."""
    plugs = [wire for wire in _into(wires, id) if wire.end and wire.end.name == socket]
    for wire in plugs:
        yield (name, *_plug(evaluation, wire), TICK)
    if not plugs:
        yield (name, "", EMPTY, "", "", _commanded(evaluation.mule, idle), TICK)


def _plug(evaluation: Evaluation, wire: Conductor) -> Row:
    red = {True: "pulled", False: "in", None: "?"}[wire.red_pulled]
    return (
        str(wire.number),
        place(wire.start),
        red,
        _way_round(evaluation.mule, wire),
        _commands(evaluation, wire),
    )


def _way_round(mule: Mule, wire: Conductor) -> str:
    table = mule.things[wire.start.thing]
    said = table.plug if isinstance(table, Lead) else None
    if wire.ground_pulled:
        return "ground pulled"
    return "as marked" if said in (None, "as marked") else f"is {said}"


def _commands(evaluation: Evaluation, wire: Conductor) -> str:
    if wire.kind == "supply lead":
        return "supply only"
    mule = evaluation.mule
    sources = next((net.sources for net in mule.signals.nets.values() if wire.path in net.leads), ())
    if len(sources) > 1:
        return f"{listed(map(spoken, sources))}{AT_ONCE}"
    trace = mule.signals.trace(wire.path)
    if (trace.source or "").startswith("tester."):
        return "tester"
    moved_by = _commanded(mule, terms(mule, trace))
    return f"{moved_by}{_instead_of(evaluation, wire.path)}" if moved_by else "?"


def _instead_of(evaluation: Evaluation, lead: str) -> str:
    """The controls that it should follow, where none of them reaches it."""
    plug = next((one for one in PlannedPlugFacts.all(evaluation) if one.id == lead), None)
    if plug is None or number(plug.node("on_its_channel")) != 0:
        return ""
    return f"{INSTEAD}{', '.join(dict.fromkeys(control.rsplit('.', 1)[1] for control in plug.planned))}"


def _commanded(mule: Mule, moved_by: Sequence[Term]) -> str:
    """The controls that move something, with the functions that they command."""
    controls = dict.fromkeys(term.control for term in moved_by)
    functions = dict.fromkeys(name for control in controls for name in mule.commands_of.get(control, []))
    names = ", ".join(control.split(".control.", 1)[1] for control in controls)
    return f"{names}: {', '.join(functions)}" if functions else names


def _table(heading: str, rows: Sequence[Row]) -> Iterator[Block]:
    if rows:
        sockets = [row[0] for row in rows]
        odd = [
            place
            for place, row in enumerate(rows)
            if sockets.count(row[0]) > 1
            or row[4].startswith(("is", "ground"))
            or row[5].endswith(AT_ONCE)
            or INSTEAD in row[5]
        ]
        yield Words(heading, "heading")
        yield Grid(COLUMNS, rows, WIDTHS, strong=(0, 1), marked=odd)
        if len(set(sockets)) < len(sockets):
            yield Words("Two plugs are noted in one socket: it takes one.", "warning")


def _loose(evaluation: Evaluation, wires: Harness) -> Iterator[Block]:
    loose = [wire for wire in wires.conductors if wire.end is None]
    if loose:
        yield Words("Plugs of which nobody noted where they belong", "heading")
        rows = [("", *_plug(evaluation, wire)[:-1], "", TICK) for wire in loose]
        yield Grid(COLUMNS, rows, WIDTHS, strong=(0, 1))


# --- motor leads and power


def _motors(mule: Mule, wires: Harness) -> Iterator[Block]:
    leads = [wire for wire in wires.conductors if wire.kind == "motor"]
    rows = []
    for first, second in zip(leads[::2], leads[1::2], strict=True):
        assert first.end is not None
        swapped = mule.file.controller[first.path.split(".", 1)[1]].polarity or "?"
        rows.append(
            (spoken(first.start.thing), spoken(first.end.thing), _lead(first), _lead(second), swapped, TICK)
        )
    if rows:
        yield Words("Motor leads", "heading")
        columns = ("controller", "motor", "wire at A", "wire at B", "leads", "seen")
        yield Grid(columns, rows, (1, 1, "fit", "fit", "fit", "fit"), strong=(2, 3))


def _lead(wire: Conductor) -> str:
    """A wire at an output, with the terminal that it goes to; a second output of the kind is named."""
    assert wire.end is not None
    output = f"{wire.start.name}: " if len(wire.start.name) > 1 else ""
    return f"{output}{wire.number} to {SIGNS[wire.end.name] if wire.sure else '+ or −'}"


def _power(wires: Harness) -> Iterator[Block]:
    """A row for each pair of terminals, with the plus and the minus that join them."""
    pairs: dict[tuple[str, ...], dict[str, Conductor]] = {}
    for wire in wires.conductors:
        if wire.kind in ("plus", "minus"):
            pairs.setdefault(tuple(_terminals(pin) for pin in wire.pins), {})[wire.kind] = wire
    rows = []
    for ends, pair in pairs.items():
        areas = dict.fromkeys(wire.area.text if wire.area is not None else "?" for wire in pair.values())
        numbers = (str(pair[pole].number) if pole in pair else "–" for pole in ("plus", "minus"))
        rows.append((*ends, *numbers, ", ".join(areas), TICK))
    if rows:
        yield Words("Power terminals", "heading")
        columns = ("from", "to", "plus wire", "minus wire", "thickness", "seen")
        yield Grid(columns, rows, (1, 1, "fit", "fit", "fit", "fit"), strong=(2, 3))


def _terminals(pin: Pin) -> str:
    """The pair of terminals that a pin belongs to: ``+2`` and ``-2`` are pair 2."""
    if pin.name[:1] in SIGNS:
        return f"{spoken(pin.thing)} {pin.name[1:].strip()}".rstrip()
    return place(pin)
