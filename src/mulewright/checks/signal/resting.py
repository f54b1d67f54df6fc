"""Does a motor come to rest where its control rests, each time and after every switch-on?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Flip, Limits, Outcome, Severity, above, check
from mulewright.checks.symptoms import Symptom
from mulewright.facts.detents import UnsprungFollowerFacts
from mulewright.facts.learning import LearningFacts

LEARNS = ("controller.left.learns_neutral=true", "checklist.transmitter_first=true")
LIFT_LEARNS = ("controller.lift.learns_neutral=true", "checklist.transmitter_first=true")

TURN = "radio.control.RH"  # the turn of a drive that the radio mixes


@check(
    "S29",
    on=UnsprungFollowerFacts,
    severity=Severity.WARN,
    why="Put back to its click the stick stops somewhere else each time, so the motor creeps now and then.",
    seen="Creeps after the stick was put back to its click, each time differently",
    symptom=Symptom.BY_ITSELF,
    fixes=(
        "Fit the self-centring conversion to this axis.",
        "Move the function to a sprung axis, and do not rely on the click.",
    ),
    levers=("radio.control.*.detent_error", "controller.*.dead_band", "radio.control.*.conversion"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "controller.lift"),
        Example(
            "aisle-carrier", Outcome.TRIP, "controller.lift", ("radio.control.LV.detent_error=30 us",),
            Severity.WARN,
        ),
        Example("aisle-carrier", Outcome.TRIP, "controller.lift", ("controller.lift.dead_band=15 us",)),
        Example(
            "tray-cart", Outcome.TRIP, "controller.right",
            (f"{TURN}.sprung=false", f"{TURN}.conversion=possible", f"{TURN}.detent_error=35 us"),
        ),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "controller.lift", ("controller.lift.dead_band=?",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "controller.lift", ("radio.control.LV.sprung=?",)),
    ),
    flips=(
        Flip("aisle-carrier", "controller.lift", "radio.control.LV.detent_error", "15 us", "40 us"),
    ),
)  # fmt: skip
def click_repeats_badly(controller: UnsprungFollowerFacts, limits: Limits) -> Answer:
    """How badly the click of an unsprung axis repeats, against the dead band of the controller behind it.

    Worked out: the error of the click as it is noted or, where nobody measured it, as it usually is, against
    the pulse either side of neutral that does nothing.

    Not covered: low rates, a curve and trims, which make the error smaller or move it to one side.

    Source: common practice, no source; usual clicks repeat within 15 to 25 us.
    """
    return above(
        controller.error,
        {Severity.WARN: controller.signal.dead_band},
        "{words}, and its click is off by up to {value}; {limit} does no harm.",
        words=controller.in_words,
    )


@check(
    "S36",
    on=LearningFacts,
    severity=Severity.WARN,
    why="It takes whatever pulse it gets at switch-on for neutral, and keeps to that until it is switched off.",
    seen="Creeps or runs one way after some switch-ons, and is cured by switching off and on",
    symptom=Symptom.BY_ITSELF,
    fixes=(
        "Switch the transmitter on first, with the stick in the middle and the trim at 0 us; note it.",
        "Move the function to a control that returns to its middle.",
        "Take a controller whose neutral is fixed or taught once.",
    ),
    levers=("controller.*.learns_neutral", "radio.channel.*.trim", "checklist.transmitter_first"),
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left", LEARNS),
        Example("tray-cart", Outcome.TRIP, "controller.left", (*LEARNS, "radio.channel.2.trim=5 us")),
        Example(
            "tray-cart", Outcome.TRIP, "controller.left", (*LEARNS, "checklist.transmitter_first=false"),
            Severity.WARN,
        ),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", LEARNS[:1]),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("controller.left.learns_neutral=?",)),
        Example("aisle-carrier", Outcome.TRIP, "controller.lift", LIFT_LEARNS),
    ),
)  # fmt: skip
def learns_a_wrong_neutral(controller: LearningFacts, limits: Limits) -> Answer:
    """Whether a controller that learns its neutral at switch-on can learn anything but the middle.

    Worked out: its control has to return to the middle by itself, the trim of its channel has to be 0, and
    the checklist has to say that the transmitter is switched on first.

    Not covered: a thumb on the stick, and sub-trims, which stay as they were set.

    Source: common practice, no source.
    """
    return above(
        controller.unsure,
        {Severity.WARN: 0.0},
        "It {learns} its neutral at switch-on; {words}.",
        learns="learns" if controller.learns else "does not learn",
        words=controller.in_words,
    )
