"""Motion of carts against textbooks, an independent matrix exponential and numbers worked by hand."""

from collections.abc import Callable
from typing import Any

import modern_robotics
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.kinematics import (
    cart_speed,
    cart_yaw_rate,
    displacement_x,
    displacement_y,
    top_speed,
    wheel_rate,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, as_printed, noted, outside

ARC = {"forward": 0.55, "left": -0.2, "yaw_rate": 0.4, "time": 3.0, "heading": 0.7}
TOP = {
    "free_speed": 20.9,
    "duty": 0.9,
    "voltage": 11.4,
    "nominal_voltage": 12.0,
    "reduction": 1.5,
    "wheel_radius": 0.05,
    "running_share": 0.85,
}

speeds = st.floats(-2, 2)


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (cart_speed, {"left_rate": 10.0, "right_rate": 12.0, "wheel_radius": 0.05}),
        (cart_yaw_rate, {"left_rate": 10.0, "right_rate": 12.0, "wheel_radius": 0.05, "track": 0.3}),
        (wheel_rate, {"speed": 0.55, "yaw_rate": 0.4, "y": -0.15, "wheel_radius": 0.05}),
        (displacement_x, ARC),
        (displacement_y, ARC),
        (displacement_x, ARC | {"yaw_rate": 0.0}),
        (displacement_y, ARC | {"yaw_rate": 0.0}),
        (top_speed, TOP),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


@outside("K13", quantity="speed and yaw rate of two sides", source="textbook form, from memory", mark="M")
def test_two_sides() -> None:
    agrees(cart_speed(10, 12, 0.05), 0.55)
    agrees(cart_yaw_rate(10, 12, 0.05, 0.30), "0.333333")


@outside(
    "K14",
    quantity="two wheels at 4 and 2 rad/s, heading 90 degrees",
    source="Siegwart and Nourbakhsh, Introduction to Autonomous Mobile Robots (from memory)",
    mark="M",
)
def test_the_book_prints_half_of_the_track() -> None:
    half_track, heading = 1.0, np.radians(90)
    speed = cart_speed(2, 4, 1.0)
    yaw_rate = cart_yaw_rate(2, 4, 1.0, 2 * half_track)
    agrees([speed * np.cos(heading), speed * np.sin(heading)], [0, 3], abs=1e-12)
    agrees(yaw_rate, 1)
    agrees(cart_yaw_rate(2, 4, 1.0, half_track), 2)  # what the mix-up would give


@outside(
    "K15",
    quantity="place after three seconds on an arc",
    source="computed independently (modern_robotics, matrix exponential)",
    mark="C",
)
def test_arc_of_two_sides() -> None:
    speed, yaw_rate = cart_speed(10, 12, 0.05), cart_yaw_rate(10, 12, 0.05, 0.30)
    agrees(displacement_x(speed, 0, yaw_rate, 3, 0), "1.388427")
    agrees(displacement_y(speed, 0, yaw_rate, 3, 0), "0.758501")
    agrees(yaw_rate * 3, 1.0)


def test_steps_along_the_heading_only_come_close_to_the_arc() -> None:
    def polygon(steps: int) -> float:
        heading = (0.4 * 3.0 / steps) * np.arange(steps)
        return float(np.sum(0.55 * 3.0 / steps * np.cos(heading)))

    exact = displacement_x(0.55, 0, 0.4, 3, 0)
    errors = [abs(polygon(steps) - exact) for steps in (10, 100, 1000)]
    assert errors[0] > 0.05
    assert errors == sorted(errors, reverse=True)
    assert errors[2] == pytest.approx(errors[1] / 10, rel=0.05)


@outside(
    "K17",
    quantity="any planar motion, through the one useful part of that package",
    source="computed independently (modern_robotics, which has no wheels of its own)",
    mark="C",
)
@given(
    forward=speeds,
    left=speeds,
    yaw_rate=st.floats(-6, 6).filter(lambda rate: abs(rate) > 0.01),
    time=st.floats(0.1, 5),
)
def test_displacement_is_the_matrix_exponential_of_the_twist(
    forward: float, left: float, yaw_rate: float, time: float
) -> None:
    assert not [name for name in dir(modern_robotics) if "wheel" in name.lower()]
    twist = np.array([0, 0, yaw_rate, forward, left, 0]) * time
    place = modern_robotics.MatrixExp6(modern_robotics.VecTose3(twist))[:2, 3]
    motion = (forward, left, yaw_rate, time, 0)
    assert [displacement_x(*motion), displacement_y(*motion)] == pytest.approx(list(place), abs=1e-9)
    noted("displacement of any planar motion", "matrix exponential of its twist", "1e-09")


@given(forward=speeds, left=speeds, yaw_rate=speeds, time=st.floats(0, 5), heading=st.floats(-4, 4))
def test_two_halves_of_an_arc_are_the_whole(
    forward: float, left: float, yaw_rate: float, time: float, heading: float
) -> None:
    middle = heading + yaw_rate * time / 2
    for displacement in (displacement_x, displacement_y):
        halves = [displacement(forward, left, yaw_rate, time / 2, start) for start in (heading, middle)]
        whole = displacement(forward, left, yaw_rate, time, heading)
        assert sum(halves) == pytest.approx(whole, abs=1e-12)


@pytest.mark.parametrize("yaw_rate", [0.0, 5e-324, 1e-12, -1e-12])
def test_hardly_any_turn_is_a_straight_line(yaw_rate: float) -> None:
    assert displacement_x(0.5, 0.2, yaw_rate, 4, 0) == pytest.approx(2.0)
    assert displacement_y(0.5, 0.2, yaw_rate, 4, 0) == pytest.approx(0.8)


def test_quarter_circle_by_hand() -> None:
    # radius 2 m, a quarter to the left, starting towards y: ends 2 m to the left and 2 m ahead
    motion = (1, 0, 0.5, np.pi, np.pi / 2)
    assert displacement_x(*motion) == pytest.approx(-2)
    assert displacement_y(*motion) == pytest.approx(2)


@given(speed=speeds, yaw_rate=speeds, track=st.floats(0.1, 1), radius=st.floats(0.01, 0.2))
def test_wheel_rates_give_the_motion_back(speed: float, yaw_rate: float, track: float, radius: float) -> None:
    left, right = (wheel_rate(speed, yaw_rate, side * track / 2, radius) for side in (1, -1))
    assert cart_speed(left, right, radius) == pytest.approx(speed, abs=1e-12)
    assert cart_yaw_rate(left, right, radius, track) == pytest.approx(yaw_rate, abs=1e-12)


def test_top_speed_by_hand() -> None:
    # 200 rpm is 20.944 rad/s; times 0.05 m is 1.047 m/s, and 0.789 and 0.85 of it are 0.702 m/s
    free_speed = 200 * 2 * np.pi / 60
    assert top_speed(free_speed, 1, 12, 12, 1, 0.05, 1) == as_printed("1.047")
    assert top_speed(free_speed, 0.789, 12, 12, 1, 0.05, 0.85) == as_printed("0.702")
    # half the volts and a reduction of 2: a quarter
    assert top_speed(free_speed, 1, 6, 12, 2, 0.05, 1) == as_printed("0.262")


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: cart_speed(1, 1, 0), "wheel_radius must be > 0 m"),
        (lambda: cart_yaw_rate(1, 1, 0, 1), "wheel_radius must be > 0 m"),
        (lambda: cart_yaw_rate(1, 1, 1, 0), "track must be > 0 m"),
        (lambda: wheel_rate(1, 1, 1, 0), "wheel_radius must be > 0 m"),
        (lambda: top_speed(**TOP | {"free_speed": -1}), "free_speed must be >= 0 rad/s"),
        (lambda: top_speed(**TOP | {"duty": 1.1}), "duty must be 0 to 1"),
        (lambda: top_speed(**TOP | {"voltage": -1}), "voltage must be >= 0 V"),
        (lambda: top_speed(**TOP | {"nominal_voltage": 0}), "nominal_voltage must be > 0 V"),
        (lambda: top_speed(**TOP | {"reduction": 0}), "reduction must be > 0"),
        (lambda: top_speed(**TOP | {"wheel_radius": 0}), "wheel_radius must be > 0 m"),
        (lambda: top_speed(**TOP | {"running_share": 1.1}), "running_share must be 0 to 1"),
    ],
)
def test_impossible_inputs_are_refused_by_name(call: Callable[[], object], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        call()
