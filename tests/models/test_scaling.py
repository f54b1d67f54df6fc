"""Factors from a mule to its target: the worked two benches, and what they must agree with."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.duty import duty_rescaled
from mulewright.models.feedforward import volts_per_acceleration, volts_per_speed
from mulewright.models.motor import speed_under_load, stall_current
from mulewright.models.moving import kinetic_energy
from mulewright.models.scaling import (
    acceleration_factor,
    battery_stall_factor,
    energy_factor,
    geared_force_factor,
    same_speed_gear_factor,
    time_constant_factor,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import as_printed

DUTY, VOLTS = 1 / 0.789, 13.2 / 11.4  # the two benches, worked out by hand


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (battery_stall_factor, {"duty_factor": 1.267, "voltage_factor": 1.158}),
        (energy_factor, {"speed_factor": 1.467, "mass_factor": 1.1}),
        (geared_force_factor, {"rate": 0.6}),
        (acceleration_factor, {"signal_factor": 1.467, "ratio_factor": 2.0, "mass_factor": 1.1}),
        (time_constant_factor, {"mass_factor": 1.1, "ratio_factor": 2.0}),
        (same_speed_gear_factor, {"voltage_factor": 1.158, "duty": 1.0, "duty_at_rate": 0.453}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


def test_two_benches_by_hand() -> None:
    assert battery_stall_factor(DUTY, 1.0) == pytest.approx(1.6, abs=0.01)
    assert battery_stall_factor(DUTY, VOLTS) == as_printed("1.86")
    assert energy_factor(DUTY * VOLTS, 1.0) == as_printed("2.15")
    assert same_speed_gear_factor(VOLTS, 1.0, 0.453) == as_printed("2.56")


@pytest.mark.parametrize(("rate", "factor"), [(0.7, "2.0"), (0.5, "4"), (0.3, "11")])
def test_force_that_a_low_rate_hides(rate: float, factor: str) -> None:
    assert geared_force_factor(rate) == as_printed(factor)


def test_factors_agree_with_the_models_that_they_compare() -> None:
    def from_battery(duty: float, volts: float) -> float:
        return float(duty * stall_current(duty, volts, 1.6))

    assert from_battery(1.0, 13.2) / from_battery(0.789, 11.4) == pytest.approx(
        battery_stall_factor(DUTY, VOLTS)
    )
    ratio = kinetic_energy(9.9, 3.0) / kinetic_energy(9.0, 2.0)
    assert ratio == pytest.approx(float(energy_factor(1.5, 1.1)))


def test_a_step_of_a_motor_scales_like_its_factors() -> None:
    def pace(mass: float, ratio: float, volts: float) -> tuple[float, float]:
        """Time constant, and first acceleration, of a mass on a drum."""
        speed = volts_per_speed(0.11, ratio, 0.045)
        push = volts_per_acceleration(mass, 0.045, 1.6, 1.0, 0.11, ratio, 0.8)
        return float(push / speed), float(volts / push)

    before, after = pace(9.0, 2.0, 9.0), pace(11.0, 5.0, 13.2)
    assert after[0] / before[0] == pytest.approx(float(time_constant_factor(11 / 9, 2.5)))
    assert after[1] / before[1] == pytest.approx(float(acceleration_factor(13.2 / 9, 2.5, 11 / 9)))


def test_gear_for_the_same_speed_gives_the_same_speed() -> None:
    at_rate = duty_rescaled(0.6 * 400e-6, 500e-6, 25e-6)
    factor = same_speed_gear_factor(VOLTS, 1.0, at_rate)
    slow = speed_under_load(at_rate, 11.4, 0.0, 1.6, 0.1085)
    assert speed_under_load(1.0, 13.2, 0.0, 1.6, 0.1085) / factor == pytest.approx(float(slow))


def test_impossible_inputs_are_refused_by_name() -> None:
    with pytest.raises(DomainError, match="rate must be > 0"):
        geared_force_factor(0.0)
    with pytest.raises(DomainError, match="duty_at_rate must be > 0"):
        same_speed_gear_factor(1.0, 1.0, 0.0)
    with pytest.raises(DomainError, match="duty_factor must be >= 0"):
        battery_stall_factor(-1.0, 1.0)
