"""Power of a motor: best point, losses, bench brake."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.optimize import minimize_scalar

from mulewright.errors import DomainError
from mulewright.models.motor import back_emf, current_at_speed, torque_at_current
from mulewright.models.motor_power import (
    brake_torque,
    motor_efficiency,
    no_load_loss,
    peak_power,
    shaft_power,
    speed_at_peak_power,
    torque_at_peak_power,
)
from mulewright.models.motor_sheet import back_emf_constant
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, outside

RPM = np.pi / 30  # [rad/s]
FITZGERALD_7_9 = "Fitzgerald, Kingsley and Umans, Electric Machinery, ex. 7.9, p. 389"


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (shaft_power, {"torque": -2.0, "speed": 30.0}),
        (torque_at_peak_power, {"stall_torque": 2.4}),
        (speed_at_peak_power, {"free_speed": 21.0}),
        (peak_power, {"stall_torque": 2.4, "free_speed": 21.0}),
        (no_load_loss, {"voltage": 50.0, "free_current": 1.25, "resistance": 1.03}),
        (brake_torque, {"force": 4.57, "tare": 0.03, "arm": 0.5}),
        (motor_efficiency, {"torque": 2.27, "speed": 250.0, "voltage": 120.0, "current": 7.0}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


@outside("M1", quantity="place of a motor's peak power", source="common practice, no source", mark="T")
@given(voltage=st.floats(3, 30), resistance=st.floats(0.1, 10), constant=st.floats(0.005, 2))
def test_peak_power_is_at_half_of_both(voltage: float, resistance: float, constant: float) -> None:
    free_speed, stall_torque = voltage / constant, constant * voltage / resistance

    def lost(speed: float) -> float:
        current = current_at_speed(1, voltage, speed, constant, resistance)
        return -float(shaft_power(torque_at_current(current, constant, 0), speed))

    best = minimize_scalar(
        lost, bounds=(0, free_speed), method="bounded", options={"xatol": 1e-6 * free_speed}
    )
    assert peak_power(stall_torque, free_speed) == pytest.approx(-best.fun, rel=1e-6)
    assert speed_at_peak_power(free_speed) == pytest.approx(best.x, rel=1e-3)
    assert torque_at_peak_power(stall_torque) == pytest.approx(-best.fun / best.x, rel=1e-3)
    agrees(speed_at_peak_power(1.0), 0.5, case="share of the free speed")
    agrees(torque_at_peak_power(1.0), 0.5, case="share of the stall torque")


@outside("M2", quantity="half points of three gearmotors", source="a university's motor laboratory", mark="R")
@pytest.mark.parametrize(
    ("rpm", "newton_metres", "half_rpm", "half_torque", "watts"),
    [
        (600, 0.325, "300", 0.163, "5.105"),
        (3750, 0.0722, "1875", 0.0361, "7.088"),
        (92, 1.6, "46", 0.80, "3.854"),  # powers computed, points read
    ],
)
def test_half_points(rpm: float, newton_metres: float, half_rpm: str, half_torque: float, watts: str) -> None:
    agrees(speed_at_peak_power(rpm * RPM) / RPM, half_rpm)
    agrees(torque_at_peak_power(newton_metres), half_torque, rel=4e-3)  # 0.1625 is printed 0.163
    agrees(peak_power(newton_metres, rpm * RPM), watts)


def fitzgerald_constant() -> NDArray[np.float64]:
    """50 V, 2100 rpm, 1.25 A free; 1.03 ohm."""
    return back_emf_constant(50, 1.25, 1.03, 2100 * RPM)


@outside("M3", quantity="motor constant and rotational loss", source=FITZGERALD_7_9, mark="R")
def test_constant_and_loss_from_a_free_run() -> None:
    agrees(fitzgerald_constant(), "0.22")
    agrees(fitzgerald_constant(), "0.221510")  # computed
    agrees(no_load_loss(50, 1.25, 1.03), "61")
    agrees(no_load_loss(50, 1.25, 1.03), "60.891")  # computed


@outside("M4", quantity="shaft power at 48 V, 1700 rpm", source=FITZGERALD_7_9, mark="R")
@pytest.mark.parametrize(
    ("constant", "watts"),
    [(0.22, "275"), (0.22, "275.05"), (None, "267.06")],  # a rounded constant moves the power by 3 %
)
def test_shaft_power_from_a_rounded_and_an_exact_constant(constant: float | None, watts: str) -> None:
    km = fitzgerald_constant() if constant is None else np.asarray(constant)
    current = current_at_speed(1, 48, 1700 * RPM, km, 1.03)
    loss = no_load_loss(50, 1.25, 1.03)
    if constant is not None:
        loss = np.round(loss)  # the book goes on with 61 W
    agrees(back_emf(48, current, 1.03) * current - loss, watts, abs=0.15 if watts == "275.05" else 0.0)


@outside(
    "M22",
    quantity="torque and efficiency from a friction brake",
    source="Guru and Hiziroglu, Electric Machinery and Transformers, ex. 6.7",
    mark="R",
)
def test_brake_with_tare() -> None:
    torque = brake_torque(4.57, 0.03, 0.5)
    agrees(torque, "2.27")
    agrees(motor_efficiency(torque, 2400 * RPM, 120, 7) * 100, "67.9")


def test_impossible_inputs_are_refused_by_name() -> None:
    with pytest.raises(DomainError, match="arm must be > 0 m"):
        brake_torque(4, 0, 0)
    with pytest.raises(DomainError, match="current must be > 0 A"):
        motor_efficiency(1, 1, 12, 0)
