"""Facts about endpoints from geometry: angle that a linkage needs or bears, its pulse, and what to set on a radio."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.facts.controls import RadioFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.grippers import LinkageSwingFacts
from mulewright.facts.linkage_turn import LinkageTurnFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.servo_travel import LinkageFacts, ServoTravelFacts
from mulewright.models.arithmetic import difference, largest, magnitude, product, quotient, smallest
from mulewright.models.pulses import pulse_for_angle, servo_angle, travel_for_pulse

SENT, NEEDED, BINDS, STOPS = "sent", "needed", "binds", "stops"
ENDS = (SENT, NEEDED, BINDS, STOPS)
SIDES = ("low", "high")


class PlannedEndFacts(Facts):
    """One end of a servo's way by geometry: ``servo.tilt:needed-high``, ``:binds-low`` or ``:stops-high``."""

    kind = "planned end of a servo's way"
    none = ServoTravelFacts.none

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        servo, end = id.rsplit(":", 1)
        self.servo = self.of(ServoTravelFacts, servo)
        self.what, self.side = end.split("-")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = []
        for servo in ServoTravelFacts.all(evaluation):
            whats = ENDS if servo.linkage is not None else [one for one in ENDS if one != BINDS]
            found += [evaluation.entity(cls, f"{servo.id}:{what}-{side}") for what in whats for side in SIDES]
        return found

    @property
    def sign(self) -> float:
        """+1 at the upper end."""
        return 1.0 if self.side == "high" else -1.0

    @property
    def known_radio(self) -> RadioFacts | None:
        """The radio whose endpoint is to be set: the one that commands it, else the only one."""
        terms = self.servo.output.terms
        if terms:
            return self.of(RadioFacts, terms[0].control.split(".", 1)[0])
        radios = RadioFacts.all(self.evaluation)
        return radios[0] if len(radios) == 1 else None

    @property
    def radio(self) -> RadioFacts:
        """The same.

        Raises
        ------
        Missing
            If none is described, or nobody can tell which of two.
        """
        radio = self.known_radio
        if radio is None:
            raise Missing("radio")
        return radio

    @fact("rad", "angle from its middle at which the linkage binds")
    def binding_angle(self) -> Value:
        if self.servo.linkage is None:
            raise Missing(f"the linkage of {self.servo.id}")
        linkage = self.of(LinkageFacts, self.servo.linkage)
        return linkage.limit_high if self.side == "high" else linkage.limit_low

    @fact("rad", "angle to keep from where the linkage binds, towards it")
    def spared_angle(self) -> Value:
        return self.by(product, first=self.sign, second=self.assumed("linkage_margin"))

    @fact("rad", "angle from its middle at its own stop")
    def stop_angle(self) -> Value:
        servo = self.servo
        stop = servo.stop_high if self.side == "high" else servo.stop_low
        return self.by(servo_angle, servo_gain=servo.gain, pulse=stop, reference=servo.neutral)

    @fact("s", "pulse that its control sends at this end as it is set now")
    def sent_pulse(self) -> Value:
        return self.servo.longest if self.side == "high" else self.servo.shortest

    @fact("rad", "angle from its middle that this pulse means")
    def sent_angle(self) -> Value:
        servo = self.servo
        return self.by(servo_angle, servo_gain=servo.gain, pulse=self.sent_pulse, reference=servo.neutral)

    @fact("rad", "angle from its middle")
    def end_angle(self) -> Value:
        if self.what == NEEDED:
            return self._needed()
        if self.what == SENT:
            return self.sent_angle
        if self.what == BINDS:
            return self.by(difference, first=self.binding_angle, second=self.spared_angle)
        return self.stop_angle

    def _needed(self) -> Value:
        servo = self.servo
        if servo.linkage is None:
            return self._half(servo.need)
        linkage, placed = self.of(LinkageFacts, servo.linkage), self.of(LinkageSwingFacts, servo.id)
        return self.first(
            ("as noted for the servo", lambda: self._half(servo.noted_need)),
            ("as noted for its linkage", lambda: self._half(linkage.needed)),
            ("from the lengths of its linkage", lambda: self.by(
                largest if self.side == "high" else smallest, values=[placed.turned_open, placed.turned_closed]
            )),
            ("from its lengths, shared evenly", lambda: self._half(servo.need)),
        )  # fmt: skip

    def _half(self, angle: Value) -> Value:
        return self.by(product, first=0.5 * self.sign, second=angle)

    @fact("s", "pulse that turns it there")
    def end_pulse(self) -> Value:
        servo = self.servo
        return self.by(pulse_for_angle, servo_gain=servo.gain, angle=self.end_angle, reference=servo.neutral)

    @fact("1", "travel that sends this pulse on this radio; below 0 it lies below neutral")
    def signed_travel(self) -> Value:
        return self.by(
            travel_for_pulse, pulse=self.end_pulse, neutral=self.radio.neutral,
            half_range=self.radio.half_range,
        )  # fmt: skip

    @fact("1", "endpoint to set on this radio")
    def end_travel(self) -> Value:
        return self.by(magnitude, value=self.signed_travel)

    @fact("1", "the same over the largest that this radio lets one set; above 1 it cannot")
    def limit_share(self) -> Value:
        limit = self.of(TravelLimitFacts, self.radio.id).travel_limit
        return self.by(quotient, part=self.end_travel, whole=limit)

    @fact("s", "neutral of a radio of full range: that of the radio at hand, or else the servo's own middle")
    def full_range_neutral(self) -> Value:
        radio = self.known_radio
        return radio.neutral if radio is not None else self.servo.neutral

    @fact("1", "the same, signed, on a radio of full range, 500 us either side")
    def signed_full_range_travel(self) -> Value:
        return self.by(
            travel_for_pulse, pulse=self.end_pulse, neutral=self.full_range_neutral,
            half_range=self.assumed("full_half_range"),
        )  # fmt: skip

    @fact("1", "endpoint to set on a radio of full range")
    def full_range_travel(self) -> Value:
        return self.by(magnitude, value=self.signed_full_range_travel)


class TypedNeedFacts(Facts):
    """A servo whose angle is typed, and follows from the lengths of its linkage as well."""

    kind = "servo with a typed angle"
    none = LinkageSwingFacts.none

    noted_need = given(key="need")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, servo.id) for servo in LinkageSwingFacts.all(evaluation)]

    @property
    def linkage(self) -> LinkageTurnFacts:
        """The linkage that it moves."""
        return self.of(LinkageSwingFacts, self.id).bars

    @fact("rad", "angle that the task needs, as typed")
    def typed(self) -> Value:
        return self.first(
            ("for the servo", lambda: self.noted_need),
            ("for its linkage", lambda: self.of(LinkageFacts, self.linkage.id).needed),
        )

    @fact("rad", "angle by which it differs from that of the lengths")
    def differs(self) -> Value:
        return self.by(difference, first=self.typed, second=self.linkage.swing)

    @fact("1", "that difference over the one that measuring explains")
    def differs_share(self) -> Value:
        return self.by(quotient, part=self.differs, whole=self.assumed("angle_agreement"))


class TravelLimitFacts(Facts):
    """What a radio lets one set."""

    kind = "limit of a radio's endpoints"
    none = RadioFacts.none

    travel_limit = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, radio.id) for radio in RadioFacts.all(evaluation)]
