"""Currents that wires bear: a rule and short-time laws."""

from collections.abc import Callable
from typing import Any

import pytest

from mulewright.errors import DomainError
from mulewright.models import ampacity
from mulewright.models.ampacity import (
    AREA_PER_AMPERE,
    CIRCULAR_MIL,
    adiabatic_heating_rate,
    area_rule_current,
    onderdonk_fusing_current,
    short_time_current,
    short_time_factor,
    tabled_current,
)
from mulewright.models.wire import T_20C, awg_area, copper_resistivity
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, outside

MM2 = 1e-6  # [m^2]
ZERO_C = 273.15  # [K]


@outside("W21", quantity="700 circular mils per ampere", source="common practice, no source", mark="T")
@pytest.mark.parametrize(
    ("gauge", "amperes"),
    [
        (10, "14.83"),
        (12, "9.33"),
        (14, "5.87"),
        (16, "3.69"),
        (18, "2.32"),
        (20, "1.46"),
        (22, "0.92"),
        (24, "0.58"),
        (26, "0.36"),
        (28, "0.23"),
    ],
)
def test_area_rule(gauge: int, amperes: str) -> None:
    agrees(area_rule_current(awg_area(gauge), AREA_PER_AMPERE), amperes)


@outside(
    "W29", quantity="adiabatic heating of copper at 10 A/mm^2", source="computed independently", mark="C"
)
def test_heating_rate_grows_with_the_square_of_the_current() -> None:
    slow, fast = adiabatic_heating_rate([10, -20], MM2, copper_resistivity(T_20C))
    agrees(slow, "0.4998")
    agrees(fast / slow, 4, case="twice the current")


@outside("W30", quantity="factor k of copper conductors", source="IEC 60364-5-54", mark="R")
@pytest.mark.parametrize(
    ("initial", "final", "k"),
    [(70, 160, "115"), (90, 250, "143"), (60, 200, "141")],
    ids=["PVC", "XLPE", "rubber"],
)
def test_short_time_factor(initial: float, final: float, k: str) -> None:
    agrees(short_time_factor(ZERO_C + initial, ZERO_C + final) * MM2, k)


@outside(
    "W30b", quantity="factor k from the constants 226 and 234.5", source="computed independently", mark="C"
)
def test_short_time_factor_to_five_figures() -> None:
    factors = short_time_factor([ZERO_C + 70, ZERO_C + 90], [ZERO_C + 160, ZERO_C + 250]) * MM2
    agrees(factors, [115.00, 143.08], abs=0.005)


def test_short_time_current_by_hand() -> None:
    assert short_time_factor(343, 343) == 0
    # 2.5 mm^2 of PVC wire for 0.25 s: 115 * 2.5 / 0.5 = 575 A
    assert short_time_current(2.5 * MM2, 0.25, 115e6) == pytest.approx(575)


@outside(
    "W32", quantity="fusing current of AWG 16 for 5 s", source="Onderdonk's equation, computed", mark="C"
)
def test_fusing_current() -> None:
    agrees(onderdonk_fusing_current(awg_area(16), 5, ZERO_C + 25), 168.9, rel=0.01)


@outside(
    "T0.1", quantity="fusing current of 2581 circular mils, 5 s", source="computed independently", mark="C"
)
def test_fusing_current_has_a_plus_where_a_worked_example_has_a_minus() -> None:
    current = onderdonk_fusing_current(2581 * CIRCULAR_MIL, 5, ZERO_C + 25)
    agrees(current, "168.86")
    assert current != pytest.approx(178, abs=5)  # the worked example's, with 234 - 25


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (area_rule_current, {"area": MM2, "area_per_ampere": AREA_PER_AMPERE}),
        (adiabatic_heating_rate, {"current": 50, "area": MM2, "resistivity": 1.9e-8}),
        (onderdonk_fusing_current, {"area": MM2, "duration": 5, "ambient": 300}),
        (short_time_factor, {"initial": 340, "final": 430}),
        (short_time_current, {"area": MM2, "duration": 5, "factor": 115e6}),
    ],
)
def test_models_keep_their_promises(model: Callable[..., Any], arguments: dict[str, Any]) -> None:
    assert_keeps_promises(model, arguments)


@pytest.mark.parametrize(
    ("model", "arguments", "says"),
    [
        ("area_rule_current", (-MM2, 1), "area must be >= 0"),
        ("area_rule_current", (MM2, 0), "area_per_ampere must be > 0"),
        ("adiabatic_heating_rate", (1, 0, 1.7e-8), "area must be > 0"),
        ("adiabatic_heating_rate", (1, MM2, -1), "resistivity must be >= 0"),
        ("onderdonk_fusing_current", (-MM2, 5, 300), "area must be >= 0"),
        ("onderdonk_fusing_current", (MM2, 0, 300), "duration must be > 0 s"),
        ("onderdonk_fusing_current", (MM2, 5, 39), r"ambient must be > 39\.15 K"),
        ("onderdonk_fusing_current", (MM2, 5, 1400), r"ambient must be < 1356\.15 K"),
        ("short_time_factor", (30, 400), r"initial must be > 38\.65 K"),
        ("short_time_factor", (400, 300), "final must be >= initial"),
        ("short_time_current", (-MM2, 1, 1), "area must be >= 0"),
        ("short_time_current", (MM2, 0, 1), "duration must be > 0 s"),
        ("short_time_current", (MM2, 1, -1), "factor must be >= 0"),
    ],
)
def test_impossible_inputs_are_refused_by_name(model: str, arguments: tuple[float, ...], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        getattr(ampacity, model)(*arguments)


def test_a_table_is_read_on_straight_lines_and_below_its_end_in_proportion() -> None:
    areas, currents = [0.2e-6, 0.5e-6, 1.0e-6], [4.0, 10.0, 15.0]
    assert tabled_current([0.5e-6, 0.75e-6, 0.2e-6], areas, currents) == pytest.approx([10.0, 12.5, 4.0])
    assert tabled_current([0.1e-6, 0.0], areas, currents) == pytest.approx([2.0, 0.0])
    assert tabled_current(9e-6, areas, currents) == pytest.approx(15.0)  # no more than the thickest
    with pytest.raises(DomainError, match="area"):
        tabled_current(-1e-6, areas, currents)
