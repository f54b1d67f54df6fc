"""How do cures read at a bench? Two lists of things to do, what each clears, and what nothing clears."""

from __future__ import annotations

from collections.abc import Sequence

from rich.console import Console

from mulewright.advice.fixing.bench import Question
from mulewright.checks.engine import Verdict
from mulewright.cli.console import console, labelled, paragraph
from mulewright.cli.names import together
from mulewright.tasks.fixing import Cure, Done, FixReport
from mulewright.units.shown import people

HOW = "Costs are judgements, beside that of a setting in the radio, which is 1; [fix.cost] in the file changes them."


def print_fix(report: FixReport) -> None:
    """Print both sets side by side in time: first the cheapest, then the cleanest where it is another."""
    out = console()
    paragraph(out, f"{report.opened.name} ({report.where})", style="bold")
    if not report.findings:
        paragraph(out, f"Nothing trips at {report.level.name} or above; there is nothing to clear.")
        return
    checks = len({one.check.id for one in report.findings})
    paragraph(
        out, f"{len(report.findings)} findings of {checks} checks trip at {report.level.name} or above."
    )
    same = [one.step for one in report.cheapest.done] == [one.step for one in report.cleanest.done]
    _cure(out, "CHEAPEST AND CLEANEST" if same else "CHEAPEST", report.cheapest, report)
    if not same:
        _cure(out, "CLEANEST", report.cleanest, report)
    _uncured(out, report)
    out.print()
    paragraph(out, HOW)
    for part in report.skipped:
        paragraph(out, f"Left out, for its file cannot be read: {part}")
    if report.stopped:
        paragraph(out, "Stopped by hand: this is the best it had found by then, there may be better.")
    elif report.bounded:
        paragraph(out, "The search was ended by its limit: this is the best it found, there may be better.")


def _cure(out: Console, title: str, cure: Cure, report: FixReport) -> None:
    out.print()
    cleared = len(report.findings) - len(cure.left)
    steps = f"{len(cure.done)} step{'s' if len(cure.done) != 1 else ''}, cost {people(cure.cost, '1')}"
    paragraph(out, f"{title}: {steps}; clears {cleared} of {len(report.findings)} findings", style="bold")
    for one in cure.done:
        labelled(out, f"{one.number}.", f"{one.step.do} ({one.step.kind}, {people(one.step.cost, '1')})")
        if one.clears:
            paragraph(out, f"clears {_grouped(one.clears)}{_beside(one)}", 8)
        if one.keeps:
            paragraph(out, f"keeps {_grouped(one.keeps)} from getting worse", 8)
        if one.step.change is not None and one.step.change.then:
            paragraph(out, f"then test again, and write the day: {one.step.change.then}", 8)
    if cure.left:
        paragraph(out, f"Leaves {_grouped(cure.left)}.", 2)
    if cure.notes:
        paragraph(out, f"Comes with notes: {_grouped(cure.notes)}.", 2)
    if cure.asks:
        paragraph(out, f"Asks for what nobody has written yet: {', '.join(cure.asks)}.", 2)


def _beside(done: Done) -> str:
    if not done.beside:
        return ""
    several = "steps" if len(done.beside) > 1 else "step"
    return f", with {several} {', '.join(map(str, done.beside))}"


def _grouped(found: Sequence[Question | Verdict]) -> str:
    by_check: dict[str, list[str]] = {}
    for one in found:
        by_check.setdefault(one.check.id, []).append(one.entity)
    return "; ".join(f"{check} ({together(entities)})" for check, entities in by_check.items())


def _uncured(out: Console, report: FixReport) -> None:
    if not report.uncured:
        return
    out.print()
    paragraph(out, "NOTHING FOUND THAT MAKES IT RIGHT", style="bold")
    for one in report.uncured:
        labelled(out, one.check.id, f"{one.check.name}: {one.entity}. {one.what}")
        _hints(out, report, one)


def _hints(out: Console, report: FixReport, verdict: Verdict) -> None:
    for question, found in report.hints.items():
        if question.id == (verdict.check.id, verdict.entity):
            for hint in found:
                paragraph(out, f"would do: {hint.says}", 8)


def print_written(report: FixReport, which: str, written: Sequence[Done], left: Sequence[Done]) -> None:
    """Say what was written into the file, and what is left to a person."""
    out = console()
    out.print()
    if written:
        numbers = ", ".join(str(one.number) for one in written)
        paragraph(
            out, f"Wrote steps {numbers} of the {which} set to {report.where}; the old file lies beside it."
        )
    else:
        paragraph(out, "Nothing was written.")
    for one in left:
        what = "do it first, then tick it yourself" if one.step.record else "write down the reason yourself"
        paragraph(out, f"Not written, step {one.number}: {what}: {one.step.path}", 2)
