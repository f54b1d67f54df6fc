"""Brushed motor in steady state: its constants, then current, torque and speed."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.motor import (
    back_emf,
    current_at_speed,
    current_for_torque,
    relieved_limit,
    reversal_peak_current,
    scaled_stall_torque,
    speed_under_load,
    stall_current,
    stall_torque_at,
    torque_at_current,
)
from mulewright.models.motor_power import shaft_power
from mulewright.models.motor_sheet import (
    back_emf_constant,
    sheet_power_ratio,
    torque_constant,
    winding_resistance,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, as_printed, outside

RPM = np.pi / 30  # [rad/s]
FITZGERALD = "Fitzgerald, Kingsley and Umans, Electric Machinery"

FED = {"duty": 0.8, "voltage": 12.0, "resistance": 1.6}
TURNING = FED | {"back_emf_constant": 0.54}


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (winding_resistance, {"voltage": 12.0, "current": 7.5}),
        (torque_constant, {"torque": 2.4, "current": 7.5, "free_current": 0.4}),
        (
            back_emf_constant,
            {"voltage": 12.0, "free_current": 0.4, "resistance": 1.6, "free_speed": 21.0},
        ),
        (
            sheet_power_ratio,
            {"stall_torque": 2.4, "free_speed": 21.0, "voltage": 12.0, "stall_current": 7.5},
        ),
        (stall_current, FED),
        (stall_torque_at, FED | {"torque_constant": 0.34, "free_current": 0.4}),
        (stall_torque_at, FED | {"torque_constant": 0.34, "free_current": 40.0}),
        (
            scaled_stall_torque,
            {"duty": 0.8, "voltage": 11.0, "nominal_voltage": 12.0, "stall_torque": 2.4},
        ),
        (current_for_torque, {"torque": 0.7, "torque_constant": 0.34, "free_current": 0.4}),
        (torque_at_current, {"current": -2.0, "torque_constant": 0.34, "free_current": 0.4}),
        (back_emf, {"voltage": 15.0, "current": 2.5, "resistance": 1.5}),
        (speed_under_load, TURNING | {"current": 2.5}),
        (speed_under_load, TURNING | {"duty": -0.5, "current": -2.5}),
        (current_at_speed, TURNING | {"speed": 10.0}),
        (relieved_limit, {"limit": 15.0, "relief": 2.6}),
        (relieved_limit, {"limit": 15.0, "relief": 20.0}),
        (reversal_peak_current, TURNING | {"speed": 10.0}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: winding_resistance(12, 0), "current must be > 0 A"),
        (lambda: torque_constant(2.4, 0.4, 0.4), "current must be above the free current"),
        (lambda: back_emf_constant(1, 1, 1, 20), "voltage must exceed"),
        (lambda: stall_current(1.2, 12, 1), "duty must be 0 to 1"),
        (lambda: reversal_peak_current(-0.5, 12, 3, 0.5, 1), "duty must be 0 to 1"),
        (lambda: stall_torque_at(1, 12, [1.0, 0.0], 0.3, 0.1), "resistance must be > 0 ohm"),
    ],
)
def test_impossible_inputs_are_refused_by_name(call: Callable[[], object], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        call()


@outside("M6", quantity="motor that drives, then is driven", source=f"{FITZGERALD}, ex. 7.1", mark="R")
@pytest.mark.parametrize(
    ("volts", "amps", "newton_metres"),
    [(128, "150", "59.7"), (124, "-50", "-19.9")],  # the book gives both without sign
)
def test_motoring_and_generating(volts: float, amps: str, newton_metres: str) -> None:
    speed = 3000 * RPM
    constant = 125 / speed  # [V s/rad] 125 V at that speed
    current = current_at_speed(1, volts, speed, constant, 0.02)
    agrees(current, amps)
    agrees(back_emf(volts, current, 0.02), 125)
    agrees(torque_at_current(current, constant, 0), newton_metres)


@outside("M7", quantity="permanent-magnet motor at 2500 rpm", source="common practice, no source", mark="T")
def test_motor_from_two_points() -> None:
    # 12 V, 3800 rpm free, 30 mN m stalled, no friction: kt and ke are the same number
    constant = back_emf_constant(12, 0, 0, 3800 * RPM)
    resistance = winding_resistance(12, current_for_torque(30e-3, constant, 0))
    agrees(resistance, "12.062")
    speed = 2500 * RPM
    current = current_at_speed(1, 12, speed, constant, resistance)
    torque = torque_at_current(current, constant, 0)
    agrees(current, "0.34034")
    agrees(torque * 1e3, "10.263")
    agrees(back_emf(12, current, resistance), "7.8947")
    agrees(12 * current, "4.0841")
    agrees(shaft_power(torque, speed), "2.6869")
    agrees(current**2 * resistance, "1.3972")
    assert speed_under_load(1, 12, current, resistance, constant) == pytest.approx(speed)


@outside("M9", quantity="jammed motor: resistance, back emf", source="common practice, no source", mark="T")
def test_jammed_motor() -> None:
    resistance = winding_resistance(15, 10)
    agrees(resistance, 1.5)
    agrees(back_emf(15, 2.5, resistance), 11.25)


OHMMETER = np.array(  # [ohm] fifty readings of one small motor, turned by hand in between
    """7.4 9.5 8.5 9.8 9.1 18.7 6.4 8.4 11.2 6.9 8.3 9.4 15.4 7.2 15.3 13.1 11.6 12.1 9.2 7.7 10.8 9.1
    18.6 11.0 16.1 12.1 10.1 8.1 9.6 10.0 9.9 16.8 16.5 10.3 17.5 13.8 9.9 14.0 8.5 15.3 14.2 16.0 29.5
    13.8 14.3 11.9 31.3 18.3 10.9 10.9""".split(),
    dtype=float,
)


@outside(
    "M39", quantity="mean of 50 ohmmeter readings", source="readings of a university laboratory", mark="R"
)
def test_an_ohmmeter_does_not_give_the_stall_current() -> None:
    assert OHMMETER.size == 50
    agrees(OHMMETER.mean(), "12.486")
    agrees(OHMMETER.std(ddof=1), "4.982")
    amps = stall_current(1, 12, OHMMETER)
    low, middle, high = np.percentile(amps, [5, 50, 95])
    agrees(np.median(OHMMETER), "10.95", case="median")
    assert middle == pytest.approx(12 / np.median(OHMMETER), rel=0.01)
    assert high / low > 2.3  # one motor; volts and amps with the shaft held agree to a few per cent


def test_stall_torque_of_the_sheet_comes_back() -> None:
    constant = torque_constant(2.4, 7.5, 0.4)
    resistance = winding_resistance(12, 7.5)
    assert stall_torque_at(1, 12, resistance, constant, 0.4) == pytest.approx(2.4)
    # at half the volts: by hand 2.4 * (3.75 - 0.4) / 7.1; scaling alone says 1.2
    assert stall_torque_at(0.5, 12, resistance, constant, 0.4) == as_printed("1.132")
    assert scaled_stall_torque(0.5, 12, 12, 2.4) == pytest.approx(1.2)


def test_a_tiny_duty_does_not_beat_the_motors_own_friction() -> None:
    assert stall_torque_at([0.0, 0.05, 1.0], 12, 1.6, 0.338, 0.4) == pytest.approx([0, 0, 0.338 * 7.1])


def test_a_wrong_unit_shows_in_the_sheet_ratio() -> None:
    # by hand: 2.4 * 20.944 / 90
    assert sheet_power_ratio(2.4, 200 * RPM, 12, 7.5) == as_printed("0.559")
    assert sheet_power_ratio(24, 200 * RPM, 12, 7.5) > 1  # kgf cm read as N m
    assert sheet_power_ratio(2.4, 200, 12, 7.5) > 1  # rpm read as rad/s


@given(
    duty=st.floats(0, 1),
    voltage=st.floats(1, 30),
    resistance=st.floats(0.05, 20),
    constant=st.floats(1e-3, 5),
    share=st.floats(0, 1),
)
def test_current_and_speed_undo_each_other(
    duty: float, voltage: float, resistance: float, constant: float, share: float
) -> None:
    current = share * stall_current(duty, voltage, resistance)
    speed = speed_under_load(duty, voltage, current, resistance, constant)
    again = current_at_speed(duty, voltage, speed, constant, resistance)
    assert again == pytest.approx(current, rel=1e-9, abs=1e-9)


def test_full_reverse_from_full_speed_doubles_the_stall_current() -> None:
    free = speed_under_load(1, 12, 0, 1.6, 0.54)
    assert reversal_peak_current(1, 12, free, 0.54, 1.6) == pytest.approx(2 * stall_current(1, 12, 1.6))
