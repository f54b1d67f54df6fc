"""Facts about each function in both positions of the rate switch: rate, pulse and duty at full stick."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.controls import ControlFacts, RateFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import ControllerSignalFacts, OutputFacts, TermFacts
from mulewright.models.arithmetic import largest, magnitude, product, quotient
from mulewright.models.duty import duty_jump, duty_rescaled


class FunctionModeFacts(Facts):
    """One function that a transmitter commands: ``function.lift``."""

    kind = "commanded function"
    none = "no control commands anything"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        mule = evaluation.mule
        names = [name for name in mule.functions if mule.controls_for(name)]
        return [evaluation.entity(cls, f"function.{name}") for name in names]

    @property
    def name(self) -> str:
        """Its name."""
        return self.id.split(".", 1)[1]

    @property
    def controls(self) -> list[ControlFacts]:
        """The controls that command it."""
        return [self.of(ControlFacts, control) for control in self.mule.controls_for(self.name)]

    @property
    def on(self) -> str:
        """The controls by their short names."""
        return ", ".join(control.name for control in self.controls)

    def reached(self, control: ControlFacts) -> bool:
        """Whether the rate switch reaches a control.

        Raises
        ------
        Missing
            If it is not said what it reaches.
        """
        rates = self.of(RateFacts, f"{control.radio.id}.rate")
        if rates.covered is None:
            raise Missing(f"{rates.id}.covers")
        return control.control.kind in ("stick", None) and control.name in rates.covered

    @fact("1", "largest rate of its controls with the rate switch off")
    def full_rate(self) -> Value:
        return self.by(largest, values=[control.rate for control in self.controls])

    @fact("1", "largest rate of its controls with the rate switch in its slow position")
    def slow_rate(self) -> Value:
        rates = [
            self.of(RateFacts, f"{control.radio.id}.rate").slow if self.reached(control) else control.rate
            for control in self.controls
        ]
        return self.by(largest, values=rates)

    @fact("1", "1 where the rate switch reaches every control that commands it")
    def slowed(self) -> Value:
        reached = [control.name for control in self.controls if self.reached(control)]
        return self.found(
            float(len(reached) == len(self.controls)),
            f"it hangs on {self.on}; the rate switch reaches {', '.join(reached) or 'none of them'}",
        )

    @fact("1", "slow rate over full rate")
    def slowing(self) -> Value:
        return self.by(quotient, part=self.slow_rate, whole=self.full_rate)

    @property
    def device(self) -> OutputFacts:
        """The first controller or servo that follows it.

        Raises
        ------
        Missing
            If none does.
        """
        names = {control.id for control in self.controls}
        for output in OutputFacts.all(self.evaluation):
            if any(part.term.control in names for part in output.parts):
                return output
        raise Missing(f"a controller or servo that follows {self.on}")

    @fact("s", "pulse from neutral that it sends at full deflection")
    def full_pulse(self) -> Value:
        names = {control.id for control in self.controls}
        parts = [part for part in self.device.parts if part.term.control in names]
        return self.of(FirstPartFacts, parts[0].id).part_size

    @fact("s", "the same with the rate switch in its slow position")
    def slow_pulse(self) -> Value:
        return self.by(product, first=self.slowing, second=self.full_pulse)

    def _duty(self, pulse: Value) -> Value:
        device = self.device
        if not device.id.startswith("controller."):
            return self.found(0, f"{device.id} is no controller and gives no duty")
        signal = self.of(ControllerSignalFacts, device.id)
        model = duty_jump if signal.choice("response") == "jump" else duty_rescaled
        return self.by(
            model, deviation=pulse, controller_half_range=signal.full_pulse, dead_band=signal.dead_band
        )

    @property
    def has_duty(self) -> bool:
        """Whether a controller follows it."""
        return self.device.id.startswith("controller.")

    @fact("1", "share of the supply at full deflection")
    def full_duty(self) -> Value:
        return self._duty(self.full_pulse)

    @fact("1", "the same with the rate switch in its slow position")
    def slow_duty(self) -> Value:
        return self._duty(self.slow_pulse)


class FirstPartFacts(Facts):
    """A control's part in an output, without its sign: ``controller.left@radio.control.RV@0``."""

    kind = "size of a part of a command"
    none = "no output is commanded"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [
            evaluation.entity(cls, part) for output in OutputFacts.all(evaluation) for part in output.part_ids
        ]

    @fact("s", "size of the pulse from neutral that the control adds at full deflection")
    def part_size(self) -> Value:
        return self.by(magnitude, value=self.of(TermFacts, self.id).upward)


class SwitchPositionFacts(Facts):
    """A function on a switch in one of its positions: ``function.pump@2``."""

    kind = "function at a position of its switch"
    none = "no switch commands anything"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        function, place = id.rsplit("@", 1)
        self.mode, self.place = self.of(FunctionModeFacts, function), int(place)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = []
        for mode in FunctionModeFacts.all(evaluation):
            for control in mode.controls:
                if control.control.kind == "switch":
                    count = len(control.control.positions or [])
                    found += [evaluation.entity(cls, f"{mode.id}@{place + 1}") for place in range(count)]
        return found

    @fact("1", "what the switch commands there")
    def position_command(self) -> Value:
        control = next(one for one in self.mode.controls if one.control.kind == "switch")
        noted = control.choice("positions")[self.place - 1]
        return self.found(noted.value, f"position {self.place} of {control.name} is noted as {noted.text}")

    @fact("s", "pulse from neutral that it sends there, before the channel's reverse")
    def position_pulse(self) -> Value:
        return self.by(product, first=self.position_command, second=self.mode.full_pulse)
