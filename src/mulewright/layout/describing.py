"""What of a mule file matters to a layout: its functions, controls and channels, and what is not said of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from itertools import pairwise
from typing import Any

from mulewright.design.characters import character
from mulewright.design.mule import Mule
from mulewright.design.references import MOST_CHANNELS
from mulewright.design.schema.functions import Gripper, Held
from mulewright.design.schema.radio import Control as Table
from mulewright.design.schema.radio import Radio, Receiver
from mulewright.errors import DesignError, NotFound, closest
from mulewright.facts.channels import NeededFacts
from mulewright.facts.graph import Evaluation
from mulewright.layout.joining import joined
from mulewright.layout.leads import box_lead, channel_at, lead_groups, plugged, wheel_controllers
from mulewright.layout.problem import RECEIVER_OF, Channel, Control, Function, Kind, Pair, Problem, Seat
from mulewright.shelf.tables import group

AXES: Mapping[str, Any] = {"forward": "vertical", "strafe": "horizontal", "turn": "horizontal"}
SIDES: Mapping[str, Any] = {"left": "left", "right": "right"}


def describe(evaluation: Evaluation) -> Problem:
    """Read off a mule what has to be laid out.

    Parameters
    ----------
    evaluation : Evaluation
        The mule.

    Returns
    -------
    problem : Problem
        Its functions, controls and channels, the layout that it has, and notes of what is not said.

    Raises
    ------
    MulewrightError
        If it has no transmitter, no controls or no functions, or if a cost is not known.
    """
    return _Reading(evaluation).problem()


class _Reading:
    """One pass over a mule."""

    def __init__(self, evaluation: Evaluation) -> None:
        self.evaluation = evaluation
        self.mule: Mule = evaluation.mule
        file = self.mule.file
        self.radios: dict[str, Radio] = {
            name: radio for name in RECEIVER_OF if (radio := getattr(file, name)) is not None
        }
        self.notes: list[str] = []
        if not self.radios:
            rule = "a table [radio] with a part of the shelf, or with its own controls"
            raise DesignError("no transmitter is described, so there is nothing to lay out", "radio", rule)

    def problem(self) -> Problem:
        self.taken = dict(self._taken())
        usable = [one for name in self.radios for one in self._channels(name)]
        controls = [one for name in self.radios for one in self._controls(name, usable)]
        if not controls:
            rule = "kind and channel of each stick axis, switch and knob, or a part of the shelf"
            raise DesignError("the transmitter has no controls", "radio.control", rule)
        functions = [*self._drive(), *self._others()]
        if not functions:
            rule = "a drive with its kind, a mechanism, or a motor or servo of its own"
            raise DesignError("there is no function to lay out", "drive", rule)
        problem = Problem(
            tuple(functions), tuple(controls), tuple(one for one in usable if one not in self.taken),
            costs_of(self.mule), frozenset(self._protected(usable)), self.taken,
            tuple(self._pairs(functions)), dict(self._present(functions, controls)),
            plugged(self.mule, functions), (),
        )  # fmt: skip
        noted = self._kept(replace(problem, notes=tuple(dict.fromkeys(self.notes))))
        return _on_one_lead(self._shared(noted))

    # --- channels and controls -----------------------------------------------------------------------------------

    def _channels(self, radio: str) -> Iterator[Channel]:
        receiver = getattr(self.mule.file, RECEIVER_OF[radio])
        known = {name: getattr(table, "channels", None) for name, table in ((radio, self.radios[radio]),
                 (RECEIVER_OF[radio], receiver))}  # fmt: skip
        self.notes += [f"{name}.channels is not said" for name, count in known.items() if count is None]
        count = min((count for count in known.values() if count is not None), default=MOST_CHANNELS)
        yield from (Channel(radio, number) for number in range(1, count + 1))

    def _protected(self, channels: Iterable[Channel]) -> Iterator[Channel]:
        for radio, name in RECEIVER_OF.items():
            receiver: Receiver | None = getattr(self.mule.file, name)
            protects = receiver.protects if receiver is not None else None
            if radio in self.radios and protects is None:
                self.notes.append(f"{name}.protects is not said: taken as no preset on any channel")
            own = (one for one in channels if one.radio == radio)
            yield from (one for one in own if protects == "all" or one.number in (protects or ()))

    def _taken(self) -> Iterator[tuple[Channel, str]]:
        """Channels on which no function may sit: mixes drive them, or supplies sit in their sockets."""
        for radio, table in self.radios.items():
            for number, mix in enumerate(table.mix):
                if mix.active is not False:
                    how = f"{radio}.mix.{number} moves it"
                    yield from ((Channel(radio, channel), how) for channel in mix.channels or ())
            for socket, plugs in self.mule.signals.in_socket.items():
                supplies = [plug for plug in plugs if plug.split(".", 1)[0] in ("regulator", "battery")]
                receiver, _, place = socket.partition(".")
                if supplies and receiver == RECEIVER_OF[radio] and place.isdigit():
                    yield Channel(radio, int(place)), f"{supplies[0]} sits in its socket"

    def _controls(self, radio: str, usable: list[Channel]) -> Iterator[Control]:
        table = self.radios[radio]
        covers = table.rate.covers if table.rate.covers is not None else table.rate_covers
        if covers is None:
            self.notes.append(f"{radio}.rate.covers is not said: taken as reaching nothing")
        mixed = {name for mix in self._drive_mixes(radio) for name in mix.inputs or ()}
        for name, control in table.control.items():
            id = f"{radio}.control.{name}"
            channels = self._reach(id, radio, control, usable)
            if control.kind is None:
                self.notes.append(f"{id}.kind is not said: left out")
            elif channels:
                yield Control(
                    id, "knob" if control.kind == "slider" else control.kind, channels, control.axis,
                    control.gimbal, self._spring(id, control), self._positions(id, control),
                    name in (covers or ()), name in mixed,
                )  # fmt: skip

    def _reach(self, id: str, radio: str, control: Table, usable: list[Channel]) -> tuple[Channel, ...]:
        own = [Channel(radio, control.channel)] if control.channel is not None else []
        further = [
            one
            for one in usable
            if one.radio == radio and (control.channels == "any" or one.number in (control.channels or ()))
        ]
        found = tuple(dict.fromkeys(one for one in [*own, *further] if one in usable))
        if not own and not further:
            self.notes.append(f"{id}.channel is not said: left out")
        elif not found:
            self.notes.append(f"{id} moves channel {control.channel}, which does not come out: left out")
        return found

    def _spring(self, id: str, control: Table) -> Any:
        if control.conversion == "fitted":
            return "converted"
        if control.kind == "stick" and control.sprung is None:
            self.notes.append(f"{id}.sprung is not said: taken as no spring")
        return "sprung" if control.sprung else "none"

    def _positions(self, id: str, control: Table) -> int:
        if control.kind == "switch" and control.position_count is None:
            self.notes.append(f"{id}.position_count is not said: taken as two")
        return int(control.position_count.value) if control.position_count is not None else 2

    # --- functions -----------------------------------------------------------------------------------------------

    def _drive_mixes(self, radio: str) -> list[Any]:
        commands = self.mule.drive_commands
        mixes = [one for one in self.radios[radio].mix if one.kind == "two-sides" and one.active is not False]
        return mixes if {"forward", "turn"} <= set(commands) else []

    def _drive(self) -> Iterator[Function]:
        mixes = [(radio, mix) for radio in self.radios for mix in self._drive_mixes(radio)]
        wants_slow = any(
            table.rate.switch is not None or table.rate.slow is not None for table in self.radios.values()
        )
        boxes = self._boxes()
        for name in self.mule.drive_commands:
            side = name.rsplit("_", 1)[-1]
            one = Function(
                name, names=(name,), drive=True, axis=AXES.get(name, "vertical"), side=SIDES.get(side),
                wants_slow=wants_slow,
            )  # fmt: skip
            if mixes and name in ("forward", "turn"):
                radio, mix = mixes[0]
                outputs = tuple(Channel(radio, number) for number in mix.channels or ())
                yield replace(one, needs="control", outputs=outputs)
            elif boxes:
                yield replace(one, leads=tuple(box_lead(self.mule, box, name) for box in boxes))
            else:
                yield from self._with_leads(one, wheel_controllers(self.mule, name))

    def _boxes(self) -> list[str]:
        traces = [self.mule.signals.trace(one) for one in wheel_controllers(self.mule)]
        return list(dict.fromkeys(trace.mixer[0] for trace in traces if trace.mixer is not None))

    def _others(self) -> Iterator[Function]:
        needed = {one.id: one for one in NeededFacts.all(self.evaluation)}
        for name, id in self.mule.functions.items():
            if id == "drive":
                continue
            if id not in needed and not self.mule.controls_for(name):
                self.notes.append(f"{id} hangs on no controller, servo or transmitter: left out")
                continue
            thing = self.mule.things[id]
            kind = self._kind(name, id)
            one = Function(
                name, kind, (name,), kind in ("speed", "constant"), held=isinstance(thing, Held),
                axis="vertical" if isinstance(thing, Held) else None,
                wants_slow=bool(getattr(thing, "slow_mode", None)),
            )  # fmt: skip
            if getattr(thing, "slow_mode", None) is None:
                self.notes.append(f"{id}.slow_mode is not said: taken as not wanted")
            yield from self._with_leads(one, needed[id].devices if id in needed else [])

    def _kind(self, name: str, id: str) -> Kind:
        found = character(self.mule, name)
        return "two-state" if found == "position" and isinstance(self.mule.things[id], Gripper) else found

    def _with_leads(self, function: Function, devices: list[str]) -> Iterator[Function]:
        """The function with its plug; what has a channel of its own beside it follows it by a mix of the radio."""
        groups = lead_groups(self.mule, function, devices)
        yield replace(function, leads=groups[0].leads if groups else ())
        for number, lead in enumerate(groups[1:], 2):
            slave = lead.channel if lead.channel in self.taken else None
            yield Function(
                f"{function.name}, lead {number}", function.kind, (), function.motor, function.drive,
                needs="channel", follows=function.name, leads=lead.leads, at=slave,
            )  # fmt: skip

    def _pairs(self, functions: list[Function]) -> Iterator[Pair]:
        names = {one.name for one in functions}
        if {"forward", "strafe"} <= names:
            yield Pair("forward", "strafe", "apart")
        for one in functions:
            if one.held:
                yield from (Pair(one.name, other, "arm with turn") for other in {"turn"} & names)
                ahead = [name for name in ("forward", *SIDES) if name in names]
                yield from (Pair(one.name, other, "arm with forward") for other in ahead)
            if one.follows:
                yield Pair(one.follows, one.name, "same lead")
        together = {
            frozenset((name, other))
            for name, id in self.mule.functions.items()
            if id != "drive"
            for other in getattr(self.mule.things[id], "used_with", None) or ()
            if name != other and {name, other} <= names
        }
        yield from (Pair(first, second, "together") for first, second in sorted(map(sorted, together)))
        order = [one.name for one in functions if one.drive and one.leads] if self._boxes() else []
        yield from (Pair(first, second, "box order") for first, second in pairwise(order))

    # --- as it is, and as it is wished ---------------------------------------------------------------------------

    def _present(self, functions: list[Function], controls: list[Control]) -> Iterator[tuple[str, Seat]]:
        known = {one.id for one in controls}
        for function in functions:
            if not function.wants_control:
                sits = plugged(self.mule, [function]).values()
                at = next((one for socket in sits if (one := channel_at(socket or ""))), None)
                if at is not None:
                    yield function.name, Seat(None, at)
                continue
            held = [one for one in self.mule.controls_for(function.name) if one in known]
            if held:
                radio, _, name = held[0].partition(".control.")
                number = self.radios[radio].control[name].channel
                channel = Channel(radio, number) if number is not None and function.wants_channel else None
                yield function.name, Seat(held[0], channel)

    def _shared(self, problem: Problem) -> Problem:
        """Functions besides the drive to which the file gives one control stay together."""
        for control, names in self.mule.commands_of.items():
            free = {one.name for one in problem.functions if not one.drive}
            several = [name for name in names if name in free and _control(problem, name) == control]
            if len(several) > 1:
                problem = joined(problem, several)
        return problem

    def _kept(self, problem: Problem) -> Problem:
        """What the file wants on a certain control may sit nowhere else."""
        keep = self.mule.file.layout.keep
        functions = list(problem.functions)
        names = [one.name for one in functions if one.wants_control]
        for name, wanted in keep.items():
            where = f"layout.keep.{name}"
            if name not in names:
                raise NotFound(
                    f"no function is called {name!r}",
                    where,
                    f"one of {', '.join(names)}",
                    name,
                    closest(name, names),
                )
            fits = [one.id for one in problem.controls if wanted in (one.id, one.id.rsplit(".", 1)[1])]
            if not fits:
                known = [one.id.rsplit(".", 1)[1] for one in problem.controls]
                raise NotFound(
                    f"no control is called {wanted!r}",
                    where,
                    f"one of {', '.join(known)}",
                    wanted,
                    closest(wanted, known),
                )
            place = next(number for number, one in enumerate(functions) if one.name == name)
            functions[place] = replace(functions[place], only=frozenset(fits))
        return replace(problem, functions=tuple(functions))


def _on_one_lead(problem: Problem) -> Problem:
    """Functions that one Y-lead joins get the same pulses, so they stay together."""
    by_lead: dict[str, list[str]] = {}
    for one in problem.functions:
        for lead in one.leads if not (one.drive or one.follows) else ():
            by_lead.setdefault(lead, []).append(one.name)
    for names in by_lead.values():
        there = {one.name for one in problem.functions}
        together = [name for name in names if name in there]
        if len(together) > 1:
            problem = joined(problem, together)
    return problem


def _control(problem: Problem, name: str) -> str | None:
    seat = problem.present.get(name)
    return seat.control if seat is not None else None


def costs_of(mule: Mule) -> dict[str, float]:
    """What each thing costs: as on the shelf, or as the mule file says.

    Raises
    ------
    NotFound
        If the file names a cost that there is not.
    """
    tables = ("layout_cost", "layout_packing")
    known = {name: quantity.value for table in tables for name, quantity in group(table).items()}
    own = mule.file.layout.cost
    for name in own:
        if name not in known:
            rule = "one of the costs of the table of assumptions, such as speed_unsprung"
            raise NotFound(
                f"no cost is called {name!r}", f"layout.cost.{name}", rule, name, closest(name, known)
            )
    return known | {name: quantity.value for name, quantity in own.items()}
