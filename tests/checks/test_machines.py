"""Which checks of mechanism, radio and safety trip on the shipped designs, and how severely."""

from __future__ import annotations

import pytest

from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, Severity, Verdict, run
from tests.designs import evaluation

DONE = (
    "M00 M01 M02 M03 M04 M05 M06 M07 M08 M09 M10 M11 M12 M13 M14 M15 M16 M17 M18 M19 M20 M21 M22 M23 M24 M25 "
    "M26 M27 M31 M34 M37 M42 M44 "
    "R01 R02 R03 R04 R05 R06 R07 R08 R09 R12 R14 R16 R17 R18 "
    "X01 X02 X03 X05 X07 X10 X11 X12 X13 X14"
).split()
NOTE, WARN, STOP, BLOCK = Severity.NOTE, Severity.WARN, Severity.STOP, Severity.BLOCK
SINKS = {"M07": STOP, "M25": STOP, "X07": WARN, "R05": WARN}
WHEELS = {"M04": NOTE}
FRESH_FLICK = {"M11": NOTE}


def verdicts(design: str, *sets: str, variant: str | None = None) -> list[Verdict]:
    return run(evaluation(design, sets, variant), (CHECKS[id] for id in DONE))


def worst(found: list[Verdict], outcome: Outcome) -> dict[str, Severity]:
    severities: dict[str, Severity] = {}
    for verdict in found:
        if verdict.outcome is outcome:
            id = verdict.check.id
            severities[id] = max(verdict.severity, severities.get(id, verdict.severity))
    return severities


@pytest.mark.parametrize(
    ("design", "expected"),
    [
        ("tray-cart", WHEELS | FRESH_FLICK),
        ("hose-tug", WHEELS),
        (
            "aisle-carrier",
            WHEELS | SINKS | {"M00": NOTE, "M06": NOTE, "M10": WARN, "R02": BLOCK, "R03": STOP, "X10": WARN},
        ),
        ("vine-lift", WHEELS | SINKS | {"M05": WARN, "M06": NOTE, "M23": WARN, "R08": WARN, "X10": WARN}),
        (
            "long-reach-pruner",
            WHEELS
            | {"M05": WARN, "M06": WARN, "M07": STOP, "M10": WARN, "M15": STOP, "R05": WARN}
            | {"X02": STOP, "X03": WARN, "X07": WARN},
        ),
        ("seed-ball-thrower", {"M00": NOTE, "M03": STOP, "R02": STOP, "R07": STOP, "X13": STOP}),
        ("log-winch", SINKS | {"M01": STOP, "M11": WARN, "M26": STOP, "M27": NOTE, "X13": STOP}),
        ("soft-fruit-gripper", {"M22": WARN}),
        ("leaf-sweeper", WHEELS | {"M31": STOP, "R02": BLOCK, "R03": STOP, "X10": WARN}),
        ("two-benches", WHEELS | FRESH_FLICK | {"M06": NOTE, "X02": WARN}),
    ],
)
def test_what_trips_on_a_shipped_design(design: str, expected: dict[str, Severity]) -> None:
    assert worst(verdicts(design), Outcome.TRIP) == expected


def test_the_tray_cart_leaves_two_questions_open() -> None:
    open_questions = worst(verdicts("tray-cart"), Outcome.CANNOT_TELL)
    assert set(open_questions) == {"M37", "R16"}


def test_what_a_counterbalance_cures_and_what_it_does_not() -> None:
    before = worst(verdicts("long-reach-pruner"), Outcome.TRIP)
    some = worst(verdicts("long-reach-pruner", "mechanism.arm.counterbalance=4.5 N m"), Outcome.TRIP)
    more = worst(verdicts("long-reach-pruner", "mechanism.arm.counterbalance=8.2 N m"), Outcome.TRIP)
    assert "M05" not in some
    assert some["M06"] is NOTE
    assert some["M07"] is STOP
    assert {"M07", "R05"} <= before.keys() - more.keys()
    assert {"M10", "M15", "X02", "X03", "X07"} <= more.keys()


def test_a_ratchet_holds_but_the_load_stays_a_hammer() -> None:
    before = worst(verdicts("aisle-carrier"), Outcome.TRIP)
    after = worst(verdicts("aisle-carrier", "mechanism.lift.ratchet=true"), Outcome.TRIP)
    assert before.keys() - after.keys() == {"M07", "M25", "R05"}
    assert after["X07"] is WARN


def test_a_receiver_that_protects_all_cures_the_radio() -> None:
    sets = ("receiver.part=rx8", "receiver.fail_safe.others=neutral")
    after = worst(verdicts("aisle-carrier", *sets), Outcome.TRIP)
    assert {id for id in after if id.startswith("R")} == {"R05", "R06"}


def test_several_roots_and_consequences_share_their_facts() -> None:
    assert CHECKS["R05"].follows == ("M07",)
    by_id = {verdict.check.id: verdict for verdict in verdicts("aisle-carrier")}
    assert by_id["M07"].value == by_id["R05"].value
