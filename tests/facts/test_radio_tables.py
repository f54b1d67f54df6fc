"""Envelope, slow mode, endpoints, drift and mixing: numbers that were worked out by hand."""

from __future__ import annotations

import numpy as np
import pytest

from mulewright.facts.catalog import find
from tests.designs import evaluation
from tests.published import as_printed

DEGREE, US = np.pi / 180, 1e-6
LIFTED = ("mechanism.lift.load_ahead=0.05 m", "mechanism.lift.lowest_height=0.4 m")
DRIFT = ("drive.drift_run=3 m", "drive.drift_seen=0.39 m")


def value(design: str, fact: str, *sets: str, variant: str | None = None) -> float:
    return float(find(evaluation(design, sets, variant), fact).value)


def test_pruner_stops_gently_with_its_arm_out() -> None:
    assert value("long-reach-pruner", "mechanism.arm@0.tips_forward_at") == as_printed("1.8")
    assert value("long-reach-pruner", "mechanism.arm@0.stop_allowed") == as_printed("1.1")
    assert value("long-reach-pruner", "mechanism.arm@0.margin") / 1e-3 == as_printed("25")


def test_arm_out_is_the_machine_that_is_checked_for_tipping() -> None:
    for name, pose in (("center_out", "center"), ("height_out", "center_height"), ("tips_forward_at", None)):
        out = value("long-reach-pruner", f"body.{name}")
        assert value("long-reach-pruner", f"mechanism.arm@0.{pose or name}") == pytest.approx(out)


def test_folded_up_it_may_stop_harder_and_must_start_more_gently() -> None:
    level, up = (f"mechanism.arm@{place}" for place in (0, 6))
    assert value("long-reach-pruner", f"{up}.angle") / DEGREE == pytest.approx(90)
    assert value("long-reach-pruner", f"{up}.stop_allowed") > value(
        "long-reach-pruner", f"{level}.stop_allowed"
    )
    assert value("long-reach-pruner", f"{up}.start_allowed") < value(
        "long-reach-pruner", f"{level}.start_allowed"
    )
    # arm upright: 8 kg at 0.09, 1.2 at 0.60, 1.0 at 0.90 m over 10.2 kg
    assert value("long-reach-pruner", f"{up}.center_height") == as_printed("0.2294")


def test_lift_with_its_load_at_the_top() -> None:
    # 6.5 kg at 0.10 m with 0.25 + 0.3 kg raised by 1 m, and 1.0 kg at 1.4 m
    assert value("vine-lift", "mechanism.lift@6.center_height", *LIFTED) == as_printed("0.347")
    assert value("vine-lift", "mechanism.lift@0.center_height", *LIFTED) == as_printed("0.140")
    assert value("vine-lift", "mechanism.lift@6.speed_share", *LIFTED) < 1


def test_slow_switch_of_the_carrier() -> None:
    assert value("aisle-carrier", "function.forward.slow_duty") == as_printed("0.368")  # (200 - 25) / 475
    assert value("aisle-carrier", "function.forward.slowing") == 0.5
    assert value("aisle-carrier", "function.lift.slowing") == 1
    assert value("aisle-carrier", "function.lift.slowed") == 0
    assert value("aisle-carrier", "function.pump@2.position_pulse") / US == pytest.approx(400)


def test_endpoints_of_the_gripper() -> None:
    low, high = (
        value("soft-fruit-gripper", f"servo.left:needed-{end}.end_pulse", variant="mended")
        for end in ("low", "high")
    )
    assert (high - low) / US == as_printed("444")  # 60 deg at 0.135 deg/us
    assert value("soft-fruit-gripper", "servo.left:needed-high.end_travel", variant="mended") == as_printed(
        "0.556"
    )
    assert value(
        "soft-fruit-gripper", "servo.left:needed-high.full_range_travel", variant="mended"
    ) == as_printed("0.444")
    assert value(
        "soft-fruit-gripper", "servo.left:binds-high.end_angle", variant="mended"
    ) / DEGREE == pytest.approx(34)
    assert value(
        "soft-fruit-gripper", "servo.left:binds-low.end_angle", variant="mended"
    ) / DEGREE == pytest.approx(-34)


def test_tilt_needs_more_than_its_radio_can_send() -> None:
    assert value("aisle-carrier", "servo.tilt:needed-high.end_travel") == as_printed("1.53")  # 611 us of 400
    assert value("aisle-carrier", "servo.tilt:needed-high.limit_share") == as_printed("1.22")
    assert value("aisle-carrier", "servo.tilt:sent-low.end_pulse") / US == pytest.approx(1100)


def test_drift_becomes_an_endpoint() -> None:
    assert value("tray-cart", "drive.drift_mismatch", *DRIFT) == as_printed("0.026")  # 2 * 0.30 * 0.39 / 9
    # 120 % - 0.026 * (480 - 25) / 400
    assert value("tray-cart", "controller.right.straight_ahead", *DRIFT) == as_printed("1.170")
    assert value("tray-cart", "drive.drift_mismatch", "body.track=0.35 m", *DRIFT) == as_printed("0.0303")


@pytest.mark.parametrize(
    ("design", "place", "channels", "free", "left"),
    [
        ("tray-cart", "radio", 2, 6, 0.5),
        ("aisle-carrier", "radio", 4, 0, 1 / 3),
        ("aisle-carrier", "box", 3, 1, 1 / 2.4),
        ("aisle-carrier", "controllers", 4, 0, 1),
    ],
)
def test_where_to_mix(design: str, place: str, channels: float, free: float, left: float) -> None:
    found = [
        value(design, f"mixing@{place}.{name}") for name in ("drive_channels", "free_channels", "turn_left")
    ]
    assert found == pytest.approx([channels, free, left])


def test_a_box_leaves_more_of_a_turn_to_a_radio_of_short_range() -> None:
    # both at 0.8 of what the box can give: (1 - 0) / 1.6
    assert value("tray-cart", "mixing@box.turn_left", "radio.channel.others.travel=100 %") == pytest.approx(
        0.625
    )
