"""Facts about the current that a controller bears for long, and the one of a flick into reverse."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.bus import LoadFacts
from mulewright.facts.controller_load import ControllerLoadFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Value
from mulewright.facts.ratings import RatingFacts
from mulewright.facts.slipping import SlipFacts
from mulewright.facts.sources import source_of
from mulewright.facts.work import WorkFacts
from mulewright.models.arithmetic import quotient
from mulewright.models.bus import total
from mulewright.models.motor import relieved_limit, reversal_peak_current, speed_under_load


class ControllerWorkFacts(ControllerLoadFacts):
    """A controller whose motors are at their work."""

    kind = "controller at work"
    none = "no controller feeds a motor"

    @fact("A", "current through it for long, its motors at their work at full stick")
    def work_current(self) -> Value:
        currents = [self.of(WorkFacts, motor).steady_current for motor in self.fed]
        return currents[0] if len(currents) == 1 else self.by(total, values=currents)

    @fact("1", "that current over the one that it bears for ever in moving air")
    def work_share(self) -> Value:
        return self.by(quotient, part=self.work_current, whole=self.rating.continuous_current)


class FreshReversalFacts(Facts):
    """A motor told to run the other way at full speed, on a battery straight off the charger that does not sag."""

    kind = "motor turned round on a fresh battery"
    none = "no motor is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, motor.id) for motor in MotorFacts.all(evaluation)]

    @property
    def motor(self) -> MotorFacts:
        """The motor."""
        return self.of(MotorFacts, self.id)

    @fact("V", "highest volts of what feeds it: of a battery straight off the charger")
    def fresh_voltage(self) -> Value:
        controller = self.motor.controller.id
        return source_of(self, controller).full

    @fact("rad/s", "speed of its shaft at those volts, nothing on it, full stick")
    def fresh_speed(self) -> Value:
        return self.by(
            speed_under_load, duty=self.motor.duty, voltage=self.fresh_voltage,
            current=self.motor.free_current, resistance=self.motor.resistance,
            back_emf_constant=self.motor.back_emf_constant,
        )  # fmt: skip

    @fact("A", "current through it when the full stick is flicked the other way")
    def fresh_reversal(self) -> Value:
        return self.by(
            reversal_peak_current, duty=self.motor.duty, voltage=self.fresh_voltage, speed=self.fresh_speed,
            back_emf_constant=self.motor.back_emf_constant, resistance=self.motor.resistance,
        )  # fmt: skip


class ReversalFacts(ControllerLoadFacts):
    """A controller whose motors are told to run the other way at full speed."""

    kind = "controller flicked into reverse"
    none = "no controller feeds a motor"

    @property
    def never(self) -> str:
        """Why it is never flicked into reverse; empty where it can be."""
        direction = self.of(RatingFacts, self.id).choice("direction")
        if direction == "one-way":
            return "it turns one way only"
        if direction == "stop-then-reverse":
            return "it stops the motor before it reverses"
        motors = self.mule.file.motor
        if all(motors[motor.split(".", 1)[1]].runs == "one-way" for motor in self.fed):
            return "its motors are needed one way only"
        return ""

    def _held(self, motor: str) -> LoadFacts:
        return self.of(LoadFacts, f"{motor}@{self.mule.function_of(motor)}-reversing")

    @fact("A", "current through it when the full stick is flicked the other way, rested battery, all wires")
    def reversal_current(self) -> Value:
        currents = [self._held(motor).current for motor in self.fed]
        return currents[0] if len(currents) == 1 else self.by(total, values=currents)

    @fact("A", "the same straight off the charger, on a battery that does not sag")
    def fresh_reversal_current(self) -> Value:
        currents = [self.of(FreshReversalFacts, motor).fresh_reversal for motor in self.fed]
        return currents[0] if len(currents) == 1 else self.by(total, values=currents)

    @fact("A", "peak that it bears; no limit where its wheels slip before it is reached")
    def reversal_limit(self) -> Value:
        if any(self.mule.function_of(motor) != "drive" for motor in self.fed):
            return self.rating.peak_current
        slip = self.of(SlipFacts, self.fed[0]).controller_slip_current
        return self.by(relieved_limit, limit=self.rating.peak_current, relief=slip)
