"""What motors do without a link: through boxes, on sockets without a preset, and where nothing is noted."""

from __future__ import annotations

import pytest

from mulewright.facts.fail_safe import LostLinkFacts, ReceiverFacts, SocketFacts
from tests.designs import evaluation


def lost(design: str, controller: str, *sets: str) -> LostLinkFacts:
    return evaluation(design, sets).entity(LostLinkFacts, f"controller.{controller}")


def test_a_wheel_behind_a_box_hangs_on_every_input_of_the_box() -> None:
    assert lost("aisle-carrier", "rear_left").known_sockets == ["receiver.2", "receiver.1", "receiver.4"]


def test_a_socket_without_a_preset_holds_whatever_is_set() -> None:
    pump = lost("aisle-carrier", "pump", "receiver.fail_safe.6=neutral")
    assert pump.runs_on == 1
    assert pump.lets_go == 0
    assert (
        lost("aisle-carrier", "pump", "receiver.fail_safe.6=neutral", "receiver.protects=[3, 6]").runs_on == 0
    )


def test_one_held_input_of_a_box_is_enough_to_run_on() -> None:
    sets = ("receiver.part=rx8", "receiver.fail_safe.others=neutral", "receiver.fail_safe.4=hold")
    assert lost("aisle-carrier", "rear_left", *sets).runs_on == 1
    assert lost("aisle-carrier", "rear_left", *sets[:2]).runs_on == 0


@pytest.mark.parametrize(("stops", "runs_on", "lets_go"), [("true", 0, 1), ("false", 1, 0)])
def test_without_pulses_the_controller_decides(stops: str, runs_on: int, lets_go: int) -> None:
    sets = ("receiver.fail_safe.others=no pulses", f"controller.left.stops_on_lost_pulses={stops}")
    left = lost("tray-cart", "left", *sets)
    assert left.runs_on == runs_on
    assert left.lets_go == lets_go


def test_without_pulses_behind_a_box_the_box_decides() -> None:
    left = lost("hose-tug", "left", "receiver.fail_safe.others=no pulses")
    assert left.node("runs_on").gaps == {"mixer.tug.stops_on_lost_pulses"}
    known = lost(
        "hose-tug", "left", "receiver.fail_safe.others=no pulses", "mixer.tug.stops_on_lost_pulses=true"
    )
    assert known.lets_go == 1


@pytest.mark.parametrize(
    ("design", "sets", "gaps"),
    [
        ("tray-cart", "receiver.fail_safe.others=?", {"receiver.fail_safe.2"}),
        ("tray-cart", "receiver.protects=?", {"receiver.protects"}),
        ("tray-cart", "controller.left.signal=?", {"controller.left.signal"}),
        ("hose-tug", "mixer.tug.forward=?", {"mixer.tug.forward"}),
        ("hose-tug", "mixer.tug.mixes=?", {"mixer.tug.mixes"}),
    ],
)
def test_what_is_not_noted_is_named(design: str, sets: str, gaps: set[str]) -> None:
    assert lost(design, "left", sets).node("runs_on").gaps == gaps


def test_a_preset_pulse_neither_runs_on_nor_lets_go() -> None:
    left = lost("tray-cart", "left", "receiver.fail_safe.2=1900 us")
    assert left.runs_on == 0
    assert left.lets_go == 0


def test_what_hangs_on_a_tester_or_holds_an_angle_loses_no_link() -> None:
    bench = ("tester.st={part='st'}", "controller.left.signal=tester.st")
    angle = ("controller.right.closed_loop={command='position'}",)
    ids = [one.id for one in LostLinkFacts.all(evaluation("tray-cart", bench))]
    assert ids == ["controller.right"]
    assert LostLinkFacts.all(evaluation("tray-cart", (*bench, *angle))) == []
    assert ReceiverFacts.all(evaluation("tray-cart", (*bench, *angle))) == []
    assert lost("tray-cart", "left", *bench).lets_go == 0


def test_sockets_that_move_motors_are_counted_once() -> None:
    sockets = [socket.id for socket in SocketFacts.all(evaluation("aisle-carrier"))]
    assert sorted(sockets) == [f"receiver.{number}" for number in (1, 2, 3, 4, 6)]
    receiver = evaluation("aisle-carrier").entity(ReceiverFacts, "receiver")
    assert receiver.unprotected == 4
