"""Facts about signal plugs: is a device driven at all, and by a control that the plan gives it?"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.graph import Evaluation, Facts, Missing, Value, fact
from mulewright.facts.outputs import OutputFacts


class PlugFacts(Facts):
    """The signal plug of a controller or a servo."""

    kind = "signal plug"
    none = "no controller and no servo is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, output.id) for output in OutputFacts.all(evaluation)]

    @property
    def output(self) -> OutputFacts:
        """The pulses that reach the device."""
        return self.of(OutputFacts, self.id)

    @property
    def socket(self) -> str | None:
        """Where its signal starts; None where a plug on the way sits nowhere.

        Raises
        ------
        Missing
            If it is not said where a plug on the way sits.
        """
        trace = self.mule.signals.trace(self.id)
        last = (self.id, *trace.hops)[-1]
        if trace.source is None and getattr(self.mule.things[last], "signal", None) is None:
            raise Missing(f"{last}.signal")
        return trace.source

    @fact("1", "1 where something sends pulses to it")
    def driven(self) -> Value:
        socket = self.socket
        if socket is None:
            return self.found(0, "its plug sits nowhere")
        if socket.startswith("tester."):
            return self.found(1, f"{socket} sends it pulses")
        names = list(dict.fromkeys(term.control.rsplit(".", 1)[1] for term in self.output.terms))
        if not names:
            return self.found(0, f"no control moves {socket}, where its signal starts")
        return self.found(1, f"it gets {', '.join(names)} from {socket}")


class PlannedPlugFacts(Facts):
    """The signal plug of a device whose function a control of a transmitter commands."""

    kind = "signal plug with a control in the plan"
    none = "no control commands the function of a device"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        plugs = [evaluation.entity(cls, plug.id) for plug in PlugFacts.all(evaluation)]
        return [plug for plug in plugs if plug.planned and not plug.on_tester]

    @property
    def functions(self) -> list[str]:
        """The functions that the device serves; for a wheel the commands that it should follow."""
        found = self.of(OutputFacts, self.id).functions
        if "drive" not in found:
            return found
        commands = self.mule.drive_commands
        sides = [motor.turns for name, motor in self.mule.file.motor.items() if self._feeds(f"motor.{name}")]
        own = [side.removeprefix("wheel.") for side in sides if side is not None]
        return [command for command in commands if command in own] or list(commands)

    def _feeds(self, motor: str) -> bool:
        return self.mule.controller_of.get(motor) == self.id

    @property
    def planned(self) -> list[str]:
        """The controls that the plan gives it."""
        return [control for function in self.functions for control in self.mule.controls_for(function)]

    @property
    def on_tester(self) -> bool:
        """Whether a servo tester drives it."""
        return (self.mule.signals.trace(self.id).source or "").startswith("tester.")

    @property
    def where(self) -> str:
        """In words, where it is plugged and what it should follow."""
        planned = ", ".join(dict.fromkeys(control.rsplit(".", 1)[1] for control in self.planned))
        return (
            f"it is plugged at {self.of(PlugFacts, self.id).socket or 'nothing'} and should follow {planned}"
        )

    @fact("1", "1 where at least one of the controls that the plan gives it reaches it")
    def on_its_channel(self) -> Value:
        if self.of(PlugFacts, self.id).socket is None:
            return self.found(0, "its plug sits nowhere")
        reached = {term.control for term in self.of(OutputFacts, self.id).terms}
        return self.found(not reached.isdisjoint(self.planned), self.where)
