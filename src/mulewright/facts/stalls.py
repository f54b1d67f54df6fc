"""Facts about motors that are held fast at full stick: current and torque, and what gearboxes make of it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.bus import LoadFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Value
from mulewright.models.arithmetic import quotient
from mulewright.models.motor import stall_torque_at


class StalledFacts(Facts):
    """A motor held fast at full stick on the rested battery, its own function alone."""

    kind = "motor held fast"
    none = "no motor is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "motor")

    @property
    def motor(self) -> MotorFacts:
        """The motor."""
        return self.of(MotorFacts, self.id)

    @property
    def held(self) -> LoadFacts:
        """The motor in that case."""
        return self.of(LoadFacts, f"{self.id}@{self.mule.function_of(self.id)}-stalled")

    @fact("A", "current through it when it is held fast, full stick, rested battery, all wires")
    def held_current(self) -> Value:
        return self.held.current

    @fact("N m", "torque of its shaft then")
    def held_torque(self) -> Value:
        return self.by(
            stall_torque_at, duty=self.motor.duty, voltage=self.held.voltage,
            resistance=self.motor.resistance, torque_constant=self.motor.torque_constant,
            free_current=self.motor.free_current,
        )  # fmt: skip


class GearboxFacts(Facts):
    """The gearbox of a gearmotor."""

    kind = "gearbox"
    none = "no motor with a gearbox is described"

    gearbox_limit = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        motors = evaluation.mule.file.motor.items()
        return [
            evaluation.entity(cls, f"motor.{name}") for name, motor in motors if motor.gearbox is not False
        ]

    @property
    def stalled(self) -> StalledFacts:
        """Its motor, held fast."""
        return self.of(StalledFacts, self.id)

    @fact("1", "torque of the shaft held fast over what its gearbox bears")
    def gearbox_share(self) -> Value:
        return self.by(quotient, part=self.stalled.held_torque, whole=self.gearbox_limit)
