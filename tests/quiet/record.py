"""The figures of the injected faults, as they are kept for the docs; ``python -m tests.quiet.record`` renews them."""

from __future__ import annotations

import gc
import json
from collections import defaultdict
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any

from tests.quiet.faults import FAULTS
from tests.quiet.injection import QUIET, Found, find, injections

RECORD = Path(__file__).with_name("figures.json")


@cache
def everything() -> tuple[Found, ...]:
    """Every fault in every place, judged."""
    usual = gc.get_threshold()
    gc.set_threshold(100_000, 10, 10)  # thousands of small evaluations come and go
    try:
        return tuple(find(one) for fault in FAULTS for one in injections(fault))
    finally:
        gc.set_threshold(*usual)


def figures(found: Sequence[Found]) -> dict[str, Any]:
    """How many faults were injected, found, and among the worst, for each check and in all."""
    by_check: dict[str, list[int]] = defaultdict(lambda: [0, 0, 0])
    for one in found:
        counts = by_check[one.injection.check]
        for place, yes in enumerate((True, one.trips, one.among_worst)):
            counts[place] += yes
    total = [sum(column) for column in zip(*by_check.values(), strict=True)]
    return {"designs": len(QUIET), "faults": len(FAULTS), "total": total, "checks": dict(by_check)}


def recorded() -> Any:
    """The figures as they are kept."""
    return json.loads(RECORD.read_text("utf-8"))


if __name__ == "__main__":
    lines = json.dumps(figures(everything()), indent=1).replace(",\n   ", ",").replace("[\n   ", "[")
    RECORD.write_text(lines.replace("\n  ]", "]") + "\n", "utf-8")
