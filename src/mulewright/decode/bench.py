"""What does the mule file say about a drive: which plugs, which channels, which reverses, at what cost to change?"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from mulewright.decode.fixing import CONTROL, LEADS
from mulewright.decode.wiring import Code, Wiring, right
from mulewright.design.commands import SIGNS
from mulewright.design.mule import Mule
from mulewright.design.pushes import PLACES, code, place_of, plugged_place
from mulewright.design.references import outputs_of
from mulewright.design.schema.radio import Channel
from mulewright.design.signals import INPUTS
from mulewright.errors import DesignError, NotFound
from mulewright.facts.directions import WheelMotorFacts
from mulewright.facts.graph import Evaluation
from mulewright.shelf.tables import default, group

RADIO, BOX, CONTROLLERS = "radio", "box", "controllers"
KINDS = "two-sides, two-sticks, four-roller-wheels or skid-steer"


@dataclass(frozen=True)
class Bench:
    """A drive as its mule file describes it."""

    code: Code
    mixing: str  # radio, box or controllers
    twice: bool  # whether the file says that radio and box both mix
    costs: dict[str, float]
    described: Wiring
    plugs: tuple[str, ...]  # the lead of each plug
    places: tuple[str, ...]  # the wheel or the side that the signal at each socket is meant for
    sockets: tuple[str | None, ...]  # where the plug of each place should sit, where the file says it
    ports: tuple[int | None, ...]  # the radio's channel behind each of the code's channels
    stick_ports: tuple[int | None, ...]  # the radio's channel that each command moves
    flags_noted: bool  # whether every reverse flag stands in the file

    @property
    def socket_names(self) -> dict[str, int]:
        """The place of each output by the names that people may type."""
        found = {f"out{place + 1}": place for place in range(len(self.sockets))}
        named = ((socket, place) for place, socket in enumerate(self.sockets) if socket is not None)
        return found | {socket.rsplit(".", 1)[-1].casefold(): place for socket, place in named}


def benches(mule: Mule, evaluation: Evaluation, mixed: Sequence[str], *, soldered: bool) -> list[Bench]:
    """A drive with its plugs as they can be moved together, then one by one where that is finer.

    Raises
    ------
    NotFound
        If nothing drives the mule, or its kind of drive is not noted.
    DesignError
        If no controller feeds a motor that turns a wheel.
    """
    drive, where = mule.file.drive, mule.loaded.where
    if drive is None:
        raise NotFound("nothing drives this mule over the floor", where, "a mule with a [drive]", "no drive")
    if drive.kind is None:
        raise NotFound("the kind of its drive is not noted", "drive.kind", KINDS, "no kind of drive")
    leads = [_lead_of(mule, wheel) for wheel in mule.wheels]
    if not any(leads):
        rule = "a [controller] that feeds the motor of each wheel"
        raise DesignError("no controller feeds a motor that turns a wheel", where, rule, "no controller")
    single = [lead or f"the lead of {wheel}" for lead, wheel in zip(leads, mule.wheels, strict=True)]
    joined = [_joined(mule, lead) for lead in single]
    found = [_bench(mule, evaluation, mixed, names, soldered) for names in (joined, single)]
    return found if joined != single else found[:1]


def _lead_of(mule: Mule, wheel: str) -> str | None:
    motors = mule.motors_turning(f"wheel.{wheel}")
    return next((mule.controller_of[motor] for motor in motors if motor in mule.controller_of), None)


def _joined(mule: Mule, lead: str) -> str:
    """The plug next to the source through which a lead gets its signal: a Y-lead's, or its own."""
    leads = (hop for hop in reversed(mule.signals.trace(lead).hops) if hop.startswith("y_lead."))
    return next(leads, lead)


def _bench(
    mule: Mule, evaluation: Evaluation, mixed: Sequence[str], leads: Sequence[str], soldered: bool
) -> Bench:
    mixing = BOX if BOX in mixed else mixed[0]
    plugs = tuple(dict.fromkeys(leads))
    behind = tuple(tuple(wheel for wheel, lead in enumerate(leads) if lead == plug) for plug in plugs)
    words = code(mule)
    rows = tuple(words[place_of(mule, wheel)] for wheel in mule.wheels)
    if any(len({rows[wheel] for wheel in wheels}) > 1 for wheels in behind):
        rule = "a plug of its own for each wheel that follows a signal of its own"
        raise DesignError("one plug is to feed wheels that need different signals", plugs[0], rule)
    places = tuple(place_of(mule, mule.wheels[wheels[0]]) for wheels in behind)
    sockets = _described_sockets(mule, plugs, places)
    ports = tuple(_port(mule, plugs[sockets.index(place)]) for place in range(len(plugs)))
    channels = _channels(ports, places)
    drive = Code(tuple(mule.wheels), tuple(mule.drive_commands), rows, behind, channels)
    sticks = tuple(_stick_port(mule, command) for command in mule.drive_commands)
    behind_mix = [ports[channels.index(channel)] for channel in range(drive.channel_count)]
    before = _reverses(mule, sticks) if mixing == BOX else _weights(mule, drive, mixing)
    after = [1] * drive.channel_count if mixing == BOX else _reverses(mule, behind_mix)
    described = Wiring(
        sockets,
        _inputs(mule, plugs, sticks) or right(drive).inputs,
        tuple(sign or 1 for sign in before),
        tuple(sign or 1 for sign in after),
        _lead_signs(mule, evaluation, drive),
    )
    return Bench(
        drive, mixing, len(mixed) > 1, _costs(mule, mixing, soldered), described, plugs,
        places,
        tuple(_socket(mule, place, plugs) for place in places), tuple(behind_mix), sticks,
        None not in (*before, *after),
    )  # fmt: skip


