"""Well-built designs are left in peace, and a single fault put into one of them is found."""

from __future__ import annotations

import pytest

from mulewright.checks.engine import Outcome, Severity
from tests.quiet.faults import FAULTS
from tests.quiet.injection import QUIET, design, report
from tests.quiet.record import everything, figures, recorded

LEAST_INJECTED, LEAST_FOUND, LEAST_AMONG_WORST = 300, 0.98, 0.90


@pytest.mark.parametrize("name", QUIET)
def test_nothing_above_note_on_a_well_built_design(name: str) -> None:
    loud = [
        f"{one.severity.name} {one.check.id} {one.entity}: {one.what}"
        for one in report(name).of(Outcome.TRIP)
        if one.severity > Severity.NOTE
    ]
    assert loud == []


def test_the_designs_cover_drives_mechanisms_and_packs() -> None:
    files = [design(name).file for name in QUIET]
    assert len(files) >= 10
    assert {file.drive.kind for file in files if file.drive} == {
        "two-sides", "two-sticks", "four-roller-wheels", "skid-steer",
    }  # fmt: skip
    mechanisms = {thing.kind for file in files for thing in file.mechanism.values()}
    assert mechanisms >= {"arm", "lift", "winch", "flywheel", "roller", "gripper"}
    packs = {pack.chemistry for file in files for pack in file.battery.values()}
    assert packs >= {"lead", "nimh", "lithium-polymer"}


def test_a_single_fault_is_found_and_stands_among_the_worst() -> None:
    found = everything()
    for one in found:
        if not one.among_worst:
            word = "buried" if one.trips else "missed"
            print(word, one.injection.check, one.injection.design, *one.injection.edits, "worst:", *one.worst)
    injected, trips, among_worst = figures(found)["total"]
    print(f"{injected} injections of {len(FAULTS)} faults in {len(QUIET)} designs")
    print(f"{trips / injected:.1%} found, {among_worst / injected:.1%} among the worst three")
    assert injected >= LEAST_INJECTED
    assert trips / injected >= LEAST_FOUND
    assert among_worst / injected >= LEAST_AMONG_WORST


def test_the_figures_in_the_docs_are_those_of_this_run() -> None:
    assert figures(everything()) == recorded(), "renew them: python -m tests.quiet.record"
