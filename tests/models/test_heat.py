"""Heat in a winding: textbook numbers, and an integrator where resistance grows and heat leaves."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from mulewright.errors import DomainError
from mulewright.models.heat import (
    stall_heating_time,
    stall_heating_time_at_current,
    stall_heating_time_at_voltage,
    winding_heat,
    winding_heat_capacity,
    winding_temperature,
)
from mulewright.models.motor import stall_current
from mulewright.models.wire import TEMP_COEFFICIENT_20C
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, outside

ZERO_C = 273.15  # [K]
VOLTS, OHM, CAPACITY, RISE = 12.0, 1.2, 20.0, 100.0


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (winding_heat_capacity, {"copper_mass": 0.02}),
        (winding_heat, {"current": 4.3, "resistance": 2.18}),
        (
            stall_heating_time,
            {"rise": 80.0, "heat_capacity": 7.7, "current": 4.3, "resistance": 2.18},
        ),
        (
            stall_heating_time_at_voltage,
            {"rise": 80.0, "heat_capacity": 7.7, "voltage": 9.5, "resistance": 2.18},
        ),
        (
            stall_heating_time_at_current,
            {"rise": 80.0, "heat_capacity": 7.7, "current": 4.3, "resistance": 2.18},
        ),
        (
            winding_temperature,
            {"hot_resistance": 100.0, "cold_resistance": 80.0, "cold_temperature": 293.15},
        ),
    ],
)
def test_models_keep_their_promises(
    model: Callable[..., NDArray[np.float64]], arguments: dict[str, Any]
) -> None:
    assert_keeps_promises(model, arguments)


@outside("M25", quantity="winding rise by resistance", source="IEC 60034-1, resistance method", mark="R")
def test_temperature_from_resistance() -> None:
    hot = winding_temperature(100, 80, 20 + ZERO_C)
    agrees(hot - ZERO_C, 83.625)
    agrees(hot - ZERO_C - 20, 63.63, abs=0.0051)  # printed; 63.625 was rounded up


def time_to_rise(coefficient: float, inner: float) -> float:
    """[s] by an integrator: a winding on 12 V, and a case of 150 J/K with 8 K/W to the air."""

    def warming(_: float, rise: NDArray[np.float64]) -> list[float]:
        power = VOLTS**2 / (OHM * (1 + coefficient * rise[0]))
        leaves = (rise[0] - rise[1]) / inner
        return [(power - leaves) / CAPACITY, (leaves - rise[1] / 8) / 150]

    def reached(_: float, rise: NDArray[np.float64]) -> float:
        return float(rise[0]) - RISE

    reached.terminal = True  # type: ignore[attr-defined]
    run = solve_ivp(warming, (0, 100), [0.0, 0.0], events=reached, rtol=1e-10, atol=1e-10)
    assert run.t_events is not None
    return float(run.t_events[0][0])


@outside(
    "M38", quantity="time of a stalled winding to +100 K", source="computed independently (scipy)", mark="C"
)
def test_stall_at_a_fixed_voltage() -> None:
    constant = stall_heating_time(RISE, CAPACITY, stall_current(1, VOLTS, OHM), OHM)
    growing = stall_heating_time_at_voltage(RISE, CAPACITY, VOLTS, OHM)
    leaking = time_to_rise(TEMP_COEFFICIENT_20C, inner=3)
    agrees(constant, "16.667")
    agrees(growing, "19.942")
    agrees(leaking, "24.840")
    assert constant < growing < leaking  # leaving things out errs on the safe side
    agrees(growing, time_to_rise(TEMP_COEFFICIENT_20C, inner=1e9), rel=1e-6)


def test_stall_at_a_limited_current() -> None:
    def warming(_: float, rise: NDArray[np.float64]) -> list[float]:
        return [100 * OHM * (1 + TEMP_COEFFICIENT_20C * rise[0]) / CAPACITY]

    time = float(stall_heating_time_at_current(RISE, CAPACITY, 10, OHM))
    run = solve_ivp(warming, (0, time), [0.0], rtol=1e-10, atol=1e-10)
    assert run.y[0, -1] == pytest.approx(RISE, rel=1e-6)
    assert time < stall_heating_time(RISE, CAPACITY, 10, OHM)


def test_impossible_inputs_are_refused_by_name() -> None:
    with pytest.raises(DomainError, match=r"cold_temperature must be > 38.65 K"):
        winding_temperature(100, 80, 20)  # celsius by mistake
    with pytest.raises(DomainError, match="current must be > 0 A"):
        stall_heating_time(80, 7.7, 0, 2)
