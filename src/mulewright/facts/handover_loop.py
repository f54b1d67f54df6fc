"""Facts about the control loop of the target beside what it is to control."""

from __future__ import annotations

from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation
from mulewright.facts.handover import HandoverFacts, kept
from mulewright.facts.handover_load import stated
from mulewright.facts.nodes import Value
from mulewright.facts.time_constants import PaceFacts
from mulewright.models.arithmetic import quotient


class LoopFacts(HandoverFacts):
    """A drive or a raised load under the target's control loop."""

    kind = "moved mass under the target's loop"
    none = "the target keeps no drive and no raised load of the mule"

    @classmethod
    def names(cls, evaluation: Evaluation) -> list[str]:
        return [one.id for one in PaceFacts.all(evaluation) if kept(evaluation, [one.id])]

    @property
    def pace(self) -> PaceFacts:
        """It on the target."""
        return self.there(PaceFacts, self.id)

    @fact("s", "time of the target's control loop")
    def loop_time(self) -> Value:
        return stated(self).loop

    @fact("1", "time of the loop over the time constant of what it controls")
    def loop_share(self) -> Value:
        return self.by(quotient, part=self.loop_time, whole=self.pace.time_constant)
