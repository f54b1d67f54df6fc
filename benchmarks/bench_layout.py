"""What does `layout` cost? Ratios to trying every layout, and the largest machine; run with ``-s`` to read them."""

from __future__ import annotations

from functools import partial

from benchmarks.bench_check import in_turn
from mulewright.layout.problem import Problem
from mulewright.layout.solving import solve
from tests.layout.machines import machine
from tests.layout.oracle import Enumeration

LONGEST = 5.0  # [s] for fourteen functions on sixteen channels
SIZES = ((3, 6), (5, 7), (7, 8))


def tried_out(problem: Problem) -> tuple[int, float]:
    return Enumeration(problem).best()


def test_solving_against_trying_every_layout() -> None:
    for functions, controls in SIZES:
        problem = machine(functions, controls, 1)
        every = Enumeration(problem)
        assert every.best()[1] == solve(problem)[1].priced.cost
        tried = every.tried
        exact, one_by_one = in_turn(partial(solve, problem), partial(tried_out, problem), rounds=3)
        print(
            f"\n{functions} functions on {controls} controls, {tried} layouts: trying every one takes "
            f"{one_by_one / exact:.2g} times as long as solving ({exact * 1e3:.0f} ms)"
        )


def test_fourteen_functions_on_sixteen_channels() -> None:
    for choosable in (False, True):
        problems = [machine(14, 16, seed, choosable=choosable) for seed in range(6)]
        seconds = [in_turn(partial(solve, problem), rounds=1)[0] for problem in problems]
        assert all(solve(problem)[1].proved for problem in problems)
        assert max(seconds) < LONGEST
        how = "any channel for every other control" if choosable else "each control on its channel"
        print(
            f"\n14 functions on 16 channels, {how}: proved in {min(seconds):.2f} to {max(seconds):.2f} s, "
            f"{max(seconds) / LONGEST:.0%} of the time allowed"
        )
