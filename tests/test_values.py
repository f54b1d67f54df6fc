"""The kept list of values beside those from outside is what the tests find, and holds what it should."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from docs._ext import comparisons
from tests import published, values
from tests.ngspice import needs_ngspice
from tests.published import Agreement, Outside, agrees, noted, outside, within

LEAST = 160  # different values from outside


@needs_ngspice
def test_the_kept_list_is_what_the_tests_find(tmp_path: Path) -> None:
    found = tmp_path / "values.json"
    values.collect(found)
    told = "the list is old; write it anew with: python -m tests.values"
    assert found.read_text(encoding="utf-8") == values.FILE.read_text(encoding="utf-8"), told


def test_each_quantity_has_an_id_of_its_own_and_a_value() -> None:
    listed, agreed = comparisons.registered(), comparisons.values()
    assert [id for id, count in Counter(one.id for one in listed).items() if count > 1] == []
    assert {one.id for one in listed} == set(agreed)


def test_enough_different_values_are_compared() -> None:
    rows = [row for found in comparisons.values().values() for row in found]
    assert len({(row.id, row.outside) for row in rows}) >= LEAST


@pytest.mark.parametrize("one", comparisons.registered(), ids=lambda one: one.id)
def test_what_was_read_has_a_source_and_common_practice_none(one: Outside) -> None:
    assert ("no source" in one.source) == (one.mark == "T")
    assert "common practice" not in one.source or one.mark == "T"
    assert "page" not in one.source.split()
    if one.mark == "C":
        assert "computed" in one.source or "by hand" in one.source or one.source == "logic"


# --- how a comparison is kept


@pytest.fixture
def kept(monkeypatch: pytest.MonkeyPatch) -> list[Agreement]:
    rows: list[Agreement] = []
    monkeypatch.setattr(published, "AGREED", rows)
    monkeypatch.setattr(published, "OUTSIDE", [])
    return rows


def running(request: pytest.FixtureRequest) -> None:
    """Put the running test itself on the list."""
    outside("Z1", quantity="a sum", source="by hand", mark="C")(request.function)


def test_a_printed_number_is_kept_as_it_was_printed(
    kept: list[Agreement], request: pytest.FixtureRequest
) -> None:
    running(request)
    agrees(1.58803, "1.588", case="a table")
    assert kept == [Agreement("Z1", "a table", "1.58803", "1.588", "as printed")]


def test_several_numbers_are_kept_one_by_one_and_many_as_one(
    kept: list[Agreement], request: pytest.FixtureRequest
) -> None:
    running(request)
    agrees([1.01, 2.0], [1.0, 2.0], rel=0.02)
    assert [(row.case, row.ours, row.outside, row.tolerance) for row in kept] == [
        ("1", "1.01", "1", "2 %"),
        ("2", "2", "2", "2 %"),
    ]
    agrees([1.0] * 30, [1.001] * 30, abs=0.01)
    assert kept[-1] == Agreement("Z1", "", "30 values, at most 0 off", "30 values", "0.01")


def test_ranges_and_words_are_kept(kept: list[Agreement], request: pytest.FixtureRequest) -> None:
    running(request)
    within(0.6, 0.5, 1.0)
    noted("refused", "a run that failed", "as said")
    assert [(row.ours, row.outside) for row in kept] == [
        ("0.6", "0.5 to 1"),
        ("refused", "a run that failed"),
    ]


def test_what_does_not_agree_fails_and_is_not_kept(
    kept: list[Agreement], request: pytest.FixtureRequest
) -> None:
    running(request)
    with pytest.raises(AssertionError):
        agrees(1.5886, "1.588")
    with pytest.raises(AssertionError):
        agrees([1.0, 1.1], [1.0, 1.0])
    with pytest.raises(AssertionError, match=r"1\.2 is not within 0\.5 to 1"):
        within(1.2, 0.5, 1.0)
    assert kept == []


def test_a_test_that_is_not_on_the_list_keeps_nothing(kept: list[Agreement]) -> None:
    agrees(1.0, 1.0)
    noted("a", "b", "c")
    assert kept == []


def test_a_test_of_two_quantities_says_of_which(
    kept: list[Agreement], request: pytest.FixtureRequest
) -> None:
    running(request)
    outside("Z2", quantity="a product", source="by hand", mark="C")(request.function)
    agrees(6.0, 6.0, of="Z2")
    assert [row.id for row in kept] == ["Z2"]
    with pytest.raises(ValueError, match="Z1, Z2: say of which"):
        agrees(5.0, 5.0)
