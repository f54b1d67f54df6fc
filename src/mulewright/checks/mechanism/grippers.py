"""Does a gripper hold its object, without burning its servo or locking its linkage?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Flip,
    Limit,
    Limits,
    Outcome,
    Severity,
    below,
    check,
    either,
    flagged,
    lacking,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.grippers import GripFacts, LinkageBarsFacts

JAW = "mechanism.gripper"
BARS = (
    "mechanism.gripper.linkage={needed='60 deg', horn='25 mm', rod='50 mm', lever='30 mm', base='60 mm',"
    " horn_angle='90 deg', transmission_angle='?'}",
)
PLACED = (
    "mechanism.gripper.linkage={needed='60 deg', horn='30 mm', rod='60 mm', lever='30 mm', base='60 mm',"
    " lever_open='%s', lever_closed='%s', rod_side='ahead', transmission_angle='%s'}"
)


@check(
    "M20",
    on=LinkageBarsFacts,
    severity=Severity.STOP,
    why="Near its dead point a linkage locks, or its force grows until something breaks.",
    seen="A linkage snaps over, locks, or bends a rod near the end of its way",
    symptom=Symptom.HOT,
    fixes=(
        "Turn the horn on its spline, so that the middle of the way has rod and lever square.",
        "Take a shorter horn or a longer lever.",
        "Send the servo less far.",
    ),
    levers=(
        "mechanism.*.linkage.horn",
        "mechanism.*.linkage.lever",
        "mechanism.*.linkage.rod",
        "mechanism.*.linkage.horn_angle",
        "radio.channel.*.travel",
    ),
    limits=Limit("30 deg", "angle", mark="common practice"),
    examples=(
        Example("soft-fruit-gripper", Outcome.PASS, f"{JAW}.linkage"),
        Example(
            "soft-fruit-gripper",
            Outcome.TRIP,
            f"{JAW}.linkage",
            (f"{JAW}.linkage.transmission_angle=20 deg",),
        ),
        Example("soft-fruit-gripper", Outcome.TRIP, f"{JAW}.linkage", BARS),
        Example("soft-fruit-gripper", Outcome.PASS, f"{JAW}.linkage", BARS, variant="mended"),
        Example(
            "soft-fruit-gripper",
            Outcome.CANNOT_TELL,
            f"{JAW}.linkage",
            (f"{JAW}.linkage.transmission_angle=?",),
        ),
        *(
            Example("soft-fruit-gripper", outcome, f"{JAW}.linkage", (PLACED % angles,))
            for outcome, angles in (
                (Outcome.PASS, ("60 deg", "120 deg", "?")),
                (Outcome.TRIP, ("20 deg", "120 deg", "?")),
                (Outcome.TRIP, ("60 deg", "120 deg", "20 deg")),
                (Outcome.CANNOT_TELL, ("60 deg", "?", "55 deg")),
            )
        ),
        Example(
            "soft-fruit-gripper",
            Outcome.TRIP,
            f"{JAW}.linkage",
            (PLACED % ("60 deg", "120 deg", "55 deg"), f"{JAW}.linkage.rod=20 mm"),
        ),
    ),
    flips=(
        Flip("soft-fruit-gripper", f"{JAW}.linkage", f"{JAW}.linkage.transmission_angle", "10 deg", "80 deg"),
        Flip("soft-fruit-gripper", f"{JAW}.linkage", "servo.*.gain", "0.02 deg/us", "0.135 deg/us", BARS),
    ),
)
def linkage_meets_its_dead_point(linkage: LinkageBarsFacts, limits: Limits) -> Answer:
    """The smallest angle between the lines of rod and lever on the way on which the servo is sent.

    Worked out: as it was noted; or from the four lengths by the law of cosines, at the two ends of the
    servo's way, and where the horn points straight at the far pivot or away from it in between. Where rod and
    lever are too short or too long to meet, the angle is nothing. Where the lever's angles open and closed are
    typed, horn and rod have to reach it at each place between them; the horn's way follows from them while
    nobody knows how far the servo is sent.

    Not covered: play, rods that bend, ball joints that meet their own stop, linkages of more than four bars.

    Source: geometry of four bars; the limit is common practice, no source.
    """
    locks = below(
        linkage.transmission_angle,
        limits,
        "Rod and lever come to within {value} of one line; the limit is {limit}.",
    )
    if not linkage.placed:
        return locks
    apart = lacking(
        linkage.closes,
        Severity.STOP,
        "Horn and rod do not reach the lever somewhere between {open} and {closed}.",
        open=linkage.lever_open,
        closed=linkage.lever_closed,
    )
    return either(apart, locks)


@check(
    "M21",
    on=GripFacts,
    severity=Severity.WARN,
    why="It holds the object at rest and drops it in a turn or a stop.",
    seen="The gripper holds at rest and loses the object in a turn or a stop",
    symptom=Symptom.FALLS,
    fixes=(
        "Put pads with more grip on the jaws.",
        "Shorten the fingers, or lengthen the lever that moves them.",
        "Take a stronger servo, or one for each jaw.",
        "Turn and stop more gently.",
    ),
    levers=(
        "mechanism.*.friction",
        "mechanism.*.finger_length",
        "mechanism.*.jaws",
        "mechanism.*.acceleration",
        "servo.*.part",
    ),
    limits=Limit(1.5, "ratio", mark="common practice"),
    examples=(
        Example("soft-fruit-gripper", Outcome.PASS, JAW),
        Example("soft-fruit-gripper", Outcome.TRIP, JAW, (), variant="radio-bench"),
        Example("soft-fruit-gripper", Outcome.TRIP, JAW, (f"{JAW}.jaws=2",)),
        Example("soft-fruit-gripper", Outcome.CANNOT_TELL, JAW, (f"{JAW}.friction=?",)),
    ),
    flips=(
        Flip("soft-fruit-gripper", JAW, f"{JAW}.object_mass", "0.3 kg", "0.8 kg"),
        Flip("soft-fruit-gripper", JAW, f"{JAW}.finger_length", "0.05 m", "0.12 m"),
    ),
)
def grip_too_weak(grip: GripFacts, limits: Limits) -> Answer:
    """The force with which a jaw presses for ever, over the force that just keeps the object from slipping.

    Worked out: the stall torque of the weakest servo at the volts that it gets, times the share that it bears
    for ever, divided among the jaws that it moves, over the length of the finger. Needed is the weight and
    the acceleration of turning and stopping, added up, over grip and number of pads. While nothing feeds the
    servo, the volts are those of its sheet.

    Not covered: the lever of the linkage, an object that hooks behind the pads, jaws moved by a motor, how
    much the object bears.

    Source: balance of forces; one and a half to two times is common practice, no source.
    """
    return below(
        grip.grip_factor,
        limits,
        "Each jaw presses with {force} for ever ({peak} at its peak), {value} times the {needed} that just hold; "
        "{limit} times is expected.",
        force=grip.jaw_force,
        peak=grip.peak_jaw_force,
        needed=grip.needed_force,
    )


@check(
    "M22",
    on=GripFacts,
    severity=Severity.WARN,
    why="The servo draws its stall current as long as it holds something, and burns.",
    seen="A gripper's servo gets hot while it holds an object",
    symptom=Symptom.HOT,
    fixes=(
        "Let a finger or a pad give way like a spring.",
        "Set the closing endpoint just behind the surface of the object.",
    ),
    levers=("mechanism.*.compliant", "mechanism.*.closes_beyond"),
    examples=(
        Example("soft-fruit-gripper", Outcome.TRIP, JAW),
        Example("soft-fruit-gripper", Outcome.PASS, JAW, (f"{JAW}.compliant=true", f"{JAW}.closes_beyond=?")),
        Example(
            "soft-fruit-gripper", Outcome.PASS, JAW, (f"{JAW}.compliant=?", f"{JAW}.closes_beyond=false")
        ),
        Example("soft-fruit-gripper", Outcome.CANNOT_TELL, JAW, (f"{JAW}.closes_beyond=?",)),
        Example("soft-fruit-gripper", Outcome.CANNOT_TELL, JAW, (f"{JAW}.compliant=?",)),
    ),
)
def servo_stalls_on_the_object(grip: GripFacts, limits: Limits) -> Answer:
    """Whether the closing endpoint lies beyond the object, with nothing in between that gives way.

    Worked out: from what was noted about the endpoint and the fingers; a finger that gives way turns the
    missing way into a force that lasts.

    Not covered: how far the endpoint lies beyond, how stiff the finger is, soft objects that give way
    themselves.

    Source: reasoning; a servo that does not reach its place draws all it can.
    """
    return flagged(
        grip.grips_by_stall,
        Severity.WARN,
        "Its servo is sent beyond the object and stalls on it as long as it holds: nothing in between gives way.",
    )
