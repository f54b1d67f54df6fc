"""Generic numbers: each is found by name, says how well founded it is, and counts as assumed."""

from typing import get_args

import numpy as np
import pytest

from mulewright.errors import NotFound
from mulewright.shelf import tables
from mulewright.shelf.tables import Mark, ampacity, column, default, group, row
from mulewright.units.gauge import awg_to_area
from mulewright.units.quantity import Origin
from tests.published import agrees, outside


@pytest.mark.parametrize(
    ("name", "si"),
    [
        ("neutral_pulse", 1.5e-3),
        ("reaction_time", 0.25),
        ("link_delay", 0.05),
        ("fail_safe_delay", 1.0),
        ("coasting_deceleration", 1.5),
        ("regulator_thermal_resistance", 30),
        ("winding_rise", 80),
        ("gear_efficiency.planetary", 0.9),
        ("rail_current.servo", 0.4),
    ],
)
def test_a_default_by_its_name(name: str, si: float) -> None:
    quantity = default(name)
    assert quantity.value == pytest.approx(si)
    assert quantity.origin is Origin.ASSUMED
    assert quantity.ref == row(name).source


def test_a_range_is_kept_as_one() -> None:
    quantity = default("gear_efficiency.worm")
    assert (quantity.low, quantity.high) == (0.3, 0.6)
    assert quantity.value == pytest.approx(0.45)


def test_an_unknown_name_is_answered_with_the_nearest() -> None:
    with pytest.raises(NotFound, match="Closest: neutral_pulse"):
        default("neutral_puls")
    with pytest.raises(NotFound, match="Closest: gear_efficiency"):
        group("gear_eficiency")
    with pytest.raises(NotFound, match="Closest: free-air"):
        column("freeair")


@pytest.mark.parametrize("found", tables.rows().values(), ids=lambda found: found.name)
def test_every_row_is_marked_and_sourced(found: tables.Row) -> None:
    assert found.mark in get_args(Mark)
    assert found.source
    assert found.about
    assert (found.mark == "from memory") <= ("from memory" in found.source)


def test_a_table_as_a_whole() -> None:
    stages = group("gear_efficiency")
    assert stages["spur"] == default("gear_efficiency.spur")
    assert all(0 < stage.value <= 1 for stage in stages.values())


@pytest.mark.parametrize("chemistry", group("cell_nominal"))
def test_a_cell_falls_from_fresh_to_empty(chemistry: str) -> None:
    fresh, full, nominal, empty = (
        group(f"cell_{state}")[chemistry].value for state in ("fresh", "full", "nominal", "empty")
    )
    assert fresh >= full > nominal > empty > 0


@pytest.mark.parametrize("found", tables.columns().values(), ids=lambda found: found.name)
def test_thicker_wire_bears_more(found: tables.Column) -> None:
    assert np.all(np.diff(found.areas) > 0)
    assert np.all(np.diff(found.currents) > 0)
    assert found.mark in get_args(Mark)
    assert found.source
    assert not found.currents.flags.writeable


def bears(gauge: int, table: str) -> float:
    areas, currents = column(table)
    return float(np.interp(awg_to_area(gauge), areas, currents))


@pytest.mark.parametrize(
    ("gauge", "amps"), [(22, 5), (20, 10), (18, 15), (16, 20), (14, 30), (12, 40), (10, 55)]
)
def test_the_usual_column(gauge: int, amps: float) -> None:
    assert bears(gauge, "short-chassis") == pytest.approx(amps)
    assert ampacity() is ampacity("short-chassis")


@outside(
    "W20",
    quantity="chassis wiring, gauges 16 and 18",
    source="Handbook of Electronic Tables and Formulas",
    mark="R",
)
def test_free_air() -> None:
    agrees([bears(16, "free-air"), bears(18, "free-air")], [22, 16])


@outside(
    "W22", quantity="current of 105 degC wire in 30 degC air", source="33 CFR 183.425, table E", mark="R"
)
def test_small_craft() -> None:
    agrees([bears(gauge, "small-craft") for gauge in (18, 16, 14, 12, 10, 8)], [20, 25, 35, 45, 60, 80])


@pytest.mark.parametrize("other", ["free-air", "small-craft"])
def test_the_usual_column_never_allows_more(other: str) -> None:
    gauges = [gauge for gauge in (10, 12, 14, 16, 18, 20, 22) if other == "free-air" or gauge <= 18]
    assert all(bears(gauge, "short-chassis") <= bears(gauge, other) for gauge in gauges)


@outside("W21b", quantity="700 circular mils for each ampere", source="common practice, no source", mark="T")
@pytest.mark.parametrize("gauge", range(10, 30, 2))
def test_bundled(gauge: int) -> None:
    circular_mil = np.pi / 4 * 25.4e-6**2
    agrees(awg_to_area(gauge) / circular_mil / 700, f"{bears(gauge, 'bundled'):.2f}")
