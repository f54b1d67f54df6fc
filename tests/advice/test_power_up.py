"""The first power-up: bands that hold what is right and not what is wrong, in the order that risks least."""

from __future__ import annotations

import json
from itertools import pairwise

import pytest

from mulewright.advice.power_up.build import power_up
from mulewright.advice.power_up.plan import Band, Place, Plan, Step
from mulewright.advice.power_up.words import band_words
from mulewright.design.harness import harness
from mulewright.facts.first_push import FirstPushFacts
from mulewright.models.duty import duty_rescaled
from mulewright.shelf.power_up import meters, readings, stages, steps
from tests.designs import DESIGNS, evaluation
from tests.ngspice import needs_ngspice, run
from tests.published import agrees, outside

MODES = ((False, False), (True, False), (False, True))
each_design = pytest.mark.parametrize("design", DESIGNS)
TWO_PACKS = (
    'battery.second={part = "b-ni"}',
    'y_lead.packs={kind = "parallel", carries = "power", joins = ["battery.main", "battery.second"]}',
    'wire.main.path=["battery.main", "y_lead.packs", "fuse.main", "switch.main", "board.main"]',
)


def plan(
    design: str,
    sets: tuple[str, ...] = (),
    variant: str | None = None,
    *,
    supply: bool = False,
    tester: bool = False,
) -> Plan:
    return power_up(evaluation(design, sets, variant), supply=supply, tester=tester)


def titles(found: Plan) -> list[str]:
    return [step.id for step in found.steps]


def step(found: Plan, id: str) -> Step:
    return next(one for one in found.steps if one.id == id)


# --- every example


@each_design
@pytest.mark.parametrize(("supply", "tester"), MODES, ids=["battery", "supply", "tester"])
def test_every_band_holds_its_nominal_value(design: str, supply: bool, tester: bool) -> None:
    found = plan(design, supply=supply, tester=tester)
    assert found.steps
    for reading in found.readings.values():
        band = reading.band
        assert band.known or band.needs or reading.word == "metre", reading.id
        if band.known and band.nominal is not None and not band.bearer:
            assert band.place(band.nominal) is Place.INSIDE, reading.id
        if band.low is not None and band.high is not None:
            assert band.low <= band.high, reading.id


@each_design
@pytest.mark.parametrize(("supply", "tester"), MODES, ids=["battery", "supply", "tester"])
def test_it_is_numbered_staged_and_the_same_every_time(design: str, supply: bool, tester: bool) -> None:
    found, again = (plan(design, supply=supply, tester=tester).as_dict() for _ in range(2))
    assert json.dumps(found, allow_nan=False) == json.dumps(again, allow_nan=False)
    numbers = [one["number"] for one in found["steps"]]
    assert numbers == list(range(1, len(numbers) + 1))
    assert all(first["stage"] <= second["stage"] for first, second in pairwise(found["steps"]))
    assert len({one["id"] for one in found["steps"]}) == len(numbers)
    ids = [reading["id"] for one in found["steps"] for reading in one["readings"]]
    assert len(set(ids)) == len(ids)
    assert "{" not in " ".join(line for one in found["steps"] for line in [*one["do"], one["title"]])


@each_design
def test_nothing_is_powered_before_everything_is_propped_and_metered(design: str) -> None:
    found = plan(design)
    assert found.steps[0].id == "props:all"
    cold = [one.number for one in found.steps if one.stage == 0]
    warm = [one.number for one in found.steps if one.stage > 0]
    assert max(cold) < min(warm)


@each_design
def test_wire_numbers_are_those_of_the_harness(design: str) -> None:
    found = plan(design)
    numbers = {number for one in found.steps for number in one.wires}
    assert numbers <= {one.number for one in harness(evaluation(design).mule).conductors}


def test_the_words_of_the_table_fit_the_readings_and_steps() -> None:
    assert {one.meter for one in readings().values()} <= meters().keys()
    assert all(0 <= one.stage < len(stages()) for one in steps().values())


# --- faults: the step that should catch each reads outside its band


def value_on_a_faulty_mule(design: str, sets: tuple[str, ...], id: str) -> float:
    nominal = plan(design, sets).readings[id].band.nominal
    assert nominal is not None
    return nominal


