"""Pulses and servo angles against common practice and numbers worked by hand."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.pulses import (
    pulse_for_angle,
    pulse_on_share,
    pulse_step,
    servo_angle,
    servo_move_time,
    servo_travel_share,
    sync_interval,
    travel_for_pulse,
    widened_pulse,
)
from mulewright.models.signal import pulse_width
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, as_printed, outside

US = 1e-6  # [s]
USUAL = np.radians(90) / (1000 * US)  # [rad/s]  0.09 degrees for each microsecond
WIDE = np.radians(270) / (2000 * US)  # [rad/s]  270 degrees over 500 to 2500 us


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (servo_angle, {"servo_gain": -USUAL, "pulse": 1900 * US, "reference": 1500 * US}),
        (pulse_for_angle, {"servo_gain": -USUAL, "angle": 0.6, "reference": 1500 * US}),
        (servo_move_time, {"angle": 1.5, "sheet_angle": np.pi / 3, "sheet_time": 0.12}),
        (servo_travel_share, {"pulse": 1900 * US, "shortest": 500 * US, "longest": 2500 * US}),
        (travel_for_pulse, {"pulse": 1100 * US, "neutral": 1510 * US, "half_range": 400 * US}),
        (widened_pulse, {"pulse": 1100 * US, "neutral": 1510 * US, "widening": 1.5}),
        (pulse_step, {"span": 1000 * US, "bits": 10}),
        (pulse_on_share, {"pulse": 1500 * US, "frame": 20e-3}),
        (sync_interval, {"frame": 22e-3, "pulses": [1500 * US, 1100 * US, 1900 * US]}),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


def degrees(gain: float, pulse: float, reference: float) -> NDArray[np.float64]:
    return np.degrees(servo_angle(gain, pulse * US, reference * US))


@outside("S2", quantity="widest servo range, 500 to 2500 us", source="from memory", mark="M")
def test_widest_range_is_half_a_turn_of_a_usual_servo() -> None:
    agrees(degrees(USUAL, 2500, 500), 180)


@outside("S6", quantity="servo angle per pulse width", source="common practice, no source", mark="T")
@pytest.mark.parametrize(
    ("gain", "pulse", "angle"), [(0.09, 2000, 45), (0.09, 1000, -45), (0.12, 2000, 60), (0.12, 1000, -60)]
)
def test_angle_from_the_middle(gain: float, pulse: float, angle: float) -> None:
    agrees(degrees(np.radians(gain) / US, pulse, 1500), angle)


@outside("S8", quantity="angle of a 5 us dead band", source="from memory", mark="M")
def test_dead_band_is_the_floor_of_resolution() -> None:
    agrees(degrees(USUAL, 5, 0), 0.45)


@pytest.mark.parametrize(
    ("gain", "low", "high", "angle"),
    [
        (USUAL, 1100, 1900, "72"),  # by hand: 0.09 * 800
        (WIDE, 800, 2200, "189"),  # by hand: 0.135 * 1400
        (WIDE, 1500, 1525, "3.4"),  # by hand: 0.135 * 25, two centres that differ
    ],
)
def test_angle_between_two_pulses(gain: float, low: float, high: float, angle: str) -> None:
    assert degrees(gain, high, low) == as_printed(angle)


def test_pulse_for_a_wanted_angle() -> None:
    # by hand: 3 / 0.09 = 33 us, and 60 / 0.135 = 444 us
    assert pulse_for_angle(USUAL, np.radians(3), 0) / US == as_printed("33")
    assert pulse_for_angle(WIDE, np.radians(60), 1000 * US) / US == as_printed("1444")


@given(gain=st.floats(100, 5000), angle=st.floats(-5, 5), reference=st.floats(500e-6, 2500e-6))
def test_angle_and_pulse_undo_each_other(gain: float, angle: float, reference: float) -> None:
    pulse = pulse_for_angle(gain, angle, reference)
    assert servo_angle(gain, pulse, reference) == pytest.approx(angle, abs=1e-9)
    assert servo_angle(-gain, pulse, reference) == pytest.approx(-angle, abs=1e-9)


@outside("S7", quantity="servo time and speed from s/60 deg", source="common practice, no source", mark="T")
@pytest.mark.parametrize(("sheet", "degrees", "time"), [(0.12, 90, 0.18), (0.12, 500, 1), (0.15, 400, 1)])
def test_least_time_for_a_turn(sheet: float, degrees: float, time: float) -> None:
    agrees(servo_move_time(np.radians(degrees), np.radians(60), sheet), time)


def test_1100_to_1900_us_is_the_middle_of_a_wide_servo() -> None:
    # by hand: 600/2000 and 1400/2000
    share = servo_travel_share([1100 * US, 1900 * US], 500 * US, 2500 * US)
    np.testing.assert_allclose(share, [0.3, 0.7])


@pytest.mark.parametrize(("us", "travel"), [(1000, -1.25), (1500, 0), (2100, 1.5)])  # by hand: /400
def test_travel_for_a_pulse(us: float, travel: float) -> None:
    assert travel_for_pulse(us * US, 1500 * US, 400 * US) == pytest.approx(travel)


@given(travel=st.floats(0, 1.5), neutral=st.floats(1400, 1600))
def test_travel_undoes_the_pulse(travel: float, neutral: float) -> None:
    pulse = pulse_width(neutral * US, 0, 0, 400 * US, travel, 1, 1)
    assert travel_for_pulse(pulse, neutral * US, 400 * US) == pytest.approx(travel, abs=1e-9)


def test_widener_scales_about_neutral() -> None:
    # by hand: 1500 + 1.25 * (1900 - 1500) = 2000
    np.testing.assert_allclose(
        widened_pulse([1100 * US, 1500 * US, 1900 * US], 1500 * US, 1.25) / US, [1000, 1500, 2000]
    )


@outside(
    "S12",
    quantity="step of 8 to 11 bits over 1 ms",
    source="computed independently (by hand)",
    mark="C",
)
@pytest.mark.parametrize(("bits", "us"), [(1, "1000"), (8, "3.92"), (10, "0.978"), (11, "0.489")])
def test_resolution(bits: int, us: str) -> None:
    agrees(pulse_step(1000 * US, bits) / US, us)


@outside("S5", quantity="share of time of a 1500 us pulse", source="common practice, no source", mark="T")
@pytest.mark.parametrize(("hertz", "percent"), [(50, 7.5), (100, 15)])
def test_share_of_time_depends_on_the_frame(hertz: float, percent: float) -> None:
    agrees(100 * pulse_on_share(1500 * US, 1 / hertz), percent)


def test_limits_of_a_frame() -> None:
    assert pulse_on_share(20e-3, 20e-3) == 1
    assert sync_interval(3e-3, [1e-3, 2e-3]) == 0


@outside(
    "S9",
    quantity="sync interval of seven channels in 22 ms",
    source="oscilloscope record of one transmitter",
    mark="R",
)
@pytest.mark.parametrize(
    ("pulse", "interval"), [(1500, 11500), (1100, 14300), (1900, 8700), (900, 15700), (2100, 7300)]
)
def test_sync_interval(pulse: float, interval: float) -> None:
    agrees(sync_interval(22e-3, 7 * [pulse * US]) / US, interval)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: pulse_for_angle([2, 0], 1, 1), "servo_gain must not be 0 rad/s"),
        (lambda: servo_move_time(-1, 1, 1), "angle must be >= 0 rad"),
        (lambda: servo_move_time(1, 0, 1), "sheet_angle must be > 0 rad"),
        (lambda: servo_move_time(1, 1, 0), "sheet_time must be > 0 s"),
        (lambda: servo_travel_share(1, [1, 1], 1), "longest less shortest must be > 0 s"),
        (lambda: travel_for_pulse(1, 1, 0), "half_range must be > 0 s"),
        (lambda: widened_pulse(1, 1, -0.1), "widening must be >= 0"),
        (lambda: pulse_step(-1, 8), "span must be >= 0 s"),
        (lambda: pulse_step(1, 0), "bits must be >= 1"),
        (lambda: pulse_on_share(-1, 1), "pulse must be >= 0 s"),
        (lambda: pulse_on_share(1, 0), "frame must be > 0 s"),
        (lambda: pulse_on_share(2, 1), "pulse as a share of frame must be <= 1"),
        (lambda: sync_interval(3, [1, 1, 1.5]), "pulses must leave time in the frame"),
    ],
)
def test_impossible_inputs_are_refused_by_name(call: Callable[[], object], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        call()
