"""What do 10,000 draws cost? All facts and checks of the aisle carrier on arrays, against a loop over single draws.

Side conditions: one core, the design loaded, every input that has an interval drawn; the loop does a few draws and is
scaled up, for it would take minutes.
"""

from __future__ import annotations

import time

from mulewright.advice.draws import DRAWS, draws, on_draws
from mulewright.checks import CHECKS
from mulewright.checks.engine import run
from mulewright.design.mule import link
from mulewright.design.resolve import load
from mulewright.facts.catalog import every_fact
from mulewright.facts.graph import Evaluation
from mulewright.tasks.opening import shipped_design

LOOPED = 20  # draws that the loop really does
ROUNDS = 5


def evaluated(on: Evaluation) -> None:
    run(on, CHECKS.values())
    list(every_fact(on))


def test_draws_on_arrays_against_a_loop() -> None:
    on = Evaluation(link(load(shipped_design())))
    evaluated(on)
    values = draws(on)
    evaluated(on_draws(on, values))
    arrays = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        evaluated(on_draws(on, draws(on)))
        arrays.append(time.perf_counter() - start)
    start = time.perf_counter()
    for number in range(LOOPED):
        evaluated(Evaluation(on.mule, {path: value[number] for path, value in values.items()}))
    loop = (time.perf_counter() - start) / LOOPED * DRAWS
    best = min(arrays)
    ratio = f"a loop takes {loop / best:.0f} times as long"
    print(f"\n{DRAWS} draws of {len(values)} inputs, all facts and checks: {best:.3f} s; {ratio}")
