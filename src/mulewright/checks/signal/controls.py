"""Does each control suit its function: does it spring back, hold, get slowed, and move anything at all?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Limits,
    Outcome,
    Severity,
    check,
    flagged,
    lacking,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.roles import (
    DrivingControlFacts,
    HoldingStickFacts,
    PlannedControlFacts,
    RunningStickFacts,
    SlowedFacts,
)

THROWER = (
    'mechanism.thrower={ kind = "flywheel" }',
    "motor.lift.turns=mechanism.thrower",
    "radio.control.LV.commands=thrower",
)


@check(
    "S09",
    on=PlannedControlFacts,
    severity=Severity.WARN,
    why="The driver moves a control that does nothing, or a lead was forgotten.",
    seen="A stick, knob or switch does nothing",
    symptom=Symptom.STILL,
    fixes=("Plug the lead in where the control comes out.", "Or take the control out of the plan."),
    levers=("controller.*.signal", "servo.*.signal", "radio.control.*.commands"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "radio.control.KN"),
        Example("aisle-carrier", Outcome.TRIP, "radio.control.KN", ("servo.tilt.signal=receiver.7",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "radio.control.KN", ("servo.tilt.signal=?",)),
    ),
)
def control_moves_nothing(control: PlannedControlFacts, limits: Limits) -> Answer:
    """Whether any controller or servo follows a control that the plan gives a function.

    Worked out: every signal plug is followed back through mixes and boxes to the controls.

    Not covered: controls that the plan gives nothing to do.

    Source: common practice, no source.
    """
    return lacking(
        control.moves_something,
        Severity.WARN,
        "{name} should command {moves}; it is followed by {followers}.",
        name=control.name,
        moves=control.moves,
        followers=control.followers_in_words,
    )


@check(
    "S11",
    on=RunningStickFacts,
    severity=Severity.STOP,
    why="Let go, it keeps running, and nobody knows where the stick stands when the power comes on.",
    seen="Goes on moving after the thumb has left the stick",
    symptom=Symptom.BY_ITSELF,
    fixes=(
        "Fit the self-centring conversion to this axis.",
        "Exchange it with a function that goes to a position, which an unsprung axis suits.",
        "Take a free sprung axis.",
    ),
    levers=("radio.control.*.conversion", "radio.control.*.commands"),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "radio.control.LV", severity=Severity.STOP),
        Example("aisle-carrier", Outcome.PASS, "radio.control.LV", ("radio.control.LV.conversion=fitted",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "radio.control.LV", ("radio.control.LV.sprung=?",)),
        Example("aisle-carrier", Outcome.TRIP, "radio.control.LV", THROWER, Severity.NOTE),
        Example("tray-cart", Outcome.PASS, "radio.control.RV"),
    ),
)
def unsprung_stick_on_a_motor(stick: RunningStickFacts, limits: Limits) -> Answer:
    """Whether a stick axis that commands something that runs returns to its middle by itself.

    Worked out: the axis is sprung or has a self-centring conversion. What runs is every function on a motor,
    unless its controller goes to a position. A flywheel and a motor that runs one way are left running on
    purpose: only noted.

    Not covered: a spring that is worn, and switches and knobs (S13, S15).

    Source: common practice, no source.
    """
    return lacking(
        stick.control.returns,
        Severity.NOTE if stick.steady else Severity.STOP,
        "{name} commands {moves}, and {spring}.",
        name=stick.name,
        moves=stick.moves,
        spring=stick.spring,
    )


@check(
    "S12",
    on=HoldingStickFacts,
    severity=Severity.WARN,
    why="A thumb has to hold it all the time, and a gripper opens when the thumb lifts.",
    seen="Gripper opens again as soon as the thumb is lifted",
    symptom=Symptom.BY_ITSELF,
    fixes=("Move the function to a knob, a switch or an unsprung axis.",),
    levers=("radio.control.*.commands",),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "radio.control.LV", ("radio.control.LV.commands=tilt",)),
        Example("aisle-carrier", Outcome.TRIP, "radio.control.LH", ("radio.control.LH.commands=tilt",)),
        Example(
            "aisle-carrier",
            Outcome.CANNOT_TELL,
            "radio.control.LH",
            ("radio.control.LH.commands=tilt", "radio.control.LH.sprung=?"),
        ),
    ),
)
def sprung_stick_on_a_position(stick: HoldingStickFacts, limits: Limits) -> Answer:
    """Whether a stick axis that commands a position, or something left running, springs back.

    Worked out: positions are functions on servos or on controllers that go to a position; left running are
    flywheels and motors that run one way.

    Not covered: functions that the driver uses for a moment only, for which a spring may be meant.

    Source: common practice, no source.
    """
    return flagged(
        stick.control.returns,
        Severity.WARN,
        "{name} commands {moves}, which should stay as it is put; it {spring}.",
        name=stick.name,
        moves=stick.moves,
        spring=stick.spring,
    )


@check(
    "S15",
    on=DrivingControlFacts,
    severity=Severity.STOP,
    why="A knob has no spring and no zero that one sees, so the motor may run when the power comes on.",
    seen="Runs at switch-on, and the knob shows no place that is off",
    symptom=Symptom.BY_ITSELF,
    fixes=("Move the function to a sprung stick axis.", "Or to a three-position switch with low endpoints."),
    levers=("radio.control.*.commands",),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "radio.control.LV"),
        Example("aisle-carrier", Outcome.TRIP, "radio.control.KN", ("radio.control.KN.commands=lift",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "radio.control.LV", ("radio.control.LV.kind=?",)),
    ),
)
def knob_on_a_motor(control: DrivingControlFacts, limits: Limits) -> Answer:
    """Whether a function whose speed is commanded hangs on a knob or a slider.

    Worked out: the kind of each control that commands a speed. Motors that run one way and flywheels are left
    out.

    Not covered: knobs that click in the middle.

    Source: common practice, no source.
    """
    return flagged(
        control.unseen_zero,
        Severity.STOP,
        "{moves} hangs on {name}, a {kind}.",
        moves=control.moves,
        name=control.name,
        kind=control.control.choice("kind"),
    )


@check(
    "S16",
    on=SlowedFacts,
    severity=Severity.WARN,
    why="The driver flips the switch to slow, the drive slows down, and this still moves at full speed.",
    seen="Slow mode slows the drive, but the arm is as quick as ever",
    symptom=Symptom.COARSE,
    fixes=(
        "Move the function to a control that the rate switch reaches.",
        "Lower the endpoints of its channel for good.",
        "Gear it down.",
    ),
    levers=("radio.rate.covers", "radio.part", "radio.control.*.commands", "*.*.slow_mode"),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "mechanism.lift", severity=Severity.WARN),
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift", ("mechanism.lift.slow_mode=false",)),
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift", ('radio.rate.covers=["RV", "RH", "LV"]',)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mechanism.lift", ("mechanism.lift.slow_mode=?",)),
    ),
)
def slow_mode_misses_function(function: SlowedFacts, limits: Limits) -> Answer:
    """Whether the rate switch reaches the control of a function for which a slow mode is wanted.

    Worked out: the controls that the switch covers, by the radio's settings or its sheet, against every
    control of the function. Many radios cover stick axes only.

    Not covered: how slow is slow enough.

    Source: common practice, no source.
    """
    return flagged(function.not_slowed, Severity.WARN, "For this function {words}.", words=function.in_words)
