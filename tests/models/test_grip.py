"""Grippers and their servos."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.grip import (
    jaw_force,
    needed_grip_force,
    servo_speed_under_load,
    servo_torque,
    servo_torque_at_speed,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, outside

SHEET = {"low_voltage": 4.8, "low_torque": 0.5, "high_voltage": 6.0, "high_torque": 0.6}


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (needed_grip_force, {"mass": 0.5, "acceleration": 2.0, "friction": 0.5, "pads": 2.0}),
        (jaw_force, {"torque": 0.6, "share": 0.4, "jaws": 1.0, "finger_length": 0.08}),
        (servo_torque, SHEET | {"voltage": 5.4}),
        (servo_torque, SHEET | {"voltage": 0.5, "low_torque": 0.1}),
        (servo_speed_under_load, {"torque": 0.3, "stall_torque": 0.6, "free_speed": 6.5}),
        (servo_speed_under_load, {"torque": 0.7, "stall_torque": 0.6, "free_speed": 6.5}),
        (servo_torque_at_speed, {"speed": 3.0, "free_speed": 6.5, "stall_torque": 0.6}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


@outside("A21", quantity="force of each of two jaws", source="balance of forces, from memory", mark="M")
def test_two_jaws() -> None:
    agrees(needed_grip_force(0.5, 2, 0.5, 2), "5.905")


def test_between_the_two_voltages_of_the_sheet() -> None:
    # by hand: half way, at both ends, and a volt above
    torques = servo_torque([5.4, 4.8, 6.0, 7.2], **SHEET)
    assert torques == pytest.approx([0.55, 0.5, 0.6, 0.7])


def test_one_figure_on_the_sheet_scales_with_the_volts() -> None:
    assert servo_torque([0, 3, 6], 0, 0, 6, 0.6) == pytest.approx([0, 0.3, 0.6])


def test_a_line_never_goes_below_nothing() -> None:
    assert servo_torque(1.0, 4.8, 0.1, 6.0, 0.6) == 0


@given(torque=st.floats(0, 0.6), stall=st.floats(0.6, 3), speed=st.floats(1, 10))
def test_speed_and_torque_lie_on_one_line(torque: float, stall: float, speed: float) -> None:
    loaded = servo_speed_under_load(torque, stall, speed)
    assert servo_torque_at_speed(loaded, speed, stall) == pytest.approx(torque, abs=1e-9)


def test_impossible_inputs_are_refused_by_name() -> None:
    with pytest.raises(DomainError, match="high_voltage must be above the lower voltage"):
        servo_torque(5, 6, 0.6, 4.8, 0.5)
    with pytest.raises(DomainError, match="friction must be > 0"):
        needed_grip_force(0.5, 2, 0, 2)
