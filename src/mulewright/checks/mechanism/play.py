"""Can it be moved a little, and does it come back to the same place?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Flip, Limit, Limits, Outcome, Severity, above, check
from mulewright.checks.symptoms import Symptom
from mulewright.facts.play import CreepingFacts, SlackFacts

ARM = "mechanism.arm"


@check(
    "M45",
    on=CreepingFacts,
    severity=Severity.NOTE,
    seen="Cannot creep up to an object: nothing, then a jump",
    symptom=Symptom.COARSE,
    why="Below that voltage nothing moves, and above it everything jumps.",
    fixes=("Clean, align and lubricate bearings and gears.", "Let the belt or the chain run looser."),
    levers=("motor.*.friction_voltage", "mechanism.*.friction_voltage", "motor.*.part"),
    limits=Limit(0.12, "ratio", mark="judgement"),
    examples=(
        Example("tray-cart", Outcome.PASS, "motor.left"),
        Example("tray-cart", Outcome.TRIP, "motor.left", ("motor.left.friction_voltage=2 V",)),
        Example("tray-cart", Outcome.TRIP, "motor.left", ("motor.left.free_current=1.2 A",)),
        Example("aisle-carrier", Outcome.TRIP, "motor.lift", ("mechanism.lift.friction_voltage=2 V",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "motor.left", ("motor.left.free_current=?",)),
    ),
    flips=(
        Flip("tray-cart", "motor.left", "motor.left.friction_voltage", "0.5 V", "3 V"),
        Flip("aisle-carrier", "motor.lift", "mechanism.lift.friction_voltage", "0.5 V", "3 V"),
    ),
)
def jumps_when_it_starts(motor: CreepingFacts, limits: Limits) -> Answer:
    """The volts that a motor needs before it moves, over those of its supply at rest.

    Worked out: as measured at the motor or at what it turns. Where nobody has measured, the free current
    through the winding: the friction of the motor and its gearbox alone, which is the least that it can be.

    Not covered: friction of bearings and guides that nobody has measured; what the stick does before the
    controller answers.

    Source: judgement.
    """
    return above(
        motor.friction_share,
        limits,
        "It needs {volts} before it moves, {value:%} of its supply; the limit is {limit:%}.",
        volts=motor.friction_floor,
    )


@check(
    "M48",
    on=SlackFacts,
    severity=Severity.NOTE,
    seen="Its tip can be rattled to and fro by hand",
    symptom=Symptom.COARSE,
    why="A stick cannot place anything more exactly than its slack lets it.",
    fixes=(
        "Take up the slack with a spring or a rubber band that always pulls one way.",
        "Tighten the chain, or take a gear with less play.",
    ),
    levers=("*.*.backlash", "*.*.repeatability"),
    limits=Limit(2, "ratio", mark="judgement"),
    examples=(
        Example("long-reach-pruner", Outcome.PASS, ARM),
        Example("long-reach-pruner", Outcome.TRIP, ARM, ("mechanism.arm.backlash=60 mm",)),
        Example("long-reach-pruner", Outcome.CANNOT_TELL, ARM, ("mechanism.arm.backlash=?",)),
    ),
    flips=(
        Flip("long-reach-pruner", ARM, "mechanism.arm.backlash", "10 mm", "100 mm"),
        Flip("long-reach-pruner", ARM, "mechanism.arm.repeatability", "2 mm", "20 mm"),
    ),
)
def slack_before_it_moves(function: SlackFacts, limits: Limits) -> Answer:
    """The free travel of a function over how exactly it should come back to a place.

    Worked out: nothing but the quotient; both are measured at the same spot, at the tip of an arm.

    Not covered: a load that always pulls one way and so takes up the slack.

    Source: judgement.
    """
    return above(
        function.slack_share,
        limits,
        "It has {slack} of free travel and should come back within {wanted}: {value} times that, "
        "where the limit is {limit}.",
        slack=function.backlash,
        wanted=function.repeatability,
    )
