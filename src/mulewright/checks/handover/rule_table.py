"""Does the target fit the rule table that the user typed?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Flip,
    Limits,
    NotApplicable,
    Outcome,
    Severity,
    above,
    below,
    check,
    either,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.handover_rules import RuleFacts

BENCHES, TARGET = "two-benches", "two-benches/target.toml"
MOTORS, FUSE = "rules.rule.0", "rules.rule.1@fuse.main"
ONLY_SLOW = ('target:rules.rule.0.parts=["gm-slow"]', "target:rules.rule.0.most=?")
LEAST = ("target:rules.rule.1.least=25 A", "target:rules.rule.1.limit=?")


@check(
    "H07",
    on=RuleFacts,
    severity=Severity.STOP,
    why="A part that is not in the table is found at the acceptance, when there is no time left.",
    seen="At the acceptance a part is not in the table",
    symptom=Symptom.ON_PAPER,
    fixes=("Put in a part that the table lists.", "Ask whoever keeps the table, and type in the answer."),
    levers=("target:motor.*.part", "target:fuse.*.rating", "target:wire.*.gauge", "target:body.mass"),
    examples=(
        Example(BENCHES, Outcome.TRIP, FUSE, target=TARGET),
        Example(BENCHES, Outcome.PASS, FUSE, ("target:fuse.main.rating=20 A",), target=TARGET),
        Example(BENCHES, Outcome.CANNOT_TELL, FUSE, ("target:fuse.main.rating=?",), target=TARGET),
        Example(BENCHES, Outcome.PASS, FUSE, LEAST, target=TARGET),
        Example(BENCHES, Outcome.TRIP, FUSE, (*LEAST, "target:fuse.main.rating=20 A"), target=TARGET),
        Example(BENCHES, Outcome.PASS, MOTORS, target=TARGET),
        Example(BENCHES, Outcome.TRIP, MOTORS, ("target:rules.rule.0.most=4",), target=TARGET),
        Example(BENCHES, Outcome.TRIP, MOTORS, ONLY_SLOW, target=TARGET),
        Example(BENCHES, Outcome.CANNOT_TELL, MOTORS, ("target:motor.lift.part=?",), target=TARGET),
        Example(
            BENCHES,
            Outcome.NOT_APPLICABLE,
            MOTORS,
            ("target:rules.rule.0.most=?", "target:rules.rule.0.parts=?"),
            target=TARGET,
        ),
    ),
    flips=(Flip(BENCHES, FUSE, "target:fuse.main.rating", "5 A", "40 A", target=TARGET),),
)
def outside_the_rule_table(rule: RuleFacts, limits: Limits) -> Answer:
    """Kind, number and values of the target's parts, against the rule table that the user typed.

    Worked out: looked up in the table of the target's file, or of the mule's where the target's has none. The
    program ships no table and knows no rules.

    Not covered: rules in words alone, and whether the table is still the valid one.

    Source: the user's own table, with its day.
    """
    asked = []
    if rule.thing and (most := rule.bound(rule.rule.limit)) is not None:
        what = "{thing} has {value}, and the rule says at most {limit}: {note}."
        asked.append(above(rule.value, {Severity.STOP: most}, what, thing=rule.thing, note=rule.note))
    if rule.thing and (least := rule.bound(rule.rule.least)) is not None:
        what = "{thing} has {value}, and the rule says at least {limit}: {note}."
        asked.append(below(rule.value, {Severity.STOP: least}, what, thing=rule.thing, note=rule.note))
    if not rule.thing and rule.most is not None:
        what = "There are {value}, and the rule says at most {limit}: {note}."
        asked.append(above(rule.count, {Severity.STOP: rule.most}, what, note=rule.note))
    if not rule.thing and rule.rule.parts is not None:
        what = "{value} are not on the list ({found}): {note}."
        found = ", ".join(rule.unlisted) or "none"
        asked.append(above(rule.unlisted_count, {Severity.STOP: 0}, what, found=found, note=rule.note))
    return either(*asked) if asked else NotApplicable(f"nothing in it can be looked up: {rule.note}")
