"""Whether the fail-safe matrix says of each output what the file and the facts say."""

from __future__ import annotations

from typing import Any

import pytest

from mulewright.advice.lost_link import LostOutput, lost_link
from mulewright.design.signals import RECEIVERS
from mulewright.facts.fail_safe import LostLinkFacts, sources
from mulewright.facts.graph import Evaluation
from mulewright.paper.failsafe_paper import failsafe_paper
from tests.designs import DESIGNS, evaluation, verdicts_on
from tests.paper.oddities import BARE, TWO_RADIOS, UNKNOWN, evaluated


def by_device(on: Evaluation) -> dict[str, LostOutput]:
    return {output.device: output for output in lost_link(on)}


def blocks(on: Evaluation) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = failsafe_paper(on).as_dict()["blocks"]
    return found


@pytest.mark.parametrize("design", DESIGNS)
def test_every_output_on_a_receiver_stands_there_once(design: str) -> None:
    on = evaluation(design)
    mule = on.mule
    devices = [
        *(f"controller.{one}" for one in mule.file.controller),
        *(f"servo.{one}" for one in mule.file.servo),
    ]
    wanted = {one for one in devices if any(place.split(".")[0] in RECEIVERS for place in sources(mule, one))}
    found = [output.device for output in lost_link(on)]
    assert (set(found), len(found)) == (wanted, len(wanted))


@pytest.mark.parametrize("design", DESIGNS)
def test_it_says_what_the_checks_say(design: str) -> None:
    on = evaluation(design)
    found = by_device(on)
    tripped = {name for name, verdict in verdicts_on(on, "R02").items() if verdict.outcome.value == "trip"}
    assert {name for name, output in found.items() if output.runs_on} == tripped
    for lost in LostLinkFacts.all(on):
        assert found[lost.id].after == ("never" if lost.id in tripped else "1 s (assumed)")


def test_the_carrier_drives_on_and_its_lift_does_not_stay() -> None:
    found = by_device(evaluation("aisle-carrier"))
    wheel = found["controller.front_left"]
    assert [socket.id for socket in wheel.sockets] == ["receiver.2", "receiver.1", "receiver.4"]
    assert wheel.through == "mixer.drive"
    assert wheel.then == "goes on"
    assert (
        wheel.happens
        == "drives on at up to 1 m/s, through the 4 m of this room in 3.9 s, until it is disconnected"
    )
    assert (wheel.way, wheel.after, wheel.tested) == ("without end", "never", "2026-11-02")
    lift, tilt = found["controller.lift"], found["servo.tilt"]
    assert (lift.then, lift.happens) == (
        "stops and brakes",
        "does not stay, moves by itself at 14 mm/s",
    )
    assert (tilt.then, tilt.happens, tilt.way) == ("stays at its angle", "stays where it is", None)
    assert tilt.sockets[0].does == "hold, cannot be set"


@pytest.mark.parametrize(
    ("design", "settings", "device", "then", "happens"),
    [
        ("tray-cart", (), "controller.left", "stops and brakes", "rolls out and stands"),
        ("tray-cart", ("receiver.fail_safe.others=no pulses",), "controller.left", "stops, because no pulses come",
         "rolls out and stands"),
        ("tray-cart", ("receiver.fail_safe.2=1560 us",), "controller.left", "runs: its preset is 60 us off neutral",
         "goes on at that pulse until it is disconnected"),
        ("tray-cart", ("receiver.fail_safe.1=hold",), "controller.left", "stops and brakes",
         "this wheel stops, others drive on: it turns off its way"),
        ("tray-cart", ("receiver.fail_safe.others=no pulses", "controller.left.stops_on_lost_pulses=false"),
         "controller.left", "does not stop without pulses",
         "drives on at up to 1 m/s, through the 5 m of this room in 4.8 s, until it is disconnected"),
        ("seed-ball-thrower", (), "controller.flywheel", "goes on", "goes on"),
        ("seed-ball-thrower", ("receiver.fail_safe.others=neutral",), "controller.flywheel", "stops and coasts",
         "runs down by itself"),
        ("two-benches", (), "controller.lift", "stops and brakes", "stays where it is"),
        ("two-benches", ("receiver.fail_safe.7=neutral",), "servo.gate", "goes to its middle",
         "moves to another place, or hangs loose"),
        ("aisle-carrier", ("receiver.part=rx8", "receiver.fail_safe.6=1500 us"), "controller.pump", "stops and coasts",
         "stops"),
    ],
)  # fmt: skip
def test_what_happens_follows_from_the_settings(
    design: str, settings: tuple[str, ...], device: str, then: str, happens: str
) -> None:
    output = by_device(evaluation(design, settings))[device]
    assert (output.then, output.happens) == (then, happens)


def test_a_preset_off_neutral_goes_on_without_end() -> None:
    output = by_device(evaluation("tray-cart", ("receiver.fail_safe.2=1560 us",)))["controller.left"]
    assert (output.runs_on, output.way, output.after) == (True, "without end", "never")
    one_way = ("controller.flywheel.direction=one-way", "receiver.fail_safe.3=neutral")
    wheel = by_device(evaluation("seed-ball-thrower", one_way))["controller.flywheel"]
    assert (wheel.then, wheel.runs_on) == ("takes neutral for half power", True)


def test_the_runaway_stands_in_the_matrix_and_in_a_sentence() -> None:
    table, *rest = blocks(evaluation("tray-cart"))
    way = table["columns"].index("as far as")
    assert [row[way] for row in table["rows"]] == ["1.7 m", "1.7 m"]
    said = " ".join(block.get("text", "") for block in rest)
    assert "it stands 1.7 m further on" in said
    assert "this room has 5 m in front of it" in said
    assert [row[-1] for row in table["rows"]] == ["", ""]  # to be filled in


def test_too_little_room_for_a_lost_link_is_a_warning() -> None:
    warned = [one["text"] for one in blocks(evaluation("vine-lift")) if one.get("looks") == "warning"]
    assert any(text.startswith("TOO LITTLE ROOM") and "3 m are free" in text for text in warned)
    assert not any("TOO LITTLE" in one.get("text", "") for one in blocks(evaluation("tray-cart")))


def test_what_is_not_known_is_named() -> None:
    table, missing, *_ = blocks(evaluated(UNKNOWN))
    assert [row[0] for row in table["rows"]] == ["controller left", "controller arm"]
    assert table["marked"] == [0, 1]
    assert {row[4] for row in table["rows"]} == {"?"}
    assert missing["text"] == "What says ? is not known. The file lacks receiver.protects."


def test_a_second_receiver_is_told_apart() -> None:
    rows = {row[0]: row for row in blocks(evaluated(TWO_RADIOS))[0]["rows"]}
    assert rows["controller right"][2:4] == ("1", "1490 us")
    assert rows["controller right"][8] == "2026-11-20, but bound or re-plugged since"
    assert rows["controller brush"][2] == "second: 3"


def test_without_a_receiver_nothing_can_be_lost() -> None:
    assert "none can be lost" in blocks(evaluation("soft-fruit-gripper"))[0]["text"]
    assert "none can be lost" in blocks(evaluated(BARE))[0]["text"]
    assert "nothing can be said yet" in blocks(evaluated(BARE, "receiver={}"))[0]["text"]
