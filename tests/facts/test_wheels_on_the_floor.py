"""Four wheels, roller wheels, push and stopping by hand, against numbers worked by hand."""

from __future__ import annotations

import numpy as np
import pytest

from mulewright.design.schema.machine import FOUR_WHEELS
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.four_wheels import SkidFacts
from mulewright.facts.placing import PlacedDriveFacts
from mulewright.facts.pushing import WantedPushFacts
from mulewright.facts.roller_wheels import RIGHT_HANDS, RollerDriveFacts
from mulewright.models.rollers import HANDS, contact_lever, floor_motion
from tests.designs import evaluation

OTHER = {"left": "right", "right": "left"}


def test_a_skid_steer_drags_its_wheels() -> None:
    drive = evaluation("two-benches").entity(SkidFacts, "drive")
    assert drive.length_over_width == pytest.approx(0.28 / 0.36)
    # grip across taken as along: 0.8 * 9 kg * 9.81 m/s2 * 0.28 / (2 * 0.36)
    assert drive.turning_push == pytest.approx(27.468)


def test_a_noted_grip_across_counts() -> None:
    drive = evaluation("two-benches", ("drive.wheel.side_friction=0.4",)).entity(SkidFacts, "drive")
    assert drive.turning_push == pytest.approx(27.468 / 2)


def test_stopping_by_hand() -> None:
    drive = evaluation("tray-cart").entity(PlacedDriveFacts, "drive")
    speed = float(drive.driving.top_speed)
    # 0.25 s of reaction, 0.05 s of link, and tyres that brake with 0.8 g
    assert drive.hand_stop == pytest.approx(speed * 0.3 + speed**2 / (2 * 0.8 * 9.81))


def test_a_measured_link_counts() -> None:
    drive = evaluation("tray-cart", ("radio.latency=150 ms",)).entity(PlacedDriveFacts, "drive")
    assert drive.hand_delay == pytest.approx(0.4)


def test_without_a_transmitter_the_link_is_assumed() -> None:
    plugs = ("controller.left.signal=?", "controller.right.signal=?", "radio=?", "receiver=?")
    assert evaluation("tray-cart", plugs).entity(PlacedDriveFacts, "drive").hand_delay == pytest.approx(0.3)


def test_push_is_the_smaller_of_grip_and_torque() -> None:
    sets = ("drive.wanted_push=20 N",)
    drive = evaluation("tray-cart", sets).entity(WantedPushFacts, "drive").driving
    # 0.8 * 6 kg * 9.81 m/s2 * 0.14 / 0.22 on the rear axle
    assert drive.push == drive.standing.grip == pytest.approx(29.964, rel=1e-4)
    weak = evaluation("tray-cart", (*sets, "radio.channel.others.travel=20 %"))
    assert weak.entity(DrivingFacts, "drive").push < drive.push


def swapped(*wheels: str) -> RollerDriveFacts:
    sets = [f"drive.hands.{wheel}={OTHER[RIGHT_HANDS[wheel]]}" for wheel in wheels]
    return evaluation("aisle-carrier", sets).entity(RollerDriveFacts, "drive")


def floor(drive: RollerDriveFacts, command: tuple[int, ...]) -> list[float]:
    """Motion of a square machine whose wheels turn as for a command, by the least scrub."""
    places = [(0.15, 0.15), (0.15, -0.15), (-0.15, 0.15), (-0.15, -0.15)]
    hands = [
        -hand if wheel in drive.swapped else hand for wheel, hand in zip(FOUR_WHEELS, HANDS, strict=True)
    ]
    rows = [[1, hand, float(contact_lever(hand, x, y))] for hand, (x, y) in zip(hands, places, strict=True)]
    return [float(part) for part in floor_motion(rows, command)]


STRAFE_LEFT, TURN_LEFT = (-1, 1, 1, -1), (-1, 1, -1, 1)


def test_all_four_of_the_wrong_hand() -> None:
    drive = swapped(*FOUR_WHEELS)
    assert drive.wrong_hands == 4
    assert floor(drive, STRAFE_LEFT)[1] == pytest.approx(-1)
    assert floor(drive, TURN_LEFT)[2] == pytest.approx(0, abs=1e-9)
    assert drive.effect == "it strafes the wrong way and hardly turns"
    assert drive.turn_lever == pytest.approx(0.31)
    assert drive.crossed_turn_lever == pytest.approx(0.01)


@pytest.mark.parametrize(
    ("wheels", "axle", "words"),
    [(FOUR_WHEELS[:2], -0.15, "rear axle"), (FOUR_WHEELS[2:], 0.15, "front axle")],
)
def test_one_axle_of_the_wrong_hand(wheels: tuple[str, ...], axle: float, words: str) -> None:
    drive = swapped(*wheels)
    forward, left, yaw = floor(drive, STRAFE_LEFT)
    assert forward == pytest.approx(0, abs=1e-9)
    assert left + yaw * axle == pytest.approx(0, abs=1e-9)  # the point of the cart that stands still
    assert abs(floor(drive, TURN_LEFT)[1]) > 0.5
    assert words in drive.effect


def test_one_side_of_the_wrong_hand_scrubs() -> None:
    drive = swapped("front_left", "rear_left")
    assert floor(drive, STRAFE_LEFT) == pytest.approx([0, 0, 0], abs=1e-9)
    assert "only scrubs" in drive.effect
    assert np.abs(floor(drive, TURN_LEFT)[0]) > 0.01


def test_one_wheel_of_the_wrong_hand_creeps() -> None:
    drive = swapped("front_left")
    forward, left, _ = floor(drive, STRAFE_LEFT)
    assert left == pytest.approx(2 / 3, abs=1e-6)
    assert abs(forward) > 0.1
    assert "creeps" in drive.effect


def test_weight_off_the_middle_counts_along_and_across() -> None:
    def share(*sets: str) -> float:
        return float(evaluation("aisle-carrier", sets).entity(RollerDriveFacts, "drive").off_middle_share)

    assert share() == 0
    assert share("body.center_ahead=0.12 m") == pytest.approx(0.1)
    assert share("body.center_aside=-60 mm") == pytest.approx(0.2)