FAULTY_MULES = {
    "another pack": ("tray-cart", "pack:battery.main", ("battery.main.rested=8.4 V",), Place.BELOW),
    "a regulator set to 9 V": (
        "tray-cart", "rail:rail.receiver", ("controller.left.regulator.voltage=9 V",), Place.ABOVE,
    ),
    "a rail of 5 V": (
        "tray-cart", "rail:rail.receiver", ("controller.left.regulator.voltage=5 V",), Place.BELOW,
    ),
    "endpoints at 60 %": (
        "tray-cart", "full:forward:motor.left", ("radio.channel.others.travel=60 %",), Place.BELOW,
    ),
    "controllers that were taught the radio's range": (
        "aisle-carrier", "full:forward:motor.front_left",
        tuple(f"controller.{one}.calibrated_to=400 us" for one in ("front_left", "front_right", "rear_left", "rear_right")),
        Place.ABOVE,
    ),
    "no expo": ("tray-cart", "small:forward:motor.left", ("radio.control.others.expo=0 %",), Place.ABOVE),
    "half of the rate": ("tray-cart", "small:forward:motor.left", ("radio.control.RV.rate=50 %",), Place.BELOW),
    "a stiff gearbox": ("tray-cart", "free:forward:motor.left", ("motor.left.free_current=1.5 A",), Place.ABOVE),
    "both gearboxes stiff": (
        "tray-cart", "draw:forward",
        ("motor.left.free_current=1.5 A", "motor.right.free_current=1.5 A"), Place.ABOVE,
    ),
    "fast motors in a slow cart": (
        "tray-cart", "metre:drive", ('motor.left.part="gm-fast"', 'motor.right.part="gm-fast"'), Place.BELOW,
    ),
    "a wide servo": ("aisle-carrier", "swing:servo.tilt", ("radio.channel.others.travel=125 %",), Place.ABOVE),
    "a rate switch that slows nothing": (
        "aisle-carrier", "slow:forward:motor.front_left", ("radio.rate.slow=100 %",), Place.ABOVE,
    ),
}  # fmt: skip


@pytest.mark.parametrize("fault", FAULTY_MULES)
def test_a_faulty_mule_reads_outside_the_band_of_the_mule_as_planned(fault: str) -> None:
    design, id, sets, place = FAULTY_MULES[fault]
    reading = plan(design).readings[id]
    assert reading.band.place(value_on_a_faulty_mule(design, sets, id)) is place
    assert reading.advice(place)


CREEP = 12.6 * float(duty_rescaled(60e-6, 500e-6, 25e-6))  # a trim of 60 us, on half a millisecond
READ_AT_THE_BENCH = {
    "plus and minus exchanged at the pack": ("pack:battery.main", -12.6, Place.MINUS),
    "two packs one behind the other": ("joined:y_lead.packs", 25.2, Place.ABOVE),
    "one leg of the Y-lead open": ("joined:y_lead.packs", 0.0, Place.NOTHING),
    "a fuse of 30 A": ("fuse:fuse.main", 30.0, Place.ABOVE),
    "a strand across the board": ("short:battery.main", 0.3, Place.BELOW),
    "a branch exchanged: plus on plus": ("plus:controller.right", float("inf"), Place.NOTHING),
    "a branch exchanged: plus on minus": ("apart:controller.right", 0.02, Place.BELOW),
    "the one red wire pulled": ("rail:rail.receiver", 0.0, Place.NOTHING),
    "a receiver plug the wrong way round": ("rail:rail.receiver", -6.0, Place.MINUS),
    "the receiver in a short": ("standing:rail.receiver", 1.0, Place.ABOVE),
    "a controller fed backwards": ("bus:controller.left", -12.6, Place.MINUS),
    "a trim that creeps": ("still:controller.left", CREEP, Place.ABOVE),
    "a motor lead off": ("free:forward:motor.left", 0.0, Place.NOTHING),
    "a motor that was wired the other way": ("full:forward:motor.left", -11.9, Place.MINUS),
    "one motor of two dead": ("draw:forward", 0.54, Place.BELOW),
    "a channel that holds": ("lost:drive", float("inf"), Place.ABOVE),
    "a controller too hot": ("warm:controller.left", 70.0, Place.ABOVE),
    "brakes that are not there": ("stop:drive", 2.0, Place.ABOVE),
}


