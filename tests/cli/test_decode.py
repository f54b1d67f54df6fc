"""The command ``decode``: pushes typed, noted or asked for, and what is said to whoever types nonsense."""

from __future__ import annotations

import io
import json
import shutil
from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from rich.cells import cell_len

from mulewright.design.resolve import load
from mulewright.tasks.decoding import Typed, begin
from tests.cli.conftest import Run, path_of
from tests.designs import DESIGNS

CARRIER, TUG, CART, WINCH = (path_of(n) for n in ("aisle-carrier", "hose-tug", "tray-cart", "log-winch"))
BENCHES = path_of("two-benches")
AS_FOUND = "FL:+++ FR:+-+ RL:+-- RR:--+"
RIGHT = "FL:+++ FR:+-- RL:+-+ RR:++-"


def done(fix: dict[str, Any]) -> list[tuple[str, Any]]:
    """The things to do, each with what it is done to."""
    keys = ("wheels", "inputs", "control", "wheel")
    return [(one["kind"], next((one[key] for key in keys if key in one), None)) for one in fix["actions"]]


def test_carrier_as_found(mulewright: Run) -> None:
    """Front right and rear left exchanged, rear right reversed: 1.4, then 1.5, then 1.6."""
    for words in (("--variant", "as-found"), ("--pushes", AS_FOUND)):
        found = mulewright("decode", CARRIER, *words, "--json").json
        assert found["complete"]
        assert found["faults"] == []
        assert found["next_push"] is None
        assert found["explanations"] == 48
        assert found["explanations_that_fit"] == 6
        wheels = found["state"]["wheels"]
        assert {wheel: part["gets_signal_of"] for wheel, part in wheels.items()} == {
            "front_left": "front_left",
            "front_right": "rear_left",
            "rear_left": "front_right",
            "rear_right": "rear_right",
        }
        assert [wheel for wheel, part in wheels.items() if part["reversed"]] == ["rear_right"]
        assert [fix["cost"] for fix in found["ranked"][:3]] == [1.4, 1.5, 1.6]
        first, second, third = map(done, found["ranked"][:3])
        leads = ("swap-motor-leads", "rear_right")
        assert first == [("swap-plugs", [["front_right"], ["rear_left"]]), leads]
        assert second == [
            ("swap-plugs", [["front_left"], ["rear_right"]]), ("reverse-control", "turn"), leads
        ]  # fmt: skip
        assert third == [
            ("swap-inputs", ["forward", "strafe"]),
            *(("reverse-control", command) for command in ("forward", "strafe", "turn")),
            ("swap-motor-leads", "front_left"),
        ]
        assert found["cheapest"] == found["ranked"][0] == found["cleanest"]
        moves, leads_ = found["cheapest"]["actions"]
        assert (moves["push_again"], leads_["push_again"]) == (True, False)
        assert moves["expect"]["rear_right"] == "--+"
        assert leads_["expect"] == found["wanted"]


def test_tug_mixed_twice_then_once(mulewright: Run) -> None:
    found = mulewright("decode", TUG, "--json").json
    assert [fault["kind"] for fault in found["faults"]] == ["double-mixing"]
    assert "half-stick test" in found["faults"][0]["do"].lower()
    assert not found["complete"]
    assert done(found["cheapest"]) == [("mix-once", None), ("swap-inputs", ["forward", "turn"])]
    assert done(found["cleanest"]) == [("mix-once", None), ("swap-motor-leads", "right")]
    assert found["cheapest"]["actions"][0]["expect"] == {"left": "++", "right": "-+"}
    once = mulewright("decode", TUG, "--variant", "radio-mix-off", "--json").json
    assert once["complete"]
    assert once["state"]["wheels"]["right"]["leads_reversed"]
    assert [done(once[which]) for which in ("cheapest", "cleanest")] == [
        [("swap-inputs", ["forward", "turn"])],
        [("swap-motor-leads", "right")],
    ]


