"""Feed-forward terms from motor constants."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.feedforward import (
    speed_loop_gain,
    speed_loop_integral_gain,
    volts_per_acceleration,
    volts_per_speed,
)
from mulewright.models.inertia import point_inertia
from mulewright.models.motor_step import mechanical_time_constant
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, outside

CART = {
    "mass": 10.0,
    "radius": 0.05,
    "resistance": 0.35,
    "motors": 4.0,
    "torque_constant": 0.0195,
    "ratio": 20.0,
    "efficiency": 1.0,
}


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (volts_per_speed, {"back_emf_constant": 0.0195, "ratio": 20.0, "radius": 0.05}),
        (volts_per_acceleration, CART | {"efficiency": 0.8}),
        (speed_loop_gain, {"volts_per_acceleration": 0.112, "closed_loop_time": 0.1}),
        (speed_loop_integral_gain, {"volts_per_speed": 7.8, "closed_loop_time": 0.1}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


@outside("C11", quantity="feed-forward terms of a cart", source="servo textbooks, from memory", mark="M")
def test_terms_of_a_cart() -> None:
    speed, acceleration = volts_per_speed(0.0195, 20, 0.05), volts_per_acceleration(**CART)
    agrees(speed, 7.8)
    agrees(acceleration, "0.112179")
    agrees(acceleration / speed * 1e3, "14.382")
    agrees(12 / speed, "1.53846")
    at_wheel = point_inertia(10 / 4, 0.05)  # each motor's quarter of the cart
    constant = mechanical_time_constant(at_wheel, 0.35, 0.0195 * 20, 0.0195 * 20)
    assert acceleration / speed == pytest.approx(constant)


def test_first_gains_place_the_loop() -> None:
    # with these gains the loop's zero cancels the motor: what is left is one lag of the wanted time
    speed, acceleration, wanted = 7.8, 0.112, 0.1
    gain, integral = speed_loop_gain(acceleration, wanted), speed_loop_integral_gain(speed, wanted)
    poles = np.roots([acceleration, speed + float(gain), float(integral)])
    assert sorted(poles) == pytest.approx(sorted([-speed / acceleration, -1 / wanted]))


def test_impossible_inputs_are_refused_by_name() -> None:
    with pytest.raises(DomainError, match="radius must be > 0 m"):
        volts_per_speed(0.02, 20, 0)
