"""Does a thrower throw every object alike, and where to?"""

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
    either,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.throwing import ThrowerFacts

WHEEL = "mechanism.flywheel"
TWO_WHEELS = "mechanism.flywheel.layout=two-wheels"


@check(
    "M28",
    on=ThrowerFacts,
    severity=Severity.WARN,
    seen="The second shot leaves slower than the first",
    symptom=Symptom.WEAK,
    why="The wheel gives part of its speed to each object, so the landing points spread with the rate of fire.",
    fixes=("Put more inertia on the shaft: a heavier or a larger wheel.", "Throw lighter objects."),
    levers=("mechanism.*.wheel_mass", "mechanism.*.wheel_inertia", "mechanism.*.object_mass"),
    limits={
        Severity.WARN: Limit("10 %", "percent", mark="common practice"),
        Severity.NOTE: Limit("10 %", "percent", mark="common practice"),
    },
    examples=(
        Example("seed-ball-thrower", Outcome.PASS, WHEEL),
        Example(
            "seed-ball-thrower", Outcome.TRIP, WHEEL, ("mechanism.flywheel.object_mass=80 g",), Severity.WARN
        ),
        Example(
            "seed-ball-thrower",
            Outcome.TRIP,
            WHEEL,
            ("mechanism.flywheel.object_mass=80 g", "mechanism.flywheel.interval=?"),
            Severity.NOTE,
        ),
        Example("seed-ball-thrower", Outcome.TRIP, WHEEL, (TWO_WHEELS,)),
        Example("seed-ball-thrower", Outcome.CANNOT_TELL, WHEEL, ("mechanism.flywheel.object_form=?",)),
    ),
    flips=(
        Flip("seed-ball-thrower", WHEEL, "mechanism.flywheel.object_mass", "40 g", "100 g"),
        Flip("seed-ball-thrower", WHEEL, "mechanism.flywheel.object_mass", "10 g", "60 g", (TWO_WHEELS,)),
    ),
)
def shot_slows_the_wheel(thrower: ThrowerFacts, limits: Limits) -> Answer:
    """The share of its speed that a flywheel gives to one object.

    Worked out: angular impulse. Along a fixed hood the object ends up rolling, so that it takes
    (1 + k) m r^2 / 4 against the wheel's own inertia, with k = 2/5 for a full ball and 2/3 for a hollow one;
    between two wheels it takes m r^2 / 2 against that of each. It is a WARN where a time between shots is
    wanted, else a NOTE.

    Not covered: the inertia of rotors, which helps; objects that slip or are squeezed; a hood that gives way.

    Source: conservation of angular momentum; the limit is common practice, no source.
    """
    level = Severity.NOTE if thrower.flywheel.interval is None else Severity.WARN
    return above(
        thrower.speed_drop,
        {level: limits[level]},
        "Each shot takes {value:%} of the wheel's speed; the limit is {limit:%}.",
    )


@check(
    "M29",
    on=ThrowerFacts,
    severity=Severity.WARN,
    seen="The third shot falls short",
    symptom=Symptom.WEAK,
    why="The next object is fed before the wheel is back at its speed.",
    fixes=(
        "Wait longer between shots.",
        "Take a stronger motor, or one more on the shaft.",
        "Take a lighter wheel, and look at how much of its speed a shot then takes.",
    ),
    levers=("mechanism.*.interval", "motor.*.part", "mechanism.*.wheel_inertia"),
    follows=("M28",),
    examples=(
        Example("seed-ball-thrower", Outcome.TRIP, WHEEL),
        Example("seed-ball-thrower", Outcome.PASS, WHEEL, ("mechanism.flywheel.interval=2.5 s",)),
        Example("seed-ball-thrower", Outcome.CANNOT_TELL, WHEEL, ("mechanism.flywheel.interval=?",)),
    ),
    flips=(Flip("seed-ball-thrower", WHEEL, "mechanism.flywheel.interval", "0.5 s", "5 s"),),
)
def not_back_at_speed(thrower: ThrowerFacts, limits: Limits) -> Answer:
    """The time until the wheel is back at its speed after a shot, against the wanted time between shots.

    Worked out: the motors bring the wheel back along an exponential whose time constant is inertia times
    resistance over torque and voltage constant, for as many motors as turn it; it counts as back when 2 % are
    missing.

    Not covered: the inertia of rotors and air drag; a controller that limits its current; a second shot
    before the first is made good, which falls lower still.

    Source: equation of the brushed motor; the 2 % are a judgement.
    """
    return above(
        thrower.recovery,
        {Severity.WARN: thrower.interval},
        "After a shot it is back at its speed in {value}, and {limit} between shots are wanted; "
        "a shot takes {drop:%} of its speed.",
        drop=thrower.speed_drop,
    )


@check(
    "M30",
    on=ThrowerFacts,
    severity=Severity.NOTE,
    seen="Lands metres off",
    symptom=Symptom.ON_PAPER,
    why="How fast an object leaves decides where it lands, and how much room it needs.",
    fixes=(
        "Set the endpoint or the pulley ratio for the wanted distance.",
        "Put up a net, or take more room.",
    ),
    levers=(
        "room.free",
        "mechanism.*.wanted_distance",
        "radio.channel.*.travel",
        "mechanism.*.wheel_diameter",
    ),
    examples=(
        Example("seed-ball-thrower", Outcome.PASS, WHEEL),
        Example("seed-ball-thrower", Outcome.TRIP, WHEEL, ("room.free=10 m",)),
        Example("seed-ball-thrower", Outcome.TRIP, WHEEL, ("mechanism.flywheel.wanted_distance=14 m",)),
        Example("seed-ball-thrower", Outcome.TRIP, WHEEL, (TWO_WHEELS,)),
        Example("seed-ball-thrower", Outcome.TRIP, WHEEL, (), variant="full-signal"),
        Example("seed-ball-thrower", Outcome.PASS, WHEEL, ("mechanism.flywheel.wanted_distance=?",)),
        Example("seed-ball-thrower", Outcome.CANNOT_TELL, WHEEL, ("room.free=?",)),
    ),
    flips=(
        Flip("seed-ball-thrower", WHEEL, "room.free", "5 m", "15 m"),
        Flip("seed-ball-thrower", WHEEL, "mechanism.flywheel.wanted_distance", "20 m", "5 m"),
    ),
)
def throws_to_another_place(thrower: ThrowerFacts, limits: Limits) -> Answer:
    """The longest throw, against the free way, and against the distance that the task names, if it names one.

    Worked out: the wheel's speed at full command and nominal volts; an object goes half as fast as the rim
    along a fixed hood, and as fast as the rim between two wheels; it flies at most the square of its speed
    over gravity, at 45 degrees.

    Not covered: air, a hood at another angle, the height at which it leaves, objects that slip, the speed
    that the shot itself takes.

    Source: flight of a thrown body, any textbook of mechanics.
    """
    flies = "It leaves at {speed} and flies up to {value}; "
    too_far = above(
        thrower.throw,
        {Severity.NOTE: thrower.room.free},
        flies + "{limit} are free.",
        speed=thrower.exit_speed,
    )
    if thrower.flywheel.wanted_distance is None:
        return too_far
    too_short = below(
        thrower.throw,
        {Severity.NOTE: thrower.wanted_distance},
        flies + "{limit} are wanted.",
        speed=thrower.exit_speed,
    )
    return either(too_far, too_short)