@pytest.mark.parametrize("fault", READ_AT_THE_BENCH)
def test_a_fault_reads_outside(fault: str) -> None:
    id, value, place = READ_AT_THE_BENCH[fault]
    reading = plan("tray-cart", TWO_PACKS).readings[id]
    assert reading.band.place(value) is place
    assert reading.advice(place)


# --- which steps, for which mule


def test_without_a_radio_each_thing_in_turn_and_never_in_sweep() -> None:
    found = plan("aisle-carrier", tester=True)
    assert found.mode == "servo tester"
    tested = [one for one in found.steps if one.id.startswith("tested:")]
    assert len(tested) == 6
    for one in tested:
        assert any("Never sweep" in line for line in one.do)
    assert not any(one.id.startswith(("lost:", "floor:", "battery:", "rate:")) for one in found.steps)
    assert any("fail-safe" in line for line in found.unproven)
    assert any("R02" in line for line in found.unproven)
    assert not any(one.verdict.check.id.startswith("R") for one in found.open_checks)


def test_a_tester_gives_the_duty_of_its_own_pulses() -> None:
    sets = ('tester.bench={part = "st"}', 'controller.lift.signal="tester.bench"')
    band = plan("vine-lift", sets, tester=True).readings["knob:motor.lift"].band
    assert band.nominal == pytest.approx(12.4)  # 2200 us is beyond its range: all of the rested battery


def test_a_bench_without_a_radio_is_on_the_tester_unasked() -> None:
    found = plan("soft-fruit-gripper")
    assert found.mode == "servo tester"
    assert found.readings["rail:rail.tester.bench"].band.needs == ("something that feeds rail.tester.bench",)
    assert [one.verdict.check.id for one in found.open_checks] == ["P01"]
    assert step(found, "tester:all").waits == ("P01 rail.tester.bench",)


def test_servos_only() -> None:
    found = plan("soft-fruit-gripper", variant="mended")
    assert found.mode == "battery"
    assert [one for one in titles(found) if one.startswith("servo:")] == [
        "servo:servo.left",
        "servo:servo.right",
    ]
    assert not any(one.startswith(("function:", "lost:", "floor:", "controller:")) for one in titles(found))


def test_a_bench_supply_is_set_for_each_step_and_a_battery_gets_one_small_fuse() -> None:
    on_supply, on_battery = plan("tray-cart", supply=True), plan("tray-cart")
    limits = [one.limit for one in on_supply.steps if one.limit]
    assert len(limits) == 5
    assert all(one.volts == 12.6 and one.amps and one.amps < 15 for one in limits)
    assert limits[0].amps is not None
    assert limits[-1].amps is not None
    assert limits[0].amps < limits[-1].amps
    fuses = [one.limit for one in on_battery.steps if one.limit]
    assert [one.fuse for one in fuses] == [3.0]


def test_a_bench_supply_of_the_file_counts() -> None:
    sets = (
        'bench_supply.lab={voltage = "12.0 V", current_limit = "5 A", absorbs = false}',
        'battery.main="?"',
        'wire.main.path=["bench_supply.lab", "fuse.main", "switch.main", "board.main"]',
    )
    found = plan("tray-cart", sets)
    assert found.mode == "bench supply"
    assert not any(one.startswith(("pack:", "battery:")) for one in titles(found))
    assert found.readings["bus:controller.left"].band.nominal == 12.0


def test_two_packs_are_metered_one_by_one_and_joined() -> None:
    found = plan("tray-cart", TWO_PACKS)
    assert {"pack:battery.main", "pack:battery.second", "joined:y_lead.packs"} <= set(titles(found))


def test_a_flywheel_is_guarded_and_a_load_propped_before_anything_turns() -> None:
    assert any("fit one before it turns" in line for line in plan("seed-ball-thrower").steps[0].do)
    assert any(line.startswith("Prop arm") for line in plan("long-reach-pruner").steps[0].do)
    assert any("rope slack" in line for line in plan("log-winch").steps[0].do)
    assert titles(plan("long-reach-pruner"))[-1] == "load:arm"


