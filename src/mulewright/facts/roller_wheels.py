"""Facts about a drive on 45-degree roller wheels: their hands, its weight, what sideways costs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.machine import FOUR_WHEELS
from mulewright.facts.body import BodyFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.standing import ROLLERS
from mulewright.models.arithmetic import difference, largest, magnitude, quotient
from mulewright.models.rollers import HANDS, crossed_turning_lever, turning_lever

RIGHT_HANDS = {wheel: "left" if hand < 0 else "right" for wheel, hand in zip(FOUR_WHEELS, HANDS, strict=True)}
EFFECTS = {
    frozenset(FOUR_WHEELS): "it strafes the wrong way and hardly turns",
    frozenset(FOUR_WHEELS[:2]): "strafe turns it about its rear axle, and turn strafes",
    frozenset(FOUR_WHEELS[2:]): "strafe turns it about its front axle, and turn strafes",
    frozenset(FOUR_WHEELS[::2]): "strafe only scrubs, and in a turn it creeps ahead",
    frozenset(FOUR_WHEELS[1::2]): "strafe only scrubs, and in a turn it creeps ahead",
}


class RollerDriveFacts(Facts):
    """A drive on four 45-degree roller wheels."""

    kind = "drive on roller wheels"
    none = "no drive on 45-degree roller wheels"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        drive = evaluation.mule.file.drive
        return [evaluation.entity(cls, "drive")] if drive is not None and drive.kind == ROLLERS else []

    @property
    def body(self) -> BodyFacts:
        """The machine as one mass."""
        return self.of(BodyFacts, "body")

    @property
    def swapped(self) -> frozenset[str]:
        """The wheels whose hand is not the right one for their corner.

        Raises
        ------
        Missing
            If the hand of a wheel is not noted.
        """
        hands = self.choice("hands")
        unknown = [f"{self.id}.hands.{wheel}" for wheel in FOUR_WHEELS if wheel not in hands]
        if unknown:
            raise Missing(*unknown)
        return frozenset(wheel for wheel in FOUR_WHEELS if hands[wheel] != RIGHT_HANDS[wheel])

    @property
    def effect(self) -> str:
        """What the floor will show."""
        if len(self.swapped) == 1:
            return "it scrubs, and creeps ahead while it strafes"
        return EFFECTS.get(self.swapped, "strafe and turn do not do what they should")

    @property
    def swapped_in_words(self) -> str:
        """Those wheels for people."""
        names = [wheel.replace("_", " ") for wheel in FOUR_WHEELS if wheel in self.swapped]
        return ", ".join(names) or "none"

    @fact("1", "wheels whose hand is wrong, so that the four do not form an X from above")
    def wrong_hands(self) -> Value:
        return self.found(len(self.swapped), f"wheels of the wrong hand: {self.swapped_in_words}")

    @fact("m", "lever with which its rims turn it where every hand is right")
    def turn_lever(self) -> Value:
        return self.by(
            turning_lever, half_wheelbase=self.body.half_wheelbase, half_track=self.body.half_track
        )

    @fact("m", "lever that is left where every hand is wrong")
    def crossed_turn_lever(self) -> Value:
        return self.by(
            crossed_turning_lever, half_wheelbase=self.body.half_wheelbase, half_track=self.body.half_track
        )

    @fact("m", "centre of gravity ahead of the middle of its wheels")
    def ahead_of_middle(self) -> Value:
        return self.by(difference, first=self.body.center_ahead, second=self.body.half_wheelbase)

    @fact("m", "the same, either way")
    def off_along(self) -> Value:
        return self.by(magnitude, value=self.ahead_of_middle)

    @fact("m", "centre of gravity beside the middle of its wheels, either way")
    def off_across(self) -> Value:
        return self.by(magnitude, value=self.body.center_aside)

    @fact("m", "the larger of both")
    def off_middle(self) -> Value:
        return self.by(largest, values=[self.off_along, self.off_across])

    @fact("1", "the same over the wheelbase")
    def off_middle_share(self) -> Value:
        return self.by(quotient, part=self.off_middle, whole=self.body.wheelbase)


class StrafeFacts(Facts):
    """The roller wheels of a drive, sideways."""

    kind = "roller wheels"
    none = RollerDriveFacts.none

    planned_strafe = given(key="plan_loss")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, "drive.wheel") for _ in RollerDriveFacts.all(evaluation)]

    @fact("1", "push sideways over push ahead, to expect")
    def strafe_push(self) -> Value:
        return self.assumed("roller_wheel.strafe_force")
