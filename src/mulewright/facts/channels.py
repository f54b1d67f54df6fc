"""Facts about channels: how many the functions need, how many there are, and what a radio's mix adds to each."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Self

from mulewright.design.commands import Term
from mulewright.design.reads import kept
from mulewright.design.schema.electrics import Servo
from mulewright.design.schema.machine import FOUR_WHEELS
from mulewright.facts.boxes import RADIO_OF
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import OutputFacts
from mulewright.facts.plugs import PlannedPlugFacts
from mulewright.models.arithmetic import difference, smallest
from mulewright.models.bus import total

PAIRED_ON_A_SWITCH = 3  # positions with which one switch turns two things on, one at each end


class NeededFacts(Facts):
    """The channels that a function needs by itself; ``drive`` stands for all of the drive."""

    kind = "function that a transmitter commands"
    none = "nothing is commanded by a transmitter"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        made = [evaluation.entity(cls, id) for id in dict.fromkeys(evaluation.mule.functions.values())]
        return [one for one in made if one.devices]

    @kept
    def devices(self) -> list[str]:
        """Controllers and servos that serve it and do not hang on a tester."""
        mule = self.mule
        controllers = (mule.controller_of[motor] for motor in self.motors if motor in mule.controller_of)
        servos = [self.id] if self.id.startswith("servo.") else mule.servos_moving.get(self.id, [])
        found = dict.fromkeys([*controllers, *servos])
        return [one for one in found if not (mule.signals.trace(one).source or "").startswith("tester.")]

    @property
    def motors(self) -> list[str]:
        """Motors that serve it."""
        if self.id == "drive":
            return self.mule.motors_serving.get("drive", [])
        return [self.id] if self.id.startswith("motor.") else self.mule.motors_turning(self.id)

    @property
    def _drive_needs(self) -> tuple[int, str]:
        boxed = any(self.mule.signals.trace(one).mixer is not None for one in self.devices)
        if boxed:
            commands = self.mule.drive_commands
            return len(commands), f"{', '.join(commands)} into a box"
        four = self.mule.wheels == FOUR_WHEELS and getattr(self.mule.file.drive, "kind", "") != "skid-steer"
        return (4, "one for each wheel") if four else (2, "one for each side")

    @property
    def _mechanism_needs(self) -> tuple[int, str]:
        servos = [one for one in self.devices if one.startswith("servo.")]
        senses = {self._sense(one) for one in servos}
        motors = len(servos) < len(self.devices)
        words = [
            *(["one for its motors"] if motors else []),
            *(f"one for servos {how}" for how in sorted(senses)),
        ]
        return len(words), " and ".join(words)

    def _sense(self, servo: str) -> str:
        table = self.mule.things[servo]
        turned = sum(
            one.does == "reverses" for one in self.mule.signals.inlines(self.mule.signals.trace(servo))
        )
        mirrored = isinstance(table, Servo) and bool(table.mirrored)
        return "that are mirrored" if mirrored != bool(turned % 2) else "that turn alike"

    @fact("1", "channels that it needs, with Y-leads wherever two devices may do the same")
    def channels(self) -> Value:
        count, words = self._drive_needs if self.id == "drive" else self._mechanism_needs
        return self.found(count, f"{self.id}: {words}")


class SupplyOfChannelsFacts(Facts):
    """The channels that a transmitter and its receiver have in common: ``radio``."""

    kind = "transmitter with its receiver"
    none = "no transmitter is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, one) for one in RADIO_OF.values() if one in evaluation.mule.things]

    @property
    def receiver(self) -> str:
        """Its receiver."""
        return next(receiver for receiver, radio in RADIO_OF.items() if radio == self.id)

    def _count(self, thing: str) -> Value:
        channels = getattr(self.mule.things.get(thing), "channels", None)
        if channels is None:
            raise Missing(f"{thing}.channels")
        return self.found(channels, f"{thing} has {channels}")

    @fact("1", "channels that the transmitter sends")
    def sent(self) -> Value:
        return self._count(self.id)

    @fact("1", "sockets of its receiver")
    def sockets(self) -> Value:
        return self._count(self.receiver)

    @fact("1", "channels that come out of its receiver")
    def channels(self) -> Value:
        return self.by(smallest, values=[self.sent, self.sockets])


class ChannelPlanFacts(Facts):
    """All channels that the functions need, against all that there are: ``radio``."""

    kind = "plan of the channels"
    none = SupplyOfChannelsFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        radios = SupplyOfChannelsFacts.all(evaluation)
        return [evaluation.entity(cls, "radio")] if radios and NeededFacts.all(evaluation) else []

    @fact("1", "channels that there are, of both transmitters where there are two")
    def available(self) -> Value:
        return self.by(total, values=[one.channels for one in SupplyOfChannelsFacts.all(self.evaluation)])

    @fact("1", "channels that all functions need, each by itself")
    def alone(self) -> Value:
        return self.by(total, values=[one.channels for one in NeededFacts.all(self.evaluation)])

    def _together(self) -> Iterator[tuple[str, list[str]]]:
        """Controls to which the plan gives several functions besides the drive."""
        for control, names in self.mule.commands_of.items():
            served = dict.fromkeys(self.mule.functions.get(name, "") for name in names)
            several = [one for one in served if one not in ("", "drive")]
            if len(several) > 1:
                yield control, several

    @property
    def _switches(self) -> list[str]:
        radios = (one for one in ("radio", "second_radio") if one in self.mule.things)
        return [
            f"{radio}.control.{name}"
            for radio in radios
            for name, control in getattr(self.mule.file, radio).control.items()
            if control.position_count is not None and control.position_count.value == PAIRED_ON_A_SWITCH
        ]

    @property
    def _one_way(self) -> list[str]:
        """Functions that are only switched on and off."""
        motor = self.mule.file.motor
        runs = {one.id: {motor[name.split(".", 1)[1]].runs for name in one.motors} for one in self._needs}
        return [id for id, ways in runs.items() if ways == {"one-way"}]

    @property
    def _needs(self) -> Sequence[NeededFacts]:
        return NeededFacts.all(self.evaluation)

    @fact("1", "channels that are saved because one control commands several functions, or could")
    def shared(self) -> Value:
        together = list(self._together())
        saved = sum(len(functions) - 1 for _, functions in together)
        busy = {one for control, functions in together for one in (control, *functions)}
        free = [switch for switch in self._switches if switch not in busy]
        pairs = min(len(free), len([one for one in self._one_way if one not in busy]) // 2)
        return self.found(
            saved + pairs, f"{saved} shared in the plan, {pairs} more that one switch could share"
        )

    @fact("1", "channels that are needed after everything that may share one does")
    def needed(self) -> Value:
        return self.by(difference, first=self.alone, second=self.shared)

    @property
    def in_words(self) -> str:
        """What each function needs, for people."""
        return ", ".join(f"{one.id} {int(one.channels)}" for one in self._needs)


class MixedInFacts(Facts):
    """A device whose function a control commands, and the radio's mixes on its channel."""

    kind = PlannedPlugFacts.kind
    none = PlannedPlugFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, one.id) for one in PlannedPlugFacts.all(evaluation)]

    @property
    def plug(self) -> PlannedPlugFacts:
        """Where it is plugged, and which controls the plan gives it."""
        return self.of(PlannedPlugFacts, self.id)

    @kept
    def strangers(self) -> list[Term]:
        """Parts of its signal that a radio's mix adds for controls that command something else.

        Raises
        ------
        Missing
            If it is not said where it is plugged, or whether such a mix is on.
        """
        if self.plug.plug.socket is None:
            return []
        planned = self.plug.planned
        found = []
        for term in self.of(OutputFacts, self.id).terms:
            mixes = [box for box in term.boxes if ".mix." in box]
            if mixes and term.control not in planned:
                unsure = [mix for mix in mixes if getattr(self.mule.table(mix), "active", None) is None]
                if unsure:
                    raise Missing(*(f"{mix}.active" for mix in unsure))
                found.append(term)
        return found

    @property
    def in_words(self) -> str:
        """Which controls a mix adds, for people."""
        if not self.strangers:
            return "no radio mix adds another control to it"
        added = dict.fromkeys(term.control.rsplit(".", 1)[1] for term in self.strangers)
        mixes = dict.fromkeys(box for term in self.strangers for box in term.boxes if ".mix." in box)
        return f"{' and '.join(mixes)} adds {' and '.join(added)} to it"

    @fact("1", "1 where a radio's mix adds a control that commands something else")
    def mixed_in(self) -> Value:
        return self.found(bool(self.strangers), self.in_words)
