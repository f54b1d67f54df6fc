"""How does the demonstration read? Three findings opened, and commands to try."""

from __future__ import annotations

from mulewright.checks.engine import Outcome
from mulewright.cli.check_text import print_finding
from mulewright.cli.console import console, paragraph
from mulewright.cli.explain_text import print_fact
from mulewright.cli.plain import say
from mulewright.tasks.demo import Demonstration


def print_demo(shown: Demonstration) -> None:
    """Print the demonstration."""
    out = console()
    report = shown.report
    counts = report.counts
    paragraph(out, f"{report.opened.name}: {report.opened.mule.file.question}", style="bold")
    paragraph(
        out,
        f"{len(report.verdicts)} verdicts: {counts[Outcome.TRIP.value]} trip, "
        f"{counts[Outcome.PASS.value]} pass, {counts[Outcome.CANNOT_TELL.value]} cannot be told. "
        "The three worst, with the numbers behind them:",
    )
    for verdict, explained in shown.worst:
        print_finding(out, [verdict])
        if explained is not None:
            out.print()
            print_fact(explained)
    out.print()
    paragraph(out, "What to try next:", style="bold")
    for command in shown.tries:
        say(f"  {command}")
    out.print()
    for caution in report.cautions:
        paragraph(out, f"! {caution}")
