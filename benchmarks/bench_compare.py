"""What does a comparison cost? A ratio to judging one mule, both measured in turn; run with ``-s`` to read it.

Side conditions: two states of the shipped aisle carrier, files read and linked within the measured time, everything
imported before.
"""

from __future__ import annotations

from benchmarks.bench_check import CARRIER, evaluated, in_turn
from mulewright.design.mule import link
from mulewright.design.resolve import load
from mulewright.tasks.comparing import State, compare_files

ALLOWED = 0.3  # [s]


def test_comparison_of_two_carriers() -> None:
    states = State(CARRIER), State(CARRIER, ("body.mass=12 kg", "fuse.main.rating=15 A"))
    alone, compared = in_turn(
        lambda: evaluated(link(load(CARRIER))), lambda: compare_files(*states).as_dict()
    )
    print(
        f"\ncompared: {compared * 1e3:.1f} ms of {ALLOWED * 1e3:.0f} ms, {compared / alone:.2f} times reading "
        f"one carrier and computing all of it ({alone * 1e3:.1f} ms)"
    )
