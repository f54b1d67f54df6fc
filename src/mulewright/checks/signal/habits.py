"""Does a push do what the thumb expects?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Limits, Outcome, Severity, check, lacking
from mulewright.checks.symptoms import Symptom
from mulewright.facts.driver_habits import HabitFacts

BACKWARDS = ("radio.control.RV.pushes_to=drives backwards",)


@check(
    "S48",
    on=HabitFacts,
    severity=Severity.NOTE,
    why="A driver in a hurry pushes the way that the thumb knows, and drives into what was to be avoided.",
    seen="Driver pushes the wrong way when it gets tight",
    symptom=Symptom.WRONG,
    fixes=(
        "Reverse the channel of this control and note what a push does then.",
        "Or note that this driver wants it so (habit).",
    ),
    levers=("radio.channel.*.reverse", "radio.control.*.pushes_to", "mechanism.*.habit"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "radio.control.LV"),
        Example(
            "aisle-carrier", Outcome.TRIP, "radio.control.LV", ("radio.control.LV.pushes_to=down",), Severity.NOTE
        ),
        Example(
            "aisle-carrier", Outcome.PASS, "radio.control.LV",
            ("radio.control.LV.pushes_to=down", "mechanism.lift.habit=down"),
        ),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "radio.control.LV", ("radio.control.LV.pushes_to=?",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "radio.control.KN", ("servo.tilt.habit=?",)),
        Example("tray-cart", Outcome.TRIP, "radio.control.RV", BACKWARDS, Severity.NOTE),
        Example("tray-cart", Outcome.PASS, "radio.control.RV", ("radio.control.RV.pushes_to=drives forward",)),
    ),
)  # fmt: skip
def against_the_habit(control: HabitFacts, limits: Limits) -> Answer:
    """What a push up or to the right does, as noted, against what the driver expects of it.

    Worked out: what is noted for the control has to name what is noted as the habit of the function. Where no
    habit is noted, up is expected of lifts and arms, open of grippers, forward and to the right of wheels.

    Not covered: whether the note is true (push and look); wheels of which nothing is noted, which have a check
    of their own (S06).

    Source: common practice, no source.
    """
    return lacking(control.as_expected, Severity.NOTE, "As noted, {words}.", words=control.in_words)
