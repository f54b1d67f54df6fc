"""Facts about the voltage of pulses: what a source sends, and what an input takes for a high signal."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.signals import INPUTS
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value

DEVICES = ("controller", "servo", "mixer")


class ReceiverLevelFacts(Facts):
    """The pulses of a receiver."""

    kind = "receiver"
    none = "no receiver is described"

    signal_high = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        receivers = ("receiver", "second_receiver")
        return [evaluation.entity(cls, one) for one in receivers if one in evaluation.mule.things]


class OutputLevelFacts(Facts):
    """The pulses of a box, a tester or an in-line device."""

    kind = "source of pulses besides a receiver"
    none = "no box, no tester and no in-line device is described"

    output_high = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        file = evaluation.mule.file
        kinds = ("mixer", "tester", "inline")
        return [evaluation.entity(cls, f"{kind}.{name}") for kind in kinds for name in getattr(file, kind)]


class InputLevelFacts(Facts):
    """The signal input of a controller, a servo or a box."""

    kind = "signal input"
    none = "no signal input is plugged in"

    signal_high = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        file = evaluation.mule.file
        ids = [f"{kind}.{name}" for kind in DEVICES for name in getattr(file, kind)]
        return [one for one in (evaluation.entity(cls, id) for id in ids) if one.plugged]

    @property
    def leads(self) -> list[str]:
        """Its plugs: one, or those of a box's inputs."""
        signals = self.mule.signals
        if not self.id.startswith("mixer."):
            return [self.id]
        return [lead for lead in (f"{self.id}.{side}" for side in INPUTS) if lead in signals.leads]

    @property
    def plugged(self) -> bool:
        """Whether it is plugged in, or nobody said that it is not."""
        tables = self.mule.things[self.id]
        return getattr(tables, "signal", None) != []

    @property
    def source(self) -> str:
        """The device whose pulses it gets, the first one where a box has several.

        Raises
        ------
        Missing
            If it is not said where its plug sits.
        """
        leads, signals = self.leads, self.mule.signals
        lead = leads[0] if leads else self.id
        while True:
            sockets = signals.leads.get(lead, [])
            if not sockets:
                raise Missing(f"{lead}.{INPUTS[0] if lead.startswith('mixer.') else 'signal'}")
            kind, _, rest = sockets[0].partition(".")
            if kind != "y_lead":
                break
            lead = sockets[0]
        return kind if kind.endswith("receiver") else f"{kind}.{rest.split('.', 1)[0]}"

    @fact("V", "voltage of the pulses that it gets")
    def gets(self) -> Value:
        if self.source.endswith("receiver"):
            return self.of(ReceiverLevelFacts, self.source).signal_high
        return self.of(OutputLevelFacts, self.source).output_high
