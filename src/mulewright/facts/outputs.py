"""Facts about the pulses that reach each device: how far a full stick moves them, and how much of it does nothing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.commands import Term, terms
from mulewright.design.reads import kept
from mulewright.design.schema.electrics import Inline
from mulewright.facts.controls import ChannelFacts, ControlFacts, RadioFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.models.arithmetic import largest, magnitude, smallest, stick_reach
from mulewright.models.bus import total
from mulewright.models.duty import duty_jump, duty_rescaled
from mulewright.models.mixing import clipped
from mulewright.models.signal import dead_stick
from mulewright.units.table import Table


class ShareFacts(Facts):
    """A share in a mix, a box or an in-line device on the way of a command."""

    kind = "share"
    none = "nothing mixes"

    forward_weight = given(assume="mix_weight")
    strafe_weight = given(assume="mix_weight")
    turn_weight = given(assume="mix_weight")
    weight = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return []

    @fact("1", "how much wider an in-line device makes the pulse; -1 where it turns it round")
    def factor(self) -> Value:
        inline = self.table
        assert isinstance(inline, Inline)
        does = self.choice("does")
        if does == "widens":
            return self.of(WidenerFacts, self.id).factor
        return self.found(-1 if does == "reverses" else 1, f"an in-line device that {does} the pulse")


class WidenerFacts(Facts):
    """A range widener in a signal lead."""

    kind = "range widener"
    none = "no in-line device is described"

    factor = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = evaluation.mule.file.inline.items()
        return [evaluation.entity(cls, f"inline.{name}") for name, inline in found if inline.does == "widens"]


class TermFacts(Facts):
    """The part of one control in one output: ``controller.left@radio.control.RV@0``."""

    kind = "part of a command"
    none = "no output is commanded"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        self.device, control, place = id.split("@")
        self.term: Term = self.of(OutputFacts, self.device).terms[int(place)]
        self.control = self.of(ControlFacts, control)
        self.channel = self.of(ChannelFacts, self.term.channel)
        self.radio: RadioFacts = self.control.radio

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [
            evaluation.entity(cls, part) for output in OutputFacts.all(evaluation) for part in output.part_ids
        ]

    def _reach(self, travel: Value) -> Value:
        shares = [getattr(self.of(ShareFacts, table), field) for table, field in self.term.shares]
        return self.by(
            stick_reach, sign=self.term.sign, half_range=self.radio.half_range, travel=travel,
            rate=self.control.rate, weights=shares,
        )  # fmt: skip

    @fact("s", "pulse from neutral that the control adds when it is pushed fully up or right")
    def upward(self) -> Value:
        return self._reach(self.channel.upward)

    @fact("s", "pulse from neutral that the control adds when it is pulled fully down or left")
    def downward(self) -> Value:
        return self._reach(self.channel.downward)


class OutputFacts(Facts):
    """What one control's full deflection does at a controller or a servo."""

    kind = "output"
    none = "no controller and no servo is plugged in"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        file = evaluation.mule.file
        devices = [f"controller.{name}" for name in file.controller] + [
            f"servo.{name}" for name in file.servo
        ]
        return [evaluation.entity(cls, device) for device in devices]

    @kept
    def terms(self) -> list[Term]:
        """Every control's part in it."""
        return terms(self.mule, self.mule.signals.trace(self.id))

    @property
    def part_ids(self) -> list[str]:
        """Ids of those parts."""
        return [f"{self.id}@{term.control}@{place}" for place, term in enumerate(self.terms)]

    @property
    def parts(self) -> list[TermFacts]:
        """The facts of those parts."""
        return [self.of(TermFacts, part) for part in self.part_ids]

    @property
    def functions(self) -> list[str]:
        """Functions that the device serves; a wheel's are those of the drive."""
        if self.id.startswith("servo."):
            return [name for name in [self.mule.function_of(self.id)] if name]
        served = [self.mule.function_of(motor) for motor in self.mule.motors_of(self.id)]
        return [name for name in served if name]

    @kept
    def main(self) -> list[TermFacts]:
        """The parts of the control that gives the device its own command.

        For a wheel of a mixed drive that is forward, or the first command whose parts do not cancel (mixed twice).
        """
        if not self.terms:
            raise Missing(f"{self.id}.signal")
        for function in self._own_commands():
            controls = self.mule.controls_for(function)
            found = [part for part in self.parts if part.term.control in controls]
            if sum(part.term.sign for part in found):
                return found
        return self.parts[:1]

    def _own_commands(self) -> Sequence[str]:
        if "drive" not in self.functions:
            return self.functions
        commands = self.mule.drive_commands
        if "forward" in commands:
            return commands
        motors = self.mule.motors_of(self.id)
        turned = [motor.turns for name, motor in self.mule.file.motor.items() if f"motor.{name}" in motors]
        return [(wheel or "").removeprefix("wheel.") for wheel in turned]

    @property
    def mixer(self) -> Table | None:
        """The box at whose output it is plugged."""
        trace = self.mule.signals.trace(self.id)
        return self.mule.things[trace.mixer[0]] if trace.mixer is not None else None

    @fact("s", "pulse from neutral at full deflection of its own control, before any box limits it")
    def asked(self) -> Value:
        return self.by(total, values=[part.upward for part in self.main])

    @fact("s", "pulse from neutral at full deflection the other way, before any box limits it")
    def asked_back(self) -> Value:
        return self.by(total, values=[part.downward for part in self.main])

    def _limited(self, asked: Value) -> Value:
        trace = self.mule.signals.trace(self.id)
        if trace.mixer is None:
            return asked
        limit = self.of(MixerBoxFacts, trace.mixer[0]).half_range
        return self.by(clipped, command=asked, limit=limit)

    @fact(
        "s",
        "pulse from neutral at full deflection of its own control; below 0 where something turns it round",
    )
    def reach(self) -> Value:
        return self._limited(self.asked)

    @fact("s", "pulse from neutral at full deflection the other way")
    def reach_back(self) -> Value:
        return self._limited(self.asked_back)

    @fact("s", "size of the smaller of both reaches")
    def size(self) -> Value:
        return self.by(smallest, values=[self.magnitude_up, self.magnitude_down])

    @fact("s", "size of the reach upwards")
    def magnitude_up(self) -> Value:
        return self.by(magnitude, value=self.reach)

    @fact("s", "size of the reach downwards")
    def magnitude_down(self) -> Value:
        return self.by(magnitude, value=self.reach_back)

    @fact("s", "size of the larger of both reaches")
    def largest_size(self) -> Value:
        return self.by(largest, values=[self.magnitude_up, self.magnitude_down])


