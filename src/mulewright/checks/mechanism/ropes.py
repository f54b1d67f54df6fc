"""Does a rope bear its motor, and does the motor bear what hangs on the rope?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Flip,
    Limit,
    Limits,
    Outcome,
    Severity,
    above,
    below,
    check,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.ropes import LiftPullFacts, WinchRopeFacts


@check(
    "M23",
    on=LiftPullFacts,
    severity=Severity.STOP,
    why="In cascade each stage weighs on the rope as many times as its travel is a multiple of the rope's.",
    seen="The top stage starts to rise, then everything stops half way",
    symptom=Symptom.STILL,
    fixes=(
        "Hang a spring or a counterweight against the weight.",
        "Make it a lift of one stage.",
        "Take a thinner drum, or more reduction.",
        "Make the top stage and its load lighter: it counts most.",
    ),
    levers=(
        "mechanism.*.counter_force",
        "mechanism.*.drum_diameter",
        "mechanism.*.load",
        "mechanism.*.stages.*.mass",
        "motor.*.gears.*.ratio",
        "motor.*.part",
        "battery.*.part",
    ),
    limits={
        Severity.STOP: Limit(1, "ratio", mark="published", source="virtual work"),
        Severity.WARN: Limit(2, "ratio", mark="common practice"),
    },
    follows=("M05",),
    examples=(
        Example("vine-lift", Outcome.TRIP, "mechanism.lift", (), Severity.WARN),
        Example("vine-lift", Outcome.TRIP, "mechanism.lift", ("mechanism.lift.load=3 kg",), Severity.STOP),
        Example("vine-lift", Outcome.PASS, "mechanism.lift", ("mechanism.lift.rigging=continuous",)),
        Example("vine-lift", Outcome.PASS, "mechanism.lift", (), variant="nimh-pack"),
        Example("vine-lift", Outcome.CANNOT_TELL, "mechanism.lift", ("mechanism.lift.stages.1.mass=?",)),
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift"),
    ),
    flips=(
        Flip("vine-lift", "mechanism.lift", "mechanism.lift.load", "0.5 kg", "1.2 kg"),
        Flip("aisle-carrier", "mechanism.lift", "mechanism.lift.carriage", "0.5 kg", "4 kg"),
    ),
)
def rope_of_the_lift_pulls_too_little(lift: LiftPullFacts, limits: Limits) -> Answer:
    """The pull that a lift's motors have at the rope, over the pull that all its stages ask of it.

    Worked out: by virtual work, each mass counts by its travel for each metre of rope. In cascade, where each
    stage pulls up the next, that is 1, 2, 3 from the lowest; in continuous rigging the stages move one after
    the other, and the last to move carries all. A counter force is taken off. On the other side stand the
    motors' stall torque at full stick and the volts while it rises, the reduction, and the losses of gears,
    sheaves and slides, counted once.

    Not covered: friction of slides that bind, a jerk at the start, other motors that run at the same time.

    Source: virtual work; twice the pull is common practice, no source.
    """
    return below(
        lift.pull_margin,
        limits,
        "Its rope has {value} times the pull that it needs ({available} against {asked} for {stages} "
        "and the load); {limit} times is expected.",
        available=lift.available_pull,
        asked=lift.lift.rope_force,
        stages=lift.stage_words,
    )


@check(
    "M26",
    on=WinchRopeFacts,
    severity=Severity.STOP,
    why="A rope that breaks under tension whips back into whoever stands beside it.",
    seen="The rope sings, a knot slips or a hook straightens while the winch pulls",
    symptom=Symptom.HOT,
    fixes=(
        "Lower the endpoint of its channel, so that less of the supply reaches the motor.",
        "Take a stronger rope.",
        "Splice or clamp the rope where it is knotted.",
    ),
    levers=(
        "mechanism.*.rope.breaking",
        "mechanism.*.rope.knots",
        "radio.channel.*.travel",
        "mechanism.*.drum_diameter",
        "motor.*.part",
    ),
    limits=Limit(1, "ratio", mark="common practice"),
    examples=(
        Example("log-winch", Outcome.TRIP, "mechanism.winch"),
        Example("log-winch", Outcome.PASS, "mechanism.winch", (), variant="mended"),
        Example("log-winch", Outcome.TRIP, "mechanism.winch", ("mechanism.winch.rope.breaking=1.5 kN",)),
        Example(
            "log-winch",
            Outcome.PASS,
            "mechanism.winch",
            ("mechanism.winch.rope.breaking=1.5 kN", "mechanism.winch.use=pulling"),
        ),
        Example(
            "log-winch",
            Outcome.TRIP,
            "mechanism.winch",
            (
                "mechanism.winch.rope.breaking=1.5 kN",
                "mechanism.winch.use=pulling",
                "mechanism.winch.rope.knots=true",
            ),
        ),
        Example("log-winch", Outcome.CANNOT_TELL, "mechanism.winch", ("mechanism.winch.rope.breaking=?",)),
        Example("log-winch", Outcome.CANNOT_TELL, "mechanism.winch", ("mechanism.winch.rope.knots=?",)),
    ),
    flips=(
        Flip("log-winch", "mechanism.winch", "mechanism.winch.rope.breaking", "400 N", "3000 N"),
        Flip(
            "log-winch",
            "mechanism.winch",
            "radio.channel.3.travel",
            "40 %",
            "125 %",
            ("mechanism.winch.rope.breaking=1300 N",),
        ),
    ),
)
def winch_overpulls_its_rope(winch: WinchRopeFacts, limits: Limits) -> Answer:
    """The pull of a winch whose motor is held fast at full stick, over the pull that its rope may bear.

    Worked out: the stall torque on the rested battery through all wires, times the reduction, over the radius
    of the first layer; no loss is taken off, so that it is the most that the rope may meet. The rope may bear
    a fifth of its breaking force when it lifts and a third when it pulls along the floor; a knot that carries
    the load halves the rope.

    Not covered: a jerk, a worn or wet rope, hooks, eyes and sheaves weaker than the rope.

    Source: common practice, no source.
    """
    return above(
        winch.rope_share,
        limits,
        "Held fast its motor pulls {pull} on the first layer, {value} times the {allowed} that a rope breaking "
        "at {strength} may bear for {use}.",
        pull=winch.stall_pull,
        allowed=winch.allowed_pull,
        strength=winch.strength,
        use=winch.use,
    )


@check(
    "M27",
    on=WinchRopeFacts,
    severity=Severity.NOTE,
    why="The pull falls and the speed rises by as much as the radius grows.",
    seen="It is weak when the rope is reeled in, and strong when it is out",
    symptom=Symptom.WEAK,
    fixes=("Take a wider drum, so that the rope lies in fewer layers.", "Take a thinner rope."),
    levers=("mechanism.*.layers", "mechanism.*.drum_diameter", "mechanism.*.rope.diameter"),
    limits=Limit("25 %", "percent", mark="judgement"),
    examples=(
        Example("log-winch", Outcome.TRIP, "mechanism.winch"),
        Example("log-winch", Outcome.PASS, "mechanism.winch", ("mechanism.winch.layers=2",)),
        Example("log-winch", Outcome.TRIP, "mechanism.winch", ("mechanism.winch.use=pulling",)),
        Example("log-winch", Outcome.CANNOT_TELL, "mechanism.winch", ("mechanism.winch.layers=?",)),
    ),
    flips=(
        Flip("log-winch", "mechanism.winch", "mechanism.winch.layers", "1", "4"),
        Flip("log-winch", "mechanism.winch", "mechanism.winch.drum_diameter", "30 mm", "90 mm"),
    ),
)
def drum_fills_up(winch: WinchRopeFacts, limits: Limits) -> Answer:
    """How much the radius at which the rope pulls grows from the first layer to the last.

    Worked out: the radius of a layer is that of the bare drum and half a rope for the first layer, and a
    whole rope more for each further one. The pull falls and the speed rises in the same measure.

    Not covered: rope that sinks between the turns below, or piles up on one side.

    Source: geometry; the limit is a judgement.
    """
    return above(
        winch.radius_growth,
        limits,
        "From the first layer to the last the radius grows from {first} to {last}, by {value:%}; "
        "the limit is {limit:%}.",
        first=winch.winch.drum_radius,
        last=winch.full_radius,
    )
