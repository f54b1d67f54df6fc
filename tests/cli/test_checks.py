"""`checks` lists the catalogue, whole or by what one sees at the bench."""

from __future__ import annotations

import pytest

from mulewright.checks import CHECKS, FAMILIES
from tests.cli.conftest import Run


def test_every_check_is_listed_for_programs(mulewright: Run) -> None:
    ran = mulewright("checks", "--json")
    assert (ran.code, ran.err, set(ran.json)) == (0, "", {"checks"})
    for one, rule in zip(ran.json["checks"], CHECKS.values(), strict=True):
        assert one == {
            "id": rule.id,
            "name": rule.name,
            "severity": rule.severity.word,
            "status": rule.status,
            "about": rule.on.kind,
            "seen": rule.seen,
            "page": rule.compares,
        }
        assert one["page"].endswith(".")
        assert "\n" not in one["page"]


def test_every_check_is_listed_below_its_family(mulewright: Run) -> None:
    family, listed = "", []
    for line in mulewright("checks").out.splitlines():
        if line.startswith("  "):
            id, name, severity, status = line.split()
            rule = CHECKS[id]
            assert (name, severity, status) == (rule.name, rule.severity.name, rule.status)
            assert id[0] == family
            listed.append(id)
        else:
            family, title = line.split()
            assert title == FAMILIES[family]
    assert listed == [*CHECKS]


@pytest.mark.parametrize("words", ["resets", "RESETS", "set", "lifts resets", "Resets when the arm lifts"])
def test_a_check_is_found_by_what_one_sees(mulewright: Run, words: str) -> None:
    found = mulewright("checks", "--seen", words, "--json").json["checks"]
    assert "P27" in {one["id"] for one in found}
    for one in found:
        assert all(word in one["seen"].casefold() for word in words.casefold().split())
    shown = mulewright("checks", "--seen", words).out
    for one in found:
        assert one["seen"] in " ".join(shown.split())


@pytest.mark.parametrize("id", CHECKS)
def test_a_check_is_found_by_its_own_phrase(mulewright: Run, id: str) -> None:
    found = mulewright("checks", "--seen", CHECKS[id].seen, "--json").json["checks"]
    assert id in [one["id"] for one in found]


@pytest.mark.parametrize(
    ("words", "nearest"),
    [
        ("buzzing", "buzzes"),
        ("restarting", "restarts"),
        ("gripper recever", "receiver"),
        ("ramp wheel gripper", "on the ramp"),
        ("xyzzy", ""),
        ("  ", ""),
    ],
)
def test_words_that_find_nothing_are_answered_with_the_nearest(
    mulewright: Run, words: str, nearest: str
) -> None:
    ran = mulewright("checks", "--seen", words)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith("--seen: no check is looked up by that\n")
    assert nearest in ran.err
    assert ("Closest: " in ran.err) == bool(nearest)
    assert nearest in " ".join(mulewright("checks", "--seen", words, "--json").json["error"]["nearest"])
