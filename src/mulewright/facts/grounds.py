"""Facts about grounds: what part of a motor's current a signal lead carries back, what opens the minus."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile
from typing import Self

from mulewright.design.reads import kept
from mulewright.design.references import as_list
from mulewright.design.schema.electrics import Controller, Fuse, Switch
from mulewright.design.supply import Run
from mulewright.design.unsaid import WIRES
from mulewright.facts.bus import StallFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.leads import LeadFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.sources import is_source, source_of
from mulewright.facts.wiring import SeriesFacts, WireFacts
from mulewright.models.ampacity import tabled_current
from mulewright.models.arithmetic import product, quotient
from mulewright.models.bus import total
from mulewright.models.ground_loop import thin_loop_resistance, way_conductance
from mulewright.models.wire import copper_wire_resistance, thin_ground_share
from mulewright.shelf.tables import column

RETURNS = ("controller.", "regulator.", "battery.")


class BreakFacts(Facts):
    """A fuse or a switch, and which conductor it opens."""

    kind = "fuse or switch in a wire"
    none = "no fuse and no switch lies in a wire"
    rests_on = (WIRES,)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, one.id) for one in SeriesFacts.all(evaluation)]

    @property
    def conductor(self) -> str | None:
        """The conductor that it opens, where that was noted."""
        table = self.table
        assert isinstance(table, Fuse | Switch)
        return table.conductor

    @fact("1", "1 where it opens the minus")
    def in_minus(self) -> Value:
        conductor = self.choice("conductor")
        return self.found(float(conductor == "minus"), f"it lies in the {conductor}")

    @fact("1", "things behind it whose signal ground is joined to others")
    def grounded(self) -> Value:
        supply = self.mule.supply
        things = supply.behind(supply.run_through[self.id]) & supply.ground_nets.keys()
        joined = sorted(thing for thing in things if len(supply.ground_nets[thing].sure) > 1)
        doubtful = {path for thing in things for path in supply.ground_nets[thing].unknown}
        if doubtful and not joined:
            raise Missing(*doubtful)
        if not joined:
            self.require_said(WIRES)
        return self.found(len(joined), f"signal grounds behind it: {', '.join(joined) or 'none'}")


class NeighboursFacts(Facts):
    """Things on one battery whose signal grounds are joined: ``grounds.controller.left@battery.main``."""

    kind = "joined signal grounds"
    none = "no signal lead joins two things on a battery"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        self.first_member, self.source = id.removeprefix("grounds.").split("@")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = (controller.neighbours for controller in ReturnFacts.all(evaluation) if controller.fed)
        return [evaluation.entity(cls, id) for id in dict.fromkeys(one.id for one in found)]

    @kept
    def members(self) -> list[WayFacts]:
        """Everything among them that has a minus to the battery of its own.

        Raises
        ------
        Missing
            If that is not certain.
        """
        net = self.mule.supply.ground_nets[self.first_member]
        if any(thing.startswith(RETURNS) for thing in net.possible - net.sure):
            raise Missing(*net.unknown)
        things = sorted(thing for thing in net.sure if thing.startswith(RETURNS))
        return [self.of(way_class(thing), thing) for thing in things if source_id(self, thing) == self.source]

    @kept
    def shared(self) -> int:
        """How many runs, from the battery outwards, all of them share."""
        levels = zip(*(self.mule.supply.way_to(member.id) for member in self.members), strict=False)
        return sum(1 for _ in takewhile(lambda level: len(set(level)) == 1, levels))

    @fact("S", "conductance of all their ways, from where the grounds meet to where the minuses do")
    def conductance(self) -> Value:
        return self.by(total, values=[member.conductance for member in self.members])


class WayFacts(Facts):
    """The way from where signal grounds meet, through a lead and a minus, to where the minuses meet."""

    kind = "way through a signal ground"
    none = "no signal lead is plugged in"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        nets = evaluation.mule.supply.ground_nets
        things = [thing for thing in nets if thing.startswith(RETURNS) and len(nets[thing].sure) > 1]
        made = ((thing, way_class(thing)) for thing in things)
        return [evaluation.entity(kind, thing) for thing, kind in made if issubclass(kind, cls)]

    @property
    def neighbours(self) -> NeighboursFacts:
        """The things whose signal grounds are joined to its own."""
        source, net = source_id(self, self.id), self.mule.supply.ground_nets[self.id]
        return self.of(NeighboursFacts, f"grounds.{net.name}@{source}")

    @fact("m", "length of its signal lead")
    def length(self) -> Value:
        return self.assumed("lead_length")

    @fact("m2", "thickness of the wires in its signal lead")
    def gauge(self) -> Value:
        return self.assumed("lead_gauge")

    @fact("ohm", "resistance of the ground wire in its signal lead")
    def copper(self) -> Value:
        return self.by(
            copper_wire_resistance, length=self.length, area=self.gauge,
            temperature=self.assumed("copper_temperature"),
        )  # fmt: skip

    @fact("ohm", "resistance of the two ground contacts of its signal lead")
    def contacts(self) -> Value:
        return self.by(product, first=2.0, second=self.assumed("contact_resistance"))

    @fact("ohm", "resistance of the ground of its signal lead")
    def lead(self) -> Value:
        return self.by(total, values=[self.copper, self.contacts])

    @property
    def runs(self) -> list[Run]:
        """The runs of its minus that it does not share with all the others."""
        return self.mule.supply.way_to(self.id)[self.neighbours.shared :]

    @fact("ohm", "resistance of its own minus, to where it meets those of the others")
    def minus(self) -> Value:
        return self.by(total, values=[self.of(WireFacts, run.wire).minus for run in self.runs])

    @fact("S", "conductance of its way through lead and minus")
    def conductance(self) -> Value:
        return self.by(way_conductance, resistances=[self.lead, self.minus])


class ControllerWayFacts(WayFacts):
    """The same for a controller, whose lead can be noted."""

    kind = "way through a controller's signal ground"
    none = "no controller is plugged in"

    lead_gauge = given(assume="lead_gauge")

    @fact("m", "length of its signal lead")
    def length(self) -> Value:
        return self.of(LeadFacts, self.id).laid

    @fact("m2", "thickness of the wires in its signal lead")
    def gauge(self) -> Value:
        return self.lead_gauge


class ReturnFacts(Facts):
    """How a controller's motor current gets back to the battery, in the thick minus and beside it."""

    kind = "return of a motor's current"
    none = "no controller is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "controller")

    @property
    def fed(self) -> bool:
        """Whether anything is known to feed it."""
        return self.mule.supply.source_of(self.id) is not None

    @property
    def way(self) -> ControllerWayFacts:
        """Its own lead and minus."""
        return self.of(ControllerWayFacts, self.id)

    @property
    def neighbours(self) -> NeighboursFacts:
        """Everything whose signal ground is joined to its own."""
        return self.way.neighbours

    @property
    def alone(self) -> bool:
        """Whether its signal ground leads nowhere but back to itself."""
        return len(self.neighbours.members) < 2

    @property
    def opening(self) -> list[str]:
        """Fuses and switches on its way that open the minus."""
        items = [item for run in self.mule.supply.way_to(self.id) for item in run.through]
        breaks = [self.of(BreakFacts, item) for item in items if item.startswith(("fuse.", "switch."))]
        unknown = [f"{one.id}.conductor" for one in breaks if one.conductor is None]
        found = [one.id for one in breaks if one.conductor == "minus"]
        if unknown and not found:
            raise Missing(*unknown)
        return found

    @fact("1", "1 where something can open its minus")
    def can_open(self) -> Value:
        opening = self.opening
        return self.found(
            float(bool(opening)), f"on its way {', '.join(opening) or 'nothing'} can open the minus"
        )

    @fact("ohm", "resistance of the loop through signal grounds that lies beside its minus")
    def thin(self) -> Value:
        if self.alone:
            return self.found(float("inf"), "its signal ground leads to no other way back to the battery")
        return self.by(
            thin_loop_resistance, lead=self.way.lead, conductance_of_all=self.neighbours.conductance,
            own_conductance=self.way.conductance,
        )  # fmt: skip

    @fact("1", "share of its return current that takes the thin loop")
    def share(self) -> Value:
        if self.alone and not self.opening:
            return self.found(0, "its signal ground leads to no other way back to the battery")
        if self.opening:
            return self.found(1, f"with {', '.join(self.opening)} open the thin loop is all that is left")
        return self.by(thin_ground_share, main_resistance=self.way.minus, thin_resistance=self.thin)

    @fact("A", "current that it returns with its motors held fast, before the battery sags")
    def peak(self) -> Value:
        table = self.table
        assert isinstance(table, Controller)
        if table.feeds is None:
            raise Missing(f"{self.id}.feeds")
        source = source_id(self, self.id)
        stalls = [self.of(StallFacts, f"{motor}@{source}") for motor in as_list(table.feeds)]
        return self.by(total, values=[stall.current for stall in stalls])

    @fact("A", "part of that current in the thin loop")
    def thin_current(self) -> Value:
        return self.by(product, first=self.share, second=self.peak)

    @fact("A", "current that the ground of its signal lead bears")
    def bears(self) -> Value:
        areas, amps = column("signal-lead")
        return self.by(tabled_current, area=self.way.gauge, areas=areas, currents=amps)

    @fact("1", "current in the thin loop over what the lead bears")
    def load(self) -> Value:
        return self.by(quotient, part=self.thin_current, whole=self.bears)


def way_class(thing: str) -> type[WayFacts]:
    """The class of facts for a thing's way."""
    return ControllerWayFacts if thing.startswith("controller.") else WayFacts


def source_id(facts: Facts, thing: str) -> str:
    """The battery or bench supply that feeds a thing; a pack that feeds a rail by itself is its own.

    Raises
    ------
    Missing
        If nothing is known to feed it.
    """
    return thing if is_source(thing) else source_of(facts, thing).id
