"""Facts about raising and holding a load on this battery: margin, speed, hold band, sink rate."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

import numpy as np

from mulewright.facts.bus import CaseFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.fail_safe import LostLinkFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.loads import ArmFacts, HeldFacts, LiftFacts, WinchFacts, held_by
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.models.arithmetic import quotient
from mulewright.models.hold import coasting_sink_speed, hold_duty_lower, hold_duty_upper, sink_speed
from mulewright.models.joint import safety_factor
from mulewright.models.motion import travel_time
from mulewright.models.motor import scaled_stall_torque, speed_under_load
from mulewright.models.rope import lift_speed


class RaisingFacts(Facts):
    """A raised load on this battery."""

    kind = "raised load on its battery"
    none = "no motor on this mule raises a load"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        raised = HeldFacts.all(evaluation)
        return [evaluation.entity(cls, held.id) for held in raised if not held.by_servo]

    @property
    def held(self) -> HeldFacts:
        """What gravity asks."""
        held = held_by(self.evaluation, self.id)
        assert held is not None
        return held

    @property
    def motor(self) -> MotorFacts:
        """Its motor."""
        return self.held.motor

    @property
    def working(self) -> CaseFacts:
        """The case that it raises its load and nothing else runs."""
        return self.of(CaseFacts, f"{self.held.name}-working")

    @fact("V", "voltage at its controller while it raises the load, from the rested battery")
    def working_voltage(self) -> Value:
        return self.working.place(self.motor.controller.id).voltage

    @fact("N m", "torque that the motor has at full stick and that voltage, shaft held")
    def available(self) -> Value:
        return self.by(
            scaled_stall_torque, duty=self.motor.duty, voltage=self.working_voltage,
            nominal_voltage=self.motor.nominal_voltage, stall_torque=self.motor.stall_torque,
        )  # fmt: skip

    @fact("1", "torque available over torque asked, with the battery's sag")
    def margin(self) -> Value:
        return self.by(safety_factor, available=self.available, needed=self.held.asked)

    @fact("N m", "torque that the motor has at full stick and nominal volts, shaft held")
    def nominal_available(self) -> Value:
        return self.by(
            scaled_stall_torque, duty=self.motor.duty, voltage=self.motor.nominal_voltage,
            nominal_voltage=self.motor.nominal_voltage, stall_torque=self.motor.stall_torque,
        )  # fmt: skip

    @fact("1", "torque available over torque asked at nominal volts")
    def nominal_margin(self) -> Value:
        return self.by(safety_factor, available=self.nominal_available, needed=self.held.asked)

    @fact("1", "duty below which it starts to sink in brake mode, at nominal volts")
    def hold_low(self) -> Value:
        return self.by(
            hold_duty_lower, torque=self.torque_each, back_efficiency=self.held.back_efficiency,
            resistance=self.motor.resistance, ratio=self.motor.ratio,
            back_emf_constant=self.motor.back_emf_constant, voltage=self.motor.nominal_voltage,
        )  # fmt: skip

    @fact("1", "duty above which it starts to rise, at nominal volts, without the free current")
    def hold_high(self) -> Value:
        return self.by(
            hold_duty_upper, torque=self.torque_each, resistance=self.motor.resistance,
            ratio=self.motor.ratio, efficiency=self.held.efficiency,
            torque_constant=self.motor.torque_constant, voltage=self.motor.nominal_voltage,
        )  # fmt: skip

    @fact("N m", "gravity's torque on the shaft for each motor")
    def torque_each(self) -> Value:
        if len(self.held.motors) == 1:
            return self.held.torque
        return self.by(quotient, part=self.held.torque, whole=self.held.sharing)

    @fact("rad/s", "speed of its shaft at nominal volts with the load, full stick")
    def speed(self) -> Value:
        return self.by(
            speed_under_load, duty=self.motor.duty, voltage=self.motor.nominal_voltage,
            current=self.held.current, resistance=self.motor.resistance,
            back_emf_constant=self.motor.back_emf_constant,
        )  # fmt: skip

    @fact("rad/s", "speed of its shaft outside the gears")
    def shaft_speed(self) -> Value:
        return self.by(quotient, part=self.speed, whole=self.motor.ratio)

    @fact("rad/s", "speed at which its shaft sinks when the stick is let go")
    def sink(self) -> Value:
        if getattr(self.table, "ratchet", None):
            return self.found(0, "a ratchet keeps it from running back")
        if self.stopping == "coast":
            return self.by(
                coasting_sink_speed, torque=self.torque_each, back_efficiency=self.held.back_efficiency
            )
        return self.by(
            sink_speed, torque=self.torque_each, back_efficiency=self.held.back_efficiency,
            resistance=self.motor.resistance, ratio=self.motor.ratio,
            back_emf_constant=self.motor.back_emf_constant,
        )  # fmt: skip

    @property
    def stopping(self) -> str:
        """What its controller does at neutral: brake or coast."""
        controller = self.motor.controller
        found: str | None = getattr(controller.table, "stopping", None)
        if found not in ("brake", "coast"):
            raise Missing(f"{controller.id}.stopping")
        return found

    @property
    def lost_link(self) -> LostLinkFacts:
        """What its controller does when the link is lost."""
        return self.of(LostLinkFacts, self.motor.controller.id)

    @property
    def measured(self) -> RaisingArmFacts | RaisingOnRopeFacts:
        """The same as people measure it: in degrees, or in metres."""
        if isinstance(self.held, ArmFacts):
            return self.of(RaisingArmFacts, self.id)
        return self.of(RaisingOnRopeFacts, self.id)


class RaisingArmFacts(Facts):
    """An arm on this battery, as people measure it."""

    kind = "arm on its battery"
    none = ArmFacts.none

    travel = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, arm.id) for arm in ArmFacts.all(evaluation)]

    @fact("rad/s", "speed at which it moves by itself when the stick is let go")
    def creep(self) -> Value:
        return self.of(RaisingFacts, self.id).sink

    @fact("rad/s", "speed up to which it passes for standing still")
    def still(self) -> Value:
        return self.assumed("arm_standing_still")

    @fact("1", "speed at which it moves by itself over what passes for standing still")
    def creep_share(self) -> Value:
        return self.by(quotient, part=self.creep, whole=self.still)

    @fact("rad/s", "speed going up at nominal volts, full stick")
    def rise_speed(self) -> Value:
        return self.of(RaisingFacts, self.id).shaft_speed

    @fact("s", "time over its whole way going up")
    def rise_time(self) -> Value:
        return self.by(travel_time, way=self.travel, speed=self.rise_speed)


class RaisingOnRopeFacts(Facts):
    """A lift or a lifting winch on this battery, in metres."""

    kind = "lift or lifting winch"
    none = "no lift and no lifting winch on this mule"

    time_budget = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        held = [*LiftFacts.all(evaluation), *WinchFacts.all(evaluation)]
        return [evaluation.entity(cls, one.id) for one in held]

    @property
    def rope(self) -> LiftFacts | WinchFacts:
        """What hangs on the rope."""
        held = self.raising.held
        assert isinstance(held, LiftFacts | WinchFacts)
        return held

    @property
    def raising(self) -> RaisingFacts:
        """The same in radians."""
        return self.of(RaisingFacts, self.id)

    @fact("1", "travel of the load over travel of the rope")
    def ratio(self) -> Value:
        rope = self.rope
        return rope.load_ratio if isinstance(rope, LiftFacts) else self.found(1, "the load hangs on the rope")

    @fact("m", "height that it raises the load")
    def climbs(self) -> Value:
        rope = self.rope
        return rope.travel if isinstance(rope, LiftFacts) else rope.height

    @fact("m/s", "speed of the load going up at nominal volts, full stick")
    def rise_speed(self) -> Value:
        return self.by(
            lift_speed, travel_ratio=self.ratio, speed=self.raising.shaft_speed, radius=self.rope.drum_radius
        )

    @fact("s", "time over its whole travel going up")
    def rise_time(self) -> Value:
        return self.by(travel_time, way=self.climbs, speed=self.rise_speed)

    @fact("s", "time that its task allows for that; no limit where none is noted")
    def allowed_time(self) -> Value:
        if self.table.quantity("time_budget") is None:
            return self.found(np.inf, "no time budget is noted for it")
        return self.time_budget

    @fact("m/s", "speed at which the load moves by itself when the stick is let go")
    def creep(self) -> Value:
        return self.by(
            lift_speed, travel_ratio=self.ratio, speed=self.raising.sink, radius=self.rope.drum_radius
        )

    @fact("m/s", "speed up to which it passes for standing still")
    def still(self) -> Value:
        return self.assumed("lift_standing_still")

    @fact("1", "speed at which it moves by itself over what passes for standing still")
    def creep_share(self) -> Value:
        return self.by(quotient, part=self.creep, whole=self.still)
