"""What gives first in the shipped machines, against numbers worked by hand."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from mulewright.tasks.chains import Chain, Link, chains_of
from tests.designs import DESIGNS, evaluation
from tests.published import as_printed

FAILURES = {"trips", "stalls", "slips", "burns", "snaps"}
NO_WIRES = ("wire.main.length=1 um", "wire.branches.length=1 um")


def chain(design: str, function: str, sets: Sequence[str] = (), variant: str | None = None) -> Chain:
    found = chains_of(evaluation(design, sets, variant))
    return next(one for one in found if one.function == function)


def link(chain: Chain, thing: str, what: str = "") -> Link:
    (found,) = (one for one in chain.links if one.thing == thing and what in one.what)
    return found


def names(links: Sequence[Link]) -> list[str]:
    return [f"{one.thing} {one.what}" for one in links]


# --- the pruner's arm: 1.5:1 outside the gearbox at an efficiency of 0.85


def test_the_pruners_gearbox_gives_before_its_motor_stalls() -> None:
    arm = chain("long-reach-pruner", "arm", NO_WIRES)
    gearbox, stall = link(arm, "motor.arm", "gearbox"), link(arm, "motor.arm", "stall")
    outside = 1.5 * 0.85
    assert gearbox.gives_at.value == pytest.approx(8 * outside)
    assert stall.gives_at.value is not None
    assert stall.gives_at.value / outside == as_printed("9.5")
    assert arm.at_work.value == as_printed("9.42")
    assert arm.at_work.value is not None
    assert arm.at_work.value / outside == as_printed("7.39")
    assert gearbox.margin == pytest.approx(8 / 7.386, rel=1e-3)
    assert arm.first is gearbox
    assert gearbox.fails == "snaps"


def test_its_winding_bears_less_than_the_load_in_the_long_run() -> None:
    arm = chain("long-reach-pruner", "arm")
    lasting = arm.first_in_time
    assert lasting is not None
    # 0.40 kg x 10 W/kg in 2.18 ohm: 1.354 A, of which 0.3 A turn the bare shaft, at 2.31 N m/A
    assert lasting.gives_at.value == pytest.approx((1.354 - 0.3) * 2.308 * 1.5 * 0.85, rel=2e-3)
    assert lasting.margin is not None
    assert lasting.margin < 1
    assert lasting.lasting


def test_a_weaker_load_is_borne_with_more_margin() -> None:
    light = chain("long-reach-pruner", "arm", ("mechanism.arm.load=0.2 kg",))
    heavy = chain("long-reach-pruner", "arm")
    for one, other in zip(light.known, heavy.known, strict=True):
        assert one.gives_at == other.gives_at
        assert (one.margin or 0) > (other.margin or 0)


# --- the log winch: drum of 30 mm, rope of 4 mm, full signal


def test_the_log_winch_link_by_link() -> None:
    winch = chain("log-winch", "winch")
    assert winch.measure == "pull in the rope at its drum"
    assert winch.at_work.value == pytest.approx(12 * 9.81 / 0.9)
    assert winch.stalls_at.value == as_printed("436")
    radius = 0.017
    torque_constant = 9 / (20 - 0.9)
    by_hand = {
        ("wire.main", "insulation"): (10 - 0.9) * torque_constant / radius,
        ("controller.winch", "for ever"): (10 - 0.9) * torque_constant / radius,
        ("controller.winch", "peak"): (15 - 0.9) * torque_constant / radius,
        ("mechanism.winch.rope", ""): 400,
        ("fuse.main", "1.1 x"): (25 * 1.1 - 0.9) * torque_constant / radius,
        ("motor.winch", "gearbox"): 14 / radius,
        ("fuse.main", "1.35 x"): (25 * 1.35 - 0.9) * torque_constant / radius,
        ("battery.main", "peak"): (25 * 5 - 0.9) * torque_constant / radius,
    }
    for (thing, what), pull in by_hand.items():
        assert link(winch, thing, what).gives_at.value == pytest.approx(pull), (thing, what)
    weakest = [one.gives_at.value for one in winch.known[:5]]
    assert weakest == pytest.approx(sorted([*by_hand.values(), 435.66])[:5], rel=1e-4)


def test_what_gives_first_at_once_and_in_time() -> None:
    winch = chain("log-winch", "winch")
    assert winch.first is link(winch, "controller.winch", "peak")  # 15 A, below the stall of 16.6 A
    assert winch.first_in_time is link(winch, "wire.main", "insulation")
    stronger = chain("log-winch", "winch", ("controller.winch.part=ctl-20s",))
    assert stronger.first is link(stronger, "mechanism.winch.rope")  # 400 N, below the stall of 436 N
    limited = chain("log-winch", "winch", variant="mended")
    assert limited.first is not None
    assert limited.first.fails == "stalls"  # nothing breaks any more before the motor stalls


def test_a_knot_halves_the_rope() -> None:
    winch = chain("log-winch", "winch", ("mechanism.winch.rope.knots=true",))
    assert link(winch, "mechanism.winch.rope").gives_at.value == pytest.approx(200)


def test_less_signal_lets_more_current_through_the_motor_than_through_the_wire() -> None:
    half = chain("log-winch", "winch", ("radio.channel.3.travel=64 %",))
    full = chain("log-winch", "winch")

    def pull(chain: Chain, thing: str, what: str) -> float:
        value = link(chain, thing, what).gives_at.value
        assert value is not None
        return value

    assert pull(half, "wire.main", "insulation") > 1.9 * pull(full, "wire.main", "insulation")
    assert pull(half, "controller.winch", "for ever") == pull(full, "controller.winch", "for ever")


# --- the tray cart: both sides push, the wheels slip first


def test_the_carts_wheels_slip_before_anything_else_gives() -> None:
    left, right = chain("tray-cart", "drive-left"), chain("tray-cart", "drive-right")
    for side in (left, right):
        assert side.first is link(side, "drive.wheel")
        # 6 kg, 0.14 m of 0.22 m behind the middle, friction 0.8, two wheels
        assert side.first is not None
        assert side.first.gives_at.value == pytest.approx(0.8 * 6 * 9.81 * 0.14 / 0.22 / 2)
        assert side.stalls_at.value is not None
        assert (side.first.gives_at.value or 0) < side.stalls_at.value


def test_both_sides_share_fuse_and_wire() -> None:
    left = chain("tray-cart", "drive-left")
    duty, torque_constant, radius = 455 / 475, 2.4 / 7.1, 0.05
    blows = (15 * 1.35 / 2 / duty - 0.4) * torque_constant / radius
    assert link(left, "fuse.main", "1.35 x").gives_at.value == pytest.approx(blows)
    branch = (15 / duty - 0.4) * torque_constant / radius
    assert link(left, "wire.branches", "insulation").gives_at.value == pytest.approx(branch)


def test_rollers_slip_earlier() -> None:
    # 11 kg on four wheels, friction 0.6 of the weight, over the root of 2; two wheels on a side
    side = chain("aisle-carrier", "drive-left")
    assert link(side, "drive.wheel").gives_at.value == pytest.approx(0.6 * 11 * 9.81 / 2**0.5 / 2)


# --- two motors on one controller


def test_two_motors_load_one_controller() -> None:
    flywheel = chain("seed-ball-thrower", "flywheel")
    torque_constant = 0.11 / 6.65
    peak = link(flywheel, "controller.flywheel", "peak")
    assert peak.gives_at.value == pytest.approx((10 - 2 * 0.35) * torque_constant)
    assert peak.margin is None  # up to speed it bears nothing
    assert flywheel.at_work.value == 0
    assert flywheel.first is peak


# --- a gripper on servos


def test_the_grippers_servos_against_the_force_that_holds_the_fruit() -> None:
    jaws = chain("soft-fruit-gripper", "gripper")
    assert jaws.at_work.value == pytest.approx(0.5 * (9.81 + 2) / (0.5 * 2))
    for servo in ("servo.left", "servo.right"):
        assert link(jaws, servo, "stall").gives_at.value == pytest.approx(2.0 / 0.08)  # 25 N
        assert link(jaws, servo, "winding").gives_at.value == pytest.approx(0.4 * 2.0 / 0.08)  # 10 N
    assert jaws.first is not None
    assert jaws.first.fails == "stalls"
    assert jaws.first_in_time is not None


def test_a_servo_that_holds_a_load() -> None:
    tilt = chain("aisle-carrier", "tilt", ("servo.tilt.load_torque=0.3 N m",))
    stall, warm = link(tilt, "servo.tilt", "stall"), link(tilt, "servo.tilt", "winding")
    assert stall.gives_at.value is not None
    assert warm.gives_at.value == pytest.approx(0.4 * stall.gives_at.value)
    assert stall.margin == pytest.approx(stall.gives_at.value / 0.3)
    assert chain("aisle-carrier", "tilt", ("servo.tilt.load_torque=?",)).at_work.needs == (
        "servo.tilt.load_torque",
    )


# --- what is missing


def test_what_is_missing_is_named_and_stands_last() -> None:
    winch = chain("log-winch", "winch", ("mechanism.winch.rope.breaking=?", "fuse.main.rating=?"))
    missing = {needed for one in winch.unknown for needed in one.gives_at.needs}
    assert {"mechanism.winch.rope.breaking", "fuse.main.rating", "motor.winch.hub_limit"} <= missing
    assert winch.links == (*winch.known, *winch.unknown)
    told = chain("log-winch", "winch", ("motor.winch.mass=1.2 kg", "wire.main.joints=[{rating='20 A'}]"))
    assert link(told, "motor.winch", "winding").gives_at.value is not None
    assert link(told, "wire.main.joints.0").gives_at.value is not None


def test_a_fuse_that_is_no_blade_has_no_known_band() -> None:
    winch = chain("log-winch", "winch", ("fuse.main.kind=breaker",))
    assert link(winch, "fuse.main", "1.1 x").gives_at.needs == (
        "the curve of fuse.main, a fuse of the kind breaker",
    )


@pytest.mark.parametrize(
    ("sets", "torque"),
    [
        (("motor.arm.gears.0.limit=12 N m",), 12.0),
        # 24 teeth at 8 mm: a radius of 30.6 mm
        (("motor.arm.gears.0.breaking=1 kN", "motor.arm.gears.0.pitch=8 mm"), 30.645),
    ],
)
def test_a_chain_gives_at_its_own_torque_or_pull(sets: tuple[str, ...], torque: float) -> None:
    arm = chain("long-reach-pruner", "arm", sets)
    assert link(arm, "motor.arm.gears.0").gives_at.value == pytest.approx(torque, rel=1e-4)


def test_hub_switch_board_port_and_limit_have_their_say() -> None:
    sets = ("motor.left.hub_limit=1 N m", "controller.left.current_limit=5 A", "board.main.port_rating=10 A")
    left = chain("tray-cart", "drive-left", sets)
    duty, torque_constant, radius = 455 / 475, 2.4 / 7.1, 0.05
    assert link(left, "motor.left", "hub").gives_at.value == pytest.approx(1 / radius)
    limit = link(left, "controller.left", "its current limit")
    assert limit.fails == "stalls"
    assert limit.gives_at.value == pytest.approx(4.6 * torque_constant / radius)
    port = (10 / duty - 0.4) * torque_constant / radius
    assert link(left, "board.main", "port").gives_at.value == pytest.approx(port)
    switch = (20 / 2 / duty - 0.4) * torque_constant / radius
    assert link(left, "switch.main").gives_at.value == pytest.approx(switch)


def test_set_screws_on_a_round_shaft_slip() -> None:
    sets = ("motor.winch.shaft=round", "motor.winch.shaft_diameter=8 mm", "motor.winch.set_screw_force=1 kN")
    winch = chain("log-winch", "winch", sets)
    hub = link(winch, "motor.winch", "hub")
    assert hub.fails == "slips"
    assert hub.gives_at.value is not None
    noted = link(chain("log-winch", "winch", (*sets, "motor.winch.hub_limit=6 N m")), "motor.winch", "hub")
    assert noted.gives_at.value == pytest.approx(6 / 0.017)


def test_a_controller_that_protects_itself_trips() -> None:
    winch = chain("log-winch", "winch", ("controller.winch.resets_itself=true",))
    assert link(winch, "controller.winch", "peak").fails == "trips"


def test_a_pulling_winch_bears_its_pull() -> None:
    sets = ("mechanism.winch.use=pulling", "mechanism.winch.pull=90 N")
    assert chain("log-winch", "winch", sets).at_work.value == pytest.approx(100)


# --- every shipped machine


@pytest.mark.parametrize("design", DESIGNS)
def test_each_chain_is_in_order_and_says_how_it_fails(design: str) -> None:
    for one in chains_of(evaluation(design)):
        loads = [link.gives_at.value for link in one.known]
        assert loads == sorted(loads, key=lambda load: load or 0)
        assert {link.fails for link in one.links} <= FAILURES
        assert {link.gives_at.unit for link in one.links} == {one.stalls_at.unit}
        assert all(link.gives_at.needs for link in one.unknown)
        assert not any(link.gives_at.needs for link in one.known)
