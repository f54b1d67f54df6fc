"""Facts about what lives from a rail besides servos, and the volts that reach the end of a servo's lead."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar, Self

from mulewright.facts.consumers import (
    ConsumerFacts,
    MixerDrawFacts,
    ReceiverDrawFacts,
    ServoDrawFacts,
    TesterDrawFacts,
    consumer_class,
)
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.leads import LeadFacts
from mulewright.facts.nodes import Value
from mulewright.facts.rail import RailFacts
from mulewright.models.arithmetic import difference, product
from mulewright.models.bus import total
from mulewright.models.wire import copper_wire_resistance, voltage_drop


class FedFacts(Facts):
    """Something that lives from a rail."""

    kind = "consumer and its volts"
    none = ConsumerFacts.none
    sorts: ClassVar[tuple[type[ConsumerFacts], ...]] = (ConsumerFacts,)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [
            evaluation.entity(cls, thing.id)
            for thing in ConsumerFacts.all(evaluation)
            if isinstance(thing, cls.sorts)
        ]

    @property
    def consumer(self) -> ConsumerFacts:
        """The same as something that draws."""
        return self.of(consumer_class(self.id), self.id)

    @property
    def rail(self) -> RailFacts:
        """The rail that feeds it."""
        return self.of(RailFacts, self.consumer.rail)


class FedReceiverFacts(FedFacts):
    """A receiver and the volts of its rail."""

    kind = "receiver and its volts"
    none = ReceiverDrawFacts.none
    sorts = (ReceiverDrawFacts,)


class FedBoxFacts(FedFacts):
    """A mixer box or a servo tester, and the volts of its rail."""

    kind = "box and its volts"
    none = "no mixer box and no servo tester lives from a rail"
    sorts = (MixerDrawFacts, TesterDrawFacts)


class ServoLeadFacts(FedFacts):
    """A servo at the end of its lead."""

    kind = "servo at the end of its lead"
    none = ServoDrawFacts.none
    sorts = (ServoDrawFacts,)

    lead_gauge = given(assume="lead_gauge")

    @property
    def servo(self) -> ServoDrawFacts:
        """The servo as something that draws."""
        return self.of(ServoDrawFacts, self.id)

    @fact("m", "length of copper there and back in its lead")
    def both_ways(self) -> Value:
        return self.by(product, first=2.0, second=self.of(LeadFacts, self.id).laid)

    @fact("ohm", "resistance of the copper in its lead")
    def copper(self) -> Value:
        return self.by(
            copper_wire_resistance, length=self.both_ways, area=self.lead_gauge,
            temperature=self.assumed("copper_temperature"),
        )  # fmt: skip

    @fact("ohm", "resistance of the contacts for plus and minus in its plug")
    def contacts(self) -> Value:
        return self.by(product, first=2.0, second=self.assumed("contact_resistance"))

    @fact("ohm", "resistance of its lead with its plug")
    def lead(self) -> Value:
        return self.by(total, values=[self.copper, self.contacts])

    @fact("V", "volts lost in its lead while it is held fast")
    def lost(self) -> Value:
        return self.by(voltage_drop, current=self.servo.stall_current, resistance=self.lead)

    @fact("V", "volts that are left at the servo while it is held fast")
    def left(self) -> Value:
        return self.by(difference, first=self.rail.voltage, second=self.lost)
