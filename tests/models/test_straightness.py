"""Drift and its cure against the exact arc, the controller's duty and numbers worked by hand."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.kinematics import displacement_y
from mulewright.models.signal import full_stick_duty
from mulewright.models.straightness import drift_offset, side_mismatch, straight_travel
from tests.models.agreement import assert_keeps_promises
from tests.published import as_printed

US = 1e-6  # [s]


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (drift_offset, {"mismatch": 0.03, "distance": 3.0, "track": 0.35}),
        (side_mismatch, {"offset": -0.2, "distance": 3.0, "track": 0.35}),
        (
            straight_travel,
            {"travel": 1.2, "mismatch": 0.03, "half_range": 400 * US, "dead_band": 25 * US},
        ),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


def test_three_percent_over_three_metres() -> None:
    assert drift_offset(0.03, 3, 0.35) == as_printed("0.39")  # by hand: 0.03 * 9 / 0.7


@pytest.mark.parametrize("mismatch", [0.001, 0.01, 0.03])
def test_drift_starts_like_the_arc_of_the_two_sides(mismatch: float) -> None:
    # one side (1 + e/2), the other (1 - e/2) of 1 m/s: the cart turns at e / track for 1 s per metre
    distance, track = 1.0, 0.35
    arc = displacement_y(1, 0, mismatch / track, distance, 0)
    assert drift_offset(mismatch, distance, track) == pytest.approx(arc, rel=(mismatch / track) ** 2 / 10)


@given(mismatch=st.floats(-0.2, 0.2), distance=st.floats(0.1, 10), track=st.floats(0.1, 1))
def test_a_measured_drift_gives_the_mismatch_back(mismatch: float, distance: float, track: float) -> None:
    offset = drift_offset(mismatch, distance, track)
    assert side_mismatch(offset, distance, track) == pytest.approx(mismatch, abs=1e-12)


def test_endpoint_changes_by_less_than_the_mismatch() -> None:
    # by hand: 4 % of (400 - 25) us is 15 us, and 15/400 = 3.75 %
    assert straight_travel(1.0, 0.04, 400 * US, 25 * US) == pytest.approx(0.9625)
    # by hand, dead band 0 and 120 %: 1.2 * 0.96
    assert straight_travel(1.2, 0.04, 400 * US, 0) == pytest.approx(1.152)


@given(travel=st.floats(0.2, 1.25), mismatch=st.floats(0, 0.2), band=st.floats(0, 50))
def test_new_endpoint_takes_the_mismatch_off_the_duty(travel: float, mismatch: float, band: float) -> None:
    def duty(endpoint: object) -> NDArray[np.float64]:
        return full_stick_duty(400 * US, np.asarray(endpoint), 1, 500 * US, band * US)

    cured = straight_travel(travel, mismatch, 400 * US, band * US)
    assert duty(cured) == pytest.approx((1 - mismatch) * duty(travel), abs=1e-12)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: drift_offset(0.1, -1, 1), "distance must be >= 0 m"),
        (lambda: drift_offset(0.1, 1, 0), "track must be > 0 m"),
        (lambda: side_mismatch(0.1, 0, 1), "distance must be > 0 m"),
        (lambda: side_mismatch(0.1, 1, 0), "track must be > 0 m"),
        (lambda: straight_travel(0, 0.1, 1, 0), "travel must be > 0"),
        (lambda: straight_travel(1, 1.1, 1, 0), "mismatch must be 0 to 1"),
        (lambda: straight_travel(1, 0.1, 0, 0), "half_range must be > 0 s"),
        (lambda: straight_travel(1, 0.1, 1, -1), "dead_band must be >= 0 s"),
    ],
)
def test_impossible_inputs_are_refused_by_name(call: Callable[[], object], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        call()
