"""Facts about signals and their return: does the source of a pulse share a ground with what listens to it?"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.rail import socket_node
from mulewright.design.signals import INPUTS
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value


class ListenerFacts(Facts):
    """A controller, a servo or a mixer box, and where its pulses come from."""

    kind = "device that takes pulses"
    none = "nothing takes pulses"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        file = evaluation.mule.file
        names = [f"controller.{name}" for name in file.controller]
        names += [f"servo.{name}" for name in file.servo]
        names += [f"mixer.{name}" for name in file.mixer]
        return [evaluation.entity(cls, name) for name in names]

    @property
    def is_mixer(self) -> bool:
        """Whether it is a mixer box, which has an input for each command."""
        return self.id.startswith("mixer.")

    @property
    def sources(self) -> list[str]:
        """The sockets from which its pulses come; none where it is plugged in nowhere.

        Raises
        ------
        Missing
            If nobody said where it is plugged.
        """
        signals = self.mule.signals
        leads = [f"{self.id}.{side}" for side in INPUTS] if self.is_mixer else [self.id]
        traces = [signals.trace(lead) for lead in leads if lead in signals.leads]
        found = [trace.source for trace in traces if trace.source is not None]
        if not found and (self.is_mixer or self.choice("signal")):
            raise Missing(f"{self.id}.{INPUTS[0]}" if self.is_mixer else f"{self.id}.signal")
        return list(dict.fromkeys(found))

    @property
    def apart(self) -> list[str]:
        """The sources among them that share no ground with it.

        Raises
        ------
        Missing
            If that is not certain.
        """
        nets = self.mule.supply.common_grounds
        net = nets[f"{self.id}.in" if self.is_mixer else self.id]
        nodes = {source: socket_node(source) for source in self.sources}
        if any(node in net.possible and node not in net.sure for node in nodes.values()):
            raise Missing(*net.unknown)
        return [source for source, node in nodes.items() if node not in net.sure]

    @property
    def words(self) -> str:
        """What was found, for people."""
        return f"no ground in common with {', '.join(self.apart)}" if self.apart else "a ground in common"

    @fact("1", "1 where it shares a ground with every source of its pulses")
    def grounded(self) -> Value:
        return self.found(float(not self.apart), self.words)
