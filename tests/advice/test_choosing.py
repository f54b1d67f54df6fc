"""Choosing parts: the search against a plain loop over the facts, what is left out, what is said where nothing serves."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from mulewright.advice.choosing.bench import Bench, Option, Wanted, bench
from mulewright.advice.choosing.judge import judge_one
from mulewright.advice.choosing.search import search
from mulewright.advice.choosing.slots import Slots, slots_of
from mulewright.advice.choosing.tables import Asked, perhaps, tables_of
from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, Severity, run
from mulewright.design.resolve import load
from mulewright.facts.packs import FreshPackFacts
from mulewright.facts.serving import ServiceFacts
from mulewright.facts.wiring import FuseFacts
from mulewright.shelf.catalog import PACKAGED, Catalog
from mulewright.shelf.tables import default
from tests.choices import by_facts, laid_out, tables
from tests.designs import EXAMPLES

FEW = Wanted((1.0, 10.0), 1, (12, 24, 60), (0.03, 0.05), (("14 AWG", 2.0810e-6),))
FUNCTIONS = [("long-reach-pruner", "arm"), ("log-winch", "winch"), ("tray-cart", "drive")]
ASKED = Asked(1.5)


def small_shelf(folder: Path) -> Catalog:
    """Two motors, two controllers, two batteries."""
    for kind, id in [
        ("motor", "gm-slow"), ("motor", "gm-drive"), ("controller", "ctl-6l"), ("controller", "ctl-20s"),
        ("battery", "b-ni"), ("battery", "b-dry"),
    ]:  # fmt: skip
        (folder / kind).mkdir(parents=True, exist_ok=True)
        (folder / kind / f"{id}.toml").write_text(
            (PACKAGED / kind / f"{id}.toml").read_text("utf-8"), "utf-8"
        )
    return Catalog([folder])


def small(folder: Path, design: str, function: str) -> tuple[Bench, Slots]:
    on = laid_out(design, function)
    return on, slots_of(on, FEW, small_shelf(folder))


def reaches(service: ServiceFacts, asked: Asked) -> Iterator[float]:
    """What a candidate has over what is asked for, by the facts alone."""
    margin, speed, *_, unbroken = by_facts(service)
    yield margin / asked.margin
    yield 1.0 if speed > asked.slowest else 0.0
    yield asked.fastest / speed if speed > 0 else 0.0
    yield unbroken
    yield from (1 / perhaps(service.of(FreshPackFacts, one), "fresh_share") for one in service.controllers)
    yield from (1 / perhaps(fuse, "over_wire") for fuse in FuseFacts.all(service.evaluation))


def merit(numbers: list[float], asked: Asked) -> list[float]:
    margin, speed, current, heat, mass = numbers[:5]
    signed = [min(margin, asked.margin * default("plenty").value), speed, -current, heat, -mass]
    return [-np.inf if np.isnan(value) else value for value in signed]


def severe(on: Bench, options: tuple[Option, ...] = ()) -> int:
    """Checks that forbid the use of something that is not the function's own."""
    service = on.service(*options)
    own = (*service.motors, *service.controllers, service.target, f"chain.{service.name}", f"{service.name}-")
    return len({
        one.check.id
        for one in run(service.evaluation, CHECKS.values())
        if one.outcome is Outcome.TRIP and one.severity >= Severity.STOP and not one.entity.startswith(own)
    })  # fmt: skip


def brought(on: Bench, slots: Slots) -> list[dict[str, int]]:
    """Findings that each controller, battery and wire brings along, by itself."""
    now = severe(on)
    judged = (slots.controllers, slots.batteries, slots.wires)
    return [{one.label: severe(on, (one,)) - now if one.edits else 0 for one in slot} for slot in judged]


@pytest.mark.parametrize(("design", "function"), FUNCTIONS)
def test_a_plain_loop_over_the_facts_finds_the_same(tmp_path: Path, design: str, function: str) -> None:
    on, slots = small(tmp_path, design, function)
    found = tables_of(on, slots, ASKED)
    served = search(found, 0.0)
    every: dict[int, list[float]] = {}
    bring = brought(on, slots)
    for place, options in enumerate(itertools.product(*slots.all)):
        service = on.service(*options)
        reach = [one for one in reaches(service, ASKED) if not np.isnan(one)]
        if min(reach) >= 1:
            every[place] = [
                *merit(by_facts(service), ASKED),
                -sum(own[option.label] for own, option in zip(bring, options[3:], strict=True)),
            ]
    assert served.tried == found.count == len(list(itertools.product(*slots.all)))
    assert served.feasible == len(every) > 0
    best = {
        place
        for place, own in every.items()
        if not any(np.array_equal(np.maximum(own, one), one) and one != own for one in every.values())
    }
    alike = {tuple(np.round(every[place], 9)) for place in best}
    assert {tuple(np.round(every[int(place)], 9)) for place in served.places} == alike
    assert set(served.places.tolist()) <= set(every)


