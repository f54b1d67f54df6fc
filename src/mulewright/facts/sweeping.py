"""Facts about a roller that sweeps while the cart drives."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.descriptors import fact
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.facts.running import RollerFacts
from mulewright.models.arithmetic import quotient


class SweepingFacts(Facts):
    """A roller on a cart that drives."""

    kind = "roller on a cart"
    none = "no roller on a cart that drives"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        driving = DrivingFacts.all(evaluation)
        return [evaluation.entity(cls, roller.id) for roller in RollerFacts.all(evaluation) if driving]

    @property
    def roller(self) -> RollerFacts:
        """The roller."""
        return self.of(RollerFacts, self.id)

    @property
    def cart(self) -> Value:
        """The cart's top speed."""
        return self.of(DrivingFacts, "drive").nominal_top_speed

    @fact("1", "speed of its rim over that of the cart")
    def rim_ratio(self) -> Value:
        return self.by(quotient, part=self.roller.roller_speed, whole=self.cart)
