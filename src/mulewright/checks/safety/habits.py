"""Which precautions are not ticked?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Limits, Outcome, Severity, check, lacking
from mulewright.checks.symptoms import Symptom
from mulewright.facts.checklist import ChecklistFacts, DressFacts, MountFacts


@check(
    "X12",
    on=ChecklistFacts,
    severity=Severity.STOP,
    why="Nobody knows yet which way its wheels turn, and it jumps off the table.",
    seen="Jumps off the table at first power",
    symptom=Symptom.BY_ITSELF,
    fixes=("Put it on blocks and prop its arms for the first power, and tick it.",),
    levers=("checklist.wheels_up",),
    examples=(
        Example("tray-cart", Outcome.PASS, "checklist"),
        Example("tray-cart", Outcome.TRIP, "checklist", ("checklist.wheels_up=?",)),
        Example("tray-cart", Outcome.TRIP, "checklist", ("checklist.wheels_up=false",)),
    ),
)
def wheels_down_at_first_power(checklist: ChecklistFacts, limits: Limits) -> Answer:
    """Whether the first power with the wheels up is ticked.

    Worked out: nothing; it is a record.

    Not covered: every later power after a change of plugs.

    Source: common practice, no source.
    """
    return lacking(checklist.wheels_up, Severity.STOP, "{tick}.", tick=checklist.said("wheels_up"))


@check(
    "X13",
    on=DressFacts,
    severity=Severity.STOP,
    why="Hair and lanyards are wound up once, and eyes are hit once.",
    seen="Nothing shows until hair, a sleeve or an eye is caught",
    fixes=(
        "Tie hair, roll up sleeves, take off lanyards and gloves, and tick it.",
        "Put on eye protection, and tick it.",
    ),
    levers=("checklist.hair_and_sleeves", "checklist.eyes"),
    examples=(
        Example("log-winch", Outcome.TRIP, "checklist"),
        Example("log-winch", Outcome.TRIP, "checklist", ("checklist.hair_and_sleeves=true",)),
        Example(
            "log-winch", Outcome.PASS, "checklist", ("checklist.hair_and_sleeves=true", "checklist.eyes=true")
        ),
    ),
)
def dressed_to_be_caught(dress: DressFacts, limits: Limits) -> Answer:
    """Whether hair, sleeves and eyes are ticked where a flywheel, a rope, a spring or a chain is on the mule.

    Worked out: flywheels, lifts, winches and counterbalances ask for both ticks, chains and belts for the
    first.

    Not covered: people who stand by.

    Source: common practice, no source.
    """
    return lacking(
        dress.dressed,
        Severity.STOP,
        "{tied}; {eyes}. On it: {things}.",
        tied=dress.said("hair_and_sleeves"),
        eyes=dress.said("eyes"),
        things=dress.because,
    )


@check(
    "X14",
    on=MountFacts,
    severity=Severity.STOP,
    why="A pack that slides onto a screw end burns.",
    seen="Pack slides about while it drives",
    symptom=Symptom.FALLS,
    fixes=("Strap the pack, pad every edge near it, and tick it.",),
    levers=("checklist.battery_strapped", "battery.*.retained"),
    examples=(
        Example("tray-cart", Outcome.PASS, "battery.main"),
        Example("tray-cart", Outcome.TRIP, "battery.main", ("checklist.battery_strapped=?",)),
        Example("tray-cart", Outcome.TRIP, "battery.main", ("battery.main.retained=false",)),
        Example(
            "tray-cart",
            Outcome.PASS,
            "battery.main",
            ("checklist.battery_strapped=?", "battery.main.retained=true"),
        ),
    ),
)
def pack_lies_loose(pack: MountFacts, limits: Limits) -> Answer:
    """Whether it is noted or ticked that a pack is held and that no sharp edge is near it.

    Worked out: nothing; it is a record. What is noted of the pack itself goes before the tick.

    Not covered: whether the strap holds in a crash.

    Source: common practice, no source.
    """
    return lacking(pack.strapped, Severity.STOP, "About how the pack is held: {note}.", note=pack.mount_note)
