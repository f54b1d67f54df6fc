"""A new mule begins with a file that is sound."""

import pytest

from mulewright.design.mule import link
from mulewright.design.resolve import load_text
from mulewright.design.starters import KINDS, starter
from mulewright.errors import NotFound
from tests.design.carrier import SHELF

every_kind = pytest.mark.parametrize("kind", KINDS)


@every_kind
def test_a_starter_loads_and_its_references_lead_somewhere(kind: str) -> None:
    mule = link(load_text(starter(kind), catalog=SHELF))
    assert mule.file.drive is not None
    assert mule.file.drive.kind == kind
    assert len(mule.file.motor) == len(mule.file.controller) == len(mule.wheels)
    commanded = {function for functions in mule.commands_of.values() for function in functions}
    assert commanded == set(mule.drive_commands)


@every_kind
def test_one_red_wire_is_in_and_the_fuse_protects_the_thinnest_wire(kind: str) -> None:
    file = load_text(starter(kind), catalog=SHELF).file
    assert [controller.red_wire for controller in file.controller.values()].count("in") == 1
    rating = file.fuse["main"].rating
    assert rating is not None
    assert rating.value == 15
    gauges = {name: wire.gauge.text for name, wire in file.wire.items() if wire.gauge}
    assert gauges == {"main": "16 AWG", "branches": "18 AWG"}


@every_kind
def test_what_only_a_person_can_know_is_left_open(kind: str) -> None:
    loaded = load_text(starter(kind), catalog=SHELF)
    assert loaded.overrides == ()
    assert loaded.file.receiver is not None
    assert loaded.file.receiver.fail_safe.others == "neutral"
    assert loaded.file.receiver.fail_safe.tested is None
    assert loaded.file.body.mass is None
    assert loaded.file.question is None


@every_kind
def test_a_starter_reads_well_at_a_bench(kind: str) -> None:
    lines = starter(kind).splitlines()
    assert len(lines) <= 105
    assert max(map(len, lines)) <= 120
    assert sum("#" in line for line in lines) >= 15


def test_an_unknown_drive_is_refused_with_the_nearest() -> None:
    with pytest.raises(NotFound, match="two-side") as caught:
        starter("two-side")
    assert caught.value.nearest[0] == "two-sides"
