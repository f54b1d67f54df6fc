"""Stick, pulse and duty against common radio practice and numbers worked by hand."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.optimize import brentq

from mulewright.errors import DomainError
from mulewright.models.duty import (
    deviation_for_duty,
    duty_jump,
    duty_rescaled,
    neutral_offset,
    pulse_deviation,
    signal_fraction,
)
from mulewright.models.signal import dead_stick, expo_curve, full_stick_duty, pulse_width
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, as_printed, outside

US = 1e-6  # [s]
HALF, BAND = 500 * US, 25 * US  # a usual controller
SHORT = 400 * US  # half range of a radio whose 100 % is 1100 to 1900 us

BEYOND = {"controller_half_range": HALF, "dead_band": BAND}
REACH = {"half_range": SHORT, "travel": 1.2, "rate": 0.8}

fractions = st.floats(0, 1)
expos = st.floats(0, 1)


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (expo_curve, {"stick": -0.6, "expo": 0.3}),
        (expo_curve, {"stick": 0.6, "expo": -0.4}),
        (
            pulse_width,
            {"neutral": 1500 * US, "sub_trim": 7 * US, "trim": -3 * US, "stick": -0.4} | REACH,
        ),
        (full_stick_duty, REACH | BEYOND),
        (dead_stick, REACH | {"expo": 0.6, "threshold": BAND}),
        (dead_stick, REACH | {"expo": -0.5, "threshold": BAND}),
        (dead_stick, REACH | {"expo": 0.6, "threshold": 1e3 * BAND}),
        (duty_rescaled, BEYOND | {"deviation": -230 * US}),
        (duty_rescaled, BEYOND | {"deviation": 20 * US}),
        (duty_rescaled, BEYOND | {"deviation": 620 * US}),
        (duty_jump, BEYOND | {"deviation": -230 * US}),
        (duty_jump, BEYOND | {"deviation": 20 * US}),
        (duty_jump, BEYOND | {"deviation": -620 * US}),
        (deviation_for_duty, BEYOND | {"duty": -0.3}),
        (signal_fraction, {"deviation": 620 * US, "controller_half_range": HALF}),
        (pulse_deviation, {"pulse": 1900 * US, "controller_neutral": 1510 * US}),
        (
            neutral_offset,
            {"sub_trim": 4 * US, "trim": 8 * US, "neutral": 1520 * US, "controller_neutral": 1500 * US},
        ),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


def stick_pulse(stick: float, half_range: float, travel: float = 1.0) -> NDArray[np.float64]:
    """[us] for a radio with its trims at zero."""
    return pulse_width(1500 * US, 0, 0, half_range, travel, 1, stick) / US


@outside("S1", quantity="usual servo pulses", source="common practice, no source", mark="T")
@pytest.mark.parametrize(("stick", "us"), [(-1, "1000"), (0, "1500"), (1, "2000")])
def test_usual_pulses(stick: float, us: str) -> None:
    agrees(stick_pulse(stick, HALF), us)


@outside("S3", quantity="pulses of 100, 125 and 150 % travel", source="common practice, no source", mark="T")
@pytest.mark.parametrize(("travel", "low", "high"), [(1.0, 1100, 1900), (1.25, 1000, 2000), (1.5, 900, 2100)])
def test_what_a_radio_means_by_percent(travel: float, low: float, high: float) -> None:
    agrees(stick_pulse(-1, SHORT, travel), low)
    agrees(stick_pulse(1, SHORT, travel), high)


def test_pulse_adds_trims_and_scales_the_stick() -> None:
    # 1500 + 10 - 4 + 400 * 1.2 * 0.5 * (-0.25) = 1446
    pulse = pulse_width(1500 * US, 10 * US, -4 * US, SHORT, 1.2, 0.5, -0.25)
    assert pulse / US == pytest.approx(1446)


@outside("S13", quantity="cubic expo at 50 %", source="common practice, no source", mark="T")
def test_expo_flattens_the_middle_and_keeps_the_ends() -> None:
    agrees(expo_curve([-1, 0, 0.5, 1], 0.5), [-1, 0, 0.3125, 1], rel=1e-7)
    small = 1e-6  # so that the slope in the middle, 1 - expo, is what counts
    agrees(expo_curve(small, [0, 0.3, 1]) / small, [1, 0.7, 0], abs=1e-9)


@given(stick=st.floats(-1, 1), expo=expos)
def test_expo_is_odd_and_never_quicker_than_the_stick(stick: float, expo: float) -> None:
    shaped = expo_curve(stick, expo)
    assert expo_curve(-stick, expo) == -shaped
    assert abs(shaped) <= abs(stick) + 1e-15


@pytest.mark.parametrize(
    ("travel", "rate", "band", "duty"),
    [
        (1.0, 1.0, 25, "0.789"),  # by hand: 375 / 475
        (1.2, 1.0, 25, "0.958"),  # by hand: 455 / 475
        (1.0, 0.6, 25, "0.453"),  # by hand: 215 / 475; not 0.6 * 0.789
        (1.25, 1.0, 30, "1.000"),  # by hand: 470 / 470
        (1.5, 1.0, 25, "1.000"),  # beyond the controller's range nothing is added
        (1.0, 0.05, 25, "0.000"),  # 20 us stay inside the dead band
    ],
)
def test_duty_at_the_end_of_the_stick(travel: float, rate: float, band: float, duty: str) -> None:
    assert full_stick_duty(SHORT, travel, rate, HALF, band * US) == as_printed(duty)


def test_1900_us_is_three_different_numbers() -> None:
    # by hand: 400/500 of full signal; 375/475 of the volts if rescaled; 400/500 if it jumps
    deviation = pulse_deviation(1900 * US, 1500 * US)
    assert signal_fraction(deviation, HALF) == pytest.approx(0.8)
    assert duty_rescaled(deviation, HALF, BAND) == as_printed("0.789")
    assert duty_jump(deviation, HALF, BAND) == pytest.approx(0.8)


def test_edge_of_the_dead_band() -> None:
    at_the_edge = [-26 * US, -24 * US, 24 * US, 26 * US]
    np.testing.assert_allclose(duty_rescaled(at_the_edge, HALF, BAND), [-1 / 475, 0, 0, 1 / 475])
    np.testing.assert_allclose(duty_jump(at_the_edge, HALF, BAND), [-0.052, 0, 0, 0.052])
    assert duty_jump(30.0, 500.0, 30.0) == pytest.approx(0.06)  # on the edge it runs


def test_beyond_the_range_a_controller_gives_no_more() -> None:
    for duty in (duty_rescaled, duty_jump):
        np.testing.assert_array_equal(duty([-620 * US, 500 * US, 620 * US], HALF, BAND), [-1, 1, 1])


@given(duty=st.floats(-1, 1), band=st.floats(0, 100))
def test_deviation_undoes_duty(duty: float, band: float) -> None:
    deviation = deviation_for_duty(duty, HALF, band * US)
    assert duty_rescaled(deviation, HALF, band * US) == pytest.approx(duty, abs=1e-12)


def test_rate_that_gives_half_the_volts() -> None:
    # by hand: (0.5 * 475 + 25) / 400 = 0.65625
    assert deviation_for_duty(0.5, HALF, BAND) / SHORT == pytest.approx(0.65625)
    assert full_stick_duty(SHORT, 1, 0.65625, HALF, BAND) == pytest.approx(0.5)


def test_trims_and_neutrals_add_up_to_an_offset() -> None:
    assert neutral_offset(-6 * US, 10 * US, 1520 * US, 1500 * US) / US == pytest.approx(24)


@pytest.mark.parametrize(
    ("travel", "rate", "expo", "threshold", "dead"),
    [
        (1.0, 0.5, 0.5, 25, "0.24"),  # by hand: 0.5 * 0.236 + 0.5 * 0.236^3 = 0.125 = 25 / 200
        (1.0, 0.4, 0.7, 25, "0.39"),  # by hand: 0.3 * 0.386 + 0.7 * 0.386^3 = 0.156 = 25 / 160
        (1.2, 1.0, 0.3, 25, "0.074"),  # by hand: 0.7 * 0.0743 + 0.3 * 0.0743^3 = 0.0521 = 25 / 480
        (1.0, 0.4, 0.6, 30, "0.38"),  # by hand: 0.4 * 0.384 + 0.6 * 0.384^3 = 0.1875 = 30 / 160
        (2.0, 0.4, 0.6, 30, "0.22"),  # the same mixed twice: twice the pulse for each control
    ],
)
def test_dead_stick(travel: float, rate: float, expo: float, threshold: float, dead: str) -> None:
    assert dead_stick(SHORT, travel, rate, expo, threshold * US) == as_printed(dead)


def test_dead_stick_at_its_limits() -> None:
    np.testing.assert_array_equal(dead_stick(SHORT, 1, [0.05, 0.0, 0.0625], 0.5, BAND), [1, 1, 1])
    np.testing.assert_allclose(dead_stick(SHORT, 1, 1, [0.0, 0.5, 1.0], 0), 0, atol=1e-15)
    assert dead_stick(SHORT, 1, 1, 0, BAND) == pytest.approx(0.0625, rel=1e-14)  # no expo: 25 / 400
    assert dead_stick(SHORT, 1, 1, 1, 50 * US) == pytest.approx(0.5, rel=1e-14)  # all cubic: 1/8
    assert dead_stick(SHORT, 1, 1, 0.5, np.inf) == 1


@given(expo=st.floats(-0.5, 1), level=st.floats(1e-3, 0.999))
def test_dead_stick_is_the_root_that_scipy_finds(expo: float, level: float) -> None:
    root = brentq(lambda x: (1 - expo) * x + expo * x**3 - level, 0, 1, xtol=1e-14)
    assert dead_stick(1.0, 1.0, 1.0, expo, level) == pytest.approx(root, abs=1e-6 if expo < -0.49 else 1e-11)


@given(expo=expos, more_expo=expos, rate=fractions, less_rate=fractions, threshold=st.floats(0, 500))
def test_dead_stick_grows_with_expo_and_low_rate(
    expo: float, more_expo: float, rate: float, less_rate: float, threshold: float
) -> None:
    expo, more_expo = sorted((expo, more_expo))
    less_rate, rate = sorted((less_rate, rate))
    least = dead_stick(SHORT, 1, rate, expo, threshold * US)
    assert least <= dead_stick(SHORT, 1, rate, more_expo, threshold * US) + 1e-12
    assert least <= dead_stick(SHORT, 1, less_rate, expo, threshold * US) + 1e-12
    assert least <= dead_stick(SHORT, 1, rate, expo, (threshold + 1) * US) + 1e-12


@given(expo=st.lists(expos, min_size=2, max_size=5), threshold=st.floats(0, 600))
def test_dead_stick_on_arrays_equals_a_loop(expo: list[float], threshold: float) -> None:
    together = dead_stick(SHORT, 1, 0.7, expo, threshold * US)
    alone = [dead_stick(SHORT, 1, 0.7, one, threshold * US) for one in expo]
    np.testing.assert_allclose(together, alone, rtol=1e-12)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: expo_curve(1.1, 0.3), "stick must be -1 to 1"),
        (lambda: expo_curve(0.5, 1.1), "expo must be -0.5 to 1"),
        (lambda: expo_curve(0.5, -0.6), "expo must be -0.5 to 1"),
        (lambda: pulse_width(0, 0, 0, 0, 1, 1, 1), "half_range must be > 0 s"),
        (lambda: pulse_width(0, 0, 0, 1, -1, 1, 1), "travel must be >= 0"),
        (lambda: full_stick_duty(1, 1, -0.1, 2, 1), "rate must be >= 0"),
        (lambda: dead_stick(1, 1, 1, 1.5, 1), "expo must be -0.5 to 1"),
        (lambda: dead_stick(1, 1, 1, 0.5, -1), "threshold must be >= 0 s"),
        (lambda: duty_rescaled(1, [2, 3], [2, 1]), "controller_half_range less dead_band must be > 0 s"),
        (lambda: duty_jump(1, 2, -1), "dead_band must be >= 0 s"),
        (lambda: signal_fraction(1, 0), "controller_half_range must be > 0 s"),
        (lambda: deviation_for_duty(1.01, 2, 1), "duty must be -1 to 1"),
    ],
)
def test_impossible_inputs_are_refused_by_name(call: Callable[[], object], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        call()
