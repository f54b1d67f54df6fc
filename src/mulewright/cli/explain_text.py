"""How does an opened number read? The fact, its formula with the numbers, and each number opened in turn."""

from __future__ import annotations

import textwrap

from rich.console import Console

from mulewright.checks.engine import Check
from mulewright.cli.console import console, labelled, paragraph
from mulewright.tasks.explaining import Argument, Explained
from mulewright.units.shown import people

STEP = 2
DEEPEST = 0.3  # of the columns; deeper levels are not indented further
DIGITS = 4


def print_fact(explained: Explained) -> None:
    """Print a fact down to its inputs; what was shown once is not opened again."""
    _open(console(), explained, 0, set())


def _open(out: Console, one: Explained, depth: int, seen: set[str]) -> None:
    indent = min(depth * STEP, int(DEEPEST * out.width))
    again = one.id in seen
    seen.add(one.id)
    value = "unknown" if one.fact["missing"] else _value(one.fact["value"], one.fact["unit"])
    paragraph(out, f"{one.id} = {value}", indent, style="" if depth else "bold")
    if again and one.below:
        paragraph(out, "(opened above)", indent + 4)
        return
    labelled(out, "is", one.fact["says"], indent + 2)
    if one.formula:
        labelled(out, "=", one.formula.replace("result", one.fact["name"]), indent + 2)
        labelled(out, "with", ", ".join(_arguments(one)), indent + 2)
    else:
        labelled(out, "from", one.because, indent + 2)
    for below in one.below:
        _open(out, below, depth + 1, seen)


def _arguments(one: Explained) -> list[str]:
    found = [f"{name} = {_argument(argument)}" for name, argument in one.arguments.items()]
    return found + [f"{name} = {value:.{DIGITS}g}" for name, value in one.constants.items()]


def _argument(argument: Argument) -> str:
    if isinstance(argument.value, list):
        return f"[{', '.join(_value(item, argument.unit) for item in argument.value)}]"
    return _value(argument.value, argument.unit)


def _value(value: float | None, unit: str) -> str:
    if value is None:
        return "without bound"
    shown = f"{value:.{DIGITS}g} {unit}".removesuffix(" 1").rstrip()
    plain = people(value, unit, DIGITS)
    return shown if plain == shown else f"{shown} ({plain})"


def print_check(rule: Check) -> None:
    """Print the page of a check."""
    out = console()
    paragraph(out, f"{rule.id} {rule.name} ({rule.severity.name})", style="bold")
    for block in textwrap.dedent("    " + rule.page).strip().split("\n\n"):
        out.print()
        paragraph(out, " ".join(block.split()))
    out.print()
    labelled(out, "Seen", f"{rule.seen}.", 0)
    labelled(out, "Why", rule.why, 0)
    for number, fix in enumerate(rule.fixes):
        labelled(out, "or" if number else "Do", fix, 0)
    for level, limit in sorted(rule.limits.items(), reverse=True):
        text = limit.text if isinstance(limit.text, str) else f"{limit.text:g}"
        labelled(out, level.name, f"limit {text} ({limit.mark}; {limit.source})", 0)
    for name, limit in rule.also.items():
        labelled(out, "also", f"{name} {limit.text} ({limit.mark}; {limit.source})", 0)
    if rule.limits:
        out.print()
        paragraph(
            out, f"The mule file may set another limit: [limits] {rule.id} = {{ limit = ..., because = ... }}"
        )
