"""How does a first power-up read at the bench: the whole plan, or one reading at a time?"""

from __future__ import annotations

from textwrap import fill
from typing import TextIO

from rich.console import Console

from mulewright.advice.power_up.bench import named
from mulewright.advice.power_up.plan import Place, Plan, Reading, Step
from mulewright.advice.power_up.words import (
    band_words,
    limit_words,
    outside,
    source_words,
    step_words,
    wait_words,
    written,
)
from mulewright.advice.spoken import listed
from mulewright.checks.engine import Outcome
from mulewright.cli.console import WIDTH, console, labelled, paragraph
from mulewright.errors import MulewrightError, visible
from mulewright.shelf.power_up import stages
from mulewright.tasks.powering_up import GO_ON, PACKS, PowerUp, Walk
from mulewright.units.kinds import KINDS

BACK, ENDS = ("back", "b"), ("stop", "quit", "q")
HOW = "Type what the meter shows, with its unit; ? where you did not read it, back, or stop."


def print_plan(found: PowerUp) -> None:
    """Print the whole plan."""
    out, plan = console(), found.plan
    _print_head(out, found)
    explained: set[str] = set()
    stage = -1
    for step in plan.steps:
        if step.stage != stage:
            stage = step.stage
            out.print()
            paragraph(out, stages()[stage].upper(), style="bold")
        _print_step(out, step, explained)
    if plan.unproven:
        out.print()
        paragraph(out, "WHAT THE TESTER CANNOT PROVE", style="bold")
        for line in plan.unproven:
            labelled(out, "-", line, 2)
    out.print()
    for caution in found.cautions:
        paragraph(out, caution)


def _print_head(out: Console, found: PowerUp) -> None:
    plan = found.plan
    paragraph(out, f"{found.opened.name} ({found.where})", style="bold")
    paragraph(out, f"First power-up on the {plan.mode}: {plan.mode_why}.")
    _print_open(out, plan)
    if plan.order:
        out.print()
        paragraph(out, "IN THIS ORDER", style="bold")
        for thing, because in plan.order:
            paragraph(out, f"{thing}: {because}", 2)


def _print_open(out: Console, plan: Plan) -> None:
    if not plan.open_checks:
        return
    out.print()
    paragraph(out, "OPEN CHECKS THAT SAY: DO NOT CONNECT THE BATTERY", style="bold")
    for one in plan.open_checks:
        verdict = one.verdict
        about = named(one.about) if one.about else "as a whole"
        paragraph(out, f"{verdict.check.id} {verdict.check.name}: {about}", 2)
        labelled(out, "What", " ".join(one.says), 4)
        if verdict.outcome is Outcome.TRIP and verdict.check.fixes:
            labelled(out, "Do", " Or: ".join(verdict.check.fixes[:2]), 4)
        if one.settled_by is not None:
            labelled(out, "Then", f"Step {one.settled_by} settles it.", 4)
        if one.waits:
            labelled(out, "Wait", step_words(one.waits), 4)


def _print_step(out: Console, step: Step, explained: set[str]) -> None:
    paragraph(out, f"{step.number}. {step.title}", style="bold")
    if step.waits:
        labelled(out, "Wait", wait_words(step))
    for mind in step.minds:
        labelled(out, "Mind", mind)
    for line in step.do:
        labelled(out, "Do", line)
    if step.limit is not None:
        labelled(out, "Limit", limit_words(step.limit))
    for reading in step.readings:
        _print_reading(out, reading, explained)
    if step.wires and not any(f"wire{end}" in line for line in step.do for end in (" ", "s ")):
        labelled(out, "Wires", listed(str(number) for number in step.wires))
    labelled(out, "Shows", f"{step.then}.{_settled(step)}")


def _settled(step: Step) -> str:
    settles = f" Settles {', '.join(step.settles)}." if step.settles else ""
    return f"{settles} Write down {written(step.writes)}." if step.writes else settles


def _print_reading(out: Console, reading: Reading, explained: set[str]) -> None:
    labelled(out, "Read", f"{reading.what}:")
    labelled(out, "", f"{band_words(reading.band)}  ({reading.instrument})", style="bold")
    if reading.word in explained or not reading.band.known:
        return
    explained.add(reading.word)
    if from_ := source_words(reading):
        labelled(out, "From", from_, 4)
    for label, text in outside(reading):
        labelled(out, label, text, 4)


# --- a walk


