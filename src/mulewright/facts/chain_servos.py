"""Facts about a servo as the last link: what it bears for ever and for a moment, over the load that it holds."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.facts.servo_torque import ServoLoadFacts, ServoTorqueFacts
from mulewright.models.arithmetic import product
from mulewright.models.chain import load_margin


class ServoLimitFacts(Facts):
    """A servo that holds something up or turns it, at its limits."""

    kind = "servo at its limits"
    none = ServoLoadFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, servo.id) for servo in ServoLoadFacts.all(evaluation)]

    @property
    def function(self) -> str:
        """The function that it serves."""
        return self.mule.function_of(self.id) or self.id.split(".", 1)[1]

    @fact("N m", "torque of its horn that it has to bear at work")
    def at_work(self) -> Value:
        return self.of(ServoLoadFacts, self.id).load

    @fact("N m", "torque of its horn at which it stalls, at the volts that it gets")
    def stalls_at(self) -> Value:
        return self.of(ServoTorqueFacts, self.id).torque

    @fact("N m", "torque of its horn that it bears for ever")
    def lasting_torque(self) -> Value:
        return self.by(product, first=self.assumed("servo_continuous_share"), second=self.stalls_at)

    @fact("1", "torque that it bears for ever over what it has to bear")
    def lasting_margin(self) -> Value:
        return self.by(load_margin, limit=self.lasting_torque, load=self.at_work)

    @fact("1", "torque at which it stalls over what it has to bear")
    def stall_margin(self) -> Value:
        return self.by(load_margin, limit=self.stalls_at, load=self.at_work)