@pytest.mark.parametrize(
    ("pushes", "box", "radio"),
    [
        ("L:++ R:+-", [], []),
        ("L:-+ R:--", [("reverse-control", "forward")], [("swap-plugs", [["left"], ["right"]]), 2]),
        ("L:+- R:++", [("reverse-control", "turn")], [("swap-plugs", [["left"], ["right"]])]),
        ("L:-- R:-+", [("reverse-control", "forward"), ("reverse-control", "turn")], [2]),
        ("L:++ R:-+", [("swap-inputs", ["forward", "turn"])], [("reverse-channel", ["right"])]),
        (
            "L:-- R:+-",
            [
                ("swap-inputs", ["forward", "turn"]),
                ("reverse-control", "forward"),
                ("reverse-control", "turn"),
            ],
            [("reverse-channel", ["left"])],
        ),
        (
            "L:+- R:--",
            [("swap-inputs", ["forward", "turn"]), ("reverse-control", "forward")],
            [("swap-plugs", [["left"], ["right"]]), ("reverse-channel", ["right"])],
        ),
        (
            "L:-+ R:++",
            [("swap-inputs", ["forward", "turn"]), ("reverse-control", "turn")],
            [("swap-plugs", [["left"], ["right"]]), ("reverse-channel", ["left"])],
        ),
    ],
)
def test_two_sides_without_a_tool(mulewright: Run, pushes: str, box: list[Any], radio: list[Any]) -> None:
    """All eight states: behind a box, and behind a fixed mix in the radio, whose reverses act behind it."""
    sound = ("--set", "controller.right.polarity=straight")
    boxed = mulewright("decode", TUG, "--variant", "radio-mix-off", "--pushes", pushes, *sound, "--json").json
    assert done(boxed["cheapest"]) == box
    weights = ("--set", "radio.mix.0.forward_weight=?", "--set", "radio.mix.0.turn_weight=?")
    mixed = mulewright("decode", CART, "--pushes", pushes, *weights, "--json").json
    found = done(mixed["cheapest"])
    both = [one for one in found if one[0] == "reverse-channel"]
    wanted = [one for one in radio if one != 2]
    if 2 in radio:
        assert both == [("reverse-channel", ["left"]), ("reverse-channel", ["right"])] or both == [
            ("reverse-channel", ["right"]), ("reverse-channel", ["left"])
        ]  # fmt: skip
        found = [one for one in found if one not in both]
    assert found == wanted


def test_a_radio_with_weights_turns_a_control_by_its_sign(mulewright: Run) -> None:
    ran = mulewright("decode", CART, "--pushes", "L:+- R:++")
    assert "Turn the sign of the weight of turn in the radio's mix." in ran.out


def test_plugs_of_a_side_move_together_where_a_y_lead_joins_them(mulewright: Run) -> None:
    found = mulewright("decode", BENCHES, "--pushes", "FL:+- FR:++ RL:+- RR:++", "--json").json
    (move,) = found["cleanest"]["actions"]
    assert move["plugs"] == ["y_lead.left", "y_lead.right"]
    assert move["wheels"] == [["front_left", "rear_left"], ["front_right", "rear_right"]]
    single = mulewright("decode", BENCHES, "--pushes", "FL:+- FR:++ RL:++ RR:+-", "--json").json
    assert single["cleanest"]["actions"][0]["plugs"] == ["controller.front_left", "controller.front_right"]


def test_two_pushes_leave_four_and_ask_for_one_wheel_of_each_diagonal(mulewright: Run) -> None:
    found = mulewright("decode", CARRIER, "--pushes", "FL:++? FR:+-? RL:+-? RR:++?", "--json").json
    assert not found["complete"]
    assert found["candidates"] == 4
    assert found["state"] is None
    assert found["cheapest"] is None
    assert found["next_push"] == {
        "push": "turn",
        "look_at": ["front_left", "front_right"],
        "candidates": 4,
        "leaves": 1,
    }