@pytest.mark.parametrize("tester", [False, True])
def test_what_has_ends_to_its_way_is_uncoupled_before_full_stick(tester: bool) -> None:
    found = plan("long-reach-pruner", tester=tester)
    id = "tested:controller.arm" if tester else "function:arm"
    assert any(line.startswith("Uncouple arm") for line in step(found, id).do)
    assert not any(
        "Uncouple" in line
        for line in step(found, "tested:controller.left" if tester else "function:forward").do
    )


def test_a_box_on_the_way_is_minded_where_its_wheels_turn_first() -> None:
    assert any(line.startswith("S20") for line in step(plan("hose-tug"), "function:forward").minds)


def test_each_source_of_a_rail_has_its_own_volts_and_the_highest_carries_it() -> None:
    found = plan("seed-ball-thrower")
    nominal = {id: one.band.nominal for id, one in found.readings.items() if one.word == "rail"}
    assert nominal == {
        "rail:rail.receiver:controller.feeder": 6.0,
        "rail:rail.receiver:controller.flywheel": 5.0,
        "rail:rail.receiver+controller.feeder": 6.0,
        "rail:rail.receiver+controller.flywheel": 6.0,
        "rail:rail.receiver+all": 6.0,
    }


def test_a_stick_with_a_wide_dead_part_is_pushed_beyond_it() -> None:
    on = evaluation("hose-tug")
    push = on.entity(FirstPushFacts, "motor.left")
    assert float(push.first_stick) > float(push.signal.dead_stick) > 0.2
    assert power_up(on).readings["small:forward:motor.left"].band.nominal == pytest.approx(1.15, abs=0.1)


def test_the_least_risk_comes_first_and_what_nobody_knows_last() -> None:
    assert [one for one, _ in plan("aisle-carrier").order] == ["pump", "drive", "lift"]
    unknown = plan("vine-lift", ("receiver.fail_safe.others=?", 'receiver.fail_safe.3="neutral"'))
    assert [one for one, _ in unknown.order] == ["lift", "drive"]
    assert [one for one, _ in plan("vine-lift").order] == ["drive", "lift"]


def test_steps_wait_for_the_open_checks_of_what_they_power() -> None:
    found = plan("aisle-carrier")
    waiting = {one.id for one in found.steps if one.waits}
    assert [(one.verdict.check.id, len(one.about)) for one in found.open_checks] == [("R02", 4)]
    assert {"controller:controller.front_left", "function:forward", "floor:drive"} <= waiting
    assert not {"controller:controller.lift", "function:lift", "servo:servo.tilt"} & waiting


def test_an_unknown_that_an_earlier_step_settles_keeps_nothing_waiting_after_it() -> None:
    found = plan("tray-cart", ("wire.main.joints=?", "wire.branches.joints=?"))
    swapped = [one for one in found.open_checks if one.verdict.check.id == "P17"]
    assert [one.about for one in swapped] == [("controller.left", "controller.right")]
    assert [one.settled_by for one in swapped] == [step(found, "branch:battery.main").number]
    assert all(not one.waits for one in swapped)
    assert "P17" in step(found, "branch:battery.main").settles


def test_what_the_first_look_puts_right_is_settled_there_and_minded_nowhere() -> None:
    found = plan("seed-ball-thrower")
    assert "X13" in found.steps[0].settles
    assert not any(line.startswith("X13") for one in found.steps for line in one.minds)
    assert any(line.startswith("R07") for line in step(found, "function:flywheel").minds)


def test_a_band_that_needs_an_unknown_says_so_and_the_step_says_what_to_write_down() -> None:
    found = plan("tray-cart", ("motor.left.free_current=?", "controller.left.dead_band=?"))
    reading = found.readings["full:forward:motor.left"]
    assert set(reading.band.needs) == {"motor.left.free_current", "controller.left.dead_band"}
    assert "needs" in band_words(reading.band)
    assert "motor.left.free_current" in step(found, "function:forward").writes
    on_tester = plan("tray-cart", ("controller.left.dead_band=?",), tester=True)
    assert "controller.left.dead_band" in step(on_tester, "tested:controller.left").writes


