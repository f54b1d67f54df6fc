"""Facts about a whole session: the heat that a motor makes on average, and what it sheds in still air."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Value
from mulewright.facts.work import WorkFacts
from mulewright.models.arithmetic import product
from mulewright.models.heat import winding_heat

DRIVE = "drive"


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


class SessionMotorFacts(Facts):
    """A motor over a whole session."""

    kind = "motor in a session"
    none = MotorFacts.none

    mass = given()
    own_working_share = given(key="working_share")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, motor.id) for motor in MotorFacts.all(evaluation)]

    @property
    def motor(self) -> MotorFacts:
        """The motor."""
        return self.of(MotorFacts, self.id)

    @property
    def steady(self) -> WorkFacts:
        """The motor at its work."""
        return self.of(WorkFacts, self.id)

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

    @fact("W", "heat in its winding at work")
    def work_heat(self) -> Value:
        return self.by(winding_heat, current=self.steady.steady_current, resistance=self.motor.resistance)

    @fact("W", "the same on average over a session")
    def session_heat(self) -> Value:
        return self.by(product, first=self.work_heat, second=self.session_share)

    @fact("W", "heat that it sheds for ever in still air")
    def shed_heat(self) -> Value:
        return self.by(product, first=self.mass, second=self.assumed("motor_still_air_power"))
