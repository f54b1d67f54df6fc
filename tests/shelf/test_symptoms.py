"""The table of symptoms hangs together."""

from __future__ import annotations

import pytest

from mulewright.checks import CHECKS
from mulewright.shelf.symptoms import alike, belief, causes, ignored, symptoms


def test_there_are_seventy_symptoms_with_causes_and_a_test_that_tells_them_apart() -> None:
    assert len(symptoms()) == 70
    for one in symptoms().values():
        assert len(one.causes) >= 2, one.id
        assert one.tests, one.id
        for test in one.tests:
            assert test.do.endswith("?"), test.do
            assert 0 < test.minutes <= 30
            assert 0.5 < test.reliability < 1


def test_a_test_speaks_of_the_causes_of_its_symptom() -> None:
    for one in symptoms().values():
        ids = {cause.id for cause in one.causes}
        for test in one.tests:
            assert test.yes | test.no <= ids, test.do
            assert test.yes | test.no, test.do
            assert not test.yes & test.no, test.do


def test_every_cause_is_listed_has_a_remedy_and_names_checks_that_exist() -> None:
    listed = {cause.id for one in symptoms().values() for cause in one.causes}
    assert listed == set(causes())
    for cause in causes().values():
        assert set(cause.checks) | set(cause.where) <= set(CHECKS), cause.id
        assert cause.do or cause.checks, cause.id


@pytest.mark.parametrize("id", sorted(symptoms()))
def test_every_pair_of_causes_is_told_apart_by_some_test(id: str) -> None:
    one = symptoms()[id]
    ids = sorted(cause.id for cause in one.causes)
    alone = {
        (a, b)
        for a in ids
        for b in ids
        if a < b
        and not any(
            (a in test.yes) != (b in test.yes) or (a in test.no) != (b in test.no) for test in one.tests
        )
    }
    assert not alone


def test_words_that_are_alike_stand_in_one_group() -> None:
    words = [word for group in alike() for word in group]
    assert len(set(words)) == len(words)
    assert not set(words) & ignored()


def test_a_check_counts_less_than_surely() -> None:
    assert belief().trips > 1 > belief().passes > 0
    assert belief().mark == "judgement"
