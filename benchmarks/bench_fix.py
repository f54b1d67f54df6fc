"""How long does it take to find what to change, and how much longer by judging every set anew?

Run with ``-s`` to read it; seconds are those of computing. The first ratio compares the search with the plain way to
try the same sets: to write each into the mule, link it, and ask every check; how long that takes is measured on some of
them. The last lines compare it with trying every set that there is, on a few checks with few steps.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from datetime import date

from mulewright.advice.fixing.allowance import Allowance
from mulewright.advice.fixing.bench import Bench
from mulewright.advice.fixing.offers import Offers, Terms
from mulewright.advice.fixing.plan import Plan, Planner
from mulewright.advice.fixing.search import solve
from mulewright.checks import CHECKS
from mulewright.checks.engine import Severity
from mulewright.design.mule import link
from mulewright.design.resolve import load, overlaid
from mulewright.shelf.changes import cost_classes
from mulewright.tasks.fixing import SECONDS, SETS
from mulewright.tasks.opening import shipped_design
from tests.advice.oracle import brute_force

DESIGNS = (
    "aisle-carrier hose-tug leaf-sweeper log-winch long-reach-pruner seed-ball-thrower soft-fruit-gripper "
    "tray-cart two-benches vine-lift"
).split()
SMALL = (("long-reach-pruner", ("X02", "X03", "X07")), ("hose-tug", ("S01", "S20", "S06")))
SAMPLE = 12  # sets that are judged anew


def planner(design: str, ids: tuple[str, ...] = ()) -> Planner:
    loaded = link(load(shipped_design(design))).loaded
    bench = Bench(loaded, overlaid(loaded.base), Severity.WARN)
    classes = cost_classes()
    terms = Terms(
        frozenset(one.allow for one in classes.values()),
        {name: one.cost for name, one in classes.items()},
        date(2026, 11, 7),
    )
    checks = [CHECKS[id] for id in ids or CHECKS]
    return Planner(bench, Offers(bench, terms), checks, Allowance(SETS, SECONDS))


def took(work: Callable[[], object]) -> float:
    start = time.process_time()
    work()
    return time.process_time() - start


def plain(planned: Planner) -> float:
    """Seconds to judge every set anew that the search has tried, measured on some of them."""
    tried = [steps for steps, state in planned.bench._tried.items() if state is not None]
    some = tried[:: max(1, len(tried) // SAMPLE)]
    return (
        took(lambda: [planned.bench.judged_anew(one, planned.checks) for one in some])
        * len(tried)
        / len(some)
    )


def whole(design: str) -> None:
    found: list[Plan] = []
    start = time.process_time()
    planned = planner(design)
    found += [planned.plan(clean=False), planned.plan(clean=True)]
    searched = time.process_time() - start
    cheapest, cleanest = found
    print(
        f"{design:20} {searched:6.2f} s {planned.bench.built:6} {plain(planned) / searched:10.0f} "
        f"{len(cheapest.steps):6} {sum(one.cost for one in cheapest.steps):6.1f} {len(cheapest.left):5} "
        f"{'no' if cheapest.proven and cleanest.proven else 'yes'}"
    )


def every_set(design: str, ids: tuple[str, ...]) -> None:
    planned = planner(design, ids)
    puzzle = planned._puzzle(clean=False)
    planned.allowance.refill(1.0)
    start = time.process_time()
    best = solve(puzzle, planned.targets, planned.allowance)
    searched = time.process_time() - start
    start = time.process_time()
    truth = brute_force(puzzle, planned.targets)
    forced = time.process_time() - start
    assert abs(best.total - truth.total) < 1e-6
    print(f"{design} {' '.join(ids)}: every set takes {forced / searched:.1f} times as long as the search")


def test_each_design_against_judging_anew() -> None:
    print(
        f"\n{'design':20} {'search':>8} {'sets':>6} {'anew/search':>10} {'steps':>5} {'cost':>6} {'left':>5} bounded"
    )
    for design in DESIGNS:
        whole(design)


def test_a_few_checks_against_every_set() -> None:
    print()
    for design, ids in SMALL:
        every_set(design, ids)
