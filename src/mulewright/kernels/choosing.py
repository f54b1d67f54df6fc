"""How well does each candidate serve a function? The formulas of the models, for a million candidates a second.

A candidate is one choice of motor, gear ratio, size, controller, battery and wire, given by one number: its place when
all choices are counted, the wire fastest. All motors of the function are alike. Unknown numbers are nan and stay nan.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from mulewright.kernels.compiling import helper, kernel

Floats = NDArray[np.float64]
Whole = NDArray[np.int64]

MOTOR, RATIO, SIZE, CONTROLLER, BATTERY, WIRE, FIXED = range(7)  # what a link's limit depends on
SUPPLY_CURRENT, MOTOR_CURRENT, TORQUE, LOAD, STALL = range(5)  # in which terms a link gives
MARGIN, SPEED, CURRENT, HEAT, MASS, WEAKEST, REACH, SHORT = range(8)  # columns of what is found
ENOUGH_MARGIN, FAST_ENOUGH, SLOW_ENOUGH, UNBROKEN, BEARS_VOLTS, BEARS_FUSE, TOLD = range(
    7
)  # what is asked for


class Choices(NamedTuple):
    """What can be chosen; one row for each option."""

    motors: Floats  # resistance, torque constant, back-EMF constant, free current, heat capacity, mass of all
    ratios: Floats  # motor turns for one turn outside, power that passes
    sizes: Floats  # radius at which it pulls (1 for a shaft), torque outside of each motor, recovery share, lever
    controllers: Floats  # mass of all, highest volts, then the duty of each
    batteries: Floats  # rested volts, resistance, fresh volts, mass
    wires: Floats  # mass of the copper, what it bears over its fuse, then the resistance of each run


class Wiring(NamedTuple):
    """How runs, controllers and motors hang together."""

    run_parent: Whole  # run before each run, -1 for the battery; outwards
    controller_run: Whole  # run that ends at each controller
    motor_controller: Whole  # controller of each motor
    motor_chain: Whole  # chain of each motor


class Links(NamedTuple):
    """What may give at once; one entry for each."""

    chain: Whole
    terms: Whole  # SUPPLY_CURRENT and the like
    slot: Whole  # MOTOR and the like
    breaks: Whole  # 1 breaks, -1 gives way without harm, 0 trips
    bears: Floats  # for each option of its slot
    share: Floats  # for each controller option: duties of the motors behind it, or how many they are


class Work(NamedTuple):
    """What the function asks."""

    at_work: Floats  # load of each chain
    own: float  # efficiency between the gears and the load
    shaft_torque: float  # torque of each motor's shaft on top of what is outside
    free: bool  # whether its speed counts with nothing on the shaft
    throws: bool  # whether the margin is interval over recovery
    fastest: bool  # whether the fastest motor counts, else the slowest
    interval: float
    rise: float
    asked: Floats  # least margin, least speed, highest speed


class Chosen(NamedTuple):
    """The rows of one candidate."""

    motor: Floats
    ratio: Floats
    size: Floats
    controller: Floats
    pack: Floats
    wire: Floats


class Desk(NamedTuple):
    """Room for what is worked out on the way; used again for each candidate."""

    place: Whole  # of the chosen option of each slot
    volts: Floats  # at the end of each run
    fold: Floats  # conductance or current there
    held: Floats  # torque of the weakest motor's shaft in each chain, held fast
    gain: Floats  # load of each chain for each newton metre of every motor's shaft
    breaks: Floats  # load of each chain at which something breaks
    yields: Floats  # load of each chain at which it stalls or slips
    reach: Floats  # what is there over what is asked for


@helper
def _fill(room: Floats, value: float) -> None:
    """Write one value everywhere; a loop, because a slice is slower where there are only a few places."""
    for place in range(room.size):
        room[place] = value


@helper
def _choose(candidate: int, choices: Choices, place: Whole) -> Chosen:
    """Look up the rows of a candidate."""
    rest = candidate
    for slot, count in (
        (WIRE, choices.wires.shape[0]),
        (BATTERY, choices.batteries.shape[0]),
        (CONTROLLER, choices.controllers.shape[0]),
        (SIZE, choices.sizes.shape[0]),
        (RATIO, choices.ratios.shape[0]),
        (MOTOR, choices.motors.shape[0]),
    ):
        place[slot], rest = rest % count, rest // count
    return Chosen(
        choices.motors[place[MOTOR]],
        choices.ratios[place[RATIO]],
        choices.sizes[place[SIZE]],
        choices.controllers[place[CONTROLLER]],
        choices.batteries[place[BATTERY]],
        choices.wires[place[WIRE]],
    )


@helper
def _held_volts(one: Chosen, wiring: Wiring, desk: Desk) -> None:
    """Volts at the end of each run with every motor held fast."""
    duty, ohms = one.controller[2:], one.wire[2:]
    _fill(desk.fold, 0.0)
    whole = 0.0
    for controller in wiring.motor_controller:
        desk.fold[wiring.controller_run[controller]] += duty[controller] ** 2 / one.motor[0]
    for run in range(ohms.size - 1, -1, -1):
        near = desk.fold[run] / (1 + ohms[run] * desk.fold[run])
        if wiring.run_parent[run] < 0:
            whole += near
        else:
            desk.fold[wiring.run_parent[run]] += near
    source = one.pack[0] / (1 + one.pack[1] * whole)
    for run, parent in enumerate(wiring.run_parent):
        before = source if parent < 0 else desk.volts[parent]
        desk.volts[run] = before / (1 + ohms[run] * desk.fold[run])


@helper
def _work_volts(current: float, one: Chosen, wiring: Wiring, desk: Desk) -> None:
    """Volts at the end of each run with the same current in every motor."""
    duty, ohms = one.controller[2:], one.wire[2:]
    _fill(desk.fold, 0.0)
    whole = 0.0
    for controller in wiring.motor_controller:
        desk.fold[wiring.controller_run[controller]] += duty[controller] * current
    for run in range(ohms.size - 1, -1, -1):
        if wiring.run_parent[run] < 0:
            whole += desk.fold[run]
        else:
            desk.fold[wiring.run_parent[run]] += desk.fold[run]
    source = one.pack[0] - one.pack[1] * whole
    for run, parent in enumerate(wiring.run_parent):
        before = source if parent < 0 else desk.volts[parent]
        desk.volts[run] = before - ohms[run] * desk.fold[run]


@helper
def _hold(one: Chosen, wiring: Wiring, desk: Desk) -> float:
    """Hold every motor fast: torque in each chain; returns the largest current through a motor."""
    _held_volts(one, wiring, desk)
    _fill(desk.held, np.inf)
    _fill(desk.gain, 0.0)
    most = 0.0
    for controller, chain in zip(wiring.motor_controller, wiring.motor_chain):  # noqa: B905  (unknown to numba)
        amps = one.controller[2 + controller] * desk.volts[wiring.controller_run[controller]] / one.motor[0]
        desk.held[chain] = min(desk.held[chain], one.motor[1] * max(amps - one.motor[3], 0.0))
        desk.gain[chain] += one.ratio[0] * one.ratio[1] / one.size[0]
        most = max(most, amps)
    return float(most)


@helper
def _gives_at(link: int, links: Links, one: Chosen, desk: Desk) -> float:
    """Load of its chain at which a link gives; nan where that cannot be told."""
    terms, chain = links.terms[link], links.chain[link]
    bears = links.bears[link, desk.place[links.slot[link]]]
    if terms == LOAD:
        return float(bears)
    if terms == STALL:
        return float(desk.held[chain] * desk.gain[chain])
    if terms == TORQUE or np.isnan(bears):
        return float(bears * desk.gain[chain])
    share = links.share[link, desk.place[CONTROLLER]]
    return float(max(bears - share * one.motor[3], 0.0) * one.motor[1] / share * desk.gain[chain])


@helper
def _weakest(links: Links, one: Chosen, at_work: Floats, desk: Desk) -> tuple[float, int]:
    """Smallest margin of a link and which it is; where nothing is borne, the one that gives first."""
    margin, weakest, first, first_load = np.inf, 0, 0, np.inf
    _fill(desk.breaks, np.inf)
    _fill(desk.yields, np.inf)
    for link, chain in enumerate(links.chain):
        load = _gives_at(link, links, one, desk)
        if load < first_load:
            first, first_load = link, load
        if at_work[chain] > 0 and load / at_work[chain] < margin:
            margin, weakest = load / at_work[chain], link
        if links.breaks[link] > 0 and load < desk.breaks[chain]:
            desk.breaks[chain] = load
        if links.breaks[link] < 0 and load < desk.yields[chain]:
            desk.yields[chain] = load
    return margin, weakest if margin < np.inf else first


@helper
def _unbroken(desk: Desk) -> float:
    """Load at which something breaks over the load at which it stalls or slips, of the worst chain."""
    least = np.inf
    for breaks, yields in zip(desk.breaks, desk.yields):  # noqa: B905
        least = min(least, breaks / yields if yields > 0 else np.inf)
    return float(least)


@helper
def _run(one: Chosen, wiring: Wiring, work: Work, desk: Desk) -> tuple[float, float]:
    """Speed of what is moved, and current out of the battery at work."""
    asked = work.shaft_torque + one.size[1] / (one.ratio[0] * (work.own * one.ratio[1]))
    at_work = one.motor[3] + asked / one.motor[1]
    amps = one.motor[3] if work.free else at_work
    _work_volts(amps, one, wiring, desk)
    drawn, slowest, fastest, told = 0.0, np.inf, -np.inf, True
    for controller in wiring.motor_controller:
        duty, volts = one.controller[2 + controller], desk.volts[wiring.controller_run[controller]]
        if volts < 0:
            told = False
        speed = (duty * volts - amps * one.motor[0]) / one.motor[2] / one.ratio[0] * one.size[3]
        slowest, fastest = min(slowest, speed), max(fastest, speed)
        drawn += duty * at_work
    if not told:  # the battery cannot give what the work takes
        return np.nan, drawn
    return fastest if work.fastest else slowest, drawn


@helper
def _recovered(one: Chosen, work: Work) -> float:
    """Time between two throws over the time in which the wheel recovers."""
    needed = one.size[2] * one.motor[0] / (one.motor[1] * one.motor[2]) / one.ratio[0] ** 2
    return float(work.interval / needed if needed > 0 else np.inf)


@helper
def _fast_enough(speed: float, slowest: float) -> float:
    """Speed over the slowest that serves; what does not move at all does not serve."""
    if not speed > 0:
        return 0.0
    return speed / slowest if slowest > 0 else np.inf


@helper
def _shortest(reach: Floats) -> int:
    """Which of what is asked for is missed most, or met most narrowly; what is unknown is not asked for."""
    least, found = np.inf, 0
    for one, value in enumerate(reach):
        if value < least:
            least, found = value, one
    return found


@kernel
def judged(candidates: Whole, choices: Choices, wiring: Wiring, links: Links, work: Work) -> Floats:
    """Margin, speed, current, heat and mass of each candidate, its weakest link, and what it lacks most.

    Shapes: (n,) -> (n, 8); the columns are MARGIN to SHORT. REACH is what it has over what is asked for, where that
    is least: below 1 it does not serve; SHORT says of what. Heat and mass are nan where they cannot be told.
    """
    found = np.empty((candidates.size, 8))
    runs, chains = wiring.run_parent.size, work.at_work.size
    desk = Desk(
        np.zeros(7, np.int64), np.empty(runs), np.empty(runs), np.empty(chains), np.empty(chains),
        np.empty(chains), np.empty(chains), np.empty(6),
    )  # fmt: skip
    for row, candidate in enumerate(candidates):
        one = _choose(candidate, choices, desk.place)
        hottest = _hold(one, wiring, desk)
        margin, weakest = _weakest(links, one, work.at_work, desk)
        if work.throws:
            margin = _recovered(one, work)
        speed, drawn = _run(one, wiring, work, desk)
        desk.reach[ENOUGH_MARGIN] = margin / work.asked[0]
        desk.reach[FAST_ENOUGH] = _fast_enough(speed, work.asked[1])
        desk.reach[SLOW_ENOUGH] = work.asked[2] / speed if speed > 0 else np.inf
        desk.reach[UNBROKEN] = _unbroken(desk)
        desk.reach[BEARS_VOLTS] = one.controller[1] / one.pack[2]
        desk.reach[BEARS_FUSE] = one.wire[1]
        short = _shortest(desk.reach)
        found[row, MARGIN], found[row, SPEED], found[row, CURRENT] = margin, speed, drawn
        found[row, HEAT] = work.rise * one.motor[4] / (hottest**2 * one.motor[0]) if hottest > 0 else np.inf
        found[row, MASS] = one.motor[5] + one.controller[0] + one.pack[3] + one.wire[0]
        found[row, WEAKEST], found[row, REACH], found[row, SHORT] = weakest, desk.reach[short], short
    return found
