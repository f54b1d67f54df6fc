"""Wire: gauge tables, copper standards and textbook examples."""

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from mulewright.errors import DomainError
from mulewright.models import wire
from mulewright.models.ampacity import CIRCULAR_MIL
from mulewright.models.wire import (
    T_20C,
    TEMP_COEFFICIENT_20C,
    awg_area,
    awg_diameter,
    conductor_resistance,
    copper_mass,
    copper_resistance_ratio,
    copper_resistivity,
    copper_temperature_factor,
    copper_wire_resistance,
    drop_fraction,
    minimum_area,
    resistance_per_length,
    thin_ground_share,
    voltage_drop,
)
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, as_printed, outside, within

FOOT = 0.3048  # [m]
MIL = 25.4e-6  # [m]
MM2 = 1e-6  # [m^2]
K_UNIT = CIRCULAR_MIL / FOOT  # [ohm m] one ohm circular mil per foot, the unit of a code's factor K
BOYLESTAD = "Boylestad, Introductory Circuit Analysis"
ZERO_C = 273.15  # [K]


@outside("W1", quantity="AWG diameter at both ends of its definition", source="ASTM B258", mark="R")
def test_gauge_36_and_0000_are_the_two_fixed_points() -> None:
    agrees(awg_diameter([36, -3]), [0.127e-3, 11.684e-3], rel=1e-9)
    assert awg_area(36) == pytest.approx(np.pi / 4 * 0.127e-3**2, rel=1e-12)


@outside(
    "W2", quantity="AWG diameters in mils", source="ASTM B258, table of diameters (read in a copy)", mark="R"
)
def test_diameters_in_mils() -> None:
    mils = [80.808, 64.084, 50.820, 40.303, 31.961, 25.347, 20.100, 15.940, 12.641]
    agrees(awg_diameter(np.arange(12, 30, 2)) / MIL, mils, rel=1e-4)


@outside("W3", quantity="resistivity of annealed copper at 20 C", source="IEC 60028", mark="R")
def test_resistivity_is_that_of_the_standard() -> None:
    agrees(copper_resistivity(T_20C), "1.7241e-8")
    assert 58e6 * 1.7241e-8 == as_printed("0.99998")


@outside("W4", quantity="ohm per 1000 ft at 20 C", source="common practice, no source", mark="T")
@pytest.mark.parametrize(("gauge", "ohm"), [(10, 1.00), (12, 1.59), (14, 2.53), (16, 4.02), (18, 6.39)])
def test_handbook_ohms_per_1000_feet(gauge: int, ohm: float) -> None:
    # 0.2 %: the table is rounded to hundredths
    agrees(copper_wire_resistance(1000 * FOOT, awg_area(gauge), T_20C), ohm, rel=2e-3)


@outside(
    "W7", quantity="ohm per km at 20 C", source="computed independently from ASTM B258, IEC 60028", mark="C"
)
def test_ohms_per_km() -> None:
    # 4 figures: computed with 1.7241e-8 ohm m, which is 1/58 rounded
    ohm_per_km = [3.277, 5.211, 8.285, 13.174, 20.948, 33.308, 52.962, 84.213, 133.904, 212.916]
    computed = 1000 * resistance_per_length(awg_area(np.arange(10, 30, 2)), T_20C)
    agrees(computed, ohm_per_km, rel=1e-4)


# Largest ohm/km at 20 C that a standard allows for fine-stranded wire of an area in mm^2
IEC_60228_CLASS_5 = [
    (0.5, 39.0),
    (0.75, 26.0),
    (1.0, 19.5),
    (1.5, 13.3),
    (2.5, 7.98),
    (4, 4.95),
    (6, 3.30),
    (10, 1.91),
]
VDE_0295_CLASS_5 = [(0.14, 138), (0.22, 99), (0.25, 79), (0.34, 56)]  # tinned; plain 134, 96, 76, 53


@outside("W16", quantity="largest ohm/km of class 5 wire", source="IEC 60228", mark="R")
@pytest.mark.parametrize(("mm2", "ohm_per_km"), IEC_60228_CLASS_5)
def test_fine_stranded_wire_may_have_a_sixth_more_than_the_model(mm2: float, ohm_per_km: float) -> None:
    ours = 1000 * resistance_per_length(mm2 * MM2, T_20C)
    assert ohm_per_km / ours > 1.10
    agrees(ours, ohm_per_km, rel=0.16)


