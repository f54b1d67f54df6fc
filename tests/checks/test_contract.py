"""What holds for every check: its page, its examples, where its verdict flips."""

from __future__ import annotations

import re

import pytest

from mulewright.checks import CHECKS
from mulewright.checks.engine import Check, Example, Flip, Outcome, Severity
from mulewright.checks.symptoms import Symptom
from tests.designs import evaluation, verdicts_on

CURES = ("avoid", "use", "check", "fit", "set", "add", "missing-check")
LONGEST_PHRASE = 90
each_check = pytest.mark.parametrize("rule", CHECKS.values(), ids=lambda rule: rule.id)
EXAMPLES = [(rule, example) for rule in CHECKS.values() for example in rule.examples]
FLIPS = [(rule, flip) for rule in CHECKS.values() for flip in rule.flips]


@each_check
def test_page_says_what_how_what_not_and_from_where(rule: Check) -> None:
    page = rule.page
    assert re.match(r"[A-Z]", page)
    for heading in ("Worked out:", "Not covered:", "Source:"):
        assert f"\n\n    {heading}" in page or f"\n\n{heading}" in page, heading


@each_check
def test_name_is_the_fault_and_why_is_one_sentence(rule: Check) -> None:
    assert rule.name.split("-")[0] not in CURES
    assert rule.why.endswith(".")
    assert len(re.findall(r"\.(?:\s|$)", rule.why)) == 1
    assert rule.fixes
    for fix in rule.fixes:
        assert fix.endswith("."), fix


@each_check
def test_what_is_seen_at_the_bench_is_a_short_phrase(rule: Check) -> None:
    assert re.match(r"[A-Z]", rule.seen)
    assert not rule.seen.endswith(".")
    assert len(rule.seen) <= LONGEST_PHRASE
    assert rule.seen.startswith("Nothing shows") == (rule.symptom is Symptom.NOTHING)


@each_check
def test_limits_carry_mark_and_source(rule: Check) -> None:
    for limit in rule.limits.values():
        assert limit.mark in ("published", "common practice", "judgement", "from memory")
        assert limit.source
        assert limit.quantity.value >= 0


@each_check
def test_examples_show_both_sides(rule: Check) -> None:
    outcomes = {example.outcome for example in rule.examples}
    assert Outcome.TRIP in outcomes
    assert outcomes & {Outcome.PASS, Outcome.NOT_APPLICABLE, Outcome.CANNOT_TELL}
    if rule.limits:
        assert rule.flips, "a numeric check says which input flips it"


@pytest.mark.parametrize(
    ("rule", "example"),
    EXAMPLES,
    ids=[f"{rule.id}-{e.design}-{e.outcome}-{i}" for i, (rule, e) in enumerate(EXAMPLES)],
)
def test_example(rule: Check, example: Example) -> None:
    on = evaluation(example.design, example.sets, example.variant, target=example.target)
    verdict = verdicts_on(on, rule.id)[example.entity]
    assert verdict.outcome is example.outcome, verdict.what
    assert verdict.what
    assert "{" not in verdict.what
    if example.severity is not None:
        assert verdict.severity is example.severity, verdict.what
    if verdict.outcome is Outcome.CANNOT_TELL:
        assert verdict.needs
    if verdict.outcome is Outcome.TRIP and rule.limits:
        assert re.search(r"\d", verdict.what), "no number in the message"


def split(text: str) -> tuple[float, str]:
    number, unit = re.fullmatch(r"([-+\d.]+)\s*(.*)", text, re.S).groups()  # type: ignore[union-attr]
    return float(number), unit


@pytest.mark.parametrize(("rule", "flip"), FLIPS, ids=[f"{rule.id}-{flip.path}" for rule, flip in FLIPS])
def test_verdict_flips_at_the_stated_limit(rule: Check, flip: Flip) -> None:
    (low, unit), (high, _) = split(flip.start), split(flip.stop)

    def at(number: float) -> tuple[bool, float, float]:
        sets = (*flip.sets, f"{flip.path}={number!r} {unit}")
        on = evaluation(flip.design, sets, target=flip.target)
        verdict = verdicts_on(on, rule.id)[flip.entity]
        assert verdict.outcome in (Outcome.TRIP, Outcome.PASS), verdict.what
        assert verdict.value is not None
        assert verdict.limit is not None
        return verdict.outcome is Outcome.TRIP, verdict.value, verdict.limit

    first = at(low)[0]
    assert at(high)[0] is not first, "the verdict is the same at both ends"
    for _ in range(14):
        middle = (low + high) / 2
        low, high = (middle, high) if at(middle)[0] is first else (low, middle)
    _, value, limit = at(low)
    assert value == pytest.approx(limit, rel=0.01), "flips elsewhere than at its limit"


def test_ids_sort_by_family_and_severities_have_words() -> None:
    families = [id[0] for id in CHECKS]
    assert families == sorted(families, key="SPMRXH".index)
    assert [severity.word for severity in Severity] == ["note", "warn", "stop", "block"]
