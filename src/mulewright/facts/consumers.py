"""Facts about what draws from the middle wires of servo leads: receiver, mixers, servos, testers."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, Self

from mulewright.design.rail import Net
from mulewright.design.reads import kept
from mulewright.design.schema.electrics import Mixer
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.models.bus import total

Role = Literal["draws", "feeds"]


class ConsumerFacts(Facts):
    """Something that draws from a rail."""

    kind = "consumer of a rail"
    none = "nothing draws from a middle wire"

    min_voltage = given()
    max_voltage = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        nodes = evaluation.mule.supply.rail.nodes(data="draws")
        things = (node.removesuffix(".out") for node, draws in nodes if draws)
        made = ((thing, consumer_class(thing)) for thing in things)
        return [evaluation.entity(kind, thing) for thing, kind in made if issubclass(kind, cls)]

    @property
    def rail(self) -> str:
        """The id of the rail that it draws from."""
        return self.mule.supply.rail_names[self.mule.supply.rail_of(self.id)]

    @fact("A", "current that it draws on average")
    def average(self) -> Value:
        return self.found(0, "the few milliamperes of a tester are left out")


class TesterDrawFacts(ConsumerFacts):
    """A servo tester on a rail."""

    kind = "tester on a rail"
    none = "no servo tester draws from a rail"


class ReceiverDrawFacts(ConsumerFacts):
    """A receiver on its rail."""

    kind = "receiver on its rail"
    none = "no receiver is described"

    current = given(assume="rail_current.receiver")

    @fact("A", "current that it draws on average")
    def average(self) -> Value:
        return self.current


class MixerDrawFacts(ConsumerFacts):
    """A mixer box on its rail."""

    kind = "mixer box on its rail"
    none = "no mixer box is described"

    current = given(assume="rail_current.mixer")

    @fact("A", "current that it draws on average")
    def average(self) -> Value:
        return self.current

    @property
    def bridges(self) -> bool:
        """Whether it is known to join the middle wires of both its sides."""
        table = self.table
        assert isinstance(table, Mixer)
        return table.passes_rail is True

    @fact("1", "1 where both its sides are fed")
    def both_sides_fed(self) -> Value:
        supply, doubtful = self.mule.supply, set[str]()
        for net in self.dark_sides.values():
            doubtful |= set(net.unknown) if supply.on_rail(net.possible, "feeds") else set()
        if doubtful:
            raise Missing(*doubtful)
        return self.found(float(not self.dark_sides), self.side_words)

    @property
    def dark_sides(self) -> dict[str, Net]:
        """The sides that nothing feeds for certain."""
        supply = self.mule.supply
        sides = {"inputs": supply.rail_nets[f"{self.id}.in"], "outputs": supply.rail_nets[f"{self.id}.out"]}
        return {side: net for side, net in sides.items() if not supply.on_rail(net.sure, "feeds")}

    @property
    def side_words(self) -> str:
        """What feeds its sides, for people."""
        dark = " and ".join(self.dark_sides)
        return f"nothing feeds the side of its {dark}" if dark else "both its sides are fed"


class ServoDrawFacts(ConsumerFacts):
    """A servo on its rail."""

    kind = "servo on its rail"
    none = "no servo is described"

    moving_current = given(assume="rail_current.servo")
    stall_current = given()

    @fact("A", "current that it draws on average")
    def average(self) -> Value:
        return self.moving_current


def consumer_class(thing: str) -> type[ConsumerFacts]:
    """The class of facts for a thing that draws from a rail."""
    return CLASSES[thing.split(".", 1)[0]]


CLASSES: dict[str, type[ConsumerFacts]] = {
    "receiver": ReceiverDrawFacts,
    "second_receiver": ReceiverDrawFacts,
    "mixer": MixerDrawFacts,
    "servo": ServoDrawFacts,
    "tester": TesterDrawFacts,
}


class DemandFacts(Facts):
    """What a rail has to give: ``rail.receiver``."""

    kind = "demand on a rail"
    none = ConsumerFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, name) for name in evaluation.mule.supply.rail_names.values()]

    @kept
    def net(self) -> Net:
        """What is on the rail, for certain and perhaps."""
        return self.mule.supply.rail_of(self.id.removeprefix("rail."))

    def certain(self, role: Role) -> list[str]:
        """Things that are on it for certain and draw from it, or feed it."""
        return self.mule.supply.on_rail(self.net.sure, role)

    def perhaps(self, role: Role) -> list[str]:
        """Further things that may be on it."""
        return self.mule.supply.on_rail(self.net.possible - self.net.sure, role)

    def all_with(self, role: Role) -> list[str]:
        """Everything on it that draws from it, or feeds it.

        Raises
        ------
        Missing
            If that is not certain.
        """
        if self.perhaps(role):
            raise Missing(*self.net.unknown)
        return self.certain(role)

    @property
    def consumers(self) -> list[ConsumerFacts]:
        """Everything that draws from it."""
        return [self.of(consumer_class(thing), thing) for thing in self.all_with("draws")]

    @property
    def servos(self) -> list[ServoDrawFacts]:
        """The servos on it."""
        return [thing for thing in self.consumers if isinstance(thing, ServoDrawFacts)]

    @fact("A", "current that everything on it draws on average")
    def average(self) -> Value:
        return self.by(total, values=[thing.average for thing in self.consumers])

    @fact("A", "current that its servos draw when all of them are held fast")
    def stalled(self) -> Value:
        return self.by(total, values=[servo.stall_current for servo in self.servos])
