"""Are the controls mixed once and whole: not twice, not by halves, in order, with a turn left over?"""

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
    flagged,
    lacking,
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.boxes import BoxFacts
from mulewright.facts.drive_mix import MixedDriveFacts, WheelSignalFacts
from mulewright.facts.mixes import MixFacts

NO_MIX = ("radio.mix.0.active=false",)
HALF_MIXED = ("controller.right.signal=receiver.3",)


@check(
    "S17",
    on=MixFacts,
    severity=Severity.WARN,
    why="In the slow position the machine changes its character, and one movement takes over.",
    seen="Turns much more than it drives in slow mode",
    symptom=Symptom.WRONG,
    fixes=(
        "Let the rate switch reach every control that enters the mix.",
        "Give the control that it does not reach the same rate for good.",
        "Move that control to an axis that the switch reaches.",
    ),
    levers=("radio.rate.covers", "radio.part", "radio.rate.slow", "radio.control.*.rate"),
    limits=Limit(1.25, "ratio", mark="judgement"),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "mixer.drive", severity=Severity.WARN),
        Example("aisle-carrier", Outcome.PASS, "mixer.drive", ('radio.rate.covers=["RV", "RH", "LH"]',)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mixer.drive", ("radio.rate.slow=?",)),
        Example("tray-cart", Outcome.PASS, "radio.mix.0"),
    ),
    flips=(Flip("aisle-carrier", "mixer.drive", "radio.rate.slow", "50 %", "100 %"),),
)
def slow_mode_covers_part_of_a_mix(mix: MixFacts, limits: Limits) -> Answer:
    """The rates of the controls that enter one mix while the rate switch stands at slow.

    Worked out: the slow rate for controls that the switch reaches, the rate in force for the others; largest
    over smallest. A switch that reaches all of them or none changes nothing between them.

    Not covered: rates that already differ with the switch at fast, which may be meant.

    Source: common practice, no source; the threshold is a judgement.
    """
    return above(
        mix.slow_ratio,
        limits,
        "Largest over smallest rate at slow: {value}, at most {limit}; the switch reaches {reached}.",
        reached=mix.reached,
    )


@check(
    "S20",
    on=BoxFacts,
    severity=Severity.STOP,
    why="Mixed twice, each control moves one side alone, which looks exactly like no mix at all.",
    seen="Each stick moves one side only, although a mix is on",
    symptom=Symptom.WRONG,
    fixes=(
        "Switch the mix in the radio off and push again.",
        "Or take the box out and plug the controllers into the receiver.",
    ),
    levers=("radio.mix.*.active",),
    examples=(
        Example("hose-tug", Outcome.TRIP, "mixer.tug", severity=Severity.STOP),
        Example("hose-tug", Outcome.PASS, "mixer.tug", variant="radio-mix-off"),
        Example("hose-tug", Outcome.CANNOT_TELL, "mixer.tug", ("radio.mix.0.active=?",)),
        Example("aisle-carrier", Outcome.PASS, "mixer.drive"),
    ),
)
def mixed_twice(box: BoxFacts, limits: Limits) -> Answer:
    """Whether a radio mix acts on the two channels that feed a mixer box.

    Worked out: the sockets at which the inputs of the box are plugged, against the channels of each mix that
    is switched on. Sum and difference taken twice give twice what went in, so full speed comes at half stick.

    Not covered: a controller that mixes by itself.

    Source: the matrix of the two-side mix squared is twice the unit matrix.
    """
    return flagged(box.mixed_twice, Severity.STOP, "In front of this box, {twice}.", twice=box.twice)


