"""Heating runs of one body: textbook examples and round trips."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from mulewright.errors import DomainError
from mulewright.models.heating_run import (
    final_rise_from_rate,
    final_rise_from_two_rises,
    overload_factor,
    rise_after,
    time_constant_from_two_rates,
    time_constant_from_two_rises,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, outside

MINUTE = 60.0  # [s]
DRIVES = "Gupta and Singhal, Fundamentals of Electric Drives"


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (rise_after, {"time": 600.0, "start_rise": 5.0, "final_rise": 60.0, "time_constant": 3400.0}),
        (time_constant_from_two_rises, {"time": 2400.0, "rise": 30.0, "double_rise": 45.0}),
        (final_rise_from_two_rises, {"rise": 30.0, "double_rise": 45.0}),
        (
            time_constant_from_two_rates,
            {"early_rise": 20.0, "early_rate": 0.08, "late_rise": 28.0, "late_rate": 0.06},
        ),
        (final_rise_from_rate, {"rise": 20.0, "rate": 0.08, "time_constant": 400.0}),
        (
            overload_factor,
            {
                "on_time": 10.0,
                "off_time": 10.0,
                "heating_time_constant": 60.0,
                "cooling_time_constant": 90.0,
            },
        ),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


@outside("M26", quantity="heating run from two rises", source=f"{DRIVES}, ex. 4.1", mark="R")
def test_two_rises() -> None:
    agrees(time_constant_from_two_rises(40 * MINUTE, 30, 45) / MINUTE, "57.708")
    agrees(final_rise_from_two_rises(30, 45), "60.0")


@outside("M29", quantity="heating run from two slopes", source=f"{DRIVES}, ex. 4.5", mark="R")
def test_two_slopes() -> None:
    constant = time_constant_from_two_rates(20, 0.08 / MINUTE, 28, 0.06 / MINUTE)
    agrees(constant / MINUTE, 400)
    agrees(final_rise_from_rate(20, 0.08 / MINUTE, constant), 52)


@outside(
    "M32",
    quantity="short-time and intermittent load of a 20 kW motor",
    source="Dubey, Fundamentals of Electrical Drives, ex. 4.4, p. 55",
    mark="R",
)
def test_overload() -> None:
    factors = overload_factor(10, [np.inf, 10], 60, 90)
    agrees(20 * factors[0], "51.04")
    agrees(20 * factors[1], "25.138")


@given(final=st.floats(5, 200), constant=st.floats(10, 5000), part=st.floats(0.1, 2))
def test_fits_give_the_run_back(final: float, constant: float, part: float) -> None:
    times = part * constant * np.array([1, 2])
    rises = rise_after(times, 0, final, constant)
    assert time_constant_from_two_rises(times[0], *rises) == pytest.approx(constant, rel=1e-6)
    assert final_rise_from_two_rises(*rises) == pytest.approx(final, rel=1e-6)
    rates = (final - rises) / constant
    found = time_constant_from_two_rates(rises[0], rates[0], rises[1], rates[1])
    assert found == pytest.approx(constant, rel=1e-6)
    assert final_rise_from_rate(rises[1], rates[1], found) == pytest.approx(final, rel=1e-6)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: time_constant_from_two_rises(60, 30, 60), "double_rise must lie between"),
        (lambda: time_constant_from_two_rises(60, 30, 29), "double_rise must lie between"),
        (lambda: time_constant_from_two_rates(20, 0.08, 20, 0.06), "late_rise must be above"),
        (lambda: time_constant_from_two_rates(20, 0.08, 28, 0.08), "late_rate must be below"),
        (lambda: overload_factor(0, 1, 60, 60), "on_time must be > 0 s"),
    ],
)
def test_impossible_inputs_are_refused_by_name(call: Callable[[], object], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        call()
