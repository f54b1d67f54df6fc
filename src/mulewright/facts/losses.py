"""Facts about what is lost between motor and load, as it was typed or assumed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.functions import Winch
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.loads import LiftFacts, WinchFacts
from mulewright.facts.motors import GearFacts
from mulewright.facts.nodes import Value
from mulewright.facts.ropes import WinchRopeFacts
from mulewright.models.arithmetic import difference


class LossFacts(Facts):
    """A gear stage, or the rope and the slides of a lift or a winch."""

    kind = "place where power is lost"
    none = "no gear stage, no lift and no winch on this mule"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        stages = [gear.id for gear in GearFacts.all(evaluation)]
        ropes = [*LiftFacts.all(evaluation), *WinchRopeFacts.all(evaluation)]
        return [evaluation.entity(cls, id) for id in (*stages, *(rope.id for rope in ropes))]

    @property
    def passed(self) -> Value:
        """Its efficiency."""
        if ".gears." in self.id:
            return self.of(GearFacts, self.id).efficiency
        return self.of(WinchFacts if isinstance(self.table, Winch) else LiftFacts, self.id).own_efficiency

    @fact("1", "share of the power that is lost there, on paper")
    def lost_share(self) -> Value:
        return self.by(difference, first=1.0, second=self.passed)
