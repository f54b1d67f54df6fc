"""Facts about a whole session: the heat that a motor makes on average, and what it sheds in still air."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.functions import Flywheel, Spinner
from mulewright.facts.body import BodyFacts, WheelFacts
from mulewright.facts.graph import Evaluation, Facts, Value, fact, given
from mulewright.facts.loads import held_by
from mulewright.facts.motors import MotorFacts
from mulewright.facts.slipping import wheel_motors
from mulewright.models.arithmetic import product, quotient
from mulewright.models.heat import winding_heat
from mulewright.models.joint import needed_torque
from mulewright.models.motor import current_for_torque
from mulewright.models.moving import slope_force
from mulewright.models.rope import drum_torque

DRIVE = "drive"


class RollingFacts(Facts):
    """A drive that rolls along on the level."""

    kind = "drive that rolls"
    none = WheelFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, DRIVE)] if evaluation.mule.file.drive is not None else []

    @fact("N", "push that rolling along on the level takes")
    def rolling_push(self) -> Value:
        return self.by(
            slope_force, mass=self.of(BodyFacts, "body").mass, slope=0.0,
            rolling=self.of(WheelFacts, "drive.wheel").rolling_resistance,
        )  # fmt: skip

    @fact("1", "motors that share it")
    def rolling_motors(self) -> Value:
        motors = wheel_motors(self.evaluation)
        return self.found(len(motors), f"{', '.join(motors)} turn its wheels")

    @fact("N", "push that each of its motors gives")
    def rolling_push_each(self) -> Value:
        return self.by(quotient, part=self.rolling_push, whole=self.rolling_motors)

    @fact("N m", "torque on the wheel of each motor")
    def rolling_torque(self) -> Value:
        wheel = self.of(WheelFacts, "drive.wheel")
        return self.by(drum_torque, force=self.rolling_push_each, radius=wheel.radius)


class SharedTimeFacts(Facts):
    """The drive or a mechanism: for which share of a session it works."""

    kind = "function in a session"
    none = "no drive and no mechanism is described"

    working_share = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        file = evaluation.mule.file
        ids = [DRIVE] if file.drive is not None else []
        return [
            evaluation.entity(cls, id) for id in [*ids, *(f"mechanism.{name}" for name in file.mechanism)]
        ]


class SpinnerFacts(Facts):
    """Anything that just turns."""

    kind = "spinner"
    none = "nothing on this mule just turns"

    work_torque = given(key="load_torque")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        mechanisms = evaluation.mule.file.mechanism.items()
        return [
            evaluation.entity(cls, f"mechanism.{name}")
            for name, one in mechanisms
            if isinstance(one, Spinner)
        ]


class SessionMotorFacts(Facts):
    """A motor over a whole session."""

    kind = "motor in a session"
    none = MotorFacts.none

    mass = given()
    own_working_share = given(key="working_share")
    work_torque = given(key="load_torque")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, motor.id) for motor in MotorFacts.all(evaluation)]

    @property
    def motor(self) -> MotorFacts:
        """The motor."""
        return self.of(MotorFacts, self.id)

    @property
    def serves(self) -> str:
        """What it turns: the drive, a mechanism, or nothing that is named."""
        turns = self.motor.motor.turns or ""
        return DRIVE if turns.startswith("wheel.") else turns

    @fact("1", "share of a session for which it works")
    def session_share(self) -> Value:
        own = ("as noted for the motor", lambda: self.own_working_share)
        if not self.serves:
            return self.own_working_share
        served = self.of(SharedTimeFacts, self.serves)
        return self.first(("as noted for what it turns", lambda: served.working_share), own)

    @fact("N m", "torque at work on what it turns")
    def outer_torque(self) -> Value:
        if self.serves == DRIVE:
            return self.of(RollingFacts, DRIVE).rolling_torque
        if isinstance(self.mule.things.get(self.serves), Spinner):
            spinner = self.of(SpinnerFacts, self.serves)
            return self.first(
                ("as noted", lambda: spinner.work_torque), ("as noted", lambda: self.work_torque)
            )
        return self.work_torque

    @fact("N m", "torque at work at its shaft")
    def shaft_torque(self) -> Value:
        return self.by(
            needed_torque, torque=self.outer_torque, ratio=self.motor.ratio, efficiency=self.motor.train
        )

    @fact("A", "current through it at work")
    def session_current(self) -> Value:
        if isinstance(self.mule.things.get(self.serves), Flywheel):
            return self.motor.free_current
        held = held_by(self.evaluation, self.serves)
        if held is not None:
            return held.current
        return self.by(
            current_for_torque, torque=self.shaft_torque, torque_constant=self.motor.torque_constant,
            free_current=self.motor.free_current,
        )  # fmt: skip

    @fact("W", "heat in its winding at work")
    def work_heat(self) -> Value:
        return self.by(winding_heat, current=self.session_current, resistance=self.motor.resistance)

    @fact("W", "the same on average over a session")
    def session_heat(self) -> Value:
        return self.by(product, first=self.work_heat, second=self.session_share)

    @fact("W", "heat that it sheds for ever in still air")
    def shed_heat(self) -> Value:
        return self.by(product, first=self.mass, second=self.assumed("motor_still_air_power"))
