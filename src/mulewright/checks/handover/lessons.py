"""Do the mule's lessons hold on the target: rate, likeness, what was driven?"""

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
from mulewright.facts.handover_scope import AlikeFacts, RateFacts, TestedFacts

BENCHES, TARGET = "two-benches", "two-benches/target.toml"
LIFT = "tested.mechanism.lift"


@check(
    "H12",
    on=RateFacts,
    severity=Severity.WARN,
    why="A rate takes speed and force alike; gears that give the same speed give far more force.",
    seen="Geared machine feels far snappier than the mule did",
    symptom=Symptom.ON_PAPER,
    fixes=(
        "Take speed and steering from the lesson, and nothing about push, climbing, heat or snap.",
        "Drive the mule again with gears instead of the rate.",
    ),
    levers=("accepted.rate",),
    limits=Limit(1.0, "ratio", mark="common practice"),
    examples=(
        Example(BENCHES, Outcome.TRIP, "accepted", target=TARGET),
        Example(BENCHES, Outcome.PASS, "accepted", ("accepted.rate=100 %",), target=TARGET),
        Example(BENCHES, Outcome.CANNOT_TELL, "accepted", ("accepted.rate=?",), target=TARGET),
    ),
    flips=(Flip(BENCHES, "accepted", "accepted.rate", "60 %", "120 %", target=TARGET),),
)
def rate_taken_for_a_gear(rate: RateFacts, limits: Limits) -> Answer:
    """The rate at which the accepted run was driven, against the full one.

    Worked out: gears instead of a rate give the same speed with one over the rate squared of the force.

    Not covered: whether anybody draws a ratio from that run.

    Source: arithmetic; common practice, no source.
    """
    return below(
        rate.run.rate,
        limits,
        "The run was accepted at a rate of {value:%}. Gears for the same speed would give {force} times the force.",
        force=rate.hidden_force,
    )


@check(
    "H13",
    on=AlikeFacts,
    severity=Severity.WARN,
    why="A driver who trained on the mule is suddenly clumsy on the target.",
    seen="Trained driver is suddenly clumsy",
    symptom=Symptom.COARSE,
    fixes=(
        "Put ballast on the mule until both are alike, and drive again.",
        "State in the hand-over for which mass, height and floor the lessons hold.",
    ),
    levers=("body.mass", "body.center_height", "drive.wheel.friction", "target:body.mass"),
    limits=Limit("20 %", "percent", mark="judgement"),
    examples=(
        Example(BENCHES, Outcome.TRIP, "alike.center_height", target=TARGET),
        Example(BENCHES, Outcome.PASS, "alike.mass", target=TARGET),
        Example(BENCHES, Outcome.TRIP, "alike.mass", ("target:body.mass=6 kg",), target=TARGET),
        Example(BENCHES, Outcome.CANNOT_TELL, "alike.mass", ("target:body.mass=?",), target=TARGET),
    ),
    flips=(Flip(BENCHES, "alike.mass", "target:body.mass", "9 kg", "13 kg", target=TARGET),),
)
def machines_not_alike(likeness: AlikeFacts, limits: Limits) -> Answer:
    """Mass, height of the centre of gravity, grip and push over weight of the target, against the mule's.

    Worked out: the difference as a share of the mule's value.

    Not covered: size, steering, the driver's view.

    Source: the threshold is a judgement.
    """
    return above(
        likeness.unlike,
        limits,
        "The {which} is {there} on the target and {here} on the mule: {value:%} apart, where the limit is {limit:%}.",
        which=likeness.words,
        there=likeness.beyond,
        here=likeness.here,
    )


@check(
    "H14",
    on=TestedFacts,
    severity=Severity.WARN,
    why="Curves fitted to a range bend outside it.",
    seen="The target does not do what the runs foretold",
    symptom=Symptom.ON_PAPER,
    fixes=(
        "Run the trial at that speed, with that load, on that floor.",
        "Hold the target to what was tried.",
    ),
    levers=("accepted.speed", "accepted.load", "accepted.floor", "target:room.surfaces"),
    limits=Limit(1.0, "ratio", mark="common practice"),
    examples=(
        Example(BENCHES, Outcome.TRIP, "tested.speed", target=TARGET),
        Example(BENCHES, Outcome.PASS, "tested.speed", ("accepted.speed=3 m/s",), target=TARGET),
        Example(BENCHES, Outcome.CANNOT_TELL, "tested.speed", ("accepted.rate=?",), target=TARGET),
        Example(BENCHES, Outcome.PASS, LIFT, target=TARGET),
        Example(BENCHES, Outcome.TRIP, LIFT, ("target:mechanism.lift.load=5 kg",), target=TARGET),
        Example(BENCHES, Outcome.PASS, "tested.floor", target=TARGET),
        Example(BENCHES, Outcome.TRIP, "tested.floor", ('target:room.surfaces=["gravel"]',), target=TARGET),
        Example(BENCHES, Outcome.CANNOT_TELL, "tested.floor", ("accepted.floor=?",), target=TARGET),
    ),
    flips=(
        Flip(BENCHES, "tested.speed", "accepted.speed", "1 m/s", "4 m/s", target=TARGET),
        Flip(BENCHES, LIFT, "target:mechanism.lift.load", "2 kg", "8 kg", target=TARGET),
    ),
)
def outside_what_was_tested(point: TestedFacts, limits: Limits) -> Answer:
    """Top speed, loads and floors of the target, against those of the accepted run.

    Worked out: the speed that was driven is the noted one, or else follows from the rate and the volts of that
    run; the target's follows from its own gears, duty and volts under load. Floors are compared by their names.

    Not covered: runs other than the accepted one, slopes, temperatures.

    Source: common practice, no source.
    """
    if point.name == "floor":
        floors = ", ".join(point.new_floors) or "none"
        what = "{value} of the target's floors were not driven on ({floors})."
        return above(point.new_floor_count, {Severity.WARN: 0}, what, floors=floors)
    return above(
        point.beyond_tested,
        limits,
        "On the target {which} goes up to {there}, tested up to {here}: {value} times as far; the limit is {limit}.",
        which=point.words,
        there=point.to_come,
        here=point.tested,
    )
