"""Where does the fail-safe put things?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Flip,
    Limits,
    Outcome,
    Severity,
    above,
    check,
    flagged,
    lacking,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.presets import FlywheelLinkFacts, PresetControllerFacts, ServoLinkFacts


@check(
    "R04",
    on=PresetControllerFacts,
    severity=Severity.STOP,
    why="It creeps away, or drives off, when the link is lost.",
    seen="Creeps away after the transmitter is switched off",
    symptom=Symptom.BY_ITSELF,
    fixes=(
        "Store the preset again with the stick at neutral, after every change of trim, sub-trim or rate.",
    ),
    levers=("receiver.fail_safe.*", "radio.channel.*.failsafe_pulse"),
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example("tray-cart", Outcome.TRIP, "controller.left", ("receiver.fail_safe.2=1560 us",)),
        Example("tray-cart", Outcome.TRIP, "controller.left", ("radio.channel.2.failsafe_pulse=1460 us",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("controller.left.dead_band=?",)),
    ),
    flips=(Flip("tray-cart", "controller.left", "radio.channel.2.failsafe_pulse", "1500 us", "1600 us"),),
)
def preset_is_not_neutral(controller: PresetControllerFacts, limits: Limits) -> Answer:
    """How far the stored fail-safe pulse is from neutral, against the controller's dead band.

    Worked out: the pulse as it was measured, else as it is noted; through a box the offsets of its inputs add
    up.

    Not covered: sockets that hold, which is another finding; a controller whose own neutral is shifted.

    Source: the controller's sheet.
    """
    return above(
        controller.preset_error,
        {Severity.STOP: controller.dead_band},
        "Its fail-safe is {value} from neutral; its dead band is {limit}.",
    )


@check(
    "R06",
    on=ServoLinkFacts,
    severity=Severity.NOTE,
    why="A glitch at the edge of the range drops what it holds, or crushes it.",
    seen="Gripper lets go or squeezes where the link is weak",
    symptom=Symptom.FALLS,
    fixes=("Let the socket of a servo hold its last pulse.", "Note that letting go does no harm."),
    levers=("receiver.fail_safe.*", "mechanism.*.release_harmless"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "servo.tilt"),
        Example(
            "aisle-carrier", Outcome.TRIP, "servo.tilt", ("receiver.part=rx8", "receiver.fail_safe.5=neutral")
        ),
        Example(
            "aisle-carrier",
            Outcome.PASS,
            "servo.tilt",
            (
                "receiver.part=rx8",
                "receiver.fail_safe.5=neutral",
                "mechanism.grip={kind='gripper', release_harmless=true}",
                "servo.tilt.moves=mechanism.grip",
                "radio.control.KN.commands=grip",
            ),
        ),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "servo.tilt", ("receiver.protects=?",)),
    ),
)
def servo_lets_go_without_a_link(servo: ServoLinkFacts, limits: Limits) -> Answer:
    """Whether a servo leaves its place when the link is lost.

    Worked out: the fail-safe of every socket that moves it; a preset moves it, holding does not.

    Not covered: a servo without pulses, which most let go limp.

    Source: common practice, no source.
    """
    return flagged(
        servo.lets_drop, Severity.NOTE, "When the link is lost: {reaction}.", reaction=servo.reaction
    )


@check(
    "R07",
    on=FlywheelLinkFacts,
    severity=Severity.STOP,
    why="The energy of the wheel stays in it, and nobody can switch it off from afar.",
    seen="Flywheel is kept turning after the transmitter is switched off",
    symptom=Symptom.BY_ITSELF,
    fixes=("Store a preset that stops it.", "Move its plug to a socket that can store a preset."),
    levers=("receiver.fail_safe.*", "receiver.part"),
    follows=("R02",),
    examples=(
        Example("seed-ball-thrower", Outcome.TRIP, "controller.flywheel"),
        Example(
            "seed-ball-thrower", Outcome.PASS, "controller.flywheel", ("receiver.fail_safe.others=neutral",)
        ),
        Example(
            "seed-ball-thrower",
            Outcome.TRIP,
            "controller.flywheel",
            ("receiver.fail_safe.others=neutral", "controller.flywheel.direction=one-way"),
        ),
        Example("seed-ball-thrower", Outcome.CANNOT_TELL, "controller.flywheel", ("receiver.protects=?",)),
    ),
)
def flywheel_spins_on_without_a_link(flywheel: FlywheelLinkFacts, limits: Limits) -> Answer:
    """Whether the controller of a flywheel is told to stop when the link is lost.

    Worked out: the fail-safe of every socket that moves it; neutral is half power to a one-way controller.

    Not covered: how long the wheel takes to run down.

    Source: common practice, no source.
    """
    return lacking(
        flywheel.stops, Severity.STOP, "When the link is lost, {reaction}.", reaction=flywheel.lost.reaction
    )
