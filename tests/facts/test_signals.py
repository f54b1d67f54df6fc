"""Servo travel, switches, mixes, trims and roles of controls, worked by hand on the shipped designs."""

from __future__ import annotations

import math

import pytest

from mulewright.facts.controller_use import ControllerUseFacts
from mulewright.facts.drive_mix import MixedDriveFacts, SideChannelFacts, WheelSignalFacts
from mulewright.facts.mixes import MixFacts
from mulewright.facts.outputs import ControllerSignalFacts
from mulewright.facts.plugs import PlannedPlugFacts, PlugFacts
from mulewright.facts.rest import ControllerRestFacts
from mulewright.facts.roles import PlannedControlFacts, SlowedFacts
from mulewright.facts.servo_travel import LinkedServoFacts, ServoTravelFacts
from mulewright.facts.switched import SwitchedFacts
from tests.designs import evaluation
from tests.published import as_printed

BOTH_ENDS = 'radio.control.SW2.positions=["-100 %", "100 %"]'


def tilt(*sets: str) -> ServoTravelFacts:
    return evaluation("aisle-carrier", sets).entity(ServoTravelFacts, "servo.tilt")


def degrees(angle: object) -> float:
    return math.degrees(float(angle))  # type: ignore[arg-type]


# --- servos ---


def test_the_tilting_tray_gets_72_of_110_degrees() -> None:
    assert degrees(tilt().swing) == as_printed("72")
    assert degrees(tilt().need) == as_printed("110")


def test_ends_trims_and_reverse_move_the_pulses() -> None:
    # by hand: 400 us at 120 % up and 80 % down, 25 us of trim
    sets = (
        "radio.channel.5.travel_plus=120 %",
        "radio.channel.5.travel_minus=80 %",
        "radio.channel.5.trim=25 us",
    )
    assert tilt(*sets).longest == pytest.approx(2005e-6)
    assert tilt(*sets).shortest == pytest.approx(1205e-6)
    turned = tilt(*sets, "radio.channel.5.reverse=true")
    assert turned.longest == pytest.approx(1845e-6)
    assert turned.shortest == pytest.approx(1045e-6)


def test_a_servo_on_a_switch_goes_as_far_as_its_positions() -> None:
    on_switch = (
        "controller.pump.signal=receiver.5",
        "servo.tilt.signal=receiver.6",
        "radio.control.SW2.commands=tilt",
        "radio.control.KN.commands=?",
    )
    servo = tilt(*on_switch)
    assert servo.longest == pytest.approx(1900e-6)
    assert servo.shortest == pytest.approx(1500e-6)
    assert tilt(*on_switch, "radio.control.SW2.positions=?").node("swing").gaps == {
        "radio.control.SW2.positions"
    }


def test_a_tester_sends_its_own_range() -> None:
    tester = ('tester.st={ low = "800 us", high = "2200 us" }', "servo.tilt.signal=tester.st")
    assert degrees(tilt(*tester).swing) == as_printed("126")


def test_the_stop_on_the_nearer_side_counts() -> None:
    # by hand: 400 us of 500 us up, 400 us of 800 us down
    servo = tilt("servo.tilt.stop_high=2000 us", "servo.tilt.stop_low=700 us")
    assert servo.stop_share == pytest.approx(0.8)


def test_a_servo_without_a_sheet_is_taken_to_follow_common_pulses() -> None:
    servo = tilt("servo.tilt.stop_high=?", "servo.tilt.stop_low=?")
    assert servo.stop_high == pytest.approx(2200e-6)
    assert servo.stop_low == pytest.approx(800e-6)


def test_a_linkage_binds_on_the_side_with_less_room() -> None:
    sets = (
        'mechanism.jaw={ kind = "gripper" }',
        'mechanism.jaw.linkage={ needed = "60 deg", limit_low = "-40 deg", limit_high = "50 deg" }',
        "servo.tilt.moves=mechanism.jaw",
        "servo.tilt.need=?",
        "radio.control.KN.commands=jaw",
    )
    on = evaluation("aisle-carrier", sets)
    # by hand: 400 us at 0.09 deg/us are 36 deg, of 40 and of 50
    assert degrees(on.entity(LinkedServoFacts, "servo.tilt").clearance) == as_printed("4.0")
    assert degrees(on.entity(ServoTravelFacts, "servo.tilt").need) == as_printed("60")


