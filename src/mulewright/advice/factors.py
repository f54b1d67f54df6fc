"""By which factors does the same command do more on the target, and which gears give the speed that was liked?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from mulewright.facts.descriptors import facts_of
from mulewright.facts.graph import Evaluation
from mulewright.facts.handover_factors import DrivenPairFacts, MotorPairFacts
from mulewright.facts.handover_scope import DrivePairFacts, RateFacts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Node, number

BASIC = {  # what the factors are made of: name, in words, fact
    "k_u": ("range", "range_factor"),
    "k_V": ("supply", "supply_factor"),
    "k_G": ("reduction", "reduction_factor"),
    "k_m": ("mass", "moved_factor"),
}
ROWS = (  # what is multiplied, by what, fact
    ("top speed, where the motor limits it", "k_u k_V / k_G", "top_speed_factor"),
    ("force held fast, short of slip and current limit", "k_u k_V k_G", "force_factor"),
    ("motor current held fast", "k_u k_V", "stall_current_factor"),
    ("battery current held fast", "k_u^2 k_V", "battery_current_factor"),
    ("winding heat held fast", "k_u^2 k_V^2", "winding_heat_factor"),
    ("energy at top speed", "(k_u k_V / k_G)^2 k_m", "energy_factor"),
    ("way of a stop, and how near it comes to tipping", "(k_u k_V / k_G)^2", "stop_factor"),
    ("first acceleration, short of slip", "k_u k_V k_G / k_m", "acceleration_factor"),
    ("time constant", "k_m / k_G^2", "time_constant_factor"),
    ("volts that hold the load", "k_load / k_G", "hold_volts_factor"),
    ("duty that holds the load", "k_load / (k_G k_V)", "hold_duty_factor"),
    ("current for the same force", "1 / k_G", "same_force_factor"),
    ("push at which the wheels slip", "k_m k_grip", "slip_factor"),
)
MOTOR = ("winding_factor", "torque_constant_factor")  # the factors take these for 1


@dataclass(frozen=True)
class Row:
    """One quantity, and what it is multiplied by."""

    quantity: str
    formula: str
    node: Node


@dataclass(frozen=True)
class FactorTable:
    """What motors of one function, all alike, do by which factors more on the target."""

    moves: str  # drive, mechanism.lift, or a motor that moves nothing else
    motors: tuple[str, ...]
    basic: dict[str, Node]
    rows: tuple[Row, ...]
    first_output: Node
    other_motor: bool | None  # whether its motor is another one there; None where that is unknown

    @property
    def cap(self) -> float | None:
        """The share of the output with which to begin: one over the factor on duty times volts, at most all."""
        share = number(self.first_output)
        return min(1.0, share) if share is not None else None

    @property
    def all_one(self) -> bool:
        """Whether nothing is multiplied by anything but 1."""
        return all((value := number(row.node)) is not None and abs(value - 1) < 1e-9 for row in self.rows)


@dataclass(frozen=True)
class Gears:
    """Wheel motors, all alike, geared to the speed of the accepted run at full signal."""

    motors: tuple[str, ...]
    factor: Node
    counted: Node  # the factor with what the motors take for themselves counted
    before: Node
    after: Node


@dataclass(frozen=True)
class Hidden:
    """Something that a lowered rate could not show."""

    what: str
    factor: Node  # of a machine with gears for the same speed, over what was felt
    formula: str
    words: str


@dataclass(frozen=True)
class RateLesson:
    """What the rate of the accepted run says about gears."""

    rate: Node
    speed: Node
    gears: tuple[Gears, ...]
    hidden: tuple[Hidden, ...]


def factor_tables(evaluation: Evaluation) -> list[FactorTable]:
    """A table for each function whose motors both machines have; motors that differ in it stand apart."""
    alike: dict[tuple[object, ...], list[MotorPairFacts]] = {}
    for pair in evaluation.all(MotorPairFacts):
        facts = [name for _, _, name in ROWS if name in facts_of(type(pair))]
        numbers = (_rounded(pair.node(name)) for name in facts)
        alike.setdefault((pair.moves, *facts, *numbers), []).append(pair)
    return [_table(pairs) for pairs in alike.values()]


def _rounded(node: Node) -> float | None:
    value = number(node)
    return None if value is None else round(value, 9)


def _table(pairs: Sequence[MotorPairFacts]) -> FactorTable:
    first = pairs[0]
    names = facts_of(type(first))
    motor = [number(first.node(name)) for name in MOTOR]
    return FactorTable(
        first.moves,
        tuple(pair.id for pair in pairs),
        {symbol: first.node(name) for symbol, (_, name) in BASIC.items() if name in names},
        tuple(Row(words, formula, first.node(name)) for words, formula, name in ROWS if name in names),
        first.node("first_output"),
        None if None in motor else any(one is not None and abs(one - 1) > 1e-9 for one in motor),
    )


def rate_lesson(evaluation: Evaluation) -> RateLesson | None:
    """What the rate of the accepted run says about gears; None where nothing was driven at a rate below all."""
    wheels = evaluation.all(DrivenPairFacts)
    rate = evaluation.entity(RateFacts, RateFacts.alone)
    lowered = number(rate.run.node("rate"))
    if not wheels or lowered is None or not 0 < lowered < 1:
        return None
    alike: dict[tuple[float | None, ...], list[DrivenPairFacts]] = {}
    for pair in wheels:
        nodes = (pair.node("same_speed_factor"), pair.node("same_speed_ratio"))
        alike.setdefault(tuple(map(_rounded, nodes)), []).append(pair)
    gears = [
        Gears(
            tuple(pair.id for pair in pairs),
            pairs[0].node("same_speed_factor"),
            pairs[0].node("same_speed_counted"),
            evaluation.entity(MotorFacts, pairs[0].id).node("ratio"),
            pairs[0].node("same_speed_ratio"),
        )
        for pairs in alike.values()
    ]
    speed = evaluation.entity(DrivePairFacts, DrivePairFacts.alone).node("tested_speed")
    return RateLesson(rate.run.node("rate"), speed, tuple(gears), _hidden(rate))


def _hidden(rate: RateFacts) -> tuple[Hidden, ...]:
    force, pace, current = rate.node("hidden_force"), rate.node("hidden_pace"), rate.run.node("rate")
    return (
        Hidden("push, climbing, lifting", force, "1 / rate^2", "the force"),
        Hidden("snap", pace, "rate^2", "the time constant"),
        Hidden("heat, current, life of the pack", current, "rate", "the current for the same force"),
        Hidden("holding and sinking", pace, "rate^2", "the speed of sinking"),
    )
