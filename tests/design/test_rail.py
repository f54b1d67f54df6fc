"""Which servo leads are joined: middle wires, grounds, and what would settle it where that is not noted."""

from __future__ import annotations

import pytest

from mulewright.design.mule import link
from mulewright.design.rail import Net
from mulewright.design.resolve import load_text
from mulewright.design.supply import Supply

BENCH = """
schema_version = 1
[receiver]
channels = 6
"""
FED = 'regulator = {{ kind = "linear", voltage = "6 V" }}, signal = "{}"'


def supply(text: str) -> Supply:
    return link(load_text(BENCH + text)).supply


def controller(name: str, signal: str, more: str = 'red_wire = "in"') -> str:
    return f"[controller]\n{name} = {{ {FED.format(signal)}, {more} }}\n"


def on_receiver(text: str) -> Net:
    return supply(text).rail_of("receiver")


def test_a_red_wire_that_is_in_joins_and_a_pulled_one_does_not() -> None:
    assert "controller.a" in on_receiver(controller("a", "receiver.1")).sure
    pulled = on_receiver(controller("a", "receiver.1", 'red_wire = "pulled"'))
    assert pulled.possible == {"receiver"}
    assert supply(controller("a", "receiver.1", 'red_wire = "pulled"')).ground_nets["receiver"].sure == {
        "receiver",
        "controller.a",
    }


@pytest.mark.parametrize(
    ("text", "path"),
    [
        ('[controller.a]\nsignal = "receiver.1"\nregulator.kind = "linear"', "controller.a.red_wire"),
        ('[controller.a]\nsignal = "receiver.1"\nred_wire = "in"', "controller.a.regulator.kind"),
        ('[controller.a]\nred_wire = "in"\nregulator.kind = "linear"', "controller.a.signal"),
        ('[controller.a]\nsignal = "receiver.1"', "controller.a.red_wire"),
    ],
)
def test_what_nobody_noted_may_be_joined_and_says_what_would_settle_it(text: str, path: str) -> None:
    net = on_receiver(text)
    assert net.sure == {"receiver"}
    assert net.possible == {"receiver", "controller.a"}
    assert net.unknown == (path,)


def test_the_red_wire_of_a_controller_without_regulator_does_not_matter() -> None:
    net = on_receiver('[controller.a]\nsignal = "receiver.1"\nregulator.kind = "none"')
    assert net.possible == net.sure == {"receiver", "controller.a"}
    assert (
        supply('[controller.a]\nsignal = "receiver.1"\nregulator.kind = "none"').on_rail(net.sure, "feeds")
        == []
    )


MIXED = controller("a", "mixer.m.out1") + '[mixer.m]\nmixes = "two-sides"\nforward = "receiver.2"\n'


@pytest.mark.parametrize(
    ("passes", "sure", "unknown"),
    [
        ("passes_rail = true", True, ()),
        ("passes_rail = false", False, ()),
        ("", False, ("mixer.m.passes_rail",)),
    ],
)
def test_a_mixer_joins_its_sides_or_not(passes: str, sure: bool, unknown: tuple[str, ...]) -> None:
    net = on_receiver(f"{MIXED}{passes}\n")
    assert ("controller.a" in net.sure) is sure
    assert net.unknown == unknown
    assert "controller.a" in supply(f"{MIXED}{passes}\n").ground_nets["receiver"].sure


def test_leads_through_a_y_lead_and_an_inline_device_are_followed() -> None:
    text = (
        controller("a", "y_lead.y")
        + '[inline.w]\ndoes = "widens"\nsignal = "receiver.3"\n'
        + '[y_lead.y]\nsignal = "inline.w"\ncarries = "signal"\n'
    )
    assert on_receiver(text).sure == {"receiver", "inline.w", "y_lead.y", "controller.a"}


def test_a_servo_with_its_own_supply_leaves_the_rail_unless_its_red_wire_is_in() -> None:
    own = '[regulator.r]\nkind = "switching"\n[servo.s]\nsignal = "receiver.1"\npower = "regulator.r"\n'
    apart = supply(own)
    assert apart.rail_of("receiver").possible == {"receiver"}
    assert set(apart.rail_names.values()) == {"rail.receiver", "rail.servo.s"}
    assert apart.ground_nets["receiver"].sure == {"receiver", "servo.s", "regulator.r"}
    assert "regulator.r" in on_receiver(own + 'red_wire = "in"\n').sure


def test_packs_and_regulators_feed_sockets_and_packs_beside_the_machine_do_not() -> None:
    text = '[battery.b]\nfeeds = ["receiver.6"]\n[regulator.r]\nfeeds = ["receiver.5"]\nred_wire = "pulled"\n'
    joined = supply(text)
    assert joined.on_rail(joined.rail_of("receiver").sure, "feeds") == ["battery.b"]
    beside = supply('[battery.b]\nin_use = false\nfeeds = ["receiver.6"]\n')
    assert beside.on_rail(beside.rail_of("receiver").sure, "feeds") == []


def test_of_two_joins_between_the_same_things_the_certain_one_counts() -> None:
    doubtful = '[tester.t]\n[controller.a]\nregulator.kind = "linear"\nsignal = "tester.t"\n'
    assert supply(doubtful).rail_of("tester.t").sure == {"tester.t"}
    settled = doubtful.replace("[tester.t]", '[tester.t]\npower = "controller.a"')
    assert supply(settled).rail_of("tester.t").sure == {"tester.t", "controller.a"}


def test_a_rail_is_named_after_the_first_thing_that_draws_from_it() -> None:
    text = '[tester.t]\n[y_lead.y]\nsignal = "tester.t"\ncarries = "signal"\n[servo.s]\nsignal = "y_lead.y"\n'
    assert sorted(supply(text).rail_names.values()) == ["rail.receiver", "rail.tester.t"]