# --- switches on motors ---


def pump(*sets: str) -> SwitchedFacts:
    return evaluation("aisle-carrier", sets).entity(SwitchedFacts, "controller.pump")


def test_the_pump_is_off_at_one_end_of_its_switch() -> None:
    assert pump().nearest == 0
    assert pump().highest_duty == as_printed("0.789")
    assert pump(BOTH_ENDS).nearest == pytest.approx(400e-6)
    assert pump(BOTH_ENDS, "radio.channel.6.travel_minus=0 %").nearest == 0
    assert pump("radio.channel.6.sub_trim=30 us").nearest == pytest.approx(30e-6)


def test_a_switch_counts_by_the_plan_wherever_the_plug_sits() -> None:
    assert pump(BOTH_ENDS, "controller.pump.signal=receiver.7").nearest == pytest.approx(400e-6)


# --- mixes ---


def mix(design: str, id: str, *sets: str, variant: str | None = None) -> MixFacts:
    return evaluation(design, sets, variant).entity(MixFacts, id)


def test_half_of_the_turn_is_left_at_full_forward() -> None:
    cart = mix("tray-cart", "radio.mix.0")
    assert cart.asked == 2
    assert cart.left == 0.5
    # by hand: (1 - 0.6 + 0.8) / (2 x 0.8)
    slower = mix("tray-cart", "radio.mix.0", "radio.control.RV.rate=60 %", "radio.control.RH.rate=80 %")
    assert slower.left == pytest.approx(0.75)


def test_a_box_is_asked_for_pulses_against_its_own_range() -> None:
    # by hand: three controls of 400 us into 500 us
    carrier = mix("aisle-carrier", "mixer.drive")
    assert carrier.asked == pytest.approx(2.4)
    assert carrier.left == pytest.approx(1 / 2.4)


def test_a_box_that_mixes_twice_loses_no_turn() -> None:
    assert mix("hose-tug", "mixer.tug").left == 1


def test_the_rate_switch_reaches_two_of_three_controls() -> None:
    assert mix("aisle-carrier", "mixer.drive").slow_ratio == 2
    assert mix("tray-cart", "radio.mix.0").slow_ratio == 1
    assert mix("tray-cart", "radio.mix.0", "radio.rate.covers=?").node("slow_ratio").known  # the sheet says
    none = mix("tray-cart", "radio.mix.0", "radio.rate.covers=[]")
    assert none.slow_ratio == 1


@pytest.mark.parametrize(
    ("sets", "count", "share"),
    [
        ((), 2, 1.0),
        (("radio.mix.0.active=false",), 0, 0.0),
        (("controller.right.signal=receiver.3",), 1, 0.5),
    ],
)
def test_wheels_that_follow_more_than_one_command(sets: tuple[str, ...], count: int, share: float) -> None:
    drive = evaluation("tray-cart", sets).entity(MixedDriveFacts, "drive")
    assert drive.mixed_wheels == count
    assert drive.mixed_share == share


def test_shares_on_the_way_multiply() -> None:
    sets = ("radio.mix.0.forward_weight=80 %", "mixer.tug.forward_weight=50 %")
    on = evaluation("hose-tug", sets)
    assert on.entity(WheelSignalFacts, "controller.left").mix_size == pytest.approx(0.4)


# --- dead stick, trims, ends ---


@pytest.mark.parametrize(
    ("design", "variant", "share"),
    [("tray-cart", None, "0.074"), ("hose-tug", None, "0.22"), ("hose-tug", "radio-mix-off", "0.38")],
)
def test_dead_part_of_the_stick(design: str, variant: str | None, share: str) -> None:
    on = evaluation(design, variant=variant)
    for side in ("left", "right"):
        assert on.entity(ControllerSignalFacts, f"controller.{side}").dead_stick == as_printed(share)


