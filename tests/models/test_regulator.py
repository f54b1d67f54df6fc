"""Regulators: heat, input current, dropout."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from mulewright.errors import DomainError
from mulewright.models import regulator
from mulewright.models.regulator import (
    linear_regulator_current_max,
    linear_regulator_efficiency,
    linear_regulator_power,
    linear_regulator_rise,
    of_highest,
    parallel_planning_current,
    rail_voltage,
    switching_regulator_input_current,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, as_printed, outside


@outside("B19", quantity="linear regulator 12.6 V to 5.0 V at 1 A", source="computed independently", mark="C")
def test_heat_and_efficiency_of_a_linear_regulator() -> None:
    agrees(linear_regulator_power(12.6, 5.0, 1.0), 7.6, rel=1e-12)
    agrees(linear_regulator_efficiency(12.6, 5.0), "0.397")


def test_largest_current_by_hand() -> None:
    # 100 K / (30 K/W * 6.6 V) = 0.505 A; at 14.4 V 100 / (30 * 8.4) = 0.397 A
    np.testing.assert_allclose(
        linear_regulator_current_max([12.6, 14.4], 6.0, 30, 100), [0.505, 0.397], atol=5e-4
    )
    # 0.53 A on average: 0.53 * 6.6 * 30 = 104.9 K
    assert linear_regulator_rise(12.6, 6.0, 0.53, 30) == as_printed("104.9")


@given(st.floats(6.5, 60), st.floats(1, 6), st.floats(1, 100), st.floats(0, 200))
def test_the_largest_current_reaches_the_rise(volts: float, rail: float, theta: float, rise: float) -> None:
    current = linear_regulator_current_max(volts, rail, theta, rise)
    assert linear_regulator_rise(volts, rail, current, theta) == pytest.approx(rise)


def test_a_switching_regulator_draws_more_as_the_bus_sags() -> None:
    # 6 V, 2 A at 80 %: 15 W, so 1.25 A at 12 V and 2.5 A at 6 V
    np.testing.assert_allclose(switching_regulator_input_current(6, 2, 0.8, [12, 6]), [1.25, 2.5])


def test_rail_follows_the_bus_down_and_stops_at_zero() -> None:
    np.testing.assert_allclose(rail_voltage(6.0, [11.05, 7.0, 5.5, 4.3, 0.5], 1.0), [6.0, 6.0, 4.5, 3.3, 0.0])


def test_parallel_regulators_are_planned_on_the_largest() -> None:
    assert parallel_planning_current([1.0, 3.0, 0.5]) == 3.0
    assert parallel_planning_current([0.5]) == 0.5
    np.testing.assert_allclose(parallel_planning_current([1.0, [0.5, 2.0]]), [1.0, 2.0])


def test_the_regulator_set_highest_carries_all() -> None:
    # by hand: 6.0 V beats 5.0 V; of two with 6.0 V either may, so the worse one counts
    assert of_highest([5.0, 6.0], [120.0, 105.0]) == 105.0
    assert of_highest([6.0, 5.0, 6.0], [100.0, 120.0, 105.0]) == 105.0
    np.testing.assert_allclose(of_highest([[5.0, 6.2], 6.0], [120.0, 105.0]), [105.0, 120.0])
    assert np.isnan(of_highest([np.nan, 6.0], [120.0, 105.0]))


def test_nan_passes_through() -> None:
    assert np.isnan(linear_regulator_rise(12.6, 6.0, [np.nan, 1.0], 30)).tolist() == [True, False]
    assert np.isnan(rail_voltage(6.0, np.nan, 1.0))
    assert np.isnan(parallel_planning_current([1.0, np.nan]))


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (linear_regulator_power, {"input_voltage": 12, "output_voltage": 5, "current": 0.5}),
        (
            linear_regulator_rise,
            {"input_voltage": 12, "output_voltage": 5, "current": 0.5, "thermal_resistance": 30},
        ),
        (
            linear_regulator_current_max,
            {"input_voltage": 12, "output_voltage": 5, "thermal_resistance": 30, "rise": 100},
        ),
        (linear_regulator_efficiency, {"input_voltage": 12, "output_voltage": 5}),
        (
            switching_regulator_input_current,
            {"output_voltage": 6, "current": 2, "efficiency": 0.8, "input_voltage": 12},
        ),
        *((rail_voltage, {"regulated_voltage": 6, "bus_voltage": bus, "dropout": 1}) for bus in (0.5, 6, 12)),
        (parallel_planning_current, {"ratings": [1, 3, 0.5]}),
        (of_highest, {"voltages": [5.0, 6.0, 6.0], "values": [120.0, 90.0, 105.0]}),
    ],
)
def test_models_keep_their_promises(model: Callable[..., Any], arguments: dict[str, Any]) -> None:
    assert_keeps_promises(model, arguments)


@pytest.mark.parametrize(
    ("model", "arguments", "says"),
    [
        ("linear_regulator_power", (4, 5, 1), "input_voltage - output_voltage must be >= 0 V"),
        ("linear_regulator_power", (12, 0, 1), "output_voltage must be > 0 V"),
        ("linear_regulator_power", (12, 5, -1), "current must be >= 0 A"),
        ("linear_regulator_rise", (12, 5, 1, -30), "thermal_resistance must be >= 0 K/W"),
        ("linear_regulator_current_max", (5, 5, 30, 100), "input_voltage - output_voltage must be > 0 V"),
        ("linear_regulator_current_max", (12, 5, 0, 100), "thermal_resistance must be > 0 K/W"),
        ("linear_regulator_current_max", (12, 5, 30, -1), "rise must be >= 0 K"),
        ("linear_regulator_efficiency", (4, 5), "input_voltage - output_voltage must be >= 0 V"),
        ("switching_regulator_input_current", (-6, 2, 0.8, 12), "output_voltage must be >= 0 V"),
        ("switching_regulator_input_current", (6, -2, 0.8, 12), "current must be >= 0 A"),
        ("switching_regulator_input_current", (6, 2, 1.1, 12), "efficiency must be > 0 and <= 1"),
        ("switching_regulator_input_current", (6, 2, 0.8, 0), "input_voltage must be > 0 V"),
        ("rail_voltage", (-6, 12, 1), "regulated_voltage must be >= 0 V"),
        ("rail_voltage", (6, 12, -1), "dropout must be >= 0 V"),
        ("parallel_planning_current", ([],), "must hold at least one"),
        ("of_highest", ([], []), "must hold at least one"),
        ("of_highest", ([6.0], [-1.0]), "values must be >= 0"),
        ("of_highest", ([6.0], []), "must be one for each of the 1 voltages"),
    ],
)
def test_impossible_inputs_are_refused_by_name(model: str, arguments: tuple[Any, ...], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        getattr(regulator, model)(*arguments)
