"""What does each check say about itself? Its page, its limits, its examples, by family and by symptom."""

from __future__ import annotations

import inspect
import re
from collections.abc import Iterator

from docs._ext.markdown import code, listed, plain, table
from mulewright.checks import CHECKS, FAMILIES
from mulewright.checks.engine import Check, Example, Outcome
from mulewright.checks.symptoms import Symptom

LABEL = re.compile(r"^(Worked out|Not covered|Source):")
ANSWERS = {
    Outcome.TRIP: "trips",
    Outcome.PASS: "passes",
    Outcome.CANNOT_TELL: "cannot tell",
    Outcome.NOT_APPLICABLE: "does not apply",
}


def of_family(letter: str) -> list[Check]:
    """The checks of one family, in the order of their ids."""
    return [rule for id, rule in CHECKS.items() if id.startswith(letter)]


def overview() -> str:
    """Write one line for each check."""
    rows = (
        (link(rule), code(rule.name), rule.severity.name, plain(rule.on.kind), plain(rule.compares))
        for rule in CHECKS.values()
    )
    return table(("id", "name", "severity", "about each", "what it compares"), rows)


def symptoms() -> str:
    """Write what one sees at the bench, kind by kind, each line with the check that it leads to."""
    pieces = []
    for symptom in Symptom:
        found = sorted((rule.seen, link(rule)) for rule in CHECKS.values() if rule.symptom is symptom)
        lines = "\n".join(f"- {plain(seen)}: {to}" for seen, to in found)
        pieces += [f"## {symptom}", lines or "This version has no check for it."]
    return "\n\n".join(pieces)


def family(letter: str) -> str:
    """Write the pages of the checks of one family."""
    found = of_family(letter)
    if not found:
        return "This version has no check of this family."
    return "\n\n".join(piece for rule in found for piece in page(rule))


def page(rule: Check) -> Iterator[str]:
    """Write one check: what it compares, why, what to do, its limits, its examples."""
    yield f"(check-{rule.id.lower()})="
    yield f"## {rule.id} {rule.name}"
    yield f"**{rule.severity.name}**, about each {plain(rule.on.kind)}; {rule.status} since {rule.since}."
    yield plain(rule.compares)
    yield f"**At the bench:** {plain(rule.seen)}."
    yield f"**Why it matters:** {plain(rule.why)}"
    yield "**What to do:**"
    yield "\n".join(f"- {plain(fix)}" for fix in rule.fixes)
    yield from (LABEL.sub(r"**\1:**", plain(text)) for text in paragraphs(rule)[1:])
    if rule.follows:
        yield f"**Follows from:** {', '.join(link(CHECKS[id]) for id in rule.follows if id in CHECKS)}."
    if rule.limits:
        rows = [
            (level.name, code(str(one.text)), plain(one.mark), plain(one.source))
            for level, one in sorted(rule.limits.items(), reverse=True)
        ]
        rows += [
            (code(f"also.{name}"), code(str(one.text)), plain(one.mark), plain(one.source))
            for name, one in rule.also.items()
        ]
        yield table(("at this level", "limit", "mark", "source"), rows)
    if rule.levers:
        yield f"**What can move it:** {listed(rule.levers)}."
    if rule.examples:
        yield "**Tried on the examples:**"
        yield table(("mule", "with", "answer", "about"), map(example, rule.examples))


def example(one: Example) -> tuple[str, str, str, str]:
    """Say what an example changes and what the check then answers."""
    changes = [f"the target {code(one.target)}"] if one.target else []
    changes += [f"the variant {code(one.variant)}"] if one.variant else []
    changes += map(code, one.sets)
    answer = ANSWERS[one.outcome] + (f" ({one.severity.name})" if one.severity else "")
    return plain(one.design), ", ".join(changes) or "as shipped", answer, code(one.entity or "the mule")


def paragraphs(rule: Check) -> list[str]:
    """The paragraphs of a check's docstring."""
    return [" ".join(block.split()) for block in inspect.cleandoc(rule.page).split("\n\n")]


def link(rule: Check) -> str:
    """Lead to the page of a check."""
    return f"[{rule.id}](#check-{rule.id.lower()})"


def families() -> str:
    """Write each family with the number of its checks."""
    rows = [
        (f"[]({name}.md)", letter, str(len(of_family(letter))))
        for letter, name in FAMILIES.items()
        if of_family(letter)
    ]
    return table(("family", "letter", "checks"), rows)
