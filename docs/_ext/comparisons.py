"""With which numbers from outside do the tests compare? The list that the tests keep, by subject."""

from __future__ import annotations

import importlib
import json
import re
from collections.abc import Iterator, Sequence
from itertools import groupby
from pathlib import Path

from docs._ext.markdown import plain, table
from tests.published import MARKS, OUTSIDE, Agreement, Outside
from tests.values import FILE

ROOT = Path(__file__).parents[2]
MARKED = re.compile(r"^@outside\(", re.M)
HEADINGS = ("id", "quantity", "ours", "outside", "tolerance", "compared with", "how known")


def registered() -> list[Outside]:
    """Every comparison that a test is decorated with, by subject and id."""
    for path in sorted((ROOT / "tests").rglob("test_*.py")):
        if MARKED.search(path.read_text(encoding="utf-8")):
            importlib.import_module(".".join(path.relative_to(ROOT).with_suffix("").parts))
    return sorted(OUTSIDE, key=lambda one: (subject(one), order(one.id)))


def subject(one: Outside) -> str:
    """What the test module of a comparison is about."""
    return one.test.split("::")[0].rsplit(".", 1)[1].removeprefix("test_").replace("_", " ")


def order(id: str) -> list[tuple[str, int]]:
    """Sort W9 before W10."""
    return [(letters, int(digits)) for letters, digits in re.findall(r"(\D*)(\d+)", id)]


def values() -> dict[str, list[Agreement]]:
    """What the tests last found to agree, by the id of the quantity."""
    found: dict[str, list[Agreement]] = {}
    for row in json.loads(FILE.read_text(encoding="utf-8")):
        found.setdefault(row["id"], []).append(Agreement(**row))
    return found


def comparisons() -> str:
    """Write one table for each subject: a line for each value."""
    agreed = values()
    pieces = []
    for name, found in groupby(registered(), subject):
        rows = [row for one in found for row in lines(one, agreed.get(one.id, []))]
        pieces += [f"## {name.capitalize()}", table(HEADINGS, rows)]
    return "\n\n".join(pieces)


def lines(one: Outside, agreed: Sequence[Agreement]) -> Iterator[tuple[str, ...]]:
    """One line for each value of a quantity; source and mark stand on the first."""
    said = (one.id, plain(one.quantity), plain(one.source), MARKS[one.mark])
    for place, row in enumerate(agreed):
        id, quantity, source, mark = said if not place else ("", "", "", "")
        case = f"{quantity}: {plain(row.case)}" if quantity and row.case else quantity or plain(row.case)
        yield id, case, plain(row.ours), plain(row.outside), plain(row.tolerance), source, mark
