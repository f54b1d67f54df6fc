"""Facts about hubs on motor shafts: what they have to carry, and at which torque they slip."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.loads import held_by
from mulewright.facts.nodes import Value
from mulewright.facts.slipping import SlipFacts
from mulewright.facts.stalls import StalledFacts
from mulewright.models.arithmetic import smallest
from mulewright.models.hub import set_screw_torque
from mulewright.models.joint import safety_factor


class HubFacts(Facts):
    """The hub on a motor's shaft that turns a wheel or a mechanism."""

    kind = "hub on a shaft"
    none = "no motor turns a wheel or a mechanism"

    shaft_diameter = given()
    set_screw_force = given(assume="set_screw_force")
    shaft_load = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        motors = evaluation.mule.file.motor.items()
        return [evaluation.entity(cls, f"motor.{name}") for name, motor in motors if motor.turns is not None]

    @property
    def _turns(self) -> str:
        turns: str = self.choice("turns")
        return turns

    @property
    def carried(self) -> str:
        """What carries the torque, if it is not a screw on a round shaft; empty if it is."""
        shaft: str = self.choice("shaft")
        return "" if shaft == "round" else f"a {shaft} on the shaft carries the torque"

    @fact("N m", "torque that it has to carry")
    def hub_load(self) -> Value:
        return self.first(
            ("as noted", lambda: self.shaft_load), ("from what the motor turns", self._from_what_it_turns)
        )

    def _from_what_it_turns(self) -> Value:
        held = held_by(self.evaluation, self._turns)
        if held is not None:
            return held.asked
        stalled = self.of(StalledFacts, self.id).held_torque
        if not self._turns.startswith("wheel."):
            return stalled
        return self.by(smallest, values=[self.of(SlipFacts, self.id).shaft_slip_torque, stalled])

    @fact("N m", "torque at which its set screws slip on a round shaft")
    def hub_grip(self) -> Value:
        return self.by(
            set_screw_torque, friction=self.assumed("hub_friction"), force=self.set_screw_force,
            diameter=self.shaft_diameter,
        )  # fmt: skip

    @fact("1", "torque at which it slips over the torque that it has to carry")
    def hub_reserve(self) -> Value:
        return self.by(safety_factor, available=self.hub_grip, needed=self.hub_load)