@check(
    "S21",
    on=MixedDriveFacts,
    severity=Severity.STOP,
    why="One stick then moves one side alone, and the mule pivots where it should drive straight.",
    seen="Forward turns one wheel only, and steering the other one",
    symptom=Symptom.WRONG,
    fixes=(
        "Switch a mix on, once: in the radio or with a box.",
        "Or call it a drive of two sticks, one for each side, if that is meant.",
    ),
    levers=("radio.mix.*.active", "drive.kind"),
    examples=(
        Example("tray-cart", Outcome.PASS, "drive"),
        Example("tray-cart", Outcome.TRIP, "drive", NO_MIX, severity=Severity.STOP),
        Example("tray-cart", Outcome.PASS, "drive", HALF_MIXED),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", ("controller.left.signal=?",)),
    ),
)
def not_mixed(drive: MixedDriveFacts, limits: Limits) -> Answer:
    """How many wheels of a one-stick drive follow more than one of its commands: none of them.

    Worked out: every wheel's signal is followed back through boxes and mixes to the controls.

    Not covered: a controller that mixes by itself.

    Source: common practice, no source.
    """
    return below(
        drive.mixed_wheels,
        {Severity.STOP: 0.5},
        "{value} of {count} wheels follow more than one command: {followed}.",
        count=drive.wheel_count,
        followed=drive.followed,
    )


@check(
    "S22",
    on=MixedDriveFacts,
    severity=Severity.STOP,
    why="One wheel obeys two sticks and the other one, so no push drives it straight.",
    seen="One wheel follows two sticks, and the other only one",
    symptom=Symptom.WRONG,
    fixes=(
        "Move the plug of the wheel that follows one command to the other channel of the mix.",
        "Or let the mix act on the channels at which the wheels are plugged.",
    ),
    levers=("controller.*.signal", "radio.mix.*.channels"),
    examples=(
        Example("tray-cart", Outcome.PASS, "drive"),
        Example("tray-cart", Outcome.TRIP, "drive", HALF_MIXED, severity=Severity.STOP),
        Example("tray-cart", Outcome.PASS, "drive", NO_MIX),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", ("controller.left.signal=?",)),
    ),
)
def half_mixed(drive: MixedDriveFacts, limits: Limits) -> Answer:
    """How many wheels follow more than one command of the drive: some, but not all of them.

    Worked out: every wheel's signal is followed back through boxes and mixes to the controls.

    Not covered: a mix whose two shares differ.

    Source: common practice, no source.
    """
    return together(
        above(
            drive.mixed_wheels,
            {Severity.STOP: 0.5},
            "{value} of {count} wheels follow more than one command: {followed}.",
            count=drive.wheel_count,
            followed=drive.followed,
        ),
        below(drive.mixed_share, {Severity.STOP: 1.0}, ""),
    )


@check(
    "S23",
    on=MixFacts,
    severity=Severity.NOTE,
    why="At full speed there is less turn than at a crawl, and the driver finds out in a bend.",
    seen="Hardly steers at full speed",
    symptom=Symptom.COARSE,
    fixes=(
        "Lower the rates or the shares until those of forward and turn add up to 100 %.",
        "Or accept it, and slow down before a bend.",
    ),
    levers=("radio.control.*.rate", "radio.mix.*.forward_weight", "radio.mix.*.turn_weight"),
    limits={
        Severity.NOTE: Limit("99.9 %", "percent", mark="judgement"),
        Severity.WARN: Limit("50 %", "percent", mark="judgement"),
    },
    follows=("S20",),
    examples=(
        Example("tray-cart", Outcome.TRIP, "radio.mix.0", severity=Severity.NOTE),
        Example(
            "tray-cart", Outcome.TRIP, "radio.mix.0", ("radio.mix.0.forward_weight=125 %",), Severity.WARN
        ),
        Example(
            "tray-cart",
            Outcome.PASS,
            "radio.mix.0",
            ("radio.control.RV.rate=60 %", "radio.control.RH.rate=40 %"),
        ),
        Example("tray-cart", Outcome.CANNOT_TELL, "radio.mix.0", ("radio.control.RV.rate=?",)),
        Example("aisle-carrier", Outcome.TRIP, "mixer.drive", severity=Severity.NOTE),
        Example("hose-tug", Outcome.PASS, "mixer.tug", variant="radio-mix-off"),
    ),
    flips=(
        Flip(
            "tray-cart",
            "radio.mix.0",
            "radio.control.RV.rate",
            "100 %",
            "30 %",
            sets=("radio.control.RH.rate=40 %",),
        ),
    ),
)
def mix_clips(mix: MixFacts, limits: Limits) -> Answer:
    """What the controls together ask of an output, against all that it can give.

    Worked out: share times rate of every control, and for a box also its pulse over the box's range, added
    up; above 100 % an output is cut off. For two sides the number is the share of the turn that is left at
    full forward, (1 - forward + turn) / (2 turn). For four roller wheels it is the share of a wheel's command
    that is left with every control at an end, which is never more than noted.

    Not covered: mixes that shrink all outputs together instead of cutting one off.

    Source: worked out from the mix itself; the threshold of a warning is a judgement.
    """
    return below(
        mix.left,
        limits if mix.two_sides else {Severity.NOTE: limits[Severity.NOTE]},
        "With its controls at their ends the mix asks {asked:%} of an output; {value:%} of {rest} is left, "
        "{limit:%} is the least.",
        asked=mix.asked,
        rest="the turn at full forward" if mix.two_sides else "a wheel's command",
    )