def test_trims_of_the_inputs_of_a_box_add_up_at_its_outputs() -> None:
    # by hand: left 10 + 4 us, right 10 - 4 us, half a dead band of 30 us
    on = evaluation("hose-tug", ("radio.channel.2.trim=10 us", "radio.channel.1.sub_trim=4 us"))
    left, right = (on.entity(ControllerRestFacts, f"controller.{side}") for side in ("left", "right"))
    assert left.offset == pytest.approx(14e-6)
    assert right.offset == pytest.approx(6e-6)
    assert left.offset_share == pytest.approx(14 / 30)


def test_ends_differ_as_a_share_of_the_longer_one() -> None:
    on = evaluation("tray-cart", ("radio.channel.2.travel_minus=90 %",))
    assert on.entity(SideChannelFacts, "controller.left").ends_unequal == pytest.approx(0.25)
    assert on.entity(SideChannelFacts, "controller.right").ends_unequal == 0


def test_range_used_is_counted_against_what_was_taught() -> None:
    on = evaluation("tray-cart", ("controller.left.calibrated_to=400 us",))
    assert on.entity(ControllerUseFacts, "controller.left").range_used == pytest.approx(1.2)


# --- plugs and roles ---


def test_plugs_lead_back_to_controls() -> None:
    on = evaluation("aisle-carrier", ("controller.lift.signal=receiver.7", "servo.tilt.signal=[]"))
    assert on.entity(PlugFacts, "controller.lift").gets == "it gets KN2 from receiver.7"
    assert on.entity(PlannedPlugFacts, "controller.lift").on_its_channel == 0
    assert on.entity(PlugFacts, "servo.tilt").driven == 0
    assert on.entity(PlannedControlFacts, "radio.control.LV").moves_something == 0


def test_an_unknown_plug_may_be_the_one_that_is_missing() -> None:
    on = evaluation("aisle-carrier", ("controller.lift.signal=?",))
    assert on.entity(PlannedControlFacts, "radio.control.LV").node("moves_something").gaps == {
        "controller.lift.signal"
    }


def test_a_y_lead_that_sits_nowhere_is_the_gap() -> None:
    on = evaluation("aisle-carrier", ('y_lead.pair={ kind = "parallel" }', "servo.tilt.signal=y_lead.pair"))
    assert on.entity(PlugFacts, "servo.tilt").node("driven").gaps == {"y_lead.pair.signal"}


@pytest.mark.parametrize(
    ("sets", "missed"),
    [
        ((), 1),
        (("mechanism.lift.slow_mode=false",), 0),
        (('radio.rate.covers=["LV"]', "mechanism.lift.slow_mode=?"), 0),
    ],
)
def test_a_slow_mode_is_missed_where_it_is_wanted_and_not_reached(sets: tuple[str, ...], missed: int) -> None:
    assert evaluation("aisle-carrier", sets).entity(SlowedFacts, "mechanism.lift").not_slowed == missed


@pytest.mark.parametrize(
    ("sets", "late"),
    [
        (("controller.lift.direction=reversible",), 0),
        (("controller.lift.direction=stop-then-reverse",), 1),
    ],
)
def test_a_lift_needs_reverse_at_once(sets: tuple[str, ...], late: int) -> None:
    assert (
        evaluation("aisle-carrier", sets).entity(ControllerUseFacts, "controller.lift").late_reverse == late
    )


def test_what_runs_one_way_may_reverse_late() -> None:
    on = evaluation("aisle-carrier", ("controller.pump.direction=stop-then-reverse",))
    assert on.entity(ControllerUseFacts, "controller.pump").late_reverse == 0
    unknown = evaluation(
        "aisle-carrier", ("controller.pump.direction=stop-then-reverse", "motor.pump.runs=?")
    )
    assert unknown.entity(ControllerUseFacts, "controller.pump").node("late_reverse").gaps == {
        "motor.pump.runs"
    }
