"""Facts about each link between battery and load: what it bears, and the load of its function at which it gives.

A link is named after the thing and what about it gives: ``fuse.main:may-blow@chain.winch``. Currents in wires and
fuses are taken at full stick, where a controller draws duty times the current of its motor.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Self

from mulewright.design.reads import kept
from mulewright.design.unsaid import WIRES
from mulewright.facts.chain import (
    ChainFacts,
    JointChainFacts,
    PullChainFacts,
    chain_of,
    chains,
    torque_of_each,
)
from mulewright.facts.chain_ratings import (
    BenchLimitFacts,
    ControllerHoldFacts,
    FuseBandFacts,
    MotorLimitFacts,
    StageLimitFacts,
    SwitchRatingFacts,
)
from mulewright.facts.chain_walk import walk, way
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.joints import JointFacts
from mulewright.facts.loads import RopeFacts
from mulewright.facts.motors import GearFacts, MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.ratings import RatingFacts
from mulewright.facts.slipping import SlipFacts
from mulewright.facts.stalls import StalledFacts
from mulewright.facts.steady import BoardLoadFacts, PackLoadFacts
from mulewright.facts.wiring import WireFacts
from mulewright.models.arithmetic import product, quotient
from mulewright.models.bus import total
from mulewright.models.chain import load_margin
from mulewright.models.gear import train_efficiency, train_ratio
from mulewright.models.joint import needed_torque


@dataclass(frozen=True)
class Manner:
    """In which manner a link gives."""

    words: str
    fails: str  # trips, stalls, slips, burns, snaps
    lasting: bool  # only where the load lasts, or at once
    bears: Callable[[LinkFacts], Value]


class LinkFacts(Facts):
    """A link of a chain."""

    kind = "link"
    none = ChainFacts.none
    manners: dict[str, Manner] = {}  # noqa: RUF012  (each kind of link has its own)

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        link, chain = id.split("@")
        self.thing, self.slug = link.rsplit(":", 1)
        self.chain = chain_of(evaluation, chain.split(".", 1)[1])

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [link for one in chains(evaluation) for link in links(one) if isinstance(link, cls)]

    @property
    def part(self) -> str:
        """The table of the file that it is about: for one of several runs that of their wire, or its board."""
        run = self.mule.supply.run_by_id.get(self.thing.split(".joints.")[0])
        if run is None:
            return self.thing
        return run.start if self.slug == "port" else self.thing.replace(run.id, run.wire)

    @property
    def manner(self) -> Manner:
        """How it gives."""
        return self.manners[self.slug]

    @property
    def output(self) -> OutputFacts:
        """The load at which it gives."""
        kind = JointOutputFacts if isinstance(self.chain, JointChainFacts) else PullOutputFacts
        return self.of(kind, self.id)


class CurrentLinkFacts(LinkFacts):
    """A link that gives at a current."""

    kind = "link that carries current"
    none = ChainFacts.none

    @fact("A", "current at which it gives")
    def bears(self) -> Value:
        return self.manner.bears(self)

    @kept
    def behind(self) -> list[str]:
        """The motors whose current it carries."""
        mule = self.mule
        if self.thing.startswith("motor."):
            return [self.thing]
        if self.thing.startswith("controller."):
            return [motor for motor in mule.motors_of(self.thing) if motor in self.chain.pulling]
        return [motor for motor in self.chain.pulling if self.thing in way(self.chain, motor)]

    @fact("N m", "torque of each motor's shaft at that current, full stick")
    def shaft(self) -> Value:
        beyond = self.thing.startswith(("motor.", "controller."))
        return torque_of_each(self, self.bears, self.behind, supply=not beyond)

    manners = {  # noqa: RUF012
        "peak": Manner("over its peak", "burns", False, lambda link: _pack(link).bears_peak),
        "for-ever": Manner("for ever", "burns", True, lambda link: _pack(link).bears_steady),
        "supply": Manner("current limit", "trips", False, lambda link: link.of(
            BenchLimitFacts, link.thing).current_limit),
        "holds": Manner("holds for ever up to 1.1 x", "trips", True, lambda link: link.of(
            FuseBandFacts, link.thing).holds_up_to),
        "may-blow": Manner("may blow from 1.35 x", "trips", False, lambda link: link.of(
            FuseBandFacts, link.thing).may_blow_from),
        "switch": Manner("contacts", "burns", False, lambda link: link.of(
            SwitchRatingFacts, link.thing).rating),
        "wire": Manner("insulation", "burns", True, lambda link: link.of(
            WireFacts, link.part).ampacity),
        "connector": Manner("contacts", "burns", True, lambda link: _connector(link)),
        "board": Manner("in all", "burns", True, lambda link: link.of(
            BoardLoadFacts, link.thing).rating),
        "port": Manner("one port", "burns", True, lambda link: link.of(
            BoardLoadFacts, link.part).port_rating),
        "continuous": Manner("for ever", "burns", True, lambda link: link.of(
            RatingFacts, link.thing).continuous_current),
        "over": Manner("over its peak", "burns", False, lambda link: link.of(
            RatingFacts, link.thing).peak_current),
        "cuts-out": Manner("over its peak", "trips", False, lambda link: link.of(
            RatingFacts, link.thing).peak_current),
        "holds-back": Manner("its current limit", "stalls", False, lambda link: link.of(
            ControllerHoldFacts, link.thing).current_limit),
        "heat": Manner("winding", "burns", True, lambda link: link.of(
            MotorLimitFacts, link.thing).lasting),
    }  # fmt: skip


class TorqueLinkFacts(LinkFacts):
    """A link that gives at a torque, between the motor's winding and what it turns."""

    kind = "link that carries torque"
    none = ChainFacts.none

    @property
    def motor(self) -> MotorFacts:
        """The motor in whose train it lies."""
        return self.of(MotorFacts, ".".join(self.thing.split(".")[:2]))

    @property
    def before(self) -> list[GearFacts]:
        """The gear stages between the motor's shaft and its place; a stage counts as before its own far side."""
        return self.motor.stages[: int(self.thing.rsplit(".", 1)[1]) + 1] if ".gears." in self.thing else []

    @fact("N m", "torque at which it gives, at its own place")
    def bears(self) -> Value:
        return self.manner.bears(self)

    @fact("1", "motor turns for one turn at its place")
    def ratio(self) -> Value:
        if not self.before:
            return self.found(1, "it sits on the motor's shaft")
        return self.by(train_ratio, ratios=[stage.ratio for stage in self.before])

    @fact("1", "power that gets from the motor's shaft to its place")
    def efficiency(self) -> Value:
        if not self.before:
            return self.found(1, "it sits on the motor's shaft")
        return self.by(train_efficiency, efficiencies=[stage.efficiency for stage in self.before])

    @fact("N m", "torque of the motor's shaft at which it gives")
    def shaft(self) -> Value:
        if not self.before:
            return self.bears
        return self.by(needed_torque, torque=self.bears, ratio=self.ratio, efficiency=self.efficiency)

    manners = {  # noqa: RUF012
        "stall": Manner("stall", "stalls", False, lambda link: link.of(
            StalledFacts, link.thing).held_torque),
        "gearbox": Manner("gearbox", "snaps", False, lambda link: link.of(
            MotorLimitFacts, link.thing).gearbox_limit),
        "hub": Manner("shaft and hub", "slips", False, lambda link: link.of(
            MotorLimitFacts, link.thing).hub),
        "stage": Manner("gear stage", "snaps", False, lambda link: link.of(
            StageLimitFacts, link.thing).bears),
    }  # fmt: skip