def test_a_broken_part_and_one_that_is_too_few_are_left_out_with_the_reason(tmp_path: Path) -> None:
    drawer = small_shelf(tmp_path)
    (tmp_path / "motor" / "cracked.toml").write_text('stall_torque = "12 apples"', "utf-8")
    (tmp_path / "motor" / "lonely.toml").write_text(
        (PACKAGED / "motor" / "gm-drive.toml").read_text("utf-8") + "\ncount = 1\n", "utf-8"
    )
    (tmp_path / "battery" / "unlabelled.toml").write_text('rested = "12 V"', "utf-8")
    every = Catalog([PACKAGED, tmp_path])
    on = bench(load(EXAMPLES / "tray-cart" / "mule.toml", catalog=every), "drive")
    slots = slots_of(on, FEW, drawer)
    found = tables_of(on, slots, ASKED)
    assert "motor lonely: 1 on the shelf, 2 needed" in slots.skipped
    assert "battery unlabelled: needs battery.main.resistance" in slots.skipped
    assert any("cracked" in reason and "stall_torque" in reason for reason in slots.skipped)
    assert [motor.label for motor in slots.motors] == ["gm-drive", "gm-slow"]
    assert search(found, 0.1).feasible > 0


def test_where_nothing_serves_the_nearest_is_named() -> None:
    _, _, found = tables("winch", Asked(400.0))
    served = search(found, 0.1)
    assert (served.feasible, len(served.places)) == (0, 0)
    assert served.nearest is not None
    place, reach, lacks = served.nearest
    assert lacks == 0  # the margin
    assert 0 < reach < 1
    assert 0 <= place < found.count
    assert sum(served.lacking.values()) == found.count


def test_an_interrupt_keeps_what_was_found_so_far() -> None:
    _, _, found = tables("drive of two wheels")

    def tick(done: int, of: int) -> None:
        assert 0 < done <= of
        raise KeyboardInterrupt

    served = search(found, 0.1, tick)
    assert 0 < served.tried < served.candidates
    assert not served.complete
    assert len(served.places) > 0


def test_what_the_file_says_of_the_old_part_gives_way(tmp_path: Path) -> None:
    sets = ("battery.main.rested=12.1 V", "controller.arm.calibrated_to=400 us", "motor.arm.mass=0.5 kg")
    loaded = load(EXAMPLES / "long-reach-pruner" / "mule.toml", settings=sets)
    on = bench(loaded, "arm", sets)
    slots = slots_of(on, FEW, small_shelf(tmp_path))

    def option(options: list[Option], label: str) -> Option:
        return next(one for one in options if one.label == label)

    file = on.mule(option(slots.batteries, "b-dry"), option(slots.controllers, "ctl-20s")).file
    assert file.battery["main"].quantity("rested").value == 12.4  # type: ignore[union-attr]
    assert file.controller["arm"].calibrated_to is None
    assert file.controller["arm"].stopping == "brake"  # it may do either, so the jumper stays
    now, other = (
        on.mule(slots.motors[0]).file.motor["arm"],
        on.mule(option(slots.motors, "gm-drive")).file.motor["arm"],
    )
    assert (now.quantity("mass").value, other.quantity("mass").value) == (0.5, 0.33)  # type: ignore[union-attr]


def test_the_settings_of_a_candidate_give_the_same_mule(tmp_path: Path) -> None:
    on, slots = small(tmp_path, "log-winch", "winch")
    options = [slot[-1] for slot in slots.all]
    judged = judge_one(on, options)
    again = load(EXAMPLES / "log-winch" / "mule.toml", settings=judged.settings)
    assert judge_one(bench(again, "winch", judged.settings), []).numbers == pytest.approx(
        judged.numbers, nan_ok=True
    )


def test_every_limit_that_is_asked_for_belongs_to_a_check() -> None:
    assert {"M05", "M12", "M24", "M31", "M34", "P21"} <= set(CHECKS)
