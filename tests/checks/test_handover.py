"""What the checks of the hand-over do where things are missing, dropped, or said in the other file."""

from __future__ import annotations

import pytest

from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, Verdict, run
from tests.designs import DESIGNS, evaluation, verdicts_on

BENCHES, TARGET = "two-benches", "two-benches/target.toml"
FAMILY = [rule for id, rule in CHECKS.items() if id.startswith("H")]


def said(id: str, *sets: str, design: str = BENCHES, target: str = TARGET) -> dict[str, Verdict]:
    return verdicts_on(evaluation(design, sets, target=target), id)


def test_the_family_is_complete() -> None:
    assert [rule.id for rule in FAMILY] == [f"H{number:02}" for number in range(1, 19)]


@pytest.mark.parametrize("design", DESIGNS)
def test_a_mule_handed_over_as_it_is_changes_nothing(design: str) -> None:
    found = run(evaluation(design, target=f"{design}/mule.toml"), FAMILY)
    tripped = {one.check.id for one in found if one.outcome is Outcome.TRIP}
    assert tripped <= {"H10", "H11", "H12", "H14", "H15", "H17", "H18"}  # records, the rate, the loop
    for one in found:
        assert "{" not in one.what
        assert one.outcome is not Outcome.CANNOT_TELL or one.needs


def test_what_is_missing_says_in_which_file() -> None:
    there = said("H01", "target:controller.lift.dead_band=?")["controller.lift"]
    here = said("H01", "controller.lift.dead_band=?")["controller.lift"]
    assert there.needs == ("target:controller.lift.dead_band",)
    assert here.needs == ("controller.lift.dead_band",)


def test_a_thing_that_is_called_otherwise_is_missed_by_its_name() -> None:
    renamed = said("H09", target="long-reach-pruner/mule.toml")  # it has a drive, and neither lift nor tray
    assert "controller.lift" not in renamed
    assert renamed["controller.front_left"].needs == ("target:controller.front_left.stopping",)


@pytest.mark.parametrize(
    ("sets", "outcome"),
    [
        (("target.port_current_limit=10 A",), Outcome.TRIP),  # what the target's file says wins
        (("target.port_current_limit=10 A", "target:target.port_current_limit=?"), Outcome.PASS),
        (("target:target.port_current_limit=?",), Outcome.CANNOT_TELL),
    ],
)
def test_the_mules_file_answers_where_the_targets_is_silent(sets: tuple[str, ...], outcome: Outcome) -> None:
    assert said("H05", *sets)["motor.lift"].outcome is outcome


RULE = 'rules={ rule = [{ about = "motor", most = 1, note = "one motor" }] }'


def test_a_rule_table_of_the_target_counts_as_a_whole() -> None:
    assert "rules.rule.1@fuse.main" in said("H07", RULE)
    own = said("H07", RULE, design="tray-cart", target="tray-cart/mule.toml")
    assert own["rules.rule.0"].outcome is Outcome.TRIP
    assert "one motor (table without a day)" in own["rules.rule.0"].what


def test_a_rule_about_nothing_on_the_target_counts_none() -> None:
    none = 'target:rules={ rule = [{ about = "inline", property = "factor", limit = "1" }] }'
    found = said("H07", none)["rules.rule.0"]
    assert found.outcome is Outcome.NOT_APPLICABLE
    assert said("H07", 'target:rules={ rule = [{ about = "inline", most = 0 }] }')["rules.rule.0"].value == 0


def test_a_fuse_finding_names_what_it_found() -> None:
    found = said("H07")["rules.rule.1@fuse.main"]
    assert "fuse.main has 25 A, and the rule says at most 20 A" in found.what
    assert (found.value, found.limit, found.unit) == (25, 20, "A")


def test_without_rules_it_says_that_the_program_ships_none() -> None:
    on = evaluation("tray-cart", target="tray-cart/mule.toml")
    (verdict,) = run(on, [CHECKS["H07"]])
    assert verdict.what == "no rule table is typed; the program ships none"


def test_stalled_servos_of_a_target_are_held_against_what_it_has() -> None:
    on = evaluation(BENCHES, target=TARGET)
    assert on.target is not None
    found = verdicts_on(on.target, "P05")
    assert {one.outcome for one in found.values()} == {Outcome.NOT_APPLICABLE}
    alone = verdicts_on(evaluation(TARGET), "P05")
    assert alone["rail.receiver"].outcome is Outcome.TRIP


def test_pulses_come_from_the_targets_settings_where_none_are_noted() -> None:
    sets = ("target:target.pulse_low=?", "target:target.pulse_high=?")
    found = said("H02", *sets)["servo.tray"]
    assert "1000 us to 2000 us" in found.what
    assert found.value == pytest.approx(100e-6)


def test_volts_of_rested_packs_stand_in_for_volts_under_load() -> None:
    found = said("H03", "accepted.loaded_voltage=?")["handover"]
    assert found.value == pytest.approx(13.4 / 12.6)


def test_a_hold_test_gives_the_volts_of_gravity_and_friction() -> None:
    test = 'mechanism.arm.hold_test={ rising_duty = "58 %", sinking_duty = "11 %", voltage = "12 V" }'
    found = said("H11", test, design="long-reach-pruner", target="long-reach-pruner/mule.toml")
    assert "4.14 V for gravity and 2.82 V for friction" in found["mechanism.arm"].what


def test_drawn_inputs_of_the_target_give_a_share() -> None:
    values = {"target:target.port_current_limit": [5.0, 9.0, 9.0, 9.0]}
    on = evaluation(BENCHES, values=values, target=TARGET)
    found = verdicts_on(on, "H05")["motor.lift"]
    assert (found.outcome, found.share) == (Outcome.PASS, 0.25)
