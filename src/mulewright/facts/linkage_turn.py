"""Facts about a linkage between the two places of its lever: where the horn stands, and whether it closes at all."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.functions import Gripper
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.models.arithmetic import difference, magnitude
from mulewright.models.linkage import (
    closes,
    horn_angle,
    largest_cosine,
    reached,
    smallest_cosine,
    smallest_transmission_angle,
)


class LinkageTurnFacts(Facts):
    """The four bars of a linkage, with its lever open and closed: ``mechanism.jaw.linkage``."""

    kind = "four bars of a linkage"
    none = "no gripper is described"

    horn = given()
    rod = given()
    lever = given()
    base = given()
    horn_angle = given()
    lever_open = given()
    lever_closed = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        mechanisms = evaluation.mule.file.mechanism.items()
        return [
            evaluation.entity(cls, f"mechanism.{name}.linkage")
            for name, mechanism in mechanisms
            if isinstance(mechanism, Gripper)
        ]

    @property
    def placed(self) -> bool:
        """Whether a place of its lever is typed."""
        return any(self.table.quantity(name) is not None for name in ("lever_open", "lever_closed"))

    @fact("1", "+1 where the horn's end lies ahead of the line from the servo's axis to the lever's end")
    def side(self) -> Value:
        side: str = self.choice("rod_side")
        return self.found(1 if side == "ahead" else -1, f"the rod lies {side}")

    # --- whether it closes

    @fact("1", "cosine of the lever's angle where its end is farthest from the servo's axis")
    def lever_outward(self) -> Value:
        return self.by(largest_cosine, first=self.lever_open, last=self.lever_closed)

    @fact("1", "cosine of it where its end is nearest")
    def lever_inward(self) -> Value:
        return self.by(smallest_cosine, first=self.lever_open, last=self.lever_closed)

    @fact("1", "1 where horn and rod reach the lever's end all the way from open to closed")
    def closes(self) -> Value:
        return self.by(
            closes, horn=self.horn, rod=self.rod, lever=self.lever, base=self.base,
            outward=self.lever_outward, inward=self.lever_inward,
        )  # fmt: skip

    # --- where the horn stands

    def _horn(self, lever_angle: Value) -> Value:
        return self.by(
            horn_angle, lever_angle=lever_angle, horn=self.horn, rod=self.rod, lever=self.lever,
            base=self.base, side=self.side,
        )  # fmt: skip

    @fact(
        "rad", "horn from the line to the far pivot with the lever open; not a number where they do not meet"
    )
    def horn_open(self) -> Value:
        return self._horn(self.lever_open)

    @fact("rad", "the same with the lever closed")
    def horn_closed(self) -> Value:
        return self._horn(self.lever_closed)

    @fact("rad", "that angle of the horn with the lever open, on a linkage that closes")
    def reached_open(self) -> Value:
        return self.by(reached, angle=self.horn_open, closing=self.closes)

    @fact("rad", "the same with the lever closed")
    def reached_closed(self) -> Value:
        return self.by(reached, angle=self.horn_closed, closing=self.closes)

    @fact("rad", "horn from its place in the servo's middle, lever open")
    def turn_open(self) -> Value:
        return self.by(difference, first=self.reached_open, second=self.horn_angle)

    @fact("rad", "the same, lever closed")
    def turn_closed(self) -> Value:
        return self.by(difference, first=self.reached_closed, second=self.horn_angle)

    @fact("rad", "way of the horn from open to closed, with its sign")
    def turn(self) -> Value:
        return self.by(difference, first=self.reached_closed, second=self.reached_open)

    @fact("rad", "angle of the servo from open to closed, from the lengths")
    def swing(self) -> Value:
        return self.by(magnitude, value=self.turn)

    # --- where it locks

    @fact("1", "cosine of the horn's angle where it points nearest to the far pivot, from open to closed")
    def placed_nearest(self) -> Value:
        return self.by(largest_cosine, first=self.horn_open, last=self.horn_closed)

    @fact("1", "cosine of it where it points farthest away")
    def placed_farthest(self) -> Value:
        return self.by(smallest_cosine, first=self.horn_open, last=self.horn_closed)

    @fact("rad", "smallest angle between the lines of rod and lever from open to closed")
    def placed_rod_angle(self) -> Value:
        return self.by(
            smallest_transmission_angle, horn=self.horn, rod=self.rod, lever=self.lever, base=self.base,
            nearest=self.placed_nearest, farthest=self.placed_farthest,
        )  # fmt: skip
