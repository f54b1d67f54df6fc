"""The showpiece: nobody found fault with the mule, and on the target nine checks say STOP."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, Severity
from mulewright.facts.catalog import find
from mulewright.tasks.checking import CheckReport, check_file
from mulewright.tasks.opening import TargetFile
from tests.designs import EXAMPLES, evaluation
from tests.published import as_printed

FOLDER = EXAMPLES / "two-benches"
STOPS = set("H01 H02 H04 H05 H06 H07 H10 H15 X02".split())
HANDED_OVER = set("H01 H02 H03 H04 H05 H06 H07 H10 H12 H13 H14 H15".split())


def report(sets: Sequence[str] = (), variant: str | None = None, of_target: str | None = None) -> CheckReport:
    target = TargetFile(FOLDER / "target.toml", of_target)
    return check_file(FOLDER / "mule.toml", sets, variant, target=target)


def stops(of: CheckReport) -> set[str]:
    return {one.verdict.check.id for one in of.changes if one.after == "stop"}


def test_on_the_mule_nothing_is_above_a_warning() -> None:
    tripped = check_file(FOLDER / "mule.toml").of(Outcome.TRIP)
    assert max(verdict.severity for verdict in tripped) is Severity.WARN


def test_on_the_target_nine_checks_say_stop() -> None:
    found = report()
    assert stops(found) == STOPS
    assert not [one for one in found.changes if one.after == "block"]


def test_exactly_these_checks_of_the_hand_over_trip() -> None:
    found = report()
    tripped = {one.check.id for one in found.of(Outcome.TRIP) if one.check.id.startswith("H")}
    assert tripped == HANDED_OVER
    assert not [one for one in found.of(Outcome.CANNOT_TELL) if one.check.id.startswith("H")]


def test_what_tips_and_what_hits_shins_is_worse_too() -> None:
    worse = {one.verdict.check.id: (one.before, one.after) for one in report().changes}
    assert worse["X02"] == ("warn", "stop")
    assert worse["X11"] == ("pass", "warn")
    assert "P05" not in worse


def test_first_run_with_less_signal_takes_the_range_out() -> None:
    assert STOPS - stops(report(of_target="capped")) == {"H01", "H04"}


def test_what_was_settled_is_settled() -> None:
    assert STOPS - stops(report(of_target="settled")) == {"H02", "H06", "H07", "H10"}
    assert STOPS - stops(report(variant="settings-noted")) == {"H15"}


def test_taking_everything_along_leaves_what_has_to_be_built_otherwise() -> None:
    sets = ["target:target.port_current_limit=10 A", "target:body.center_height=0.1 m"]
    left = stops(report(sets, "settings-noted", "settled"))
    assert left == {"H01", "H04"}


@pytest.mark.parametrize(
    ("fact", "printed"),
    [
        ("controller.front_left.duty_factor", "1.267"),
        ("handover.voltage_factor", "1.158"),
        ("controller.front_left.speed_factor", "1.467"),
        ("controller.front_left.moving_factor", "2.15"),
        ("controller.front_left.stall_factor", "1.86"),
        ("controller.front_left.accepted_duty", "0.453"),
        ("controller.front_left.gear_factor", "2.56"),
        ("motor.lift.torque_at_limit", "1.93"),
        ("motor.lift.used_current", "7.3"),
        ("drive.speed_before", "1.9"),
        ("target:drive.tips_forward_ratio", "1.07"),
        ("accepted.hidden_force", "2.8"),
    ],
)
def test_comes_out_as_on_paper(fact: str, printed: str) -> None:
    on = evaluation("two-benches", target="two-benches/target.toml")
    assert find(on, fact).value == as_printed(printed)


def test_speed_and_energy_scale_as_on_paper() -> None:
    on = evaluation("two-benches", target="two-benches/target.toml")
    speed, energy = (find(on, f"drive.{name}_before").value for name in ("speed", "energy"))
    factor = find(on, "controller.front_left.speed_factor").value
    assert factor * speed == as_printed("2.79")
    assert energy == pytest.approx(16.2, abs=0.1)  # the paper takes 1.9 m/s, rounded
    assert factor**2 * energy == as_printed("35")


def test_every_check_of_the_hand_over_waits_for_a_target() -> None:
    found = check_file(FOLDER / "mule.toml", only=["H"])
    assert {one.check.id for one in found.verdicts} == {id for id in CHECKS if id.startswith("H")}
    assert {one.outcome for one in found.verdicts} == {Outcome.NOT_APPLICABLE}
    assert all("no target was given" in one.what for one in found.verdicts)
    assert found.changes == ()
