"""Facts about a function as a chain from the battery to its load: what it has to bear, and where its motors stall.

Loads are expressed where people feel them: torque at a joint, pull in the rope at its drum (losses of rope and
sheaves lie beyond it), push at the wheels of one side. All motors of a function pull alike.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.reads import kept
from mulewright.design.schema.functions import Flywheel, Lift, Winch
from mulewright.facts.body import WheelFacts
from mulewright.facts.chain_ratings import MotorLimitFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.loads import LiftFacts, WinchFacts, held_by
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.stalls import StalledFacts
from mulewright.facts.work import PullFacts
from mulewright.models.arithmetic import product, quotient, smallest
from mulewright.models.bus import total
from mulewright.models.chain import torque_at_draw

DRIVE = "drive"
SIDES = ("left", "right")


class TurnedFacts(Facts):
    """A roller, a spinner or a motor of its own, with the torque that it takes at work."""

    kind = "thing that just turns"
    none = "nothing on this mule just turns"

    load_torque = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        mule = evaluation.mule
        turned = [path for path in mule.functions.values() if hasattr(mule.things.get(path), "load_torque")]
        return [evaluation.entity(cls, path) for path in turned]


class ChainFacts(Facts):
    """A function that motors serve, or one side of the drive: ``chain.lift``, ``chain.drive-left``."""

    kind = "chain from battery to load"
    none = "no motor serves a function"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [one for one in chains(evaluation) if isinstance(one, cls)]

    @property
    def name(self) -> str:
        """The function, or ``drive-`` and the side."""
        return self.id.split(".", 1)[1]

    @property
    def target(self) -> str:
        """What its motors turn: a mechanism, or the motor itself where it turns nothing named."""
        return self.mule.functions[self.name]

    @kept
    def side(self) -> str | None:
        """The side of the drive, where it is one."""
        name = self.name.removeprefix(f"{DRIVE}-")
        return name if name in SIDES and name != self.name else None

    @property
    def function(self) -> str:
        """The function whose motors all pull at once."""
        return DRIVE if self.side else self.name

    @kept
    def pulling(self) -> list[str]:
        """Every motor that pulls at once: for one side of the drive those of the other one too."""
        return self.mule.motors_serving[self.function]

    @kept
    def motors(self) -> list[str]:
        """The motors whose effort adds up to its load."""
        side = self.side
        if side is None:
            return self.pulling
        wheels = [wheel for wheel in self.mule.wheels if wheel.endswith(side)]
        return [motor for wheel in wheels for motor in self.mule.motors_turning(f"wheel.{wheel}")]

    @fact("1", "torque on what they turn for each newton metre of every motor's shaft, losses taken off")
    def gain(self) -> Value:
        return self.by(total, values=[self.of(MotorLimitFacts, motor).gain for motor in self.motors])

    @fact("N m", "torque of the weakest motor's shaft when all are held fast")
    def stalled_shaft(self) -> Value:
        return self.by(smallest, values=[self.of(StalledFacts, motor).held_torque for motor in self.motors])


class JointChainFacts(ChainFacts):
    """A chain that ends on a shaft: loads are torques."""

    kind = "chain that ends on a shaft"
    none = "no motor turns an arm, a wheel in the air, a roller or anything that just turns"

    @fact("N m", "torque at which its motors stall at full stick, on the rested battery")
    def stalls_at(self) -> Value:
        return self.by(product, first=self.stalled_shaft, second=self.gain)

    @fact("N m", "torque that it has to bear at work")
    def at_work(self) -> Value:
        table = self.mule.things[self.target]
        if isinstance(table, Flywheel):
            return self.found(0, "a flywheel up to speed bears nothing but friction")
        if hasattr(table, "load_torque"):
            return self.of(TurnedFacts, self.target).load_torque
        held = held_by(self.evaluation, self.target)
        if held is None:
            raise Missing(f"the load of {self.name}")
        return held.torque


class PullChainFacts(ChainFacts):
    """A chain that ends in a rope or at wheels: loads are forces."""

    kind = "chain that ends in a rope or at wheels"
    none = "no motor pulls a rope or turns a wheel"

    @fact("m", "radius at which it pulls or pushes")
    def radius(self) -> Value:
        if self.side:
            return self.of(WheelFacts, "drive.wheel").radius
        if isinstance(self.mule.things[self.target], Lift):
            return self.of(LiftFacts, self.target).drum_radius
        return self.of(WinchFacts, self.target).drum_radius

    @fact("1/m", "pull or push for each newton metre of every motor's shaft, losses taken off")
    def force_gain(self) -> Value:
        return self.by(quotient, part=self.gain, whole=self.radius)

    @fact("N", "pull or push at which its motors stall at full stick, on the rested battery")
    def stalls_at(self) -> Value:
        return self.by(product, first=self.stalled_shaft, second=self.force_gain)

    @fact("N", "pull in the rope at its drum, or push of the side, that it has to bear at work")
    def at_work(self) -> Value:
        if self.side:
            return self.by(quotient, part=self.of(DrivingFacts, DRIVE).climbing_force, whole=2.0)
        if isinstance(self.mule.things[self.target], Lift):
            lift = self.of(LiftFacts, self.target)
            return self.by(quotient, part=lift.rope_force, whole=lift.own_efficiency)
        winch = self.of(WinchFacts, self.target)
        if winch.choice("use") == "pulling":
            pull = self.of(PullFacts, self.target).pull
            return self.by(quotient, part=pull, whole=winch.own_efficiency)
        return self.by(quotient, part=winch.rope_force, whole=winch.own_efficiency)


def chain_of(evaluation: Evaluation, name: str) -> ChainFacts:
    """The chain of a function, or of ``drive-left`` or ``drive-right``."""
    mule = evaluation.mule
    target = mule.things.get(mule.functions.get(name, ""))
    pulls = name.startswith(f"{DRIVE}-") or isinstance(target, Lift | Winch)
    return evaluation.entity(PullChainFacts if pulls else JointChainFacts, f"chain.{name}")


def chains(evaluation: Evaluation) -> list[ChainFacts]:
    """Every chain of a mule: the functions in the order of its motors, a drive as its two sides."""
    names = [
        name
        for function in evaluation.mule.motors_serving
        for name in ([f"{DRIVE}-{side}" for side in SIDES] if function == DRIVE else [function])
    ]
    return [chain for chain in (chain_of(evaluation, name) for name in names) if chain.motors]


def torque_of_each(link: Facts, current: Value, motors: Sequence[str], *, supply: bool) -> Value:
    """Torque of each motor's shaft when some of them together draw a current, before or behind the controller."""
    limits = [link.of(MotorLimitFacts, motor) for motor in motors]
    if not limits:
        raise Missing(f"a motor behind {link.id}")
    idle = [limit.supply_idle if supply else limit.motor.free_current for limit in limits]
    draws = [limit.supply_draw if supply else limit.draw for limit in limits]
    return link.by(torque_at_draw, current=current, idle=idle, per_torque=draws)
