"""Faults put into well-built designs: does the true cause stand in front after a few answers?"""

from __future__ import annotations

import random
from collections import Counter
from functools import cache, lru_cache

import pytest

from mulewright.advice.causes import Reply, diagnose, suspect
from mulewright.advice.symptom_words import matches
from mulewright.errors import NotFound
from mulewright.shelf.symptoms import BenchTest
from mulewright.tasks.checking import CheckReport
from tests.quiet.bench_words import TOLD
from tests.quiet.faults import FAULTS
from tests.quiet.injection import Injection, injections, judged

MOST_OF_A_CHECK, LEAST_FAULTS = 4, 200
ANSWERS, FIRST = 4, 3


@cache
def faults() -> tuple[Injection, ...]:
    """Faults of every check that somebody at the bench would notice, spread over the designs."""
    found: list[Injection] = []
    for check in TOLD:
        some = [one for fault in FAULTS if fault.check == check for one in injections(fault)]
        step = max(1, -(-len(some) // MOST_OF_A_CHECK))
        found += some[::step]
    return tuple(found)


@lru_cache(maxsize=40)
def said(design: str, edits: tuple[str, ...]) -> CheckReport:
    """Every verdict on a design with edits."""
    return judged(design, edits, beside=False)


def true_reply(test: BenchTest, cause: str) -> Reply:
    return Reply.YES if cause in test.yes else Reply.NO if cause in test.no else Reply.UNKNOWN


def place(injection: Injection, *, in_file: bool, wrong: float = 0.0, seed: int = 0) -> int | None:
    """At which place the true cause stands after the answers, from 1; nothing where it is not listed."""
    chance = random.Random(f"{injection} {seed}")
    told = TOLD[injection.check]
    report = said(injection.design, injection.edits if in_file else ())
    try:
        symptom = matches(told.words)[0].symptom
    except NotFound:
        return None
    suspicion = suspect(report.opened.evaluation, symptom, verdicts=report.verdicts)
    replies: list[Reply] = []
    while len(replies) < ANSWERS and (test := diagnose(suspicion, replies).next_test):
        reply = true_reply(test, told.cause)
        if reply is not Reply.UNKNOWN and chance.random() < wrong:
            reply = Reply.NO if reply is Reply.YES else Reply.YES
        replies.append(reply)
    causes = [one.cause.id for one, _ in diagnose(suspicion, replies).ranked]
    return causes.index(told.cause) + 1 if told.cause in causes else None


@pytest.mark.parametrize(
    ("what", "in_file", "wrong", "least"),
    [
        ("the fault stands in the mule file, answers right", True, 0.0, 0.95),
        ("the fault stands in the mule file, one answer in ten wrong", True, 0.1, 0.95),
        ("the mule file knows nothing of the fault, answers right", False, 0.0, 0.90),
        ("the mule file knows nothing of the fault, one answer in ten wrong", False, 0.1, 0.85),
    ],
)
def test_the_true_cause_stands_in_front(what: str, in_file: bool, wrong: float, least: float) -> None:
    assert len(faults()) >= LEAST_FAULTS
    places = {one: place(one, in_file=in_file, wrong=wrong) for one in faults()}
    found = sum(at is not None and at <= FIRST for at in places.values())
    first = sum(at == 1 for at in places.values())
    print(f"{what}: {len(places)} faults, first {first}, among the first three {found}")
    print("  not:", dict(Counter(one.check for one, at in places.items() if at is None or at > FIRST)))
    assert found >= least * len(places)