class EndLinkFacts(LinkFacts):
    """A link at the very end: a rope, the grip of wheels."""

    kind = "link at the load"
    none = "no rope is pulled and no wheel turned"

    @fact("N", "pull or push at which it gives")
    def bears(self) -> Value:
        return self.manner.bears(self)

    manners = {  # noqa: RUF012
        "rope": Manner("when new", "snaps", False, lambda link: link.of(RopeFacts, link.thing).strength),
        "grip": Manner("grip", "slips", False, lambda link: _grip(link)),
    }  # fmt: skip


class WheelGripFacts(Facts):
    """The grip of the wheel that a motor turns."""

    kind = "grip of a wheel"
    none = SlipFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, f"{slip.id}.wheel") for slip in SlipFacts.all(evaluation)]

    @fact("N", "push at which the wheel slips")
    def force(self) -> Value:
        slip = self.of(SlipFacts, self.id.removesuffix(".wheel"))
        return self.by(quotient, part=slip.wheel_slip_torque, whole=slip.standing.wheel.radius)


class OutputFacts(Facts):
    """A link, seen from the load."""

    kind = "link seen from the load"
    none = ChainFacts.none
    ends: type[ChainFacts]

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = (link.output for link in LinkFacts.all(evaluation))
        return [one for one in found if isinstance(one, cls)]

    @property
    def link(self) -> LinkFacts:
        """What it bears at its own place."""
        kind = next(kind for kind in KINDS_OF_LINK if self.id.split("@")[0].rsplit(":", 1)[1] in kind.manners)
        return self.of(kind, self.id)


