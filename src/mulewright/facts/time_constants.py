"""Facts about how slow a drive or a joint is by itself: the time in which it makes 63 % of a change of speed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.body import BodyFacts, WheelFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.loads import ArmFacts, HeldFacts, LiftFacts, LumpFacts, WinchFacts, held_by
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.slipping import wheel_motors
from mulewright.models.arithmetic import product, quotient
from mulewright.models.bus import total
from mulewright.models.feedforward import volts_per_acceleration, volts_per_speed
from mulewright.models.inertia import point_inertia


class PointFacts(Facts):
    """A mass on an arm as a moment of inertia: ``mechanism.arm.lumps.0``, or the load, ``mechanism.arm``."""

    kind = "mass on an arm"
    none = ArmFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        arms = ArmFacts.all(evaluation)
        ids = [*(lump.id for lump in LumpFacts.all(evaluation)), *(arm.id for arm in arms)]
        return [evaluation.entity(cls, id) for id in ids]

    @fact("kg m2", "moment of inertia about the pivot, as a point")
    def as_point(self) -> Value:
        if ".lumps." in self.id:
            lump = self.of(LumpFacts, self.id)
            return self.by(point_inertia, mass=lump.mass, radius=lump.at)
        arm = self.of(ArmFacts, self.id)
        return self.by(point_inertia, mass=arm.load, radius=arm.load_at)


class SwingFacts(Facts):
    """An arm with all that turns about its pivot."""

    kind = "arm that swings"
    none = ArmFacts.none

    inertia = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, arm.id) for arm in ArmFacts.all(evaluation)]

    def _from_points(self) -> Value:
        points = [lump.id for lump in self.of(ArmFacts, self.id).lumps] + [self.id]
        return self.by(total, values=[self.of(PointFacts, point).as_point for point in points])

    @fact("kg m2", "moment of inertia about the pivot")
    def swinging(self) -> Value:
        return self.first(("as noted", lambda: self.inertia), ("as points", self._from_points))


class PaceFacts(Facts):
    """A drive, or a load that is raised, as slow as its motors and its mass make it."""

    kind = "moved mass"
    none = "nothing is driven over the floor and nothing raised"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        driven = ["drive"] if wheel_motors(evaluation) else []
        return [
            evaluation.entity(cls, id) for id in (*driven, *(one.id for one in HeldFacts.all(evaluation)))
        ]

    @property
    def held(self) -> HeldFacts | None:
        """What is raised, if it is no drive."""
        return held_by(self.evaluation, self.id)

    @property
    def motors(self) -> list[str]:
        """The motors that move it."""
        found = wheel_motors(self.evaluation) if self.id == "drive" else self.mule.motors_turning(self.id)
        if not found:
            raise Missing(f"a motor that moves {self.id}")
        return found

    @property
    def motor(self) -> MotorFacts:
        """The first of them; the others are taken to be alike."""
        return self.of(MotorFacts, self.motors[0])

    @fact("1", "motors that move it")
    def pulling(self) -> Value:
        return self.found(len(self.motors), f"{', '.join(self.motors)} move it")

    @fact("1", "efficiency from the motor's shaft to what is moved")
    def passes(self) -> Value:
        return self.held.efficiency if self.held is not None else self.motor.train

    @fact("kg", "what is moved; an arm counts with its moment of inertia, at one metre")
    def moved(self) -> Value:
        if isinstance(self.held, LiftFacts):
            return self.held.raised
        if isinstance(self.held, WinchFacts):
            return self.held.load
        if isinstance(self.held, ArmFacts):
            return self.of(SwingFacts, self.id).swinging
        return self.of(BodyFacts, "body").mass

    @fact("m", "way of what is moved for one radian of the shaft outside the gears; an arm's at one metre")
    def lever(self) -> Value:
        if isinstance(self.held, LiftFacts):
            return self.by(product, first=self.held.load_ratio, second=self.held.drum_radius)
        if isinstance(self.held, WinchFacts):
            return self.held.drum_radius
        if isinstance(self.held, ArmFacts):
            return self.found(1, "an arm is counted at one metre from its pivot")
        return self.of(WheelFacts, "drive.wheel").radius

    @fact("V s/m", "volts for each m/s of steady speed")
    def per_speed(self) -> Value:
        motor = self.motor
        return self.by(
            volts_per_speed, back_emf_constant=motor.back_emf_constant, ratio=motor.ratio, radius=self.lever
        )

    @fact("V s2/m", "volts for each m/s2 of acceleration")
    def per_acceleration(self) -> Value:
        motor = self.motor
        return self.by(
            volts_per_acceleration, mass=self.moved, radius=self.lever, resistance=motor.resistance,
            motors=self.pulling, torque_constant=motor.torque_constant, ratio=motor.ratio,
            efficiency=self.passes,
        )  # fmt: skip

    @fact("s", "time in which it makes 63 % of a change of speed, without the rotors' own inertia")
    def time_constant(self) -> Value:
        return self.by(quotient, part=self.per_acceleration, whole=self.per_speed)
