"""Throwing wheels: against impulses solved as one system, against sliding balls in time, and by hand."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from mulewright.errors import DomainError
from mulewright.models.constants import GRAVITY
from mulewright.models.motor_step import mechanical_time_constant
from mulewright.models.throwing import (
    HOLLOW_BALL,
    SOLID_BALL,
    hooded_wheel_drop,
    hooded_wheel_exit_speed,
    longest_throw,
    recovery_time,
    wheel_pair_drop,
    wheel_pair_exit_speed,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, as_printed, outside

BALL, RADIUS, INERTIA = 0.06, 0.05, 6.25e-4
BALL_RADIUS, GRIP, SPEED = 0.03, 300.0, 424.0


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (
            hooded_wheel_drop,
            {"ball_mass": BALL, "ball_share": HOLLOW_BALL, "wheel_radius": RADIUS, "inertia": INERTIA},
        ),
        (wheel_pair_drop, {"ball_mass": BALL, "wheel_radius": RADIUS, "inertia": INERTIA}),
        (recovery_time, {"time_constant": 1.55, "drop": 0.0909, "tolerance": 0.02}),
        (recovery_time, {"time_constant": 1.55, "drop": 0.01, "tolerance": 0.02}),
        (hooded_wheel_exit_speed, {"speed": SPEED, "wheel_radius": RADIUS}),
        (wheel_pair_exit_speed, {"speed": SPEED, "wheel_radius": RADIUS}),
        (longest_throw, {"speed": 10.6}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


@outside(
    "A30",
    quantity="speed that a wheel with a hood gives to a ball, as impulses",
    source="computed independently (numpy, linear system)",
    mark="C",
)
@pytest.mark.parametrize("share", [SOLID_BALL, HOLLOW_BALL])
def test_a_hooded_wheel_equals_its_impulses_solved_together(share: float) -> None:
    # unknown: wheel speed, ball speed, ball spin, impulse at the wheel, impulse at the hood
    equations = np.array(
        [
            [INERTIA, 0, 0, RADIUS, 0],  # the wheel loses what the ball's rim takes
            [0, BALL, 0, -1, -1],
            [0, 0, share * BALL * BALL_RADIUS**2, -BALL_RADIUS, BALL_RADIUS],
            [RADIUS, -1, -BALL_RADIUS, 0, 0],  # it rolls on the wheel
            [0, 1, -BALL_RADIUS, 0, 0],  # and on the hood
        ]
    )
    after, ball, *_ = np.linalg.solve(equations, [INERTIA * SPEED, 0, 0, 0, 0])
    agrees(hooded_wheel_drop(BALL, share, RADIUS, INERTIA), 1 - after / SPEED)
    agrees(hooded_wheel_exit_speed(after, RADIUS), ball)


def slide(time: float, state: NDArray[np.float64]) -> list[float]:
    """A hollow ball between a wheel and a hood, dragged and braked by friction where it slides."""
    wheel, ball, spin = state
    drag = GRIP * np.tanh(200 * (wheel * RADIUS - ball - spin * BALL_RADIUS))
    brake = GRIP * np.tanh(200 * (spin * BALL_RADIUS - ball))
    turning = HOLLOW_BALL * BALL * BALL_RADIUS**2
    return [-drag * RADIUS / INERTIA, (drag + brake) / BALL, (drag - brake) * BALL_RADIUS / turning]


@outside(
    "A31",
    quantity="speed that a wheel with a hood gives to a ball, as sliding friction in time",
    source="computed independently (scipy solve_ivp)",
    mark="C",
)
def test_a_hooded_wheel_equals_a_ball_that_slides_until_it_rolls() -> None:
    end = solve_ivp(slide, (0, 0.05), [SPEED, 0, 0], method="LSODA", rtol=1e-9, atol=1e-9).y[:, -1]
    agrees(hooded_wheel_drop(BALL, HOLLOW_BALL, RADIUS, INERTIA), 1 - end[0] / SPEED, rel=1e-3)


def test_two_wheels_lose_the_angular_momentum_that_the_ball_takes() -> None:
    drop = float(wheel_pair_drop(BALL, RADIUS, INERTIA))
    ball = float(wheel_pair_exit_speed((1 - drop) * SPEED, RADIUS))
    # each wheel gives half of the ball's momentum, times its radius
    assert INERTIA * SPEED * drop == pytest.approx(BALL * ball / 2 * RADIUS)


def test_a_shot_of_the_seed_ball_thrower_by_hand() -> None:
    # 5/3 * 0.06 kg * (0.05 m)^2 / (4 * 6.25e-4 kg m2) = 0.1, so a part in 11 goes
    drop = hooded_wheel_drop(BALL, HOLLOW_BALL, RADIUS, INERTIA)
    assert drop == as_printed("0.091")
    tau = mechanical_time_constant(INERTIA, 12 / 7 / 2, 0.0165, 0.0209)
    assert recovery_time(tau, drop, 0.02) == as_printed("2.35")
    assert hooded_wheel_exit_speed(SPEED, RADIUS) == as_printed("10.6")


def test_back_at_speed_is_where_an_exponential_says_so() -> None:
    time = float(recovery_time(1.5, 0.1, 0.02))
    assert 0.1 * np.exp(-time / 1.5) == pytest.approx(0.02)
    assert recovery_time(1.5, 0.01, 0.02) == 0


def test_a_throw_at_45_degrees_lands_where_it_says() -> None:
    flight = 2 * 10 * np.sin(np.pi / 4) / GRAVITY
    assert longest_throw(10) == pytest.approx(10 * np.cos(np.pi / 4) * flight)


def test_impossible_inputs_are_refused_by_name() -> None:
    with pytest.raises(DomainError, match="inertia must be > 0"):
        wheel_pair_drop(BALL, RADIUS, 0)
    with pytest.raises(DomainError, match="drop must be 0 to 1"):
        recovery_time(1, 1.2, 0.02)