def test_a_drive_that_is_right_needs_nothing(mulewright: Run) -> None:
    found = mulewright("decode", CARRIER, "--pushes", RIGHT, "--json").json
    assert found["correct"]
    assert found["cheapest"] == {"cost": 0, "actions": []}
    assert "Every wheel does what it should." in mulewright("decode", CARRIER, "--pushes", RIGHT).out


def test_roller_wheels_of_the_wrong_hand(mulewright: Run) -> None:
    floor = ("--floor", "forward:+00 strafe:0-- turn:0-0")
    found = mulewright("decode", CARRIER, "--pushes", RIGHT, *floor, "--json").json
    assert [fault["wheels"] for fault in found["faults"]] == [["front_left", "front_right"]]


def test_floor_alone_says_how_far_it_tells(mulewright: Run) -> None:
    found = mulewright("decode", CARRIER, "--floor", "forward:+00 strafe:0+0", "--json").json
    assert found["candidates"] > 1
    assert found["next_push"] is not None


def test_a_tester_narrows_the_explanations(mulewright: Run) -> None:
    found = mulewright("decode", CARRIER, "--pushes", AS_FOUND, "--tester", "turn:++-+", "--json").json
    assert found["explanations_that_fit"] == 2
    found = mulewright(
        "decode", CARRIER, "--pushes", AS_FOUND, "--tester", "out1:FL+ out2:RL+ out4:RR- FR:+", "--json"
    ).json
    assert found["explanations_that_fit"] == 1


def test_soldered_leads_cost_more(mulewright: Run) -> None:
    found = mulewright("decode", CARRIER, "--pushes", AS_FOUND, "--soldered", "--json").json
    assert found["cheapest"]["cost"] == 3.4


@pytest.mark.parametrize(
    ("said", "cost"),
    [
        ("decode.soldered=true", 3.4),
        ("decode.cost.swap_motor_leads=2", 2.4),
        ("decode.cost.swap_plugs=0.9", 1.6),  # so the inputs of the box are exchanged instead
    ],
)
def test_a_mule_file_says_its_own_costs(said: str, cost: float, mulewright: Run) -> None:
    found = mulewright("decode", CARRIER, "--pushes", AS_FOUND, "--set", said, "--json").json
    assert found["cheapest"]["cost"] == pytest.approx(cost)


def test_a_change_that_cannot_be_made_has_no_cost(mulewright: Run) -> None:
    """A box turns a control by the channel's reverse; no single wheel can be reversed there."""
    plain = mulewright("decode", CARRIER, "--pushes", AS_FOUND, "--json").json
    free = ("--set", "decode.cost.reverse_channel=0")
    found = mulewright("decode", CARRIER, "--pushes", AS_FOUND, *free, "--json").json
    assert found["cheapest"] == plain["cheapest"]


def test_a_cost_below_nothing_is_refused(mulewright: Run) -> None:
    ran = mulewright("decode", CARRIER, "--pushes", AS_FOUND, "--set", "decode.cost.swap_plugs=-1")
    assert ran.code == 2
    assert "must be >= 0" in ran.err


def test_reverse_flags_that_nobody_noted_are_asked_for(mulewright: Run) -> None:
    unknown = ("--set", "radio.channel.others.reverse=?")
    ran = mulewright("decode", CARRIER, "--pushes", AS_FOUND, *unknown)
    assert "The reverse flags of the radio are not all noted" in ran.out
    assert (
        mulewright("decode", CARRIER, "--pushes", AS_FOUND, *unknown, "--json").json["explanations_that_fit"]
        == 48
    )


