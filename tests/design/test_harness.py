"""Is every wire there once, with its own pins?"""

from collections import Counter

import pytest

from mulewright.design.harness import Conductor, Harness, harness
from mulewright.design.references import as_list
from tests.designs import DESIGNS, mule

TILT_SUPPLY = "own-servo-supply"


def ends(one: Conductor) -> tuple[str, str]:
    assert one.end is not None
    return f"{one.start.thing} {one.start.name}", f"{one.end.thing} {one.end.name}"


def of_kind(wires: Harness, kind: str) -> list[tuple[str, str]]:
    return [ends(one) for one in wires.conductors if one.kind == kind]


@pytest.mark.parametrize("design", DESIGNS)
def test_numbers_run_from_one_and_no_pin_is_used_twice(design: str) -> None:
    wires = harness(mule(design)).conductors
    assert [one.number for one in wires] == list(range(1, len(wires) + 1))
    taken = Counter(pin for one in wires for pin in one.pins)
    assert set(taken.values()) == {1}


@pytest.mark.parametrize("design", DESIGNS)
def test_everything_in_the_file_has_its_wires(design: str) -> None:
    """Counted from the tables of the file, each kind by itself."""
    of, wires = mule(design), harness(mule(design))
    motors = [motor for one in of.file.controller.values() for motor in as_list(one.feeds)]
    assert sorted(one.end.thing for one in wires.conductors if one.kind == "motor" and one.end) == sorted(
        motors * 2
    )
    leads = len(of.file.controller) + len(of.file.servo) + len(of.file.y_lead) + len(of.file.inline)
    inputs = sum(
        side is not None for box in of.file.mixer.values() for side in (box.forward, box.strafe, box.turn)
    )
    assert len([one for one in wires.conductors if one.kind == "servo lead"]) == leads + inputs
    in_between = Counter(
        of.things[item].model_dump().get("conductor") or "plus"
        for run in of.supply.runs
        for item in run.through
    )
    for pole in ("plus", "minus"):
        of_pole = [one for one in wires.conductors if one.kind == pole]
        assert len(of_pole) == len(of.supply.runs) + in_between[pole]


def test_a_fuse_cuts_the_plus_and_a_switch_the_conductor_that_it_breaks() -> None:
    wires = harness(mule("hose-tug"))
    assert of_kind(wires, "plus")[:2] == [
        ("battery.main +", "fuse.main in"),
        ("fuse.main out", "board.main +"),
    ]
    assert of_kind(wires, "minus")[:2] == [
        ("battery.main -", "switch.main in"),
        ("switch.main out", "board.main -"),
    ]


def test_only_the_piece_up_to_the_fuse_has_a_length_of_its_own() -> None:
    first, second, minus = harness(mule("tray-cart", ("switch.main.conductor=minus",))).conductors[:3]
    assert (first.length and first.length.text, second.length, minus.length) == ("0.1 m", None, None)
    assert second.part_of is not None
    assert second.part_of.text == "0.4 m"


def test_swapped_motor_leads_are_crossed() -> None:
    wires = harness(mule("tray-cart"))
    assert of_kind(wires, "motor") == [
        ("controller.left A", "motor.left +"),
        ("controller.left B", "motor.left -"),
        ("controller.right A", "motor.right -"),
        ("controller.right B", "motor.right +"),
    ]


def test_two_motors_on_one_controller_have_pins_of_their_own() -> None:
    wires = harness(mule("seed-ball-thrower"))
    assert [one.start.name for one in wires.at("controller.flywheel") if one.kind == "motor"] == [
        "A1",
        "B1",
        "A2",
        "B2",
    ]


def test_leads_on_a_y_lead_have_a_leg_each() -> None:
    wires = harness(mule("two-benches"))
    assert [one.end.name for one in wires.at("y_lead.left") if one.end] == ["leg 1", "leg 2", "2"]


def test_two_plugs_in_one_socket_are_two_wires() -> None:
    wires = harness(mule("tray-cart", ("controller.right.signal=receiver.2",)))
    assert [one.end.seat for one in wires.on("receiver", "2") if one.end] == [1, 2]


def test_a_plug_that_sits_nowhere_has_no_other_end() -> None:
    wires = harness(mule("tray-cart", ("controller.right.signal=?",)))
    assert [one.path for one in wires.conductors if one.end is None] == ["controller.right"]


def test_a_supply_of_its_own_is_a_lead_to_the_servo_whose_red_wire_is_out() -> None:
    wires = harness(mule("aisle-carrier", variant=TILT_SUPPLY))
    assert of_kind(wires, "supply lead") == [("regulator.servo out 1", "servo.tilt supply")]
    assert [
        one.red_pulled for one in wires.conductors if one.path == "servo.tilt" and one.kind == "servo lead"
    ] == [True]


def test_what_is_said_twice_is_one_lead() -> None:
    twice = ('regulator.servo.feeds=["servo.tilt"]',)
    wires = harness(mule("aisle-carrier", twice, TILT_SUPPLY))
    assert len(of_kind(wires, "supply lead")) == 1


def test_a_tester_fed_through_the_plug_that_it_drives_needs_no_lead_of_its_own() -> None:
    wires = harness(
        mule(
            "tray-cart",
            ("tester.bench={}", "tester.bench.power=controller.left", "controller.left.signal=tester.bench"),
        )
    )
    assert of_kind(wires, "supply lead") == []


def test_joined_packs_end_on_the_lead_that_joins_them() -> None:
    packs = (
        'battery.second={ part = "b-ni" }',
        'y_lead.packs={ kind = "parallel", carries = "power", joins = ["battery.main", "battery.second"] }',
        'wire.main.path=["battery.main", "y_lead.packs", "fuse.main", "board.main"]',
    )
    wires = harness(mule("aisle-carrier", packs))
    assert sorted(of_kind(wires, "plus"))[:2] == [
        ("battery.main +", "y_lead.packs + 1"),
        ("battery.second +", "y_lead.packs + 2"),
    ]
    assert ("y_lead.packs +", "fuse.main in") in of_kind(wires, "plus")
    assert ("y_lead.packs -", "board.main -") in of_kind(wires, "minus")