@pytest.mark.parametrize(
    "sets",
    [
        ('battery.main="?"', 'wire.main="?"'),
        ('receiver="?"', 'radio="?"', "controller.left.signal=?", "controller.right.signal=?"),
        ('controller="?"', 'motor="?"'),
    ],
)
def test_a_mule_that_is_hardly_described_still_gets_a_plan(sets: tuple[str, ...]) -> None:
    found = plan("tray-cart", sets)
    assert found.steps[0].id == "props:all"
    json.dumps(found.as_dict(), allow_nan=False)


# --- outside


@needs_ngspice
@outside(
    "PU1", quantity="mean volts at a motor that runs free on pulses, as a meter shows them",
    source="computed independently, ngspice", mark="C",
)  # fmt: skip
@outside(
    "PU2", quantity="mean current of its supply then",
    source="computed independently, ngspice", mark="C",
)  # fmt: skip
def test_the_meter_shows_duty_times_volts() -> None:
    """A bridge that brakes between its pulses, 16 kHz, with the winding, a coil and the back-EMF of a cart's motor."""
    on = evaluation("tray-cart")
    push = on.entity(FirstPushFacts, "motor.left")
    supply, duty = float(push.supply), float(push.motor.duty)
    current, winding = float(push.motor.free_current), float(push.motor.resistance)
    on_time, period = f"{duty * 62.5e-6:.9g}", "62.5u"
    circuit = f"""
        vb bus 0 {supply:.9g}
        s1 bus m gate 0 on
        s2 m 0 low 0 on
        vg gate 0 pulse(0 1 0 10n 10n {on_time} {period})
        vl low 0 pulse(1 0 0 10n 10n {on_time} {period})
        rm m a {winding:.9g}
        lm a e 1m ic={current:.9g}
        ve e 0 {duty * supply - current * winding:.9g}
        .model on sw(vt=0.5 vh=0 ron=1m roff=1meg)
    """
    measures = ("mean avg v(m)", "draw avg i(vb)")
    got = run(
        circuit,
        "\n".join(["tran 0.2u 40m 30m 0.2u uic", *(f"meas tran {one} from=30m to=40m" for one in measures)]),
    )
    volts = power_up(on).readings["full:forward:motor.left"].band
    assert volts.place(got["mean"]) is Place.INSIDE
    agrees(push.full_volts, round(got["mean"], 3), rel=2e-3, of="PU1")
    agrees(push.free_draw, round(-got["draw"], 3), rel=2e-2, of="PU2")


def test_a_band_reads_as_people_say_it() -> None:
    assert band_words(Band("voltage", 9.38, 10.31, 9.9)) == "9.38 V to 10.3 V"
    assert band_words(Band("time", None, 1.584, 1.0)) == "up to 1.6 s"
    assert band_words(Band("resistance", 100.0, None)) == "at least 100 ohm"
    assert band_words(Band("current", needs=("motor.left.free_current",))) == (
        "? (needs motor.left.free_current): write it down"
    )


# --- what a step may not say


def test_dry_cells_are_never_charged() -> None:
    dry = plan("vine-lift").readings["dry_pack:battery.main"]
    assert "never charged" in dry.advice(Place.BELOW)
    assert "Charge the pack" not in dry.advice(Place.BELOW)
    assert "Charge the pack" in plan("tray-cart").readings["pack:battery.main"].advice(Place.BELOW)


@pytest.mark.parametrize("variant", [None, "nimh-pack-without-fuse"])
def test_a_wire_without_a_fuse_keeps_the_first_one(variant: str | None) -> None:
    first = step(plan("vine-lift", variant=variant), "battery:battery.main").do[0]
    assert "the small first fuse stays in" in first
    on_supply = step(plan("vine-lift", variant=variant, supply=True), "battery:battery.main").do[0]
    assert "fit one first" in on_supply


def test_the_fuse_is_swapped_before_anything_runs() -> None:
    do = step(plan("tray-cart"), "battery:battery.main").do
    assert "first fuse out, fuse main in" in do[0]
    assert "every function once more" in do[-1]


