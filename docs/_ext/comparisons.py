"""With which numbers from outside do the tests compare? The list that the tests keep, by subject."""

from __future__ import annotations

import importlib
import re
from itertools import groupby
from pathlib import Path

from docs._ext.markdown import plain, table
from tests.published import MARKS, OUTSIDE, Outside

ROOT = Path(__file__).parents[2]
MARKED = re.compile(r"^@outside\(", re.M)


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


def comparisons() -> str:
    """Write one table for each subject."""
    pieces = []
    for name, found in groupby(registered(), subject):
        rows = [(one.id, plain(one.quantity), plain(one.source), MARKS[one.mark]) for one in found]
        pieces += [f"## {name.capitalize()}", table(("id", "quantity", "compared with", "how known"), rows)]
    return "\n\n".join(pieces)
