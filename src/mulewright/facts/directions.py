"""Facts about which way each wheel turns, and whose signal it gets: as described, or as the pushes showed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.pushes import Part, code, newest, place_of, plugged_place, seen
from mulewright.design.reads import kept
from mulewright.design.schema.electrics import Mixer, Motor
from mulewright.design.signals import RECEIVERS
from mulewright.design.unsaid import FEEDS
from mulewright.facts.controls import ChannelFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.fail_safe import sources
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import OutputFacts, TermFacts
from mulewright.models.arithmetic import largest, product, smallest
from mulewright.models.bus import total
from mulewright.models.senses import chain_product, relative_sense, turned_round, worst_sense

SAME_WAY = ("chain", "belt")  # both wheels of such a stage turn the same way


class PartSenseFacts(Facts):
    """The sense of one control's part in a wheel's signal: ``controller.left@radio.control.RV@0``."""

    kind = "sense of a part of a command"
    none = "no wheel is commanded"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        self.part = self.of(TermFacts, id)
        commands = self.mule.commands_of.get(self.part.term.control, [])
        self.commands = [name for name in commands if name in self.mule.drive_commands]

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        ids = (part.id for motor in WheelMotorFacts.all(evaluation) for part in motor.parts)
        return [evaluation.entity(cls, id) for id in dict.fromkeys(ids)]

    @fact("s", "pulse from neutral for a full push, with the channel's reverse")
    def turned(self) -> Value:
        reverse = self.of(ChannelFacts, self.part.term.channel).sense
        return self.by(product, first=self.part.upward, second=reverse)

    @fact("1", "sign that the part is meant to have there: 1 or -1")
    def meant(self) -> Value:
        term = self.part.term
        name = term.control.rsplit(".", 1)[1]
        if any(self._sums(box) for box in term.boxes):
            return self.found(
                term.sign, f"what mixes on the way {'adds' if term.sign > 0 else 'takes off'} {name}"
            )
        wheel = WheelMotorFacts.first_on(self.evaluation, self.part.device)
        sign = next((wheel.word.get(command, 0) for command in self.commands), 0) or 1
        return self.found(sign, f"{wheel.wheel} {'adds' if sign > 0 else 'takes off'} {name}")

    def _sums(self, box: str) -> bool:
        table = self.mule.table(box)
        return isinstance(table, Mixer) or getattr(table, "kind", None) == "two-sides"

    @fact("1", "1 where it comes out as meant, -1 where a weight, a device or a reverse turns it round")
    def sense(self) -> Value:
        return self.by(relative_sense, value=self.turned, wanted=self.meant, nothing=0.0)


class WheelCommandFacts(Facts):
    """All that one command of the drive does to one wheel: ``motor.left@forward``."""

    kind = "command at a wheel"
    none = "no motor turns a wheel"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        motor, self.command = id.split("@")
        self.motor = self.of(WheelMotorFacts, motor)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        commands = [one.id for motor in WheelMotorFacts.all(evaluation) for one in motor.commands]
        return [evaluation.entity(cls, id) for id in commands]

    @property
    def parts(self) -> list[PartSenseFacts]:
        """Its parts in the wheel's signal."""
        return [part for part in self.motor.parts if self.command in part.commands]

    @fact("s", "pulse from neutral for a full push of the command, everything added up")
    def pulse(self) -> Value:
        return self.by(total, values=[part.turned for part in self.parts])

    @fact("s", "the same pulse as the wheel feels it: turned by leads, mount and gears")
    def felt(self) -> Value:
        return self.by(product, first=self.pulse, second=self.motor.own)

    @fact("1", "1 where that is the way that the wheel should turn, else -1")
    def sense(self) -> Value:
        if not sum(part.part.term.sign for part in self.parts):
            return self.found(-1, f"no part of {self.command} reaches the wheel, or two that cancel")
        wanted = float(self.motor.word[self.command])
        return self.by(relative_sense, value=self.felt, wanted=wanted, nothing=-1.0)


