"""Batteries: sag, run time, Peukert's law in both forms, rest voltage."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from mulewright.errors import DomainError
from mulewright.models import battery
from mulewright.models.battery import (
    HOUR,
    LEAD_ACID_REST,
    battery_heat,
    c_rate_current,
    internal_resistance_from_two_loads,
    lead_acid_rest_charge,
    pack_voltage,
    peukert_time_one_ampere,
    peukert_time_rated,
    run_time,
    sagged_voltage,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, noted, outside

AH = 3600.0  # [A s]
BOYLESTAD = "Boylestad, Introductory Circuit Analysis"
PEUKERT = "common practice, no source"


@outside("B1", quantity="Peukert, capacity at one ampere", source=PEUKERT, mark="T")
def test_peukert_for_a_capacity_at_one_ampere() -> None:
    agrees(peukert_time_one_ampere(100 * AH, 5, 1.2) / HOUR, "14.4956")


@outside("B2", quantity="Peukert, rated capacity", source="computed independently", mark="C")
def test_peukert_for_a_rated_capacity() -> None:
    agrees(peukert_time_rated(100 * AH, 20 * HOUR, 10, 1.2) / HOUR, "8.70551")
    rated_current = 100 / 20
    agrees(peukert_time_rated(100 * AH, 20 * HOUR, rated_current, 1.2), 20 * HOUR, rel=1e-12)


@outside("T0.4", quantity="the two forms of Peukert's law differ", source=PEUKERT, mark="T")
def test_the_two_forms_must_not_be_mixed() -> None:
    agrees(peukert_time_one_ampere(100 * AH, 5, 1.2) / HOUR, "14.5")
    agrees(peukert_time_rated(100 * AH, 20 * HOUR, 5, 1.2) / HOUR, "20")
    # the same battery in the first form: what it would give at 1 A, from its rating
    at_one_ampere = peukert_time_rated(100 * AH, 20 * HOUR, 1, 1.2)  # 1 A for that long
    assert peukert_time_one_ampere(at_one_ampere, 5, 1.2) == pytest.approx(20 * HOUR)


@outside("B4", quantity="Peukert exponents of lead-acid kinds", source=PEUKERT, mark="T")
@pytest.mark.parametrize(
    ("low", "high"), [(1.2, 1.6), (1.05, 1.15), (1.1, 1.25)], ids=["flooded", "AGM", "gel"]
)
def test_published_exponents_are_in_the_stated_range(low: float, high: float) -> None:
    for model in (peukert_time_one_ampere, peukert_time_rated):
        lowest, highest = getattr(model, "valid_for")["exponent"]  # noqa: B009
        assert lowest <= low < high <= highest
        noted(f"taken from {lowest:g} to {highest:g}", f"{low:g} to {high:g}", "covered")


@outside("B5", quantity="12 V lead-acid, voltage at rest", source="common practice, no source", mark="T")
def test_rest_voltage_of_lead_acid() -> None:
    agrees(lead_acid_rest_charge([12.6, 12.4, 12.2, 12.0, 11.6]), [1, 0.75, 0.5, 0.25, 0], rel=1e-7)
    agrees(lead_acid_rest_charge([11.0, 13.1]), [0, 1], rel=1e-7)
    assert np.all(np.diff(LEAD_ACID_REST) > 0)
    one_percent_off = lead_acid_rest_charge(12.2 * 1.01) - lead_acid_rest_charge(12.2)
    agrees(one_percent_off, 0.15, abs=0.01)


@outside(
    "B7", quantity="nickel cell: fresh, nominal, cut", source="cell data sheets, no single source", mark="R"
)
def test_a_pack_of_ten_nickel_cells() -> None:
    agrees(pack_voltage(10, [1.40, 1.45, 1.2, 1.0]), [14.0, 14.5, 12.0, 10.0], rel=1e-7)
    # 5 A through ten cells of 0.05 ohm take 2.5 V: from 12.5 V to a cell's nominal minus its sag
    assert 10 * 0.9 < sagged_voltage(pack_voltage(10, 1.25), 10 * 0.05, 5) < 10 * 1.2


@outside("B8", quantity="lithium cell: 4.2 V and 3.0 V", source="common practice, no source", mark="T")
def test_a_pack_of_three_lithium_cells() -> None:
    agrees(pack_voltage(3, [4.2, 3.0]), [12.6, 9.0], rel=1e-7)


@outside("B14", quantity="internal resistance from two points", source=f"{BOYLESTAD}, ex. 5.21", mark="R")
def test_internal_resistance() -> None:
    agrees(internal_resistance_from_two_loads(40, 0, 0.077 * 500, 0.077), "19.48")


@outside("B15", quantity="voltage at the load and power lost", source=f"{BOYLESTAD}, ex. 5.22", mark="R")
def test_sag_and_loss() -> None:
    current = 30 / (2 + 13)
    agrees(sagged_voltage(30, 2, current), 26, rel=1e-12)
    agrees(battery_heat(current, 2), 8, rel=1e-12)


def test_c_rate_by_hand() -> None:
    # 25 C of 5 Ah is 125 A
    assert c_rate_current(25, 5 * AH) == pytest.approx(125)


def test_run_time_by_hand() -> None:
    # 3 Ah, 0.8 of it, 0.9 of that comes out, at 5.4 A: 0.4 h
    assert run_time(3 * AH, 0.8, 0.9, 5.4) == pytest.approx(0.4 * HOUR)


def test_resistance_is_that_between_any_two_loads() -> None:
    light, heavy = sagged_voltage(12.6, 0.12, [3, 11])
    assert internal_resistance_from_two_loads(light, 3, heavy, 11) == pytest.approx(0.12)


def test_the_limits_themselves_are_allowed() -> None:
    assert pack_voltage(1, 3.7) == 3.7
    assert peukert_time_one_ampere(3 * AH, 3, 1.0) == pytest.approx(HOUR)  # without loss, by hand
    assert run_time(AH, 1, 1, 1) == HOUR
    assert c_rate_current(0, AH) == 0


def test_shapes_broadcast_and_nan_passes_through() -> None:
    volts = sagged_voltage([[12.6], [np.nan]], 0.1, [1, 2, 3])
    assert volts.shape == (2, 3)
    assert np.isnan(volts[1]).all()
    assert np.isnan(lead_acid_rest_charge(np.nan))
    assert np.isnan(run_time(3 * AH, np.nan, 0.9, 5))


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (sagged_voltage, {"open_circuit_voltage": 12.6, "resistance": 0.1, "current": 20}),
        (
            internal_resistance_from_two_loads,
            {"light_voltage": 12.5, "light_current": 1, "heavy_voltage": 12, "heavy_current": 9},
        ),
        (battery_heat, {"current": 20, "resistance": 0.1}),
        (pack_voltage, {"cells_in_series": 8, "cell_voltage": 1.2}),
        (c_rate_current, {"c_rate": 25, "capacity": 3 * AH}),
        (run_time, {"capacity": 3 * AH, "depth_of_discharge": 0.8, "efficiency": 0.9, "current": 5}),
        (peukert_time_one_ampere, {"capacity_at_one_ampere": 9 * AH, "current": 5, "exponent": 1.2}),
        (
            peukert_time_rated,
            {"rated_capacity": 7 * AH, "rated_time": 20 * HOUR, "current": 5, "exponent": 1.2},
        ),
        *((lead_acid_rest_charge, {"voltage": volts}) for volts in (11.5, 11.8, 12.1, 12.3, 12.5, 12.7)),
    ],
)
def test_models_keep_their_promises(model: Callable[..., Any], arguments: dict[str, Any]) -> None:
    assert_keeps_promises(model, arguments)


@pytest.mark.parametrize(
    ("model", "arguments", "says"),
    [
        ("sagged_voltage", (12, -0.1, 1), "resistance must be >= 0 ohm"),
        ("internal_resistance_from_two_loads", (12, 5, 11, 5), "heavy_current must be above light_current"),
        ("battery_heat", (1, -0.1), "resistance must be >= 0 ohm"),
        ("pack_voltage", (0, 1.2), "cells_in_series must be >= 1"),
        ("c_rate_current", (-1, AH), "c_rate must be >= 0"),
        ("c_rate_current", (1, -AH), "capacity must be >= 0"),
        ("run_time", (-AH, 0.8, 0.9, 5), "capacity must be >= 0"),
        ("run_time", (AH, 1.1, 0.9, 5), "depth_of_discharge must be 0 to 1"),
        ("run_time", (AH, 0.8, -0.1, 5), "efficiency must be 0 to 1"),
        ("run_time", (AH, 0.8, 0.9, 0), "current must be > 0 A"),
        ("peukert_time_one_ampere", (-AH, 5, 1.2), "capacity_at_one_ampere must be >= 0"),
        ("peukert_time_one_ampere", (AH, 0, 1.2), "current must be > 0 A"),
        ("peukert_time_one_ampere", (AH, 5, 0.9), "exponent must be >= 1"),
        ("peukert_time_rated", (-AH, HOUR, 5, 1.2), "rated_capacity must be >= 0"),
        ("peukert_time_rated", (AH, 0, 5, 1.2), "rated_time must be > 0 s"),
        ("peukert_time_rated", (AH, HOUR, 0, 1.2), "current must be > 0 A"),
        ("peukert_time_rated", (AH, HOUR, 5, 0.9), "exponent must be >= 1"),
    ],
)
def test_impossible_inputs_are_refused_by_name(model: str, arguments: tuple[float, ...], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        getattr(battery, model)(*arguments)
