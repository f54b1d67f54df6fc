"""Is a servo tester used as it is meant: fed, alone on its lead, not sweeping a motor, within the endpoints?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Limits,
    Outcome,
    Severity,
    above,
    check,
    either,
    flagged,
    lacking,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.testers import BenchTesterFacts

AS_FAR = 1.001  # [1] a thousandth for what rounding leaves of equal pulses
FED = ("tester.bench.own_supply=true",)
RECEIVER_TOO = ('servo.left.signal=["y_lead.jaws", "receiver.5"]', 'receiver={ part = "rx8" }')
ON_LIFT = (
    'tester.st={ own_supply = true, mode = "knob", low = "1100 us", high = "1900 us" }',
    "controller.lift.signal=tester.st",
)


@check(
    "S42",
    on=BenchTesterFacts,
    severity=Severity.STOP,
    why="A tester knows no endpoints and no fail-safe, so what hangs on it may go to its end without warning.",
    seen="Runs away from the servo tester, or the tester stays dark",
    symptom=Symptom.BY_ITSELF,
    fixes=(
        "Turn the knob to the middle before power comes on, wheels up, and leave the sweep to servos.",
        "Pull the receiver's plug out of the lead while the tester is in it.",
        "Feed the tester from a pack or a controller's regulator.",
        "Take a tester whose range can be set no wider than the endpoints.",
    ),
    levers=("tester.*.mode", "tester.*.power", "tester.*.low", "tester.*.high", "servo.*.signal"),
    examples=(
        Example("soft-fruit-gripper", Outcome.TRIP, "tester.bench", severity=Severity.STOP),
        Example("soft-fruit-gripper", Outcome.PASS, "tester.bench", variant="high-voltage-pack"),
        Example("soft-fruit-gripper", Outcome.PASS, "tester.bench", FED),
        Example("soft-fruit-gripper", Outcome.TRIP, "tester.bench", (*FED, *RECEIVER_TOO), Severity.STOP),
        Example("soft-fruit-gripper", Outcome.CANNOT_TELL, "tester.bench", ("tester.bench.own_supply=?",)),
        Example("aisle-carrier", Outcome.PASS, "tester.st", ON_LIFT),
        Example("aisle-carrier", Outcome.TRIP, "tester.st", (*ON_LIFT, "tester.st.mode=sweep"), Severity.STOP),
        Example("aisle-carrier", Outcome.TRIP, "tester.st", (*ON_LIFT, "tester.st.high=2200 us"), Severity.STOP),
        Example("aisle-carrier", Outcome.TRIP, "tester.st", (*ON_LIFT, "tester.st.low=800 us"), Severity.STOP),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "tester.st", (*ON_LIFT, "tester.st.mode=?")),
    ),
)  # fmt: skip
def tester_misused(tester: BenchTesterFacts, limits: Limits) -> Answer:
    """Four ways in which a servo tester does harm or nothing; one of them is enough.

    Worked out: a receiver on the same lead; sweep mode on the motor of a wheel, an arm, a lift or a winch; no
    supply of its own and nothing on its leads that feeds it; a range wider than the endpoints of the channel
    that the plan gives the device.

    Not covered: devices without a control in the plan, for which no endpoint is known; stops and linkages of
    servos have checks of their own.

    Source: common practice, no source.
    """
    return either(
        flagged(tester.joined, Severity.STOP, "As plugged, {words}.", words=tester.alone),
        flagged(tester.sweeps, Severity.STOP, "As set, {words}.", words=tester.in_words),
        lacking(tester.supplied, Severity.STOP, "It has no supply of its own, and nothing feeds it."),
        above(
            tester.reach_share,
            {Severity.STOP: AS_FAR},
            "It goes {value:%} as far as the endpoints of the channel in the plan; {limit:%} is the most.",
        ),
    )