def walk_through(walk: Walk, answers: TextIO, out: TextIO) -> Walk:
    """Ask for one reading at a time until the plan ends, or nobody answers; what was entered is kept."""
    out.write(f"{HOW}\n{_opened(walk.found.plan)}")
    shown = 0
    try:
        while (question := walk.question) is not None:
            step, reading = question
            if walk.stopped:
                out.write(_stop(walk))
            else:
                if step.number != shown:
                    shown = step.number
                    out.write(_asked(step))
                out.write(_question(reading))
            out.flush()
            line = answers.readline()
            word = line.strip().casefold()
            if not line or word in ENDS:
                break
            if word in BACK:
                walk, shown = walk.back(), 0
                continue
            answered = len(walk.entries)
            try:
                walk = walk.told(line)
            except MulewrightError as no:
                out.write(f"  {no.what}: {no.rule}\n")
                continue
            if len(walk.entries) > answered:
                out.write(_answer(walk))
    except KeyboardInterrupt:
        pass
    out.write("\n")
    return walk


def _opened(plan: Plan) -> str:
    """The open checks, which come before the first step here as well."""
    lines = ["", "OPEN CHECKS THAT SAY: DO NOT CONNECT THE BATTERY"]
    for one in plan.open_checks:
        about = f": {named(one.about)}" if one.about else ""
        lines.append(_folded(f"{one.verdict.check.id} {one.verdict.check.name}{about}. {' '.join(one.says)}"))
    return "\n".join([*lines, ""]) if plan.open_checks else ""


def _stop(walk: Walk) -> str:
    """Why it does not go on by itself."""
    lines = []
    if walk.entries and walk.entries[-1].is_outside:
        lines.append(_folded(f"STOP at step {walk.entries[-1].step.number}: put it right, then back."))
    if (step := walk.waits) is not None:
        lines.append(_folded(f"STOP before step {step.number}, {step.title}. It waits {wait_words(step)}."))
    return "\n".join(["", *lines, f'  back, stop, or "{GO_ON}" all the same? '])


def _asked(step: Step) -> str:
    lines = [f"\n{step.number}. {step.title}"]
    lines += [_folded(f"Mind: {line}") for line in step.minds]
    lines += [_folded(line) for line in step.do]
    lines += [_folded(f"Limit: {limit_words(step.limit)}")] if step.limit is not None else []
    return "\n".join(lines) + "\n"


def _folded(text: str) -> str:
    return fill(visible(text), WIDTH, initial_indent="  ", subsequent_indent="    ")


def _question(reading: Reading | None) -> str:
    if reading is None:
        return "  Done, and as it should be (y, n, ?)? "
    return f"{_folded(f'{reading.what} [{KINDS[reading.band.kind].shown}]?')} "


def _answer(walk: Walk) -> str:
    entry = walk.entries[-1]
    if entry.reading is None:
        return ""
    band = band_words(entry.reading.band)
    if entry.place is Place.INSIDE:
        more = " The bands that follow are for these volts." if entry.reading.word in PACKS else ""
        return f"  Inside: {band}.{more}\n"
    if entry.place is Place.UNKNOWN:
        return f"  Written down; no band: {band}.\n"
    if not isinstance(entry.place, Place):
        return f"  Not read; expected: {band}.\n"
    return _folded(f"OUTSIDE ({entry.place.value}): {band}. {entry.advice}") + "\n"


def print_walk(walk: Walk) -> None:
    """Print what came of a walk."""
    out = console()
    paragraph(out, f"{len(walk.entries)} of {len(walk.questions)} answered.", style="bold")
    for entry in walk.outside:
        what = entry.reading.what if entry.reading else entry.step.title
        paragraph(out, f"Step {entry.step.number}, {entry.place}: {what}: {entry.typed}", 2)
        if entry.advice:
            labelled(out, "Do", entry.advice, 4)
    if walk.passed:
        steps = list(dict.fromkeys(walk.passed))
        paragraph(out, f"Somebody went on past a stop before {step_words(steps)}.", 2)
    if walk.entries and not walk.outside:
        paragraph(out, "Nothing that was read lay outside its band.", 2)
    settled = [step for step in walk.found.plan.steps if step.settles and _finished(walk, step)]
    for step in settled:
        paragraph(out, f"Step {step.number} settles {', '.join(step.settles)} once it is in the file.", 2)


def _finished(walk: Walk, step: Step) -> bool:
    """Whether all that a step asks was answered, and as it should be."""
    asked = sum(one.number == step.number for one, _ in walk.questions)
    mine = [entry for entry in walk.entries if entry.step.number == step.number]
    return len(mine) == asked and not any(entry in walk.outside for entry in mine)
