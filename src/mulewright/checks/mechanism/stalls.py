"""What happens to controllers and gearboxes when a motor is held fast?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Flip, Limit, Limits, Outcome, Severity, above, check
from mulewright.checks.symptoms import Symptom
from mulewright.facts.controller_load import LoneControllerFacts, SharedControllerFacts
from mulewright.facts.stalls import GearboxFacts

CURRENT_FIXES = (
    "Take a controller that bears more.",
    "Lower the endpoint, so that less of the supply reaches the motor.",
)
CURRENT_LEVERS = ("controller.*.part", "motor.*.part", "radio.channel.*.travel")


@check(
    "M01",
    on=LoneControllerFacts,
    severity=Severity.STOP,
    why="The controller cuts out for a second at every push, or dies.",
    seen="Motor cuts out for a moment when it pushes hard",
    symptom=Symptom.CUTS_OUT,
    fixes=(*CURRENT_FIXES, "Let the wheel slip, or a clutch, before the motor stalls."),
    levers=CURRENT_LEVERS,
    examples=(
        Example("log-winch", Outcome.TRIP, "controller.winch", (), Severity.STOP),
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example(
            "tray-cart", Outcome.TRIP, "controller.left", ("motor.left.stall_current=25 A",), Severity.WARN
        ),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("controller.left.peak_current=?",)),
    ),
    flips=(Flip("log-winch", "controller.winch", "radio.channel.3.travel", "90 %", "125 %"),),
)
def stalls_above_its_controllers_peak(controller: LoneControllerFacts, limits: Limits) -> Answer:
    """The current of a motor that is held fast at full stick, against the peak that its controller bears.

    Worked out: the rested battery, all wires and the motor's resistance solved together, at the duty of a
    full stick. It is a WARN where the wheel slips before that current is reached.

    Not covered: a controller that limits its current by itself; a flick into reverse, which draws up to twice
    as much.

    Source: Ohm's law, and the controller's sheet.
    """
    return above(
        controller.stall_current,
        {Severity.STOP: controller.hard_limit, Severity.WARN: controller.rating.peak_current},
        "Held fast its motor draws {value}; it bears {peak} for a moment.",
        peak=controller.rating.peak_current,
    )


@check(
    "M03",
    on=SharedControllerFacts,
    severity=Severity.STOP,
    why="One jam starves the other motor, and both together are more than the controller bears.",
    seen="One motor is blocked, and the other on its controller stops too",
    symptom=Symptom.CUTS_OUT,
    fixes=("Give each motor its own controller, and one signal to both by a Y-lead.", *CURRENT_FIXES),
    levers=CURRENT_LEVERS,
    examples=(
        Example("seed-ball-thrower", Outcome.TRIP, "controller.flywheel"),
        Example(
            "seed-ball-thrower", Outcome.PASS, "controller.flywheel", ("controller.flywheel.part=ctl-20s",)
        ),
        Example(
            "seed-ball-thrower", Outcome.CANNOT_TELL, "controller.flywheel", ("battery.main.resistance=?",)
        ),
    ),
    flips=(Flip("seed-ball-thrower", "controller.flywheel", "radio.channel.3.travel", "60 %", "125 %"),),
)
def motors_share_a_controller_too_small(controller: SharedControllerFacts, limits: Limits) -> Answer:
    """The current of all motors on one controller, held fast at full stick, against the peak that it bears.

    Worked out: the rested battery, all wires and the motors' resistances solved together, at the duty of a
    full stick.

    Not covered: motors that share unevenly, a controller that limits its current by itself.

    Source: Ohm's law, and the controller's sheet.
    """
    return above(
        controller.stall_current,
        {Severity.STOP: controller.rating.peak_current},
        "Held fast its motors together draw {value}; it bears {limit} for a moment.",
    )


@check(
    "M15",
    on=GearboxFacts,
    severity=Severity.STOP,
    why="The teeth give way before the motor does.",
    seen="Gearbox clicks or grinds when its motor is held fast",
    symptom=Symptom.HOT,
    fixes=(
        "Put a slip clutch behind the gearbox.",
        "Lower the endpoint, so that less of the supply reaches the motor.",
        "Move reduction from the motor's own gearbox to a stage behind it.",
    ),
    levers=("radio.channel.*.travel", "motor.*.part"),
    limits={
        Severity.STOP: Limit(1, "ratio", mark="published", source="the gearbox's sheet"),
        Severity.WARN: Limit(0.8, "ratio", mark="judgement"),
    },
    examples=(
        Example("long-reach-pruner", Outcome.TRIP, "motor.arm", (), Severity.STOP),
        Example(
            "long-reach-pruner", Outcome.TRIP, "motor.arm", ("radio.channel.3.travel=80 %",), Severity.WARN
        ),
        Example("long-reach-pruner", Outcome.PASS, "motor.arm", ("radio.channel.3.travel=60 %",)),
        Example("long-reach-pruner", Outcome.CANNOT_TELL, "motor.arm", ("motor.arm.gearbox_limit=?",)),
        Example("tray-cart", Outcome.PASS, "motor.left"),
    ),
    flips=(Flip("long-reach-pruner", "motor.arm", "radio.channel.3.travel", "50 %", "80 %"),),
)
def gearbox_breaks_first(gearbox: GearboxFacts, limits: Limits) -> Answer:
    """The torque of a gearmotor that is held fast at full stick, over what its gearbox bears.

    Worked out: the current of the stall from the rested battery through all wires, less the free current,
    times the torque for each ampere.

    Not covered: a blow from outside, and the energy of a moving mass that meets a stop.

    Source: the gearbox's sheet; the limit of the warning is a judgement.
    """
    return above(
        gearbox.gearbox_share,
        limits,
        "Held fast it gives {torque}, and its gearbox bears {borne}: a ratio of {value}, "
        "where the limit is {limit}.",
        torque=gearbox.stalled.held_torque,
        borne=gearbox.gearbox_limit,
    )
