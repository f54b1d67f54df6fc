"""What is taken over from other states of a mule is what one gets by judging it anew."""

from __future__ import annotations

import random
from functools import cache

import pytest

from mulewright.advice.fixing.bench import NOTHING
from mulewright.advice.fixing.plan import Planner
from mulewright.advice.fixing.steps import Step, consistent
from mulewright.checks.engine import Verdict
from mulewright.errors import MulewrightError
from tests.advice.test_fixing import planner
from tests.designs import DESIGNS

ROUNDS = 12


@cache
def of(design: str) -> Planner:
    planned = planner(design, most=60)
    planned.plan(clean=False)
    return planned


def told(verdicts: list[Verdict]) -> dict[tuple[str, str], tuple[object, ...]]:
    return {
        (one.check.id, one.entity): (one.outcome, one.severity, one.what, one.how, one.needs, one.value)
        for one in verdicts
    }


def some(planned: Planner, dice: random.Random) -> frozenset[Step]:
    """A few of the steps that were weighed, or those of the plan but a few."""
    chosen: list[Step] = []
    if planned.begun and dice.random() < 0.5:
        return frozenset(dice.sample(sorted(planned.begun), max(1, len(planned.begun) - dice.randint(1, 3))))
    for step in dice.sample(sorted(planned.known), min(6, len(planned.known))):
        if consistent([*chosen, step]):
            chosen.append(step)
    return frozenset(chosen[: dice.randint(1, 6)])


@pytest.mark.parametrize("design", DESIGNS)
def test_what_is_taken_over_is_what_judging_anew_says(design: str) -> None:
    planned = of(design)
    bench, dice = planned.bench, random.Random(design)
    assert told(bench.verdicts(NOTHING, planned.checks)) == told(bench.judged_anew(NOTHING, planned.checks))
    compared = 0
    for _ in range(ROUNDS):
        steps = some(planned, dice)
        try:
            anew = bench.judged_anew(steps, planned.checks)
        except MulewrightError:
            assert bench.tried(steps) is None, steps
            continue
        assert told(bench.verdicts(steps, planned.checks)) == told(anew), sorted(map(str, steps))
        compared += 1
    assert compared > ROUNDS // 2
