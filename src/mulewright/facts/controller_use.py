"""Facts about what a controller is asked to do: how far its range is used, and which ways."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.characters import control_kind
from mulewright.design.unsaid import MIX_INPUTS, SIGNALS
from mulewright.facts.controls import ControlFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import ControllerSignalFacts
from mulewright.facts.roles import RoleFacts
from mulewright.models.arithmetic import quotient

BOTH_WAYS = ("arm", "lift", "winch")  # mechanisms that go up and down at the driver's word


class ControllerUseFacts(Facts):
    """A controller, its control and the task of its motors."""

    kind = "controller"
    none = "no controller gets a signal from a control"
    rests_on = (SIGNALS, MIX_INPUTS)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        signals = ControllerSignalFacts.all(evaluation)
        return [evaluation.entity(cls, signal.id) for signal in signals if signal.output.terms]

    @property
    def signal(self) -> ControllerSignalFacts:
        """What it makes of pulses."""
        return self.of(ControllerSignalFacts, self.id)

    @property
    def control(self) -> ControlFacts:
        """The control that gives it its own command."""
        return self.signal.output.main[0].control

    @property
    def role(self) -> RoleFacts:
        """That control in its role."""
        return self.of(RoleFacts, self.control.id)

    @fact("1", "largest pulse from neutral as a share of its full range")
    def range_used(self) -> Value:
        return self.by(quotient, part=self.signal.output.largest_size, whole=self.signal.full_pulse)

    @property
    def kind_and_task(self) -> str:
        """How it reverses, and where that matters what its task needs, in words."""
        direction: str = self.choice("direction")
        return f"{direction}; {self.task[1]}" if direction == "stop-then-reverse" else direction

    @fact("1", "1 where it reverses at the second pull only, and its task needs reverse at once")
    def late_reverse(self) -> Value:
        late = self.choice("direction") == "stop-then-reverse" and self.task[0]
        return self.found(late, f"it is {self.kind_and_task}")

    @property
    def task(self) -> tuple[bool, str]:
        """Whether its task needs reverse without a pause, and why."""
        needs = [self._needs(motor) for motor in self.mule.motors_of(self.id)]
        if not needs:
            raise Missing(f"{self.id}.feeds")
        return max(needs)

    @property
    def kind_and_spring(self) -> str:
        """How it reverses, and where that matters what its control does by itself, in words."""
        direction: str = self.choice("direction")
        return f"{direction}; {self.role.name} {self.role.spring}" if direction == "one-way" else direction

    @fact("1", "1 where it cannot reverse, and its control returns to the middle by itself")
    def half_power(self) -> Value:
        if self.choice("direction") != "one-way":
            return self.found(0, f"it is {self.kind_and_spring}")
        return self.control.returns

    def _needs(self, motor: str) -> tuple[bool, str]:
        mule = self.mule
        table = mule.file.motor[motor.split(".", 1)[1]]
        drive = mule.file.drive
        if mule.function_of(motor) == "drive" and drive is not None:
            if drive.immediate_reverse is False:
                return False, "the wheels may pause before they reverse, as noted"
            return True, "a turn on the spot reverses the wheels of one side"
        if table.runs == "one-way":
            return False, f"{motor} runs one way"
        if getattr(mule.things.get(table.turns or ""), "kind", None) in BOTH_WAYS:
            return True, f"{table.turns} goes both ways at the driver's word"
        if table.runs is None:
            raise Missing(f"{motor}.runs")
        return True, f"{motor} runs both ways"


class FineControlFacts(Facts):
    """A controller that follows a stick or a knob, and not a switch."""

    kind = "controller on a stick or a knob"
    none = "no controller follows a stick or a knob"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        signals = [one for one in ControllerSignalFacts.all(evaluation) if not _on_switch(one)]
        return [evaluation.entity(cls, one.id) for one in signals]

    @property
    def signal(self) -> ControllerSignalFacts:
        """What it makes of pulses."""
        return self.of(ControllerSignalFacts, self.id)


def _on_switch(signal: ControllerSignalFacts) -> bool:
    output = signal.output
    return bool(output.terms) and control_kind(signal.mule, output.main[0].term.control) in (
        "switch",
        "button",
    )