def _costs(mule: Mule, mixing: str, soldered: bool) -> dict[str, float]:
    """What each kind of change costs: as the file says, else as usual; a kind that cannot be made has none."""
    own = mule.file.decode
    joined = "soldered" if soldered or own.soldered else "plugged"
    usual = dict(group(f"fix_in_{mixing}")) | {LEADS: default(f"fix_leads.{joined}")}
    if mixing == RADIO and not _weights_noted(mule):
        del usual[CONTROL]  # a mix without weights to set is a fixed one
    said = {kind: own.cost.quantity(kind.replace("-", "_")) for kind in usual}
    return {kind: (said[kind] or cost).value for kind, cost in usual.items()}


def _channels(ports: Sequence[int | None], places: Sequence[str]) -> tuple[int, ...]:
    """Which sockets share a channel: those of one receiver port, or else of one side."""
    keys = [
        place if port is None else str(port) for port, place in zip(ports, places, strict=True)
    ]  # fmt: skip
    known = list(dict.fromkeys(keys))
    return tuple(known.index(key) for key in keys)


def _described_sockets(mule: Mule, plugs: Sequence[str], places: Sequence[str]) -> tuple[int, ...]:
    """The place at which each plug is said to sit; its own where that is not said."""
    said, free = [], list(range(len(places)))
    for plug, own in zip(plugs, places, strict=True):
        wanted = plugged_place(mule, plug) or own
        fitting = [place for place in free if places[place] == wanted]
        here = places.index(own) if wanted == own else None
        found = here if here in fitting else fitting[0] if fitting else None
        if found is None:
            return tuple(range(len(places)))
        said.append(found)
        free.remove(found)
    return tuple(said)


def _port(mule: Mule, plug: str) -> int | None:
    port = mule.signals.trace(plug).port
    return port[1] if port is not None else None


def _socket(mule: Mule, place: str, plugs: Iterable[str]) -> str | None:
    """The output of the box that is meant for a place."""
    for plug in plugs:
        trace = mule.signals.trace(plug)
        if trace.mixer is not None:
            mixer = mule.signals.mixer(trace.mixer[0])
            meant = dict(zip(PLACES.get(mixer.mixes or "", ()), outputs_of(mixer), strict=False))
            return f"{trace.mixer[0]}.{meant[place]}" if place in meant else None
    return None


def _stick_port(mule: Mule, command: str) -> int | None:
    for control in mule.controls_for(command):
        channel = getattr(mule.table(control), "channel", None)
        if channel is not None:
            return int(channel)
    return None


def _reverses(mule: Mule, ports: Iterable[int | None]) -> list[int | None]:
    """Signs of the channel reverses; none where the file does not say."""
    found: list[int | None] = []
    for port in ports:
        table = mule.table(f"radio.channel.{port}") if port is not None else None
        reverse = table.reverse if isinstance(table, Channel) else None
        found.append(None if reverse is None else -1 if reverse else 1)
    return found


def _weights(mule: Mule, drive: Code, mixing: str) -> list[int | None]:
    """Signs of the weights in the radio's mix."""
    mixes = [mix for mix in mule.file.radio.mix if mix.kind == "two-sides"] if mule.file.radio else []
    weights = {
        command: getattr(mix, f"{command}_weight", None)
        for mix in mixes
        if mix.active is not False and mixing == RADIO
        for command in SIGNS["two-sides"][0]
    }
    known = {command: weight.value for command, weight in weights.items() if weight is not None}
    return [-1 if known.get(command, 1) < 0 else 1 for command in drive.commands]


def _weights_noted(mule: Mule) -> bool:
    mixes = [mix for mix in mule.file.radio.mix if mix.kind == "two-sides"] if mule.file.radio else []
    return any(None not in (mix.forward_weight, mix.turn_weight) for mix in mixes)


def _inputs(mule: Mule, plugs: Sequence[str], sticks: Sequence[int | None]) -> tuple[int, ...] | None:
    """The input of a box at which each command is plugged; none where that is not all said."""
    boxes = (mule.signals.trace(plug).mixer for plug in plugs)
    box = next((mixer[0] for mixer in boxes if mixer is not None), None)
    if box is None or None in sticks:
        return None
    ports = [_port(mule, f"{box}.{side}") for side in INPUTS if side in mule.drive_commands]
    if sorted(map(str, ports)) != sorted(map(str, sticks)) or len({*ports}) < len(ports):
        return None
    return tuple(ports.index(port) for port in sticks)


def _lead_signs(mule: Mule, evaluation: Evaluation, drive: Code) -> tuple[int, ...]:
    """Signs of everything behind each plug: leads, mount and gears; plus where that is not all said."""
    found = []
    for wheel in drive.wheels:
        motors = [motor for motor in mule.motors_turning(f"wheel.{wheel}") if motor in mule.controller_of]
        node = evaluation.entity(WheelMotorFacts, motors[0]).node("own") if motors else None
        found.append(int(node.value) if node is not None and node.known else 1)
    return tuple(found)
