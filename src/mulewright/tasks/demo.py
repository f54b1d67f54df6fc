"""The main job on a shipped mule: checked, its worst findings explained, and what to try next."""

from __future__ import annotations

import shlex
from dataclasses import dataclass
from pathlib import Path

from mulewright.checks.engine import Verdict
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
    explained = tuple(
        (verdict, explain_node(verdict.node) if verdict.node else None) for verdict in report.worst(WORST)
    )
    typed = shlex.quote(_short(path))
    tries = (
        f"mulewright check {typed}",
        f"mulewright check {typed} --variant own-servo-supply",
        f"mulewright check {typed} --set 'radio.channel.others.travel=120 %'",
        f"mulewright explain {typed} mechanism.lift.margin",
        "mulewright explain R02",
        "mulewright new mule.toml --drive two-sides",
    )
    return Demonstration(report, explained, tries)


def _short(path: Path) -> str:
    """The path as seen from here, where it lies below."""
    here = Path.cwd()
    return str(path.relative_to(here) if path.is_relative_to(here) else path)
