"""The aisle carrier: four functions want springs, three axes have one; each point of the price by hand."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from mulewright.design.mule import Mule, link
from mulewright.design.resolve import load, rebuild
from mulewright.errors import MulewrightError
from mulewright.facts.graph import Evaluation
from mulewright.layout.describing import describe
from mulewright.layout.plan import Plan, lay_out
from tests.designs import EXAMPLES

CARRIER = load(EXAMPLES / "aisle-carrier" / "mule.toml")
CUT_DOWN = ("receiver.channels=4", "controller.pump.signal=[]", "servo.tilt.signal=[]")


def mule(*settings: str) -> Mule:
    return link(rebuild(CARRIER, settings))


def plan(*settings: str) -> Plan:
    def again(more: Sequence[str]) -> Mule:
        return mule(*settings, *more)

    return lay_out(Evaluation(mule(*settings)), again)


AS_IT_IS = plan()


def where(found: Plan) -> dict[str, str]:
    return {name: (seat.control or "").rsplit(".", 1)[1] for name, seat in found.best.layout.items()}


def price_of(found: Plan, function: str) -> list[float]:
    entry = next(entry for entry in found.best.entries if entry.function.name == function)
    return sorted((line.cost for line in entry.lines if line.cost), reverse=True)


def gain(found: Plan, what: str) -> float:
    return next(one.gain for one in found.changes if one.what == what)


def test_the_lift_on_the_stick_without_a_spring_comes_out_as_a_price() -> None:
    # no spring 8, not reached by the rate switch 3; only its channel has a preset, so no 20
    assert price_of(AS_IT_IS, "lift") == [8, 3]
    # no preset 20 each for drive and pump; the rate switch misses the turn: 3
    assert price_of(AS_IT_IS, "forward") == price_of(AS_IT_IS, "strafe") == [20]
    assert price_of(AS_IT_IS, "turn") == [20, 3]
    assert price_of(AS_IT_IS, "pump") == [20]
    assert price_of(AS_IT_IS, "tilt") == []
    # lift beside turn 1; forward 2 and strafe 1 in the other order 0.5; strafe 1 and turn 4 apart 0.25
    assert sorted(one.line.cost for one in AS_IT_IS.best.beside) == [0.25, 0.5, 1]
    assert AS_IT_IS.best.cost == 20 * 4 + 3 + 11 + 1.75 == 95.75
    assert AS_IT_IS.proved
    assert AS_IT_IS.best.layout == AS_IT_IS.present.layout


def test_four_functions_want_springs_and_three_axes_have_one() -> None:
    assert AS_IT_IS.springs.wanted == ("forward", "strafe", "turn", "lift")
    assert AS_IT_IS.springs.there == ("RV", "RH", "LH")


def test_the_conversion_shows_what_it_gains() -> None:
    assert gain(AS_IT_IS, "self-centring conversion on LV") == 8 - 1
    assert gain(AS_IT_IS, "receiver rx8") == 4 * 20
    assert [one.gain for one in AS_IT_IS.changes] == sorted(
        (one.gain for one in AS_IT_IS.changes), reverse=True
    )
    converted = plan("radio.control.LV.conversion=fitted")
    assert converted.best.cost == AS_IT_IS.best.cost - 7


def test_a_third_position_lets_the_switch_serve_the_lift() -> None:
    # lift on the switch 5, missed 3, no preset 20; the pump on LV costs nothing; nothing beside the turn
    assert gain(AS_IT_IS, "third position on SW2") == 95.75 - (20 * 4 + 3 + 5 + 3 + 0.75)


def test_ties_are_shown_and_the_present_layout_stays() -> None:
    assert AS_IT_IS.ties[0].cost == AS_IT_IS.best.cost
    swapped = [one for one in AS_IT_IS.ties if one.layout["forward"].control == "radio.control.LV"]
    assert swapped
    assert swapped[0].cost == AS_IT_IS.best.cost
    assert AS_IT_IS.best.work == 0
    assert AS_IT_IS.more_ties


def test_costs_are_settings() -> None:
    assert plan("layout.cost={ speed_unsprung = 2 }").best.cost == 95.75 - 6
    with pytest.raises(MulewrightError, match="no cost is called 'speed_unsprun'"):
        describe(Evaluation(mule("layout.cost={ speed_unsprun = 2 }")))


def test_a_function_can_be_kept_on_its_control() -> None:
    assert where(plan("layout.keep={ tilt = 'KN2', pump = 'KN' }")) == {
        "forward": "RV", "strafe": "RH", "turn": "LH", "lift": "LV", "tilt": "KN2", "pump": "KN",
    }  # fmt: skip
    with pytest.raises(MulewrightError, match="no function is called 'tlit'"):
        describe(Evaluation(mule("layout.keep={ tlit = 'KN' }")))
    with pytest.raises(MulewrightError, match="no control is called 'XX'"):
        describe(Evaluation(mule("layout.keep={ tilt = 'XX' }")))


def test_functions_that_are_used_together_do_not_share_a_hand() -> None:
    problem = describe(Evaluation(mule("mechanism.lift.used_with=['forward', 'tilt']")))
    together = [(one.first, one.second) for one in problem.pairs if one.why == "together"]
    assert together == [("forward", "lift"), ("lift", "tilt")]
    used = plan("mechanism.lift.used_with=['tilt']")
    assert used.best.cost == 95.75 + 2  # a thumb leaves the lift's stick for the knob


def test_a_control_whose_channel_can_be_chosen_takes_the_one_with_a_preset() -> None:
    spare = ("receiver.protects=[7]", "layout.keep={ turn = 'LH' }")
    fixed, free = plan(*spare), plan(*spare, 'radio.control.LH.channels="any"')
    assert fixed.best.layout["turn"].channel == ("radio", 4)
    assert free.best.layout["turn"].channel == ("radio", 7)


def test_what_is_not_said_is_taken_for_the_worse_and_named() -> None:
    found = describe(
        Evaluation(
            mule(
                "receiver.protects=?",
                "radio.control.LV.sprung=?",
                "radio.rate.covers=?",
                "radio.rate_covers=?",
            )
        )
    )
    assert found.protected == frozenset()
    assert "receiver.protects is not said: taken as no preset on any channel" in found.notes
    assert "radio.control.LV.sprung is not said: taken as no spring" in found.notes
    assert "radio.rate.covers is not said: taken as reaching nothing" in found.notes
    gone = describe(Evaluation(mule("radio.control.KN.kind=?", "radio.control.KN2.channel=?")))
    assert {
        "radio.control.KN.kind is not said: left out",
        "radio.control.KN2.channel is not said: left out",
    } <= {*gone.notes}


def test_a_supply_in_a_socket_takes_the_channel() -> None:
    fed = 'regulator.spare={ kind = "switching", voltage = "5 V", current = "3 A", feeds = ["receiver.7"] }'
    found = describe(Evaluation(mule(fed)))
    assert found.taken[("radio", 7)] == "regulator.spare sits in its socket"  # type: ignore[index]
    assert ("radio", 7) not in found.channels


def test_too_few_channels_leave_out_least_and_say_what_helps() -> None:
    short = plan(*CUT_DOWN)
    assert short.short == 2
    assert not {"forward", "strafe", "turn"} & {*short.best.left_out}
    prices = {one.moves[0].what.split(",")[0].split(";")[0]: (one.price, one.short) for one in short.packing}
    assert prices["do without strafing"] == (15, 1)
    assert prices["second transmitter with receiver and driver"] == (40, 0)
    assert short.packed is not None
    assert short.packed.price == 40
    assert short.packed.best.left_out == ()
    assert next(one for one in short.changes if one.what == "receiver rx8").fits == 2


def test_two_things_that_are_only_on_or_off_share_a_switch_of_three_positions() -> None:
    fan = (
        'motor.fan={ part = "mo-raw", runs = "one-way", slow_mode = false }',
        'controller.fan={ part = "ctl-6l", feeds = "motor.fan", signal = [] }',
    )
    short = plan(*fan, "radio.channels=6", "radio.control.SW2.position_count=3")
    assert short.short == 1
    assert short.packed is not None
    assert [one.what for one in short.packed.moves] == ["pump and fan at the two ends of one switch"]
    assert short.packed.price == 3
    assert short.packed.best.layout["pump and fan"].control == "radio.control.SW2"
    others = {one.moves[0].what: one.price for one in short.packing}
    assert others["pump and fan by one motor, through one-way clutches"] == 8
    assert others["pump and fan always together on one control"] == 12
    together = plan(
        *fan, "radio.channels=6", "radio.control.SW2.position_count=3", "motor.pump.used_with=['fan']"
    )
    assert "pump and fan at the two ends of one switch" not in {one.moves[0].what for one in together.packing}


def test_stopped_by_hand_it_gives_what_it_has() -> None:
    left = iter([None] * 6)

    def step() -> None:
        if next(left, step) is not None:
            raise KeyboardInterrupt

    found = lay_out(Evaluation(mule()), lambda more: mule(*more), step)
    assert found.best.cost == 95.75
    assert 0 < len(found.changes) < len(AS_IT_IS.changes)
    assert "stopped by hand: not every change of the hardware was tried" in found.notes


def test_a_part_that_cannot_be_tried_is_skipped_with_its_reason() -> None:
    supply = (
        'regulator.spare={ kind = "switching", voltage = "5 V", current = "3 A", feeds = ["receiver.8"] }'
    )
    found = plan("receiver.part=rx8", supply)
    assert "receiver rx7: nothing here is called 'receiver.8'" in found.notes
