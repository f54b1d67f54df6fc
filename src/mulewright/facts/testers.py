"""Facts about servo testers in use: what feeds them, what else is on their lead, how far they send a device."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.reads import kept
from mulewright.design.schema.electrics import Tester
from mulewright.design.signals import RECEIVERS
from mulewright.facts.consumers import TesterDrawFacts
from mulewright.facts.controller_use import BOTH_WAYS
from mulewright.facts.controls import ChannelFacts, ControlFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import OutputFacts
from mulewright.facts.rail import RailFacts
from mulewright.facts.servo_travel import TesterPulseFacts
from mulewright.models.arithmetic import difference, largest, product, quotient


class BenchTesterFacts(Facts):
    """A servo tester and what hangs on it."""

    kind = "servo tester"
    none = "no servo tester is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "tester")

    @property
    def tester(self) -> Tester:
        """Its table."""
        assert isinstance(self.table, Tester)
        return self.table

    @kept
    def devices(self) -> list[OutputFacts]:
        """Controllers and servos whose pulses start at it."""
        outputs = OutputFacts.all(self.evaluation)
        return [output for output in outputs if self.mule.signals.trace(output.id).source == self.id]

    # --- its supply

    @fact("1", "1 where something feeds it")
    def supplied(self) -> Value:
        if self.tester.own_supply:
            return self.found(1, "it has a supply of its own")
        fed = self.of(RailFacts, self.of(TesterDrawFacts, self.id).rail).fed
        if self.tester.own_supply is None and self.tester.power is None:
            raise Missing(f"{self.id}.own_supply")
        return fed

    # --- what else drives its lead

    @property
    def receivers(self) -> list[str]:
        """Sockets of a receiver that are joined to its lead."""
        nets = (net for net in self.mule.signals.nets.values() if self.id in net.sources)
        sources = (source for net in nets for source in net.sources)
        return [source for source in sources if source.split(".", 1)[0] in RECEIVERS]

    @property
    def alone(self) -> str:
        """Whether a receiver drives its lead as well, for people."""
        return f"{' and '.join(self.receivers) or 'no receiver'} is joined to its lead"

    @fact("1", "1 where a receiver is joined to its lead")
    def joined(self) -> Value:
        return self.found(bool(self.receivers), self.alone)

    # --- what it sweeps

    @property
    def runs(self) -> list[str]:
        """Motors of wheels, arms, lifts and winches that hang on it."""
        mule, found = self.mule, []
        for controller in (one.id for one in self.devices if one.id.startswith("controller.")):
            for motor in mule.motors_of(controller):
                turns = mule.file.motor[motor.split(".", 1)[1]].turns or ""
                kind = getattr(mule.things.get(turns), "kind", None)
                if turns.startswith("wheel.") or kind in BOTH_WAYS:
                    found.append(motor)
        return found

    @property
    def in_words(self) -> str:
        """Its mode and the motors that it runs, for people."""
        return (
            f"in {self.choice('mode')} mode it runs {', '.join(self.runs)}" if self.runs else "no such motor"
        )

    @fact("1", "1 where it sweeps the motor of a wheel, an arm, a lift or a winch to and fro")
    def sweeps(self) -> Value:
        if not self.runs:
            return self.found(0, "no motor of a wheel, an arm, a lift or a winch hangs on it")
        return self.found(self.choice("mode") == "sweep", self.in_words)

    # --- how far it goes

    @property
    def planned(self) -> list[OnTesterFacts]:
        """What hangs on it and has a control in the plan."""
        return [self.of(OnTesterFacts, one.id) for one in OnTesterFacts.on(self.evaluation, self)]

    @fact("1", "its widest pulse over the farthest that the channel of what hangs on it goes")
    def reach_share(self) -> Value:
        if not self.planned:
            return self.found(0, "no control is planned for what hangs on it, so no endpoint is known")
        return self.by(largest, values=[one.tester_share for one in self.planned])


class OnTesterFacts(Facts):
    """A device on a tester that a control of a transmitter commands in the plan."""

    kind = "device on a tester, with a control in the plan"
    none = "nothing with a control in the plan hangs on a servo tester"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [one for tester in BenchTesterFacts.all(evaluation) for one in cls.on(evaluation, tester)]

    @classmethod
    def on(cls, evaluation: Evaluation, tester: BenchTesterFacts) -> Sequence[Self]:
        """Those on one tester."""
        made = (evaluation.entity(cls, device.id) for device in tester.devices)
        return [one for one in made if one.controls]

    @property
    def controls(self) -> list[str]:
        """The controls that the plan gives it."""
        functions = self.of(OutputFacts, self.id).functions
        return [control for function in functions for control in self.mule.controls_for(function)]

    @property
    def control(self) -> ControlFacts:
        """The first of them."""
        return self.of(ControlFacts, self.controls[0])

    @property
    def channel(self) -> ChannelFacts:
        """Its channel."""
        number = self.control.choice("channel")
        return self.of(ChannelFacts, f"{self.control.radio.id}.channel.{number}")

    @property
    def pulses(self) -> TesterPulseFacts:
        """What its tester sends."""
        return self.of(TesterPulseFacts, self.mule.signals.trace(self.id).source or "")

    @fact("s", "pulse from the middle to the upper endpoint of its channel")
    def endpoint_up(self) -> Value:
        return self.by(product, first=self.control.radio.half_range, second=self.channel.upward)

    @fact("s", "pulse from the middle to the lower endpoint of its channel")
    def endpoint_down(self) -> Value:
        return self.by(product, first=self.control.radio.half_range, second=self.channel.downward)

    @fact("s", "pulse from the middle to the tester's longest")
    def tester_up(self) -> Value:
        return self.by(difference, first=self.pulses.high, second=self.assumed("neutral_pulse"))

    @fact("s", "pulse from the tester's shortest to the middle")
    def tester_down(self) -> Value:
        return self.by(difference, first=self.assumed("neutral_pulse"), second=self.pulses.low)

    @fact("1", "the tester's longest way over that of its channel")
    def tester_share_up(self) -> Value:
        return self.by(quotient, part=self.tester_up, whole=self.endpoint_up)

    @fact("1", "the tester's shortest way over that of its channel")
    def tester_share_down(self) -> Value:
        return self.by(quotient, part=self.tester_down, whole=self.endpoint_down)

    @fact("1", "the larger of both")
    def tester_share(self) -> Value:
        return self.by(largest, values=[self.tester_share_up, self.tester_share_down])
