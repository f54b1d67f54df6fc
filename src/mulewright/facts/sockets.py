"""Facts about sockets: how many plugs are said to sit in each, and how many sources of pulses are joined."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.signals import Joined
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value


class SocketFacts(Facts):
    """A socket that takes one plug: ``receiver.2``."""

    kind = "socket"
    none = "no plug is said to sit in a socket"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, socket) for socket in evaluation.mule.signals.in_socket]

    @property
    def plugs(self) -> list[str]:
        """What is said to be plugged into it."""
        return self.mule.signals.in_socket[self.id]

    @property
    def names(self) -> str:
        """The same for people."""
        return " and ".join(self.plugs)

    @fact("1", "plugs that are said to sit in it")
    def plug_count(self) -> Value:
        unplaced = self.mule.signals.unplaced
        if len(self.plugs) < 2 and unplaced:
            raise Missing(*unplaced)
        return self.found(len(self.plugs), f"{self.names} {'sits' if len(self.plugs) == 1 else 'sit'} in it")


class SignalNetFacts(Facts):
    """Sockets and leads that are joined: ``signal.receiver.2``, after the first socket among them."""

    kind = "joined leads"
    none = "no signal lead is plugged in"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, f"signal.{name}") for name in evaluation.mule.signals.nets]

    @property
    def net(self) -> Joined:
        """What is joined."""
        return self.mule.signals.nets[self.id.removeprefix("signal.")]

    @property
    def sources(self) -> str:
        """The sockets that send pulses, for people."""
        return " and ".join(self.net.sources) or "nothing"

    @property
    def listeners(self) -> str:
        """The leads that are joined to them, for people."""
        return ", ".join(lead for lead in self.net.leads if not lead.startswith("y_lead.")) or "no device"

    @property
    def in_words(self) -> str:
        """What drives what, for people."""
        return f"{self.sources} {'drive' if len(self.net.sources) > 1 else 'drives'} {self.listeners}"

    @fact("1", "sources of pulses that are joined")
    def source_count(self) -> Value:
        plugs = (f"{lead}.signal" for lead in self.net.leads)
        gaps = [path for path in plugs if path in self.mule.signals.unplaced]
        if len(self.net.sources) < 2 and gaps:
            raise Missing(*gaps)
        return self.found(len(self.net.sources), self.in_words)
