"""Facts about driving over the floor: where wheels slip, how hard it pushes, whether that tips it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.machine import Drive
from mulewright.facts.body import BodyFacts, RoomFacts, WheelFacts
from mulewright.facts.bus import LoadFacts
from mulewright.facts.graph import Evaluation, Facts, Missing, Value, fact, given
from mulewright.facts.motors import MotorFacts
from mulewright.facts.ratings import RatingFacts
from mulewright.models.arithmetic import product, quotient, smallest
from mulewright.models.body import axle_load, tip_ratio
from mulewright.models.bus import total
from mulewright.models.joint import needed_torque
from mulewright.models.motor import current_for_torque, stall_torque_at
from mulewright.models.straightness import drift_offset
from mulewright.models.traction import roller_push, roller_slip_torque, slip_torque, wheel_push

ROLLERS = "four-roller-wheels"
ALL_DRIVEN = (ROLLERS, "skid-steer")


class SlipFacts(Facts):
    """A motor that turns a wheel, at the limit of the wheel's grip."""

    kind = "wheel motor"
    none = "no motor turns a wheel"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        motors = evaluation.mule.file.motor.items()
        return [
            evaluation.entity(cls, f"motor.{name}")
            for name, motor in motors
            if (motor.turns or "").startswith("wheel.")
        ]

    @property
    def motor(self) -> MotorFacts:
        """The motor."""
        return self.of(MotorFacts, self.id)

    @property
    def driving(self) -> DrivingFacts:
        """The drive that it belongs to."""
        return self.of(DrivingFacts, "drive")

    @property
    def rating(self) -> RatingFacts:
        """What its controller bears."""
        return self.of(RatingFacts, self.motor.controller.id)

    @property
    def stalled(self) -> LoadFacts:
        """The motor while all wheels are held fast at full stick."""
        return self.of(LoadFacts, f"{self.id}@drive-stalled")

    @fact("N m", "torque at which its wheel slips, at the wheel")
    def wheel_slip_torque(self) -> Value:
        model = roller_slip_torque if self.driving.drive_kind == ROLLERS else slip_torque
        return self.by(
            model, friction=self.driving.wheel.friction, load=self.driving.wheel_load,
            wheel_radius=self.driving.wheel.radius,
        )  # fmt: skip

    @fact("1", "motors that turn the same wheel")
    def sharing(self) -> Value:
        wheel = self.motor.motor.turns or ""
        motors = self.mule.motors_turning(wheel)
        return self.found(len(motors), f"{', '.join(motors)} turn {wheel}")

    @fact("N m", "its share of that torque")
    def wheel_share(self) -> Value:
        return self.by(quotient, part=self.wheel_slip_torque, whole=self.sharing)

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
        slipping = [motor for motor in self.driving.motors if motor.id in fed]
        if len(slipping) == 1:
            return self.slip_current
        return self.by(total, values=[motor.slip_current for motor in slipping])

    @fact("N m", "torque of its shaft, held fast at full stick on the rested battery")
    def held_torque(self) -> Value:
        return self.by(
            stall_torque_at, duty=self.motor.duty, voltage=self.stalled.voltage,
            resistance=self.motor.resistance, torque_constant=self.motor.torque_constant,
            free_current=self.motor.free_current,
        )  # fmt: skip

    @fact("N", "push at the rim that this torque would make if the wheel did not slip")
    def push(self) -> Value:
        return self.by(
            wheel_push, torque=self.held_torque, ratio=self.motor.ratio, efficiency=self.motor.train,
            wheel_radius=self.driving.wheel.radius,
        )  # fmt: skip


class DrivingFacts(Facts):
    """The drive as a whole, standing loads on its wheels."""

    kind = "drive"
    none = "nothing drives this mule over the floor"

    side_mismatch = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "drive")] if evaluation.mule.file.drive is not None else []

    @property
    def drive_kind(self) -> str:
        """How its wheels are arranged."""
        kind: str = self.choice("kind")
        return kind

    @property
    def body(self) -> BodyFacts:
        """The machine as one mass."""
        return self.of(BodyFacts, "body")

    @property
    def wheel(self) -> WheelFacts:
        """Its wheels."""
        return self.of(WheelFacts, "drive.wheel")

    @property
    def room(self) -> RoomFacts:
        """Where it drives."""
        return self.of(RoomFacts, "room")

    @property
    def motors(self) -> Sequence[SlipFacts]:
        """The motors that turn its wheels."""
        found = SlipFacts.all(self.evaluation)
        if not found:
            raise Missing("a motor that turns a wheel")
        return found

    @fact("N", "weight on the driven wheels, standing still on level ground")
    def driven_load(self) -> Value:
        drive = self.table
        assert isinstance(drive, Drive)
        if self.drive_kind in ALL_DRIVEN or drive.driven == "all":
            return self.body.weight
        lever = self.body.center_ahead if self.choice("driven") == "front" else self.body.center_behind
        return self.by(axle_load, mass=self.body.mass, lever=lever, wheelbase=self.body.wheelbase)

    @fact("1", "driven wheels")
    def driven_wheels(self) -> Value:
        return self.found(len(self.mule.wheels), f"a drive of the kind {self.drive_kind}")

    @fact("N", "weight on each driven wheel, all alike")
    def wheel_load(self) -> Value:
        return self.by(quotient, part=self.driven_load, whole=self.driven_wheels)

    @fact("N", "push ahead that the grip of the driven wheels allows")
    def grip(self) -> Value:
        if self.drive_kind == ROLLERS:
            return self.by(roller_push, friction=self.wheel.friction, load=self.driven_load, direction=0.0)
        return self.by(product, first=self.wheel.friction, second=self.driven_load)

    @fact("N", "push ahead that the motors have at full stick, wheels held, on the rested battery")
    def motor_push(self) -> Value:
        return self.by(total, values=[motor.push for motor in self.motors])

    @fact("N", "push ahead: what the grip allows, or what the motors have, if less")
    def push(self) -> Value:
        return self.by(smallest, values=[self.grip, self.motor_push])

    @fact("m/s2", "acceleration that this push makes")
    def acceleration(self) -> Value:
        return self.by(quotient, part=self.push, whole=self.body.mass)

    @fact("1", "acceleration at full stick over the one that tips it backwards")
    def tips_back_ratio(self) -> Value:
        return self.by(tip_ratio, acceleration=self.acceleration, tipping=self.body.tips_back_at)

    @fact("m", "distance aside after the straight run")
    def drift(self) -> Value:
        return self.by(
            drift_offset, mismatch=self.side_mismatch, distance=self.room.straight_run, track=self.body.track
        )
