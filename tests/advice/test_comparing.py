"""What differs: verdicts by which way they went, inputs as typed, facts by how much; and nothing where nothing does."""

from __future__ import annotations

import math
from typing import Any

import pytest

from mulewright.advice.comparing import Turn, changed_verdicts, compares_both, standing
from mulewright.advice.differing import changed_facts, changed_inputs
from mulewright.checks import CHECKS
from mulewright.checks.engine import run
from mulewright.facts.graph import Evaluation
from mulewright.tasks.comparing import CompareReport, State, compare_files
from tests.designs import DESIGNS, EXAMPLES, evaluation

CART = EXAMPLES / "tray-cart" / "mule.toml"
MULE, TARGET = (EXAMPLES / "two-benches" / name for name in ("mule.toml", "target.toml"))


def states(design: str, *sets: str, variant: str | None = None) -> CompareReport:
    path = EXAMPLES / design / "mule.toml"
    return compare_files(State(path), State(path, sets, variant))


def turns(report: CompareReport) -> dict[tuple[str, str], tuple[str, str, str]]:
    return {(one.check.id, one.entity): (one.turn.value, one.was, one.now) for one in report.verdicts}


def by_path(report: CompareReport) -> dict[str, tuple[Any, Any]]:
    return {one["path"]: (one["before"], one["after"]) for one in report.as_dict()["inputs"]}


@pytest.mark.parametrize("design", DESIGNS)
def test_a_file_beside_itself_differs_in_nothing(design: str) -> None:
    report = states(design)
    assert report.same
    assert not report.two_machines


def test_every_way_that_a_verdict_can_go() -> None:
    lower = turns(states("tray-cart", "radio.channel.others.travel=79 %"))
    assert lower["S01", "controller.left"] == ("worse", "pass", "trip-warn")
    assert lower["M11", "controller.left"] == ("better", "trip-note", "pass")
    unknown = turns(states("tray-cart", "controller.*.dead_band=?"))
    assert unknown["S01", "controller.left"] == ("newly-unknown", "pass", "cannot-tell")
    assert unknown["M11", "controller.left"] == ("newly-unknown", "trip-note", "cannot-tell")
    back = compare_files(State(CART, ("controller.*.dead_band=?",)), State(CART))
    assert turns(back)["S01", "controller.left"] == ("settled", "cannot-tell", "pass")
    assert turns(back)["M11", "controller.left"] == ("worse", "cannot-tell", "trip-note")
    other = compare_files(State(EXAMPLES / "aisle-carrier" / "mule.toml"), State(CART))
    assert turns(other)["M25", "mechanism.lift"] == ("gone", "trip-stop", "absent")


def test_the_worst_stand_first() -> None:
    report = compare_files(State(MULE), State(TARGET))
    order = [list(Turn).index(one.turn) for one in report.verdicts]
    assert order == sorted(order)
    worse = [one.now for one in report.of(Turn.WORSE)]
    assert worse == sorted(worse, key=["trip-block", "trip-stop", "trip-warn", "trip-note"].index)


def test_verdicts_are_those_of_each_file_alone() -> None:
    report = compare_files(State(MULE), State(TARGET))
    alone = [rule for rule in CHECKS.values() if not compares_both(rule)]
    sides = [run(evaluation(f"two-benches/{name}.toml"), alone) for name in ("mule", "target")]
    here, there = ({(one.check.id, one.entity): standing(one) for one in side} for side in sides)
    told = {
        key: (was, now) for key, (_, was, now) in turns(report).items() if key[0] in {r.id for r in alone}
    }
    for key in here.keys() | there.keys():
        was, now = here.get(key, "absent"), there.get(key, "absent")
        if key in told and key != ("P05", "rail.receiver"):  # of a target another check stands for P05
            assert told[key] == (was, now)
        elif key[0] != "P05":
            assert was == now or {was, now} <= {"absent", "not-applicable"}


def test_what_got_worse_from_here_to_there_gets_better_on_the_way_back() -> None:
    sets = ("radio.channel.others.travel=79 %",)
    there, back = (changed_verdicts(*sides) for sides in _both_ways(sets))
    assert {(one.check.id, one.entity, one.was, one.now) for one in there} == {
        (one.check.id, one.entity, one.now, one.was) for one in back
    }


def _both_ways(sets: tuple[str, ...]) -> list[list[Any]]:
    plain, other = (run(evaluation("tray-cart", one), CHECKS.values()) for one in ((), sets))
    return [[plain, other], [other, plain]]


# --- inputs


def test_inputs_are_shown_as_typed_and_as_numbers() -> None:
    (one,) = states("aisle-carrier", "body.mass=12 kg").as_dict()["inputs"]
    assert one == {
        "path": "body.mass",
        "before": 11.0,
        "after": 12.0,
        "unit": "kg",
        "text": {"before": "11.0 kg", "after": "12 kg"},
        "origin": {"before": "measured with luggage scale", "after": "typed"},
    }


def test_another_unit_for_the_same_number_is_no_difference() -> None:
    length = evaluation("tray-cart").mule.file.wire["main"].length
    assert length is not None
    sets = [f"wire.main.length={length.value * factor:g} {unit}" for factor, unit in ((1, "m"), (1000, "mm"))]
    assert compare_files(State(CART, sets[:1]), State(CART, sets[1:])).same


