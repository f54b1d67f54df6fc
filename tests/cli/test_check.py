"""What `check` answers: exit codes, choices of checks, changes laid over the file, JSON for programs."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from mulewright.checks import CHECKS
from tests.cli.conftest import Run, path_of
from tests.designs import DESIGNS

CART, CARRIER, TUG = (path_of(name) for name in ("tray-cart", "aisle-carrier", "hose-tug"))
SHORT = ("--only", "S01")  # a WARN on the carrier and on the tug, nothing on the cart
LEVELS = ("note", "warn", "stop", "block")
VERDICT_KEYS = set(
    "check name entity outcome severity value limit unit what why how fixes needs origin share".split()
)
each_design = pytest.mark.parametrize("design", DESIGNS)


def severest(verdicts: list[dict[str, Any]], outcome: str) -> int:
    """How severe the severest verdict with an outcome is; -1 where there is none."""
    return max((LEVELS.index(one["severity"]) for one in verdicts if one["outcome"] == outcome), default=-1)


# --- exit codes


@pytest.mark.parametrize(("level", "code"), [("note", 1), ("warn", 1), ("stop", 0), ("block", 0), (None, 0)])
def test_a_finding_fails_at_its_severity_and_below(mulewright: Run, level: str | None, code: int) -> None:
    asked = ("--fail-on", level) if level else ()
    assert mulewright("check", CARRIER, *SHORT, *asked).code == code


@pytest.mark.parametrize(("level", "code"), [("note", 1), ("warn", 1), ("stop", 0), ("block", 0), (None, 0)])
def test_an_unknown_fails_only_where_asked(mulewright: Run, level: str | None, code: int) -> None:
    asked = ("--fail-on-unknown", level) if level else ()
    ran = mulewright("check", CART, *SHORT, "--set", "controller.left.dead_band=?", *asked)
    assert ran.code == code
    assert "controller.left.dead_band" in ran.out


def test_two_plugs_in_one_socket_are_a_finding_that_fails(mulewright: Run) -> None:
    ran = mulewright("check", CART, "--only", "S08", "--set", "controller.right.signal=receiver.2")
    assert ran.code == 1
    assert "2 plugs, controller.left and controller.right; it takes 1" in ran.out


@each_design
def test_the_exit_code_follows_from_the_verdicts(mulewright: Run, design: str) -> None:
    verdicts = mulewright("check", path_of(design), "--json").json["verdicts"]
    for place, level in enumerate(LEVELS):
        tripped = severest(verdicts, "trip") >= place
        unknown = severest(verdicts, "cannot-tell") >= place
        assert mulewright("check", path_of(design), "--fail-on", level).code == tripped
        asked = ("--fail-on-unknown", level, "--fail-on", level)
        assert mulewright("check", path_of(design), *asked).code == (tripped or unknown)


# --- which checks


def checks_in(mulewright: Run, *words: str) -> set[str]:
    return {one["check"] for one in mulewright("check", CARRIER, "--json", *words).json["verdicts"]}


def test_every_check_has_its_say(mulewright: Run) -> None:
    assert checks_in(mulewright) == set(CHECKS)


@pytest.mark.parametrize(
    "words", [("--only", "S01"), ("--only", "s01"), ("--only", " S01 ,"), ("--only", "S01", "--only", "s01")]
)
def test_one_check_is_chosen_by_its_id(mulewright: Run, words: tuple[str, ...]) -> None:
    assert checks_in(mulewright, *words) == {"S01"}


@pytest.mark.parametrize("family", sorted({id[0] for id in CHECKS}))
def test_a_family_is_chosen_by_its_letter(mulewright: Run, family: str) -> None:
    assert checks_in(mulewright, "--only", family) == {id for id in CHECKS if id[0] == family}
    assert checks_in(mulewright, "--only", f"S01,{family.lower()}") == {
        id for id in CHECKS if id == "S01" or id[0] == family
    }


# --- changes laid over the file


def test_settings_and_variants_change_the_verdict_and_not_the_file(mulewright: Run) -> None:
    before = CARRIER.read_bytes()
    longer = ("--set", "radio.channel.others.travel=125 %", "--fail-on", "warn")
    assert mulewright("check", CARRIER, *SHORT, *longer).code == 0
    assert mulewright("check", CARRIER, *SHORT, *longer, "--set", "radio.channel.2.travel=80 %").code == 1
    assert CARRIER.read_bytes() == before
    plain = mulewright("check", TUG, "--json").json["verdicts"]
    varied = mulewright("check", TUG, "--json", "--variant", "radio-mix-off").json["verdicts"]
    assert plain != varied


def test_settings_come_after_the_variant(mulewright: Run, tmp_path: Path) -> None:
    file = tmp_path / "mule.toml"
    file.write_text(CART.read_text("utf-8") + '\n[variant.weak]\n"radio.channel.others.travel" = "90 %"\n')
    words = ("check", file, *SHORT, "--fail-on", "warn", "--variant", "weak")
    assert mulewright(*words).code == 1
    assert mulewright(*words, "--set", "radio.channel.others.travel=125 %").code == 0


def test_a_limit_of_the_file_is_the_one_that_counts(mulewright: Run, tmp_path: Path) -> None:
    file = tmp_path / "mule.toml"
    text = CARRIER.read_text("utf-8")
    file.write_text(text + '\n[limits.S01]\nlimit = "60 %"\nbecause = "slow on purpose"\n')
    ran = mulewright("check", file, *SHORT, "--json")
    assert {one["outcome"] for one in ran.json["verdicts"]} == {"pass"}
    assert {one["limit"] for one in ran.json["verdicts"]} == {0.6}
    file.write_text(text + '\n[limits.S01]\ndeliberate = true\nbecause = "slow on purpose"\n')
    ran = mulewright("check", file, *SHORT)
    assert "NOTE  S01" in ran.out
    assert "slow on purpose" in " ".join(ran.out.split())


# --- JSON


@each_design
def test_the_report_for_programs_keeps_its_shape(mulewright: Run, design: str) -> None:
    ran = mulewright("check", path_of(design), "--json")
    assert ran.err == ""
    report = ran.json
    assert set(report) == {"schema", "mule", "verdicts", "counts", "chains", "cautions"}
    assert report["schema"] == 1
    assert report["mule"]
    assert report["cautions"]
    assert all(isinstance(caution, str) for caution in report["cautions"])
    for verdict in report["verdicts"]:
        assert set(verdict) == VERDICT_KEYS
        assert_sound(verdict)
    outcomes = [verdict["outcome"] for verdict in report["verdicts"]]
    tripped = [one["severity"] for one in report["verdicts"] if one["outcome"] == "trip"]
    words = ("trip", "pass", "cannot-tell", "not-applicable")
    assert report["counts"] == {word: outcomes.count(word) for word in words} | {
        level: tripped.count(level) for level in LEVELS
    }
    assert outcomes == sorted(outcomes, key=("trip", "cannot-tell", "pass", "not-applicable").index)


def assert_sound(verdict: dict[str, Any]) -> None:
    """A verdict says what it must, each thing in its type."""
    told, outcome = verdict["outcome"] in ("trip", "pass"), verdict["outcome"]
    assert verdict["severity"] in LEVELS
    for key in ("check", "name", "what", "why", "origin"):
        assert isinstance(verdict[key], str), key
        assert verdict[key], key
    for key in ("value", "limit"):
        assert verdict[key] is None or isinstance(verdict[key], float), key
    assert isinstance(verdict["how"], str)
    assert bool(verdict["fixes"]) == (outcome == "trip")
    assert bool(verdict["needs"]) == (outcome == "cannot-tell")
    assert bool(verdict["unit"]) == told
    if outcome != "not-applicable":
        assert verdict["entity"]


@each_design
def test_text_and_json_tell_the_same(mulewright: Run, design: str) -> None:
    report = mulewright("check", path_of(design), "--json").json
    text = " ".join(mulewright("check", path_of(design), "--all").out.split())
    assert report["mule"] in text
    for verdict in report["verdicts"]:
        assert f"{verdict['check']} {verdict['name']}" in text
        assert " ".join(verdict["what"].split()) in text or verdict["outcome"] == "trip"
    for caution in report["cautions"]:
        assert caution in text