def test_a_reverse_flag_of_the_radio_is_reckoned_with(mulewright: Run) -> None:
    """Turn is reversed in the radio and nothing else is wrong: the cheapest and the cleanest is to take that back."""
    flag = ("--set", "radio.channel.4.reverse=true")
    pushes = "FL:++- FR:+-+ RL:+-- RR:+++"
    found = mulewright("decode", CARRIER, "--pushes", pushes, *flag, "--json").json
    assert found["state"]["reversed_controls"] == ["turn"]
    assert done(found["cheapest"]) == done(found["cleanest"]) == [("reverse-control", "turn")]
    assert found["cheapest"]["actions"][0]["channel"] == 4


@pytest.mark.parametrize("which", ["--json", None])
def test_text_is_plain_and_fits_a_screen(mulewright: Run, which: str | None) -> None:
    for pushes in (AS_FOUND, RIGHT, "FL:+0+ FR:0+- RL:0++ RR:+0-", "FL:000 FR:+-- RL:+-+ RR:++-", "FL:+??"):
        ran = mulewright("decode", CARRIER, "--pushes", pushes, *([which] if which else []))
        assert (ran.code, ran.err) == (0, "")
        if which is None:
            assert max(cell_len(line.rstrip()) for line in ran.out.splitlines()) <= 80


# --- asked for


def ask(
    monkeypatch: pytest.MonkeyPatch, mulewright: Run, typed: str, *words: str, path: Path = CARRIER
) -> Any:
    monkeypatch.setattr("sys.stdin", io.StringIO(typed))
    return mulewright("decode", path, *words)


def test_asked_one_by_one_until_it_is_settled(monkeypatch: pytest.MonkeyPatch, mulewright: Run) -> None:
    truth = {"front_left": "+++", "front_right": "+-+", "rear_left": "+--", "rear_right": "--+"}
    asking = begin(CARRIER, Typed()).asking
    given = []
    while (question := asking.question()) is not None:
        sign = truth[asking.codes[-1].wheels[question.wheel]][question.command]
        given.append(sign)
        asking.answer(question, {"+": 1, "-": -1}[sign])
    assert len(given) == 9  # 384 states take at least nine answers of two kinds
    ran = ask(monkeypatch, mulewright, "\n".join([*given, ""]))
    assert ran.code == 0
    assert "Cheapest and cleanest fix (cost 1.4)" in ran.out
    assert ran.out.count("? ") >= 9


def test_strange_answers_are_told_what_to_answer(monkeypatch: pytest.MonkeyPatch, mulewright: Run) -> None:
    ran = ask(monkeypatch, mulewright, "what\n+\nback\nback\n-\n", path=CART)
    assert ran.code == 0
    assert "+ - 0 ? or back" in ran.out
    assert "states fit so far" in ran.out


def test_a_look_that_fits_nothing_is_asked_for_again(
    monkeypatch: pytest.MonkeyPatch, mulewright: Run
) -> None:
    ran = ask(monkeypatch, mulewright, "0\n+\n+\n-\n+\n", path=CART)
    assert "That fits nothing. Once more: push forward. left?" in ran.out
    assert "Every wheel does what it should." in ran.out


def test_asked_for_programs_questions_go_beside(monkeypatch: pytest.MonkeyPatch, mulewright: Run) -> None:
    ran = ask(monkeypatch, mulewright, "+\n+\n+\n-\n", "--json", path=CART)
    assert json.loads(ran.out)["complete"]
    assert "Push forward. left?" in ran.err


def test_a_look_that_was_missed_is_not_asked_for_again(
    monkeypatch: pytest.MonkeyPatch, mulewright: Run
) -> None:
    ran = ask(monkeypatch, mulewright, "?\n+\n+\n-\n", path=CART)
    assert ran.out.count("Push forward. left?") == 1
    assert ran.code == 0


def test_ctrl_c_tells_what_was_found_so_far(monkeypatch: pytest.MonkeyPatch, mulewright: Run) -> None:
    def typed() -> Iterator[str]:
        yield "+\n"
        raise KeyboardInterrupt

    lines = typed()
    monkeypatch.setattr("sys.stdin", SimpleNamespace(readline=lambda: next(lines)))
    ran = mulewright("decode", CART)
    assert (ran.code, ran.err) == (0, "")
    assert "4 states fit so far." in ran.out


