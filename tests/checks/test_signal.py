"""Which signal checks trip on the shipped designs: no more and no fewer than were built into them."""

from __future__ import annotations

import pytest

from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, Severity, run
from mulewright.checks.signal.sides import TWO_STICKS
from tests.designs import evaluation, verdicts_on

DONE = [id for id in CHECKS if id.startswith("S")]
CARRIER = {"S01": 6, "S03": 1, "S11": 1, "S16": 1, "S17": 1, "S23": 1}


def tripped(design: str, variant: str | None = None) -> dict[str, int]:
    found: dict[str, int] = {}
    for verdict in run(evaluation(design, variant=variant), (CHECKS[id] for id in DONE)):
        assert verdict.outcome is not Outcome.CANNOT_TELL, (verdict.check.id, verdict.entity, verdict.what)
        if verdict.outcome is Outcome.TRIP:
            found[verdict.check.id] = found.get(verdict.check.id, 0) + 1
    return found


@pytest.mark.parametrize(
    ("design", "variant", "expected"),
    [
        ("tray-cart", None, {"S23": 1}),
        ("aisle-carrier", None, CARRIER),
        ("aisle-carrier", "as-found", {**CARRIER, "S06": 1, "S44": 2, "S45": 1}),
        ("hose-tug", None, {"S01": 2, "S06": 1, "S20": 1, "S30": 2, "S45": 1}),
        ("soft-fruit-gripper", None, {"S05": 2, "S25": 1, "S27": 1, "S42": 1}),
        ("soft-fruit-gripper", "receiver-left-plugged", {"S05": 2, "S25": 1, "S26": 1, "S27": 1, "S42": 1}),
        ("soft-fruit-gripper", "radio-bench", {"S05": 2, "S25": 1, "S27": 1, "S38": 2}),
        ("soft-fruit-gripper", "mended", {}),
        ("hose-tug", "radio-mix-off", {"S01": 2, "S06": 1, "S30": 2, "S45": 1}),
    ],
)
def test_what_trips_on_a_shipped_design(design: str, variant: str | None, expected: dict[str, int]) -> None:
    assert tripped(design, variant) == expected


def test_the_tray_cart_is_only_noted() -> None:
    verdicts = run(evaluation("tray-cart"), (CHECKS[id] for id in DONE))
    assert {verdict.severity for verdict in verdicts if verdict.outcome is Outcome.TRIP} == {Severity.NOTE}


def test_a_design_without_boxes_and_servos_says_why_their_checks_do_not_apply() -> None:
    verdicts = run(evaluation("tray-cart"), (CHECKS[id] for id in ("S03", "S13", "S20", "S45")))
    reasons = [verdict.what for verdict in verdicts if verdict.outcome is Outcome.NOT_APPLICABLE]
    assert reasons == [
        "no servo that goes to an angle is described",
        "no motor that can reverse hangs on a two-position switch",
        "no mixer box is described",
        "no wheel gets its signal from a mixer box",
    ]


def test_the_reserve_of_turn_is_shown() -> None:
    (verdict,) = run(evaluation("tray-cart"), [CHECKS["S23"]])
    assert "50 % of the turn at full forward is left" in verdict.what
    assert "asks 200 % of an output" in verdict.what


def test_the_limit_of_a_further_condition_is_a_setting() -> None:
    apart = (*TWO_STICKS, "radio.control.LV.rate=95 %")
    drive = verdicts_on(evaluation("tray-cart", apart), "S31")["drive"]
    assert drive.outcome is Outcome.TRIP
    wider = (*apart, 'limits.S31={ also = { rate = "8 %" } }')
    assert verdicts_on(evaluation("tray-cart", wider), "S31")["drive"].outcome is Outcome.PASS


@pytest.mark.parametrize(
    ("id", "entity", "typed", "moved"),
    [
        ("X09", "mechanism.lift", "mechanism.lift.closing_gap=10 mm", "{ force = '5 kN', speed = '9 m/s' }"),
        ("R10", "receiver", "receiver={ antennas = 2, antenna_angle = '45 deg' }", "{ square = '50 deg' }"),
    ],
)
def test_force_speed_and_angle_are_settings_too(id: str, entity: str, typed: str, moved: str) -> None:
    design = "aisle-carrier" if id == "X09" else "tray-cart"
    assert verdicts_on(evaluation(design, (typed,)), id)[entity].outcome is Outcome.TRIP
    wider = (typed, f"limits.{id}={{ also = {moved} }}")
    assert verdicts_on(evaluation(design, wider), id)[entity].outcome is Outcome.PASS
