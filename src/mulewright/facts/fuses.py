"""Facts about fuses at the worst moment: every motor held fast, and how long the fuse then holds."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.bus import ALL, BranchFacts
from mulewright.facts.graph import Evaluation, Facts, Value, fact
from mulewright.facts.wiring import FuseFacts
from mulewright.models.arithmetic import quotient
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
        behind = self.mule.supply.behind(self.fuse.run)
        return any(controller in behind for controller in self.mule.controller_of.values())

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
