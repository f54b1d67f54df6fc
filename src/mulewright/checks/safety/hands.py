"""What hurts a hand that comes near: what closes on it, and what burns it."""

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
    below,
    check,
    either,
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.pinching import PinchFacts
from mulewright.facts.surfaces import TouchableFacts


@check(
    "X09",
    on=PinchFacts,
    severity=Severity.WARN,
    why="Fingers in the gap are crushed, or caught before they are out.",
    seen="Jaw or linkage closes without a warning",
    symptom=Symptom.BY_ITSELF,
    fixes=("Put a guard over the gap.", "Lower the rate, or slow the channel.", "Keep a wider gap."),
    levers=("mechanism.*.closing_gap", "radio.channel.*.travel", "mechanism.*.near_hands"),
    limits=Limit("25 mm", "length", mark="common practice"),
    also={
        "force": Limit("50 N", "force", mark="common practice"),
        "speed": Limit("0.25 m/s", "speed", mark="common practice"),
    },
    examples=(
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift"),
        Example("aisle-carrier", Outcome.TRIP, "mechanism.lift", ("mechanism.lift.closing_gap=10 mm",)),
        Example("long-reach-pruner", Outcome.TRIP, "mechanism.arm", ("mechanism.arm.closing_gap=10 mm",)),
        Example(
            "seed-ball-thrower", Outcome.TRIP, "mechanism.feeder", ("mechanism.feeder.closing_gap=9 mm",)
        ),
        Example(
            "aisle-carrier",
            Outcome.PASS,
            "mechanism.lift",
            ("mechanism.lift.closing_gap=10 mm", "radio.channel.3.travel=35 %"),
        ),
        *(
            Example(
                "aisle-carrier",
                Outcome.TRIP,
                "mechanism.lift",
                ("mechanism.lift.closing_gap=10 mm", f"limits.X09={{ also = {{ {also} }} }}"),
            )
            for also in ("speed = '9 m/s'", "force = '5 kN', speed = '0.1 m/s'")
        ),
        Example("aisle-carrier", Outcome.NOT_APPLICABLE, "servo.tilt"),
        Example(
            "soft-fruit-gripper",
            Outcome.TRIP,
            "mechanism.gripper",
            ("mechanism.gripper.closing_gap=5 mm", "servo.*.transit=0.16 s/60deg"),
        ),
        Example("soft-fruit-gripper", Outcome.CANNOT_TELL, "mechanism.gripper"),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mechanism.lift", ("mechanism.lift.near_hands=?",)),
    ),
    flips=(Flip("aisle-carrier", "mechanism.lift", "mechanism.lift.closing_gap", "5 mm", "60 mm"),),
)
def closes_on_fingers(function: PinchFacts, limits: Limits) -> Answer:
    """The smallest gap that a function leaves where hands come near, and how hard or fast it closes.

    Worked out: force with the motor held fast at full stick on the rested battery, speed with nothing to
    move, both at the radius of jaw, drum, rim or load, if nothing were lost on the way. It trips where the
    gap becomes narrow and either of them is more than a finger bears.

    Not covered: gaps that nobody noted, sharp edges, clothes that are drawn in.

    Source: common practice, no source.
    """
    if not function.near_hands:
        return NotApplicable("it is noted that no hands come near it")
    narrow = below(
        function.closing_gap,
        limits,
        "It closes to {value} with up to {force} and {speed}; hands come near it, and {limit} is the limit.",
        force=function.closing_force,
        speed=function.closing_speed,
    )
    return either(
        together(narrow, above(function.closing_force, {Severity.WARN: limits.also["force"]}, "")),
        together(narrow, above(function.closing_speed, {Severity.WARN: limits.also["speed"]}, "")),
    )


@check(
    "X15",
    on=TouchableFacts,
    severity=Severity.WARN,
    why="Metal burns the skin from about 60 degrees Celsius.",
    seen="Too hot to touch",
    symptom=Symptom.HOT,
    fixes=(
        "Wait, or fan it, before anybody touches it.",
        "Put a label or a cover on it.",
        "Give it less to do: more ratio, a lower load, a heat sink, a fan.",
    ),
    levers=("body.touchable_hot", "motor.*.part", "mechanism.*.load", "mechanism.*.counterbalance"),
    limits=Limit("60 degC", "temperature", mark="common practice"),
    examples=(
        Example("long-reach-pruner", Outcome.TRIP, "motor.arm", ("body.touchable_hot=['motor.arm']",)),
        Example("tray-cart", Outcome.PASS, "motor.left", ("body.touchable_hot=['motor.left']",)),
        Example(
            "tray-cart",
            Outcome.PASS,
            "controller.left",
            ("body.touchable_hot=['controller.left']", "controller.left.resistance=10 mohm"),
        ),
        Example(
            "tray-cart",
            Outcome.TRIP,
            "controller.left",
            ("body.touchable_hot=['controller.left']", "controller.left.resistance=2 ohm"),
        ),
        Example("two-benches", Outcome.PASS, "regulator.servo", ("body.touchable_hot=['regulator.servo']",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "body", ("body.touchable_hot=?",)),
        Example(
            "tray-cart", Outcome.CANNOT_TELL, "controller.left", ("body.touchable_hot=['controller.left']",)
        ),
        Example("tray-cart", Outcome.CANNOT_TELL, "the sink", ("body.touchable_hot=['the sink']",)),
    ),
    flips=(
        Flip(
            "long-reach-pruner",
            "motor.arm",
            "mechanism.arm.load",
            "0 kg",
            "1 kg",
            ("body.touchable_hot=['motor.arm']", "mechanism.arm.lumps=[{mass='0.1 kg', at='0.1 m'}]"),
        ),
    ),
)
def burns_who_touches_it(part: TouchableFacts, limits: Limits) -> Answer:
    """The temperature of a hot part within reach after long steady work, against what skin bears.

    Worked out: heat from the current at steady work (load raised without a pause, steepest slope, rail at its
    average). For a motor that over what a motor of its mass sheds in still air, as a share of the rise of its
    case; for controllers and regulators the heat of power stage and regulator through the board's thermal
    resistance; all that above the air.

    Not covered: pauses, moving air, sun; what lies inside a closed box, where it becomes warmer.

    Source: common practice, no source; rise of a case and temperature of the air are judgements.
    """
    return above(
        part.touch_temperature,
        limits,
        "At steady work its surface comes to {value}, {rise} above the air; the limit is {limit}.",
        rise=part.touch_rise,
    )