def test_after_plugs_were_moved_only_reversals_are_left(mulewright: Run) -> None:
    found = mulewright("decode", CARRIER, "--pushes", AS_FOUND, "--moved", "--json").json
    kinds = {one["kind"] for fix in found["ranked"] for one in fix["actions"]}
    assert not kinds & {"swap-plugs", "swap-inputs"}
    moved = mulewright("decode", CARRIER, "--pushes", "FL:+++ FR:-++ RL:+-+ RR:++-", "--moved", "--json").json
    assert done(moved["cheapest"]) == [("swap-motor-leads", "front_right")]


def test_all_at_once(mulewright: Run) -> None:
    speeds = "FL:92 FR:42 RL:18 RR:-68"
    found = mulewright("decode", CARRIER, "--speeds", speeds, "--json").json
    assert done(found["cheapest"]) == done(
        mulewright("decode", CARRIER, "--pushes", AS_FOUND, "--json").json["cheapest"]
    )
    ran = mulewright("decode", CARRIER, "--speeds", speeds, "--pushes", AS_FOUND)
    assert (ran.code, "two ways to say the same" in ran.err) == (2, True)


def test_nothing_answered_tells_what_to_push_first(monkeypatch: pytest.MonkeyPatch, mulewright: Run) -> None:
    ran = ask(monkeypatch, mulewright, "", "--json")
    assert json.loads(ran.out)["candidates"] == 384
    assert json.loads(ran.out)["next_push"]["push"] == "forward"


def test_what_stands_in_the_file_is_not_taken_where_one_wants_to_be_asked(
    monkeypatch: pytest.MonkeyPatch, mulewright: Run
) -> None:
    ran = ask(monkeypatch, mulewright, "", "--ask", "--json", path=TUG)
    assert json.loads(ran.out)["candidates"] == 8


# --- written down


@pytest.mark.parametrize("which", ["as-found", "as-left"])
@pytest.mark.parametrize("design", ["aisle-carrier", "hose-tug"])
def test_pushes_are_written_into_the_file(mulewright: Run, tmp_path: Path, which: str, design: str) -> None:
    file = tmp_path / "mule.toml"
    shutil.copy(path_of(design), file)
    pushes = AS_FOUND if design == "aisle-carrier" else "L:++ R:-+"
    before = file.read_text("utf-8")
    ran = mulewright("decode", file, "--pushes", pushes, "--record", which)
    assert ran.code == 0
    assert f"Wrote {which.replace('-', '_')} into {file}" in ran.out
    assert (tmp_path / "mule.toml.before").read_text("utf-8") == before
    after = file.read_text("utf-8")
    assert [line for line in before.splitlines() if "#" in line and "as_found" not in line] == [
        line for line in after.splitlines() if "#" in line and "as_found" not in line
    ]
    noted = getattr(load(file).file, which.replace("-", "_"))
    assert dict(noted.wheels) == mulewright("decode", file, "--pushes", pushes, "--json").json["observed"]
    again = mulewright("decode", file, "--json").json
    assert again["source"] == which.replace("-", " ")
    assert again["complete"]
    verdicts = mulewright("check", file, "--only", "S06,S44", "--json")
    assert verdicts.code == 1


def test_nothing_is_written_over_what_is_only_tried(mulewright: Run) -> None:
    ran = mulewright("decode", CARRIER, "--pushes", RIGHT, "--variant", "as-found", "--record", "as-left")
    assert ran.code == 2
    assert "a file is not written while something is laid over it" in ran.err


def test_what_was_not_pushed_is_not_written(mulewright: Run, tmp_path: Path) -> None:
    file = tmp_path / "mule.toml"
    shutil.copy(CARRIER, file)
    ran = mulewright("decode", file, "--floor", "forward:+00 strafe:0+0 turn:00+", "--record", "as-found")
    assert (ran.code, ran.err.splitlines()[0]) == (
        2,
        "--record: nothing was pushed that could be written down",
    )


