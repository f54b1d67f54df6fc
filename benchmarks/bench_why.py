"""What does `why` cost, and how many minutes at the bench does its order of tests save? Run with ``-s`` to read them.

Each cause of each symptom is taken as the true one in turn. A test is answered as that cause would have it, and by "?"
where the table does not say; one stops as soon as the true cause leads with four in five. The other side asks the same
tests as they stand in the table.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np

from benchmarks.bench_check import in_turn
from mulewright.advice.causes import Reply, Suspicion, _updated, diagnose, suspect
from mulewright.checks import CHECKS
from mulewright.checks.engine import run
from mulewright.design.mule import link
from mulewright.design.resolve import load
from mulewright.facts.graph import Evaluation
from mulewright.shelf.symptoms import BenchSymptom, BenchTest, Cause, symptoms
from mulewright.tasks.opening import shipped_design

SURE = 0.8
DESIGN = "aisle-carrier"
MULE = link(load(shipped_design(DESIGN)))


def reply(test: BenchTest, cause: Cause) -> Reply:
    """What a test says where a cause is the true one."""
    return Reply.YES if cause.id in test.yes else Reply.NO if cause.id in test.no else Reply.UNKNOWN


def chosen(suspicion: Suspicion, cause: Cause) -> float:
    """Minutes until a true cause leads, by the test that tells most per minute."""
    replies: list[Reply] = []
    while True:
        found = diagnose(suspicion, replies)
        first, chance = found.ranked[0]
        if (first.cause is cause and chance >= SURE) or found.next_test is None:
            return sum(step.test.minutes for step in found.trail)
        replies.append(reply(found.next_test, cause))


def in_order(suspicion: Suspicion, cause: Cause) -> float:
    """The same, by the tests as they stand in the table."""
    suspects = suspicion.suspects
    weights = np.array([one.weight for one in suspects])
    chances, minutes = weights / weights.sum(), 0.0
    for test in suspicion.symptom.tests:
        first = int(np.argmax(chances))
        if suspects[first].cause is cause and chances[first] >= SURE:
            break
        chances = _updated(test, suspects, chances, reply(test, cause))
        minutes += test.minutes
    return minutes


def cases() -> Iterator[tuple[Suspicion, Cause]]:
    """Every symptom with every cause that it may have on this mule."""
    evaluation = Evaluation(MULE)
    for symptom in symptoms().values():
        suspicion = suspect(evaluation, symptom)
        yield from ((suspicion, one.cause) for one in suspicion.suspects)


def largest() -> BenchSymptom:
    return max(symptoms().values(), key=lambda one: len(one.causes))


def test_a_symptom_against_every_check() -> None:
    symptom = largest()
    suspicion = suspect(Evaluation(MULE), symptom)
    answers = [Reply.NO] * 3
    asked, everything, told = in_turn(
        lambda: suspect(Evaluation(MULE), symptom),
        lambda: run(Evaluation(MULE), CHECKS.values()),
        lambda: diagnose(suspicion, answers),
    )
    print(
        f"\n{len(symptom.causes)} causes of '{symptom.says}' on the {DESIGN}: {asked * 1e3:.1f} ms to weigh them, "
        f"every check takes {everything / asked:.1f} times that; {told * 1e3:.2f} ms for three answers"
    )


def test_the_minutes_at_the_bench() -> None:
    every = list(cases())
    ways: Sequence[Callable[[Suspicion, Cause], float]] = (chosen, in_order)
    ours, theirs = (sum(way(*case) for case in every) / len(every) for way in ways)
    print(
        f"\n{len(every)} causes: {ours:.1f} minutes of tests on average until the true one leads; "
        f"as the tests stand in the table {theirs:.1f}, {theirs / ours:.2f} times as many"
    )
    assert ours <= theirs
