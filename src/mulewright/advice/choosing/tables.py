"""Which numbers of each option go into the kernel? All of them are facts of a mule with that option in place."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from mulewright.advice.choosing.bench import AS_IT_IS, Bench, Option
from mulewright.advice.choosing.findings import findings
from mulewright.advice.choosing.links import Seen, links_of, seen_links
from mulewright.advice.choosing.slots import Slots
from mulewright.checks import CHECKS
from mulewright.checks.engine import Severity, limits_of
from mulewright.design.schema.functions import Flywheel, Roller, Winch
from mulewright.errors import MulewrightError, NotFound
from mulewright.facts.chain import PullChainFacts
from mulewright.facts.graph import Facts
from mulewright.facts.loads import held_by
from mulewright.facts.nodes import Missing, trouble
from mulewright.facts.packs import FreshPackFacts
from mulewright.facts.serving import (
    MassFacts,
    MotorServiceFacts,
    RollerMotorFacts,
    ServiceFacts,
    WayFacts,
    WayServiceFacts,
)
from mulewright.facts.throwing import ThrowerFacts
from mulewright.facts.wiring import BatteryFacts, FuseFacts, RunFacts, WireFacts
from mulewright.facts.work import WorkFacts
from mulewright.models.throwing import hooded_wheel_exit_speed, recovery_time, wheel_pair_exit_speed

if TYPE_CHECKING:
    from mulewright.kernels.choosing import Choices, Links, Wiring, Work

Floats = NDArray[np.float64]
Row = list[float]


class Untold(Exception):
    """A number that an option would have to bring is not known."""

    def __init__(self, needs: Sequence[str], why: str = "") -> None:
        super().__init__(*needs)
        self.needs, self.why = tuple(needs), why

    def __str__(self) -> str:
        return self.why or f"needs {', '.join(self.needs)}"


@dataclass(frozen=True)
class Asked:
    """What a candidate has to reach."""

    margin: float
    slowest: float = 0.0
    fastest: float = float("inf")


@dataclass(frozen=True)
class Tables:
    """Everything that the kernel takes, and what the numbers of its links mean."""

    slots: Slots  # those options whose numbers are known
    choices: Choices
    wiring: Wiring
    links: Links
    work: Work
    seen: tuple[Seen, ...]
    findings: list[Floats]  # that the options of each slot bring along

    @property
    def shape(self) -> tuple[int, ...]:
        """How many options each slot has."""
        return tuple(len(slot) for slot in self.slots.all)

    @property
    def count(self) -> int:
        """How many candidates there are."""
        return int(np.prod(self.shape))

    def found_on(self, candidates: NDArray[np.int64]) -> Floats:
        """How many findings the options of candidates bring along."""
        places = np.unravel_index(candidates, self.shape)
        return np.asarray(sum(own[place] for own, place in zip(self.findings, places, strict=True)))

    @property
    def now(self) -> list[Option]:
        """What the file has, slot by slot."""
        return [next((one for one in slot if not one.edits), Option(AS_IT_IS)) for slot in self.slots.all]

    def options(self, candidate: int) -> list[Option]:
        """The options of a candidate, slot by slot."""
        places = np.unravel_index(candidate, self.shape)
        return [slot[int(place)] for slot, place in zip(self.slots.all, places, strict=True)]


def told(entity: Facts, name: str) -> float:
    """A fact that has to be known."""
    node = entity.node(name)
    if not node.known:
        raise Untold(sorted(node.gaps), trouble([node]))
    return float(node.value)


def perhaps(entity: Facts, name: str) -> float:
    """A fact that may be unknown; then nan."""
    node = entity.node(name)
    return float(node.value) if node.known else float("nan")


def tables_of(on: Bench, slots: Slots, asked: Asked) -> Tables:
    """Read the numbers of every option off the facts; options that lack one are moved to what was skipped.

    Raises
    ------
    MulewrightError
        If no option is left in a slot, or the load of the function cannot be told.
    """
    from mulewright.kernels.choosing import Choices

    reader = _Reader(on, slots)
    motors = reader.read("motor", slots.motors, motor_row)
    controllers = reader.read("controller", slots.controllers, controller_row)
    batteries = reader.read("battery", slots.batteries, battery_row)
    sizes = reader.read("size", slots.sizes, size_row)
    wires = reader.read("wire", slots.wires, wire_row)
    ratios = [[ratio.value, ratio.passes] for ratio in slots.ratios]
    choices = Choices(*(np.array(rows) for rows in (motors, ratios, sizes, controllers, batteries, wires)))
    service = on.service()
    try:
        work = work_of(service, asked)
    except Untold as no:
        raise _cannot(on, f"what {on.function} has to do cannot be told", no) from no
    links, seen = links_of(reader.seen, service, choices.controllers[:, 2:])
    return Tables(slots, choices, wiring_of(service), links, work, seen, findings(on, slots))


class _Reader:
    """Reads rows of options, and on the way what their parts bear."""

    def __init__(self, on: Bench, slots: Slots) -> None:
        self.on, self.slots = on, slots
        self.seen: dict[str, list[Mapping[tuple[str, str, int], Seen]]] = {}

    def read(self, slot: str, options: list[Option], row: Callable[[ServiceFacts], Row]) -> list[Row]:
        """One row for each option; options without one leave the slot."""
        rows: list[Row] = []
        kept: list[Option] = []
        seen: list[Mapping[tuple[str, str, int], Seen]] = []
        last: Exception | None = None
        for option in options:
            try:
                service = self.on.service(option)
                rows.append(row(service))
            except (Untold, Missing, MulewrightError) as no:
                last = no
                self.slots.skipped.append(f"{slot} {option.label}: {_words(no)}")
            else:
                kept.append(option)
                seen.append(seen_links(service))
        if not kept:
            raise _cannot(self.on, f"no {slot} can be tried for {self.on.function}", last)
        options[:], self.seen[slot] = kept, seen
        return rows


def _words(no: BaseException | None) -> str:
    if isinstance(no, Missing):
        return f"needs {', '.join(no.paths)}"
    return str(no).splitlines()[0] if no is not None else "the shelf has none"


def _cannot(on: Bench, what: str, no: BaseException | None) -> NotFound:
    return NotFound(what, on.loaded.where, _words(no))


# ---- one row of each slot


def motor_row(service: ServiceFacts) -> Row:
    """Constants of its motors, all alike: what the winding takes and the mass may be unknown."""
    motor = service.serving(service.motors[0]).motor
    known = [
        told(motor, name) for name in ("resistance", "torque_constant", "back_emf_constant", "free_current")
    ]
    return [*known, perhaps(motor, "heat_capacity"), _mass(service, service.motors)]


def controller_row(service: ServiceFacts) -> Row:
    """Mass of its controllers, the highest voltage that they bear, the duty of each."""
    highest = [perhaps(service.of(FreshPackFacts, one), "max_voltage") for one in service.controllers]
    duties = []
    for one in service.controllers:
        fed = next(motor for motor in service.motors if service.mule.controller_of.get(motor) == one)
        duties.append(told(service.serving(fed).motor, "duty"))
    return [_mass(service, service.controllers), min(highest), *duties]


def battery_row(service: ServiceFacts) -> Row:
    """Rested volts, resistance, fresh volts, mass."""
    battery = service.of(BatteryFacts, service.battery)
    known = [told(battery, name) for name in ("rested", "resistance")]
    return [*known, perhaps(battery, "full"), _mass(service, [service.battery])]


def wire_row(service: ServiceFacts) -> Row:
    """Mass of the copper, how well it bears its fuse, and the resistance of each run."""
    mule, fuses = service.mule, FuseFacts.all(service.evaluation)
    wires = [mule.supply.run_by_id[run].wire for run in service.runs]
    mass = sum(told(service.of(WireFacts, wire), "copper_mass") for wire in wires)
    limit = limits_of(CHECKS["P21"], mule.file.limits.get("P21"))[Severity.BLOCK]
    before = [fuse for fuse in fuses if fuse.id in mule.supply.run_through]
    over = [
        perhaps(fuse, "over_wire") for fuse in before if {wire.id for wire in fuse.protected} & set(wires)
    ]
    borne = limit / max(over) if over else float("nan")
    return [mass, borne, *(told(service.of(RunFacts, run), "resistance") for run in service.runs)]


def size_row(service: ServiceFacts) -> Row:
    """Radius at which it pulls, torque of each motor outside, recovery share, way for each radian outside."""
    first = service.serving(service.motors[0])
    chain = service.chains[0]
    radius = told(chain, "radius") if isinstance(chain, PullChainFacts) else 1.0
    along = isinstance(service, WayServiceFacts)
    return [radius, outside(first), _recovery(service), _lever(first) if along else 1.0]


def _mass(service: ServiceFacts, things: Sequence[str]) -> float:
    return sum(perhaps(service.of(MassFacts, thing), "part_mass") for thing in things)


def _noted(motor: MotorServiceFacts) -> bool:
    """Whether the torque at work is noted at the motor's own shaft."""
    held = held_by(motor.evaluation, motor.turns)
    return held is None and motor.motor.table.quantity("load_torque") is not None


