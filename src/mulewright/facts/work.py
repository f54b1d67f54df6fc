"""Facts about the steady current of each motor at its work: raising, rolling, turning against a load."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.functions import Flywheel, Spinner, Winch
from mulewright.facts.body import BodyFacts, WheelFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.loads import WinchFacts, held_by
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.models.arithmetic import quotient
from mulewright.models.gear import train_efficiency
from mulewright.models.joint import needed_torque
from mulewright.models.motor import current_for_torque
from mulewright.models.moving import slope_force
from mulewright.models.rope import drum_torque


class RollingFacts(Facts):
    """A machine that rolls on level ground at a steady speed."""

    kind = "rolling machine"
    none = WheelFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "drive")] if evaluation.mule.file.drive is not None else []

    @property
    def wheel(self) -> WheelFacts:
        """Its wheels."""
        return self.of(WheelFacts, "drive.wheel")

    @fact("N", "push that keeps it rolling on level ground")
    def rolling_force(self) -> Value:
        return self.by(
            slope_force,
            mass=self.of(BodyFacts, "body").mass,
            slope=0.0,
            rolling=self.wheel.rolling_resistance,
        )

    @fact("1", "motors that share it")
    def pushing(self) -> Value:
        motors = self.mule.motors_serving.get("drive", [])
        return self.found(len(motors), f"{', '.join(motors) or 'no motor'} turn wheels")

    @fact("N", "share of it for each motor")
    def push_each(self) -> Value:
        return self.by(quotient, part=self.rolling_force, whole=self.pushing)

    @fact("N m", "torque at the wheel for each motor")
    def torque_each(self) -> Value:
        return self.by(drum_torque, force=self.push_each, radius=self.wheel.radius)


class PullFacts(Facts):
    """A winch that pulls along the floor."""

    kind = "pulling winch"
    none = "no winch that pulls on this mule"

    pull = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = evaluation.mule.file.mechanism.items()
        return [
            evaluation.entity(cls, f"mechanism.{name}")
            for name, one in found
            if isinstance(one, Winch) and one.use == "pulling"
        ]

    @fact("N m", "torque at its drum on the first layer, without losses")
    def pull_torque(self) -> Value:
        return self.by(drum_torque, force=self.pull, radius=self.of(WinchFacts, self.id).drum_radius)


class SpinnerFacts(Facts):
    """A pump, a feeder, a brush, a fan."""

    kind = "spinner"
    none = "nothing on this mule just turns"

    load_torque = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = evaluation.mule.file.mechanism.items()
        return [
            evaluation.entity(cls, f"mechanism.{name}") for name, one in found if isinstance(one, Spinner)
        ]


class WorkFacts(Facts):
    """A motor at its work."""

    kind = "motor at work"
    none = "no motor is described"

    load_torque = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "motor")

    @property
    def motor(self) -> MotorFacts:
        """The motor."""
        return self.of(MotorFacts, self.id)

    @property
    def turns(self) -> str:
        """What it turns; nothing where it stands for itself."""
        return self.motor.motor.turns or ""

    @property
    def others(self) -> int:
        """How many motors turn the same thing."""
        return len(self.mule.motors_turning(self.turns))

    @fact("1", "motors that turn the same thing")
    def sharing(self) -> Value:
        return self.found(self.others, f"{', '.join(self.mule.motors_turning(self.turns))} turn {self.turns}")

    @fact("N m", "torque behind its gears, without their losses")
    def outside(self) -> Value:
        if self.turns.startswith("wheel."):
            return self.of(RollingFacts, "drive").torque_each
        table = self.mule.things.get(self.turns)
        if isinstance(table, Winch) and table.use == "pulling":
            in_all = self.of(PullFacts, self.turns).pull_torque
        elif isinstance(table, Spinner):
            in_all = self.of(SpinnerFacts, self.turns).load_torque
        else:
            raise Missing(f"{self.id}.load_torque")
        return in_all if self.others == 1 else self.by(quotient, part=in_all, whole=self.sharing)

    @fact("1", "power that passes from its shaft to what it turns")
    def passed(self) -> Value:
        if not isinstance(self.mule.things.get(self.turns), Winch):
            return self.motor.train
        own = self.of(WinchFacts, self.turns).own_efficiency
        return self.by(train_efficiency, efficiencies=[own, self.motor.train])

    @fact("N m", "torque that its shaft has to give")
    def asked_torque(self) -> Value:
        if self.table.quantity("load_torque") is not None:
            return self.load_torque
        return self.by(
            needed_torque, torque=self.outside, ratio=self.motor.ratio, efficiency=self.passed
        )  # fmt: skip

    @fact("A", "steady current through it at its work: its load raised, or rolling on level ground")
    def steady_current(self) -> Value:
        held = held_by(self.evaluation, self.turns)
        if held is not None:
            return held.current
        noted = self.table.quantity("load_torque") is not None
        if isinstance(self.mule.things.get(self.turns), Flywheel) and not noted:
            return self.motor.free_current
        return self.by(
            current_for_torque, torque=self.asked_torque, torque_constant=self.motor.torque_constant,
            free_current=self.motor.free_current,
        )  # fmt: skip
