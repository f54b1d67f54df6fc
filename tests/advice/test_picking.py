"""The best set within some minutes is the best of all sets; the order takes most gain per minute first."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mulewright.advice.picking import MOST_TOGETHER, Prospect, best_set, in_order, worth

MANY = 7


@st.composite
def problems(draw: st.DrawFn) -> tuple[list[Prospect], list[float]]:
    prospects = []
    for _ in range(draw(st.integers(0, 6))):
        matter = draw(st.lists(st.integers(0, MANY - 1), max_size=4, unique=True))
        cut = draw(st.integers(0, len(matter)))
        beside = tuple(matter[cut:])
        gains = np.zeros(1 << len(beside))
        gains[0] = draw(st.sampled_from([0.0, 0.5, 1.0])) if cut else 0.0
        for mask in range(1, gains.size):  # more never gains less
            less = [mask & ~(1 << bit) for bit in range(len(beside)) if mask >> bit & 1]
            gains[mask] = max(gains[less]) + draw(st.sampled_from([0.0, 0.0, 0.25, 0.5]))
        prospects.append(Prospect(frozenset(matter[:cut]), beside, gains))
    return prospects, draw(st.lists(st.sampled_from([0.5, 1.0, 2.0, 5.0]), min_size=MANY, max_size=MANY))


def every_set() -> list[frozenset[int]]:
    return [frozenset(some) for size in range(MANY + 1) for some in combinations(range(MANY), size)]


@settings(max_examples=150, deadline=None)
@given(problems(), st.sampled_from([0.4, 1.0, 3.0, 6.5, 30.0]))
def test_the_best_set_is_the_best_of_all_sets(
    problem: tuple[list[Prospect], list[float]], limit: float
) -> None:
    prospects, minutes = problem
    able = [some for some in every_set() if sum(minutes[one] for one in some) <= limit]
    most = max(worth(prospects, some) for some in able)
    best = best_set(prospects, minutes, limit)
    time = sum(minutes[one] for one in best.made)
    quickest = min(
        sum(minutes[one] for one in some) for some in able if worth(prospects, some) >= most - 1e-9
    )
    assert best.exact
    assert worth(prospects, best.made) == pytest.approx(most)
    assert time == pytest.approx(quickest)
    for tie in best.ties:
        assert tie != best.made
        assert worth(prospects, tie) == pytest.approx(most)
        assert sum(minutes[one] for one in tie) == pytest.approx(time)


@settings(max_examples=100, deadline=None)
@given(problems())
def test_the_order_ends_when_nothing_more_is_gained(problem: tuple[list[Prospect], list[float]]) -> None:
    prospects, minutes = problem
    made: frozenset[int] = frozenset()
    for step, before in in_order(prospects, minutes, frozenset(range(MANY))):
        assert before == made
        assert made.isdisjoint(step)
        assert worth(prospects, made | set(step)) > worth(prospects, made)
        made |= set(step)
    assert worth(prospects, made) == pytest.approx(worth(prospects, frozenset(range(MANY))))


def alone(one: int, gain: float) -> Prospect:
    return Prospect(frozenset(), (one,), np.array([0.0, gain]))


def test_most_gain_per_minute_comes_first() -> None:
    steps = [step for step, _ in in_order([alone(0, 1.0), alone(1, 1.0)], [4.0, 2.0], frozenset({0, 1}))]
    assert steps == [(1,), (0,)]


def test_what_gains_only_together_comes_together() -> None:
    both = Prospect(frozenset({0, 1}), (), np.array([1.0]))
    steps = [step for step, _ in in_order([both, alone(2, 0.4)], [1.0, 1.0, 1.0], frozenset({0, 1, 2}))]
    assert steps == [(0, 1), (2,)]


def test_ties_are_shown() -> None:
    best = best_set([alone(one, 1.0) for one in range(3)], [1.0, 1.0, 1.0], 2.0)
    assert {best.made, *best.ties} == {frozenset({0, 1}), frozenset({0, 2}), frozenset({1, 2})}


def test_groups_that_share_no_verdict_are_put_together() -> None:
    # 40 measurements, far beyond trying every set; each gains 1, the even ones in 1 minute and the odd ones in 3
    prospects = [alone(one, 1.0) for one in range(40)]
    best = best_set(prospects, [1.0 if one % 2 == 0 else 3.0 for one in range(40)], 29.0)
    assert best.exact
    assert worth(prospects, best.made) == 23  # 20 quick ones, and 3 slow ones in the 9 minutes that are left


def test_a_search_that_would_not_end_is_bounded_and_says_so() -> None:
    many = MOST_TOGETHER + 4
    prospects = [
        Prospect(frozenset(), (one, one + 1), np.array([0.0, 0.3, 0.3, 0.7])) for one in range(many - 1)
    ]
    best = best_set(prospects, [1.0] * many, 5.0)
    assert not best.exact
    assert worth(prospects, best.made) >= 0.9 * 3.1  # five in a row: 4 * 0.7 + 0.3, and 0.3 more inside


def test_what_nobody_measures_alone_is_tried_as_one() -> None:
    # two verdicts of 15 needs each, with one need in common: three units, so that every set is tried
    first, second = frozenset(range(15)), frozenset(range(14, 29))
    best = best_set([Prospect(some, (), np.array([1.0])) for some in (first, second)], [1.0] * 29, 20.0)
    assert best.exact
    assert {best.made, *best.ties} == {first, second}
