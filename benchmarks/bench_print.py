"""What does printing cost? All papers of the aisle carrier, beside judging it; run with ``-s`` to read the ratios."""

from __future__ import annotations

from datetime import date
from functools import partial
from pathlib import Path

from benchmarks.bench_check import CARRIER, in_turn
from mulewright.checks import CHECKS
from mulewright.checks.engine import run
from mulewright.tasks.opening import open_mule
from mulewright.tasks.printing import NAMES, print_papers

LONGEST = 2.0  # [s] for all papers of one mule, warm


def test_all_papers_of_a_mule(tmp_path: Path) -> None:
    out, day = tmp_path / "papers.pdf", date(2026, 11, 2)
    printing, checking = in_turn(
        lambda: print_papers(CARRIER, out=out, day=day),
        lambda: run(open_mule(CARRIER).evaluation, CHECKS.values()),
        rounds=3,
    )
    assert printing < LONGEST
    print(
        f"\nall {len(NAMES)} papers: {printing:.2f} s, {printing / checking:.2f} times reading and checking the mule "
        f"({checking:.2f} s), {printing / LONGEST:.0%} of the time allowed; {out.stat().st_size / 1e3:.0f} kB"
    )


def test_each_paper(tmp_path: Path) -> None:
    day = date(2026, 11, 2)
    for name in NAMES:
        printing = partial(print_papers, CARRIER, [name], out=tmp_path / f"{name}.pdf", day=day)
        print(f"\n{name}: {in_turn(printing, rounds=3)[0] * 1e3:.0f} ms")
