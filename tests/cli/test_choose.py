"""What `choose` answers, refuses and draws."""

from __future__ import annotations

from pathlib import Path

import pytest

from mulewright.tasks.choice_request import Request
from mulewright.tasks.choosing import choose
from tests.cli.conftest import Run, path_of

ARM, WINCH, CART, SWEEPER = map(path_of, ("long-reach-pruner", "log-winch", "tray-cart", "leaf-sweeper"))
QUICK = ("--keep", "battery", "--keep", "controller", "--keep", "wire", "--stages", "1")
KEYS = set(
    "mule function candidates tried complete feasible options asked alike units now pareto trips_anyway nearest "
    "skipped".split()
)
CANDIDATE = set(
    "motor ratio size controller battery wire margin speed current heat mass weakest fails trips settings".split()
)


def test_the_best_few_stand_in_tables_that_fit(mulewright: Run) -> None:
    ran = mulewright("choose", ARM, "arm")
    assert (ran.code, ran.err) == (0, "")
    lines = ran.out.splitlines()
    assert lines[0].startswith("arm: 41 160 candidates, ")
    assert all(len(line) <= 80 for line in lines if "mulewright check" not in line)
    assert "1: best balance" in ran.out
    assert "gives first in 1" in ran.out
    assert "motor.arm (gearbox) snaps" in ran.out  # as the file has it


def test_the_choice_for_programs(mulewright: Run) -> None:
    found = mulewright("choose", ARM, "arm", "--json").json
    assert set(found) == KEYS
    assert found["candidates"] == found["tried"]
    assert 0 < len(found["pareto"]) < found["feasible"] < found["candidates"]
    assert all(set(one) == CANDIDATE for one in found["pareto"])
    assert found["units"]["speed"] == "rad/s"
    for one in found["pareto"]:
        assert one["margin"] >= found["asked"]["margin"] == 2
    best = found["pareto"][0]
    assert not [trip for trip in best["trips"] if trip["severity"] in ("stop", "block")]


def test_number_one_can_be_checked_as_it_is_printed(mulewright: Run) -> None:
    best = mulewright("choose", ARM, "arm", "--json").json["pareto"][0]
    settings = [word for setting in best["settings"] for word in ("--set", setting)]
    facts = mulewright("facts", ARM, "--json", *settings).json["facts"]
    margin = next(one for one in facts if (one["entity"], one["name"]) == ("service.arm", "margin"))
    assert margin["value"] == pytest.approx(best["margin"])


def test_ranges_and_slots_can_be_named(mulewright: Run) -> None:
    found = mulewright(
        "choose", WINCH, "winch", *QUICK, "--drum", "20..40 mm", "--step", "10 mm", "--teeth", "12, 24",
        "--ratio", "2..2", "--margin", "0.1", "--json",
    ).json  # fmt: skip
    assert found["options"]["size"] == 3
    assert found["options"]["ratio"] == 2  # what the file has, and 12:24
    assert found["options"]["wire"] == found["options"]["battery"] == found["options"]["controller"] == 1


def test_only_the_parts_of_a_shelf(mulewright: Run, tmp_path: Path) -> None:
    assert mulewright("shelf", "list", "--kind", "motor").code == 0
    (tmp_path / "motor").mkdir()
    found = mulewright("choose", ARM, "arm", "--shelf", tmp_path, *QUICK, "--json").json
    assert found["options"]["motor"] == 1
    assert mulewright("choose", ARM, "arm", "--shelf", tmp_path / "none").err.startswith(
        str(tmp_path / "none")
    )


def test_nothing_serves_and_the_nearest_is_told(mulewright: Run) -> None:
    ran = mulewright("choose", ARM, "arm", *QUICK, "--margin", "500")
    assert ran.code == 1
    said = " ".join(ran.out.split())
    assert "Nothing on the shelf serves. Nearest comes" in said
    assert "of the margin that is asked for, " in said
    assert said.endswith(" % too little.")
    assert "Trips whatever" not in said
    near = mulewright("choose", ARM, "arm", *QUICK, "--margin", "500", "--json").json["nearest"]
    assert near["lacks"] == "margin"
    assert 0 < near["reach"] < 1


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("amr",), "no motor serves 'amr'"),
        (("forward",), "chosen as a whole: drive"),
        (("arm", "--ratio", "9..3"), "the lowest value first"),
        (("arm", "--ratio", "0..3"), "is no ratio"),
        (("arm", "--ratio", "3.."), "LOWEST..HIGHEST"),
        (("arm", "--stages", "9"), "so many gear stages"),
        (("arm", "--teeth", "12,x"), "is no number of teeth"),
        (("arm", "--teeth", "2"), "is no toothed wheel"),
        (("arm", "--drum", "20..40 mm"), "no drum, wheel or roller"),
        (("drive", "--wheel", "20..40"), "not a length"),
        (("drive", "--wheel", "0..40 mm"), "is no diameter"),
        (("drive", "--wheel", "1..4 m", "--step", "0.1 mm"), "too many steps"),
        (("drive", "--step", "0 mm"), "is no step"),
        (("arm", "--wire", "14 kg"), "not a"),
        (("arm", "--margin", "-1"), "is no margin"),
        (("arm", "--speed", "3..2 deg/s"), "the lowest value first"),
        (("arm", "--keep", "moter"), "nothing that is chosen"),
        (("arm", "--alike", "120 %"), "is no share"),
        (("arm", "--plot", "picture.gif"), "ends in .svg or .png"),
    ],
)
def test_what_cannot_be_tried_is_refused(mulewright: Run, words: tuple[str, ...], says: str) -> None:
    ran = mulewright("choose", ARM, *words, *(QUICK if "--stages" not in words else ()))
    assert ran.code == 2
    assert says in ran.err
    assert "Traceback" not in ran.err


def test_a_load_that_is_unknown_is_named(mulewright: Run) -> None:
    ran = mulewright("choose", SWEEPER, "roller")
    assert ran.code == 2
    assert "needs mechanism.roller.load_torque" in ran.err


def test_an_interrupt_gives_the_best_so_far() -> None:
    def stop(what: str, done: int, of: int) -> None:
        if what != "candidates" and done == 2:
            raise KeyboardInterrupt

    found = choose(ARM, "arm", Request(stages=1), progress=stop)
    assert not found.complete
    assert len(found.verdicts.best) == 2


def test_a_picture_is_drawn_the_same_each_time(mulewright: Run, tmp_path: Path) -> None:
    for name in ("one.svg", "two.svg", "one.png"):
        assert mulewright("choose", ARM, "arm", *QUICK, "--plot", tmp_path / name).code == 0
    one, two = ((tmp_path / name).read_text("utf-8") for name in ("one.svg", "two.svg"))
    assert one == two
    assert "Long-reach pruner: what could serve the arm" in one
    assert (tmp_path / "one.png").read_bytes().startswith(b"\x89PNG")


def test_a_place_that_cannot_be_written_is_named(mulewright: Run, tmp_path: Path) -> None:
    ran = mulewright("choose", ARM, "arm", *QUICK, "--plot", tmp_path / "no" / "such.svg")
    assert ran.code == 2
    assert "such.svg" in ran.err
