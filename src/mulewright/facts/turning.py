"""Facts about turns at speed: how hard the worst one pulls aside, and what that takes to tip the machine."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact
from mulewright.facts.directions import WheelCommandFacts, WheelMotorFacts
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import ControllerSignalFacts, MixerBoxFacts, OutputFacts
from mulewright.facts.running import WheelRunFacts
from mulewright.facts.standing import ROLLERS, StandingFacts
from mulewright.models.arithmetic import largest, magnitude, product
from mulewright.models.body import tip_ratio, tipping_acceleration
from mulewright.models.duty import duty_jump, duty_rescaled
from mulewright.models.motor import speed_under_load
from mulewright.models.rollers import turning_lever
from mulewright.models.traction import wheel_speed
from mulewright.models.turning import turning_acceleration

TWO_STICKS = "two-sticks"


class DrivenWheelFacts(Facts):
    """A wheel's motor with some pulse at its controller, nothing to push."""

    kind = "wheel at some command"
    none = WheelMotorFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return []

    @property
    def motor(self) -> MotorFacts:
        """The motor."""
        return self.of(MotorFacts, self.id.split("@")[0])

    @fact("s", "pulse from neutral")
    def wheel_pulse(self) -> Value:
        raise Missing(self.id)

    @fact("1", "share of the supply that it gives the motor")
    def wheel_duty(self) -> Value:
        signal: ControllerSignalFacts = self.motor.controller
        model = duty_jump if signal.choice("response") == "jump" else duty_rescaled
        return self.by(
            model, deviation=self.wheel_pulse, controller_half_range=signal.full_pulse,
            dead_band=signal.dead_band,
        )  # fmt: skip

    @fact("rad/s", "speed of the motor's shaft then, rested battery")
    def wheel_shaft_speed(self) -> Value:
        motor = self.motor
        return self.by(
            speed_under_load, duty=self.wheel_duty, voltage=self.of(WheelRunFacts, motor.id).running.voltage,
            current=motor.free_current, resistance=motor.resistance,
            back_emf_constant=motor.back_emf_constant,
        )  # fmt: skip

    @fact("m/s", "speed of the wheel's rim then; below 0 where nothing comes through")
    def wheel_rim_speed(self) -> Value:
        wheel = self.of(WheelRunFacts, self.motor.id).wheel
        return self.by(
            wheel_speed, speed=self.wheel_shaft_speed, ratio=self.motor.ratio, wheel_radius=wheel.radius
        )


class CommandedWheelFacts(DrivenWheelFacts):
    """A wheel with one command of the drive at its end: ``motor.left@turn``."""

    kind = "wheel at one full command"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, one.id) for one in WheelCommandFacts.all(evaluation)]

    @fact("s", "size of the pulse from neutral for a full push of the command")
    def wheel_pulse(self) -> Value:
        return self.by(magnitude, value=self.of(WheelCommandFacts, self.id).pulse)


class LimitedWheelFacts(DrivenWheelFacts):
    """A wheel with the largest pulse that its mix or its channel lets through: ``motor.left``."""

    kind = "wheel at its largest pulse"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, motor.id) for motor in WheelMotorFacts.all(evaluation)]

    @fact("s", "largest pulse from neutral that its box, or the endpoint of its channel, lets through")
    def wheel_pulse(self) -> Value:
        controller = self.motor.controller.id
        trace = self.mule.signals.trace(controller)
        if trace.mixer is not None:
            return self.of(MixerBoxFacts, trace.mixer[0]).half_range
        parts = self.of(OutputFacts, controller).parts
        if not parts:
            raise Missing(f"{controller}.signal")
        return self.by(product, first=parts[0].radio.half_range, second=parts[0].channel.upward)


class TurningFacts(Facts):
    """A drive that turns at speed."""

    kind = "drive that turns"
    none = "no drive of this mule turns at a command"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = evaluation.entity(cls, "drive")
        drive = evaluation.mule.file.drive
        return [found] if drive is not None and (drive.kind is None or found.turns) else []

    @property
    def turns(self) -> bool:
        """Whether the driver commands a turn, or each side by itself."""
        return bool({"turn", "left"} & set(self.mule.drive_commands))

    @property
    def driving(self) -> DrivingFacts:
        """The drive on its way."""
        return self.of(DrivingFacts, "drive")

    def _fastest(self, command: str) -> Value:
        wheels = [self.of(CommandedWheelFacts, f"{motor}@{command}") for motor in self.driving.motors]
        return self.by(largest, values=[wheel.wheel_rim_speed for wheel in wheels])

    @property
    def _mixed(self) -> bool:
        return self.of(StandingFacts, "drive").drive_kind != TWO_STICKS

    @fact("m/s", "speed of its fastest rim at full forward alone")
    def forward_rim_speed(self) -> Value:
        return self._fastest("forward") if self._mixed else self.driving.top_speed

    @fact("m/s", "speed of its fastest rim at full turn alone")
    def turn_rim_speed(self) -> Value:
        return self._fastest("turn") if self._mixed else self.driving.top_speed

    @fact("m/s", "speed of its fastest rim at the largest pulse that gets through")
    def limit_rim_speed(self) -> Value:
        if not self._mixed:
            return self.driving.top_speed
        wheels = [self.of(LimitedWheelFacts, motor) for motor in self.driving.motors]
        return self.by(largest, values=[wheel.wheel_rim_speed for wheel in wheels])

    @fact("m", "speed of its rims for each radian a second of turning")
    def turning_lever(self) -> Value:
        if self.of(StandingFacts, "drive").drive_kind == ROLLERS:
            half_base = self.driving.body.half_wheelbase
            return self.by(turning_lever, half_wheelbase=half_base, half_track=self.driving.body.half_track)
        return self.driving.body.half_track

    @fact("m/s2", "sideways acceleration in its worst turn")
    def turning_acceleration(self) -> Value:
        return self.by(
            turning_acceleration, forward=self.forward_rim_speed, turn=self.turn_rim_speed,
            limit=self.limit_rim_speed, lever=self.turning_lever,
        )  # fmt: skip

    @fact("m/s2", "sideways acceleration that takes the weight off the inner wheels, arms out")
    def tips_aside_at(self) -> Value:
        return self.by(
            tipping_acceleration, distance=self.driving.body.half_track, height=self.driving.out.height_out
        )

    @fact("1", "sideways acceleration in its worst turn over the one that tips it")
    def tips_aside_ratio(self) -> Value:
        return self.by(tip_ratio, acceleration=self.turning_acceleration, tipping=self.tips_aside_at)
