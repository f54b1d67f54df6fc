"""Does a switch on a motor have an off, and does it step gently?"""

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
    flagged,
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.switched import ThreePositionFacts, TwoPositionFacts

BOTH_ENDS = 'radio.control.SW2.positions=["-100 %", "100 %"]'
THREE = (
    "radio.control.SW2.position_count=3",
    'radio.control.SW2.positions=["-100 %", "0 %", "100 %"]',
)


@check(
    "S13",
    on=TwoPositionFacts,
    severity=Severity.BLOCK,
    why="The motor has no off: it runs the moment the power comes on, and the switch only reverses it.",
    seen="Motor runs whichever way the switch stands",
    symptom=Symptom.BY_ITSELF,
    fixes=(
        "Take a switch of three positions.",
        "Set the endpoint of one side to 0 %, so that one position is neutral.",
        "Move the function to a sprung stick axis.",
    ),
    levers=("radio.control.*.positions", "radio.channel.*.travel_minus"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "controller.pump"),
        Example("aisle-carrier", Outcome.TRIP, "controller.pump", (BOTH_ENDS,), Severity.BLOCK),
        Example(
            "aisle-carrier", Outcome.PASS, "controller.pump", (BOTH_ENDS, "radio.channel.6.travel_minus=0 %")
        ),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "controller.pump", ("radio.control.SW2.positions=?",)),
        Example("aisle-carrier", Outcome.TRIP, "controller.pump", ("radio.channel.6.sub_trim=40 us",)),
    ),
    flips=(Flip("aisle-carrier", "controller.pump", "radio.channel.6.sub_trim", "0 us", "60 us"),),
)
def switch_without_off(motor: TwoPositionFacts, limits: Limits) -> Answer:
    """The pulses of a two-position switch, against the dead band of the reversing controller behind it.

    Worked out: what each position commands times the reach of the channel on that side, plus trims, as a
    distance from the controller's neutral; the nearest position counts, and half the dead band is the limit.

    Not covered: a controller that takes the pulse at switch-on as neutral.

    Source: the controller's sheet.
    """
    return above(
        motor.switched.nearest,
        {Severity.BLOCK: motor.switched.signal.dead_band},
        "The nearest position of {name} is {value} from neutral; off is within {limit}.",
        name=motor.switched.switch.name,
    )


@check(
    "S14",
    on=ThreePositionFacts,
    severity=Severity.WARN,
    why="The switch steps at once, so every start is a stall and a pass through the middle a reversal.",
    seen="Jerks when the switch is moved",
    symptom=Symptom.COARSE,
    fixes=(
        "Lower the endpoints of its channel to 50 to 60 %.",
        "Slow the channel down, if the radio can.",
        "Move the function to a stick axis.",
    ),
    levers=("radio.channel.*.travel", "radio.channel.*.slow"),
    limits=Limit("50 %", "percent", mark="judgement"),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "controller.pump", THREE, Severity.WARN),
        Example("aisle-carrier", Outcome.PASS, "controller.pump", (*THREE, "radio.channel.6.travel=60 %")),
        Example("aisle-carrier", Outcome.PASS, "controller.pump", (*THREE, "radio.channel.6.slow=1 s")),
        Example(
            "aisle-carrier", Outcome.CANNOT_TELL, "controller.pump", (*THREE, "controller.pump.dead_band=?")
        ),
    ),
    flips=(Flip("aisle-carrier", "controller.pump", "radio.channel.6.travel", "100 %", "20 %", sets=THREE),),
)
def switch_steps_hard(motor: ThreePositionFacts, limits: Limits) -> Answer:
    """The largest duty that a position of a three-position switch gives a motor at one step.

    Worked out: what each position commands, the channel's reach, and the duty that the controller makes of
    it. A channel that is slowed down does not step.

    Not covered: two-position switches, which step just as hard, and controllers that ramp by themselves.

    Source: common practice, no source; the threshold is a judgement.
    """
    return together(
        above(
            motor.switched.highest_duty,
            limits,
            "A position of {name} gives {value:%} of the supply at one step; {limit:%} is the most.",
            name=motor.switched.switch.name,
        ),
        flagged(motor.steps, Severity.WARN, ""),
    )