def outside(motor: MotorServiceFacts) -> float:
    """Torque at work for each motor behind its gears, without losses; nothing where it is noted at the shaft."""
    if _noted(motor) or isinstance(motor.turned, Flywheel):
        return 0.0
    held = held_by(motor.evaluation, motor.turns)
    if held is not None:
        return told(held, "torque") / len(held.motors)
    if isinstance(motor.turned, Roller):
        return told(motor.of(RollerMotorFacts, motor.id), "roller_torque")
    return told(motor.of(WorkFacts, motor.motor.id), "outside")


def _lever(motor: MotorServiceFacts) -> float:
    """Way for each radian outside the gears."""
    way = motor.of(WayFacts, motor.id)
    lever = told(way, "lever")
    if isinstance(motor.turned, Flywheel):
        hooded = motor.of(ThrowerFacts, motor.turns).hooded
        return float((hooded_wheel_exit_speed if hooded else wheel_pair_exit_speed)(1.0, lever))
    return told(way, "travel_ratio") * lever


def _recovery(service: ServiceFacts) -> float:
    """Recovery time of a thrower for each second of time constant and kilogram square metre; 0 for others."""
    if not isinstance(service.mule.things.get(service.target), Flywheel):
        return 0.0
    thrower = service.of(ThrowerFacts, service.target)
    inertia, drop, tolerance = (
        told(thrower, name) for name in ("inertia_each", "speed_drop", "speed_tolerance")
    )
    return float(recovery_time(inertia, drop, tolerance))


