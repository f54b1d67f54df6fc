"""How much does a set of things draw that is powered and does nothing, or runs freely?"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np

from mulewright.facts.bench import BenchFacts
from mulewright.facts.consumers import MixerDrawFacts, ReceiverDrawFacts
from mulewright.facts.first_push import FirstPushFacts
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import Value
from mulewright.facts.rail import RailFacts
from mulewright.facts.sources import Source
from mulewright.facts.wiring import BatteryFacts


def assumed(evaluation: Evaluation, name: str) -> Value:
    """A default of the table of assumptions, recorded as read."""
    node = evaluation.assumption(name)
    if evaluation.frames:
        evaluation.frames[-1].reads.append(node)
    return node.value


def standing(evaluation: Evaluation, things: Iterable[str]) -> Value:
    """What receivers, boxes, servos and controllers draw while nothing moves. [A]."""
    total = np.asarray(0.0)
    for thing in things:
        kind = thing.split(".", 1)[0]
        if kind in ("receiver", "second_receiver"):
            total = total + evaluation.entity(ReceiverDrawFacts, thing).average
        elif kind == "mixer":
            total = total + evaluation.entity(MixerDrawFacts, thing).average
        elif kind in ("servo", "controller"):
            total = total + assumed(evaluation, f"standing_current.{kind}")
    return total


def seen_at_supply(evaluation: Evaluation, rail: str, source: str, current: Value) -> Value:
    """Current of a rail as its supply gives it through a switching regulator without losses. [A]."""
    return current * np.minimum(
        1.0, evaluation.entity(RailFacts, rail).voltage / volts_of(evaluation, source).rested
    )


def volts_of(evaluation: Evaluation, source: str) -> Source:
    """The facts of a battery or a bench supply."""
    if source.startswith("bench_supply."):
        return evaluation.entity(BenchFacts, source)
    return evaluation.entity(BatteryFacts, source)


def free_running(evaluation: Evaluation, motors: Iterable[str]) -> Value:
    """What the supply gives while some motors run freely at full stick. [A]."""
    total = np.asarray(0.0)
    for motor in motors:
        total = total + evaluation.entity(FirstPushFacts, motor).free_draw
    return total


def starting(evaluation: Evaluation, motors: Iterable[str]) -> Value:
    """What the supply gives while some motors start at a small stick. [A]."""
    total = np.asarray(0.0)
    for motor in motors:
        total = total + evaluation.entity(FirstPushFacts, motor).small_start_draw
    return total
