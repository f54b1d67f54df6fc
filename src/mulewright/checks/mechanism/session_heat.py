"""Does a motor get rid of its heat over a whole session?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Flip, Limits, Outcome, Severity, above, check
from mulewright.checks.symptoms import Symptom
from mulewright.facts.session_heat import SessionMotorFacts


@check(
    "M46",
    on=SessionMotorFacts,
    severity=Severity.WARN,
    seen="Short runs are fine; in a long session it fades and smells",
    symptom=Symptom.HOT,
    why="What is warm after a minute is hot after an hour, and the magnets then stay weak.",
    fixes=(
        "Let it rest longer between two uses.",
        "Take a bigger motor, or more reduction.",
        "Blow air over it.",
    ),
    levers=(
        "drive.working_share",
        "mechanism.*.working_share",
        "motor.*.working_share",
        "motor.*.part",
        "motor.*.gears.*.ratio",
    ),
    examples=(
        Example("tray-cart", Outcome.PASS, "motor.left"),
        Example("aisle-carrier", Outcome.PASS, "motor.lift"),
        Example("aisle-carrier", Outcome.TRIP, "motor.lift", ("mechanism.lift.working_share=60 %",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "motor.lift", ("mechanism.lift.working_share=?",)),
        Example("aisle-carrier", Outcome.PASS, "motor.pump"),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "motor.pump", ("motor.pump.load_torque=?",)),
    ),
    flips=(
        Flip("aisle-carrier", "motor.lift", "mechanism.lift.working_share", "10 %", "100 %"),
        Flip("aisle-carrier", "motor.lift", "motor.lift.mass", "0.05 kg", "0.33 kg"),
    ),
)
def heats_up_over_a_session(motor: SessionMotorFacts, limits: Limits) -> Answer:
    """The heat of a motor on average over a session, against what it sheds in still air.

    Worked out: the current at work squared, times the winding's resistance, times the share of a session for
    which it works. At work a wheel rolls along on the level, a lift or an arm raises its load, a flywheel
    spins freely, anything else takes the torque that is noted. It sheds 10 W for each kilogram of motor.

    Not covered: starts, stalls and slopes, which heat it more; moving air, which cools it; the time that it
    takes to get warm.

    Source: common practice, no source.
    """
    return above(
        motor.session_heat,
        {Severity.WARN: motor.shed_heat},
        "At work it makes {work} of heat, on average {value}; in still air it sheds {limit}.",
        work=motor.work_heat,
    )
