"""Which gear trains can be built from the toothed wheels at hand?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import combinations_with_replacement, product
from math import log
from typing import Any

from mulewright.advice.choosing.bench import Edit, Option, Wanted
from mulewright.design.merging import UNKNOWN, Raw
from mulewright.design.paths import look_up
from mulewright.facts.serving import ServiceFacts
from mulewright.models.gear import stage_ratio, train_efficiency, train_ratio
from mulewright.shelf.tables import default
from mulewright.units.quantity import read_quantity
from mulewright.units.shown import people


def trains(raw: Raw, service: ServiceFacts, wanted: Wanted) -> list[Option]:
    """What the file has now, and every train of the wheels at hand, those closer than a step thinned out."""
    names = [motor.split(".", 1)[1] for motor in service.motors]
    tables: list[Mapping[str, Any]] = [look_up(raw, ("motor", name), {}) for name in names]
    now = [table.get("gears") for table in tables]
    found = []
    if all(gears == now[0] for gears in now):
        motor = service.serving(service.motors[0]).motor
        ratio, passes = motor.node("ratio"), motor.node("train")
        if ratio.known and passes.known:
            found.append(
                Option(_train_label(now[0], float(ratio.value)), (), float(ratio.value), float(passes.value))
            )
    if "ratio" in wanted.keep and found:
        return found
    stage = _template(now)
    efficiency = _efficiency(stage)
    for pairs, turns in _trains(wanted):
        gears = [stage | {"driver_teeth": driver, "driven_teeth": driven} for driver, driven in pairs]
        edits: list[Edit] = [(("motor", name, "gears"), gears) for name in names]
        noted = [name for name, table in zip(names, tables, strict=True) if "total_ratio" in table]
        edits += [(("motor", name, "total_ratio"), UNKNOWN) for name in noted]
        through = float(train_efficiency([efficiency] * len(pairs))) if pairs else 1.0
        found.append(Option(_train_label(gears, turns), tuple(edits), turns, through))
    return found


def _template(now: Sequence[Any]) -> dict[str, Any]:
    """What is said of the stages that are there, without what belongs to their wheels."""
    first: dict[str, Any] = next((gears[0] for gears in now if gears), {})
    return {key: first[key] for key in ("kind", "efficiency") if key in first} or {"kind": "chain"}


def _efficiency(stage: Mapping[str, Any]) -> float:
    if "efficiency" in stage:
        return read_quantity(stage["efficiency"], "ratio").value
    return default(f"gear_efficiency.{stage['kind']}").value


def _trains(wanted: Wanted) -> list[tuple[list[tuple[int, int]], float]]:
    """Trains of at most so many stages whose ratio lies in the range, and differs from every other by a step.

    All stages of a train reduce, or all step up; a stage that hardly changes anything is not worth its place.
    """
    least, step = default("least_stage_ratio").value, log(1 + default("ratio_step").value)
    slower: dict[float, tuple[int, int]] = {}
    for driver, driven in product(sorted(set(wanted.teeth)), repeat=2):
        ratio = float(stage_ratio(driver, driven))
        if ratio >= least:
            slower.setdefault(ratio, (driver, driven))
    faster = {1 / ratio: (driven, driver) for ratio, (driver, driven) in slower.items()}
    taken: dict[int, tuple[list[tuple[int, int]], float]] = {}
    for stages in range(wanted.stages + 1):
        for pairs in (slower, faster):
            for ratios in combinations_with_replacement(sorted(pairs), stages):
                ratio = float(train_ratio(ratios)) if ratios else 1.0
                if wanted.ratio[0] <= ratio <= wanted.ratio[1]:
                    taken.setdefault(round(log(ratio) / step), ([pairs[one] for one in ratios], ratio))
    return sorted(taken.values(), key=lambda train: train[1])


def _train_label(gears: Any, ratio: float) -> str:
    """A train as people say it: its ratio, and the teeth of its stages."""
    teeth = [
        f"{gear['driver_teeth']}:{gear['driven_teeth']}"
        for gear in gears or []
        if "driver_teeth" in gear and "driven_teeth" in gear
    ]
    return f"{people(ratio, '1')} ({' '.join(teeth)})" if teeth else people(ratio, "1")
