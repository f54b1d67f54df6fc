"""Facts about how well a function is served: margin, speed, current, heat and mass of what serves it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

import numpy as np

from mulewright.design.reads import kept
from mulewright.design.schema.functions import Flywheel, Lift, Roller, Winch
from mulewright.facts.body import WheelFacts
from mulewright.facts.bus import LoadFacts
from mulewright.facts.chain import DRIVE, SIDES, ChainFacts, TurnedFacts, chain_of
from mulewright.facts.chain_links import LinkFacts, links
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.loads import LiftFacts, WinchFacts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value, average
from mulewright.facts.running import RollerFacts
from mulewright.facts.stalls import StalledFacts
from mulewright.facts.throwing import ThrowerFacts
from mulewright.facts.wiring import WireFacts
from mulewright.facts.work import WorkFacts
from mulewright.models.arithmetic import largest, product, quotient, smallest
from mulewright.models.bus import total
from mulewright.models.chain import held_fast_ratio
from mulewright.models.heat import stall_heating_time
from mulewright.models.joint import needed_torque
from mulewright.models.motor import current_for_torque, speed_under_load
from mulewright.models.rope import lift_speed
from mulewright.models.throwing import hooded_wheel_exit_speed, wheel_pair_exit_speed
from mulewright.units.table import Table

YIELDS = ("stall", "grip", "holds-back")  # what gives without harm when it is held fast
BREAKS = ("burns", "snaps")


class MassFacts(Facts):
    """A part with a mass."""

    kind = "part with a mass"
    none = "no motor, no controller and no battery is described"

    part_mass = given(key="mass")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        file = evaluation.mule.file
        ids = [f"motor.{name}" for name in file.motor]
        ids += [f"controller.{name}" for name in file.controller]
        return [evaluation.entity(cls, id) for id in (*ids, *(f"battery.{name}" for name in file.battery))]


class ServiceFacts(Facts):
    """A function and what serves it: ``service.lift``; ``service.drive`` is the drive as a whole."""

    kind = "function that motors serve"
    none = ChainFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = (service_of(evaluation, name) for name in evaluation.mule.motors_serving)
        return [one for one in found if isinstance(one, cls)]

    @property
    def name(self) -> str:
        """The function."""
        return self.id.split(".", 1)[1]

    @property
    def target(self) -> str:
        """What its motors turn: ``drive``, a mechanism, or the motor itself where it turns nothing named."""
        return DRIVE if self.name == DRIVE else self.mule.functions[self.name]

    @property
    def motors(self) -> list[str]:
        """The motors that serve it."""
        return self.mule.motors_serving[self.name]

    @kept
    def controllers(self) -> list[str]:
        """The controllers that feed them, each once."""
        found = [self.mule.controller_of.get(motor) for motor in self.motors]
        if None in found:
            raise Missing(f"a controller that feeds {self.motors[found.index(None)]}")
        return list(dict.fromkeys(one for one in found if one is not None))

    @kept
    def battery(self) -> str:
        """The battery that feeds them all."""
        found = {controller: self.mule.supply.source_of(controller) for controller in self.controllers}
        for controller, source in found.items():
            if source is None or not source.startswith("battery."):
                raise Missing(f"a wire from a battery to {controller}")
        sources = set(found.values())
        if len(sources) > 1:
            raise Missing(f"one battery that feeds every motor of {self.name}")
        return str(sources.pop())

    @kept
    def runs(self) -> list[str]:
        """The runs of wire between that battery and the controllers, from the battery outwards."""
        ways = [self.mule.supply.way_to(controller) for controller in self.controllers]
        return list(dict.fromkeys(run.id for way in ways for run in way))

    @kept
    def chains(self) -> list[ChainFacts]:
        """Its chains from battery to load: one, or one for each side of the drive."""
        names = [f"{DRIVE}-{side}" for side in SIDES] if self.name == DRIVE else [self.name]
        return [chain for chain in (chain_of(self.evaluation, name) for name in names) if chain.motors]

    @kept
    def at_once(self) -> list[LinkFacts]:
        """What gives at once, as far as it can be told; the stall of a motor has to be."""
        every = [link for chain in self.chains for link in links(chain) if not link.manner.lasting]
        with self.evaluation.watch():  # asking whether something is known is not yet using it
            told = [link for link in every if link.output.node("gives_at").known or link.slug == "stall"]
        return told

    @property
    def weakest(self) -> LinkFacts:
        """The one of them that gives first, measured by the load at work where there is one."""
        with self.evaluation.watch():
            loads = [average(link.output.node("margin").value) for link in self.at_once]
            if not np.isfinite(min(loads)):
                loads = [average(link.output.node("gives_at").value) for link in self.at_once]
        return self.at_once[int(np.argmin(loads))]

    def serving(self, motor: str) -> MotorServiceFacts:
        """One of its motors at that."""
        return self.of(MotorServiceFacts, f"{motor}@{self.name}-serving")

    @fact(
        "1",
        "load at which something gives at once over the load at work; a thrower's: interval over recovery",
    )
    def margin(self) -> Value:
        if isinstance(self.mule.things.get(self.target), Flywheel):
            thrower = self.of(ThrowerFacts, self.target)
            return self.by(quotient, part=thrower.interval, whole=thrower.recovery)
        return self.by(smallest, values=[link.output.node("margin").value for link in self.at_once])

    @fact("1", "load at which something burns or snaps over the load at which it stalls or slips, held fast")
    def unbroken(self) -> Value:
        chains = [self.of(HeldFastFacts, f"{self.id}.{chain.name}") for chain in self.chains]
        return self.by(smallest, values=[chain.ratio for chain in chains])

    @fact("A", "current out of the battery at its work, full stick")
    def current(self) -> Value:
        return self.by(total, values=[self.serving(motor).supply_current for motor in self.motors])

    @fact("s", "time until a winding is hotter by what it bears, motors held fast at full stick")
    def heat(self) -> Value:
        return self.by(smallest, values=[self.serving(motor).heating_time for motor in self.motors])

    @fact("kg", "mass of its motors, their controllers, the battery, and the copper between")
    def mass(self) -> Value:
        parts = [self.of(MassFacts, one).part_mass for one in (*self.motors, *self.controllers, self.battery)]
        wires = [self.mule.supply.run_by_id[run].wire for run in self.runs]
        return self.by(total, values=[*parts, *(self.of(WireFacts, wire).copper_mass for wire in wires)])


class ShaftServiceFacts(ServiceFacts):
    """A function whose speed is that of a shaft."""

    kind = "function with a shaft that motors serve"
    none = "no motor turns an arm or anything that just turns"

    @fact("rad/s", "speed of what its slowest motor turns, at its work, full stick, rested battery")
    def speed(self) -> Value:
        shafts = [self.serving(motor).outer_speed for motor in self.motors]
        return self.by(smallest, values=shafts)


class WayServiceFacts(ServiceFacts):
    """A function whose speed is that of a load, of a rim or of a thrown object."""

    kind = "function with a way that motors serve"
    none = "no motor turns a wheel, a roller, a flywheel or a drum"

    @fact("m/s", "speed of the load going up, of a rim or of what is thrown, full stick, rested battery")
    def speed(self) -> Value:
        ways = [self.of(WayFacts, self.serving(motor).id).way_speed for motor in self.motors]
        return self.by(largest if self.name == DRIVE else smallest, values=ways)


class HeldFastFacts(Facts):
    """A chain whose motors are held fast: ``service.drive.drive-left``."""

    kind = "chain held fast"
    none = ChainFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        served = ServiceFacts.all(evaluation)
        return [evaluation.entity(cls, f"{one.id}.{chain.name}") for one in served for chain in one.chains]

    @fact("1", "load at which something burns or snaps over the load at which it stalls or slips")
    def ratio(self) -> Value:
        _, function, chain = self.id.split(".", 2)
        every = [link for link in service_of(self.evaluation, function).at_once if link.chain.name == chain]
        breaks = [link for link in every if link.manner.fails in BREAKS or link.slug == "hub"]
        yields = [link for link in every if link.slug in YIELDS]
        if not breaks:
            return self.found(np.inf, "nothing is noted that could burn or snap")
        return self.by(
            held_fast_ratio,
            breaking=[link.output.node("gives_at").value for link in breaks],
            yielding=[link.output.node("gives_at").value for link in yields],
        )


class MotorServiceFacts(Facts):
    """A motor that serves a function: ``motor.lift@lift-serving``."""

    kind = "motor that serves a function"
    none = ChainFacts.none

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        motor, function = id.removesuffix("-serving").split("@")
        self.function = function
        self.motor = self.of(MotorFacts, motor)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        served = evaluation.mule.motors_serving.items()
        return [
            evaluation.entity(cls, f"{motor}@{name}-serving") for name, motors in served for motor in motors
        ]

    @property
    def turns(self) -> str:
        """What it turns; nothing where it stands for itself."""
        return self.motor.motor.turns or ""

    @property
    def turned(self) -> Table | None:
        """The table of that."""
        return self.mule.things.get(self.turns)

    @property
    def running(self) -> LoadFacts:
        """The motor at the speed that counts: at its work, or freely where work is what slows it down."""
        free = self.turns.startswith("wheel.") or isinstance(self.turned, Flywheel | Roller)
        return self.of(LoadFacts, f"{self.motor.id}@{self.function}-{'running' if free else 'working'}")

    @fact("A", "current through it at its work")
    def work_current(self) -> Value:
        noted = self.motor.table.quantity("load_torque") is not None
        if noted or not isinstance(self.turned, Roller):
            return self.of(WorkFacts, self.motor.id).steady_current
        return self.by(
            current_for_torque, torque=self.of(RollerMotorFacts, self.id).roller_asks,
            torque_constant=self.motor.torque_constant,
            free_current=self.motor.free_current,
        )  # fmt: skip

    @fact("A", "current that it takes out of the battery at its work, full stick")
    def supply_current(self) -> Value:
        return self.by(product, first=self.motor.duty, second=self.work_current)

    @fact("rad/s", "speed of its shaft on the rested battery, full stick")
    def shaft_speed(self) -> Value:
        return self.by(
            speed_under_load, duty=self.motor.duty, voltage=self.running.voltage,
            current=self.running.current, resistance=self.motor.resistance,
            back_emf_constant=self.motor.back_emf_constant,
        )  # fmt: skip

    @fact("rad/s", "speed of what it turns")
    def outer_speed(self) -> Value:
        return self.by(quotient, part=self.shaft_speed, whole=self.motor.ratio)

    @fact("K", "rise that its winding bears")
    def borne_rise(self) -> Value:
        return self.assumed("winding_rise")

    @fact("s", "time until its winding is hotter by that, held fast at full stick, rested battery")
    def heating_time(self) -> Value:
        return self.by(
            stall_heating_time, rise=self.borne_rise, heat_capacity=self.motor.heat_capacity,
            current=self.of(StalledFacts, self.motor.id).held_current, resistance=self.motor.resistance,
        )  # fmt: skip


class RollerMotorFacts(Facts):
    """A motor that turns a roller: ``motor.roller@roller-serving``."""

    kind = "motor that turns a roller"
    none = RollerFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        every = MotorServiceFacts.all(evaluation)
        return [evaluation.entity(cls, one.id) for one in every if isinstance(one.turned, Roller)]

    @property
    def service(self) -> MotorServiceFacts:
        """The motor."""
        return self.of(MotorServiceFacts, self.id)

    @fact("1", "motors that turn the same roller")
    def sharing(self) -> Value:
        motors = self.mule.motors_turning(self.service.turns)
        return self.found(len(motors), f"{', '.join(motors)} turn {self.service.turns}")

    @fact("N m", "share of the torque at work of its roller")
    def roller_torque(self) -> Value:
        return self.by(
            quotient, part=self.of(TurnedFacts, self.service.turns).load_torque, whole=self.sharing
        )

    @fact("N m", "torque at its shaft then")
    def roller_asks(self) -> Value:
        motor = self.service.motor
        return self.by(needed_torque, torque=self.roller_torque, ratio=motor.ratio, efficiency=motor.train)


class WayFacts(Facts):
    """A motor that moves something along: ``motor.lift@lift-serving``."""

    kind = "motor that moves something along"
    none = WayServiceFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        served = WayServiceFacts.all(evaluation)
        return [evaluation.entity(cls, one.serving(motor).id) for one in served for motor in one.motors]

    @property
    def service(self) -> MotorServiceFacts:
        """The motor."""
        return self.of(MotorServiceFacts, self.id)

    @fact("m", "radius at which it pulls, pushes or throws")
    def lever(self) -> Value:
        turns, table = self.service.turns, self.service.turned
        if isinstance(table, Flywheel):
            return self.of(ThrowerFacts, turns).thrower_radius
        if isinstance(table, Roller):
            return self.of(RollerFacts, turns).roller_radius
        if isinstance(table, Lift):
            return self.of(LiftFacts, turns).drum_radius
        if isinstance(table, Winch):
            return self.of(WinchFacts, turns).drum_radius
        return self.of(WheelFacts, "drive.wheel").radius

    @fact("1", "travel of the load over travel of the rope")
    def travel_ratio(self) -> Value:
        if isinstance(self.service.turned, Lift):
            return self.of(LiftFacts, self.service.turns).load_ratio
        return self.found(1, "the load goes as far as the rope or the rim")

    @fact("m/s", "speed of the load, of the rim, or of what is thrown")
    def way_speed(self) -> Value:
        if isinstance(self.service.turned, Flywheel):
            hooded = self.of(ThrowerFacts, self.service.turns).hooded
            model = hooded_wheel_exit_speed if hooded else wheel_pair_exit_speed
            return self.by(model, speed=self.service.outer_speed, wheel_radius=self.lever)
        return self.by(
            lift_speed, travel_ratio=self.travel_ratio, speed=self.service.outer_speed, radius=self.lever
        )


ALONG = (Lift, Winch, Flywheel, Roller)


def service_of(evaluation: Evaluation, name: str) -> ServiceFacts:
    """How a function is served."""
    mule = evaluation.mule
    along = name == DRIVE or isinstance(mule.things.get(mule.functions.get(name, "")), ALONG)
    return evaluation.entity(WayServiceFacts if along else ShaftServiceFacts, f"service.{name}")
