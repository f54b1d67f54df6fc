"""Moves from rest to rest, against a general robotics program and an integrator."""

from collections.abc import Callable
from typing import Any

import modern_robotics as robotics
import numpy as np
import pytest
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.motion import (
    cubic_share,
    quintic_share,
    swing_acceleration,
    swing_peak_speed,
    travel_time,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, outside


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (swing_acceleration, {"angle": 1.05, "duration": 0.4}),
        (swing_peak_speed, {"angle": 1.05, "duration": 0.4}),
        (travel_time, {"way": 0.8, "speed": 0.15}),
        (travel_time, {"way": 0.8, "speed": -0.15}),
        (cubic_share, {"time": 0.6, "duration": 2.0}),
        (quintic_share, {"time": 0.6, "duration": 2.0}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


@outside("K18", quantity="cubic and quintic time scaling", source="Lynch and Park, Modern Robotics", mark="R")
def test_time_scaling_equals_the_textbooks_program() -> None:
    agrees(cubic_share(0.6, 2), "0.216")
    agrees(quintic_share(0.6, 2), "0.16308")
    for time in np.linspace(0, 2, 9):
        agrees(cubic_share(time, 2), robotics.CubicTimeScaling(2, time), abs=1e-12)
        agrees(quintic_share(time, 2), robotics.QuinticTimeScaling(2, time), abs=1e-12)


def test_swing_arrives_by_hand() -> None:
    angle, duration = 1.2, 0.5
    acceleration = swing_acceleration(angle, duration)
    half = duration / 2
    assert 2 * (acceleration * half**2 / 2) == pytest.approx(angle)
    assert swing_peak_speed(angle, duration) == pytest.approx(acceleration * half)


def test_what_does_not_get_forward_never_arrives() -> None:
    # by hand: 0.8 m at 0.16 m/s take 5 s
    assert travel_time(0.8, [0.16, 0, -0.1]).tolist() == [5, np.inf, np.inf]


def test_impossible_inputs_are_refused_by_name() -> None:
    with pytest.raises(DomainError, match="time must not exceed the duration"):
        cubic_share(2.1, 2)
