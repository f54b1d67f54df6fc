"""Raised loads of two machines, worked by hand: what they ask, whether they stay up, what falls."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest

from mulewright.facts.holding import RaisingArmFacts, RaisingFacts, RaisingOnRopeFacts
from mulewright.facts.loads import ArmFacts, LiftFacts, WinchFacts
from mulewright.facts.nodes import Value
from mulewright.facts.stops import StopFacts
from tests.designs import evaluation
from tests.published import as_printed

LIFT = "mechanism.lift"
NO_WIRES = ("wire.main.length=1 um", "wire.branches.length=1 um")


def carrier(*sets: str) -> tuple[LiftFacts, RaisingFacts, RaisingOnRopeFacts]:
    on = evaluation("aisle-carrier", sets)
    return on.entity(LiftFacts, LIFT), on.entity(RaisingFacts, LIFT), on.entity(RaisingOnRopeFacts, LIFT)


def known(facts: LiftFacts | RaisingFacts | ArmFacts, name: str) -> bool:
    return facts.node(name).known


# --- the mast lift of the aisle carrier: 3.8 kg on a drum of 15 mm, efficiency 0.8 ---


def test_what_the_mast_lift_asks() -> None:
    lift, raising, _ = carrier()
    assert lift.rope_force == as_printed("37.3")
    assert lift.torque == as_printed("0.559")
    assert lift.asked == as_printed("0.699")
    assert lift.share_of_stall == as_printed("0.29")
    assert lift.current == as_printed("2.47")
    assert lift.energy == as_printed("30")
    assert raising.nominal_margin == as_printed("2.7")


def test_how_fast_the_mast_lift_goes_up_and_down() -> None:
    _, raising, rope = carrier()
    assert rope.rise_speed == as_printed("0.153")
    assert rope.rise_time == as_printed("5.2")
    assert raising.hold_low == as_printed("0.04")
    assert raising.hold_high == as_printed("0.28")
    assert rope.creep == as_printed("0.014")


@pytest.mark.parametrize(("sets", "seconds"), [(NO_WIRES, "8.2"), ((), "8.3")])
def test_how_long_its_motor_bears_the_stop(sets: Sequence[str], seconds: str) -> None:
    motor = evaluation("aisle-carrier", sets).entity(StopFacts, "motor.lift")
    assert motor.stop_time == as_printed(seconds)


def test_two_motors_share_the_load_and_sink_half_as_fast() -> None:
    second = ("motor.second={part='gm-drive', turns='mechanism.lift'}",)
    one, two = carrier()[1], carrier(*second)[1]
    assert two.held.asked == pytest.approx(one.held.asked / 2)
    assert two.sink == pytest.approx(one.sink / 2)
    assert two.torque_each == pytest.approx(one.torque_each / 2)


def test_a_counterweight_too_heavy_pulls_as_much_the_other_way() -> None:
    light, heavy = (carrier(f"{LIFT}.counter_force={force} N")[1] for force in (27.278, 47.278))
    assert light.held.torque == pytest.approx(0.15)
    assert heavy.held.torque == pytest.approx(0.15)
    assert heavy.margin == pytest.approx(light.margin)


@pytest.mark.parametrize(("stopping", "infinite"), [("coast", True), ("brake", False)])
def test_nothing_slows_a_lift_while_its_controller_coasts(stopping: str, infinite: bool) -> None:
    assert np.isinf(carrier(f"controller.lift.stopping={stopping}")[1].sink) == infinite


def test_gears_that_lock_hold_whatever_the_controller_does() -> None:
    worm = ("motor.lift.gears=[{kind='worm', ratio=5, efficiency=0.4}]", "controller.lift.stopping=coast")
    assert carrier(*worm)[1].sink == 0


def test_a_controller_that_can_do_either_has_to_say_which() -> None:
    raising = carrier("controller.lift.stopping=either")[1]
    assert raising.node("sink").gaps == {"controller.lift.stopping"}


# --- the vine lift, a cascade of two stages: 0.5 kg and 0.3 kg with 1.0 kg, 1.0 m, drum of 20 mm ---


def vines(*sets: str) -> tuple[LiftFacts, RaisingOnRopeFacts]:
    on = evaluation("vine-lift", sets)
    return on.entity(LiftFacts, LIFT), on.entity(RaisingOnRopeFacts, LIFT)


def test_a_cascade_by_virtual_work() -> None:
    lift, rope = vines()
    assert lift.rope_force == as_printed("30.4")
    assert lift.asked == as_printed("0.76")
    assert lift.share_of_stall == as_printed("0.32")
    assert lift.energy == as_printed("15")  # the lower stage goes half the way
    assert lift.energy == pytest.approx(lift.rope_force * 0.5)  # by hand: half a metre of rope
    assert rope.creep == as_printed("0.039")
    assert rope.rise_time == pytest.approx(1.0 / rope.rise_speed)


def test_stages_that_follow_one_another_hold_as_much_energy_as_a_cascade() -> None:
    lift, rope = vines(f"{LIFT}.rigging=continuous")
    assert lift.rope_force == pytest.approx(1.8 * 9.81)
    assert lift.energy == as_printed("15")
    assert rope.ratio == 1


# --- the pruner's arm: 1.2 kg at 0.30 m, 1.0 kg at 0.60 m, chain of 1.5 to 1 at 0.85 ---


def arm(*sets: str) -> tuple[ArmFacts, RaisingFacts, RaisingArmFacts]:
    on = evaluation("long-reach-pruner", sets)
    return (
        on.entity(ArmFacts, "mechanism.arm"),
        on.entity(RaisingFacts, "mechanism.arm"),
        on.entity(RaisingArmFacts, "mechanism.arm"),
    )


def degrees(rate: Value) -> float:
    return float(np.degrees(rate))


def test_what_the_arm_asks_and_whether_it_stays_up() -> None:
    held, raising, measured = arm()
    assert held.torque == as_printed("9.42")
    assert held.asked == as_printed("7.39")
    assert held.share_of_stall == as_printed("0.62")
    assert held.energy == as_printed("9.4")
    assert raising.nominal_margin == as_printed("1.28")
    assert raising.hold_low == as_printed("0.11")
    assert raising.hold_high == as_printed("0.58")
    assert degrees(measured.creep) == as_printed("14")


def test_the_arms_motor_at_its_stop() -> None:
    motor = evaluation("long-reach-pruner").entity(StopFacts, "motor.arm")
    # by hand: 20 g of copper take 7.7 J/K; the stall current falls with the volts that are left
    assert motor.stop_time == pytest.approx(80 * 7.7 / (motor.stop_current**2 * 12 / 5.5))
    assert motor.stop_time == as_printed("14.6")


def test_a_counterbalance_for_which_the_arm_stands_still() -> None:
    def share(torque: float) -> Value:
        return arm(f"mechanism.arm.counterbalance={torque} N m")[2].creep_share

    assert share(8.05) > 1
    assert share(8.15) < 1
    held = arm("mechanism.arm.counterbalance=8.1 N m")[0]
    assert held.energy == as_printed("9.4")  # the spring may be unhooked


def test_an_arm_whose_way_is_not_noted() -> None:
    held = arm("mechanism.arm.lowest=?", "mechanism.arm.highest=?")[0]
    assert held.node("energy").gaps == {"mechanism.arm.lowest", "mechanism.arm.highest"}
    assert known(held, "torque")


# --- the log winch: 12 kg, drum of 15 mm, rope of 4 mm, efficiency 0.9 ---


def test_the_winch_on_its_first_layer() -> None:
    on = evaluation("log-winch")
    winch, rope = on.entity(WinchFacts, "mechanism.winch"), on.entity(RaisingOnRopeFacts, "mechanism.winch")
    assert winch.drum_radius == as_printed("0.017")
    assert winch.asked == as_printed("2.2")
    assert winch.share_of_stall == as_printed("0.25")
    assert winch.current == as_printed("5.6")
    assert winch.energy == as_printed("59")
    assert rope.creep == as_printed("0.015")


def test_a_winch_that_pulls_raises_nothing_and_one_of_unknown_use_cannot_be_told() -> None:
    pulling = evaluation("log-winch", ("mechanism.winch.use=pulling",))
    assert WinchFacts.all(pulling) == []
    unknown = evaluation("log-winch", ("mechanism.winch.use=?",))
    (winch,) = WinchFacts.all(unknown)
    assert winch.node("asked").gaps == {"mechanism.winch.use"}
