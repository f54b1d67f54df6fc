"""The main job on a shipped mule: checked, its worst findings explained, and what to try next."""

from __future__ import annotations

from dataclasses import dataclass

from mulewright.checks.engine import Outcome, Verdict
from mulewright.tasks.checking import CheckReport, check_file
from mulewright.tasks.explaining import Explained, explain_node
from mulewright.tasks.opening import shipped_design

WORST = 3


@dataclass(frozen=True)
class Demonstration:
    """A report, with the worst findings and the numbers behind them."""

    report: CheckReport
    worst: tuple[tuple[Verdict, Explained | None], ...]
    tries: tuple[str, ...]


def demonstrate() -> Demonstration:
    """Check the shipped aisle carrier."""
    path = shipped_design()
    report = check_file(path)
    first_of_each: dict[str, Verdict] = {}
    for verdict in report.of(Outcome.TRIP):
        if not report.roots(verdict):
            first_of_each.setdefault(verdict.check.id, verdict)
    worst = list(first_of_each.values())[:WORST]
    explained = tuple((verdict, explain_node(verdict.node) if verdict.node else None) for verdict in worst)
    tries = (
        f"mulewright check {path}",
        f"mulewright check {path} --variant own-servo-supply",
        f"mulewright check {path} --set 'radio.channel.others.travel=120 %'",
        f"mulewright explain {path} mechanism.lift.margin",
        "mulewright explain R02",
        "mulewright new mule.toml --drive two-sides",
    )
    return Demonstration(report, explained, tries)
