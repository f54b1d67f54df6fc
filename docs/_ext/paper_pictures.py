"""What does a paper look like? Printed from the shipped example while the pages are built."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from mulewright.tasks.opening import shipped_design
from mulewright.tasks.printing import print_papers

FOLDER = Path(__file__).parents[1] / "how-to" / "papers"
DAY = date(2026, 11, 2)


def picture(name: str) -> str:
    """Print one paper, and show its first page."""
    FOLDER.mkdir(exist_ok=True)
    printed = print_papers(shipped_design(), [name], out=FOLDER / f"{name}.png", day=DAY)
    [paper], first = printed.papers, next(iter(printed.files))
    return f"```{{image}} papers/{first.name}\n:alt: {paper.title} of the {printed.opened.name}\n:class: paper\n```"