class WheelMotorFacts(Facts):
    """A motor that turns a wheel."""

    kind = "wheel motor"
    none = "no motor turns a wheel"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        motors = evaluation.mule.file.motor.items()
        return [
            evaluation.entity(cls, f"motor.{name}")
            for name, motor in motors
            if (motor.turns or "").startswith("wheel.")
        ]

    @classmethod
    def first_on(cls, evaluation: Evaluation, controller: str) -> Self:
        """The first wheel motor on a controller."""
        motors = evaluation.mule.motors_of(controller)
        turning = [motor for motor in motors if evaluation.mule.function_of(motor) == "drive"]
        return evaluation.entity(cls, turning[0])

    @property
    def motor(self) -> Motor:
        """Its table."""
        assert isinstance(self.table, Motor)
        return self.table

    @property
    def wheel(self) -> str:
        """The wheel that it turns."""
        return (self.motor.turns or "").removeprefix("wheel.")

    @property
    def place(self) -> str:
        """Its place in the drive: the wheel, or the side."""
        return place_of(self.mule, self.wheel)

    @kept
    def word(self) -> dict[str, int]:
        """The sign that each command should have at the wheel, for those that it should follow."""
        signs = code(self.mule)[self.place]
        return {command: sign for command, sign in zip(self.mule.drive_commands, signs, strict=True) if sign}

    @property
    def controller(self) -> str:
        """The controller that feeds it."""
        controller = self.mule.controller_of.get(self.id)
        if controller is None:
            raise self.missing(f"a controller that feeds {self.id}", FEEDS)
        return controller

    def require_signal(self) -> None:
        """Let nothing be said about its way round while a part of its signal is not known.

        Raises
        ------
        Missing
            If it is not said where its plug, or a plug of the box before it, sits.
        """
        starts = sources(self.mule, self.controller)
        unknown = [start for start in starts if not start.startswith((*RECEIVERS, "tester."))]
        if unknown or not self.of(OutputFacts, self.controller).terms:
            raise Missing(*unknown or [f"{self.controller}.signal"])

    @property
    def parts(self) -> list[PartSenseFacts]:
        """The parts of its signal that come from the drive's own controls."""
        controller = self.mule.controller_of.get(self.id)
        if controller is None:
            return []
        parts = [self.of(PartSenseFacts, part.id) for part in self.of(OutputFacts, controller).parts]
        return [part for part in parts if part.commands]

    @property
    def commands(self) -> list[WheelCommandFacts]:
        """The commands that it should follow."""
        return [self.of(WheelCommandFacts, f"{self.id}@{command}") for command in self.word]

    @property
    def polarity(self) -> str:
        """How its leads are joined to the controller."""
        polarity: str | None = getattr(self.mule.things[self.controller], "polarity", None)
        if polarity is None:
            raise Missing(f"{self.controller}.polarity")
        return polarity

    # --- as described ---------------------------------------------------------------------------------------

    @fact("1", "-1 where the motor leads are swapped, else 1")
    def leads(self) -> Value:
        swapped = self.polarity == "swapped"
        return self.found(-1 if swapped else 1, f"the leads at {self.controller} are {self.polarity}")

    @fact("1", "-1 where it is mounted mirror-wise, else 1")
    def mount(self) -> Value:
        mirrored = self.motor.mirrored
        if mirrored is not None:
            return self.found(-1 if mirrored else 1, f"it is {'mirrored' if mirrored else 'not mirrored'}")
        others = [motor.motor.mirrored for motor in type(self).all(self.evaluation)]
        if all(other is None for other in others):
            raise Missing(f"{self.id}.mirrored")
        return self.found(1, "its twin's mount was compared with this one")

    @fact("1", "-1 where the gear stages turn the motion round, else 1")
    def gears(self) -> Value:
        reversing = 0
        for place, stage in enumerate(self.motor.gears or []):
            if stage.reverses is None and stage.kind not in SAME_WAY:
                raise Missing(f"{self.id}.gears.{place}.reverses")
            reversing += bool(stage.reverses)
        return self.found((-1) ** reversing, f"{reversing} gear stages turn the motion round")

    @fact("1", "sense of everything behind the controller: leads, mount and gears")
    def own(self) -> Value:
        return self.by(chain_product, factors=[self.leads, self.mount, self.gears])

    @fact(
        "1", "1 where each part of its signal, its leads, its mount and its gears together turn it as meant"
    )
    def link_by_link(self) -> Value:
        self.require_signal()
        if not self.parts:
            return self.own
        return self.by(worst_sense, own=self.own, senses=[part.sense for part in self.parts])

    @fact("1", "1 where all together it follows every command the right way, whatever happens on the way")
    def all_in_all(self) -> Value:
        self.require_signal()
        return self.by(smallest, values=[command.sense for command in self.commands])

    # --- as seen, or as described ---------------------------------------------------------------------------

    @property
    def seen(self) -> Part | None:
        """The part that it was last seen to play, where somebody pushed and noted the signs."""
        found = newest(self.mule, self.wheel)
        if found is not None and found[1].order is None:
            raise Missing(f"{found[0]}.order")
        return seen(self.mule, self.wheel)

    @property
    def evidence(self) -> str:
        """What is known about it, in words."""
        found = newest(self.mule, self.wheel)
        if self.seen is None or found is None:
            mount = {True: "mirrored", False: "not mirrored", None: "mounted as its twin"}[
                self.motor.mirrored
            ]
            reverse = ", a channel reversed" if self._reverses() else ""
            return f"as described (leads {self.polarity}, {mount}{reverse})"
        name, pushes = found
        return f"as the pushes showed ({name.replace('_', ' ')}: {pushes.wheels[self.wheel]})"

    def _reverses(self) -> bool:
        channels = (self.of(ChannelFacts, part.part.term.channel).table for part in self.parts)
        return any(getattr(channel, "reverse", None) for channel in channels)

    @property
    def plugged(self) -> str | None:
        """The place whose signal it gets; None where nothing mixes before it."""
        if self.seen is not None:
            return self.place if self.place in self.seen.places else self.seen.places[0]
        if not self.of(OutputFacts, self.controller).terms:
            raise Missing(f"{self.controller}.signal")
        return plugged_place(self.mule, self.controller)

    @fact("1", "1 where it turns the right way for the signal that it gets, -1 where it is reversed")
    def direction(self) -> Value:
        if self.seen is not None:
            return self.found(self.seen.sense, self.evidence)
        return self.by(largest, values=[self.link_by_link, self.all_in_all])

    @fact("1", "1 where it turns the wrong way round")
    def reversed(self) -> Value:
        return self.by(turned_round, sense=self.direction)

    @fact("1", "1 where its plug sits at the output that is meant for its wheel")
    def at_own_output(self) -> Value:
        plugged = self.plugged
        if plugged is None:
            return self.found(1, "nothing mixes before it, so no output belongs to another wheel")
        return self.found(plugged == self.place, f"it gets the signal of {plugged}, {self.evidence}")

    @fact("1", "1 where it does what its wheel should do, though perhaps from another output")
    def placed(self) -> Value:
        if self.seen is not None:
            return self.at_own_output
        return self.by(largest, values=[self.at_own_output, self.all_in_all])
