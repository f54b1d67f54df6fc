"""Connectors, polarity along a harness, and the ground that a pulse needs."""

from __future__ import annotations

import pytest

from mulewright.facts.catalog import find
from mulewright.facts.common_ground import ListenerFacts
from mulewright.facts.joints import ConnectorFacts, PolarityFacts
from tests.designs import evaluation

FLIP = "joints=[{ flips = true }]"
UNMETERED = "wire.main.polarity_metered=?"
OWN_PACK = (
    "servo.tilt.ground_wire=pulled",
    "servo.tilt.power=battery.servo",
    'battery.servo={ rested = "6 V", in_use = true }',
)


@pytest.mark.parametrize(
    ("sets", "turned"),
    [
        ((), 0),
        ((UNMETERED, f"wire.main.{FLIP}"), 1),
        ((UNMETERED, f"wire.main.{FLIP}", f"wire.branches.{FLIP}"), 0),
        ((f"wire.main.{FLIP}", f"wire.branches.{FLIP}"), 1),  # metered behind the first, turned by the second
        ((f"wire.branches.{FLIP}", "wire.branches.polarity_metered=true"), 0),
        ((UNMETERED, f"wire.main.{FLIP}", "checklist.polarity_metered=true"), 0),
    ],
)
def test_plus_and_minus_are_counted_from_where_they_were_metered(sets: tuple[str, ...], turned: int) -> None:
    assert find(evaluation("tray-cart", sets), "controller.left.turned").value == turned


def test_every_gap_of_the_polarity_is_named() -> None:
    sets = (UNMETERED, "wire.main.joints=[{ flips = true }, {}]", "wire.branches.joints=?")
    node = find(evaluation("tray-cart", sets), "controller.left.turned")
    assert node.gaps == {"wire.branches.joints", "wire.main.joints.1.flips"}


def test_a_wire_that_nobody_described_is_a_connector_that_cannot_be_told() -> None:
    on = evaluation("tray-cart", ("wire.branches.joints=?",))
    assert [one.id for one in ConnectorFacts.all(on)] == ["wire.main.joints.0", "wire.branches.joints"]
    assert find(on, "wire.branches.joints.mates").gaps == {"wire.branches.joints"}


def test_regulators_on_a_battery_have_a_polarity_too() -> None:
    assert "regulator.servo" in [one.id for one in PolarityFacts.all(evaluation("two-benches"))]


def grounded(*sets: str) -> float:
    return float(find(evaluation("aisle-carrier", sets), "servo.tilt.grounded").value)


def test_a_pulse_needs_a_ground() -> None:
    assert grounded() == 1
    assert grounded(*OWN_PACK[1:]) == 1  # the plug brings the ground
    assert grounded(*OWN_PACK) == 0
    assert grounded("servo.tilt.ground_wire=pulled") == 0  # no other way back


def test_the_minus_of_the_battery_joins_what_signal_leads_do_not() -> None:
    on = evaluation("aisle-carrier", ("controller.lift.ground_wire=pulled",))
    assert find(on, "controller.lift.grounded").value == 1
    assert on.mule.supply.ground_nets["controller.lift"].sure == {"controller.lift"}


def test_a_lead_that_may_be_plugged_in_leaves_it_open() -> None:
    on = evaluation("aisle-carrier", ("servo.tilt.signal=?",))
    assert find(on, "servo.tilt.grounded").gaps == {"servo.tilt.signal"}
    assert ListenerFacts(on, "mixer.drive").sources == ["receiver.2", "receiver.1", "receiver.4"]
