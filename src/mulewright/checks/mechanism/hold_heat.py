"""Does holding a load up with the stick cook the motor?"""

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
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.hold_heat import HoldHeatFacts

LIFT = "mechanism.lift"


@check(
    "M08",
    on=HoldHeatFacts,
    severity=Severity.WARN,
    why="A motor that holds still turns all of its power into heat, and its winding cooks slowly.",
    seen="Motor smells while it holds a load still",
    symptom=Symptom.HOT,
    fixes=(
        "Take the weight off with a counterbalance.",
        "Fit a ratchet, or a gear that its load cannot turn.",
        "Put more reduction between motor and load.",
        "Set the load down instead of holding it.",
    ),
    levers=(
        "mechanism.*.counterbalance",
        "mechanism.*.counter_force",
        "mechanism.*.load",
        "mechanism.*.hold_time",
        "mechanism.*.ratchet",
        "motor.*.gears.*.ratio",
    ),
    limits=Limit("25 %", "ratio", mark="judgement"),
    also={"time": Limit("30 s", "time", mark="judgement")},
    examples=(
        Example("aisle-carrier", Outcome.PASS, LIFT),
        Example("aisle-carrier", Outcome.TRIP, LIFT, (f"{LIFT}.load=14 kg",)),
        Example("aisle-carrier", Outcome.PASS, LIFT, (f"{LIFT}.load=14 kg", f"{LIFT}.hold_time=10 s")),
        Example("aisle-carrier", Outcome.PASS, LIFT, (f"{LIFT}.load=14 kg", f"{LIFT}.ratchet=true")),
        Example("aisle-carrier", Outcome.CANNOT_TELL, LIFT, (f"{LIFT}.efficiency=?",)),
    ),
    flips=(Flip("aisle-carrier", LIFT, f"{LIFT}.load", "3 kg", "15 kg"),),
)
def cooks_while_it_holds(held: HoldHeatFacts, limits: Limits) -> Answer:
    """The heat of a winding while the stick holds the load, over its heat at the stall of the sheet.

    Worked out: the volts in the middle of the hold band balance the load; over the winding's resistance they
    give the current, and its square times the resistance the heat. What stays up by itself, by a ratchet or
    by a gear that its load cannot turn, needs none. It counts where it is held for more than half a minute;
    where no time is noted, a minute is assumed.

    Not covered: air that cools the motor, a winding that is warm already, brake mode that lets it sink slowly.

    Source: heat balance; share and time are judgements.
    """
    return together(
        above(
            held.hold_heat_share,
            limits,
            "The stick holds it with {current}: {heat} of heat, {value:%} of that of a stall, for {time}; "
            "the limit is {limit:%}.",
            current=held.hold_current,
            heat=held.hold_heat,
            time=held.hold_time,
        ),
        above(held.hold_time, {Severity.WARN: limits.also["time"]}, ""),
    )
