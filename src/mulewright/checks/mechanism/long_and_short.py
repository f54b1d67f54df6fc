"""Does a controller bear what its motors draw for long, and in the moment of a flick into reverse?"""

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
    either,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.controller_work import ControllerWorkFacts, ReversalFacts

WINCH = "controller.winch"


@check(
    "M02",
    on=ControllerWorkFacts,
    severity=Severity.WARN,
    why="The rating of a controller holds in moving air, and in a closed box it gets hot and cuts out.",
    seen="Runs well for two minutes, then stutters",
    symptom=Symptom.CUTS_OUT,
    fixes=(
        "Let air past the controller.",
        "Take a controller that bears more.",
        "Give one of its motors to another controller, or lower the load.",
    ),
    levers=("controller.*.part", "mechanism.*.load", "motor.*.gears.*.ratio", "motor.*.load_torque"),
    limits=Limit("70 %", "ratio", mark="common practice"),
    examples=(
        Example("log-winch", Outcome.PASS, WINCH),
        Example("log-winch", Outcome.TRIP, WINCH, ("mechanism.winch.load=20 kg",)),
        Example("log-winch", Outcome.CANNOT_TELL, WINCH, (f"{WINCH}.continuous_current=?",)),
        Example("seed-ball-thrower", Outcome.PASS, "controller.flywheel"),
    ),
    flips=(
        Flip("log-winch", WINCH, "mechanism.winch.load", "10 kg", "20 kg"),
        Flip("log-winch", WINCH, f"{WINCH}.continuous_current", "6 A", "12 A"),
    ),
)
def works_near_its_controllers_rating(controller: ControllerWorkFacts, limits: Limits) -> Answer:
    """The current of motors at their work, over the current that their controller bears for ever.

    Worked out: the current of raising the load, of rolling along on the level, or of the torque that was
    noted, at full stick; of a thrower that of its free run. Several motors on one controller are added up.

    Not covered: starting and stopping, slopes, turning on the spot, how long it works, the air around it.

    Source: the controller's sheet; the share that is left without moving air is common practice, no source.
    """
    return above(
        controller.work_share,
        limits,
        "At work its motors draw {current}, {value:%} of the {rating} that it bears for ever in moving air; "
        "the limit is {limit:%}.",
        current=controller.work_current,
        rating=controller.rating.continuous_current,
    )


@check(
    "M11",
    on=ReversalFacts,
    severity=Severity.WARN,
    why="A motor that still runs forward when it is told to run backward draws up to twice its stall current.",
    seen="Cuts out, or gears crack, when the stick is flicked into full reverse",
    symptom=Symptom.CUTS_OUT,
    fixes=(
        "Let the stick come back to the middle first, or set a ramp where the controller has one.",
        "Lower the rate or the endpoint.",
        "Take a controller that bears more.",
    ),
    levers=("radio.channel.*.travel", "controller.*.peak_current", "controller.*.part", "motor.*.part"),
    follows=("M01", "M03"),
    examples=(
        Example("log-winch", Outcome.TRIP, WINCH, (), Severity.WARN),
        Example("log-winch", Outcome.PASS, WINCH, (f"{WINCH}.peak_current=60 A",)),
        Example("log-winch", Outcome.NOT_APPLICABLE, WINCH, (f"{WINCH}.direction=one-way",)),
        Example("log-winch", Outcome.NOT_APPLICABLE, WINCH, (f"{WINCH}.direction=stop-then-reverse",)),
        Example("log-winch", Outcome.NOT_APPLICABLE, WINCH, ("motor.winch.runs=one-way",)),
        Example("log-winch", Outcome.CANNOT_TELL, WINCH, (f"{WINCH}.direction=?",)),
        Example("tray-cart", Outcome.TRIP, "controller.left", (), Severity.NOTE),
        Example("tray-cart", Outcome.PASS, "controller.left", ("radio.channel.*.travel=100 %",)),
        Example(
            "tray-cart", Outcome.TRIP, "controller.left", ("controller.left.peak_current=5 A",), Severity.NOTE
        ),
        Example(
            "tray-cart",
            Outcome.TRIP,
            "controller.left",
            ("controller.left.peak_current=10 A", "body.mass=60 kg"),
            Severity.WARN,
        ),
    ),
    flips=(
        Flip("log-winch", WINCH, "radio.channel.3.travel", "125 %", "20 %"),
        Flip("tray-cart", "controller.left", "controller.left.peak_current", "10 A", "20 A"),
    ),
)
def reversed_above_its_controllers_peak(controller: ReversalFacts, limits: Limits) -> Answer:
    """The current when a full stick is flicked the other way at full speed, against the controller's peak.

    Worked out: the volts that the running motor still generates add to those of the battery, over the
    resistance of its winding; rested battery, all wires and the motors of the function solved together. It is
    a NOTE where the wheels slip before the peak is reached, and where only a battery straight off the charger,
    taken without sag, would reach it.

    Not covered: a ramp in the controller, a controller that limits its current by itself, loads that push.

    Source: Ohm's law, and the controller's sheet.
    """
    if controller.never:
        return NotApplicable(controller.never)
    peak = controller.rating.peak_current
    return either(
        above(
            controller.reversal_current,
            {Severity.WARN: controller.reversal_limit, Severity.NOTE: peak},
            "Flicked into full reverse at full speed its motors draw {value}; it bears {peak} for a moment.",
            peak=peak,
        ),
        above(
            controller.fresh_reversal_current,
            {Severity.NOTE: peak},
            "Straight off the charger and without sag, a flick into full reverse would draw {value}; "
            "it bears {limit} for a moment.",
        ),
    )
