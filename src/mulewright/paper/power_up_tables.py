"""Readings that are alike of several things, and steps that are alike, as one table each."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from mulewright.advice.power_up.plan import Reading, Step
from mulewright.advice.power_up.words import band_words, limit_words, step_words, wait_words
from mulewright.advice.spoken import listed, spoken
from mulewright.paper.blocks import Block, Grid, Ticks, Width, Words

USUAL = ("multimeter", "eyes")  # instruments that need not be named
NONE = "-"


def repeated(readings: Sequence[Reading]) -> list[Reading]:
    """The readings that stand more than once in a step, of one thing after the other."""
    often = Counter(one.word for one in readings)
    return [one for one in readings if often[one.word] > 1 and one.about]


def with_instrument(reading: Reading, what: str) -> str:
    """What is read, and with what where that is not the usual meter."""
    return what if reading.instrument in USUAL else f"{what} ({reading.instrument})"


def noted(step: Step) -> str:
    """Which checks a step settles, and what it writes down."""
    settles = f" Settles {', '.join(step.settles)}." if step.settles else ""
    writes = "".join(f" {path} = ______" for path in step.writes)
    return f"{settles}{f' Write down:{writes}' if writes else ''}"


def reading_table(
    cells: Sequence[tuple[str, Reading]], letters: Mapping[str, str], first: str
) -> Iterator[Block]:
    """A row for each thing and a column for each kind of reading; a band that all share stands in the head."""
    words = list(dict.fromkeys(one.word for _, one in cells))
    rows: dict[str, dict[str, Reading]] = {}
    for label, one in cells:
        rows.setdefault(label, {})[one.word] = one
    columns, widths = [first], list[Width]([2.0])
    filled = [[label] for label in rows]
    strong, legend = list[int](), list[str]()
    for word in words:
        here = [row.get(word) for row in rows.values()]
        bands = {_short(one) for one in here if one is not None}
        some = next(one for one in here if one is not None)
        letter = f" ({letters[word]})" if word in letters else ""
        head = some.words.short or word.replace("_", " ")
        if len(bands) > 1:
            strong.append(len(columns))
            columns.append(f"{head}{letter}")
            widths.append("fit")
        columns.append("seen" if len(bands) > 1 else f"{head}{letter}: {next(iter(bands))}")
        widths.append(1.6 if len(bands) > 1 else 2.0)
        for row, cell in zip(filled, here, strict=True):
            if len(bands) > 1:
                row.append(NONE if cell is None else _short(cell))
            row.append(NONE if cell is None else "")
        told = with_instrument(some, some.each)
        legend.append(f"{head[:1].upper()}{head[1:]}: {told[:1].lower()}{told[1:]}{_bearers(here)}.")
    yield Words(" ".join(legend), "small")
    yield Grid(columns, filled, widths, strong=strong)


def _short(reading: Reading) -> str:
    """A band without what bears no more; the legend says that."""
    return band_words(replace(reading.band, bearer=""))


def _bearers(readings: Sequence[Reading | None]) -> str:
    """What keeps the bands down."""
    found = dict.fromkeys(one.band.bearer for one in readings if one is not None and one.band.bearer)
    return f"; {listed(found)} {'bears' if len(found) == 1 else 'bear'} no more" if found else ""


def warned(step: Step, wait: str) -> Iterator[Block]:
    """What a step waits for, and what has to be minded at it, in one box."""
    said = [*([wait] if wait else []), *step.minds]
    if said:
        yield Words(" ".join(f"{one.rstrip('.')}." for one in said), "warning")


def step_table(steps: Sequence[Step], letters: Mapping[str, str]) -> Iterator[Block]:
    """Steps that differ in little: what each does, and one table for what they read."""
    things = {step.number: spoken(step.id.split(":", 1)[1]) for step in steps}
    numbers = [step.number for step in steps]
    yield Words(f"{numbers[0]} to {numbers[-1]}. Each controller on its own", "heading", whole=True)
    waiting: dict[str, list[int]] = {}
    for step in steps:
        if step.waits:
            waiting.setdefault(wait_words(step), []).append(step.number)
        for mind in step.minds:
            yield Words(f"Step {step.number}: {mind}", "warning")
    for why, waits in waiting.items():
        yield Words(f"Wait, {step_words(waits)}: {why}.", "warning")
    shared = [line for line in steps[0].do if all(line in step.do for step in steps)]
    ticks = [f"{step.number}. {line}" for step in steps for line in step.do if line not in shared]
    yield Ticks([(line, "") for line in ticks])
    yield Words(f"Each time: {' '.join(shared)}")
    limits = [f"step {step.number} {limit_words(step.limit)}" for step in steps if step.limit is not None]
    if limits:
        yield Words(f"Limit: {'; '.join(limits)}.")
    cells = [(f"{step.number}. {things[step.number]}", one) for step in steps for one in step.readings]
    yield from reading_table(cells, letters, "step")
    then = dict.fromkeys(step.then.replace(things[step.number], "each") for step in steps)
    more = "".join(f" {step.number}.{text}" for step in steps if (text := noted(step)))
    yield Words(f"This shows: {'; '.join(then)}.{more}", "small")
