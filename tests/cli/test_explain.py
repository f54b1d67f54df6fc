"""`facts` lists every number, `explain` opens one down to what was typed, or prints the page of a check."""

from __future__ import annotations

from typing import Any

import pytest

from mulewright.checks import CHECKS
from tests.cli.conftest import Run, path_of
from tests.designs import DESIGNS

CARRIER = path_of("aisle-carrier")
FACT_KEYS = {"name", "entity", "value", "unit", "origin", "missing", "says"}
EXPLAINED_KEYS = FACT_KEYS | {"because", "formula", "arguments", "constants", "below"}
MARGIN = "mechanism.lift.margin"


@pytest.mark.parametrize("design", DESIGNS)
def test_the_list_of_facts_keeps_its_shape(mulewright: Run, design: str) -> None:
    ran = mulewright("facts", path_of(design), "--json")
    assert (ran.code, ran.err) == (0, "")
    assert set(ran.json) == {"mule", "facts"}
    names = set()
    for fact in ran.json["facts"]:
        assert set(fact) == FACT_KEYS | {"low", "high"}
        assert fact["unit"]
        assert fact["says"]
        if fact["missing"]:
            assert fact["value"] is None
        names.add((fact["entity"], fact["name"]))
    assert len(names) == len(ran.json["facts"])
    text = mulewright("facts", path_of(design)).out
    assert all(name in text for _, name in names)


def test_what_is_set_shows_in_the_facts(mulewright: Run) -> None:
    def rating(*words: str) -> Any:
        facts = mulewright("facts", CARRIER, "--json", *words).json["facts"]
        return next(fact for fact in facts if (fact["entity"], fact["name"]) == ("fuse.main", "rating"))

    assert rating()["value"] == 20.0
    assert rating("--set", "fuse.main.rating=15 A")["value"] == 15.0
    unknown = rating("--set", "fuse.main.rating=?")
    assert (unknown["value"], unknown["missing"]) == (None, ["fuse.main.rating"])


def leaves(explained: dict[str, Any]) -> list[str]:
    assert set(explained) == EXPLAINED_KEYS
    found = [leaf for below in explained["below"] for leaf in leaves(below)]
    return found or [explained["because"]]


def test_a_number_opens_down_to_what_was_typed(mulewright: Run) -> None:
    ran = mulewright("explain", CARRIER, MARGIN, "--json")
    assert ran.code == 0
    assert any("3.0 kg: typed, mechanism.lift.load" in leaf for leaf in leaves(ran.json))
    text = mulewright("explain", CARRIER, MARGIN)
    assert text.code == 0
    assert text.out.startswith(f"{MARGIN} = ")
    assert "3.0 kg: typed, mechanism.lift.load" in text.out
    heavier = mulewright("explain", CARRIER, MARGIN, "--json", "--set", "mechanism.lift.load=5 kg")
    assert heavier.json["value"] < ran.json["value"]


def test_an_unknown_number_says_what_it_needs(mulewright: Run) -> None:
    ran = mulewright("explain", CARRIER, MARGIN, "--set", "mechanism.lift.load=?")
    assert ran.code == 0
    assert f"{MARGIN} = unknown" in ran.out
    assert "not given: write it at mechanism.lift.load" in " ".join(ran.out.split())


@pytest.mark.parametrize("word", ["S01", "s01", "range-short"])
def test_a_check_is_found_by_id_or_name(mulewright: Run, word: str) -> None:
    ran = mulewright("explain", word)
    assert ran.code == 0
    assert ran.out.startswith("S01 range-short (WARN)")
    assert "limit 0.95 (judgement" in ran.out


@pytest.mark.parametrize("id", CHECKS)
def test_every_check_has_a_page(mulewright: Run, id: str) -> None:
    rule = CHECKS[id]
    shown = " ".join(mulewright("explain", id).out.split())
    assert shown.startswith(f"{id} {rule.name} ({rule.severity.name})")
    assert " ".join(rule.page.split()) in shown
    assert f"Seen {rule.seen}. Why {rule.why}" in shown
    page = mulewright("explain", id, "--json").json
    assert (page["check"], page["name"], page["why"]) == (id, rule.name, rule.why)
    assert set(page) == set("check name severity seen why page fixes levers limits status".split())


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((CARRIER, "mechanism.lift.margn"), "no fact is called 'mechanism.lift.margn'\n  Rule: entity and fact"),
        ((CARRIER, "mechanism.lift.margn"), f"Closest: {MARGIN}"),
        ((CARRIER,), "which fact?"),
        (("mule.tml",), "which fact?"),
        (("S1",), "no check is called 'S1'"),
        (("rang-short",), "Closest: range-short"),
        (("",), "no check is called ''"),
        (("x" * 5000,), "no check is called"),
        ((CARRIER, ""), "no fact is called ''"),
    ],
)  # fmt: skip
def test_what_cannot_be_explained(mulewright: Run, words: tuple[str, ...], says: str) -> None:
    ran = mulewright("explain", *words)
    assert ran.code == 2
    assert ran.out == ""
    assert says in ran.err
