"""The packaged shelf: every part is there, every number is what was invented, every value has a source."""

from collections.abc import Iterator
from typing import Any

import pytest

from mulewright.shelf.catalog import PACKAGED, PartRecord, catalog_for
from mulewright.shelf.keys import inner_tables
from mulewright.shelf.parts import PART_KINDS, BatteryPart, ControllerPart, MotorPart, RadioPart, ServoPart
from mulewright.units.quantity import Origin, Quantity
from mulewright.units.table import Table

IDS = {
    "motor": ["gm-drive", "gm-fast", "gm-heavy", "gm-slow", "mo-raw"],
    "controller": ["ctl-10l", "ctl-20s", "ctl-6l", "ctl-car"],
    "mixer": ["box-2", "box-4"],
    "servo": ["sv-270", "sv-ht", "sv-std"],
    "tester": ["st"],
    "radio": ["tx7", "tx8"],
    "receiver": ["rx7", "rx8"],
    "battery": ["b-dry", "b-li", "b-ni"],
    "lead": [
        "adapter-2-35", "ext-300", "ext-600", "patch-150", "ring-500", "tail-300", "tail-500", "y-150",
    ],
}  # fmt: skip
SHELF = catalog_for(None, PACKAGED)


def si(table: Table, key: str) -> float:
    quantity = table.quantity(key)
    assert quantity is not None
    return quantity.value


def quantities(table: Table) -> Iterator[Quantity]:
    for name in type(table).model_fields:
        value = getattr(table, name)
        if isinstance(value, Quantity):
            yield value
        inner = inner_tables(type(table)).get(name)
        if inner and value:
            for below in value.values() if inner.named else [value]:
                yield from quantities(below)


def test_every_part_is_there() -> None:
    assert {kind: [id for known, id in SHELF.ids(kind)] for kind in IDS} == IDS
    assert sum(map(len, IDS.values())) == len(SHELF.ids())


def test_the_package_holds_nothing_else() -> None:
    folders = {path.name for path in PACKAGED.iterdir()}
    assert folders - set(PART_KINDS) == {"tables"}


@pytest.mark.parametrize("record", SHELF.list(), ids=lambda record: record.id)
def test_every_value_says_where_it_comes_from(record: PartRecord) -> None:
    assert record.title
    for quantity in quantities(record.part):
        assert quantity.origin in (Origin.DATA_SHEET, Origin.ASSUMED)
        assert quantity.ref
        assert quantity.part == record.id


@pytest.mark.parametrize("kind", PART_KINDS)
def test_every_key_of_every_kind_says_what_it_means(kind: str) -> None:
    assert all(info.description for info in PART_KINDS[kind].model_fields.values())


@pytest.mark.parametrize(
    ("id", "resistance", "torque_constant", "speed_constant"),
    [
        ("gm-slow", 2.18, 2.31, 3.61),
        ("gm-drive", 1.60, 0.338, 0.542),
        ("gm-fast", 1.60, 0.0704, 0.1085),
        ("gm-heavy", 0.60, 0.471, 0.730),
        ("mo-raw", 1.71, 0.0165, 0.0209),
    ],
)
def test_motors_give_the_constants_that_were_worked_out_by_hand(
    id: str, resistance: float, torque_constant: float, speed_constant: float
) -> None:
    motor = SHELF.find("motor", id).part
    assert isinstance(motor, MotorPart)
    volts, stall, free = (si(motor, key) for key in ("nominal_voltage", "stall_current", "free_current"))
    assert volts / stall == pytest.approx(resistance, rel=0.005)
    assert si(motor, "stall_torque") / (stall - free) == pytest.approx(torque_constant, rel=0.005)
    ke = (volts - free * volts / stall) / si(motor, "free_speed")
    assert ke == pytest.approx(speed_constant, rel=0.005)


def test_a_short_range_radio_gives_a_controller_79_percent() -> None:
    controller, radio = SHELF.find("controller", "ctl-10l").part, SHELF.find("radio", "tx7").part
    band = si(controller, "dead_band")
    assert (si(radio, "half_range") - band) / (si(controller, "half_range") - band) == pytest.approx(
        0.789, abs=5e-4
    )


@pytest.mark.parametrize(("id", "degrees"), [("sv-std", 162), ("sv-ht", 180), ("sv-270", 270)])
def test_servos_turn_as_far_as_their_sheet_says(id: str, degrees: float) -> None:
    servo = SHELF.find("servo", id).part
    assert isinstance(servo, ServoPart)
    turn = si(servo, "gain") * (si(servo, "stop_high") - si(servo, "stop_low"))
    assert turn * 180 / 3.141592653589793 == pytest.approx(degrees)


def test_regulators_bear_no_more_for_a_moment_than_for_ever_and_that_is_assumed() -> None:
    for record in SHELF.list("controller"):
        assert isinstance(record.part, ControllerPart)
        regulator = record.part.regulator
        assert regulator is not None
        peak, label = regulator.quantity("peak_current"), regulator.quantity("current")
        assert peak is not None
        assert label is not None
        assert peak.value == label.value
        assert peak.origin is Origin.ASSUMED


def test_a_peak_rate_is_not_taken_for_a_continuous_one() -> None:
    pack = SHELF.find("battery", "b-li").part
    assert isinstance(pack, BatteryPart)
    assert si(pack, "peak_rate") * si(pack, "capacity") == pytest.approx(125)
    assert pack.continuous_rate is None


@pytest.mark.parametrize("id", ["tx7", "tx8"])
def test_controls_move_the_channels_in_the_order_of_the_radio(id: str) -> None:
    radio = SHELF.find("radio", id).part
    assert isinstance(radio, RadioPart)
    channels: dict[str, Any] = {name: control.channel for name, control in radio.control.items()}
    usual = {"RV": 2, "RH": 1, "LV": 3, "LH": 4, "KN": 5, "SW2": 6, "KN2": 7}
    assert channels == (usual if id == "tx7" else usual | {"SW3": 8})
    assert radio.channels == len(channels)
    assert radio.control["LV"].sprung is (id == "tx8")
    assert set(radio.rate_covers or ()) <= set(channels)
