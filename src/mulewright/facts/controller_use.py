"""Facts about what a controller is asked to do: how far its range is used, and which ways."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.controls import ControlFacts
from mulewright.facts.graph import Evaluation, Facts, Missing, Value, fact
from mulewright.facts.outputs import ControllerSignalFacts
from mulewright.models.arithmetic import quotient

BOTH_WAYS = ("arm", "lift", "winch")  # mechanisms that go up and down at the driver's word


class ControllerUseFacts(Facts):
    """A controller, its control and the task of its motors."""

    kind = "controller"
    none = "no controller gets a signal from a control"

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

    @fact("1", "largest pulse from neutral as a share of its full range")
    def range_used(self) -> Value:
        return self.by(quotient, part=self.signal.output.largest_size, whole=self.signal.full_pulse)

    @fact("1", "1 where it cannot reverse")
    def one_way(self) -> Value:
        direction = self.choice("direction")
        return self.found(direction == "one-way", f"it is {direction}")

    @fact("1", "1 where it brakes first and reverses only at the second pull")
    def stops_first(self) -> Value:
        direction = self.choice("direction")
        return self.found(direction == "stop-then-reverse", f"it is {direction}")

    @fact("1", "1 where its task needs reverse without a pause")
    def reverse_needed(self) -> Value:
        needs = [self._needs(motor) for motor in self.mule.motors_of(self.id)]
        if not needs:
            raise Missing(f"{self.id}.feeds")
        needed, why = max(needs)
        return self.found(needed, why)

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
    return bool(output.terms) and output.main[0].control.control.kind in ("switch", "button")
