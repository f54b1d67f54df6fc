"""The first power-up on paper: a box for each thing to do, and room for what the meter showed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import groupby
from string import ascii_lowercase

from mulewright.advice.cautions import cautions
from mulewright.advice.power_up.bench import named, wire_words
from mulewright.advice.power_up.build import power_up
from mulewright.advice.power_up.plan import Plan, Step
from mulewright.advice.power_up.words import band_words, limit_words, outside, step_words, wait_words
from mulewright.design.mule import Mule
from mulewright.facts.graph import Evaluation
from mulewright.paper.blocks import Block, Grid, Paper, Ticks, Width, Words
from mulewright.paper.power_up_tables import (
    noted,
    reading_table,
    repeated,
    step_table,
    warned,
    with_instrument,
)
from mulewright.shelf.power_up import stages

ALIKE = "controller:"  # steps that are one table together
FEW = 4  # wires that find room in a heading
COLUMNS = ("read", "expected", "seen", "if not")
WIDTHS: tuple[Width, ...] = (5.0, "fit", 1.7, "fit")


def power_up_paper(evaluation: Evaluation) -> Paper:
    """The plan of a mule's first power-up, to be ticked and filled in at the bench."""
    return plan_paper(power_up(evaluation), evaluation.mule)


def plan_paper(plan: Plan, mule: Mule) -> Paper:
    """A plan that was made before, say for a bench supply."""
    letters = _letters(plan)
    blocks: list[Block] = [*_open(plan)]
    if plan.order:
        blocks += [
            Words("In this order", "heading"),
            Grid(("function", "why there"), [[thing, because] for thing, because in plan.order]),
        ]
    for stage, steps in groupby(plan.steps, key=lambda step: step.stage):
        blocks.append(Words(stages()[stage].upper(), "heading"))
        for alike, group in groupby(steps, key=lambda step: step.id.startswith(ALIKE)):
            same = list(group)
            if alike and len(same) > 1:
                blocks += step_table(same, letters)
            else:
                blocks += [block for step in same for block in _step(step, letters)]
    if plan.unproven:
        blocks.append(Words("What the tester cannot prove", "heading"))
        blocks.append(Ticks([(line, "") for line in plan.unproven]))
    blocks += [*_outside(plan, letters), Words("The usual cautions", "heading")]
    blocks.append(Words(" ".join(cautions(mule)), "small"))
    what_for = f"Step by step in the order that risks least, on the {plan.mode}: {plan.mode_why}."
    return Paper("power-up", "First power-up", what_for, blocks, dense=True)


def _open(plan: Plan) -> Iterator[Block]:
    if not plan.open_checks:
        return
    yield Words("Open checks that say: do not connect the battery", "heading")
    rows = [
        [
            one.verdict.check.id,
            named(one.about) if one.about else "as a whole",
            " ".join(one.says),
            f"step {one.settled_by} settles it" if one.settled_by else step_words(one.waits),
        ]
        for one in plan.open_checks
    ]
    yield Grid(
        ("check", "about", "says", "these wait"), rows, ("fit", 1.0, 1.4, 0.8), marked=list(range(len(rows)))
    )


def _step(step: Step, letters: Mapping[str, str]) -> Iterator[Block]:
    wires = f" ({wire_words(step.wires)})" if 0 < len(step.wires) <= FEW else ""
    yield Words(f"{step.number}. {step.title}{wires}", "heading", whole=True)
    yield from warned(step, f"Wait: {wait_words(step)}." if step.waits else "")
    if step.limit is not None:
        yield Words(f"Limit: {limit_words(step.limit)}.")
    if step.do:
        yield Ticks([(line, "") for line in step.do])
    often = repeated(step.readings)
    if often:
        yield from reading_table([(one.about, one) for one in often], letters, "at")
    rest = [one for one in step.readings if one not in often]
    if rest:
        rows = [
            [with_instrument(one, one.what), band_words(one.band), "", letters.get(one.word, "")]
            for one in rest
        ]
        yield Grid(COLUMNS, rows, WIDTHS, strong=(1,))
    yield Words(f"This shows: {step.then}.{noted(step)}", "small")


# --- outside the bands


def _letters(plan: Plan) -> dict[str, str]:
    """A letter for each kind of reading, under which the last table says what to do outside its band."""
    words = dict.fromkeys(one.word for one in plan.readings.values() if one.band.known and outside(one))
    return dict(zip(words, ascii_lowercase, strict=False))


def _outside(plan: Plan, letters: Mapping[str, str]) -> Iterator[Block]:
    told: dict[str, list[str]] = {}
    for one in plan.readings.values():
        if one.word in letters and one.band.known:
            said = told.setdefault(one.word, [])
            said += [line for label, text in outside(one) if (line := f"{label}: {text}") not in said]
    if told:
        yield Words("If a reading lies outside", "heading")
        rows = [[letters[word], " ".join(said)] for word, said in told.items()]
        yield Grid(("", "what to do"), rows, ("fit", 1.0), torn=True)
