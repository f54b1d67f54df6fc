"""Facts about the ends of a channel: which pulse is 100 % of it, and what does a controller make of that?"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.boxes import RADIO_OF
from mulewright.facts.controls import ChannelFacts, ControlFacts, RadioFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Value
from mulewright.facts.outputs import ControllerSignalFacts, ShareFacts
from mulewright.models.arithmetic import product
from mulewright.models.duty import duty_jump, duty_rescaled
from mulewright.models.senses import chain_product


class ChannelEndFacts(Facts):
    """The ends of a channel: ``radio.channel.3``."""

    kind = "ends of a channel"
    none = ChannelFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, channel.id) for channel in ChannelFacts.all(evaluation)]

    def _end(self, travel: Value) -> Value:
        half_range = self.of(RadioFacts, self.id.split(".", 1)[0]).half_range
        return self.by(product, first=half_range, second=travel)

    @fact("s", "pulse from neutral at the endpoint above neutral")
    def end_up(self) -> Value:
        return self._end(self.of(ChannelFacts, self.id).upward)

    @fact("s", "pulse from neutral at the endpoint below neutral")
    def end_down(self) -> Value:
        return self._end(self.of(ChannelFacts, self.id).downward)


class PositionPulseFacts(Facts):
    """A switch in one of its positions, whatever follows it: ``radio.control.SW2@1``."""

    kind = "position of a switch"
    none = "no switch has positions that are noted"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        control, place = id.rsplit("@", 1)
        self.control, self.place = self.of(ControlFacts, control), int(place)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [
            evaluation.entity(cls, f"{control.id}@{place}")
            for control in ControlFacts.all(evaluation)
            if control.control.kind == "switch"
            for place, _ in enumerate(control.control.positions or (), start=1)
        ]

    @fact("s", "pulse from neutral that it makes on its channel there, before the channel's reverse")
    def channel_pulse(self) -> Value:
        command = self.control.choice("positions")[self.place - 1].value
        ends = self.of(ChannelEndFacts, f"{self.control.radio.id}.channel.{self.control.choice('channel')}")
        return self.by(product, first=command, second=ends.end_up if command >= 0 else ends.end_down)


class EndDutyFacts(Facts):
    """A controller that takes its pulses straight from a channel, with that channel at its ends."""

    kind = "controller on a channel of its own"
    none = "no controller takes its pulses straight from a receiver"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        signals = evaluation.mule.signals
        ids = [f"controller.{name}" for name in evaluation.mule.file.controller]
        return [evaluation.entity(cls, id) for id in ids if signals.trace(id).port is not None]

    @property
    def channel(self) -> str:
        """The channel that it hangs on: ``radio.channel.3``."""
        port = self.mule.signals.trace(self.id).port
        assert port is not None
        return f"{RADIO_OF[port[0]]}.channel.{port[1]}"

    def _pulse(self, end: Value) -> Value:
        hops = self.mule.signals.trace(self.id).hops
        factors = [self.of(ShareFacts, hop).factor for hop in hops if hop.startswith("inline.")]
        return self.by(chain_product, factors=[end, *factors])

    @fact("s", "pulse from its neutral at the endpoint above neutral")
    def pulse_up(self) -> Value:
        return self._pulse(self.of(ChannelEndFacts, self.channel).end_up)

    @fact("s", "pulse from its neutral at the endpoint below neutral")
    def pulse_down(self) -> Value:
        return self._pulse(self.of(ChannelEndFacts, self.channel).end_down)

    def _duty(self, pulse: Value) -> Value:
        signal = self.of(ControllerSignalFacts, self.id)
        model = duty_jump if signal.choice("response") == "jump" else duty_rescaled
        return self.by(
            model, deviation=pulse, controller_half_range=signal.full_pulse, dead_band=signal.dead_band
        )

    @fact(
        "1", "share of the supply at the endpoint above neutral (duty); below 0 where a device turns it round"
    )
    def duty_up(self) -> Value:
        return self._duty(self.pulse_up)

    @fact("1", "the same at the endpoint below neutral")
    def duty_down(self) -> Value:
        return self._duty(self.pulse_down)
