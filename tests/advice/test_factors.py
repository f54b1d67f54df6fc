"""Factors from mule to target: the two benches as worked out by hand, and what their own facts make of them."""

from __future__ import annotations

import pytest

from mulewright.advice.factors import BASIC, ROWS, FactorTable, factor_tables, rate_lesson
from mulewright.facts.catalog import find
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import number
from tests.designs import DESIGNS, evaluation
from tests.published import as_printed

TARGET = "two-benches/target.toml"


def benches(*sets: str) -> Evaluation:
    return evaluation("two-benches", sets, target=TARGET)


def table(on: Evaluation, moves: str) -> FactorTable:
    (found,) = (one for one in factor_tables(on) if one.moves == moves)
    return found


def factors(one: FactorTable) -> dict[str, float | None]:
    named = {row.node.name: number(row.node) for row in one.rows}
    return named | {symbol: number(node) for symbol, node in one.basic.items()}


def test_two_benches_by_hand() -> None:
    drive = factors(table(benches(), "drive"))
    printed = {
        "k_u": "1.267",
        "k_V": "1.158",
        "k_G": "1.000",
        "k_m": "1.000",
        "top_speed_factor": "1.467",
        "force_factor": "1.467",
        "stall_current_factor": "1.467",
        "battery_current_factor": "1.86",
        "winding_heat_factor": "2.15",
        "energy_factor": "2.15",
        "stop_factor": "2.15",
        "acceleration_factor": "1.467",
        "time_constant_factor": "1.00",
        "same_force_factor": "1.00",
        "slip_factor": "1.00",
    }
    assert drive.keys() == printed.keys()
    for name, text in printed.items():
        assert drive[name] == as_printed(text), name


def test_a_lift_is_held_by_the_same_volts_and_less_duty() -> None:
    lift = factors(table(benches(), "mechanism.lift"))
    assert lift["hold_volts_factor"] == pytest.approx(1)
    assert lift["hold_duty_factor"] == as_printed("0.864")  # 11.4 / 13.2
    assert "slip_factor" not in lift


def test_the_first_run_begins_at_one_over_k() -> None:
    assert table(benches(), "drive").cap == as_printed("0.682")
    less = benches("target:radio.channel.others.travel=50 %")
    assert table(less, "drive").cap == 1.0


def test_rate_into_gears_by_hand() -> None:
    lesson = rate_lesson(benches())
    assert lesson is not None
    (gears,) = lesson.gears
    assert len(gears.motors) == 4
    assert number(gears.factor) == as_printed("2.56")
    assert number(gears.before) == pytest.approx(31 / 17)
    assert number(gears.after) == as_printed("4.66")
    hidden = [number(one.factor) for one in lesson.hidden]
    assert hidden == [pytest.approx(one) for one in (1 / 0.36, 0.36, 0.6, 0.36)]


def geared(factor: float) -> Evaluation:
    """The two benches with the wheels of the target geared down."""
    gears = f'.gears=[{{ kind = "chain", ratio = {factor * 31 / 17} }}]'
    return benches(*(f"target:motor.{end}_*{gears}" for end in ("front", "rear")))


def test_gears_for_the_same_speed_give_the_same_speed() -> None:
    lesson = rate_lesson(benches())
    assert lesson is not None
    plain, counted = (number(one) for one in (lesson.gears[0].factor, lesson.gears[0].counted))
    assert plain is not None
    assert counted is not None
    accepted, coming = (
        float(find(geared(counted), f"motor.front_left.{name}_rim").value) for name in ("accepted", "coming")
    )
    assert coming == pytest.approx(accepted)
    assert factors(table(geared(plain), "drive"))["k_G"] == as_printed("2.56")
    faster = float(find(geared(plain), "motor.front_left.coming_rim").value)
    assert faster / coming == pytest.approx(counted / plain)
    assert 1 < counted / plain < 1.1


def test_wheels_count_like_gears() -> None:
    on = benches("target:drive.wheel.diameter=180 mm")
    drive = factors(table(on, "drive"))
    assert drive["k_G"] == pytest.approx(0.5)
    assert drive["top_speed_factor"] == pytest.approx(2 * 1.467, rel=1e-3)
    assert drive["time_constant_factor"] == pytest.approx(4)
    lesson = rate_lesson(on)
    assert lesson is not None
    assert number(lesson.gears[0].after) == pytest.approx(2 * 4.66, rel=1e-2)


def test_factors_agree_with_the_facts_of_both_machines() -> None:
    sets = (
        "target:motor.front_*.gears.0.driven_teeth=62",
        "target:motor.rear_*.gears.0.driven_teeth=62",
        "target:body.mass=18 kg",
        "target:drive.wheel.diameter=110 mm",
    )
    on = benches(*sets)
    drive = factors(table(on, "drive"))
    for name in ("time_constant",):
        before, after = (float(find(on, f"{mark}drive.{name}").value) for mark in ("", "target:"))
        assert drive[f"{name}_factor"] == pytest.approx(after / before)
    carried = benches("target:mechanism.lift.load=8 kg")
    torque = [float(find(carried, f"{mark}mechanism.lift.torque").value) for mark in ("", "target:")]
    assert factors(table(carried, "mechanism.lift"))["hold_volts_factor"] == pytest.approx(
        torque[1] / torque[0]
    )


def test_what_is_missing_is_named() -> None:
    drive = table(benches("target:body.mass=?"), "drive")
    lacking = {row.node.name: set(row.node.gaps) for row in drive.rows if not row.node.known}
    assert lacking.keys() == {"energy_factor", "acceleration_factor", "time_constant_factor", "slip_factor"}
    assert set().union(*lacking.values()) == {"target:body.mass"}


def test_motors_of_one_function_stand_apart_where_they_differ() -> None:
    on = benches("target:motor.front_left.gears.0.driven_teeth=62")
    tables = [one.motors for one in factor_tables(on) if one.moves == "drive"]
    assert sorted(map(len, tables)) == [1, 3]


def test_another_motor_is_told() -> None:
    assert table(benches(), "drive").other_motor is False
    assert table(benches("target:motor.front_left.part=gm-slow"), "mechanism.lift").other_motor is False
    lift = benches("target:motor.lift.part=gm-fast")
    assert table(lift, "mechanism.lift").other_motor is True


@pytest.mark.parametrize("rate", ["100 %", "?"])
def test_without_a_lowered_rate_there_is_no_lesson(rate: str) -> None:
    assert rate_lesson(benches(f"accepted.rate={rate}")) is None


def test_gears_that_cannot_be_told_name_what_they_need() -> None:
    lesson = rate_lesson(benches("target:controller.*.half_range=?"))
    assert lesson is not None
    lacking = {path for gears in lesson.gears for path in gears.after.gaps}
    assert lacking
    assert all(path.startswith("target:controller.") for path in lacking)


@pytest.mark.parametrize("design", DESIGNS)
def test_a_mule_beside_itself_is_multiplied_by_one(design: str) -> None:
    on = evaluation(design, target=f"{design}/mule.toml")
    for one in factor_tables(on):
        for row in one.rows:
            value = number(row.node)
            assert value is None or value == pytest.approx(1), (one.moves, row.quantity)


def test_every_row_names_a_fact_of_some_motor() -> None:
    on = benches()
    shown = {row.node.name for one in factor_tables(on) for row in one.rows}
    assert shown == {name for _, _, name in ROWS}
    assert {symbol for one in factor_tables(on) for symbol in one.basic} == set(BASIC)