@outside("W19", quantity="largest ohm/km of thin class 5 wire", source="VDE 0295", mark="R")
@pytest.mark.parametrize(("mm2", "ohm_per_km"), VDE_0295_CLASS_5)
def test_servo_leads_may_have_a_quarter_more_than_the_model(mm2: float, ohm_per_km: float) -> None:
    ours = 1000 * resistance_per_length(mm2 * MM2, T_20C)
    assert ohm_per_km / ours > 1.10
    agrees(ours, ohm_per_km, rel=0.22)


@outside("W8", quantity="copper-clad aluminium stands out", source="from memory", mark="M")
def test_no_copper_wire_of_a_standard_looks_like_copper_clad_aluminium() -> None:
    mm2, ohm_per_km = np.array(IEC_60228_CLASS_5 + VDE_0295_CLASS_5).T
    worst_copper = np.max(ohm_per_km / (1000 * resistance_per_length(mm2 * MM2, T_20C)))
    within(
        worst_copper, 1.0, 1.3, case="copper of a standard over the table"
    )  # and copper-clad aluminium starts at 1.55


@outside("W9", quantity="two forms of copper's temperature law", source="IEC 60028; IEC 60034-1", mark="R")
def test_both_temperature_forms_agree_over_the_usual_range() -> None:
    temperature = ZERO_C + np.linspace(0, 100, 101)
    agrees(copper_temperature_factor(temperature), copper_resistance_ratio(temperature, T_20C), rel=1e-3)
    agrees(TEMP_COEFFICIENT_20C, 1 / (234.5 + 20), rel=1e-3, case="coefficient")


@outside("W10", quantity="copper resistance at 100 C", source=f"{BOYLESTAD}, ex. 3.9", mark="R")
def test_fifty_ohm_at_100_degrees() -> None:
    agrees(50 * copper_resistance_ratio(ZERO_C + 100, T_20C), "65.72")
    agrees(50 * copper_resistance_ratio(ZERO_C + 100, T_20C), "65.717")


@outside("W14", quantity="area for 25 mohm over 100 ft", source=f"{BOYLESTAD}, ex. 3.6", mark="R")
def test_thinnest_wire_for_a_resistance() -> None:
    area = minimum_area(100 * FOOT, 0.025, 10.37 * K_UNIT)
    agrees(area / CIRCULAR_MIL, 41480, rel=1e-9)
    # the book's 10.37 is rounded: with the standard's own figure it is 5 circular mils more
    assert minimum_area(100 * FOOT, 0.025, copper_resistivity(T_20C)) == pytest.approx(area, rel=5e-4)
    assert awg_area(5) < area < awg_area(4) < awg_area(3)
    agrees(awg_area([4, 3]) / CIRCULAR_MIL, [41740, 52630], rel=5e-4)


@outside("W28", quantity="drop of 15 A over 100 ft of AWG 12", source="common practice, no source", mark="T")
@pytest.mark.parametrize(("k_factor", "volts"), [(12.9, "5.926"), (10.37, "4.764")])
def test_drop_by_the_factor_of_a_code(k_factor: float, volts: str) -> None:
    loop = conductor_resistance(2 * 100 * FOOT, 6530 * CIRCULAR_MIL, k_factor * K_UNIT)
    agrees(voltage_drop(15, loop), volts)


@outside(
    "T0.6", quantity="temperature factor at 100 C by two standards", source="IEC 60228; IEC 60028", mark="R"
)
def test_cable_tables_round_the_coefficient() -> None:
    by_60028 = 1 / copper_temperature_factor(ZERO_C + 100)
    by_60228 = 1 / (1 + 0.004 * 80)
    agrees(by_60028, "0.761")
    assert by_60228 == as_printed("0.758")
    assert by_60228 == pytest.approx(by_60028, rel=5e-3)


