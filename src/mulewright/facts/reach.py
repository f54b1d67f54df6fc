"""Facts about the centre of gravity with every arm straight out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.body import BodyFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.loads import ArmFacts, LumpFacts
from mulewright.facts.nodes import Value
from mulewright.models.arithmetic import difference
from mulewright.models.body import combined_centre, static_margin, tipping_acceleration
from mulewright.models.bus import total


class ReachingArmFacts(Facts):
    """Where an arm sits on the machine."""

    kind = "arm on the machine"
    none = ArmFacts.none

    pivot_ahead = given()
    pivot_height = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, arm.id) for arm in ArmFacts.all(evaluation)]

    @property
    def arm(self) -> ArmFacts:
        """What hangs on it."""
        return self.of(ArmFacts, self.id)

    @fact("m", "pivot ahead of the rear contacts")
    def pivot(self) -> Value:
        return self.by(total, values=[self.of(BodyFacts, "body").center_ahead, self.pivot_ahead])

    @fact("m", "load ahead of the rear contacts, arm level")
    def load_out(self) -> Value:
        return self.by(total, values=[self.pivot, self.arm.load_at])

    @property
    def masses(self) -> list[Value]:
        """Its lumps and its load."""
        return [*(lump.mass for lump in self.arm.lumps), self.arm.load]

    @property
    def places(self) -> list[Value]:
        """How far ahead of the rear contacts each of them is, arm level."""
        lumps = self.arm.lumps
        return [*(self.of(LumpOutFacts, lump.id).out for lump in lumps), self.load_out]


class LumpOutFacts(Facts):
    """A mass on an arm that is straight out."""

    kind = "lump on an arm that is out"
    none = ArmFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, lump.id) for lump in LumpFacts.all(evaluation)]

    @fact("m", "its place ahead of the rear contacts, arm level")
    def out(self) -> Value:
        arm = self.of(ReachingArmFacts, self.id.rsplit(".lumps.", 1)[0])
        return self.by(total, values=[arm.pivot, self.of(LumpFacts, self.id).at])


class ReachFacts(Facts):
    """The machine with every arm level and straight ahead."""

    kind = "machine with its arms out"
    none = ArmFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "body")] if ArmFacts.all(evaluation) else []

    @property
    def body(self) -> BodyFacts:
        """The machine without its arms."""
        return self.of(BodyFacts, "body")

    @property
    def arms(self) -> Sequence[ReachingArmFacts]:
        """Its arms."""
        return ReachingArmFacts.all(self.evaluation)

    @property
    def masses(self) -> list[Value]:
        """The body, and everything on its arms."""
        return [self.body.mass, *(mass for arm in self.arms for mass in arm.masses)]

    @fact("m", "centre of gravity ahead of the rear contacts, arms out")
    def center_out(self) -> Value:
        if not self.arms:
            return self.body.center_ahead
        places = [self.body.center_ahead, *(place for arm in self.arms for place in arm.places)]
        return self.by(combined_centre, masses=self.masses, positions=places)

    @fact("m", "height of the centre of gravity, arms out")
    def height_out(self) -> Value:
        if not self.arms:
            return self.body.center_height
        heights = [self.body.center_height, *(arm.pivot_height for arm in self.arms for _ in arm.masses)]
        return self.by(combined_centre, masses=self.masses, positions=heights)

    @fact("m", "from there to the front contacts")
    def margin_ahead(self) -> Value:
        return self.by(difference, first=self.body.wheelbase, second=self.center_out)

    @fact("1", "what is left to the front contacts, arms out, as a share of half the wheelbase")
    def margin_share(self) -> Value:
        return self.by(
            static_margin,
            edge=self.body.wheelbase,
            centre=self.center_out,
            half_base=self.body.half_wheelbase,
        )

    @fact("m/s2", "deceleration that takes the weight off the rear wheels, arms out")
    def tips_forward_at(self) -> Value:
        return self.by(tipping_acceleration, distance=self.margin_ahead, height=self.height_out)
