"""Facts about motors that run freely: how fast the rims of wheels and rollers go."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.functions import Roller
from mulewright.facts.body import WheelFacts
from mulewright.facts.bus import LoadFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.slipping import SlipFacts, wheel_motors
from mulewright.models.arithmetic import product
from mulewright.models.kinematics import top_speed
from mulewright.models.motor import speed_under_load
from mulewright.models.traction import wheel_speed


class FreeRunFacts(Facts):
    """A motor with nothing on its shaft at full stick and nominal volts."""

    kind = "motor that runs freely"
    none = "no motor is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "motor")

    @fact("rad/s", "speed of its shaft with nothing on it, full stick, nominal volts")
    def nominal_running_speed(self) -> Value:
        motor = self.of(MotorFacts, self.id)
        return self.by(
            speed_under_load, duty=motor.duty, voltage=motor.nominal_voltage, current=motor.free_current,
            resistance=motor.resistance, back_emf_constant=motor.back_emf_constant,
        )  # fmt: skip


class WheelRunFacts(Facts):
    """A motor that turns a wheel, with nothing to push."""

    kind = "wheel motor that runs freely"
    none = SlipFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, motor) for motor in wheel_motors(evaluation)]

    @property
    def motor(self) -> MotorFacts:
        """The motor."""
        return self.of(MotorFacts, self.id)

    @property
    def wheel(self) -> WheelFacts:
        """Its wheel."""
        return self.of(WheelFacts, "drive.wheel")

    @property
    def running(self) -> LoadFacts:
        """The motor while all wheels run freely at full stick."""
        return self.of(LoadFacts, f"{self.id}@drive-running")

    def _rim(self, speed: Value) -> Value:
        return self.by(wheel_speed, speed=speed, ratio=self.motor.ratio, wheel_radius=self.wheel.radius)

    @fact("rad/s", "speed of its shaft with nothing to push, full stick, rested battery")
    def running_speed(self) -> Value:
        return self.by(
            speed_under_load, duty=self.motor.duty, voltage=self.running.voltage,
            current=self.motor.free_current, resistance=self.motor.resistance,
            back_emf_constant=self.motor.back_emf_constant,
        )  # fmt: skip

    @fact("m/s", "speed of its wheel's rim then")
    def rim_speed(self) -> Value:
        return self._rim(self.running_speed)

    @fact("m/s", "speed of its wheel's rim with nothing to push, full stick, nominal volts")
    def nominal_rim_speed(self) -> Value:
        return self._rim(self.of(FreeRunFacts, self.id).nominal_running_speed)

    @fact("m/s", "speed of the machine to expect from its sheet, by rule of thumb")
    def expected_speed(self) -> Value:
        return self.by(
            top_speed, free_speed=self.motor.free_speed, duty=self.motor.duty, voltage=self.running.voltage,
            nominal_voltage=self.motor.nominal_voltage, reduction=self.motor.ratio,
            wheel_radius=self.wheel.radius, running_share=self.assumed("top_speed_factor"),
        )  # fmt: skip


class RollerFacts(Facts):
    """An intake or sweeping roller."""

    kind = "roller"
    none = "no roller on this mule"

    diameter = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        mechanisms = evaluation.mule.file.mechanism.items()
        return [
            evaluation.entity(cls, f"mechanism.{name}") for name, one in mechanisms if isinstance(one, Roller)
        ]

    @fact("m", "radius of the roller")
    def roller_radius(self) -> Value:
        return self.by(product, first=0.5, second=self.diameter)

    @fact("m/s", "speed of its rim with nothing to sweep, full stick, nominal volts")
    def roller_speed(self) -> Value:
        motors = self.mule.motors_turning(self.id)
        if not motors:
            raise Missing(f"a motor that turns {self.id}")
        return self.by(
            wheel_speed, speed=self.of(FreeRunFacts, motors[0]).nominal_running_speed,
            ratio=self.of(MotorFacts, motors[0]).ratio, wheel_radius=self.roller_radius,
        )  # fmt: skip
