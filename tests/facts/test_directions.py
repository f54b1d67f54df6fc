"""Which way each wheel turns, by its leads or by the pushes, and whose signal it gets."""

from __future__ import annotations

import pytest

from mulewright.facts.boxes import BoxFacts, DriveBoxFacts
from mulewright.facts.directions import WheelMotorFacts
from tests.designs import evaluation

EXCHANGED = ("mixer.tug.forward=receiver.1", "mixer.tug.turn=receiver.2")


def wheel(design: str, name: str, *sets: str, variant: str | None = None) -> WheelMotorFacts:
    return evaluation(design, sets, variant).entity(WheelMotorFacts, f"motor.{name}")


def directions(design: str, *sets: str, variant: str | None = None) -> dict[str, float]:
    on = evaluation(design, sets, variant)
    return {motor.wheel: float(motor.direction) for motor in WheelMotorFacts.all(on)}


def test_carefully_wired_wheels_turn_as_they_should() -> None:
    assert directions("tray-cart") == {"left": 1, "right": 1}
    assert set(directions("aisle-carrier").values()) == {1}


def test_three_pushes_on_blocks_find_one_reversed_motor_and_two_exchanged_plugs() -> None:
    on = evaluation("aisle-carrier", variant="as-found")
    found = {motor.wheel: (float(motor.direction), motor.plugged) for motor in WheelMotorFacts.all(on)}
    assert found == {
        "front_left": (1, "front_left"),
        "front_right": (1, "rear_left"),
        "rear_left": (1, "front_right"),
        "rear_right": (-1, "rear_right"),
    }
    box = on.entity(DriveBoxFacts, "mixer.drive")
    assert box.reversed_wheels == 1
    assert box.reversed_share == 0.25


def test_zeros_of_a_double_mix_leave_the_leads_to_decide() -> None:
    assert directions("hose-tug") == {"left": 1, "right": -1}
    assert directions("hose-tug", variant="radio-mix-off") == {"left": 1, "right": -1}


@pytest.mark.parametrize(
    ("sets", "left", "right"),
    [
        (("controller.right.polarity=straight",), 1, -1),
        (("motor.right.mirrored=false",), 1, -1),
        (("controller.right.polarity=straight", "motor.right.mirrored=false"), 1, 1),
        (("radio.channel.2.reverse=true",), -1, 1),
        (("radio.mix.0.turn_weight=-100 %",), -1, -1),
        (('motor.left.gears=[{ kind = "spur", reverses = true }]',), -1, 1),
        (('motor.left.gears=[{ kind = "chain" }]',), 1, 1),
        (
            (
                'inline.turner={ does = "reverses", signal = "receiver.2" }',
                "controller.left.signal=inline.turner",
            ),
            -1,
            1,
        ),
    ],
)
def test_each_link_turns_the_wheel_round(sets: tuple[str, ...], left: int, right: int) -> None:
    assert directions("tray-cart", *sets) == {"left": left, "right": right}


def test_a_mount_is_compared_with_its_twin() -> None:
    assert wheel("tray-cart", "left").mount == 1
    alone = wheel("tray-cart", "left", "motor.right.mirrored=?")
    assert alone.node("mount").gaps == {"motor.left.mirrored"}


def test_an_unknown_gear_stage_is_a_gap() -> None:
    motor = wheel("tray-cart", "left", 'motor.left.gears=[{ kind = "spur" }]')
    assert motor.node("direction").gaps == {"motor.left.gears.0.reverses"}


def test_a_push_without_its_order_is_a_gap() -> None:
    motor = wheel("tray-cart", "left", 'as_found={ wheels = { left = "++" } }')
    assert motor.node("direction").gaps == {"as_found.order"}


def test_two_faults_that_make_up_for_each_other_pass() -> None:
    # Sides exchanged at the receiver and the sign of turn turned round: every wheel does as it should.
    both = ("controller.left.signal=receiver.1", "controller.right.signal=receiver.2")
    sign = "radio.mix.0.turn_weight=-100 %"
    assert wheel("tray-cart", "left", *both).placed == 0
    assert wheel("tray-cart", "left", *both, sign).placed == 1
    assert directions("tray-cart", *both, sign) == {"left": 1, "right": 1}


def test_exchanged_inputs_make_up_for_one_reversed_motor_behind_a_box() -> None:
    on = evaluation("hose-tug", ("radio.mix.0.active=false", *EXCHANGED))
    assert {motor.wheel: float(motor.direction) for motor in WheelMotorFacts.all(on)} == {
        "left": 1,
        "right": 1,
    }
    assert on.entity(BoxFacts, "mixer.tug").follows_controls == 1
    straight = evaluation(
        "hose-tug", ("radio.mix.0.active=false", *EXCHANGED, "controller.right.polarity=straight")
    )
    assert straight.entity(BoxFacts, "mixer.tug").follows_controls == 0


def test_a_mix_made_by_hand_from_slave_channels_turns_as_it_should() -> None:
    sets = (
        'radio.mix=[{ kind = "slave", active = true, inputs = ["RV"], channels = [7], weight = "100 %" },'
        ' { kind = "slave", active = true, inputs = ["RH"], channels = [7], weight = "-100 %" },'
        ' { kind = "slave", active = true, inputs = ["RH"], channels = [2], weight = "100 %" }]',
        "controller.right.signal=receiver.7",
    )
    assert directions("tray-cart", *sets) == {"left": 1, "right": 1}
