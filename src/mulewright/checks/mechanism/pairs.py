"""Do motors that turn the same shaft help each other, or fight?"""

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
    check,
    either,
    flagged,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.coupled_motors import CoupledFacts

WHEEL = "mechanism.flywheel"


@check(
    "M47",
    on=CoupledFacts,
    severity=Severity.STOP,
    seen="Motors on one shaft are warm although nothing loads them",
    symptom=Symptom.HOT,
    why="The faster motor drags the slower one along, and two that turn against each other stand and burn.",
    fixes=(
        "Take two motors of the same kind and the same ratio.",
        "Turn the leads of one motor round where they turn against each other.",
    ),
    levers=(
        "motor.*.part",
        "motor.*.gears.*.ratio",
        "motor.*.mirrored",
        "controller.*.polarity",
        "radio.channel.*.reverse",
    ),
    limits={Severity.WARN: Limit("10 %", "percent", mark="common practice")},
    examples=(
        Example("seed-ball-thrower", Outcome.PASS, WHEEL),
        Example(
            "seed-ball-thrower", Outcome.TRIP, WHEEL, ("motor.lower.free_speed=4500 rpm",), Severity.WARN
        ),
        Example("seed-ball-thrower", Outcome.TRIP, WHEEL, ("motor.lower.mirrored=true",), Severity.STOP),
        Example(
            "seed-ball-thrower",
            Outcome.TRIP,
            WHEEL,
            ("controller.second.polarity=swapped",),
            Severity.STOP,
            "two-controllers",
        ),
        Example(
            "seed-ball-thrower",
            Outcome.PASS,
            WHEEL,
            ("motor.lower.mirrored=true", "controller.second.polarity=swapped"),
            variant="two-controllers",
        ),
        Example("seed-ball-thrower", Outcome.CANNOT_TELL, WHEEL, ("motor.lower.mirrored=?",)),
    ),
    flips=(Flip("seed-ball-thrower", WHEEL, "motor.lower.free_speed", "4000 rpm", "5200 rpm"),),
)
def motors_on_one_shaft_fight(coupled: CoupledFacts, limits: Limits) -> Answer:
    """The speeds at which several motors would turn the same thing, and whether they turn it the same way.

    Worked out: each sheet's free speed through its own gear stages, the fastest over the slowest; and the
    sense of each: its leads, its mount, its gears and the signal of its controller.

    Not covered: motors of one kind that differ by themselves, as much as 5 to 10 % (common practice); travel
    that is not the same on their channels.

    Source: common practice, no source.
    """
    return either(
        flagged(
            coupled.opposed,
            Severity.STOP,
            "{motors} turn it against each other; by their sheets their speeds differ by {spread:%}.",
            motors=coupled.in_words,
            spread=coupled.speed_spread,
        ),
        above(
            coupled.speed_spread,
            limits,
            "The fastest of {motors} is {value:%} faster than the slowest; the limit is {limit:%}.",
            motors=coupled.in_words,
        ),
    )
