"""How do changed inputs read? As they were typed, the same change of several things of a kind in one line."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Any

from rich.console import Console

from mulewright.advice.differing import InputChange
from mulewright.cli.console import paragraph
from mulewright.design.paths import Path, written
from mulewright.tasks.comparing import CompareReport
from mulewright.units.quantity import Quantity
from mulewright.units.shown import people

NOTHING = "left out"
PLAIN = re.compile(r"([\w:-]+)\.([\w-]+)\.([\w.-]+)")  # kind, name of the thing, what about it


def print_inputs(out: Console, report: CompareReport) -> None:
    """Print things that one side has not, then other values, then values of another origin."""
    for label, things in zip("AB", report.only, strict=True):
        if things:
            out.print()
            paragraph(out, f"ONLY IN {label}", style="bold")
            paragraph(out, ", ".join(things), 2)
    if report.inputs:
        out.print()
        paragraph(out, "CHANGED INPUTS: A -> B", style="bold")
        print_values(out, report, 2)


def print_values(out: Console, report: CompareReport, indent: int) -> None:
    """Print the values that were typed otherwise, those of a part that was changed, and how many came with one."""
    gone = {one for things in report.only for one in things}
    shown = [one for one in report.inputs if one.typed and not _inside(one.place, gone)]
    _print_lines(out, [one for one in shown if _value(one.before) != _value(one.after)], indent)
    alike = [one for one in shown if _value(one.before) == _value(one.after)]
    if alike:
        paragraph(out, "The same numbers, of another origin or with another interval:", indent)
        _print_lines(out, alike, indent + 2)
    others = [one for one in report.inputs if not one.typed]
    swapped = [one.place[:-1] for one in shown if one.place[-1] == "part"]
    edited = [one for one in others if not _inside(one.place, gone) and not _below(one.place, swapped)]
    if edited:
        paragraph(out, "On the shelf, with the same part in the file:", indent)
        _print_lines(out, edited, indent + 2)
    if with_parts := len(others) - len(edited):
        paragraph(out, f"{with_parts} more values came or went with a part.", indent)


def gathered(needs: Iterable[str]) -> list[str]:
    """Gather paths that differ in the name of their thing only; what is no path stands for itself."""
    found: dict[tuple[str, str], list[str]] = {}
    for need in needs:
        kind, name, key = match.groups() if (match := PLAIN.fullmatch(need)) else ("", need, "")
        found.setdefault((kind, key), []).append(name)
    return [
        text
        for (kind, key), names in found.items()
        for text in ([_braced(kind, names, key)] if kind else names)
    ]


def _inside(place: Path, things: set[str]) -> bool:
    return place[0] in things or ".".join(place[:2]) in things


def _below(place: Path, tables: Iterable[Path]) -> bool:
    return any(place[: len(table)] == table for table in tables)


def _print_lines(out: Console, changes: Sequence[InputChange], indent: int) -> None:
    found: dict[tuple[Path, Path, str, str], list[Path]] = {}
    for one in changes:
        before, names, after = _cut(one.place)
        key = (before, after, _typed(one.before), _typed(one.after))
        found.setdefault(key, []).append(names)
    for (above, below, was, now), places in found.items():
        path = _braced(written(above), [written(place) for place in places], written(below))
        paragraph(out, f"{path}: {was} -> {now}", indent)


def _cut(place: Path) -> tuple[Path, Path, Path]:
    """A path before, at and after the part that names one of several things of a kind."""
    if len(place) < 2:
        return (), place, ()
    at = 2 if place[0].endswith("radio") and len(place) > 3 else 1
    return place[:at], place[at : at + 1], place[at + 1 :]


def _braced(before: str, names: Sequence[str], after: str) -> str:
    """Write one path for several things: ``controller.{left, right}.dead_band``."""
    middle = names[0] if len(names) == 1 else f"{{{', '.join(names)}}}"
    return ".".join(filter(None, (before, middle, after)))


def _value(side: Any) -> Any:
    return side.value if isinstance(side, Quantity) else side


def _typed(side: Any) -> str:
    """A value as it was typed, with its origin and its interval."""
    if side is None:
        return NOTHING
    if isinstance(side, Quantity):
        return f"{side.text} ({side.origin.word}{_spread(side)})"
    if isinstance(side, bool):
        return "true" if side else "false"
    if isinstance(side, list):
        return ", ".join(map(_typed, side)) or "none"
    return str(side)


def _spread(side: Quantity) -> str:
    if not side.uncertain:
        return ""
    low, high = (people(end, side.unit) if end is not None else "?" for end in (side.low, side.high))
    return f", {low} to {high}"
