"""Facts about several motors that turn the same thing: do they run alike, and the same way round?"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.electrics import Controller
from mulewright.facts.descriptors import fact
from mulewright.facts.directions import SAME_WAY, PartSenseFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import OutputFacts
from mulewright.models.arithmetic import quotient, relative_spread
from mulewright.models.senses import chain_product, relative_sense, turned_round, worst_sense


class CoupledFacts(Facts):
    """A wheel or a mechanism that several motors turn."""

    kind = "several motors on one shaft"
    none = "no two motors turn the same thing"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        mule = evaluation.mule
        turned = dict.fromkeys(motor.turns for motor in mule.file.motor.values() if motor.turns)
        return [evaluation.entity(cls, thing) for thing in turned if len(mule.motors_turning(thing)) > 1]

    @property
    def members(self) -> list[MemberFacts]:
        """Its motors."""
        return [self.of(MemberFacts, motor) for motor in self.mule.motors_turning(self.id)]

    @property
    def in_words(self) -> str:
        """Its motors for people."""
        return " and ".join(member.id for member in self.members)

    @fact("1", "how much faster the fastest of its motors would turn it than the slowest, by their sheets")
    def speed_spread(self) -> Value:
        return self.by(relative_spread, values=[member.outer_speed for member in self.members])

    @fact("1", "1 where all its motors turn it the same way round, -1 where not")
    def common_sense(self) -> Value:
        first, *others = self.members
        return self.by(worst_sense, own=first.shaft_sense, senses=[other.shaft_sense for other in others])

    @fact("1", "1 where two of its motors turn it against each other")
    def opposed(self) -> Value:
        return self.by(turned_round, sense=self.common_sense)


class MemberFacts(Facts):
    """One of several motors that turn the same thing."""

    kind = "motor beside another"
    none = CoupledFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        coupled = CoupledFacts.all(evaluation)
        return [evaluation.entity(cls, motor.id) for one in coupled for motor in one.members]

    @property
    def motor(self) -> MotorFacts:
        """The motor."""
        return self.of(MotorFacts, self.id)

    @property
    def controller(self) -> Controller:
        """The table of its controller."""
        table = self.motor.controller.table
        assert isinstance(table, Controller)
        return table

    @fact("rad/s", "speed at which it would turn the thing, by its sheet")
    def outer_speed(self) -> Value:
        return self.by(quotient, part=self.motor.free_speed, whole=self.motor.ratio)

    @fact("1", "-1 where its leads are swapped, else 1")
    def leads_sense(self) -> Value:
        polarity = self.controller.polarity
        if polarity is None:
            raise Missing(f"{self.motor.controller.id}.polarity")
        return self.found(-1 if polarity == "swapped" else 1, f"its leads are {polarity}")

    @fact("1", "-1 where it is mounted mirror-wise, else 1")
    def mount_sense(self) -> Value:
        mirrored = self.motor.motor.mirrored
        if mirrored is None:
            raise Missing(f"{self.id}.mirrored")
        return self.found(-1 if mirrored else 1, f"it is {'mirrored' if mirrored else 'not mirrored'}")

    @fact("1", "-1 where its gear stages turn the motion round, else 1")
    def gears_sense(self) -> Value:
        reversing = 0
        for place, stage in enumerate(self.motor.motor.gears or []):
            if stage.reverses is None and stage.kind not in SAME_WAY:
                raise Missing(f"{self.id}.gears.{place}.reverses")
            reversing += bool(stage.reverses)
        return self.found((-1) ** reversing, f"{reversing} gear stages turn the motion round")

    @fact("1", "1 where a push of its control gives a longer pulse, else -1")
    def signal_sense(self) -> Value:
        thing = self.motor.motor.turns or ""
        controllers = {self.mule.controller_of.get(motor) for motor in self.mule.motors_turning(thing)}
        if len(controllers) == 1:
            return self.found(1, "one controller feeds them all")
        parts = self.of(OutputFacts, self.motor.controller.id).parts
        if not parts:
            raise Missing(f"{self.motor.controller.id}.signal")
        pushed = self.of(PartSenseFacts, parts[0].id).turned
        return self.by(relative_sense, value=pushed, wanted=1.0, nothing=1.0)

    @fact("1", "sense in which a push makes it turn the thing")
    def shaft_sense(self) -> Value:
        senses = [self.leads_sense, self.mount_sense, self.gears_sense, self.signal_sense]
        return self.by(chain_product, factors=senses)
