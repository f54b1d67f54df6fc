"""Facts about the first small push of a stick, wheels up: the volts at each motor, and what its supply has to give.

A meter on its DC range shows the mean of the pulses at a motor's terminals: the duty times the volts at its controller.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Self

from mulewright.facts.body import WheelFacts
from mulewright.facts.bus import LoadFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Value
from mulewright.facts.outputs import ControllerSignalFacts
from mulewright.facts.servo_travel import TesterPulseFacts
from mulewright.facts.slipping import SlipFacts, wheel_motors
from mulewright.facts.sources import source_of
from mulewright.models.arithmetic import difference, largest, product, smallest
from mulewright.models.duty import duty_jump, duty_rescaled
from mulewright.models.motion import travel_time
from mulewright.models.motor import speed_under_load, stall_current
from mulewright.models.moving import runaway_distance
from mulewright.models.signal import expo_curve
from mulewright.models.traction import wheel_speed


class FirstPushFacts(Facts):
    """A motor that runs for the first time, with nothing on its shaft."""

    kind = "motor at its first push"
    none = "no motor is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, f"motor.{name}") for name in evaluation.mule.file.motor]

    @property
    def motor(self) -> MotorFacts:
        """The motor."""
        return self.of(MotorFacts, self.id)

    @property
    def signal(self) -> ControllerSignalFacts:
        """What its controller makes of pulses."""
        return self.motor.controller

    @property
    def supply(self) -> Value:
        """Volts at its controller while its function runs freely at full stick."""
        return self.of(LoadFacts, f"{self.id}@{self.mule.function_of(self.id)}-running").voltage

    def _duty(self, pulse: Value) -> Value:
        return self.by(
            duty_model(self.signal), deviation=pulse, controller_half_range=self.signal.full_pulse,
            dead_band=self.signal.dead_band,
        )  # fmt: skip

    # --- a small stick

    @fact("1", "twice the part of the stick that does nothing")
    def twice_dead(self) -> Value:
        return self.by(product, first=2.0, second=self.signal.dead_stick)

    @fact("1", "a small stick that is not lost in what does nothing")
    def wanted_stick(self) -> Value:
        return self.by(largest, values=[self.assumed("first_stick"), self.twice_dead])

    @fact("1", "how far the stick is pushed for the first time")
    def first_stick(self) -> Value:
        return self.by(smallest, values=[self.wanted_stick, 1.0])

    @fact("1", "what the radio makes of that: its curve")
    def small_command(self) -> Value:
        expo = self.signal.output.main[0].control.expo
        return self.by(expo_curve, stick=self.first_stick, expo=expo)

    @fact("s", "pulse from neutral for a small stick")
    def small_pulse(self) -> Value:
        return self.by(product, first=self.small_command, second=self.signal.output.size)

    @fact("1", "share of the supply that the motor gets then")
    def small_duty(self) -> Value:
        return self._duty(self.small_pulse)

    @fact("V", "volts at the motor at a small stick, as a meter shows them")
    def small_volts(self) -> Value:
        return self.by(product, first=self.small_duty, second=self.supply)

    @fact("A", "current through the motor when it starts at a small stick")
    def small_start(self) -> Value:
        return self.by(
            stall_current, duty=self.small_duty, voltage=self.supply, resistance=self.motor.resistance
        )

    @fact("A", "current that its supply gives for that start")
    def small_start_draw(self) -> Value:
        return self.by(product, first=self.small_duty, second=self.small_start)

    # --- a full stick

    @fact("V", "volts at the motor at full stick with nothing on its shaft, as a meter shows them")
    def full_volts(self) -> Value:
        return self.by(product, first=self.motor.duty, second=self.supply)

    @fact("A", "current that its supply gives while it runs freely at full stick")
    def free_draw(self) -> Value:
        return self.by(product, first=self.motor.duty, second=self.motor.free_current)


class FirstMetreFacts(Facts):
    """The drive on its first metre over the floor, at a small stick."""

    kind = "drive on its first metre"
    none = DrivingFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, one.id) for one in DrivingFacts.all(evaluation)]

    @fact("m/s", "speed at a small stick with nothing to push")
    def small_speed(self) -> Value:
        wheels = [self.of(FirstWheelFacts, motor) for motor in self.of(DrivingFacts, self.id).motors]
        return self.by(largest, values=[wheel.small_rim_speed for wheel in wheels])

    @fact("s", "time for the first metre at that speed")
    def first_metre(self) -> Value:
        return self.by(travel_time, way=1.0, speed=self.small_speed)

    def _stop(self, deceleration: Value) -> Value:
        return self.by(
            runaway_distance, speed=self.of(DrivingFacts, self.id).top_speed, fail_safe_delay=0.0,
            reaction_time=0.0, deceleration=deceleration,
        )  # fmt: skip

    @fact("m", "shortest way from full speed until it stands: all that the grip allows")
    def braked_way(self) -> Value:
        return self._stop(self.of(DrivingFacts, self.id).braking)

    @fact("m", "longest way from full speed until it stands: it coasts")
    def coasted_way(self) -> Value:
        return self._stop(self.assumed("coasting_deceleration"))


class FirstWheelFacts(FirstPushFacts):
    """A motor that turns a wheel, at a small stick with nothing to push."""

    kind = "wheel motor at its first push"
    none = SlipFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, motor) for motor in wheel_motors(evaluation)]

    @fact("V", "volts at a small stick, and never less than its free current needs")
    def moving_volts(self) -> Value:
        return self.by(largest, values=[self.small_volts, self.idle_volts])

    @fact("V", "volts that its free current needs in its winding")
    def idle_volts(self) -> Value:
        return self.by(product, first=self.motor.free_current, second=self.motor.resistance)

    @fact("rad/s", "speed of its shaft at a small stick")
    def small_shaft_speed(self) -> Value:
        return self.by(
            speed_under_load, duty=1.0, voltage=self.moving_volts, current=self.motor.free_current,
            resistance=self.motor.resistance, back_emf_constant=self.motor.back_emf_constant,
        )  # fmt: skip

    @fact("m/s", "speed of its wheel's rim then")
    def small_rim_speed(self) -> Value:
        radius = self.of(WheelFacts, "drive.wheel").radius
        return self.by(wheel_speed, speed=self.small_shaft_speed, ratio=self.motor.ratio, wheel_radius=radius)


class TesterPushFacts(Facts):
    """A motor whose controller hangs on a servo tester, its knob turned all the way: ``motor.left@tester.bench``."""

    kind = "motor on a servo tester"
    none = "no motor hangs on a servo tester"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        motor, tester = id.split("@")
        self.motor, self.tester = self.of(MotorFacts, motor), self.of(TesterPulseFacts, tester)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = []
        for motor in evaluation.mule.file.motor:
            controller = evaluation.mule.controller_of.get(f"motor.{motor}")
            source = evaluation.mule.signals.trace(controller).source if controller else None
            if source is not None and source.startswith("tester."):
                found.append(evaluation.entity(cls, f"motor.{motor}@{source}"))
        return found

    @fact("s", "pulse from the controller's neutral to the tester's longest")
    def knob_pulse(self) -> Value:
        return self.by(difference, first=self.tester.high, second=self.motor.controller.neutral)

    @fact("1", "share of the supply that its motor gets then")
    def knob_duty(self) -> Value:
        signal = self.motor.controller
        return self.by(
            duty_model(signal), deviation=self.knob_pulse, controller_half_range=signal.half_range,
            dead_band=signal.dead_band,
        )  # fmt: skip

    @fact("V", "volts at its motor then, as a meter shows them, the battery rested")
    def knob_volts(self) -> Value:
        source = source_of(self, self.motor.controller.id)
        return self.by(product, first=self.knob_duty, second=source.rested)

    @fact("A", "current that its supply gives then, with nothing on the shaft")
    def knob_draw(self) -> Value:
        return self.by(product, first=self.knob_duty, second=self.motor.free_current)


def duty_model(signal: ControllerSignalFacts) -> Callable[..., Value]:
    """What a controller makes of a pulse: from nothing after its dead band, or with a jump."""
    return duty_jump if signal.choice("response") == "jump" else duty_rescaled
