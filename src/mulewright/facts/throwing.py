"""Facts about throwers: how much a shot slows the wheel, when it is back at speed, how far it throws."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.functions import Flywheel
from mulewright.facts.body import RoomFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.running import FreeRunFacts
from mulewright.models.arithmetic import product, quotient
from mulewright.models.gear import reflected_inertia
from mulewright.models.inertia import disc_inertia
from mulewright.models.motor_step import mechanical_time_constant
from mulewright.models.throwing import (
    HOLLOW_BALL,
    SOLID_BALL,
    hooded_wheel_drop,
    hooded_wheel_exit_speed,
    longest_throw,
    recovery_time,
    wheel_pair_drop,
    wheel_pair_exit_speed,
)

HOODED = "one-wheel-and-hood"
BALLS = {"solid": SOLID_BALL, "hollow": HOLLOW_BALL}


class ThrowerFacts(Facts):
    """A flywheel that throws."""

    kind = "thrower"
    none = "no flywheel on this mule"

    wheel_diameter = given()
    wheel_mass = given()
    noted_wheel_inertia = given(key="wheel_inertia")
    wheel_count = given()
    object_mass = given()
    interval = given()
    wanted_distance = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        mechanisms = evaluation.mule.file.mechanism.items()
        return [
            evaluation.entity(cls, f"mechanism.{name}")
            for name, one in mechanisms
            if isinstance(one, Flywheel)
        ]

    @property
    def flywheel(self) -> Flywheel:
        """Its table."""
        assert isinstance(self.table, Flywheel)
        return self.table

    @property
    def hooded(self) -> bool:
        """Whether one wheel throws along a hood, not two against each other."""
        return bool(self.choice("layout") == HOODED)

    @property
    def motors(self) -> list[str]:
        """The motors that turn it."""
        found = self.mule.motors_turning(self.id)
        if not found:
            raise Missing(f"a motor that turns {self.id}")
        return found

    @property
    def motor(self) -> MotorFacts:
        """The first of them; the others are taken to be alike."""
        return self.of(MotorFacts, self.motors[0])

    @property
    def room(self) -> RoomFacts:
        """Where it throws."""
        return self.of(RoomFacts, "room")

    @fact("m", "radius of its wheels")
    def thrower_radius(self) -> Value:
        return self.by(product, first=0.5, second=self.wheel_diameter)

    @fact("kg m2", "moment of inertia of one of its wheels")
    def wheel_inertia(self) -> Value:
        return self.first(
            ("as noted", lambda: self.noted_wheel_inertia),
            ("a full disc", lambda: self.by(
                disc_inertia, mass=self.wheel_mass, radius=self.thrower_radius
            )),
        )  # fmt: skip

    @fact("kg m2", "moment of inertia of all its wheels together")
    def inertia_in_all(self) -> Value:
        return self.by(product, first=self.wheel_inertia, second=self.wheel_count)

    @fact("kg m2", "moment of inertia of each of the two sides between which an object goes")
    def inertia_of_a_side(self) -> Value:
        return self.by(product, first=0.5, second=self.inertia_in_all)

    @fact("1", "moment of inertia of an object over its mass times its radius squared")
    def object_share(self) -> Value:
        form = self.choice("object_form")
        return self.found(BALLS[form], f"the object is a {form} ball")

    @fact("1", "share of its speed that a shot takes")
    def speed_drop(self) -> Value:
        if self.hooded:
            return self.by(
                hooded_wheel_drop, ball_mass=self.object_mass, ball_share=self.object_share,
                wheel_radius=self.thrower_radius, inertia=self.inertia_in_all,
            )  # fmt: skip
        return self.by(
            wheel_pair_drop, ball_mass=self.object_mass, wheel_radius=self.thrower_radius,
            inertia=self.inertia_of_a_side,
        )  # fmt: skip

    @fact("1", "motors that speed it up")
    def speeding_motors(self) -> Value:
        return self.found(len(self.motors), f"{', '.join(self.motors)} turn {self.id}")

    @fact("kg m2", "moment of inertia that each motor speeds up")
    def inertia_each(self) -> Value:
        return self.by(quotient, part=self.inertia_in_all, whole=self.speeding_motors)

    @fact("1", "turns of its wheels for one turn of a motor")
    def wheel_turns(self) -> Value:
        return self.by(quotient, part=1.0, whole=self.motor.ratio)

    @fact("kg m2", "the same as each motor feels it through its gear stages")
    def felt_inertia(self) -> Value:
        return self.by(reflected_inertia, inertia=self.inertia_each, speed_ratio=self.wheel_turns)

    @fact("s", "time in which it makes 63 % of a change of speed")
    def speeding_time(self) -> Value:
        return self.by(
            mechanical_time_constant, inertia=self.felt_inertia, resistance=self.motor.resistance,
            torque_constant=self.motor.torque_constant, back_emf_constant=self.motor.back_emf_constant,
        )  # fmt: skip

    @fact("1", "what may be missing from its speed when it counts as back")
    def speed_tolerance(self) -> Value:
        return self.assumed("back_at_speed")

    @fact("s", "time after a shot until it is back at its speed")
    def recovery(self) -> Value:
        return self.by(
            recovery_time, time_constant=self.speeding_time, drop=self.speed_drop,
            tolerance=self.speed_tolerance,
        )  # fmt: skip

    @fact("rad/s", "speed of its wheels at full command and nominal volts, nothing in them")
    def throwing_speed(self) -> Value:
        running = self.of(FreeRunFacts, self.motors[0])
        return self.by(quotient, part=running.nominal_running_speed, whole=self.motor.ratio)

    @fact("m/s", "speed of an object that leaves it, at most")
    def exit_speed(self) -> Value:
        model = hooded_wheel_exit_speed if self.hooded else wheel_pair_exit_speed
        return self.by(model, speed=self.throwing_speed, wheel_radius=self.thrower_radius)

    @fact("m", "distance that it throws over level ground, at most")
    def throw(self) -> Value:
        return self.by(longest_throw, speed=self.exit_speed)
