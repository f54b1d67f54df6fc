"""Facts about switches: the current through each at the worst moment, and what stays on when it is off."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.supply import Run
from mulewright.design.unsaid import FEEDS, WIRES
from mulewright.facts.bus import ALL, BranchFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.rail import RailFacts
from mulewright.models.arithmetic import quotient


class SwitchPeakFacts(Facts):
    """A switch with every motor behind it held fast at full stick."""

    kind = "switch at the worst moment"
    none = "no switch is described"

    rating = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "switch")

    @property
    def run(self) -> Run:
        """The run that it lies in."""
        run = self.mule.supply.run_through.get(self.id)
        if run is None:
            raise Missing(f"a wire whose path goes through {self.id}")
        return run

    @property
    def feeds_motors(self) -> bool:
        """Whether the current of a motor goes through it."""
        found = not self.mule.supply.behind(self.run).isdisjoint(self.mule.controller_of.values())
        if not found:
            self.require_said(FEEDS, WIRES)
        return found

    @fact("A", "current through it, every motor held fast, from the rested battery with all wires")
    def current(self) -> Value:
        return self.of(BranchFacts, f"{self.run.id}@{ALL}-stalled").current

    @fact("1", "that current over its rating")
    def multiple(self) -> Value:
        return self.by(quotient, part=self.current, whole=self.rating)

    # --- what stays on when it is off

    @property
    def stops_all(self) -> bool:
        """Whether it takes the power from every controller with a motor."""
        controllers = set(self.mule.controller_of.values())
        return bool(controllers) and controllers <= self.mule.supply.behind(self.run)

    @fact("1", "sources that feed a receiver on when it is off")
    def kept_on(self) -> Value:
        behind = self.mule.supply.behind(self.run)
        rails = [rail for rail in RailFacts.all(self.evaluation) if rail.carries_signals]
        staying = [source for rail in rails for source in rail.sources if source not in behind]
        return self.found(len(staying), f"not behind it: {', '.join(staying) or 'no source of a receiver'}")
