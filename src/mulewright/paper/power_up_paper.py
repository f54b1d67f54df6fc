"""The first power-up on paper: a box for each thing to do, and room for what the meter showed."""

from __future__ import annotations

from collections.abc import Iterator

from mulewright.advice.cautions import cautions
from mulewright.advice.power_up.bench import wire_words
from mulewright.advice.power_up.build import power_up
from mulewright.advice.power_up.plan import Plan, Reading, Step
from mulewright.advice.power_up.words import band_words, limit_words, outside
from mulewright.advice.spoken import listed
from mulewright.facts.graph import Evaluation
from mulewright.paper.blocks import Block, Grid, Paper, Ticks, Width, Words
from mulewright.shelf.power_up import stages

COLUMNS = ("read", "with", "expected", "seen")
WIDTHS: tuple[Width, ...] = (1.0, "fit", "fit", 0.35)


def power_up_paper(evaluation: Evaluation, *, supply: bool = False, tester: bool = False) -> Paper:
    """The plan of a mule's first power-up, to be ticked and filled in at the bench."""
    plan = power_up(evaluation, supply=supply, tester=tester)
    blocks: list[Block] = [*(Words(text, "warning") for text in cautions(evaluation.mule)), *_open(plan)]
    if plan.order:
        blocks += [
            Words("In this order", "heading"),
            Grid(("function", "why there"), [[thing, because] for thing, because in plan.order]),
        ]
    explained: set[str] = set()
    stage = -1
    for step in plan.steps:
        if step.stage != stage:
            stage = step.stage
            blocks.append(Words(stages()[stage], "heading"))
        blocks += _step(step, explained)
    if plan.unproven:
        blocks.append(Words("What the tester cannot prove", "heading"))
        blocks.append(Ticks([(line, "") for line in plan.unproven]))
    blocks.append(Words("Date, who, and what was odd: ____________________________________________", "small"))
    what_for = f"Step by step in the order that risks least, on the {plan.mode}: {plan.mode_why}."
    return Paper("power-up", "First power-up", what_for, blocks)


def _open(plan: Plan) -> Iterator[Block]:
    if not plan.open_checks:
        return
    yield Words("Open checks that say: do not connect the battery", "heading")
    rows = [
        [
            f"{one.verdict.check.id} {one.verdict.entity}",
            one.verdict.what,
            f"settled by {one.settled_by}"
            if one.settled_by
            else ", ".join(str(number) for number in one.waits),
        ]
        for one in plan.open_checks
    ]
    yield Grid(("check", "what", "these steps wait"), rows, ("fit", 1.0, 0.3), marked=list(range(len(rows))))


def _step(step: Step, explained: set[str]) -> Iterator[Block]:
    wires = f" ({wire_words(step.wires)})" if 0 < len(step.wires) <= 4 else ""
    yield Words(f"{step.number}. {step.title}{wires}", "heading")
    if step.waits:
        yield Words(f"Wait for {listed(step.waits)}.", "warning")
    for mind in step.minds:
        yield Words(mind, "warning")
    if step.limit is not None:
        yield Words(f"Limit: {limit_words(step.limit)}.")
    if step.do:
        yield Ticks([(line, "") for line in step.do])
    if step.readings:
        yield Grid(COLUMNS, [_row(one) for one in step.readings], WIDTHS, strong=(2,))
    for line in _outside(step, explained):
        yield Words(line, "small")
    settles = f" Settles {', '.join(step.settles)}." if step.settles else ""
    writes = "".join(f" {path} = ______" for path in step.writes)
    yield Words(f"Then {step.then}.{settles}{f' Write down:{writes}' if writes else ''}", "small")


def _row(reading: Reading) -> list[str]:
    return [reading.what, reading.instrument, band_words(reading.band), ""]


def _outside(step: Step, explained: set[str]) -> Iterator[str]:
    """What to do outside the bands, told at the first step that has such a reading."""
    for reading in step.readings:
        if reading.word not in explained and reading.band.known:
            explained.add(reading.word)
            if said := outside(reading):
                yield "  ".join(f"{label}: {text}" for label, text in said)
