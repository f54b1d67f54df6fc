"""How does a check report read at a bench? Worst first, by what to do now, with the next step."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from itertools import groupby

from rich.console import Console

from mulewright.advice.draws import DRAWS
from mulewright.checks.engine import Outcome, Severity, Verdict
from mulewright.cli.chain_text import print_first
from mulewright.cli.changes_text import print_changes
from mulewright.cli.console import console, labelled, paragraph
from mulewright.cli.names import STYLES, together
from mulewright.tasks.checking import CheckReport
from mulewright.units.shown import percent

GROUPS = (
    ("BEFORE POWER: do not connect the battery while one of these is open", (Severity.BLOCK,)),
    ("BEFORE DRIVING: may be powered; do not drive or use that function", (Severity.STOP,)),
    ("WORTH KNOWING: it works, but not as one would think", (Severity.WARN, Severity.NOTE)),
)
MOST_SETTLING = 8


def print_report(report: CheckReport, *, everything: bool = False) -> None:
    """Print a whole report."""
    out = console()
    tripped = report.of(Outcome.TRIP)
    _head(out, report)
    for title, severities in GROUPS:
        found = [verdict for verdict in tripped if verdict.severity in severities]
        if found:
            out.print()
            paragraph(out, title, style="bold")
            print_findings(out, report, found)
    _doubtful(out, report)
    _unknown(out, report)
    if report.chains:
        print_first(out, report.chains)
    if report.opened.evaluation.target is not None:
        print_changes(out, report)
    if everything:
        _rest(out, report)
    _overrides(out, report)
    _next(out, report)
    out.print()
    for caution in report.cautions:
        labelled(out, "!", caution, indent=0)


def _head(out: Console, report: CheckReport) -> None:
    counts = report.counts
    paragraph(out, f"{report.opened.name} ({report.where})", style="bold")
    question = report.opened.mule.file.question
    paragraph(
        out, f"Question: {question}" if question else "No question is written: what is this mule to answer?"
    )
    parts = [
        f"{counts[level.word]} {level.name}" for level in sorted(Severity, reverse=True) if counts[level.word]
    ]
    found = f"Tripped: {', '.join(parts)}." if parts else "No check tripped."
    told, unknown = counts[Outcome.PASS.value], counts[Outcome.CANNOT_TELL.value]
    paragraph(out, f"{found} {told} verdicts pass; {unknown} could not be told.")
    said = report.opened.mule.file.target
    if said is not None and said.file and report.opened.evaluation.target is None:
        paragraph(out, f"It stands for {said.file}: add --target to see what changes there.")


def print_findings(out: Console, report: CheckReport, found: Sequence[Verdict]) -> None:
    """Print findings, those that follow from another one folded to a line at the end."""
    roots = [verdict for verdict in found if not report.roots(verdict)]
    for group in alike(roots):
        print_finding(out, group)
    for group in alike([verdict for verdict in found if report.roots(verdict)]):
        first = group[0]
        out.print()
        _title(out, group)
        labelled(out, "After", f"follows from {', '.join(report.roots(first))}: {first.what}")


def alike(verdicts: Sequence[Verdict]) -> list[list[Verdict]]:
    """Group verdicts of one check that say the same about several things."""

    def key(verdict: Verdict) -> tuple[int, str, str, str]:
        return -verdict.severity, verdict.check.id, verdict.what, verdict.how

    return [list(group) for _, group in groupby(sorted(verdicts, key=key), key)]


def print_finding(out: Console, group: Sequence[Verdict]) -> None:
    """Print one finding with its reason, its numbers and what to do."""
    first = group[0]
    out.print()
    _title(out, group)
    labelled(out, "What", first.what)
    labelled(out, "Why", first.check.why)
    if first.how.rstrip(".") not in first.what:
        labelled(out, "How", f"{first.how} Rests on: {first.origin.word}.")
    if first.share is not None and first.share < 1:
        labelled(out, "Odds", f"Trips in {odds(first.share)}.")
    for number, fix in enumerate(first.check.fixes):
        labelled(out, "or" if number else "Do", fix)


def odds(share: float) -> str:
    """A share of the draws, in words and numbers; never a certainty that draws cannot give."""
    least = 1 / DRAWS
    if share < least:
        return f"none of {DRAWS:,} draws"
    if share > 1 - least:
        return f"all of {DRAWS:,} draws"
    return f"{percent(share, 2)} of {DRAWS:,} draws"


def _doubtful(out: Console, report: CheckReport) -> None:
    if not report.doubtful:
        return
    out.print()
    paragraph(out, "DOUBTFUL: these pass as typed, and trip where the inputs are off a little", style="bold")
    for group in alike(report.doubtful):
        first = group[0]
        about = f"{first.check.name}, {together([v.entity for v in group])}"
        labelled(out, first.check.id, f"{about}: trips in {odds(first.share or 0)}. {first.what}")
    paragraph(out, f"Drawn over their intervals: {', '.join(report.uncertain)}.", 2)


def _title(out: Console, group: Sequence[Verdict]) -> None:
    first = group[0]
    about = f"{first.check.id} {first.check.name}: {together([verdict.entity for verdict in group])}"
    labelled(out, first.severity.name, about, 0, STYLES[first.severity])


def _unknown(out: Console, report: CheckReport) -> None:
    unknown = report.of(Outcome.CANNOT_TELL)
    if not unknown:
        return
    out.print()
    paragraph(
        out,
        f"COULD NOT BE TOLD: {len(unknown)} verdicts need an input that is missing or cannot be",
        style="bold",
    )
    for group in alike(unknown):
        labelled(
            out,
            group[0].check.id,
            f"{_about(group)}: {group[0].what}",
        )
    if report.settling:
        paragraph(out, "Single inputs that would settle most of them:", 2)
        for path, ids in report.settling[:MOST_SETTLING]:
            paragraph(out, f"{path}  settles {', '.join(ids)}", 4)


def _overrides(out: Console, report: CheckReport) -> None:
    """Say where the file overrules a part, once for equal cases."""
    same: dict[tuple[str, str, str, str], list[str]] = {}
    for one in report.opened.mule.loaded.overrides:
        entity, key = one.path.rsplit(".", 1)
        if one.part_text not in (one.file_text, "either"):
            same.setdefault((one.part, key, one.file_text, one.part_text), []).append(entity)
    if same:
        out.print()
        paragraph(out, "Said in the file instead of on the part's sheet:")
    for (part, key, own, sheet), entities in same.items():
        paragraph(out, f"{key} = {own} (part {part}: {sheet}): {together(entities)}", 2)


def _next(out: Console, report: CheckReport) -> None:
    """Say which commands lead on from here."""
    file = shlex.quote(report.where)
    tips = []
    if any(verdict.severity > Severity.NOTE for verdict in report.of(Outcome.TRIP)):
        tips.append(f"mulewright fix {file}: the cheapest and the cleanest set of changes")
    if report.of(Outcome.CANNOT_TELL) or report.doubtful:
        tips.append(f"mulewright measure {file}: what to measure next, and how")
    if tips:
        out.print()
        paragraph(out, "NEXT", style="bold")
        for tip in tips:
            paragraph(out, tip, 2)


def _rest(out: Console, report: CheckReport) -> None:
    for outcome, title in ((Outcome.PASS, "PASSES"), (Outcome.NOT_APPLICABLE, "DOES NOT APPLY")):
        out.print()
        paragraph(out, title, style="bold")
        for group in alike(report.of(outcome)):
            labelled(out, group[0].check.id, f"{_about(group)}: {group[0].what}")


def _about(group: Sequence[Verdict]) -> str:
    """The name of a check, and the things that it says something about, if it does of any."""
    entities = together([verdict.entity for verdict in group if verdict.entity])
    return f"{group[0].check.name}, {entities}" if entities else group[0].check.name
