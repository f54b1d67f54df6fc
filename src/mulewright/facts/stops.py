"""Facts about motors that are driven against the stops of their mechanisms."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.loads import HeldFacts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.stalls import StalledFacts
from mulewright.models.heat import stall_heating_time


class StopFacts(Facts):
    """A motor whose mechanism can be driven against a stop."""

    kind = "motor at a stop"
    none = "no motor drives a mechanism against a stop"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [
            evaluation.entity(cls, motor)
            for held in HeldFacts.all(evaluation)
            for motor in evaluation.mule.motors_turning(held.id)
        ]

    @property
    def motor(self) -> MotorFacts:
        """The motor."""
        return self.of(MotorFacts, self.id)

    @property
    def mechanism(self) -> str:
        """The mechanism that it turns."""
        return self.motor.motor.turns or ""

    @fact("A", "current at the stop, from the rested battery with all wires, full stick")
    def stop_current(self) -> Value:
        return self.of(StalledFacts, self.id).held_current

    @fact("K", "rise that its winding bears")
    def allowed_rise(self) -> Value:
        return self.assumed("winding_rise")

    @fact("s", "time at the stop until the winding is hotter by that rise")
    def stop_time(self) -> Value:
        return self.by(
            stall_heating_time, rise=self.allowed_rise, heat_capacity=self.motor.heat_capacity,
            current=self.stop_current, resistance=self.motor.resistance,
        )  # fmt: skip

    @fact("1", "1 where a switch stops the mechanism at its ends")
    def stop_switch(self) -> Value:
        noted = getattr(self.mule.things[self.mechanism], "stop_switch", None)
        if noted is None:
            raise Missing(f"{self.mechanism}.stop_switch")
        return self.found(float(noted), f"{self.mechanism} has {'a' if noted else 'no'} stop switch")
