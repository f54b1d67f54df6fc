"""The solver against trying every layout: the same price, the same number of functions left out."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mulewright.layout.plan import next_best
from mulewright.layout.pricing import Priced, price
from mulewright.layout.problem import Problem
from mulewright.layout.solving import PARTS, Model, solve
from tests.layout.machines import machine
from tests.layout.oracle import Enumeration

problems = st.builds(
    machine,
    st.integers(1, 5),
    st.integers(1, 6),
    st.integers(0, 10**6),
    mixed=st.booleans(),
    leads=st.integers(0, 1),
)
small = st.builds(
    machine,
    st.integers(1, 3),
    st.integers(1, 4),
    st.integers(0, 10**6),
    radios=st.integers(1, 2),
    channels=st.one_of(st.none(), st.integers(2, 5)),
    choosable=st.booleans(),
    mixed=st.booleans(),
    leads=st.integers(0, 1),
)


def missing(problem: Problem, priced: Priced) -> int:
    """Weight of what a layout leaves out: the drive counts a little more."""
    every = len(problem.functions)
    return sum(every + 1 + problem.function(name).drive for name in priced.left_out)


def agrees(problem: Problem) -> None:
    """The solver's price is that of the cheapest of all layouts."""
    _, solved = solve(problem)
    assert solved.proved
    assert (missing(problem, solved.priced), solved.priced.cost) == pytest.approx(Enumeration(problem).best())


@settings(deadline=None, max_examples=60)
@given(problems)
def test_one_transmitter(problem: Problem) -> None:
    agrees(problem)


@settings(deadline=None, max_examples=60)
@given(small)
def test_channels_to_choose_two_transmitters_and_second_leads(problem: Problem) -> None:
    agrees(problem)


@pytest.mark.parametrize("seed", range(3))
def test_seven_functions_on_eight_controls(seed: int) -> None:
    agrees(machine(7, 8, seed))


@pytest.mark.parametrize("seed", range(2))
def test_fourteen_functions_on_sixteen_channels_are_proved(seed: int) -> None:
    problem = machine(14, 16, seed)
    _, solved = solve(problem)
    assert solved.proved
    assert solved.priced.left_out == ()
    assert {seat.control for seat in solved.priced.layout.values()} <= {one.id for one in problem.controls}
    assert len({seat.control for seat in solved.priced.layout.values()}) == 14


@pytest.mark.parametrize("controls", [4, 18])
def test_from_four_to_eighteen_channels(controls: int) -> None:
    _, solved = solve(machine(14, controls, 5))
    assert solved.proved
    assert len(solved.priced.left_out) == max(0, 14 - controls)


@settings(deadline=None, max_examples=25)
@given(problems)
def test_the_next_best_come_in_order_and_differ(problem: Problem) -> None:
    model, solved = solve(problem)
    ties, _ = next_best(model, solved)
    costs = [solved.priced.cost, *(one.cost for one in ties)]
    assert costs == sorted(costs)
    assert all(cost <= costs[0] + 1 + 1e-9 for cost in costs)
    controls = [
        tuple((name, seat.control) for name, seat in one.layout.items()) for one in (solved.priced, *ties)
    ]
    assert len(set(controls)) == len(controls)


@settings(deadline=None, max_examples=25)
@given(problems)
def test_none_of_the_trio_is_beaten_in_everything(problem: Problem) -> None:
    _, solved = solve(problem)
    for part in PARTS.values():
        model = Model(problem, leave_out=bool(solved.priced.left_out))
        found = model.first_by(part)
        assert found is not None
        assert len(found.priced.left_out) == len(solved.priced.left_out)
        assert found.priced.cost >= solved.priced.cost - 1e-9
    first = Model(problem, leave_out=True).first_by(PARTS["least at risk"])
    assert first is not None
    assert first.priced.part("risk") <= solved.priced.part("risk") + 1e-9


def test_of_equal_layouts_the_one_with_least_work_is_best() -> None:
    problem = machine(3, 8, 11)
    _, solved = solve(problem)
    stays = replace(problem, present=dict(solved.priced.layout))
    assert solve(stays)[1].priced.work == 0


@settings(deadline=None, max_examples=25)
@given(problems)
def test_the_price_is_the_sum_of_its_lines(problem: Problem) -> None:
    priced = solve(problem)[1].priced
    again = price(problem, priced.layout)
    assert again.cost == pytest.approx(again.part("risk") + again.part("handling"))
    assert again.cost == pytest.approx(
        sum(entry.cost for entry in again.entries) + sum(one.line.cost for one in again.beside)
    )
    assert again.clashes == ()