# ---- what does not depend on the choice


def work_of(service: ServiceFacts, asked: Asked) -> Work:
    """What the function asks, whatever serves it."""
    from mulewright.kernels.choosing import Work

    first, table = service.serving(service.motors[0]), service.mule.things.get(service.target)
    held, throws = held_by(service.evaluation, service.target), isinstance(table, Flywheel)
    own = held if held is not None else first.of(WorkFacts, first.motor.id)
    raised = held is not None or isinstance(table, Winch)
    return Work(
        at_work=np.array([told(chain, "at_work") for chain in service.chains]),
        own=_own(service) if raised else 1.0,
        shaft_torque=told(own, "load_torque") if _noted(first) else 0.0,
        free=first.running.case.state == "running",
        throws=throws,
        fastest=service.name == "drive",
        interval=told(service.of(ThrowerFacts, service.target), "interval") if throws else 0.0,
        rise=told(first, "borne_rise"),
        asked=np.array([asked.margin, asked.slowest, asked.fastest]),
    )


def _own(service: ServiceFacts) -> float:
    """Efficiency between the gears and the load."""
    from mulewright.facts.loads import WinchFacts

    held = held_by(service.evaluation, service.target)
    return told(held if held is not None else service.of(WinchFacts, service.target), "own_efficiency")


def wiring_of(service: ServiceFacts) -> Wiring:
    """How runs, controllers and motors hang together."""
    from mulewright.kernels.choosing import Wiring

    mule, runs, controllers = service.mule, service.runs, service.controllers
    ends = {mule.supply.run_by_id[run].end: place for place, run in enumerate(runs)}
    chains = {motor: place for place, chain in enumerate(service.chains) for motor in chain.motors}
    return Wiring(
        run_parent=np.array([ends.get(mule.supply.run_by_id[run].start, -1) for run in runs]),
        controller_run=np.array([ends[controller] for controller in controllers]),
        motor_controller=np.array([controllers.index(mule.controller_of[motor]) for motor in service.motors]),
        motor_chain=np.array([chains[motor] for motor in service.motors]),
    )
