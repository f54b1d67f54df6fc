"""Facts about what a function loses before it moves: volts to friction, way to slack."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.characters import character
from mulewright.design.schema.functions import Function
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Value
from mulewright.facts.sources import source_at
from mulewright.models.arithmetic import quotient
from mulewright.models.wire import voltage_drop


class FrictionFacts(Facts):
    """A mechanism whose friction somebody may have measured in volts."""

    kind = "mechanism with friction"
    none = "no mechanism is described"

    friction_voltage = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "mechanism")


class CreepingFacts(Facts):
    """A motor whose speed a driver sets."""

    kind = "motor of a speed"
    none = "no motor's speed is set by a driver"

    noted_friction = given(key="friction_voltage")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        mule = evaluation.mule
        motors = [f"motor.{name}" for name in mule.file.motor]
        served = {motor: mule.function_of(motor) for motor in motors}
        return [
            evaluation.entity(cls, motor)
            for motor, function in served.items()
            if function == "drive" or (function in mule.functions and character(mule, function) == "speed")
        ]

    @property
    def motor(self) -> MotorFacts:
        """The motor."""
        return self.of(MotorFacts, self.id)

    @fact("V", "volts that its free current takes: the least that friction can take")
    def own_friction(self) -> Value:
        return self.by(voltage_drop, current=self.motor.free_current, resistance=self.motor.resistance)

    @fact("V", "volts before it starts to move")
    def friction_floor(self) -> Value:
        turns = self.motor.motor.turns or ""
        routes = [("as measured at the motor", lambda: self.noted_friction)]
        if turns.startswith("mechanism."):
            measured = self.of(FrictionFacts, turns)
            routes.append(("as measured at what it turns", lambda: measured.friction_voltage))
        return self.first(*routes, ("the motor's own alone; nothing was measured", lambda: self.own_friction))

    @fact("V", "volts of its supply, at rest")
    def supply_volts(self) -> Value:
        source = self.mule.supply.source_of(self.motor.controller.id)
        return self.motor.nominal_voltage if source is None else source_at(self, source).rested

    @fact("1", "volts before it starts to move over those of its supply")
    def friction_share(self) -> Value:
        return self.by(quotient, part=self.friction_floor, whole=self.supply_volts)


class SlackFacts(Facts):
    """A function that should come back to a place."""

    kind = "function that should come back to a place"
    none = "nothing on this mule is asked to come back to a place"

    backlash = given()
    repeatability = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        asked = (
            id
            for id, thing in evaluation.mule.things.items()
            if isinstance(thing, Function) and thing.repeatability is not None
        )
        return [evaluation.entity(cls, id) for id in asked]

    @fact("1", "free travel over how exactly it should come back")
    def slack_share(self) -> Value:
        return self.by(quotient, part=self.backlash, whole=self.repeatability)
