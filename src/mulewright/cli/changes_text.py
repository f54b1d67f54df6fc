"""How does the list of changes read? What is worse on the target, after by how much the same command does more."""

from __future__ import annotations

from itertools import groupby

from rich.console import Console

from mulewright.checks.engine import Outcome
from mulewright.cli.console import labelled, paragraph
from mulewright.cli.names import STYLES, together
from mulewright.tasks.changes import Change, factors
from mulewright.tasks.checking import CheckReport


def print_changes(out: Console, report: CheckReport) -> None:
    """Print the section on the target."""
    target = report.opened.evaluation.target
    assert target is not None
    worse = len(report.changes)
    out.print()
    title = f"ON THE TARGET, {target.mule.file.name}: {worse or 'no'} verdicts are worse than on the mule"
    paragraph(out, title, style="bold")
    for factor in factors(report.opened.evaluation):
        names = together(factor.controllers)
        paragraph(
            out, f"{names}: {', '.join(factor.words)}. Begin with {factor.first_output} of the output.", 2
        )
    for group in _alike([one for one in report.changes if one.verdict.outcome is Outcome.TRIP]):
        _print_group(out, group)
    for group in _alike([one for one in report.changes if one.verdict.outcome is not Outcome.TRIP]):
        first = group[0].verdict
        needs = dict.fromkeys(path for one in group for path in one.verdict.needs)
        names = together([one.verdict.entity for one in group])
        labelled(
            out,
            first.check.id,
            f"{first.check.name}, {names}: cannot be told there, needs {', '.join(needs)}.",
        )


def _print_group(out: Console, group: list[Change]) -> None:
    first = group[0].verdict
    names = together([one.verdict.entity for one in group])
    about = f"{first.check.id} {first.check.name}: {names}"
    labelled(out, first.severity.name, about, 0, STYLES[first.severity])
    if not group[0].between:
        labelled(out, "Was", f"{group[0].before} on the mule. {first.what}")


def _alike(changes: list[Change]) -> list[list[Change]]:
    """Group changes of one check that read the same."""

    def key(one: Change) -> tuple[int, str, str, str]:
        rank = -one.verdict.severity if one.verdict.outcome is Outcome.TRIP else 0
        what = "" if one.between or not rank else one.verdict.what
        return rank, one.verdict.check.id, one.before, what

    return [list(group) for _, group in groupby(sorted(changes, key=key), key)]
