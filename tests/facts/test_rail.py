"""What feeds a receiver's rail and what it must give: the aisle carrier's six regulators, worked by hand."""

from __future__ import annotations

import numpy as np
import pytest

from mulewright.facts.consumers import DemandFacts, MixerDrawFacts
from mulewright.facts.graph import Facts
from mulewright.facts.rail import RailFacts, ServoRailFacts
from mulewright.facts.rail_sag import SaggedRailFacts
from mulewright.facts.regulators import RegulatorFacts
from tests.designs import evaluation
from tests.published import as_printed

RAIL = "rail.receiver"


def rail(design: str, *sets: str, variant: str | None = None, id: str = RAIL) -> RailFacts:
    return evaluation(design, sets, variant).entity(RailFacts, id)


def gaps(facts: Facts, name: str) -> frozenset[str]:
    return facts.node(name).gaps


def test_six_sources_of_two_voltages_feed_the_aisle_carrier() -> None:
    carrier = rail("aisle-carrier")
    assert carrier.source_count == 6
    assert carrier.linear_count == 6
    assert carrier.voltage == as_printed("6.0")
    assert carrier.lowest == as_printed("5.0")
    assert carrier.spread == as_printed("1.0")


def test_one_of_them_is_planned_on_and_not_their_sum() -> None:
    carrier = rail("aisle-carrier")
    assert carrier.planned == as_printed("1.0")
    assert carrier.hoped == as_printed("5.5")  # 5 x 1.0 A and 0.5 A
    assert carrier.demand.stalled == as_printed("2.5")
    assert carrier.stall_share == as_printed("2.5")


def test_what_the_aisle_carrier_draws_and_how_warm_that_makes_the_regulator() -> None:
    carrier = rail("aisle-carrier")
    assert carrier.demand.average == as_printed("0.53")  # receiver 0.10 A, box 0.03 A, servo 0.40 A
    assert carrier.average_share == as_printed("0.53")
    assert carrier.rise == as_printed("105")  # (12.6 - 6.0) V x 0.53 A x 30 K/W = 104.9 K
    assert carrier.rise_share == as_printed("1.05")


def test_of_several_linear_regulators_the_one_set_highest_is_the_hot_one() -> None:
    # the pump's at 5.0 V would have (12.6 - 5.0) x 0.53 x 30 = 120.8 K, but gives nothing beside those of 6.0 V
    assert rail("aisle-carrier", "controller.pump.regulator.voltage=6.5 V").rise == pytest.approx(
        96.99, abs=0.01
    )
    pulled = [
        f"controller.{name}.red_wire=pulled"
        for name in ("front_left", "front_right", "rear_left", "rear_right")
    ]
    alone = rail("aisle-carrier", *pulled, "controller.lift.red_wire=pulled")
    assert alone.source_count == 1
    assert alone.rise == as_printed("120.8")
    assert alone.planned == as_printed("0.5")


def test_a_regulator_that_is_short_of_volts_turns_its_dropout_into_heat() -> None:
    low = rail("tray-cart", "battery.main.rested=6.4 V")
    # 6.4 V less 1.0 V of dropout leaves 5.4 V: 1.0 V x 0.10 A x 30 K/W
    assert low.regulators[0].output == as_printed("5.4")
    assert low.rise == as_printed("3.0")


def test_a_peak_and_a_dropout_that_no_sheet_names() -> None:
    on = evaluation(
        "tray-cart", ("controller.left.regulator.peak_current=?", "controller.left.regulator.dropout=?")
    )
    regulator = on.entity(RegulatorFacts, "controller.left.regulator")
    assert regulator.peak == regulator.current
    assert regulator.dropout == as_printed("1.25")  # the middle of 1.0 to 1.5 V, assumed for a linear one
    unknown = evaluation(
        "tray-cart", ("controller.left.regulator.dropout=?", "controller.left.regulator.kind=?")
    )
    assert gaps(unknown.entity(RegulatorFacts, "controller.left.regulator"), "dropout") == {
        "controller.left.regulator.kind"
    }


def test_a_servo_with_its_own_supply_leaves_the_receiver_rail() -> None:
    on = evaluation("aisle-carrier", variant="own-servo-supply")
    own, receiver = on.entity(RailFacts, "rail.servo.tilt"), on.entity(RailFacts, RAIL)
    assert [one.id for one in RailFacts.all(on)] == [RAIL, "rail.servo.tilt"]
    assert own.sources == ["regulator.servo"]
    assert own.stall_share == pytest.approx(2.5 / 3)
    assert not own.carries_signals
    assert receiver.demand.average == as_printed("0.13")
    assert receiver.demand.servos == []


