"""Facts about signal plugs: is a device driven at all, and by a control that the plan gives it?"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.unsaid import FEEDS
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
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

    @property
    def on_tester(self) -> bool:
        """Whether a servo tester drives it."""
        return (self.mule.signals.trace(self.id).source or "").startswith("tester.")

    @property
    def controls(self) -> list[str]:
        """The controls that reach it."""
        return list(dict.fromkeys(term.control for term in self.output.terms))

    @property
    def gets(self) -> str:
        """What reaches it and from where, in words."""
        if self.socket is None:
            return "its plug sits nowhere"
        names = ", ".join(control.rsplit(".", 1)[1] for control in self.controls)
        return f"it gets {names or ('pulses' if self.on_tester else 'nothing')} from {self.socket}"

    @fact("1", "1 where something sends pulses to it")
    def driven(self) -> Value:
        pulses = self.socket is not None and (self.on_tester or bool(self.controls))
        return self.found(pulses, self.gets)


class PlannedPlugFacts(Facts):
    """The signal plug of a device whose function a control of a transmitter commands."""

    kind = "signal plug with a control in the plan"
    none = "no control commands the function of a device"
    rests_on = (FEEDS,)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        plugs = [plug.id for plug in PlugFacts.all(evaluation) if not plug.on_tester]
        return [one for one in (evaluation.entity(cls, id) for id in plugs) if one.planned]

    @property
    def plug(self) -> PlugFacts:
        """What reaches it."""
        return self.of(PlugFacts, self.id)

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
    def in_words(self) -> str:
        """What reaches it, and what it should follow, in words."""
        planned = ", ".join(dict.fromkeys(control.rsplit(".", 1)[1] for control in self.planned))
        return f"{self.plug.gets} and should follow {planned}"

    @fact("1", "1 where at least one of the controls that the plan gives it reaches it")
    def on_its_channel(self) -> Value:
        return self.found(not set(self.plug.controls).isdisjoint(self.planned), self.in_words)
