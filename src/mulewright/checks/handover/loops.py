"""Can a loop be closed on it: hold tests, places for sensors, a loop that is quick enough?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Flip,
    Limit,
    Limits,
    NotApplicable,
    Outcome,
    Severity,
    above,
    check,
    lacking,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.handover_joints import HeldJointFacts, JointFacts
from mulewright.facts.handover_loop import LoopFacts

BENCHES, TARGET, PRUNER = "two-benches", "two-benches/target.toml", "long-reach-pruner"
LIFT = "mechanism.lift"
FREE = (f"{LIFT}.ratchet=false",)
TEST = f'{LIFT}.hold_test={{ rising_duty = "40 %", sinking_duty = "10 %", voltage = "11.4 V" }}'
NO_VOLTS = f'{LIFT}.hold_test={{ rising_duty = "40 %", sinking_duty = "10 %" }}'
NEEDED = (f"{LIFT}.needs_feedback=true",)


@check(
    "H11",
    on=HeldJointFacts,
    severity=Severity.NOTE,
    why="Without the volts of gravity and friction the programmers tune in the dark.",
    seen="Weeks of turning gains up and down",
    symptom=Symptom.ON_PAPER,
    fixes=("Note the duties at which it just starts to rise and to sink, with the volts.",),
    levers=("mechanism.*.hold_test",),
    examples=(
        Example(BENCHES, Outcome.TRIP, LIFT, FREE, target=TARGET),
        Example(BENCHES, Outcome.PASS, LIFT, (*FREE, TEST), target=TARGET),
        Example(BENCHES, Outcome.CANNOT_TELL, LIFT, (*FREE, NO_VOLTS), target=TARGET),
        Example(BENCHES, Outcome.NOT_APPLICABLE, LIFT, target=TARGET),
    ),
)
def never_held_by_hand(joint: HeldJointFacts, limits: Limits) -> Answer:
    """Whether a hold test is written for everything that gravity pulls on.

    Worked out: the middle of the band between just rising and just sinking, times the volts, is gravity; half
    the band is friction.

    Not covered: other angles and other loads than those of the test.

    Source: common practice, no source.
    """
    if joint.joint.ratchet:
        return NotApplicable("a ratchet holds it, no volts are needed for that")
    if joint.joint.hold_test is None:
        return lacking(joint.hold_tested, Severity.NOTE, "No hold test is written for it.")
    return lacking(
        joint.hold_tested,
        Severity.NOTE,
        "A hold test gives {gravity} for gravity and {friction} for friction.",
        gravity=joint.measured.gravity,
        friction=joint.measured.friction,
    )


@check(
    "H16",
    on=JointFacts,
    severity=Severity.WARN,
    why="A joint that has to know where it stands is designed again for its sensor.",
    seen="No room for the sensor when the target is built",
    symptom=Symptom.ON_PAPER,
    fixes=("Draw the place of the sensor now, with a shaft to turn it and a hard stop as its zero.",),
    levers=("mechanism.*.sensor_place", "mechanism.*.needs_feedback"),
    examples=(
        Example(BENCHES, Outcome.PASS, LIFT, (*NEEDED, f"{LIFT}.sensor_place=true"), target=TARGET),
        Example(BENCHES, Outcome.TRIP, LIFT, (*NEEDED, f"{LIFT}.sensor_place=false"), target=TARGET),
        Example(
            BENCHES,
            Outcome.TRIP,
            LIFT,
            (f"{LIFT}.needs_feedback=?", f"{LIFT}.repeatability=5 mm", f"{LIFT}.sensor_place=false"),
            target=TARGET,
        ),
        Example(BENCHES, Outcome.CANNOT_TELL, LIFT, NEEDED, target=TARGET),
        Example(BENCHES, Outcome.CANNOT_TELL, LIFT, (f"{LIFT}.needs_feedback=?",), target=TARGET),
        Example(BENCHES, Outcome.NOT_APPLICABLE, LIFT, target=TARGET),
    ),
)
def sensor_has_no_place(joint: JointFacts, limits: Limits) -> Answer:
    """Whether a sensor finds room on each arm, lift and winch that the target has to drive to a place by itself.

    Worked out: nothing; both are noted. A tolerance of its place means that it needs a sensor.

    Not covered: which sensor, and its resolution: a quarter of the tolerance is common.

    Source: common practice, no source.
    """
    if not joint.driven_to_a_place:
        return NotApplicable("it is noted that it needs no feedback")
    return lacking(joint.sensor_place, Severity.WARN, "No sensor finds room on it.")


@check(
    "H18",
    on=LoopFacts,
    severity=Severity.NOTE,
    why="A loop that is slower than what it controls swings.",
    seen="Swings about its place, however the gains are set",
    symptom=Symptom.COARSE,
    fixes=("Run the loop more often.", "Make the mechanism slower: more reduction, more mass."),
    levers=("target:target.loop_time", "target:motor.*.gears"),
    limits=Limit(0.2, "ratio", mark="common practice"),
    examples=(
        Example(BENCHES, Outcome.PASS, "drive", target=TARGET),
        Example(BENCHES, Outcome.TRIP, LIFT, ("target:target.loop_time=20 ms",), target=TARGET),
        Example(BENCHES, Outcome.CANNOT_TELL, "drive", ("target:target.loop_time=?",), target=TARGET),
    ),
    flips=(Flip(BENCHES, "drive", "target:target.loop_time", "5 ms", "200 ms", target=TARGET),),
)
def loop_too_slow(loop: LoopFacts, limits: Limits) -> Answer:
    """The time of the target's control loop, against the time constant of the drive and of each raised load.

    Worked out: mass, gears and motor constants of the target give the time in which it makes 63 % of a change
    of speed.

    Not covered: the rotors' own inertia, which makes the mechanism slower, and delays of sensors.

    Source: common practice, no source.
    """
    return above(
        loop.loop_share,
        limits,
        "The loop takes {loop}, and the mechanism {pace}: {value:%} of it, where the limit is {limit:%}.",
        loop=loop.loop_time,
        pace=loop.pace.time_constant,
    )
