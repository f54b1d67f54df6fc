"""Facts about the volts that are lost in wires between the battery and a controller."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.unsaid import FEEDS
from mulewright.facts.bus import ALL, CaseFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.loads import HeldFacts
from mulewright.facts.nodes import Value
from mulewright.facts.sources import Source, source_of
from mulewright.models.arithmetic import difference, quotient


class DropFacts(Facts):
    """A controller in a case, seen from what feeds it: ``controller.lift@lift-working``."""

    kind = "controller at the end of its wires"
    none = "no controller feeds a motor"
    rests_on = (FEEDS,)

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        self.thing, case = id.split("@")
        self.case = self.of(CaseFacts, case)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        mule = evaluation.mule
        stalled = [
            (controller, f"{ALL}-stalled") for controller in dict.fromkeys(mule.controller_of.values())
        ]
        working = [
            (mule.controller_of[motor], f"{held.name}-working")
            for held in HeldFacts.all(evaluation)
            for motor in mule.motors_turning(held.id)
            if motor in mule.controller_of
        ]
        return [
            evaluation.entity(cls, f"{controller}@{case}")
            for controller, case in (*stalled, *dict.fromkeys(working))
        ]

    @property
    def stalled(self) -> bool:
        """Whether every motor is held fast, or one works at its load."""
        return self.case.state == "stalled"

    @property
    def words(self) -> str:
        """The case, for people."""
        return "every motor is held fast" if self.stalled else f"{self.case.function} works at its load"

    @property
    def source(self) -> Source:
        """What feeds it."""
        return source_of(self, self.thing)

    @fact("V", "volts lost on the way there and back")
    def lost(self) -> Value:
        return self.by(
            difference,
            first=self.case.place(self.source.id).voltage,
            second=self.case.place(self.thing).voltage,
        )

    @fact("1", "share of its supply's volts at rest that is lost on the way")
    def share(self) -> Value:
        return self.by(quotient, part=self.lost, whole=self.source.rested)
