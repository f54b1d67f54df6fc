"""Facts about fuses at the worst moment: every motor held fast, how long one then holds, whom it protects."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.unsaid import FEEDS, WIRES
from mulewright.facts.bus import ALL, BranchFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.facts.ratings import RatingFacts
from mulewright.facts.wiring import FuseFacts
from mulewright.models.arithmetic import quotient, smallest
from mulewright.models.fuse import blow_time_max, blow_time_min


class FusePeakFacts(Facts):
    """A fuse with every motor behind it held fast at full stick."""

    kind = "fuse at the worst moment"
    none = FuseFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, fuse.id) for fuse in FuseFacts.all(evaluation)]

    @property
    def fuse(self) -> FuseFacts:
        """The fuse."""
        return self.of(FuseFacts, self.id)

    @property
    def feeds_motors(self) -> bool:
        """Whether the current of a motor goes through it."""
        found = not self.mule.supply.behind(self.fuse.run).isdisjoint(self.mule.controller_of.values())
        if not found:
            self.require_said(FEEDS, WIRES)
        return found

    @property
    def controllers(self) -> list[RatingFacts]:
        """The controllers that it alone protects: those before the next fuse."""
        ends = [run.end for run in self.mule.supply.beyond(self.fuse.run)]
        return [self.of(RatingFacts, end) for end in ends if end.startswith("controller.")]

    @fact("A", "peak current of the weakest controller that it alone protects")
    def weakest(self) -> Value:
        if not self.controllers:
            return self.found(float("inf"), "no controller lies behind it before the next fuse")
        return self.by(smallest, values=[controller.peak_current for controller in self.controllers])

    @fact("1", "its rating over that peak current")
    def over_controller(self) -> Value:
        return self.by(quotient, part=self.fuse.rating, whole=self.weakest)

    @property
    def is_blade(self) -> bool:
        """Whether its curve is that of blade fuses."""
        kind: str = self.choice("kind")
        return kind.startswith("blade")

    @fact("A", "current through it, every motor held fast, from the rested battery with all wires")
    def current(self) -> Value:
        return self.of(BranchFacts, f"{self.fuse.run.id}@{ALL}-stalled").current

    @fact("1", "that current over its rating")
    def multiple(self) -> Value:
        return self.by(quotient, part=self.current, whole=self.fuse.rating)

    @fact("s", "time that such a fuse holds at least")
    def shortest(self) -> Value:
        return self.by(blow_time_min, multiple=self.multiple)

    @fact("s", "time after which such a fuse has blown for certain")
    def longest(self) -> Value:
        return self.by(blow_time_max, multiple=self.multiple)
