"""Facts about switches that command a motor: the pulse at each position, and what the motor gets."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.characters import control_kind
from mulewright.design.mule import Mule
from mulewright.design.unsaid import CONTROL_KINDS, FEEDS, SIGNALS
from mulewright.facts.controls import ChannelFacts, ControlFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import ControllerSignalFacts
from mulewright.facts.plugs import PlannedPlugFacts
from mulewright.models.arithmetic import largest, magnitude, product, smallest
from mulewright.models.bus import total
from mulewright.models.duty import duty_jump, duty_rescaled, pulse_deviation
from mulewright.models.senses import position_deviation


class PositionFacts(Facts):
    """A controller at one position of the switch that commands it: ``controller.pump@1``, counted from 1."""

    kind = "position of a switch"
    none = "no switch commands a motor"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        controller, place = id.split("@")
        self.switched, self.place = self.of(SwitchedFacts, controller), int(place)
        self.signal = self.switched.signal

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = []
        for switched in SwitchedFacts.all(evaluation):
            noted = switched.switch.control.positions or []
            found += [evaluation.entity(cls, f"{switched.id}@{place}") for place in range(1, len(noted) + 1)]
        return found

    @fact("1", "what the position commands")
    def command(self) -> Value:
        positions = self.switched.switch.choice("positions")
        if self.place > len(positions):
            raise Missing(f"{self.switched.switch.id}.positions")
        noted = positions[self.place - 1]
        return self.found(
            noted.value, f"position {self.place} of {self.switched.switch.name} is noted as {noted.text}"
        )

    @fact("s", "pulse from the middle of the channel")
    def shift(self) -> Value:
        up, down = self.switched.switch_up, self.switched.switch_down
        return self.by(position_deviation, command=self.command, upward=up, downward=down)

    @fact("s", "pulse from the controller's neutral")
    def deviation(self) -> Value:
        return self.by(total, values=[self.shift, self.switched.switch_offset])

    @fact("s", "the same without its sign")
    def size(self) -> Value:
        return self.by(magnitude, value=self.deviation)

    @fact("1", "share of the supply that the motor gets, without its sign")
    def duty(self) -> Value:
        model = duty_jump if self.signal.choice("response") == "jump" else duty_rescaled
        return self.by(
            model,
            deviation=self.size,
            controller_half_range=self.signal.full_pulse,
            dead_band=self.signal.dead_band,
        )


class SwitchedFacts(Facts):
    """A controller that a switch commands by the plan, or by its plug where the plan says nothing."""

    kind = "controller on a switch"
    none = "no switch commands a motor"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        controllers = [one.id for one in ControllerSignalFacts.all(evaluation)]
        return [one for one in (evaluation.entity(cls, id) for id in controllers) if one.switches]

    @property
    def signal(self) -> ControllerSignalFacts:
        """What the controller makes of pulses."""
        return self.of(ControllerSignalFacts, self.id)

    @property
    def switches(self) -> list[str]:
        """The switches among its controls."""
        planned = self.of(PlannedPlugFacts, self.id).planned
        controls = planned or [term.control for term in self.signal.output.terms]
        return [control for control in controls if control_kind(self.mule, control) == "switch"]

    @property
    def switch(self) -> ControlFacts:
        """The switch that commands it."""
        return self.of(ControlFacts, self.switches[0])

    @property
    def channel(self) -> ChannelFacts:
        """The channel of that switch."""
        return self.of(ChannelFacts, f"{self.switch.radio.id}.channel.{self.switch.choice('channel')}")

    @fact("s", "pulse from the middle that a command of 1 makes on the channel of the switch")
    def switch_up(self) -> Value:
        return self.by(product, first=self.switch.radio.half_range, second=self.channel.upward)

    @fact("s", "pulse from the middle that a command of -1 makes there, counted the other way")
    def switch_down(self) -> Value:
        return self.by(product, first=self.switch.radio.half_range, second=self.channel.downward)

    @fact("s", "pulse of the channel of the switch at a command of 0, every trim as it is set")
    def switch_rest(self) -> Value:
        channel = self.channel
        return self.by(total, values=[self.switch.radio.neutral, channel.sub_trim, channel.trim])

    @fact("s", "how far that is off the controller's neutral")
    def switch_offset(self) -> Value:
        return self.by(pulse_deviation, pulse=self.switch_rest, controller_neutral=self.signal.neutral)

    @property
    def count(self) -> int | None:
        """Positions of the switch, if they are noted."""
        noted = self.switch.control.position_count
        return None if noted is None else int(noted.value)

    @property
    def positions(self) -> list[PositionFacts]:
        """It at each position of the switch."""
        count = self.count
        if count is None:
            raise Missing(f"{self.switch.id}.position_count")
        return [self.of(PositionFacts, f"{self.id}@{place}") for place in range(1, count + 1)]

    @fact("s", "how far off its neutral the position is that comes nearest to it")
    def nearest(self) -> Value:
        return self.by(smallest, values=[position.size for position in self.positions])

    @fact("1", "largest share of the supply that a position gives the motor")
    def highest_duty(self) -> Value:
        return self.by(largest, values=[position.duty for position in self.positions])


class TwoPositionFacts(Facts):
    """A controller that reverses, on a switch of two positions."""

    kind = "reversing controller on a two-position switch"
    none = "no motor that can reverse hangs on a two-position switch"
    rests_on = (FEEDS, SIGNALS, CONTROL_KINDS)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        switched = [one for one in SwitchedFacts.all(evaluation) if one.count in (2, None)]
        reversing = [one for one in switched if getattr(one.signal.table, "direction", None) != "one-way"]
        return [evaluation.entity(cls, one.id) for one in reversing]

    @classmethod
    def open_ends(cls, evaluation: Evaluation) -> Sequence[str]:
        return super().open_ends(evaluation) if _may_switch(evaluation.mule) else ()

    @property
    def switched(self) -> SwitchedFacts:
        """The controller at the positions of its switch."""
        return self.of(SwitchedFacts, self.id)


class ThreePositionFacts(Facts):
    """A controller on a switch of three positions or more."""

    kind = "controller on a three-position switch"
    none = "no motor hangs on a switch of three positions"
    rests_on = (FEEDS, SIGNALS, CONTROL_KINDS)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        switched = [one for one in SwitchedFacts.all(evaluation) if one.count is not None and one.count > 2]
        return [evaluation.entity(cls, one.id) for one in switched]

    @classmethod
    def open_ends(cls, evaluation: Evaluation) -> Sequence[str]:
        return super().open_ends(evaluation) if _may_switch(evaluation.mule) else ()

    @property
    def switched(self) -> SwitchedFacts:
        """The controller at the positions of its switch."""
        return self.of(SwitchedFacts, self.id)

    @fact("1", "1 where the pulse steps from one position to the next at once")
    def steps(self) -> Value:
        channel = self.switched.channel
        slow = channel.table.quantity("slow")
        if slow is not None and slow.value:
            return self.found(0, f"{channel.id} is slowed: {slow.text} from end to end")
        return self.found(1, f"{channel.id} is not slowed")


def _may_switch(mule: Mule) -> bool:
    """Whether a control commands something that is a switch, or of which nobody said what it is."""
    controls = (control for control, commanded in mule.commands_of.items() if commanded)
    return any(control_kind(mule, control) in ("switch", None) for control in controls)
