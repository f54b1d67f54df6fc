"""What happens to a motor that is held against a stop?"""

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
    lacking,
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.stops import StopFacts


@check(
    "M10",
    on=StopFacts,
    severity=Severity.WARN,
    why="A thumb that stays on the stick burns the winding, and nobody sees it.",
    seen="Motor gets hot when it is held against its stop",
    symptom=Symptom.HOT,
    fixes=(
        "Fit a stop switch.",
        "Set the endpoint so low that the motor bears the stall.",
        "Put a slip clutch between motor and stop.",
    ),
    levers=("mechanism.*.stop_switch", "radio.channel.*.travel", "motor.*.part", "motor.*.copper_mass"),
    limits={
        Severity.STOP: Limit("5 s", "time", mark="common practice"),
        Severity.WARN: Limit("15 s", "time", mark="common practice"),
    },
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "motor.lift", (), Severity.WARN),
        Example("aisle-carrier", Outcome.TRIP, "motor.lift", ("motor.lift.copper_mass=8 g",), Severity.STOP),
        Example("aisle-carrier", Outcome.PASS, "motor.lift", ("mechanism.lift.stop_switch=true",)),
        Example("aisle-carrier", Outcome.PASS, "motor.lift", ("motor.lift.copper_mass=40 g",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "motor.lift", ("motor.lift.copper_mass=?",)),
    ),
    flips=(
        Flip("aisle-carrier", "motor.lift", "motor.lift.copper_mass", "15 g", "40 g"),
        Flip("aisle-carrier", "motor.lift", "radio.channel.3.travel", "50 %", "100 %"),
    ),
)
def burns_at_its_stop(motor: StopFacts, limits: Limits) -> Answer:
    """The time for which a motor without a stop switch bears a full stick against its stop.

    Worked out: the heat of the stall current from the rested battery, through all wires, into the copper of
    the winding, until it is 80 K hotter; no heat leaves it in that time.

    Not covered: a controller that limits its current by itself; a winding that is warm already.

    Source: heat balance; specific heat of copper 385 J/(kg K), handbook value. The times are common
    practice, no source.
    """
    return together(
        below(
            motor.stop_time,
            limits,
            "At its stop it takes {current}, and its winding is {rise} hotter after {value}; "
            "{limit} are wanted where no switch stops it.",
            current=motor.stop_current,
            rise=motor.allowed_rise,
        ),
        lacking(motor.stop_switch, Severity.WARN, ""),
    )
