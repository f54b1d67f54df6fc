"""Do two servos on one thing work together: do they turn the same way, and have they the same middle?"""

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
from mulewright.facts.twin_servos import CoupledServosFacts, ServoPairFacts

JAWS = "servo.left>servo.right"
REVERSER = ('inline.turn={ does = "reverses", signal = "y_lead.jaws" }', "servo.right.signal=inline.turn")


@check(
    "S25",
    on=ServoPairFacts,
    severity=Severity.STOP,
    why="They push against each other, or one opens while the other closes, and the weaker gear strips.",
    seen="Two servos buzz or go opposite ways, and with one unplugged the other is quiet",
    symptom=Symptom.HOT,
    fixes=(
        "Give each servo a channel of its own and reverse one of them.",
        "Put a reverser into the lead of one servo, or take a servo that turns the other way.",
        "Turn one servo round, so that both are mounted alike.",
        "Couple the two jaws with gears and leave one servo away.",
    ),
    levers=("servo.*.signal", "servo.*.mirrored"),
    examples=(
        Example("soft-fruit-gripper", Outcome.TRIP, JAWS, severity=Severity.STOP),
        Example("soft-fruit-gripper", Outcome.TRIP, JAWS, variant="radio-bench"),
        Example("soft-fruit-gripper", Outcome.PASS, JAWS, variant="mended"),
        Example("soft-fruit-gripper", Outcome.PASS, JAWS, REVERSER),
        Example("soft-fruit-gripper", Outcome.PASS, JAWS, ("servo.right.mirrored=false",)),
        Example("soft-fruit-gripper", Outcome.CANNOT_TELL, JAWS, ("servo.right.mirrored=?",)),
        Example("soft-fruit-gripper", Outcome.CANNOT_TELL, JAWS, ("servo.right.signal=?",)),
    ),
)
def mirrored_servos_on_one_signal(pair: ServoPairFacts, limits: Limits) -> Answer:
    """Whether two servos that move one thing get the same pulses although they face each other.

    Worked out: both signals are followed back to their socket. If it is the same, the two have to be mounted
    alike, or exactly one of them needs a reverser in its lead. A mount of which nothing is said counts as not
    mirrored where that of the other one is noted.

    Not covered: servos with signals of their own, whose directions one sees at the first push.

    Source: common practice, no source.
    """
    return flagged(pair.fights, Severity.STOP, "{names}: {words}.", names=pair.names, words=pair.in_words)


@check(
    "S27",
    on=CoupledServosFacts,
    severity=Severity.WARN,
    why="At rest each holds the other away from its own middle, which costs current and heat all the time.",
    seen="Two coupled servos hum and get warm at rest",
    symptom=Symptom.HOT,
    fixes=(
        "Give each a channel of its own and bring their middles together with the sub-trim.",
        "Couple them softly, with a spring or a rubber link.",
        "Take two servos of one kind that were compared with the tester.",
    ),
    levers=("servo.*.center_error", "servo.*.gain", "servo.*.part"),
    limits=Limit("1.5 deg", "angle", mark="judgement"),
    also={"gain": Limit("2 %", "percent", mark="judgement")},
    follows=("S25",),
    examples=(
        Example("soft-fruit-gripper", Outcome.TRIP, JAWS, severity=Severity.WARN),
        Example("soft-fruit-gripper", Outcome.PASS, JAWS, variant="mended"),
        Example(
            "soft-fruit-gripper", Outcome.TRIP, JAWS, ("servo.left.gain=0.138 deg/us",), variant="mended"
        ),
        Example("soft-fruit-gripper", Outcome.CANNOT_TELL, JAWS, ("servo.right.center_error=?",)),
    ),
    flips=(Flip("soft-fruit-gripper", JAWS, "servo.right.center_error", "25 us", "2 us"),),
)
def coupled_servos_disagree(pair: CoupledServosFacts, limits: Limits) -> Answer:
    """The angle between the middles of two coupled servos, and how far their gains lie apart.

    Worked out: the pulse between their middles, as it is noted after any trims, times the angle for each
    microsecond; and one gain over the other, of which 2 % are allowed.

    Not covered: servos of which nobody noted that they are coupled, and links that give way.

    Source: common practice, no source; both thresholds are judgements.
    """
    return either(
        above(
            pair.center_gap,
            limits,
            "The middles of {names} lie {value} apart; {limit} is the most.",
            names=pair.names,
        ),
        above(
            pair.gain_gap,
            {Severity.WARN: limits.also["gain"]},
            "The gains of {names} lie {value:%} apart; {limit:%} is the most.",
            names=pair.names,
        ),
    )