def test_another_origin_or_interval_is_one() -> None:
    mass = 'body.mass={ value = "11.0 kg", from = "measured", plus_minus = "0.2 kg" }'
    sides = [evaluation("aisle-carrier", one).mule for one in ((mass,), ("body.mass=11 kg",))]
    assert [one.path for one in changed_inputs(*sides)] == ["body.mass"]


def test_what_is_left_out_is_null_and_so_is_what_was() -> None:
    assert by_path(states("tray-cart", "body.mass=?"))["body.mass"][1] is None
    assert by_path(compare_files(State(CART, ("body.mass=?",)), State(CART)))["body.mass"][0] is None


def test_a_channel_of_the_fail_safe_is_named_as_it_is_typed() -> None:
    sides = [evaluation("tray-cart", one).mule for one in ((), ("receiver.fail_safe.5=hold",))]
    assert [(one.path, one.typed) for one in changed_inputs(*sides)] == [("receiver.fail_safe.5", True)]


def test_lists_and_choices_are_compared_whole() -> None:
    report = states("two-benches", 'room.surfaces=["rubber mat", "gravel"]', "mechanism.lift.ratchet=false")
    assert by_path(report) == {
        "room.surfaces": (["rubber mat"], ["rubber mat", "gravel"]),
        "mechanism.lift.ratchet": (True, False),
    }


def test_values_of_another_part_are_told_from_what_was_typed() -> None:
    report = states("tray-cart", "battery.main.part=b-li")
    typed = {one.path: one.typed for one in report.inputs}
    assert typed["battery.main.part"]
    assert not typed["battery.main.capacity"]


def test_others_of_a_radio_count_as_typed() -> None:
    report = states("tray-cart", "radio.channel.others.travel=79 %")
    assert {one.path for one in report.inputs} == {f"radio.channel.{n}.travel" for n in range(1, 9)}
    assert all(one.typed for one in report.inputs)


def test_a_thing_on_one_side_only_is_named() -> None:
    report = compare_files(State(MULE), State(TARGET))
    assert report.only == (["regulator.servo", "wire.servo"], ["regulator.unit", "wire.unit"])
    told = report.as_dict()
    assert told["before"]["only"] == ["regulator.servo", "wire.servo"]
    assert by_path(report)["regulator.unit.voltage"] == (None, 6.0)


def test_another_variant_in_the_file_is_no_input() -> None:
    assert states("two-benches", variant="settings-noted").inputs
    assert not any(one.path.startswith("variant") for one in states("two-benches").inputs)


# --- facts


def test_facts_that_moved_most_stand_first() -> None:
    facts = states("tray-cart", "radio.channel.others.travel=79 %").facts
    sizes = [one.relative for one in facts if one.relative is not None]
    assert sizes == sorted(sizes, reverse=True)
    assert len(sizes) > 100
    duty = next(one for one in facts if (one.entity, one.name) == ("controller.left", "full_duty"))
    before, after = duty.numbers
    assert before == pytest.approx(0.958, abs=1e-3)
    assert after == pytest.approx(0.613, abs=1e-3)
    assert duty.relative == pytest.approx((0.958 - 0.613) / 0.958, abs=2e-3)


def test_a_fact_that_cannot_be_worked_out_any_more_is_told() -> None:
    report = states("tray-cart", "body.mass=?")
    weight = next(
        one for one in report.as_dict()["facts"] if (one["entity"], one["name"]) == ("body", "weight")
    )
    assert weight["before"] == pytest.approx(9.81 * 6, rel=0.5)
    assert (weight["after"], weight["change"], weight["on"]) == (None, None, "both")


def test_facts_without_bound_are_alike() -> None:
    on = [evaluation("tray-cart") for _ in range(2)]
    assert changed_facts(*on) == []
    assert any(math.isinf(node.value) for node in _every(on[0]))


def _every(on: Evaluation) -> Any:
    from mulewright.facts.catalog import every_fact

    return (node for node in every_fact(on) if node.value.ndim == 0)


def test_facts_of_both_machines_together_are_no_facts_of_one() -> None:
    report = compare_files(State(MULE), State(TARGET))
    assert not [one for one in report.facts if one.entity in ("handover", "alike.push", "accepted")]
    assert not [one for one in report.facts if one.entity.startswith("target:")]
    only = {one.entity: one.sides for one in report.facts if one.entity == "regulator.unit"}
    assert only == {"regulator.unit": "after"}


# --- one mule or two machines


@pytest.mark.parametrize(
    ("first", "second", "two"),
    [
        (State(MULE), State(TARGET), True),
        (State(MULE), State(TARGET, ("name=Pot mover",)), True),  # the first names it as its target
        (State(CART), State(MULE, ("name=Tray cart",)), False),
        (State(MULE), State(MULE, ("name=another",)), False),
        (State(CART), State(MULE), True),
    ],
)
def test_two_machines_are_told_from_two_states(first: State, second: State, two: bool) -> None:
    report = compare_files(first, second)
    assert report.two_machines is two
    assert bool(report.tables) is (two and first.path == MULE)
    assert report.as_dict()["factors"]["two_machines"] is two
