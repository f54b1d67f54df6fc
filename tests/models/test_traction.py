"""What grip allows, against a linear programme and numbers worked by hand."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.optimize import linprog

from mulewright.errors import DomainError
from mulewright.models.rollers import HANDS, contact_lever
from mulewright.models.traction import (
    roller_push,
    roller_slip_torque,
    skid_turn_force,
    slip_torque,
    wheel_push,
    wheel_speed,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, as_printed, outside

X = 0.235 * np.array([1, 1, -1, -1])  # [m]
Y = 0.15 * np.array([1, -1, 1, -1])  # [m]


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (slip_torque, {"friction": 0.8, "load": 18.7, "wheel_radius": 0.05}),
        (roller_slip_torque, {"friction": 0.6, "load": 27.0, "wheel_radius": 0.06}),
        (wheel_push, {"torque": 2.2, "ratio": 1.5, "efficiency": 0.95, "wheel_radius": 0.05}),
        (wheel_speed, {"speed": 21.0, "ratio": 1.5, "wheel_radius": 0.05}),
        (roller_push, {"friction": 0.6, "load": 108.0, "direction": -2.0}),
        (skid_turn_force, {"friction": 0.8, "load": 60.0, "wheelbase": 0.3, "track": 0.35}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


def best_push(direction: float) -> float:
    """Most that four wheels of unit load in all push one way, each along its roller's axis, unturned."""
    hands = np.array(HANDS)
    axes = np.stack([np.ones(4), hands, contact_lever(hands, X, Y)]) / np.sqrt(2)
    aim = np.array([[np.cos(direction)], [np.sin(direction)], [0]])
    found = linprog(
        c=[0, 0, 0, 0, -1],
        A_eq=np.hstack([axes, -aim]),
        b_eq=[0, 0, 0],
        bounds=[(-0.25, 0.25)] * 4 + [(0, None)],
    )
    assert found.x is not None
    return float(found.x[-1])


@outside(
    "K11",
    quantity="push of four 45 degree roller wheels at the limit of grip",
    source="computed independently (scipy, linear programme over the axes of the rollers)",
    mark="C",
)
@pytest.mark.parametrize(
    ("degrees", "share"), [(0, "0.70711"), (90, "0.70711"), (45, "0.5"), (-135, "0.50000"), (30, "0.51764")]
)
def test_push_at_the_limit_of_grip(degrees: float, share: str) -> None:
    push = roller_push(1, 1, np.radians(degrees))
    agrees(push, share)
    agrees(push, best_push(np.radians(degrees)), abs=1e-6)


@given(direction=st.floats(-7, 7))
def test_push_in_any_direction_is_what_the_linear_programme_finds(direction: float) -> None:
    assert roller_push(1, 1, direction) == pytest.approx(best_push(direction), abs=1e-6)


def test_slip_torque_of_a_light_cart() -> None:
    # by hand: 6 kg, 0.14/0.22 of it on two driven wheels of 50 mm: 18.73 N each, times 0.8 times 0.05
    load = 6.0 * 9.81 * 0.14 / 0.22 / 2
    torque = slip_torque(0.8, load, 0.05)
    assert torque == as_printed("0.749")
    # a gearmotor of 2.4 N m at 7.5 A, 0.4 A free: 0.4 + 7.1 * 0.749 / 2.4
    assert 0.4 + (7.5 - 0.4) * torque / 2.4 == as_printed("2.6")


def test_slip_torque_of_roller_wheels() -> None:
    # by hand: 11 kg on four wheels of 60 mm: 26.98 N each, times 0.6 times 0.06 over root 2
    torque = roller_slip_torque(0.6, 11.0 * 9.81 / 4, 0.06)
    assert torque == as_printed("0.687")
    assert 0.4 + (7.5 - 0.4) * torque / 2.4 == as_printed("2.43")


@given(friction=st.floats(0.1, 1.5), load=st.floats(1, 500), radius=st.floats(0.01, 0.2))
def test_rollers_slip_when_their_push_ahead_is_used_up(friction: float, load: float, radius: float) -> None:
    torque = roller_slip_torque(friction, load / 4, radius)
    assert 4 * torque / radius == pytest.approx(roller_push(friction, load, 0))
    assert slip_torque(friction, load / 4, radius) == pytest.approx(np.sqrt(2) * torque)


def test_push_at_the_rim() -> None:
    # by hand: 2 N m through 3:1 at 0.9 is 5.4 N m, on a wheel of 0.06 m 90 N
    assert wheel_push(2, 3, 0.9, 0.06) == pytest.approx(90)
    assert wheel_speed(21, 3, 0.06) == pytest.approx(0.42)


def test_force_that_turns_four_gripping_wheels() -> None:
    # by hand: four wheels of 15 N at friction 0.8 resist with 12 N at a lever of 0.15 m each: 7.2 N m;
    # two sides of 0.175 m have to make it: 7.2 / 0.35 = 20.57 N
    assert skid_turn_force(0.8, 60, 0.3, 0.35) == as_printed("20.57")


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: slip_torque(-1, 1, 1), "friction must be >= 0"),
        (lambda: slip_torque(1, -1, 1), "load must be >= 0 N"),
        (lambda: slip_torque(1, 1, 0), "wheel_radius must be > 0 m"),
        (lambda: roller_slip_torque(1, 1, 0), "wheel_radius must be > 0 m"),
        (lambda: wheel_push(1, 1, 1, 0), "wheel_radius must be > 0 m"),
        (lambda: wheel_push(1, 1, 0, 1), "efficiency must be > 0 and <= 1"),
        (lambda: wheel_speed(1, 0, 1), "ratio must be > 0"),
        (lambda: roller_push(-1, 1, 0), "friction must be >= 0"),
        (lambda: roller_push(1, -1, 0), "load must be >= 0 N"),
        (lambda: skid_turn_force(-1, 1, 1, 1), "friction must be >= 0"),
        (lambda: skid_turn_force(1, -1, 1, 1), "load must be >= 0 N"),
        (lambda: skid_turn_force(1, 1, -1, 1), "wheelbase must be >= 0 m"),
        (lambda: skid_turn_force(1, 1, 1, 0), "track must be > 0 m"),
    ],
)
def test_impossible_inputs_are_refused_by_name(call: Callable[[], object], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        call()
