"""Doubt that is left after measuring: against closed forms, a slow simulation, and variance-based sensitivity."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import pytest
from numpy.typing import NDArray
from SALib.analyze import sobol as sobol_analysis
from SALib.sample import sobol as sobol_sample
from scipy import stats

from mulewright.advice.doubt import Question, Study, explained, readings, study, wrong_at_best, wrong_in_bins
from mulewright.advice.draws import draw
from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, run
from mulewright.facts.graph import Evaluation
from mulewright.units.quantity import Quantity
from tests.designs import evaluation, verdicts_on

COUNT = 10_000
UNIT = Quantity(0.5, "ratio", "0.5", low=0.0, high=1.0)


def question(tripped: NDArray[np.bool_], *inputs: str, needs: frozenset[str] = frozenset()) -> Question:
    any_verdict = next(iter(verdicts_on(evaluation("tray-cart"), "M37").values()))
    return Question(any_verdict, needs, tripped, inputs, told=True, contradicted=False)


def of_unit_draws(names: str) -> tuple[Study, Mapping[str, NDArray[np.float64]]]:
    values = {name: draw(name, UNIT, COUNT) for name in names}
    return Study((), dict.fromkeys(names, UNIT), values, (), ()), values


def open_question(design: str, id: str, entity: str, *sets: str) -> tuple[Evaluation, Study, Question]:
    on = evaluation(design, sets)
    found = study(on)
    (one,) = [one for one in found.questions if (one.verdict.check.id, one.verdict.entity) == (id, entity)]
    return on, found, one


@pytest.mark.parametrize("limit", [0.1, 0.37, 0.5, 0.8])
@pytest.mark.parametrize("off", [0.02, 0.05, 0.2])
def test_one_input_against_the_closed_form(limit: float, off: float) -> None:
    # A value evenly over 0..1 and a reading off by up to a: wrong are readings r within a of the limit L, each with
    # the smaller part of r-a..r+a beyond it. The integral over r of min(L-r+a, r+a-L)/2a is a/2 well inside.
    found, values = of_unit_draws("a")
    one = question(values["a"] > limit, "a")
    inside = off < limit < 1 - off
    left = found.remaining(one, {"a": off})
    assert left == pytest.approx(off / 2, abs=0.006) if inside else 0 <= left <= off / 2 + 0.006


@pytest.mark.parametrize("limit", [0.03, 0.37, 0.8])
@pytest.mark.parametrize("above", [True, False])
def test_where_a_verdict_turns(limit: float, above: bool) -> None:
    found, values = of_unit_draws("ab")
    one = question((values["a"] + 0.001 * values["b"] > limit) == above, "a", "b")
    assert found.turns_at(one, "a") == pytest.approx(limit, abs=0.003)
    assert found.turns_at(one, "b") is None


def test_a_perfect_instrument_leaves_next_to_no_doubt() -> None:
    found, values = of_unit_draws("a")
    assert found.remaining(question(values["a"] > 0.3, "a"), {"a": 0.0}) < 0.003


def test_an_instrument_no_closer_than_what_is_known_is_no_use() -> None:
    found, values = of_unit_draws("a")
    one = question(values["a"] > 0.3, "a")
    assert found.remaining(one, {"a": 0.5}) == one.doubt == pytest.approx(0.3, abs=1e-3)


def test_what_does_not_matter_settles_nothing() -> None:
    found, values = of_unit_draws("ab")
    one = question(values["a"] > 0.5, "a", "b")
    assert found.remaining(one, {"b": 0.0}) == pytest.approx(0.5, abs=0.015)
    assert found.explained(one, "b", 0.0) == pytest.approx(0, abs=0.01)


def test_two_inputs_against_a_slow_simulation() -> None:
    # whoever has read both answers for the middle of what is left; simulated one case after the other
    found, values = of_unit_draws("ab")
    one = question(values["a"] + values["b"] > 1.2, "a", "b")
    random = np.random.default_rng(1)
    wrong, off, cases = 0, 0.1, 4000
    for _ in range(cases):
        a, b = random.uniform(size=2)
        middle = sum(
            (max(0, read - off) + min(1, read + off)) / 2
            for read in (a + random.uniform(-off, off), b + random.uniform(-off, off))
        )
        wrong += (middle > 1.2) != (a + b > 1.2)
    left = found.remaining(one, {"a": off, "b": off})
    assert left == pytest.approx(wrong / cases, abs=0.02)
    assert left >= wrong / cases - 0.008  # bins are coarser than the instruments, so that less is promised


def test_two_that_settle_nothing_alone_may_do_so_together() -> None:
    found, values = of_unit_draws("ab")
    one = question((values["a"] > 0.5) != (values["b"] > 0.5), "a", "b")
    alone = [found.remaining(one, {name: 0.01}) for name in "ab"]
    assert alone == pytest.approx([0.5, 0.5], abs=0.02)
    assert found.remaining(one, {"a": 0.01, "b": 0.01}) < 0.08


def test_what_is_missing_counts_only_as_a_whole() -> None:
    found, values = of_unit_draws("abc")
    one = question(values["a"] + values["b"] > 1, "a", "b", needs=frozenset("ab"))
    assert one.doubt == found.remaining(one, {"a": 0.0}) == found.remaining(one, {"a": 0.0, "c": 0.0}) == 1
    assert found.remaining(one, {"a": 0.0, "b": 0.0}) < 0.1


def test_to_know_more_never_leaves_more_doubt() -> None:
    found, values = of_unit_draws("abcd")
    one = question(values["a"] + values["b"] * values["c"] > 0.7, *"abcd")
    left = [found.remaining(one, dict.fromkeys("abcd"[:count], 0.03)) for count in range(5)]
    assert left == sorted(left, reverse=True)


def test_twenty_inputs_take_no_longer_than_the_four_that_are_heard() -> None:
    names = "abcdefghijklmnopqrst"
    found, values = of_unit_draws(names)
    total = sum(values[name] * (1.0 if name in "abcd" else 0.01) for name in names)
    one = question(np.asarray(total > 2.08), *names)
    assert found.remaining(one, dict.fromkeys(names, 0.01)) == found.remaining(
        one, dict.fromkeys("abcd", 0.01)
    )
    assert len(one.known) == 16


def test_halves_judge_each_other_so_that_small_bins_are_no_knowledge() -> None:
    tripped = np.random.default_rng(3).random(COUNT) < 0.5
    bins = np.arange(COUNT) // 4
    assert wrong_in_bins(tripped, bins) == pytest.approx(0.5, abs=0.02)
    assert explained(tripped, bins) == pytest.approx(0.0, abs=0.03)
    assert wrong_at_best(tripped) == pytest.approx(0.5, abs=0.02)


def test_readings_are_off_evenly_and_always_the_same() -> None:
    values = np.full(COUNT, 2.0)
    read = readings("body.mass", values, 0.1)
    assert stats.kstest(read, stats.uniform(1.9, 0.2).cdf).pvalue > 0.05
    assert np.array_equal(read, readings("body.mass", values, 0.1))


@pytest.mark.parametrize(
    ("design", "id", "entity"),
    [
        ("vine-lift", "M35", "drive"),
        ("vine-lift", "X02", "drive"),
        ("two-benches", "X02", "drive"),
        ("two-benches", "M37", "drive"),
        ("leaf-sweeper", "M46", "motor.roller"),
    ],
)
def test_inputs_rank_as_the_indices_of_sobol_rank_them(design: str, id: str, entity: str) -> None:
    # Sobol' indices of the margin, from SALib's own sample; ours are of the verdict, from the draws at hand
    on, found, one = open_question(design, id, entity)
    names = list(one.inputs)
    bounds = [_bounds(found.drawn[name]) for name in names]
    problem = {"num_vars": len(names), "names": names, "bounds": bounds}
    sample = sobol_sample.sample(problem, 512, calc_second_order=False, seed=1)
    varied = Evaluation(on.mule, {name: sample[:, place] for place, name in enumerate(names)})
    (verdict,) = [v for v in run(varied, [CHECKS[id]]) if v.entity == entity]
    assert verdict.comparison is not None
    margin = verdict.comparison.value - verdict.comparison.levels[min(verdict.comparison.levels)]
    indices = sobol_analysis.analyze(problem, margin, calc_second_order=False, seed=1)
    heard = [place for place in range(len(names)) if indices["ST"][place] > 0.05]
    ours = {place: found.explained(one, names[place], 0.0) for place in range(len(names))}
    for kind in ("S1", "ST"):
        by_sobol = sorted(heard, key=lambda place: -indices[kind][place])
        assert by_sobol == sorted(heard, key=lambda place: -ours[place])
    unheard = ours.keys() - heard
    assert all(ours[place] < min(ours[one] for one in heard) for place in unheard)


def _bounds(quantity: Quantity) -> list[float]:
    return [
        quantity.value if quantity.low is None else quantity.low,
        quantity.value if quantity.high is None else quantity.high,
    ]


def test_what_is_missing_behind_what_is_missing_is_found_too() -> None:
    on = evaluation("two-benches", ("drive.wheel.friction=?", "body.center_height=?"))
    for one in study(on).questions:
        if one.needs and one.tripped is not None:
            measured = {path: quantity for path, quantity in study(on).draws.items() if path in one.needs}
            again = Evaluation(on.mule, {path: values[:1] for path, values in measured.items()})
            told = {v.entity: v.outcome for v in run(again, [one.verdict.check])}
            assert told[one.verdict.entity] is not Outcome.CANNOT_TELL


def test_weak_numbers_are_drawn_over_their_usual_spread_and_typed_ones_are_not() -> None:
    _, found, _ = open_question("hose-tug", "X01", "drive")
    assert _bounds(found.drawn["drive.wheel.friction"]) == pytest.approx([0.6, 1.0])
    assert "drive.wheel.friction" in found.spread
    assert "body.mass" not in found.drawn
    assert not any(path.startswith("assumed.") for path in found.spread)


def test_where_a_verdict_of_a_mule_turns_is_where_it_turns() -> None:
    on, found, one = open_question("hose-tug", "X01", "drive")
    at = found.turns_at(one, "drive.wheel.friction")
    assert at is not None
    outcomes = [
        verdicts_on(Evaluation(on.mule, {"drive.wheel.friction": at * factor}), "X01")["drive"].outcome
        for factor in (0.995, 1.005)
    ]
    assert outcomes == [Outcome.PASS, Outcome.TRIP]


def test_what_the_file_calls_deliberate_is_no_question() -> None:
    _, before, _ = open_question("hose-tug", "X01", "drive")
    after = study(evaluation("hose-tug", ('limits.X01={ deliberate = true, because = "padded" }',)))
    assert {one.verdict.check.id for one in before.questions} - {"X01"} == {
        one.verdict.check.id for one in after.questions
    }
