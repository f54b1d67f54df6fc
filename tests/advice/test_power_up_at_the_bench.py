"""A power-up plan read at the bench: what comes off goes on again, and nothing is said that the machine cannot do."""

from __future__ import annotations

from mulewright.advice.checklists import checklists_of
from mulewright.advice.power_up.build import power_up
from mulewright.advice.power_up.plan import Place
from mulewright.paper.radio_paper import radio_paper
from tests.advice.test_power_up import plan, step
from tests.designs import evaluation
from tests.paper.oddities import TWO_RADIOS, evaluated


def said(design: str, id: str, *, tester: bool = False, supply: bool = False) -> str:
    return " ".join(step(plan(design, tester=tester, supply=supply), id).do)


def test_horns_are_off_before_a_servo_gets_power() -> None:
    assert "Horns off servo tilt" in said("aisle-carrier", "props:all")
    assert "touch" not in said("aisle-carrier", "neutral:all")


def test_motor_wires_that_came_off_go_on_again_before_their_volts_are_read() -> None:
    found = plan("aisle-carrier")
    alone = " ".join(step(found, "rail:rail.receiver").do)
    assert "controller pump (wires 14 and 15 on; motor wires 26 and 27 off)" in alone
    assert "motor wires 26 and 27 on" in " ".join(step(found, "controller:controller.pump").do)


def test_each_source_of_a_rail_has_a_reading_of_its_own() -> None:
    readings = step(plan("aisle-carrier"), "rail:rail.receiver").readings
    assert sum(one.word == "rail" for one in readings) == 6


def test_what_runs_on_by_the_file_is_expected_to_run_on() -> None:
    found = plan("aisle-carrier")
    pump, lift = (step(found, f"lost:{one}") for one in ("pump", "lift"))
    assert pump.readings[0].band.low == lift.readings[0].band.high
    assert pump.readings[0].band.high is None
    assert "No preset can be stored for receiver socket 6" in " ".join(pump.do)
    assert "Store neutral first for receiver socket" in said("seed-ball-thrower", "lost:flywheel")
    assert "stick to rest, then transmitter on again" in " ".join(lift.do)


def test_a_radio_sheet_asks_for_no_preset_that_the_receiver_cannot_store() -> None:
    text = str(radio_paper(evaluation("aisle-carrier")).as_dict())
    assert "Store the fail-safe of channel 3 again" in text
    assert "Store the fail-safe of each channel again" not in text


def test_a_flywheel_is_run_one_way_only() -> None:
    assert "the other way" not in said("seed-ball-thrower", "function:flywheel")
    assert "one way only" in said("seed-ball-thrower", "function:flywheel")
    assert "then the other way" in said("tray-cart", "function:forward")


def test_what_no_switch_stops_is_not_driven_to_its_ends() -> None:
    items = {
        one.id: one.text for sheet in checklists_of(evaluation("aisle-carrier")).lists for one in sheet.items
    }
    assert "stops" not in items
    assert items["no-stops"].startswith("Lift brought close to both ends of its way, never against them")


def test_a_battery_has_no_display_and_a_switch_is_held_for_the_readings() -> None:
    on_battery, on_supply = (plan("aisle-carrier", supply=one) for one in (False, True))
    assert on_battery.readings["standing:all"].instrument == "meter in the plus"
    assert "from the battery" in on_battery.readings["standing:all"].what
    assert "display" in on_supply.readings["standing:all"].instrument
    assert "on as long as the readings take" in said("aisle-carrier", "function:pump")
    assert "Every other wheel" not in said("aisle-carrier", "function:forward")


def test_a_tester_that_the_file_does_not_name_is_only_the_tester() -> None:
    found = plan("aisle-carrier", tester=True)
    assert found.readings["knob:motor.pump"].band.needs == (
        "a tester in the file, with the ends of its pulses",
    )
    assert "tester bench" not in str(found.as_dict())


PAIR = (
    'y_lead.tilt={kind = "parallel", carries = "signal", signal = "receiver.5", red_wire = "in"}',
    'servo.tilt.signal="y_lead.tilt"',
    'servo.other={part = "sv-std", signal = "y_lead.tilt"}',
)


def test_servos_on_one_lead_are_tried_one_at_a_time_and_then_together() -> None:
    found = plan("aisle-carrier", PAIR)
    first, last = (step(found, f"servo:servo.{one}") for one in ("tilt", "other"))
    assert first.do[0] == "Servo other on the same Y-lead: its plug out while this one is tried."
    assert "KN slowly from end to end" in " ".join(last.do)
    assert not any("together" in line for line in first.do)
    assert last.do[-1].startswith("Then servo tilt and servo other together")
    high = [found.readings[f"servo_current:servo.{one}"].band.high for one in ("tilt", "other")]
    assert None not in high


def test_a_checklist_says_what_moves_along_on_the_same_lead() -> None:
    lists = checklists_of(evaluation("aisle-carrier", PAIR)).lists
    [tilt] = [
        one.text for sheet in lists for one in sheet.items if one.text.casefold().startswith("tilt (kn")
    ]
    assert "on the same lead with it servo other; nothing else moves" in tilt


def test_servos_on_one_part_keep_the_other_horn_off() -> None:
    found = plan("soft-fruit-gripper", variant="mended")
    assert "on the same" in step(found, "servo:servo.left").do[0]
    on_tester = plan("soft-fruit-gripper", ('servo.left.coupled_with="?"', 'servo.right.coupled_with="?"'))
    assert any("Servo right on the same" in line for line in step(on_tester, "tested_servo:servo.left").do)


def test_a_control_is_said_with_its_transmitter_where_there_are_two() -> None:
    titles = [one.title for one in power_up(evaluated(TWO_RADIOS)).steps if one.id.startswith("function:")]
    assert titles
    assert all("transmitter" in title for title in titles)


def test_supply_leads_are_metered_before_they_go_in_and_servos_have_no_free_socket() -> None:
    found = plan("two-benches")
    leads = [reading.id for one in found.steps for reading in one.readings if reading.word == "lead"]
    assert leads == ["lead:35", "lead:36"]
    assert found.readings["lead:35"].band.place(-6.0) is Place.MINUS
    assert "free socket of servo" not in str(found.as_dict())


def test_servos_are_seen_with_the_transmitter_off() -> None:
    lines = step(plan("aisle-carrier"), "lost_servos:receiver").do
    assert lines[-1] == "servo tilt on receiver socket 5, by the file: stays where it is."
