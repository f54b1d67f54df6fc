"""Does what lies between motor and load pass on what was worked out?"""

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
    below,
    check,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.hubs import HubFacts
from mulewright.facts.losses import LossFacts

ROUND = ("motor.lift.shaft=round", "motor.lift.shaft_diameter=6 mm")


@check(
    "M14",
    on=LossFacts,
    severity=Severity.NOTE,
    why="The margin that the sums promise is not there.",
    seen="The lift that works on paper stalls on the bench",
    symptom=Symptom.ON_PAPER,
    fixes=(
        "Type what is lost: a stage of spur gears, chain or belt passes 0.95, a planetary stage 0.9, a worm "
        "0.3 to 0.6, a screw 0.2 to 0.5, a rope over pulleys 0.9.",
        "Measure volts and amperes while a known weight rises.",
    ),
    levers=("mechanism.*.efficiency", "motor.*.gears.*.efficiency"),
    limits=Limit("1 %", "percent", mark="judgement"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift"),
        Example("aisle-carrier", Outcome.TRIP, "mechanism.lift", ("mechanism.lift.efficiency=1",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mechanism.lift", ("mechanism.lift.efficiency=?",)),
        Example("log-winch", Outcome.TRIP, "mechanism.winch", ("mechanism.winch.efficiency=1",)),
        Example("leaf-sweeper", Outcome.PASS, "motor.roller.gears.0"),
        Example(
            "leaf-sweeper",
            Outcome.TRIP,
            "motor.roller.gears.0",
            ("motor.roller.gears=[{kind='belt', ratio=3, efficiency=1}]",),
        ),
    ),
    flips=(Flip("aisle-carrier", "mechanism.lift", "mechanism.lift.efficiency", "0.9", "1.0"),),
)
def nothing_is_lost_on_paper(place: LossFacts, limits: Limits) -> Answer:
    """The share of the power that a gear stage, or the rope of a lift or a winch, loses by what was typed.

    Worked out: what was typed, taken from one; for a gear stage whose kind is noted and whose efficiency is
    not, the usual loss of its kind is assumed.

    Not covered: whether a loss that was typed is true; rollers and wheels straight on a shaft.

    Source: judgement; nothing that moves passes on all.
    """
    return below(
        place.lost_share,
        limits,
        "On paper it loses {value:%} of the power; less than {limit:%} is not believed.",
    )


@check(
    "M16",
    on=HubFacts,
    severity=Severity.WARN,
    why="The motor turns and what it should turn does not, and the screw scores the shaft.",
    seen="Motor turns, but the arm, wheel or drum does not",
    symptom=Symptom.STILL,
    fixes=(
        "File a flat under the set screw.",
        "Take a shaft with a flat, a key or a pin.",
        "Clamp the hub around the shaft.",
    ),
    levers=("motor.*.shaft", "motor.*.shaft_diameter", "motor.*.set_screw_force", "motor.*.gears.*.ratio"),
    limits=Limit(1.5, "ratio", mark="common practice"),
    examples=(
        Example("aisle-carrier", Outcome.NOT_APPLICABLE, "motor.lift"),
        Example("aisle-carrier", Outcome.TRIP, "motor.lift", ROUND),
        Example("aisle-carrier", Outcome.PASS, "motor.lift", (*ROUND, "motor.lift.set_screw_force=3 kN")),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "motor.lift", ("motor.lift.shaft=?",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "motor.lift", ("motor.lift.shaft=round",)),
    ),
    flips=(
        Flip("aisle-carrier", "motor.lift", "motor.lift.set_screw_force", "0.5 kN", "3 kN", ROUND),
        Flip("aisle-carrier", "motor.lift", "motor.lift.shaft_diameter", "4 mm", "12 mm", ROUND[:1]),
    ),
)
def hub_slips_on_its_shaft(hub: HubFacts, limits: Limits) -> Answer:
    """The torque at which a hub slips on its shaft, over the torque that it has to carry.

    Worked out: on a round shaft, friction times the force of the set screws times the radius. It has to carry
    what was noted; or what its load asks of the motor, what makes its wheel slip, or else the torque of the
    motor held fast. Where a flat, a key, a pin or a spline carries the torque, nothing is asked.

    Not covered: screws that work loose, hubs that are clamped or glued, shafts that shear.

    Source: dry friction; the force of a screw and its friction vary widely, so try it by hand.
    """
    if hub.carried:
        return NotApplicable(hub.carried)
    return below(
        hub.hub_reserve,
        limits,
        "Its set screws slip on the round shaft at {grip}, {value} times the {load} that the hub has to carry; "
        "{limit} times is expected.",
        grip=hub.hub_grip,
        load=hub.hub_load,
    )
