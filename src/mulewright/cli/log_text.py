"""How does the log of a mule file read? The file now, then each snapshot with what changed, the newest first."""

from __future__ import annotations

from rich.console import Console

from mulewright import __version__
from mulewright.advice.comparing import Turn, short
from mulewright.cli.compare_text import alike
from mulewright.cli.console import console, labelled, paragraph
from mulewright.cli.inputs_text import print_values
from mulewright.cli.names import together
from mulewright.tasks.comparing import CompareReport
from mulewright.tasks.history import History, Step
from mulewright.tasks.snapshots import Snapshot

TITLES = {
    Turn.WORSE: "Worse",
    Turn.UNKNOWN: "Newly unknown",
    Turn.BETTER: "Better",
    Turn.GONE: "Gone with the thing that it was about",
    Turn.SETTLED: "Told now",
    Turn.OTHER: "Came or went with a thing",
}


def print_log(found: History) -> None:
    """Print the whole log."""
    out = console()
    paragraph(out, f"{found.name or 'Mule'} ({found.where}): {_count(found.count, 'snapshot')}", style="bold")
    for problem in found.problems:
        labelled(out, "LOST", "; ".join(str(problem).split("\n  ")), 0, "red")
    if not found.count:
        paragraph(out, "No snapshot yet; mulewright snapshot keeps the first.")
        return
    _step(out, "NOW", found.now)
    for one in found.steps:
        assert one.snapshot is not None
        _step(out, _head(one.snapshot), one)
    if older := found.count - len(found.steps):
        out.print()
        paragraph(out, f"{older} older; --last {found.count} shows all of them.")


def _head(one: Snapshot) -> str:
    day = one.day[:16].replace("T", " ") or "day not known"
    kept = f" (kept by version {one.version})" if one.version not in ("", __version__) else ""
    return f"{one.number}  {day}  {one.why or 'reason not known'}{kept}"


def _step(out: Console, head: str, one: Step) -> None:
    out.print()
    paragraph(out, head, style="bold")
    if not one.readable:
        paragraph(out, "Cannot be read, see above.", 2)
    elif one.report is None:
        paragraph(
            out, "The first that can be read." if one.snapshot else "No snapshot to hold it against.", 2
        )
    else:
        paragraph(out, f"Against {one.against}: {_summary(one, one.report)}", 2)
        _changes(out, one.report)


def _summary(one: Step, report: CompareReport) -> str:
    if not report.same:
        return f"{_count(len(report.inputs), 'input')} and {_count(len(report.verdicts), 'verdict')} changed."
    if one.same_text:
        return "no difference."
    return "no difference but in comments, in their order, or in a variant."


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'s' if number != 1 else ''}"


def _changes(out: Console, report: CompareReport) -> None:
    for label, things in zip(("Gone", "New"), report.only, strict=True):
        if things:
            paragraph(out, f"{label}: {', '.join(things)}", 2)
    if report.inputs:
        print_values(out, report, 2)
    for turn, title in TITLES.items():
        if changes := report.of(turn):
            paragraph(out, f"{title}:", 2)
            for group in alike(changes):
                first, names = group[0], together([one.entity for one in group])
                rule = f"{first.check.name}{f', {names}' if names else ''}"
                labelled(out, first.check.id, f"{rule}: {short(first.was)} -> {short(first.now)}", 4)
