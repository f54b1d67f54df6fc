"""What `chain` answers, and what `check` says of it."""

from __future__ import annotations

import pytest

from tests.cli.conftest import Run, path_of
from tests.designs import DESIGNS

WINCH, CARRIER, CART = path_of("log-winch"), path_of("aisle-carrier"), path_of("tray-cart")
LINK_KEYS = set("thing what fails lasting value unit needs origin margin fact".split())


def test_a_chain_lists_the_weakest_link_first(mulewright: Run) -> None:
    ran = mulewright("chain", WINCH, "winch")
    assert (ran.code, ran.err) == (0, "")
    said = " ".join(ran.out.split())
    wire, rope, stall = (said.index(word) for word in ("252 N", "400 N 3.06 snaps", "436 N 3.33 stalls"))
    assert wire < rope < stall
    assert "At work 131 N; held fast 436 N." in said
    assert "needs motor.winch.hub_limit" in said


def test_the_chain_for_programs(mulewright: Run) -> None:
    (chain,) = mulewright("chain", WINCH, "winch", "--json").json["chains"]
    assert chain["function"] == "winch"
    assert chain["stalls_at"]["unit"] == "N"
    assert all(set(link) == LINK_KEYS for link in chain["links"])
    assert chain["first"] == "controller.winch:over@chain.winch.gives_at"
    known = [link["value"] for link in chain["links"] if link["value"] is not None]
    assert known == sorted(known)


@pytest.mark.parametrize("name", ["first", "first_in_time"])
def test_each_load_opens_down_to_what_was_typed(mulewright: Run, name: str) -> None:
    (chain,) = mulewright("chain", WINCH, "winch", "--json").json["chains"]
    explained = mulewright("explain", WINCH, chain[name])
    assert explained.code == 0
    assert "motor.winch.stall_torque" in explained.out


def test_a_drive_is_two_sides(mulewright: Run) -> None:
    both = mulewright("chain", CART, "drive", "--json").json["chains"]
    assert [one["function"] for one in both] == ["drive-left", "drive-right"]
    assert mulewright("chain", CART, "drive-left", "--json").json["chains"] == both[:1]


def test_two_servos_of_one_function_have_a_chain_each(mulewright: Run) -> None:
    sets = (
        "--set", "mechanism.arm={ kind = 'arm' }",
        "--set", "servo.tilt.moves=mechanism.arm",
        "--set", "servo.twin={ moves = 'mechanism.arm' }",
        "--set", "radio.control.KN.commands=arm",
    )  # fmt: skip
    every = mulewright("check", CARRIER, *sets, "--json").json["chains"]
    names = [chain["function"] for chain in every]
    assert len(set(names)) == len(names)
    both = mulewright("chain", CARRIER, "arm", *sets, "--json").json["chains"]
    assert [chain["function"] for chain in both] == ["arm-tilt", "arm-twin"]
    (one,) = mulewright("chain", CARRIER, "arm-twin", *sets, "--json").json["chains"]
    assert one == both[1]


def test_a_function_that_is_none_is_refused_with_the_nearest(mulewright: Run) -> None:
    ran = mulewright("chain", WINCH, "winsch")
    assert ran.code == 2
    assert "nothing moves 'winsch'" in ran.err
    assert "Closest: winch" in ran.err


def test_another_value_is_tried_without_touching_the_file(mulewright: Run) -> None:
    ran = mulewright("chain", WINCH, "winch", "--set", "mechanism.winch.rope.knots=true", "--json")
    rope = next(link for link in ran.json["chains"][0]["links"] if "rope" in link["thing"])
    assert rope["value"] == pytest.approx(200)
    assert rope["fails"] == "snaps"


@pytest.mark.parametrize("design", DESIGNS)
def test_check_says_what_gives_first_in_each_function(mulewright: Run, design: str) -> None:
    report = mulewright("check", path_of(design), "--json").json
    text = " ".join(mulewright("check", path_of(design)).out.split())
    for chain in report["chains"]:
        assert f" {chain['function']}: " in text
        assert mulewright("chain", path_of(design), chain["function"], "--json").json["chains"] == [chain]


def test_a_choice_of_checks_leaves_it_out(mulewright: Run) -> None:
    assert mulewright("check", CARRIER, "--only", "S01", "--json").json["chains"] == []
    assert "GIVES FIRST" not in mulewright("check", CARRIER, "--only", "S01").out
