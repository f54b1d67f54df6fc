"""A number that reads well but makes a quantity impossible: the checks that rest on it say so, the others go on."""

from __future__ import annotations

import pytest

from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, run
from mulewright.facts.catalog import every_fact
from tests.designs import evaluation

IMPOSSIBLE = (
    ("controller.left.dead_band", "0 us"),
    ("controller.left.half_range", "0 us"),
    ("radio.channel.others.travel", "0 %"),
    ("body.mass", "0 kg"),
    ("room.steepest", "95 deg"),
)


@pytest.mark.parametrize(("path", "text"), IMPOSSIBLE)
def test_only_what_rests_on_it_cannot_be_told(path: str, text: str) -> None:
    verdicts = run(evaluation("tray-cart", (f"{path}={text}",)), CHECKS.values())
    unknown = [one for one in verdicts if one.outcome is Outcome.CANNOT_TELL]
    why = [one.what for one in unknown if "cannot be worked out" in one.what]
    assert why
    assert all("found" in what and "it rests on" in what for what in why)
    assert len(unknown) < len(verdicts) / 2
    assert any(path.split(".")[-1] in " ".join(one.needs) for one in unknown)


def test_a_fact_that_cannot_be_worked_out_says_why() -> None:
    troubled = [node for node in every_fact(evaluation("tray-cart", ("body.mass=0 kg",))) if node.trouble]
    assert troubled
    for node in troubled:
        assert not node.known
        assert node.trouble.startswith(f"{node.id} cannot be worked out: ")


def test_a_way_that_takes_for_ever_is_not_above_a_time_that_nobody_wants() -> None:
    found = run(evaluation("aisle-carrier", ("mechanism.lift.load=60 kg",)), [CHECKS["M05"], CHECKS["M24"]])
    assert [one.outcome for one in found] == [Outcome.TRIP, Outcome.PASS]  # it does not rise at all
