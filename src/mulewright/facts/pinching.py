"""Facts about what closes on fingers: how narrow a gap becomes, how hard and how fast it closes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Self

from mulewright.design.schema.electrics import Servo
from mulewright.design.schema.functions import Arm, Flywheel, Gripper, Lift, Roller, Winch
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.loads import ArmFacts, LiftFacts, WinchFacts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.running import FreeRunFacts, RollerFacts
from mulewright.facts.stalls import StalledFacts
from mulewright.models.arithmetic import largest, product, quotient
from mulewright.models.bus import total
from mulewright.models.grip import jaw_force
from mulewright.models.traction import wheel_push
from mulewright.units.table import Table, form_of


class PinchFacts(Facts):
    """A function besides the drive, as something that may close on a hand."""

    kind = "function besides the drive"
    none = "nothing besides the drive moves"

    closing_gap = given()
    closing_radius = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        ids = dict.fromkeys(id for id in evaluation.mule.functions.values() if id != "drive")
        return [evaluation.entity(cls, id) for id in ids]

    @property
    def near_hands(self) -> bool:
        """Whether it is noted that hands or feet come near it."""
        noted: bool = self.choice("near_hands")
        return noted

    @property
    def motors(self) -> list[str]:
        """The motors that move it."""
        return [self.id] if self.id.startswith("motor.") else self.mule.motors_turning(self.id)

    @property
    def by_servo(self) -> bool:
        """Whether a servo moves it."""
        return isinstance(self.table, Gripper | Servo)

    @property
    def servos(self) -> list[ServoPushFacts]:
        """The servos that move it."""
        file = self.mule.file
        found = [
            f"servo.{name}" for name, servo in file.servo.items() if self.id in (servo.moves, f"servo.{name}")
        ]
        if not found:
            raise Missing(f"a servo that moves {self.id}")
        return [self.of(ServoPushFacts, servo) for servo in found]

    def _motors(self) -> list[str]:
        if not self.motors:
            raise Missing(f"a motor that turns {self.id}")
        return self.motors

    @fact("m", "way of what closes for each radian of its shaft")
    def closing_lever(self) -> Value:
        own = LEVERS.get(form_of(self.table))
        return own(self) if own is not None else self.closing_radius

    @fact("N m", "torque of all its motors held fast at full stick, or of a servo that gives all it has")
    def closing_torque(self) -> Value:
        if self.by_servo:
            return self.by(largest, values=[servo.stall_torque for servo in self.servos])
        return self.by(total, values=[self.of(StalledFacts, motor).held_torque for motor in self._motors()])

    @fact("N", "force with which it closes then, if nothing were lost on the way")
    def closing_force(self) -> Value:
        if isinstance(self.table, Gripper):
            return self.by(
                jaw_force, torque=self.closing_torque, share=1.0, jaws=self.of(FingerFacts, self.id).jaws,
                finger_length=self.closing_lever,
            )  # fmt: skip
        if self.by_servo:
            return self.by(quotient, part=self.closing_torque, whole=self.closing_lever)
        return self.by(
            wheel_push, torque=self.closing_torque, ratio=self.of(MotorFacts, self._motors()[0]).ratio,
            efficiency=1.0, wheel_radius=self.closing_lever,
        )  # fmt: skip

    @fact("rad/s", "speed of its shaft with nothing to move, full stick")
    def closing_turns(self) -> Value:
        if self.by_servo:
            return self.by(largest, values=[servo.servo_speed for servo in self.servos])
        motor = self._motors()[0]
        return self.by(
            quotient, part=self.of(FreeRunFacts, motor).nominal_running_speed,
            whole=self.of(MotorFacts, motor).ratio,
        )  # fmt: skip

    @fact("m/s", "speed at which it closes with nothing to move, full stick")
    def closing_speed(self) -> Value:
        return self.by(product, first=self.closing_turns, second=self.closing_lever)


class ServoPushFacts(Facts):
    """What a servo gives by its sheet."""

    kind = "servo"
    none = "no servo is described"

    stall_torque = given()
    transit = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "servo")

    @fact("rad/s", "speed of its horn with nothing to move")
    def servo_speed(self) -> Value:
        return self.by(quotient, part=1.0, whole=self.transit)


class FingerFacts(Facts):
    """The fingers of a gripper."""

    kind = "fingers"
    none = "no gripper on this mule"

    jaws = given()
    finger_length = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        mechanisms = evaluation.mule.file.mechanism.items()
        return [
            evaluation.entity(cls, f"mechanism.{name}")
            for name, one in mechanisms
            if isinstance(one, Gripper)
        ]


class RimFacts(Facts):
    """The rim of a flywheel."""

    kind = "rim of a flywheel"
    none = "no flywheel on this mule"

    wheel_diameter = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        mechanisms = evaluation.mule.file.mechanism.items()
        return [
            evaluation.entity(cls, f"mechanism.{name}")
            for name, one in mechanisms
            if isinstance(one, Flywheel)
        ]

    @fact("m", "radius of its rim")
    def rim_radius(self) -> Value:
        return self.by(product, first=0.5, second=self.wheel_diameter)


def _of_a_lift(pinch: PinchFacts) -> Value:
    lift = pinch.of(LiftFacts, pinch.id)
    return pinch.by(product, first=lift.drum_radius, second=lift.load_ratio)


LEVERS: dict[type[Table], Callable[[PinchFacts], Value]] = {
    Arm: lambda pinch: pinch.of(ArmFacts, pinch.id).load_at,
    Lift: _of_a_lift,
    Winch: lambda pinch: pinch.of(WinchFacts, pinch.id).drum_radius,
    Roller: lambda pinch: pinch.of(RollerFacts, pinch.id).roller_radius,
    Flywheel: lambda pinch: pinch.of(RimFacts, pinch.id).rim_radius,
    Gripper: lambda pinch: pinch.of(FingerFacts, pinch.id).finger_length,
}
