"""How much energy waits to be set free?"""

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
from mulewright.facts.loads import HeldFacts


@check(
    "X07",
    on=HeldFacts,
    severity=Severity.WARN,
    why="A raised load is a hammer over the hands that come under it.",
    seen="Load comes down when the power is taken away",
    symptom=Symptom.FALLS,
    fixes=(
        "Prop or pin it before hands go in.",
        "Lower it before anybody touches the machine.",
        "Keep hands out by a guard.",
    ),
    levers=("mechanism.*.load", "mechanism.*.travel", "mechanism.*.near_hands"),
    limits=Limit("5 J", "energy", mark="common practice"),
    examples=(
        Example("aisle-carrier", Outcome.TRIP, "mechanism.lift"),
        Example("aisle-carrier", Outcome.TRIP, "mechanism.lift", ("mechanism.lift.ratchet=true",)),
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift", ("mechanism.lift.travel=0.1 m",)),
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift", ("mechanism.lift.near_hands=false",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mechanism.lift", ("mechanism.lift.near_hands=?",)),
    ),
    flips=(Flip("aisle-carrier", "mechanism.lift", "mechanism.lift.travel", "0.05 m", "0.8 m"),),
)
def falls_on_hands(held: HeldFacts, limits: Limits) -> Answer:
    """The energy of a load at the top of its way where hands or feet come under it, ratchet or not.

    Worked out: mass times height; for a lift each stage by its own way, for an arm between the highest and
    the lowest point of its swing. A counterbalance is not taken off: its spring may be unhooked.

    Not covered: springs and ropes under tension, a load that rolls off by itself.

    Source: common practice, no source.
    """
    return together(
        above(
            held.energy,
            limits,
            "{value} are held up; the limit is {limit} where hands come under it.",
        ),
        flagged(held.over_hands, Severity.WARN, ""),
    )