class MixerBoxFacts(Facts):
    """A mixer box."""

    kind = "mixer box"
    none = "no mixer box is described"

    half_range = given()
    current = given(assume="rail_current.mixer")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "mixer")


class ControllerSignalFacts(Facts):
    """What a controller makes of its pulse."""

    kind = "controller"
    none = "no controller is described"

    half_range = given()
    calibrated_to = given()
    dead_band = given()
    neutral = given(assume="neutral_pulse")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "controller")

    @property
    def output(self) -> OutputFacts:
        """The pulses that reach it."""
        return self.of(OutputFacts, self.id)

    @fact("s", "pulse from neutral at which it gives all it has")
    def full_pulse(self) -> Value:
        return self.first(
            ("taught to this radio", lambda: self.calibrated_to), ("as on its sheet", lambda: self.half_range)
        )

    @fact("1", "share of the supply that its motor gets at full stick (duty)")
    def full_duty(self) -> Value:
        model = duty_jump if self.choice("response") == "jump" else duty_rescaled
        return self.by(
            model, deviation=self.output.size, controller_half_range=self.full_pulse, dead_band=self.dead_band
        )

    @fact("1", "share of the stick about its middle that does nothing")
    def dead_stick(self) -> Value:
        main = self.output.main[0]
        if len(self.output.terms) and self.mule.signals.trace(self.id).source is None:
            raise Missing(f"{self.id}.signal")
        return self.by(
            dead_stick, half_range=self.output.magnitude_up, travel=1.0, rate=1.0, expo=main.control.expo,
            threshold=self.dead_band,
        )  # fmt: skip