@check(
    "S24",
    on=WheelSignalFacts,
    severity=Severity.WARN,
    why="The mule never reaches its speed, because the mix gives forward only a part of the range.",
    seen="Slow straight ahead with the stick right at its end",
    symptom=Symptom.WEAK,
    fixes=(
        "Raise the share of forward in the mix.",
        "Or raise the endpoints behind the mix, if the radio allows it.",
    ),
    levers=("radio.mix.*.forward_weight", "mixer.*.forward_weight", "radio.channel.*.travel"),
    limits=Limit("90 %", "percent", mark="judgement"),
    also={"mix": Limit("75 %", "percent", mark="judgement")},
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example("tray-cart", Outcome.TRIP, "controller.left", ("radio.mix.0.forward_weight=60 %",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("controller.left.dead_band=?",)),
        Example("aisle-carrier", Outcome.PASS, "controller.front_left"),
    ),
    flips=(
        Flip(
            "tray-cart",
            "controller.left",
            "radio.channel.others.travel",
            "125 %",
            "200 %",
            sets=("radio.mix.0.forward_weight=70 %",),
        ),
    ),
)
def mix_halves(wheel: WheelSignalFacts, limits: Limits) -> Answer:
    """The duty at full forward, where the mix lets through three quarters of forward or less.

    Worked out: the product of the shares on the way of the wheel's own command, and the duty that its
    controller makes of the pulse that is left.

    Not covered: a duty that is low for another reason, such as the radio's range (S01) or a rate.

    Source: common practice, no source; both thresholds are judgements.
    """
    return together(
        below(
            wheel.signal.full_duty,
            limits,
            "Full forward gives {value:%} of the supply, at least {limit:%} is expected; "
            "{mixes} lets {share:%} through.",
            mixes=wheel.mixes,
            share=wheel.mix_size,
        ),
        below(wheel.mix_size, {Severity.WARN: limits.also["mix"]}, ""),
    )


@check(
    "S43",
    on=BoxFacts,
    severity=Severity.STOP,
    why="The controls change places, and the stick that should strafe turns the mule.",
    seen="Turn stick drives sideways or ahead, and the others are exchanged too",
    symptom=Symptom.WRONG,
    fixes=(
        "Move the plugs at the inputs of the box to their own controls.",
        "Or let the controls command what their channels now do, and note it.",
    ),
    levers=("mixer.*.forward", "mixer.*.strafe", "mixer.*.turn"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "mixer.drive"),
        Example(
            "aisle-carrier",
            Outcome.TRIP,
            "mixer.drive",
            ("mixer.drive.strafe=receiver.4", "mixer.drive.turn=receiver.1"),
        ),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mixer.drive", ("mixer.drive.turn=?",)),
        Example("hose-tug", Outcome.PASS, "mixer.tug"),
        Example(
            "hose-tug",
            Outcome.PASS,
            "mixer.tug",
            ("radio.mix.0.active=false", "mixer.tug.forward=receiver.1", "mixer.tug.turn=receiver.2"),
        ),
    ),
)
def box_inputs_exchanged(box: BoxFacts, limits: Limits) -> Answer:
    """The controls that enter a mixer box, against the names of the inputs at which they are plugged.

    Worked out: each input is followed back to the receiver and the controls. Exchanged inputs pass where
    reversed leads or exchanged outputs make up for them on every wheel, as described.

    Not covered: a box whose inputs are named in another order than on its label.

    Source: common practice, no source.
    """
    return lacking(box.follows_controls, Severity.STOP, "What enters the box: {inputs}.", inputs=box.inputs)
