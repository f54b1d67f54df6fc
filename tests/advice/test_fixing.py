"""What is offered, what a plan clears, and that it makes nothing worse: tried out on the shipped designs."""

from __future__ import annotations

from datetime import date
from functools import cache

import pytest

from mulewright.advice.fixing.allowance import Allowance
from mulewright.advice.fixing.bench import NOTHING, Bench
from mulewright.advice.fixing.offers import Offers, Terms
from mulewright.advice.fixing.plan import Planner
from mulewright.advice.fixing.search import solve
from mulewright.advice.fixing.steps import Step
from mulewright.checks import CHECKS
from mulewright.checks.engine import Severity
from mulewright.design.resolve import overlaid
from mulewright.shelf.changes import change_of, changes, cost_classes
from tests.advice.oracle import brute_force
from tests.designs import mule


def terms(*allowed: str, **costs: float) -> Terms:
    classes = cost_classes()
    every = {name: one.cost for name, one in classes.items()} | costs
    return Terms(frozenset(allowed or {one.allow for one in classes.values()}), every, date(2026, 11, 7))


def planner(
    design: str, *ids: str, sets: tuple[str, ...] = (), allowed: tuple[str, ...] = (), most: int = 4000
) -> Planner:
    loaded = mule(design, sets).loaded
    bench = Bench(loaded, overlaid(loaded.base, sets), Severity.WARN)
    checks = [CHECKS[id] for id in ids] or list(CHECKS.values())
    return Planner(bench, Offers(bench, terms(*allowed)), checks, Allowance(most, 60))


@cache
def of(design: str, *ids: str) -> Planner:
    return planner(design, *ids)


def keys(steps: tuple[Step, ...]) -> set[str]:
    return {step.key for step in steps}


@pytest.mark.parametrize(
    ("design", "ids", "cures"),
    [
        ("hose-tug", ("P16", "P15"), {'switch.main.conductor="plus"'}),
        ("hose-tug", ("S06",), {'controller.right.polarity="straight"'}),
        ("hose-tug", ("P31",), {'battery.main.alarm="3.4 V"'}),
        ("hose-tug", ("S20",), {"radio.mix.0.active=false"}),
        ("log-winch", ("P21", "P26"), {'wire.main.gauge="14 AWG"'}),
        ("log-winch", ("X13",), {"checklist.eyes=true", "checklist.hair_and_sleeves=true"}),
        ("log-winch", ("M07", "M25"), {"mechanism.winch.ratchet=true"}),
        ("long-reach-pruner", ("X01", "X02", "X03"), {'body.wheelbase="0.38 m"'}),
        ("long-reach-pruner", ("M15",), {'radio.channel.3.travel="70 %"'}),
        ("leaf-sweeper", ("S07",), {'controller.roller.signal="receiver.6"'}),
        ("soft-fruit-gripper", ("M22",), {"mechanism.gripper.closes_beyond=false"}),
        ("vine-lift", ("P02",), {'controller.left.red_wire="pulled"', 'controller.lift.red_wire="pulled"'}),
    ],
)
def test_the_cheapest_cure_of_a_few_checks(design: str, ids: tuple[str, ...], cures: set[str]) -> None:
    plan = of(design, *ids).plan(clean=False)
    assert plan.left == ()
    assert plan.proven
    assert keys(plan.steps) == cures


@pytest.mark.parametrize(
    ("design", "ids"),
    [
        ("hose-tug", ("S01", "S20")),
        ("log-winch", ("P21", "P31", "X13")),
        ("seed-ball-thrower", ("P02", "P03", "X13")),
        ("vine-lift", ("P02", "X07")),
        ("long-reach-pruner", ("X02", "X03", "X07")),
    ],
)
def test_the_cheapest_set_is_that_of_looking_at_every_set(design: str, ids: tuple[str, ...]) -> None:
    found = of(design, *ids)
    puzzle = found._puzzle(clean=False)
    atoms = {step for steps in puzzle.helps.values() for step in steps}
    assert 2 < len(atoms) < 18
    found.allowance.refill(1.0)
    best = solve(puzzle, found.targets, found.allowance)
    truth = brute_force(puzzle, found.targets)
    assert best.total == pytest.approx(truth.total)
    assert best.left == truth.left


def test_numbers_are_set_no_further_than_needed_in_steps_that_one_can_set() -> None:
    found = of("tray-cart", "S01")
    assert found.targets == []
    short = planner("tray-cart", "S01", sets=("radio.channel.others.travel=100 %",), allowed=("settings",))
    (step,) = short.plan(clean=False).steps[:1]
    assert step.to == "120 %"  # 119 % of 400 us, less a dead band of 25 us, is 94.9 % of the rest of 500 us
    fuse = planner("log-winch", "P21", allowed=("wiring",))
    assert {step.to for step in fuse.known if step.path == "fuse.main.rating"} == {"7.5 A"}


def test_a_cure_that_breaks_something_else_comes_with_what_mends_that() -> None:
    plan = planner("vine-lift", "P27", "P30", "P23", "P24", allowed=("parts", "wiring")).plan(clean=False)
    assert plan.left == ()
    assert 'battery.main.part="b-ni"' in {key.split(";")[0] for key in keys(plan.steps)}
    assert any(step.path == "wire.main.path" for step in plan.steps)  # its fuse


def test_a_new_part_does_not_keep_what_was_measured_on_the_old_one() -> None:
    found = planner(
        "aisle-carrier", "M05", "P31", "P30", sets=("battery.main.rested=9 V",), allowed=("parts",)
    )
    swaps = [step for step in found.known if step.path == "battery.main.part"]
    assert all("battery.main.rested" in dict(step.settings) for step in swaps)


def test_only_what_is_allowed_is_offered() -> None:
    found = planner("log-winch", allowed=("records", "settings"))
    assert {cost_classes()[step.kind].allow for step in found.known} <= {"records", "settings"}
    assert any(step.record for step in found.known)


def test_the_cleanest_set_waives_nothing_and_asks_no_less_of_the_machine() -> None:
    plan = of("long-reach-pruner").plan(clean=True)
    assert all(step.clean for step in plan.steps)
    assert {one.id for one in plan.left} == {("S01", "controller.arm"), ("X07", "mechanism.arm")}


def test_a_finding_that_stops_or_blocks_is_never_waived() -> None:
    found = planner("log-winch", "P21", allowed=("waivers",))
    assert found.moves[found.targets[0]] == set()
    assert [one.id for one in found.plan(clean=False).left] == [("P21", "fuse.main")]


def test_a_search_that_may_try_little_says_so_and_keeps_to_what_helps() -> None:
    plan = planner("leaf-sweeper", most=10).plan(clean=False)
    assert not plan.proven


def test_every_change_can_be_read_and_is_costed() -> None:
    assert all(change.cost in cost_classes() for change in changes())
    assert change_of("motor.lift.stall_torque") is None  # what a sheet says is not changed
    assert change_of("radio.channel.3.travel") is not None


def test_nothing_is_tried_twice() -> None:
    found = planner("hose-tug", "S06")
    before = found.bench.built
    found.plan(clean=False)
    assert found.bench.tried(NOTHING) is found.bench.tried(NOTHING)
    assert found.bench.built - before < 20
