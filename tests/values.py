"""Write down our value beside each one from outside: ``python -m tests.values`` runs those tests and keeps the list."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from dataclasses import asdict
from pathlib import Path

import pytest

from tests import published

ROOT = Path(__file__).parents[1]
FILE = ROOT / "docs" / "validation" / "values.json"
ASKED = "MULEWRIGHT_VALUES"  # the file to write them to
MARKED = "@outside("


def modules() -> list[Path]:
    """The test modules that compare with the outside."""
    found = sorted((ROOT / "tests").rglob("test_*.py"))
    return [path for path in found if MARKED in path.read_text(encoding="utf-8")]


def keep_comparisons(items: list[pytest.Item]) -> None:
    """Leave out every test that compares with nothing from outside."""
    compared = {one.test for one in published.OUTSIDE}
    items[:] = [item for item in items if _name(item) in compared]


def _name(item: pytest.Item) -> str:
    function = getattr(item, "function", None)
    return f"{function.__module__}::{function.__name__}" if function is not None else ""


def write(file: Path) -> None:
    """Write what agreed, each comparison once, by its quantity."""
    rows = sorted(dict.fromkeys(published.AGREED), key=lambda row: row.id)  # otherwise as they were found
    lines = ",\n".join(json.dumps(asdict(row), ensure_ascii=False) for row in rows)
    file.write_text(f"[\n{lines}\n]\n", encoding="utf-8")


def collect(file: Path) -> None:
    """Run the comparisons in a process of their own and write what agreed."""
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", *map(str, modules())]
    ran = subprocess.run(
        command, cwd=ROOT, env=os.environ | {ASKED: str(file)}, capture_output=True, text=True, check=False
    )
    if ran.returncode:
        raise RuntimeError(ran.stdout[-3000:])


if __name__ == "__main__":
    FILE.parent.mkdir(exist_ok=True)
    collect(FILE)
