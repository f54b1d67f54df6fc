"""Facts about rollers that jam: how hard the rim pulls, and how long the winding bears it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.running import RollerFacts
from mulewright.facts.stalls import StalledFacts
from mulewright.models.arithmetic import quotient
from mulewright.models.bus import total
from mulewright.models.gear import train_efficiency
from mulewright.models.heat import stall_heating_time
from mulewright.models.traction import wheel_push


class JamFacts(Facts):
    """A roller that something has jammed, the command still on."""

    kind = "jammed roller"
    none = RollerFacts.none

    bears = given()
    roller_efficiency = given(key="efficiency")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, roller.id) for roller in RollerFacts.all(evaluation)]

    @property
    def slips(self) -> bool:
        """Whether a clutch or a belt slips before a jam stalls its motor."""
        return bool(self.choice("slips"))

    @property
    def bearing_noted(self) -> bool:
        """Whether it is noted what its flaps and axle bear."""
        return self.table.quantity("bears") is not None

    @property
    def motors(self) -> list[MotorFacts]:
        """The motors that turn it."""
        found = self.mule.motors_turning(self.id)
        if not found:
            raise Missing(f"a motor that turns {self.id}")
        return [self.of(MotorFacts, motor) for motor in found]

    @property
    def stalled(self) -> StalledFacts:
        """The first of them, held fast."""
        return self.of(StalledFacts, self.motors[0].id)

    @fact("K", "rise that its winding bears")
    def jam_rise(self) -> Value:
        return self.assumed("winding_rise")

    @fact("s", "time in a jam until the winding is hotter by that rise")
    def jam_time(self) -> Value:
        motor = self.motors[0]
        return self.by(
            stall_heating_time, rise=self.jam_rise, heat_capacity=motor.heat_capacity,
            current=self.stalled.held_current, resistance=motor.resistance,
        )  # fmt: skip

    @fact("1", "efficiency from the motor's shaft to its rim")
    def rim_efficiency(self) -> Value:
        return self.by(train_efficiency, efficiencies=[self.motors[0].train, self.roller_efficiency])

    @fact("N", "pull of its rim in a jam, by each motor")
    def jam_pull_each(self) -> Value:
        return self.by(
            wheel_push, torque=self.stalled.held_torque, ratio=self.motors[0].ratio,
            efficiency=self.rim_efficiency, wheel_radius=self.of(RollerFacts, self.id).roller_radius,
        )  # fmt: skip

    @fact("N", "pull of its rim in a jam, full command, rested battery")
    def jam_pull(self) -> Value:
        return self.by(total, values=[self.jam_pull_each] * len(self.motors))

    @fact("1", "that pull over what its flaps and axle bear")
    def jam_share(self) -> Value:
        return self.by(quotient, part=self.jam_pull, whole=self.bears)