def test_a_band_ends_at_what_the_part_bears() -> None:
    rail = (
        plan("aisle-carrier", sets=("servo.tilt.max_voltage=5.9 V",)).readings["rail:rail.receiver+all"].band
    )
    assert rail.high == 5.9
    assert rail.bearer == "servo tilt"
    assert "the most that servo tilt bears" in band_words(rail)
    for side in ("left", "right"):
        bus = plan("leaf-sweeper").readings[f"bus:controller.{side}"].band
        assert bus.high == 13.0
        assert bus.place(13.5) is Place.ABOVE
    behind = plan("leaf-sweeper").readings["bus:battery.main>board.main"].band
    assert behind.high == 13.0


def test_a_six_volt_servo_bears_what_six_volt_regulators_are_off() -> None:
    """Common practice, no source: half of all regulators of 6 V give a little more than that."""
    rail = plan("aisle-carrier").readings["rail:rail.receiver+all"].band
    assert rail.bearer == ""
    assert rail.place(6.05) is Place.INSIDE


def test_where_nothing_of_a_band_is_left_nothing_is_connected() -> None:
    supply = step(plan("soft-fruit-gripper", variant="high-voltage-pack"), "tester:all")
    assert supply.do[0].startswith("DO NOT CONNECT")
    assert any("Servo plugs out" in line for line in supply.do)
    assert {one.split()[0] for one in supply.waits} == {"P10"}
    band = supply.readings[0].band
    assert band.high == 6.0
    assert band.place(8.4) is Place.ABOVE


def test_several_sources_that_are_set_alike_keep_the_band_of_one() -> None:
    found = plan("vine-lift").readings
    alone = found["rail:rail.receiver:controller.left"].band
    bands = [reading.band for id, reading in found.items() if id.startswith("rail:")]
    assert len(bands) > 2
    assert all(band.low == pytest.approx(alone.low, rel=0.005) for band in bands)


WAITING = {
    "rate": ("aisle-carrier", None, "rate:forward", "R02"),
    "rate of another command": ("aisle-carrier", None, "rate:strafe", "R02"),
    "full stick": ("leaf-sweeper", None, "rate:turn", "P34"),
    "warm": ("vine-lift", "nimh-pack-without-fuse", "warm:all", "P23"),
    "servos on a rail without supply": ("soft-fruit-gripper", None, "tested_servo:servo.left", "P01"),
}


@pytest.mark.parametrize("case", WAITING)
def test_whatever_gets_power_through_it_waits_for_an_open_check(case: str) -> None:
    design, variant, id, check = WAITING[case]
    assert check in {one.split()[0] for one in step(plan(design, variant=variant), id).waits}


def test_what_may_be_too_hot_is_not_touched() -> None:
    hot, cool = step(plan("aisle-carrier"), "warm:all"), step(plan("tray-cart"), "warm:all")
    assert any("DO NOT TOUCH controller front_left" in line for line in hot.do)
    assert all((one.band.high or 0.0) <= 100.0 for one in hot.readings)
    assert not any("DO NOT TOUCH" in line for line in cool.do)


def test_a_first_fuse_says_what_is_not_in_it() -> None:
    found = plan("tray-cart", ("radio.control.RV.rate=?",))
    limit = next(one.limit for one in found.steps if one.limit is not None)
    assert "NOT in it, for it is not known: forward with RV" in limit.why
    assert limit.needs == ("radio.control.RV.rate",)


def test_the_way_to_a_stop_is_read_as_it_is_told_and_no_finer_than_a_tape_tells() -> None:
    floor = step(plan("tray-cart"), "floor:drive")
    assert any("full stick" in line and "let go at a mark" in line for line in floor.do)
    assert plan("tray-cart").readings["stop:drive"].band.low == 0


def test_too_little_room_stands_first() -> None:
    assert (
        step(plan("vine-lift"), "floor:drive")
        .do[0]
        .startswith("TOO LITTLE ROOM: after a lost link it goes 4.2 m")
    )
    assert not any("TOO LITTLE" in line for line in step(plan("tray-cart"), "floor:drive").do)