def test_hot_wire_by_hand() -> None:
    # 100 K above 20 C: 1 + 0.00393 * 100 = 1.393
    cold, hot = copper_wire_resistance(1, MM2, [T_20C, T_20C + 100])
    assert hot / cold == pytest.approx(1.393)


def test_drop_by_hand() -> None:
    # 10 A through 60 mohm is 0.6 V, 5 % of 12 V; current that flows back lifts the far end
    assert voltage_drop(10, 0.060) == pytest.approx(0.6)
    assert voltage_drop(-10, 0.060) == pytest.approx(-0.6)
    assert drop_fraction(10, 0.060, 12) == pytest.approx(0.05)


def test_thin_ground_takes_its_share_and_all_once_the_main_is_open() -> None:
    # 20 mohm beside 60 mohm: a quarter, by hand
    np.testing.assert_allclose(thin_ground_share([0.020, 0.0, np.inf], 0.060), [0.25, 0, 1])


def test_shapes_broadcast_and_nan_passes_through() -> None:
    ohms = copper_wire_resistance([[1.0], [np.nan]], [1e-6, 2e-6], T_20C)
    assert ohms.shape == (2, 2)
    assert np.isnan(ohms[1]).all()
    assert not np.isnan(ohms[0]).any()


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (awg_diameter, {"gauge": 36}),
        (awg_area, {"gauge": 36}),
        (copper_temperature_factor, {"temperature": 350}),
        (copper_resistance_ratio, {"temperature": 350, "reference": T_20C}),
        (copper_resistivity, {"temperature": 350}),
        (conductor_resistance, {"length": 2, "area": MM2, "resistivity": 2.8e-8}),
        (copper_wire_resistance, {"length": 2, "area": 2 * MM2, "temperature": 350}),
        (resistance_per_length, {"area": 2 * MM2, "temperature": 350}),
        (minimum_area, {"length": 2, "resistance": 0.1, "resistivity": 1.72e-8}),
        (voltage_drop, {"current": 5, "resistance": 0.02}),
        (drop_fraction, {"current": 5, "resistance": 0.02, "supply_voltage": 12.6}),
        (thin_ground_share, {"main_resistance": 0.02, "thin_resistance": 0.06}),
    ],
)
def test_models_keep_their_promises(model: Callable[..., Any], arguments: dict[str, Any]) -> None:
    assert_keeps_promises(model, arguments)


@pytest.mark.parametrize(
    ("model", "arguments", "says"),
    [
        ("copper_wire_resistance", (-1, MM2, T_20C), "length must be >= 0 m"),
        ("copper_wire_resistance", (1, 0, T_20C), "area must be > 0 m"),
        ("copper_wire_resistance", (1, MM2, 0), "temperature must be > 0 K"),
        ("copper_resistance_ratio", (38, T_20C), r"temperature must be > 38\.65 K"),
        ("copper_resistance_ratio", (T_20C, 38), r"reference must be > 38\.65 K"),
        ("conductor_resistance", (1, MM2, -1e-8), "resistivity must be >= 0 ohm m"),
        ("minimum_area", (-1, 0.01, 1.7e-8), "length must be >= 0 m"),
        ("minimum_area", (1, 0, 1.7e-8), "resistance must be > 0 ohm"),
        ("minimum_area", (1, 0.01, -1e-8), "resistivity must be >= 0 ohm m"),
        ("voltage_drop", (1, -0.1), "resistance must be >= 0 ohm"),
        ("drop_fraction", (1, 0.1, 0), "supply_voltage must be > 0 V"),
        ("thin_ground_share", (-0.1, 0.1), "main_resistance must be >= 0 ohm"),
        ("thin_ground_share", (0.1, 0), "thin_resistance must be > 0 ohm"),
    ],
)
def test_impossible_inputs_are_refused_by_name(model: str, arguments: tuple[float, ...], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        getattr(wire, model)(*arguments)


def test_copper_of_a_gauge_weighs_what_the_wire_tables_say() -> None:
    # pounds for 1000 ft of AWG 10, 14, 18: NBS Handbook 100 (from memory)
    pounds = copper_mass(1000 * FOOT, awg_area([10, 14, 18])) / 0.45359237
    assert pounds == pytest.approx([31.43, 12.43, 4.917], rel=1e-3)
