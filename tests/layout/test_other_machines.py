"""Mixes in the radio, second leads, grippers, two sticks, shared controls, a second transmitter."""

from __future__ import annotations

from mulewright.design.mule import Mule, link
from mulewright.design.resolve import load
from mulewright.facts.graph import Evaluation
from mulewright.layout.describing import describe
from mulewright.layout.joining import joined, with_leads_on_one
from mulewright.layout.packing import moves, pack
from mulewright.layout.problem import Channel, Problem
from mulewright.layout.setting import by_hand, settings
from mulewright.layout.solving import solve
from tests.designs import EXAMPLES


def mule(design: str, *laid_over: str, variant: str | None = None) -> Mule:
    return link(load(EXAMPLES / design / "mule.toml", laid_over, variant))


def problem(design: str, *laid_over: str, variant: str | None = None) -> Problem:
    return describe(Evaluation(mule(design, *laid_over, variant=variant)))


def test_a_mix_of_the_radio_takes_its_channels_and_wants_a_control_only() -> None:
    found = problem("two-benches")
    assert found.function("forward").needs == "control"
    assert found.function("forward").outputs == (Channel("radio", 2), Channel("radio", 1))
    assert {one.number for one in found.channels} == {3, 4, 5, 6, 7, 8}
    off = problem("two-benches", "radio.mix.0.active=false")
    assert off.function("forward").needs == "control and channel"


def test_a_mix_follows_the_control_that_takes_over() -> None:
    benches = mule("two-benches", "layout.keep={ turn = 'LH' }")
    found = describe(Evaluation(benches))
    best = solve(found)[1].priced
    written = settings(benches, found, best)
    assert written["radio.mix.0.inputs"] == ["RV", "LH"]
    assert written["radio.control.LH.commands"] == "turn"
    assert written["radio.control.RH.commands"] == []


def test_mirrored_servos_need_a_second_channel_that_a_mix_moves() -> None:
    found = problem("soft-fruit-gripper", variant="mended")
    second = found.function("gripper, lead 2")
    assert (second.follows, second.at, second.needs) == ("gripper", Channel("radio", 7), "channel")
    joined_up = with_leads_on_one(found, second.name)
    assert joined_up.function("gripper").leads == ("servo.left.signal", "servo.right.signal")
    known = {one.what: one.price for one in moves(found, ["gripper"], [second.name])}
    assert known["Y-lead with a reversing lead for all of gripper"] == 2
    assert known["gripper holds by a spring or its shape"] == 8


def test_a_second_lead_without_a_mix_is_left_to_the_hand() -> None:
    bench = mule("soft-fruit-gripper", "radio.mix=[]", variant="mended")
    found = describe(Evaluation(bench))
    best = solve(found)[1].priced
    name = (best.layout["gripper"].control or "").rsplit(".", 1)[1]
    number = best.layout["gripper, lead 2"].channel
    assert number is not None
    assert f"make a mix of the radio by which {name} moves channel {number.number} too" in by_hand(
        bench, found, best
    )


def test_two_sticks_want_each_its_own_hand() -> None:
    sticks = (
        "drive.kind=two-sticks",
        "radio.mix=[]",
        "radio.control.RV.commands=right",
        "radio.control.RH.commands=[]",
        "radio.control.LV.commands=left",
    )
    found = problem("tray-cart", *sticks)
    assert [(one.name, one.side, one.axis) for one in found.functions] == [
        ("left", "left", "vertical"), ("right", "right", "vertical"),
    ]  # fmt: skip
    best = solve(found)[1].priced
    assert {name: seat.control for name, seat in best.layout.items()} == {
        "left": "radio.control.LV", "right": "radio.control.RV",
    }  # fmt: skip
    assert best.cost == 1  # the converted spring


def test_a_control_that_serves_two_keeps_serving_two() -> None:
    both = problem(
        "two-benches", "radio.control.KN.commands=['tray', 'gate']", "radio.control.KN2.commands=[]"
    )
    assert "tray and gate" in {one.name for one in both.functions}
    assert both.function("tray and gate").leads == ("servo.tray.signal", "servo.gate.signal")


def test_what_runs_together_is_what_the_most_demanding_is() -> None:
    found = joined(problem("two-benches"), ["lift", "tray"])
    one = found.function("lift and tray")
    assert (one.kind, one.held, one.motor, one.names) == ("speed", True, True, ("lift", "tray"))
    assert all("lift" not in (pair.first, pair.second) for pair in found.pairs)


def test_a_second_transmitter_has_its_own_channels() -> None:
    second = (
        'second_radio={ part = "tx7" }',
        'second_receiver={ part = "rx7" }',
        "second_radio.control.KN.commands=tray",
        "radio.control.KN.commands=[]",
        "servo.tray.signal=second_receiver.5",
    )
    found = problem("two-benches", *second)
    assert Channel("second_radio", 5) in found.channels
    assert found.present["tray"].control == "second_radio.control.KN"
    assert found.present["tray"].channel == Channel("second_radio", 5)
    assert Channel("second_radio", 5).socket == "second_receiver.5"
    assert solve(found)[1].proved


def test_a_mix_that_serves_nothing_can_be_switched_off() -> None:
    idle = 'radio.mix=[{ kind = "slave", active = true, inputs = ["RV"], channels = [5, 6, 7, 8], weight = "100 %" }]'
    found = problem("aisle-carrier", idle.replace(", 8", ""))
    known = list(moves(found, [], []))
    assert known[0].what == "switch radio.mix.0 off"
    alone, together = pack(found, known)
    assert (alone[0].moves, alone[0].short, alone[0].price) == ((known[0],), 0, 1)
    assert together is not None
    assert together.moves == (known[0],)


def test_functions_on_one_y_lead_stay_together() -> None:
    """Two servos with names of their own get the same pulses, so no layout can part them."""
    laid_over = (
        'y_lead.flap={ kind = "parallel", carries = "signal", signal = "receiver.5" }',
        'servo.left_flap={ part = "sv-std", signal = "y_lead.flap" }',
        'servo.right_flap={ part = "sv-std", signal = "y_lead.flap" }',
        'radio.control.KN={ commands = "left_flap" }',
    )
    found = problem("tray-cart", *laid_over)
    together = next(one for one in found.functions if "left_flap" in one.names)
    assert together.names == ("left_flap", "right_flap")
    assert found.present[together.name].control == "radio.control.KN"
    assert solve(found)[1].proved
