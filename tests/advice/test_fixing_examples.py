"""Every step that is printed for a shipped design, written into a copy of its file, clears what it says."""

from __future__ import annotations

import shutil
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from mulewright.checks.engine import Outcome, Severity
from mulewright.design.writing import set_values
from mulewright.tasks.checking import check_file
from mulewright.tasks.fixing import Cure, Done, FixReport, apply, fix_file
from tests.designs import DESIGNS, EXAMPLES

SETS, UNHURRIED = 600, 120.0  # [s] so that a slow machine finds what a fast one finds


@cache
def report(design: str) -> FixReport:
    return fix_file(EXAMPLES / design / "mule.toml", sets=SETS, seconds=UNHURRIED)


def tripped(path: Path, *, or_open: bool = False) -> set[tuple[str, str]]:
    found = check_file(path)
    known = {(one.check.id, one.entity) for one in found.of(Outcome.TRIP) if one.severity >= Severity.WARN}
    unknown = {(one.check.id, one.entity) for one in found.of(Outcome.CANNOT_TELL)}
    return known | (unknown if or_open else set())


def with_steps(folder: Path, design: str, done: Iterable[Done]) -> Path:
    """A copy of a file with steps written into it, records and reasons too."""
    path = folder / "mule.toml"
    values: dict[str, Any] = {}
    for one in done:
        values |= dict(one.step.settings)
    text = (EXAMPLES / design / "mule.toml").read_text(encoding="utf-8")
    path.write_text(set_values(text, values), encoding="utf-8")
    return path


@pytest.mark.parametrize("which", ["cheapest", "cleanest"])
@pytest.mark.parametrize("design", DESIGNS)
def test_a_set_written_into_a_copy_clears_what_it_says(design: str, which: str, tmp_path: Path) -> None:
    found = report(design)
    cure: Cure = getattr(found, which)
    before = {(one.check.id, one.entity) for one in found.findings}
    after = tripped(with_steps(tmp_path, design, cure.done))
    assert after == {one.id for one in cure.left}
    assert after <= before


@pytest.mark.parametrize("design", DESIGNS)
def test_each_step_is_needed_for_what_it_clears_and_clears_it_with_those_it_names(
    design: str, tmp_path: Path
) -> None:
    cure = report(design).cheapest
    for one in cure.done:
        assert one.clears or one.keeps, one.step.key
        claimed = {question.id for question in one.clears}
        others = [other for other in cure.done if other != one]
        without = tripped(with_steps(tmp_path, design, others), or_open=True)
        assert claimed <= without


@pytest.mark.parametrize("design", DESIGNS)
def test_nothing_is_left_but_for_what_no_part_or_setting_clears(design: str) -> None:
    left = {one.check.id for one in report(design).cheapest.left}
    assert left <= {"S05", "S25", "S42"}  # two servos face each other on the one lead of a tester


def test_comments_stay_and_the_old_file_lies_beside_the_new_one(tmp_path: Path) -> None:
    path = tmp_path / "mule.toml"
    shutil.copy(EXAMPLES / "log-winch" / "mule.toml", path)
    old = path.read_text(encoding="utf-8")
    found = fix_file(path, sets=SETS)
    written, left = apply(found, found.cheapest)
    new = path.read_text(encoding="utf-8")
    assert (tmp_path / "mule.toml.before").read_text(encoding="utf-8") == old
    assert "# it rained: long coats" in new
    assert {one.step.kind for one in left} >= {"record"}
    assert not any(one.step.record or one.step.waiver for one in written)
    assert "hair_and_sleeves     = false" in new  # nobody ticks that but a person
    assert {one.id for one in written[0].clears}.isdisjoint(tripped(path))


def test_what_was_tested_before_a_preset_changed_counts_no_more(tmp_path: Path) -> None:
    path = tmp_path / "mule.toml"
    shutil.copy(EXAMPLES / "leaf-sweeper" / "mule.toml", path)
    found = fix_file(path, sets=SETS)
    apply(found, found.cheapest)
    assert ("R01", "receiver") in tripped(path)
