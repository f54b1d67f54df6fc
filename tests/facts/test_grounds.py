"""Currents that return through signal grounds, and what opens the minus."""

from __future__ import annotations

import numpy as np
import pytest

from mulewright.facts.grounds import BreakFacts, NeighboursFacts, ReturnFacts
from tests.designs import evaluation
from tests.ngspice import needs_ngspice, operating_point
from tests.published import agrees, as_printed, outside

# 0.3 m of AWG 26 is 40.2 mohm, and two contacts of 10 mohm: 60.2 mohm for each signal lead
LEAD = 0.0602


def back(design: str, controller: str, *sets: str, variant: str | None = None) -> ReturnFacts:
    return evaluation(design, sets, variant).entity(ReturnFacts, f"controller.{controller}")


def test_two_controllers_are_each_other_s_thin_loop() -> None:
    left = back("tray-cart", "left")
    assert left.way.lead == pytest.approx(LEAD, abs=5e-5)
    assert left.way.minus == pytest.approx(0.00628, abs=5e-6)  # 0.3 m of AWG 18, one way
    assert left.thin == pytest.approx(2 * LEAD + 0.00628, abs=1e-4)
    assert left.share == as_printed("0.047")
    assert left.peak == as_printed("7.23")  # 0.958 x 0.958 x 12.6 V / 1.6 ohm
    assert left.thin_current == as_printed("0.342")
    assert left.load == as_printed("0.171")  # of 2 A


@needs_ngspice
@outside(
    "GL2",
    quantity="return current of one of six controllers through its signal lead",
    source="computed independently (ngspice)",
    mark="C",
)
def test_six_controllers_lie_side_by_side() -> None:
    lift = back("aisle-carrier", "lift")
    circuit = f"I1 0 c0 {float(lift.peak)}\nVlead c0 a 0\nRl0 a hub {float(lift.way.lead)}\n"
    circuit += f"Rm0 c0 0 {float(lift.way.minus)}\n"
    for place, way in enumerate(member for member in lift.neighbours.members if member.id != lift.id):
        circuit += (
            f"Rl{place + 1} n{place} hub {float(way.lead)}\nRm{place + 1} n{place} 0 {float(way.minus)}\n"
        )
    agrees(lift.thin_current, operating_point(circuit, "i(vlead)")["i(vlead)"], rel=1e-6)


def test_noted_plugs_count_into_the_minus_and_noted_leads_into_the_loop() -> None:
    plugs = back("tray-cart", "left", "wire.branches.contact_resistance=20 mohm")
    assert plugs.way.minus == pytest.approx(0.02628, abs=5e-6)
    thick = back(
        "tray-cart", "left", "controller.left.lead_gauge=22 AWG", "controller.left.lead_length=0.6 m"
    )
    assert thick.bears == as_printed("5.0")
    assert thick.way.lead == pytest.approx(0.0518, abs=5e-5)  # 0.6 m of 53 mohm/m, and two contacts


def test_what_both_share_on_the_way_is_no_part_of_the_loop() -> None:
    longer = back("tray-cart", "left", "wire.main.length=5 m")
    assert longer.share == back("tray-cart", "left").share


def test_a_supply_of_its_own_is_one_more_way_back() -> None:
    with_it = back("aisle-carrier", "lift", variant="own-servo-supply")
    assert "regulator.servo" in [member.id for member in with_it.neighbours.members]
    assert with_it.thin < back("aisle-carrier", "lift").thin


def test_a_switch_in_the_minus_leaves_everything_to_the_thin_loop() -> None:
    tug = back("hose-tug", "left")
    assert tug.opening == ["switch.main"]
    assert tug.share == 1
    assert tug.thin_current == tug.peak
    assert evaluation("hose-tug").entity(BreakFacts, "switch.main").grounded == 2


def test_alone_it_has_no_loop_and_unknown_plugs_leave_that_open() -> None:
    assert back("tray-cart", "left", "controller.right.signal=[]").alone
    unknown = back("tray-cart", "left", "controller.right.signal=?")
    assert unknown.node("share").gaps == {"controller.right.signal"}
    unwired = back("tray-cart", "left", 'wire.branches.path=["board.main", "controller.left"]')
    assert unwired.node("share").gaps == {"a wire from a battery to controller.right"}


def test_unnoted_conductors_leave_open_whether_the_minus_opens() -> None:
    unknown = back("tray-cart", "left", "fuse.main.conductor=?")
    assert unknown.node("can_open").gaps == {"fuse.main.conductor"}
    sure = back("tray-cart", "left", "fuse.main.conductor=?", "switch.main.conductor=minus")
    assert sure.can_open == 1


def test_grounds_behind_a_switch_with_unknown_plugs() -> None:
    plugs = ("controller.left.signal=[]", "controller.right.signal=?")
    item = evaluation("tray-cart", plugs).entity(BreakFacts, "switch.main")
    assert item.node("grounded").gaps == {"controller.right.signal"}
    assert evaluation("tray-cart", (plugs[0], "controller.right.signal=[]")).entity(
        BreakFacts, "switch.main"
    ).grounded == 0  # fmt: skip


def test_two_packs_make_two_sets_of_neighbours() -> None:
    second = (
        'battery.second={ part = "b-ni" }',
        'wire.second={ path = ["battery.second", "controller.right"], gauge = "18 AWG", length = "0.3 m" }',
        'wire.branches.path=["board.main", "controller.left"]',
    )
    on = evaluation("tray-cart", second)
    assert len(NeighboursFacts.all(on)) == 2
    assert on.entity(ReturnFacts, "controller.left").alone


def test_arrays_give_what_single_numbers_give() -> None:
    plugs = np.array([0.001, 0.05, 0.2])
    many = evaluation("tray-cart", values={"controller.left.lead_length": 100 * plugs}).entity(
        ReturnFacts, "controller.left"
    )
    single = [back("tray-cart", "left", f"controller.left.lead_length={100 * plug} m") for plug in plugs]
    np.testing.assert_allclose(many.load, [float(one.load) for one in single])
