"""Facts about motors that turn wheels: at which torque and current a wheel slips, and how hard it pushes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Value
from mulewright.facts.ratings import RatingFacts
from mulewright.facts.stalls import StalledFacts
from mulewright.facts.standing import ROLLERS, StandingFacts
from mulewright.models.arithmetic import quotient
from mulewright.models.bus import total
from mulewright.models.joint import needed_torque
from mulewright.models.motor import current_for_torque
from mulewright.models.traction import roller_slip_torque, slip_torque, wheel_push


class SlipFacts(Facts):
    """A motor that turns a wheel, at the limit of the wheel's grip."""

    kind = "wheel motor"
    none = "no motor turns a wheel"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, motor) for motor in wheel_motors(evaluation)]

    @property
    def motor(self) -> MotorFacts:
        """The motor."""
        return self.of(MotorFacts, self.id)

    @property
    def standing(self) -> StandingFacts:
        """The drive that it belongs to."""
        return self.of(StandingFacts, "drive")

    @property
    def rating(self) -> RatingFacts:
        """What its controller bears."""
        return self.of(RatingFacts, self.motor.controller.id)

    @fact("N m", "torque at which its wheel slips, at the wheel")
    def wheel_slip_torque(self) -> Value:
        model = roller_slip_torque if self.standing.drive_kind == ROLLERS else slip_torque
        return self.by(
            model, friction=self.standing.wheel.friction, load=self.standing.wheel_load,
            wheel_radius=self.standing.wheel.radius,
        )  # fmt: skip

    @fact("1", "motors that turn the same wheel")
    def on_the_wheel(self) -> Value:
        wheel = self.motor.motor.turns or ""
        motors = self.mule.motors_turning(wheel)
        return self.found(len(motors), f"{', '.join(motors)} turn {wheel}")

    @fact("N m", "its share of that torque")
    def wheel_share(self) -> Value:
        return self.by(quotient, part=self.wheel_slip_torque, whole=self.on_the_wheel)

    @fact("N m", "torque at its shaft that makes the wheel slip")
    def shaft_slip_torque(self) -> Value:
        return self.by(
            needed_torque, torque=self.wheel_share, ratio=self.motor.ratio, efficiency=self.motor.train
        )

    @fact("A", "current through it when its wheel slips")
    def slip_current(self) -> Value:
        return self.by(
            current_for_torque, torque=self.shaft_slip_torque, torque_constant=self.motor.torque_constant,
            free_current=self.motor.free_current,
        )  # fmt: skip

    @fact("A", "current through its controller when every wheel that it turns slips")
    def controller_slip_current(self) -> Value:
        fed = self.mule.motors_of(self.motor.controller.id)
        slipping = [motor for motor in fed if self.mule.function_of(motor) == "drive"]
        if len(slipping) == 1:
            return self.slip_current
        return self.by(total, values=[self.of(SlipFacts, motor).slip_current for motor in slipping])

    @fact("N", "push at the rim that this torque would make if the wheel did not slip")
    def push(self) -> Value:
        return self.by(
            wheel_push, torque=self.of(StalledFacts, self.id).held_torque, ratio=self.motor.ratio,
            efficiency=self.motor.train, wheel_radius=self.standing.wheel.radius,
        )  # fmt: skip


def wheel_motors(evaluation: Evaluation) -> list[str]:
    """The motors that turn wheels."""
    mule = evaluation.mule
    return [motor for wheel in mule.wheels for motor in mule.motors_turning(f"wheel.{wheel}")]
