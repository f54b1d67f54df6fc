"""A mule beside its target on the command line: findings, changes, names that tell the files apart."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Run, path_of
from tests.designs import EXAMPLES

MULE, TARGET = path_of("two-benches"), EXAMPLES / "two-benches" / "target.toml"
BESIDE = ("--target", TARGET)


def test_what_changes_stands_below_the_findings(mulewright: Run) -> None:
    ran = mulewright("check", MULE, *BESIDE)
    assert ran.code == 1
    findings, _, changes = ran.out.partition("ON THE TARGET, Pot mover, on the control unit:")
    assert "STOP  H01 range-widens: controller" in findings
    assert "X02 tips-over-its-nose" not in findings.partition("WORTH KNOWING")[0]
    said = " ".join(changes.split())
    assert "speed x 1.47, energy x 2.15, battery current held fast x 1.86. Begin with 68.2 % of the" in said
    assert "STOP X02 tips-over-its-nose: drive Was warn on the mule. Braking makes" in said
    assert "cannot be told there, needs target:controller.front_left.peak_current" in said


def test_changes_have_a_key_of_their_own(mulewright: Run) -> None:
    without, beside = (mulewright("check", MULE, *more, "--json").json for more in ((), BESIDE))
    assert set(beside) - set(without) == {"changes"}
    assert {"check": "X02", "entity": "drive", "mule": "warn", "target": "stop"} in beside["changes"]
    assert all(set(one) == {"check", "entity", "mule", "target"} for one in beside["changes"])


def test_a_stop_on_the_target_alone_fails(mulewright: Run) -> None:
    assert mulewright("check", MULE, "--only", "X02").code == 0
    assert mulewright("check", MULE, "--only", "X02", *BESIDE).code == 1
    unknown = ("--only", "M01", "--fail-on-unknown", "stop")
    assert [mulewright("check", MULE, *unknown, *more).code for more in ((), BESIDE)] == [0, 1]


def test_a_variant_and_settings_of_the_target(mulewright: Run) -> None:
    only = ("--only", "H01,H07")
    assert "H01" not in mulewright("check", MULE, *BESIDE, "--target-variant", "capped", *only).out
    ran = mulewright("check", MULE, *BESIDE, *only, "--set", "target:fuse.main.rating=15 A")
    assert "H07" not in ran.out
    assert "H01" in ran.out


def test_without_a_target_it_reminds_of_the_one_that_is_noted(mulewright: Run) -> None:
    reminder = "It stands for target.toml: add --target to see what changes there."
    assert reminder in mulewright("check", MULE).out
    assert reminder not in mulewright("check", MULE, *BESIDE).out
    assert "--target" not in mulewright("check", path_of("tray-cart")).out


@pytest.mark.parametrize("more", [("--set", "target:body.mass=9 kg"), ("--target-variant", "capped")])
def test_something_said_of_a_target_needs_one(mulewright: Run, more: tuple[str, str]) -> None:
    ran = mulewright("check", MULE, *more)
    assert ran.code == 2
    assert "no target is given" in ran.err


def test_an_opened_number_tells_the_files_apart(mulewright: Run) -> None:
    ran = mulewright("explain", MULE, "controller.lift.duty_factor", *BESIDE)
    assert ran.code == 0
    said = " ".join(ran.out.split())
    assert "controller.lift.full_duty = 0.7872" in said
    assert "target:controller.lift.full_duty = 1" in said
    assert "500 us: typed, target:controller.lift.half_range" in said
    alone = mulewright("explain", MULE, "target:drive.tips_forward_ratio", *BESIDE, "--json").json
    assert alone["entity"] == "target:drive"
    assert alone["value"] == pytest.approx(1.067, abs=1e-3)


def test_facts_of_both_are_listed(mulewright: Run) -> None:
    listed = mulewright("facts", MULE, *BESIDE, "--json").json["facts"]
    names = {f"{one['entity']}.{one['name']}" for one in listed}
    assert {"body.mass", "target:body.mass", "handover.voltage_factor"} <= names
