"""What does the wiring picture cost? Ratios to checking the same mule; run with ``-s`` to read them."""

from __future__ import annotations

from functools import partial

from benchmarks.bench_check import in_turn
from mulewright.checks import CHECKS
from mulewright.checks.engine import run
from mulewright.design.mule import Mule
from mulewright.facts.graph import Evaluation
from mulewright.paper.wiring.draw import svg
from mulewright.paper.wiring.sheet import wiring_scene
from tests.designs import mule
from tests.paper.random_mules import random_mule

ALLOWED = 0.05  # [s] for one picture
HEAPS = range(20)


def picture(of: Mule) -> int:
    return len(svg(wiring_scene(of)))


def pictures(of: list[Mule]) -> int:
    return sum(map(picture, of))


def checked(of: Mule) -> int:
    return len(run(Evaluation(of), CHECKS.values()))


def test_a_picture_against_a_check() -> None:
    of = mule("aisle-carrier")
    one, check = in_turn(partial(picture, of), partial(checked, of), rounds=5)
    print(
        f"\naisle carrier: all checks take {check / one:.2g} times as long as its picture "
        f"({one * 1e3:.1f} ms, {one / ALLOWED:.0%} of the time allowed)"
    )


def test_pictures_of_heaps() -> None:
    heaps = [random_mule(seed) for seed in HEAPS]
    (seconds,) = in_turn(partial(pictures, heaps), rounds=3)
    print(f"\n{len(heaps)} heaps of parts: {seconds / len(heaps) / ALLOWED:.0%} of the time allowed each")
