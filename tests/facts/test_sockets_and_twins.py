"""Sockets, joined leads and twin servos, looked at on the shipped designs."""

from __future__ import annotations

import math

import pytest

from mulewright.facts.outputs import OutputFacts
from mulewright.facts.sockets import SignalNetFacts, SocketFacts
from mulewright.facts.twin_servos import CoupledServosFacts, ServoPairFacts
from tests.designs import evaluation
from tests.published import as_printed

JAWS = "servo.left>servo.right"
THIRD = 'servo.third={ part = "sv-std", moves = "mechanism.gripper", signal = "y_lead.jaws" }'


def test_two_leads_in_one_socket_get_the_same_pulses() -> None:
    on = evaluation("tray-cart", ("controller.right.signal=receiver.2",))
    assert on.entity(SocketFacts, "receiver.2").plug_count == 2
    assert {socket.id for socket in SocketFacts.all(on)} == {"receiver.2"}
    left, right = (on.entity(OutputFacts, f"controller.{side}") for side in ("left", "right"))
    assert left.terms == right.terms


def test_a_y_lead_joins_and_a_box_does_not() -> None:
    nets = {net.id: net.listeners for net in SignalNetFacts.all(evaluation("two-benches"))}
    assert nets["signal.receiver.2"] == "controller.front_left, controller.rear_left"
    boxes = {net.id for net in SignalNetFacts.all(evaluation("hose-tug"))}
    assert boxes == {
        "signal.mixer.tug.out1",
        "signal.mixer.tug.out2",
        "signal.receiver.1",
        "signal.receiver.2",
    }


def test_a_plug_in_two_sockets_joins_them() -> None:
    (net,) = SignalNetFacts.all(evaluation("soft-fruit-gripper", variant="receiver-left-plugged"))
    assert net.source_count == 2
    assert net.sources == "receiver.5 and tester.bench"
    assert net.listeners == "servo.left, servo.right"


def test_two_jaw_servos_lie_three_degrees_apart() -> None:
    pair = evaluation("soft-fruit-gripper").entity(CoupledServosFacts, JAWS)
    assert math.degrees(float(pair.center_gap)) == as_printed("3.4")
    assert pair.gain_gap == 0
    # by hand: 0.135 over 0.090
    other = evaluation("soft-fruit-gripper", ("servo.left.part=sv-ht",)).entity(CoupledServosFacts, JAWS)
    assert other.gain_gap == pytest.approx(0.5)


def test_each_pair_counts_once_and_a_third_servo_pairs_with_the_first() -> None:
    assert [pair.id for pair in ServoPairFacts.all(evaluation("soft-fruit-gripper"))] == [JAWS]
    three = evaluation("soft-fruit-gripper", (THIRD,))
    assert [pair.id for pair in ServoPairFacts.all(three)] == [JAWS, "servo.left>servo.third"]
    assert [pair.id for pair in CoupledServosFacts.all(three)] == [JAWS]
    assert three.entity(ServoPairFacts, "servo.left>servo.third").node("fights").gaps == {
        "servo.left.mirrored"
    }