# --- refused


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--pushes", ""), "nothing is said"),
        (("--pushes", "FL"), "this says nothing about a push"),
        (("--pushes", "FL:++"), "Rule: 3 signs, each one of + - 0 ?, for forward, strafe, turn"),
        (("--pushes", "FL:+*-"), "these are not the signs of a look"),
        (("--pushes", "FL:+++ FL:---"), "the same wheel is said to do two things"),
        (("--pushes", "ML:+++"), "this drive has no wheel called 'ML'"),
        (("--pushes", "front_lift:+++"), "Closest: front_left"),
        (("--pushes", "Ω\x1b[31m:+++"), "Ω\\x1b[31m"),
        (("--floor", "sideways:+00"), "this drive has no command 'sideways'"),
        (("--floor", "forward:+"), "ahead, to the right, turned right"),
        (("--pushes", RIGHT, "--tester", "out1:"), "this names no wheel that turned"),
        (
            ("--tester", "out9:RR-"),
            "no place called 'out9' for a tester\n  Rule: one of forward, strafe, turn, out1, ",
        ),
        (("--floor", "sideways:+00", "--ask"), "this drive has no command 'sideways'"),
        (("--pushes", RIGHT, "--tester", "out1:FL-"), "no wiring shows both"),
        (("--pushes", RIGHT, "--tester", "FL:?"), "a test that nobody saw tells nothing"),
        (("--pushes", RIGHT, "--record", "as-seen"), "as-seen"),
    ],
)
def test_one_clear_message(mulewright: Run, words: tuple[str, ...], says: str) -> None:
    ran = mulewright("decode", CARRIER, *words)
    assert (ran.code, ran.out) == (2, "")
    assert says in ran.err
    assert "Traceback" not in ran.err
    assert set(mulewright("decode", CARRIER, *words, "--json").json) == {"error"}


@pytest.mark.parametrize(
    ("settings", "says"),
    [
        (("drive.kind=hovercraft",), "hovercraft"),
        (("as_found.wheels.left=up",), "as_found.wheels.left"),
        (("as_found.order=['up']",), "is not an order of this drive's commands"),
        (("as_found.wheels.middle=++",), "this drive has no wheel called 'middle'"),
        (("controller.left.feeds=?", "controller.right.feeds=?"), "no controller feeds a motor"),
    ],
)
def test_a_file_that_cannot_be_decoded(mulewright: Run, settings: tuple[str, ...], says: str) -> None:
    ran = mulewright("decode", TUG, *(word for one in settings for word in ("--set", one)))
    assert ran.code == 2
    assert says in ran.err
    assert "Traceback" not in ran.err


def test_a_drive_of_no_kind_cannot_be_decoded(mulewright: Run, tmp_path: Path) -> None:
    file = tmp_path / "mule.toml"
    file.write_text('schema_version = 1\nname = "x"\n[drive]\ndriven = "all"\n')
    ran = mulewright("decode", file)
    assert (ran.code, "the kind of its drive is not noted" in ran.err) == (2, True)


def test_what_does_not_drive_cannot_be_decoded(mulewright: Run) -> None:
    ran = mulewright("decode", WINCH, "--pushes", "L:+")
    assert (ran.code, "nothing drives this mule over the floor" in ran.err) == (2, True)


@pytest.mark.parametrize("design", DESIGNS)
def test_every_design_that_drives_can_be_decoded(
    monkeypatch: pytest.MonkeyPatch, mulewright: Run, design: str
) -> None:
    ran = ask(monkeypatch, mulewright, "", "--ask", "--json", path=path_of(design))
    drives = load(path_of(design)).file.drive is not None
    assert ran.code == (0 if drives else 2)
    if drives:
        assert ran.json["next_push"] is not None
