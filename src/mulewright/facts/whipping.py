"""Facts about arms that swing into a hard stop."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.loads import ArmFacts, LumpFacts
from mulewright.facts.nodes import Value
from mulewright.facts.running import FreeRunFacts
from mulewright.models.arithmetic import quotient
from mulewright.models.bus import total
from mulewright.models.inertia import flywheel_energy, point_inertia


class LumpSwingFacts(Facts):
    """A mass on an arm that swings."""

    kind = "lump on an arm that swings"
    none = ArmFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, lump.id) for lump in LumpFacts.all(evaluation)]

    @fact("kg m2", "its moment of inertia about the pivot")
    def swing_inertia(self) -> Value:
        lump = self.of(LumpFacts, self.id)
        return self.by(point_inertia, mass=lump.mass, radius=lump.at)


class WhipFacts(Facts):
    """An arm that a motor swings."""

    kind = "arm that a motor swings"
    none = "no arm is swung by a motor"

    noted_inertia = given(key="inertia")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        by_servo = {servo.moves for servo in evaluation.mule.file.servo.values()}
        return [evaluation.entity(cls, arm.id) for arm in ArmFacts.all(evaluation) if arm.id not in by_servo]

    @property
    def arm(self) -> ArmFacts:
        """The arm."""
        return self.of(ArmFacts, self.id)

    @fact("kg m2", "moment of inertia of its load about the pivot")
    def load_inertia(self) -> Value:
        return self.by(point_inertia, mass=self.arm.load, radius=self.arm.load_at)

    @fact("kg m2", "moment of inertia about the pivot, its load included")
    def swing_inertia(self) -> Value:
        return self.first(
            ("as noted", lambda: self.noted_inertia),
            ("from its lumps and its load", self._from_lumps),
        )

    def _from_lumps(self) -> Value:
        lumps = [self.of(LumpSwingFacts, lump.id).swing_inertia for lump in self.arm.lumps]
        return self.by(total, values=[*lumps, self.load_inertia])

    @fact("rad/s", "speed at full stick and nominal volts, with nothing to raise")
    def swing_speed(self) -> Value:
        motor = self.arm.motor
        running = self.of(FreeRunFacts, motor.id)
        return self.by(quotient, part=running.nominal_running_speed, whole=motor.ratio)

    @fact("J", "energy with which it meets its stop")
    def whip(self) -> Value:
        return self.by(flywheel_energy, inertia=self.swing_inertia, speed=self.swing_speed)
