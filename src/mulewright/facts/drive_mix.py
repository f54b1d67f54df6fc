"""Facts about how the drive's controls reach its wheels: mixed or straight, and alike in both directions."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.unsaid import FEEDS, MIX_INPUTS, SIGNALS
from mulewright.facts.boxes import RADIO_OF
from mulewright.facts.controls import ChannelFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.directions import WheelMotorFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import ControllerSignalFacts, OutputFacts, ShareFacts
from mulewright.models.arithmetic import difference, largest, magnitude, quotient
from mulewright.models.senses import chain_product


class MixedDriveFacts(Facts):
    """A drive whose wheels follow sums of controls."""

    kind = "drive that needs a mix"
    none = "no drive that needs a mix is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        drive = evaluation.mule.file.drive
        needs = drive is not None and drive.kind not in (None, "two-sticks")
        return [evaluation.entity(cls, "drive")] if needs and WheelMotorFacts.all(evaluation) else []

    @property
    def wheels(self) -> list[WheelMotorFacts]:
        """Its wheel motors."""
        return list(WheelMotorFacts.all(self.evaluation))

    def commands(self, motor: WheelMotorFacts) -> list[str]:
        """Commands of the drive that reach a wheel.

        Raises
        ------
        Missing
            If it is not said where the plug of its controller sits.
        """
        if getattr(self.mule.things[motor.controller], "signal", None) is None:
            raise Missing(f"{motor.controller}.signal")
        found = [command for part in motor.parts for command in part.commands]
        return list(dict.fromkeys(found))

    @property
    def followed(self) -> str:
        """In words, which commands each wheel follows."""
        return "; ".join(
            f"{motor.wheel} follows {' and '.join(self.commands(motor)) or 'nothing'}"
            for motor in self.wheels
        )

    @fact("1", "motors that turn its wheels")
    def wheel_count(self) -> Value:
        return self.found(len(self.wheels), f"{len(self.wheels)} motors turn wheels")

    @fact("1", "wheels that follow more than one command")
    def mixed_wheels(self) -> Value:
        count = sum(len(self.commands(motor)) > 1 for motor in self.wheels)
        return self.found(count, self.followed)

    @fact("1", "share of its wheels that follow more than one command")
    def mixed_share(self) -> Value:
        return self.by(quotient, part=self.mixed_wheels, whole=self.wheel_count)


class WheelSignalFacts(Facts):
    """The controller of a wheel whose signal is mixed."""

    kind = "controller behind a mix"
    none = "no controller of a wheel gets a mixed signal"
    rests_on = (FEEDS, SIGNALS, MIX_INPUTS)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        ids = dict.fromkeys(
            evaluation.mule.controller_of.get(motor.id, "") for motor in WheelMotorFacts.all(evaluation)
        )
        outputs = [evaluation.entity(OutputFacts, id) for id in ids if id]
        mixed = [one.id for one in outputs if one.terms and one.main[0].term.boxes]
        return [evaluation.entity(cls, id) for id in mixed]

    @property
    def signal(self) -> ControllerSignalFacts:
        """What the controller makes of pulses."""
        return self.of(ControllerSignalFacts, self.id)

    @property
    def mixes(self) -> str:
        """The mixes on the way, in words."""
        return " and ".join(self.signal.output.main[0].term.boxes)

    @fact("1", "share of its own command that the mixes on the way let through")
    def mix_share(self) -> Value:
        shares = self.signal.output.main[0].term.shares
        weights = [
            getattr(self.of(ShareFacts, table), field) for table, field in shares if field.endswith("weight")
        ]
        return self.by(chain_product, factors=weights)

    @fact("1", "the same without its sign")
    def mix_size(self) -> Value:
        return self.by(magnitude, value=self.mix_share)


class SideChannelFacts(Facts):
    """The controller of a wheel that has a channel of its own."""

    kind = "wheel with a channel of its own"
    none = "no wheel has a channel of its own"
    rests_on = (FEEDS, SIGNALS)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        mule = evaluation.mule
        ids = dict.fromkeys(mule.controller_of.get(motor.id, "") for motor in WheelMotorFacts.all(evaluation))
        return [evaluation.entity(cls, id) for id in ids if mule.signals.trace(id).port is not None]

    @property
    def channel(self) -> ChannelFacts:
        """Its channel."""
        port = self.mule.signals.trace(self.id).port
        assert port is not None
        return self.of(ChannelFacts, f"{RADIO_OF[port[0]]}.channel.{port[1]}")

    @fact("1", "endpoint above neutral less that below")
    def ends_difference(self) -> Value:
        return self.by(difference, first=self.channel.upward, second=self.channel.downward)

    @fact("1", "the same without its sign")
    def ends_gap(self) -> Value:
        return self.by(magnitude, value=self.ends_difference)

    @fact("1", "the larger of both endpoints")
    def larger_end(self) -> Value:
        return self.by(largest, values=[self.channel.upward, self.channel.downward])

    @fact("1", "difference of both endpoints as a share of the larger one")
    def ends_unequal(self) -> Value:
        return self.by(quotient, part=self.ends_gap, whole=self.larger_end)
