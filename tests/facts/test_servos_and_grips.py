"""Servos under load and the soft-fruit gripper, worked by hand."""

from __future__ import annotations

import numpy as np
import pytest

from mulewright.checks.engine import Outcome
from mulewright.facts.endpoints import PlannedEndFacts
from mulewright.facts.grippers import GripFacts, LinkageBarsFacts, LinkageSwingFacts
from mulewright.facts.servo_torque import ServoLoadFacts, ServoMoveFacts, ServoTorqueFacts
from mulewright.facts.servo_travel import ServoTravelFacts
from tests.designs import evaluation, verdicts_on
from tests.published import as_printed

DEGREE = np.pi / 180
FED = ("regulator.bench={kind='switching', voltage='5.0 V', current='3 A', feeds=['tester.bench']}",)


def grip(*sets: str, variant: str | None = None) -> GripFacts:
    return evaluation("soft-fruit-gripper", sets, variant).entity(GripFacts, "mechanism.gripper")


def left(*sets: str) -> ServoTorqueFacts:
    return evaluation("soft-fruit-gripper", sets).entity(ServoTorqueFacts, "servo.left")


def test_soft_fruit_gripper_with_strong_and_with_weak_servos() -> None:
    strong, weak = grip(), grip(variant="radio-bench")
    assert strong.jaw_force == as_printed("10")
    assert strong.peak_jaw_force == as_printed("25")
    assert weak.jaw_force == as_printed("3.0")
    assert weak.peak_jaw_force == as_printed("7.5")
    assert 1.5 * weak.needed_force == as_printed("8.9")
    np.testing.assert_allclose(grip("mechanism.gripper.jaws=2").jaw_force, strong.jaw_force / 2)


def test_gripper_without_a_servo_cannot_be_told() -> None:
    alone = grip("servo.left.moves=?", "servo.right.moves=?")
    assert alone.node("jaw_force").gaps == {"a servo that moves mechanism.gripper"}


def test_volts_of_the_sheet_while_nothing_feeds_it() -> None:
    assert left().supply_voltage == 6.0
    assert left(*FED).supply_voltage == 5.0
    assert left(*FED).torque == pytest.approx(2.0 * 5 / 6)


def test_torque_between_two_voltages_whichever_stands_first() -> None:
    low_first = ("servo.left.second_voltage=4.8 V", "servo.left.second_stall_torque=1.7 N m")
    high_first = (
        "servo.left.rated_voltage=4.8 V", "servo.left.stall_torque=1.7 N m",
        "servo.left.second_voltage=6.0 V", "servo.left.second_stall_torque=2.0 N m",
    )  # fmt: skip
    wanted = 1.7 + 0.3 * 0.2 / 1.2
    assert left(*FED, *low_first).torque == pytest.approx(wanted)
    assert left(*FED, *high_first).torque == pytest.approx(wanted)


def test_arm_on_two_servos_is_shared() -> None:
    arm = "mechanism.boom={kind='arm', lumps=[], load='0.2 kg', load_at='0.3 m'}"
    servo = "servo.{}={{part='sv-ht', moves='mechanism.boom', signal='receiver.{}'}}"
    sets = (arm, servo.format("one", 6), servo.format("two", 7))
    load = evaluation("tray-cart", sets).entity(ServoLoadFacts, "servo.one")
    assert load.load == pytest.approx(0.2 * 9.80665 * 0.3 / 2, rel=1e-3)


def test_tilting_the_tray_in_time() -> None:
    sets = (
        "servo.tilt.transit=0.16 s/60deg",
        "servo.tilt.load_inertia=0.02 kg m2",
        "servo.tilt.wanted_time=1 s",
    )
    move = evaluation("aisle-carrier", sets).entity(ServoMoveFacts, "servo.tilt")
    assert move.swing_torque == as_printed("0.154")  # 0.02 kg m2 times 4 * 1.92 rad / s2
    assert move.torque_left == as_printed("0.62")  # 1.5 N m * (1 - 3.84 / 6.54)
    assert move.move_time == as_printed("0.40")  # 1.92 rad at 6.54 rad/s less 0.4 / 1.5 of it
    never = evaluation("aisle-carrier", (*sets, "servo.tilt.load_torque=2 N m"))
    assert never.entity(ServoMoveFacts, "servo.tilt").move_time == np.inf


def test_mirrored_servo_swings_the_mirrored_way() -> None:
    bars = "{horn='15 mm', rod='50 mm', lever='30 mm', base='60 mm', horn_angle='90 deg', transmission_angle='?'}"
    on = evaluation("soft-fruit-gripper", (f"mechanism.gripper.linkage={bars}", "tester.bench.high=1900 us"))
    plain, turned = (on.entity(LinkageSwingFacts, f"servo.{side}") for side in ("left", "right"))
    assert plain.horn_up / DEGREE == pytest.approx(90 + 54)  # 400 us at 0.135 degrees each
    assert turned.horn_up / DEGREE == pytest.approx(90 - 54)
    smallest = on.entity(LinkageBarsFacts, "mechanism.gripper.linkage").transmission_angle
    assert smallest == min(plain.rod_angle, turned.rod_angle)


PLACED = (
    "mechanism.gripper.linkage={horn='30 mm', rod='60 mm', lever='30 mm', base='60 mm', horn_angle='80 deg',"
    " lever_open='60 deg', lever_closed='120 deg', rod_side='ahead', needed='?', transmission_angle='?'}",
    "servo.*.need=?",
)


def test_a_parallelogram_needs_of_the_servo_what_the_lever_turns() -> None:
    on = evaluation("soft-fruit-gripper", PLACED, "mended")
    assert on.entity(ServoTravelFacts, "servo.left").need / DEGREE == pytest.approx(60)
    ends = {
        side: on.entity(PlannedEndFacts, f"servo.left:needed-{side}").end_angle / DEGREE
        for side in ("low", "high")
    }
    assert ends == pytest.approx({"low": -20, "high": 40})  # 60 and 120 degrees, the middle at 80
    mirrored = on.entity(PlannedEndFacts, "servo.right:needed-high").end_angle / DEGREE
    assert mirrored == pytest.approx(20)


def test_a_linkage_that_does_not_close_needs_no_angle_and_says_why() -> None:
    on = evaluation("soft-fruit-gripper", (*PLACED, "mechanism.gripper.linkage.rod=20 mm"), "mended")
    need = on.entity(ServoTravelFacts, "servo.left").node("need")
    assert not need.known
    verdicts = verdicts_on(on, "M20")
    assert verdicts["mechanism.gripper.linkage"].outcome is Outcome.TRIP
    assert "do not reach the lever" in verdicts["mechanism.gripper.linkage"].what
    assert verdicts_on(on, "S03")["servo.left"].outcome is Outcome.CANNOT_TELL


def test_servo_travel_is_judged_by_the_lengths() -> None:
    wide = (*PLACED, "mechanism.gripper.linkage.horn=20 mm")
    near, far = (evaluation("soft-fruit-gripper", sets, "mended") for sets in (PLACED, wide))
    assert verdicts_on(near, "S03")["servo.left"].outcome is Outcome.PASS
    assert verdicts_on(far, "S03")["servo.left"].outcome is Outcome.TRIP
