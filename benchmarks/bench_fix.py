"""How long does it take to find what to change, and how many sets would looking at all of them take?

Run with ``python benchmarks/bench_fix.py``. The ratio compares the sets that the search tried with all sets of the same
steps, of which each path may be set in one way only.
"""

from __future__ import annotations

import gc
import time
from datetime import date

from mulewright.advice.fixing.allowance import Allowance
from mulewright.advice.fixing.bench import Bench
from mulewright.advice.fixing.offers import Offers, Terms
from mulewright.advice.fixing.plan import Planner
from mulewright.advice.fixing.search import brute_force, solve
from mulewright.checks import CHECKS
from mulewright.checks.engine import Severity
from mulewright.design.mule import link
from mulewright.design.resolve import load, overlaid
from mulewright.shelf.changes import cost_classes
from mulewright.tasks.fixing import fix_file
from mulewright.tasks.opening import shipped_design

DESIGNS = (
    "aisle-carrier hose-tug leaf-sweeper log-winch long-reach-pruner seed-ball-thrower soft-fruit-gripper "
    "tray-cart two-benches vine-lift"
).split()
SMALL = (("long-reach-pruner", ("X02", "X03", "X07")), ("seed-ball-thrower", ("P02", "P03", "X13")))


def planner(design: str, ids: tuple[str, ...]) -> Planner:
    loaded = link(load(shipped_design(design))).loaded
    bench = Bench(loaded, overlaid(loaded.base), Severity.WARN)
    classes = cost_classes()
    terms = Terms(
        frozenset(one.allow for one in classes.values()),
        {name: one.cost for name, one in classes.items()},
        date(2026, 11, 7),
    )
    return Planner(bench, Offers(bench, terms), [CHECKS[id] for id in ids], Allowance(4000, 60))


def main() -> None:
    gc.disable()  # as every command does
    print(f"{'design':20} {'computing':>10} {'steps':>6} {'cost':>6} {'left':>5} bounded")
    for design in DESIGNS:
        start = time.process_time()
        found = fix_file(shipped_design(design))
        took = time.process_time() - start
        cheapest = found.cheapest
        print(
            f"{design:20} {took:8.2f} s {len(cheapest.done):6} {cheapest.cost:6.1f} {len(cheapest.left):5} "
            f"{'yes' if found.bounded else 'no'}"
        )
    for design, ids in SMALL:
        planned = planner(design, ids)
        puzzle = planned._puzzle(clean=False)
        planned.allowance.refill(1.0)
        start = time.perf_counter()
        best = solve(puzzle, planned.targets, planned.allowance)
        searched = time.perf_counter() - start
        start = time.perf_counter()
        truth = brute_force(puzzle, planned.targets)
        forced = time.perf_counter() - start
        assert abs(best.total - truth.total) < 1e-6
        print(
            f"{design} {' '.join(ids)}: every set takes {forced / searched:.0f} times as long as the search"
        )


if __name__ == "__main__":
    main()
