"""Facts about pulses with every control at its middle: what each device gets, and how far off that is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.commands import mixer_row
from mulewright.design.mule import Mule
from mulewright.facts.boxes import RADIO_OF
from mulewright.facts.controls import ChannelFacts, RadioFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.mixes import BoxInputFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import ControllerSignalFacts, OutputFacts, ShareFacts
from mulewright.models.arithmetic import magnitude, quotient
from mulewright.models.bus import total
from mulewright.models.duty import pulse_deviation
from mulewright.models.senses import chain_product


def on_tester(mule: Mule, device: str) -> bool:
    """Whether the signal of a device starts at a servo tester, where nothing rests."""
    return (mule.signals.trace(device).source or "").startswith("tester.")


class RestFacts(Facts):
    """A controller, a servo or an input of a box, with every control at its middle."""

    kind = "device at rest"
    none = "no controller and no servo is plugged in"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        entities = [*BoxInputFacts.all(evaluation), *OutputFacts.all(evaluation)]
        return [evaluation.entity(cls, one.id) for one in entities if not on_tester(evaluation.mule, one.id)]

    @fact("s", "pulse that reaches it with every control at its middle and every trim as it is set")
    def rest_pulse(self) -> Value:
        trace = self.mule.signals.trace(self.id)
        if trace.port is not None:
            receiver, number = trace.port
            radio = RADIO_OF[receiver]
            channel = self.of(ChannelFacts, f"{radio}.channel.{number}")
            neutral = self.of(RadioFacts, radio).neutral
            return self.by(total, values=[neutral, channel.sub_trim, channel.trim])
        if trace.mixer is None:
            raise Missing(self.id if self.id.startswith("mixer.") else f"{self.id}.signal")
        box, output = trace.mixer
        sides = mixer_row(self.mule.signals.mixer(box), output)
        shifts = [self.of(RestShareFacts, f"{self.id}@{box}.{side}").shift for side in sides]
        return self.by(total, values=[self.assumed("neutral_pulse"), *shifts])


class RestShareFacts(Facts):
    """What a box's input adds to an output with every control at rest: ``controller.left@mixer.tug.turn``."""

    kind = "share of a box's input at rest"
    none = "no mixer box is described"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        device, self.input = id.split("@")
        self.box, self.side = self.input.rsplit(".", 1)
        trace = self.mule.signals.trace(device)
        self.output = trace.mixer[1] if trace.mixer is not None else ""

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        mule, found = evaluation.mule, []
        for output in OutputFacts.all(evaluation):
            mixer = mule.signals.trace(output.id).mixer
            if mixer is not None:
                sides = mixer_row(mule.signals.mixer(mixer[0]), mixer[1])
                found += [evaluation.entity(cls, f"{output.id}@{mixer[0]}.{side}") for side in sides]
        return found

    @fact("1", "sign with which the input enters the output")
    def sign(self) -> Value:
        sign = mixer_row(self.mule.signals.mixer(self.box), self.output)[self.side]
        return self.found(sign, f"{self.output} {'adds' if sign > 0 else 'takes off'} {self.side}")

    @fact("s", "how far the input is off the middle while every control rests")
    def offset(self) -> Value:
        neutral = self.assumed("neutral_pulse")
        pulse = self.of(RestFacts, self.input).rest_pulse
        return self.by(pulse_deviation, pulse=pulse, controller_neutral=neutral)

    @fact("s", "pulse that it adds")
    def shift(self) -> Value:
        weight = getattr(self.of(ShareFacts, self.box), f"{self.side}_weight")
        return self.by(chain_product, factors=[self.sign, weight, self.offset])


class ControllerRestFacts(Facts):
    """A controller with every control at its middle."""

    kind = "controller"
    none = "no controller gets its pulses from a receiver"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        controllers = [one.id for one in ControllerSignalFacts.all(evaluation)]
        return [evaluation.entity(cls, id) for id in controllers if not on_tester(evaluation.mule, id)]

    @property
    def signal(self) -> ControllerSignalFacts:
        """What it makes of pulses."""
        return self.of(ControllerSignalFacts, self.id)

    @fact("s", "how far its pulse is off its neutral with every control at its middle")
    def offset(self) -> Value:
        pulse = self.of(RestFacts, self.id).rest_pulse
        return self.by(pulse_deviation, pulse=pulse, controller_neutral=self.signal.neutral)

    @fact("s", "the same without its sign")
    def offset_size(self) -> Value:
        return self.by(magnitude, value=self.offset)

    @fact("1", "the same as a share of its half dead band; above 1 it creeps")
    def offset_share(self) -> Value:
        return self.by(quotient, part=self.offset_size, whole=self.signal.dead_band)
