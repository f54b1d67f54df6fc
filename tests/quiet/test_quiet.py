"""Well-built designs are left in peace, and a single fault put into one of them is found."""

from __future__ import annotations

import pytest

from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, Severity
from tests.quiet.faults import FAULTS
from tests.quiet.injection import QUIET, design, report
from tests.quiet.record import everything, figures, recorded

LEAST_INJECTED, LEAST_FOUND, LEAST_AMONG_WORST = 1500, 0.98, 0.90


HANDED_OVER = [name for name in QUIET if design(name).file.target is not None]
READINGS = [*((name, False) for name in QUIET), *((name, True) for name in HANDED_OVER)]


@pytest.mark.parametrize(("name", "beside"), READINGS)
def test_nothing_above_note_on_a_well_built_design_and_nothing_unknown(name: str, beside: bool) -> None:
    found = report(name, beside=beside)
    loud = [one for one in found.of(Outcome.TRIP) if one.severity > Severity.NOTE]
    assert [f"{one.check.id} {one.entity}: {one.what}" for one in loud] == []
    assert [f"{one.check.id} {one.entity}: {one.says}" for one in found.of(Outcome.CANNOT_TELL)] == []


def test_the_designs_cover_drives_mechanisms_and_packs() -> None:
    files = [design(name).file for name in QUIET]
    assert len(files) >= 10
    assert {file.drive.kind for file in files if file.drive} == {
        "two-sides", "two-sticks", "four-roller-wheels", "skid-steer",
    }  # fmt: skip
    mechanisms = {thing.kind for file in files for thing in file.mechanism.values()}
    assert mechanisms >= {"arm", "lift", "winch", "flywheel", "roller", "gripper"}
    packs = {pack.chemistry for file in files for pack in file.battery.values()}
    assert packs >= {"lead", "nimh", "lithium-polymer", "lithium-ion", "iron-phosphate"}
    masses = [mass.value for file in files if (mass := file.body.quantity("mass"))]
    assert min(masses) < 1
    assert max(masses) > 40


def test_every_check_has_a_fault_that_is_put_into_a_design() -> None:
    assert {one.injection.check for one in everything()} == set(CHECKS)


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
