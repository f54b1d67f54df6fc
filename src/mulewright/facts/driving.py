"""Facts about driving over the floor: push, speed, and whether speeding up, braking or a slope tips it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.body import BodyFacts, RoomFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.reach import ReachFacts
from mulewright.facts.running import WheelRunFacts
from mulewright.facts.slipping import SlipFacts, wheel_motors
from mulewright.facts.standing import ROLLERS, StandingFacts
from mulewright.models.arithmetic import deviation, largest, quotient, smallest
from mulewright.models.body import slope_ratio, tip_ratio
from mulewright.models.bus import total
from mulewright.models.moving import kinetic_energy, slope_force, traction_acceleration
from mulewright.models.straightness import drift_offset


class DrivingFacts(Facts):
    """The drive as a whole."""

    kind = "drive"
    none = StandingFacts.none

    side_mismatch = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "drive")] if evaluation.mule.file.drive is not None else []

    @property
    def standing(self) -> StandingFacts:
        """The drive at rest."""
        return self.of(StandingFacts, "drive")

    @property
    def body(self) -> BodyFacts:
        """The machine as one mass."""
        return self.of(BodyFacts, "body")

    @property
    def out(self) -> ReachFacts:
        """The machine with its arms straight out, if it has any."""
        return self.of(ReachFacts, "body")

    @property
    def room(self) -> RoomFacts:
        """Where it drives."""
        return self.of(RoomFacts, "room")

    @property
    def motors(self) -> list[str]:
        """The motors that turn its wheels."""
        found = wheel_motors(self.evaluation)
        if not found:
            raise Missing("a motor that turns a wheel")
        return found

    @fact("N", "push ahead that the motors have at full stick, wheels held, on the rested battery")
    def motor_push(self) -> Value:
        return self.by(total, values=[self.of(SlipFacts, motor).push for motor in self.motors])

    @fact("N", "push ahead: what the grip allows, or what the motors have, if less")
    def push(self) -> Value:
        return self.by(smallest, values=[self.standing.grip, self.motor_push])

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

    @fact("m/s", "speed of its fastest wheel with nothing to push, full stick, rested battery")
    def top_speed(self) -> Value:
        return self.by(largest, values=[self.of(WheelRunFacts, motor).rim_speed for motor in self.motors])

    @fact("m/s", "speed of its fastest wheel with nothing to push, full stick, nominal volts")
    def nominal_top_speed(self) -> Value:
        return self.by(
            largest, values=[self.of(WheelRunFacts, motor).nominal_rim_speed for motor in self.motors]
        )

    @fact("J", "energy of the machine at that speed, nothing carried")
    def moving_energy(self) -> Value:
        return self.by(kinetic_energy, mass=self.body.mass, speed=self.top_speed)

    @fact("m/s2", "deceleration that the grip of all its wheels allows")
    def braking(self) -> Value:
        if self.standing.drive_kind == ROLLERS:
            return self.by(quotient, part=self.standing.grip, whole=self.body.mass)
        return self.by(
            traction_acceleration, friction=self.standing.wheel.friction, driven_load=self.body.weight,
            mass=self.body.mass,
        )  # fmt: skip

    @fact("1", "that deceleration over the one that tips it forward")
    def tips_forward_ratio(self) -> Value:
        return self.by(tip_ratio, acceleration=self.braking, tipping=self.out.tips_forward_at)

    @fact("N", "push that the steepest slope asks, rolling included")
    def climbing_force(self) -> Value:
        return self.by(
            slope_force,
            mass=self.body.mass,
            slope=self.room.steepest,
            rolling=self.standing.wheel.rolling_resistance,
        )

    @fact("1", "steepest slope over the one on which it tips backwards")
    def tips_on_slope_ratio(self) -> Value:
        return self.by(
            slope_ratio, slope=self.room.steepest, distance=self.body.center_ahead,
            height=self.body.center_height,
        )  # fmt: skip


class WantedSpeedFacts(Facts):
    """A drive whose task names a speed."""

    kind = "drive with a wanted speed"
    none = "the task names no speed"

    wanted_speed = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        drive = evaluation.mule.file.drive
        return [evaluation.entity(cls, "drive")] if drive is not None and drive.wanted_speed else []

    @property
    def driving(self) -> DrivingFacts:
        """The drive."""
        return self.of(DrivingFacts, "drive")

    @fact("m/s", "speed to expect: that of its slowest wheel, by rule of thumb from its sheet")
    def expected(self) -> Value:
        return self.by(
            smallest, values=[self.of(WheelRunFacts, motor).expected_speed for motor in self.driving.motors]
        )

    @fact("1", "how far that is from the wanted speed")
    def speed_deviation(self) -> Value:
        return self.by(deviation, value=self.expected, reference=self.wanted_speed)
