"""What does `measure` cost? Ratios to one pass over the same draws; run with ``-s`` to read them."""

from __future__ import annotations

from benchmarks.bench_check import in_turn
from mulewright.advice.at_hand import at_hand
from mulewright.advice.doubt import study
from mulewright.advice.draws import on_draws
from mulewright.advice.measuring import worksheet
from mulewright.checks import CHECKS
from mulewright.checks.engine import run
from mulewright.design.mule import Mule, link
from mulewright.design.resolve import load
from mulewright.facts.graph import Evaluation
from mulewright.tasks.opening import shipped_design


def drawn(mule: Mule) -> int:
    """All checks on the 10,000 draws that a worksheet rests on."""
    return len(run(on_draws(Evaluation(mule), DRAWS), CHECKS.values()))


MULE = link(load(shipped_design("two-benches")))
DRAWS = study(Evaluation(MULE)).draws


def test_a_worksheet_against_one_pass_over_the_draws() -> None:
    one, everything, in_time = in_turn(
        lambda: drawn(MULE),
        lambda: worksheet(Evaluation(MULE), at_hand(MULE)),
        lambda: worksheet(Evaluation(MULE), at_hand(MULE), 15.0),
    )
    print(
        f"\n{len(DRAWS)} inputs drawn; checks on the draws: {one * 1e3:.0f} ms; a worksheet "
        f"{everything / one:.1f} times that, the best set within 15 minutes {in_time / one:.1f} times"
    )
