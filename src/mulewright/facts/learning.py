"""Facts about controllers that take the pulse at switch-on as neutral: is their control sure to rest then?"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.electrics import Controller
from mulewright.design.unsaid import MIX_INPUTS, SIGNALS
from mulewright.facts.controller_use import ControllerUseFacts
from mulewright.facts.controls import ChannelFacts, ControlFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import ControllerSignalFacts
from mulewright.facts.records import TrimFacts, stays
from mulewright.models.arithmetic import difference, largest, quotient


class LearningFacts(Facts):
    """A controller that may learn its neutral at switch-on."""

    kind = "controller that may learn its neutral"
    none = "no controller on a control learns its neutral at switch-on"
    rests_on = (SIGNALS, MIX_INPUTS)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        made = (evaluation.entity(cls, one.id) for one in ControllerUseFacts.all(evaluation))
        return [one for one in made if one.controller.learns_neutral is not False]

    @property
    def controller(self) -> Controller:
        """Its table."""
        assert isinstance(self.table, Controller)
        return self.table

    @property
    def control(self) -> ControlFacts:
        """The control that gives it its own command."""
        return self.of(ControllerUseFacts, self.id).control

    @property
    def channel(self) -> str:
        """The channel of that control."""
        return self.of(ControllerSignalFacts, self.id).output.main[0].term.channel

    @property
    def learns(self) -> bool:
        """Whether it takes the pulse at switch-on as neutral.

        Raises
        ------
        Missing
            If that is not noted.
        """
        return bool(self.choice("learns_neutral"))

    @property
    def in_words(self) -> str:
        """What may keep its control from the middle, for people."""
        rests = "stays where it is put" if stays(self.control) else "returns to its middle"
        noted = self.of(ChannelFacts, self.channel).table.quantity("trim")
        trim = noted.text if noted is not None else "not noted"
        first = "on" if self.mule.file.checklist.transmitter_first else "not noted as on"
        return f"{self.control.name} {rests}, its trim is {trim}, and the transmitter is {first} first"

    @fact("1", "1 where its control stays where it was put")
    def stays(self) -> Value:
        return self.by(difference, first=1.0, second=self.control.returns)

    @fact("1", "trim of its channel as a share of half its dead band")
    def trimmed(self) -> Value:
        trim = self.of(TrimFacts, self.channel).trim_size
        return self.by(quotient, part=trim, whole=self.of(ControllerSignalFacts, self.id).dead_band)

    @fact("1", "1 where it may be switched on before the transmitter")
    def too_early(self) -> Value:
        noted = self.mule.file.checklist.transmitter_first
        if noted is None:
            raise Missing("checklist.transmitter_first")
        return self.found(not noted, f"the transmitter is {'on' if noted else 'not noted as on'} first")

    @fact("1", "above 0 where it may learn a pulse that is not the middle")
    def unsure(self) -> Value:
        return self.by(largest, values=[self.stays, self.trimmed, self.too_early])