def test_unknown_red_wires_leave_open_only_what_hangs_on_them() -> None:
    one = rail("tray-cart", "controller.right.red_wire=?")
    assert one.fed == 1
    assert gaps(one, "source_count") == {"controller.right.red_wire"}
    assert gaps(one, "voltage") == {"controller.right.red_wire"}
    many = rail("aisle-carrier", "controller.pump.red_wire=?")
    assert many.source_count == 5  # certain ones
    assert gaps(many, "planned") == {"controller.pump.red_wire"}


def test_an_unplugged_controller_and_one_without_regulator_feed_nothing() -> None:
    assert rail("tray-cart", "controller.left.signal=[]").fed == 0
    assert rail("tray-cart", "controller.left.regulator.kind=none").fed == 0
    assert gaps(rail("tray-cart", "controller.left.signal=?"), "fed") == {"controller.left.signal"}


def test_a_pack_beside_a_regulator_is_seen_only_where_both_are_on_the_rail() -> None:
    pack = 'battery.small={ feeds = ["receiver.8"], rested = "4.8 V" }'
    assert rail("tray-cart", pack).pack_beside_regulator == 1
    alone = rail("tray-cart", pack, "controller.left.red_wire=pulled")
    assert alone.pack_beside_regulator == 0
    assert alone.voltage == as_printed("4.8")
    assert gaps(rail("tray-cart", pack, "controller.left.red_wire=?"), "pack_beside_regulator") == {
        "controller.left.red_wire"
    }
    assert rail("tray-cart", "controller.left.red_wire=?").pack_beside_regulator == 0


def test_sides_of_a_mixer_that_does_not_join_them() -> None:
    split = "mixer.drive.passes_rail=false"

    def mixer(*sets: str) -> MixerDrawFacts:
        return evaluation("aisle-carrier", (split, *sets)).entity(MixerDrawFacts, "mixer.drive")

    dark = ("controller.lift.red_wire=pulled", "controller.pump.red_wire=pulled")
    assert mixer().both_sides_fed == 1
    assert mixer(*dark).both_sides_fed == 0
    assert mixer(*dark).side_words == "nothing feeds the side of its inputs"
    assert gaps(mixer(dark[0], "controller.pump.red_wire=?"), "both_sides_fed") == {
        "controller.pump.red_wire"
    }


def test_volts_of_a_servo_are_those_of_its_rail() -> None:
    assert evaluation("aisle-carrier").entity(ServoRailFacts, "servo.tilt").voltage_share == as_printed("1.0")


def test_the_rail_of_the_vine_lift_falls_on_dry_cells_and_stands_on_a_stiff_pack() -> None:
    wires = tuple(f"wire.{name}.length=1 um" for name in ("main", "branches"))
    # nominal: three motors at stall on dry cells leave 4.3 V at the controllers, so 3.3 V behind a dropout of 1.0 V
    assert evaluation("vine-lift", wires).entity(SaggedRailFacts, RAIL).lowest_voltage == as_printed("3.3")
    assert evaluation("vine-lift").entity(SaggedRailFacts, RAIL).lowest_voltage == as_printed("3.3")
    stiff = evaluation("vine-lift", ("battery.main.part=b-ni",))
    assert stiff.entity(SaggedRailFacts, RAIL).lowest_voltage == as_printed("6.0")


def test_arrays_give_what_single_numbers_give() -> None:
    volts = np.array([5.0, 6.0, 7.0])
    draws = evaluation("aisle-carrier", values={"controller.pump.regulator.voltage": volts})
    many = draws.entity(RailFacts, RAIL)
    single = [rail("aisle-carrier", f"controller.pump.regulator.voltage={volt} V") for volt in volts]
    np.testing.assert_allclose(many.rise, [float(one.rise) for one in single])
    np.testing.assert_allclose(many.spread, [1.0, 0.0, 1.0])


def test_a_tester_that_needs_a_supply_is_on_the_rail() -> None:
    bench = evaluation("soft-fruit-gripper").entity(DemandFacts, "rail.tester.bench")
    assert bench.certain("draws") == ["servo.left", "servo.right", "tester.bench"]
    assert bench.average == as_printed("0.8")
