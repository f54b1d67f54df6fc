"""Facts about the controls of the transmitter and the channels that they move."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.radio import Control
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value


class RadioFacts(Facts):
    """The transmitter as a whole."""

    kind = "radio"
    none = "no transmitter is described"

    half_range = given()
    neutral = given(assume="neutral_pulse")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        radios = ("radio", "second_radio")
        return [
            evaluation.entity(cls, name) for name in radios if getattr(evaluation.mule.file, name) is not None
        ]


class RateFacts(Facts):
    """The rate switch of a transmitter."""

    kind = "rate switch"
    none = "no transmitter is described"

    slow = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, f"{radio.id}.rate") for radio in RadioFacts.all(evaluation)]

    @property
    def covered(self) -> list[str] | None:
        """Controls that it reaches: as set, or as the part says."""
        radio = self.mule.file.radio if self.id.startswith("radio.") else self.mule.file.second_radio
        assert radio is not None
        return radio.rate.covers if radio.rate.covers is not None else radio.rate_covers


class ControlFacts(Facts):
    """One control that commands something."""

    kind = "control"
    none = "no control commands anything"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, name) for name, what in evaluation.mule.commands_of.items() if what]

    @property
    def control(self) -> Control:
        """Its table."""
        assert isinstance(self.table, Control)
        return self.table

    @property
    def name(self) -> str:
        """Its short name on the transmitter."""
        return self.id.rsplit(".", 1)[1]

    @property
    def radio(self) -> RadioFacts:
        """The transmitter that it sits on."""
        return self.of(RadioFacts, self.id.split(".", 1)[0])

    @property
    def functions(self) -> list[str]:
        """The functions that it commands."""
        return self.mule.commands_of[self.id]

    set_rate = given(key="rate")
    set_expo = given(key="expo")

    @fact("1", "rate in force, as a fraction of the travel")
    def rate(self) -> Value:
        if self.choice("kind") != "stick":
            return self.found(1, f"{self.name} is a {self.control.kind}; rates act on sticks")
        return self.set_rate

    @fact("1", "curve in force: 0 is straight, positive is soft about the middle")
    def expo(self) -> Value:
        if self.choice("kind") != "stick":
            return self.found(0, f"{self.name} is a {self.control.kind}; curves act on sticks")
        return self.set_expo

    @fact("1", "1 where it returns to the middle by itself")
    def returns(self) -> Value:
        kind = self.choice("kind")
        if kind != "stick":
            return self.found(0, f"{self.name} is a {kind}: it stays where it is put")
        if self.control.conversion == "fitted":
            return self.found(1, f"a self-centring conversion is fitted on {self.name}")
        sprung = self.choice("sprung")
        return self.found(float(sprung), f"stick axis {self.name} is {'sprung' if sprung else 'not sprung'}")

    @fact("1", "1 where the rate switch reaches it")
    def slowed(self) -> Value:
        rates = self.of(RateFacts, f"{self.radio.id}.rate")
        covered = rates.covered
        if covered is None:
            raise Missing(f"{rates.id}.covers")
        return self.found(
            float(self.name in covered), f"the rate switch reaches {', '.join(covered) or 'nothing'}"
        )


class ChannelFacts(Facts):
    """Settings of one channel."""

    kind = "channel"
    none = "no channel is described"

    travel = given()
    travel_plus = given()
    travel_minus = given()
    sub_trim = given()
    trim = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = []
        for radio in RadioFacts.all(evaluation):
            channels = getattr(evaluation.mule.file, radio.id).channel
            found += [evaluation.entity(cls, f"{radio.id}.channel.{number}") for number in channels]
        return found

    @fact("1", "endpoint above neutral, as a fraction of the radio's half range")
    def upward(self) -> Value:
        return self.first(
            ("set for this way", lambda: self.travel_plus), ("set both ways", lambda: self.travel)
        )

    @fact("1", "endpoint below neutral, as a fraction of the radio's half range")
    def downward(self) -> Value:
        return self.first(
            ("set for this way", lambda: self.travel_minus), ("set both ways", lambda: self.travel)
        )

    @fact("1", "-1 where the channel is reversed, else 1")
    def sense(self) -> Value:
        reverse = self.choice("reverse")
        return self.found(-1 if reverse else 1, f"channel reverse is {'on' if reverse else 'off'}")
