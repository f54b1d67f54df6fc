"""Facts about what is noted of the radio: rules, its battery, trims, places of controls at switch-on."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.radio import Radio
from mulewright.facts.controls import ChannelFacts, ControlFacts, RadioFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.models.arithmetic import largest, magnitude


class RadioRecordFacts(Facts):
    """What is noted about a transmitter."""

    kind = "radio"
    none = RadioFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, radio.id) for radio in RadioFacts.all(evaluation)]

    @property
    def radio(self) -> Radio:
        """Its table."""
        assert isinstance(self.table, Radio)
        return self.table

    @property
    def note(self) -> str:
        """What the user found out about local rules for its band."""
        note: str = self.choice("permission")
        return note

    @fact("1", "1 where the note on the rules for its band does not begin with no or not")
    def permitted(self) -> Value:
        refused = self.note.casefold().split()[:1] in (["no"], ["not"])
        return self.found(float(not refused), f"noted: {self.note}")

    @property
    def battery_note(self) -> str:
        """When its own battery was looked at, for people."""
        day = self.radio.battery_checked
        return f"looked at on {day}" if day is not None else "no day is noted"

    @fact("1", "1 where a day is noted on which its own battery was looked at")
    def battery_noted(self) -> Value:
        return self.found(float(self.radio.battery_checked is not None), self.battery_note)


class TrimFacts(Facts):
    """Trims of a channel, which nobody sees from outside."""

    kind = "channel"
    none = ChannelFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, channel.id) for channel in ChannelFacts.all(evaluation)]

    @property
    def channel(self) -> ChannelFacts:
        """The channel."""
        return self.of(ChannelFacts, self.id)

    @fact("s", "size of its sub-trim")
    def sub_trim_size(self) -> Value:
        return self.by(magnitude, value=self.channel.sub_trim)

    @fact("s", "size of its trim")
    def trim_size(self) -> Value:
        return self.by(magnitude, value=self.channel.trim)

    @fact("s", "larger of its trims")
    def hidden(self) -> Value:
        return self.by(largest, values=[self.sub_trim_size, self.trim_size])

    @property
    def noted(self) -> bool:
        """Whether a settings sheet is filled in."""
        return bool(getattr(self.mule.file, self.id.split(".", 1)[0]).settings_noted)

    @property
    def sheet(self) -> str:
        """The state of that sheet, for people."""
        return f"the settings sheet is {'' if self.noted else 'not '}filled in"

    @fact("1", "1 where a settings sheet is filled in")
    def written_down(self) -> Value:
        return self.found(float(self.noted), self.sheet)


class StartFacts(Facts):
    """A control that stays where it was left."""

    kind = "control that stays"
    none = "every control returns to its middle by itself"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [
            evaluation.entity(cls, control.id) for control in ControlFacts.all(evaluation) if stays(control)
        ]

    @property
    def start_note(self) -> str:
        """Where it should stand when the power comes on, for people."""
        start = self.of(ControlFacts, self.id).control.start
        listed = self.mule.file.checklist.start_list
        return start or ("on the start list" if listed else "nowhere noted")

    @fact("1", "1 where its place at switch-on is noted")
    def start_noted(self) -> Value:
        return self.found(
            float(self.start_note != "nowhere noted"), f"its place at switch-on: {self.start_note}"
        )


def stays(facts: ControlFacts) -> bool:
    """Whether a control may stay where it was left."""
    control = facts.control
    return control.kind != "stick" or (control.sprung is not True and control.conversion != "fitted")


class SocketCountFacts(Facts):
    """A control whose channel needs a socket at the receiver."""

    kind = "control"
    none = ControlFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, control.id) for control in ControlFacts.all(evaluation)]

    @fact("1", "number of its channel")
    def channel_number(self) -> Value:
        number = self.choice("channel")
        return self.found(number, f"it moves channel {number}")

    @fact("1", "sockets of the receiver")
    def sockets(self) -> Value:
        receiver = "second_receiver" if self.id.startswith("second_") else "receiver"
        table = getattr(self.mule.file, receiver)
        if table is None or table.channels is None:
            raise Missing(f"{receiver}.channels")
        return self.found(table.channels, f"{receiver} has {table.channels} sockets")