class JointOutputFacts(OutputFacts):
    """A link, seen from a shaft."""

    kind = "link seen from a shaft"
    none = JointChainFacts.none

    @fact("N m", "torque of its function at which it gives")
    def gives_at(self) -> Value:
        link = self.link
        assert isinstance(link, CurrentLinkFacts | TorqueLinkFacts)
        return self.by(product, first=link.shaft, second=link.chain.gain)

    @fact("1", "that over what its function has to bear at work")
    def margin(self) -> Value:
        chain = self.link.chain
        assert isinstance(chain, JointChainFacts)
        return self.by(load_margin, limit=self.gives_at, load=chain.at_work)


class PullOutputFacts(OutputFacts):
    """A link, seen from a rope or from wheels."""

    kind = "link seen from a rope or from wheels"
    none = PullChainFacts.none

    @property
    def chain(self) -> PullChainFacts:
        """Its chain."""
        chain = self.link.chain
        assert isinstance(chain, PullChainFacts)
        return chain

    @fact("N", "pull or push of its function at which it gives")
    def gives_at(self) -> Value:
        link = self.link
        if isinstance(link, EndLinkFacts):
            return link.bears
        assert isinstance(link, CurrentLinkFacts | TorqueLinkFacts)
        return self.by(product, first=link.shaft, second=self.chain.force_gain)

    @fact("1", "that over what its function has to bear at work")
    def margin(self) -> Value:
        return self.by(load_margin, limit=self.gives_at, load=self.chain.at_work)


KINDS_OF_LINK = (CurrentLinkFacts, TorqueLinkFacts, EndLinkFacts)


def _pack(link: LinkFacts) -> PackLoadFacts:
    if not link.thing.startswith("battery."):
        raise link.missing(f"a wire from a battery to {link.thing}", WIRES)
    return link.of(PackLoadFacts, link.thing)


def _connector(link: LinkFacts) -> Value:
    if ".joints." not in link.thing:
        raise Missing(f"{link.part}.joints")
    return link.of(JointFacts, link.part).rating


def _grip(link: LinkFacts) -> Value:
    one_for_each_wheel = {link.of(MotorFacts, motor).motor.turns: motor for motor in link.chain.motors}
    return link.by(
        total,
        values=[link.of(WheelGripFacts, f"{motor}.wheel").force for motor in one_for_each_wheel.values()],
    )


def links(chain: ChainFacts) -> list[LinkFacts]:
    """Every link of a chain, from the battery to the load."""
    kinds = {slug: kind for kind in KINDS_OF_LINK for slug in kind.manners}
    return [chain.evaluation.entity(kinds[slug], f"{thing}:{slug}@{chain.id}") for thing, slug in walk(chain)]
