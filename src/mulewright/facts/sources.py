"""Facts about what gives the current: which battery, or which bench supply in its place, feeds a thing?"""

from __future__ import annotations

from mulewright.design.unsaid import WIRES
from mulewright.facts.bench import BenchFacts
from mulewright.facts.graph import Facts
from mulewright.facts.wiring import BatteryFacts

BATTERY, BENCH = "battery.", "bench_supply."
Source = BatteryFacts | BenchFacts


def is_source(thing: str) -> bool:
    """Whether it is a battery or a bench supply."""
    return thing.startswith((BATTERY, BENCH))


def source_at(facts: Facts, thing: str) -> Source:
    """The facts of a battery or a bench supply: its volts at rest and at most, its resistance."""
    return facts.of(BenchFacts, thing) if thing.startswith(BENCH) else facts.of(BatteryFacts, thing)


def source_of(facts: Facts, thing: str) -> Source:
    """What feeds a thing.

    Raises
    ------
    Missing
        If nothing is known to feed it.
    """
    source = facts.mule.supply.source_of(thing)
    if source is None:
        raise facts.missing(f"a wire from a battery to {thing}", WIRES)
    return source_at(facts, source)
