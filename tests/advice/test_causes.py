"""Causes are weighed by the checks, dropped where they cannot be, and narrowed down by answers."""

from __future__ import annotations

from itertools import product
from math import log2

import pytest

from mulewright.advice.causes import NO_CHECK, Diagnosis, Reply, Suspicion, diagnose, suspect
from mulewright.checks.engine import Outcome
from mulewright.shelf.symptoms import BenchTest, belief, symptoms
from tests.quiet.injection import judged

SINKS = symptoms()["arm-sinks"]
FAULT = ("mechanism.lift.ratchet=false", "mechanism.lift.load=3 kg")


def on(design: str, symptom: str, edits: tuple[str, ...] = ()) -> Suspicion:
    report = judged(design, edits, beside=False)
    return suspect(report.opened.evaluation, symptoms()[symptom], verdicts=report.verdicts)


def ids(found: Diagnosis) -> list[str]:
    return [one.cause.id for one, _ in found.ranked]


def chances(found: Diagnosis) -> dict[str, float]:
    return {one.cause.id: chance for one, chance in found.ranked}


def test_a_check_that_trips_puts_its_cause_first_and_says_why() -> None:
    quiet, faulty = on("shelf-lift", "arm-sinks"), on("shelf-lift", "arm-sinks", FAULT)
    assert ids(diagnose(faulty, ()))[0] == "driven-back"
    first = diagnose(faulty, ()).ranked[0][0]
    assert first.because.startswith("M25 lift-drops trips: ")
    assert first.do == "Fit a ratchet, or a gear that its load cannot turn."
    assert ids(diagnose(quiet, ()))[0] == "coasts"
    assert diagnose(quiet, ()).ranked[0][0].because == NO_CHECK
    behind = next(one for one in quiet.suspects if one.cause.id == "driven-back")
    assert behind.because == "M25 lift-drops passes"


def test_weights_are_share_times_what_the_check_says() -> None:
    weights = {one.cause.id: one.weight for one in on("shelf-lift", "arm-sinks", FAULT).suspects}
    assert weights["driven-back"] == 4 * belief().trips
    assert weights["coasts"] == 3
    found = chances(diagnose(on("shelf-lift", "arm-sinks", FAULT), ()))
    assert found["driven-back"] == pytest.approx(weights["driven-back"] / sum(weights.values()))


def test_what_the_mule_excludes_is_dropped_with_the_reason() -> None:
    found = on("path-hauler", "arm-sinks")
    assert {one.cause.id for one in found.dropped} == {"driven-back", "coasts", "brake-weak"}
    assert all(one.reason for one in found.dropped)
    nothing = diagnose(found, (Reply.YES,))
    assert (nothing.ranked, nothing.trail, nothing.next_test) == ((), (), None)


def test_one_answer_is_bayes_rule() -> None:
    suspicion = on("shelf-lift", "arm-sinks", FAULT)
    before = diagnose(suspicion, ())
    assert before.next_test is not None
    after = diagnose(suspicion, (Reply.NO,))
    right = before.next_test.reliability
    told = {
        id: chance
        * (1 - right if id in before.next_test.yes else right if id in before.next_test.no else 0.5)
        for id, chance in chances(before).items()
    }
    assert chances(after) == pytest.approx({id: one / sum(told.values()) for id, one in told.items()})
    assert after.trail[0].reply is Reply.NO


def test_the_next_test_lowers_the_entropy_most_per_minute() -> None:
    suspicion = on("shelf-lift", "resets-on-lift")
    found = diagnose(suspicion, ())
    before = chances(found)

    def worth(test: BenchTest) -> float:
        left = 0.0
        for yes in (True, False):
            told = {
                id: chance * (p if yes else 1 - p)
                for id, chance in before.items()
                for p in [
                    test.reliability if id in test.yes else 1 - test.reliability if id in test.no else 0.5
                ]
            }
            total = sum(told.values())
            left += total * -sum(p / total * log2(p / total) for p in told.values())
        return (-sum(p * log2(p) for p in before.values()) - left) / test.minutes

    assert found.next_test == max(suspicion.symptom.tests, key=worth)


def test_an_answer_that_nobody_knows_changes_nothing_and_is_not_asked_again() -> None:
    suspicion = on("shelf-lift", "resets-on-lift")
    before, after = diagnose(suspicion, ()), diagnose(suspicion, (Reply.UNKNOWN,))
    assert chances(after) == chances(before)
    assert after.next_test != before.next_test


@pytest.mark.parametrize("id", sorted(symptoms()))
def test_whatever_is_answered_chances_stay_chances_and_the_questions_end(id: str) -> None:
    suspicion = on("shelf-lift", id)
    for replies in product(Reply, repeat=3):
        found = diagnose(suspicion, replies * 4)
        assert sum(chance for _, chance in found.ranked) == pytest.approx(1 if suspicion.suspects else 0)
        assert found.next_test is None
        assert len({step.test for step in found.trail}) == len(found.trail)


def test_verdicts_on_the_thing_that_was_named_count_alone() -> None:
    report = judged("shelf-lift", FAULT, beside=False)
    every = [one for one in report.verdicts if one.check.id == "M07"]
    assert {one.outcome for one in every} == {Outcome.TRIP}
    named = suspect(report.opened.evaluation, SINKS, [every[0].entity])
    assert named.suspects[0].verdict is not None
    assert named.suspects[0].verdict.entity == every[0].entity
