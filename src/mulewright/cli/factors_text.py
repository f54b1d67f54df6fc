"""How do the factors from a mule to its target read?"""

from __future__ import annotations

from rich.console import Console

from mulewright.advice.factors import FactorTable, RateLesson
from mulewright.cli.console import paragraph, print_table
from mulewright.cli.names import together
from mulewright.facts.nodes import Node, number
from mulewright.tasks.comparing import CompareReport
from mulewright.units.shown import people, percent


def print_factors(out: Console, report: CompareReport) -> None:
    """Print by what B multiplies what A does, and what the rate of the accepted run says about gears."""
    out.print()
    if not report.two_machines:
        paragraph(
            out,
            f"No factors: both are states of one mule, {report.names[1]}; factors are between two machines.",
        )
        return
    paragraph(out, "BY WHICH FACTOR: what B does at the same command, over what A does", style="bold")
    if not report.tables:
        paragraph(out, "No motor is on both machines.", 2)
    for table in report.tables:
        _print_table(out, table)
    if report.lesson is not None:
        _print_lesson(out, report.lesson)


def _print_table(out: Console, table: FactorTable) -> None:
    out.print()
    basic = ", ".join(f"{symbol} {_factor(node)}" for symbol, node in table.basic.items())
    motors = "" if table.motors == (table.moves,) else f" ({together(table.motors)})"
    paragraph(out, f"{table.moves}{motors}: {basic}", 2)
    if table.all_one:
        paragraph(out, "Nothing is multiplied: every factor is 1.", 4)
        return
    rows = [(row.quantity, row.formula, _factor(row.node)) for row in table.rows if row.node.known]
    if rows:
        print_table(out, ("quantity", "is multiplied by", "factor"), rows)
    lacking = [row for row in table.rows if not row.node.known]
    if lacking:
        needs = sorted({path for row in lacking for path in row.node.gaps})
        names = "; ".join(row.quantity for row in lacking)
        paragraph(out, f"Cannot tell: {names}. Needs {', '.join(needs)}.", 4)
    if table.other_motor:
        paragraph(out, "The motor is another one in B; these factors hold for the same motor.", 4)
    if table.cap is not None:
        begin = f"begin at {percent(table.cap)} of the output, and raise it in steps"
        paragraph(out, f"First run: {begin if table.cap < 1 else 'no cap, B does no more at full stick'}.", 4)


def _print_lesson(out: Console, lesson: RateLesson) -> None:
    out.print()
    rate = percent(number(lesson.rate) or 0.0)
    speed = f", {_plain(lesson.speed)}," if lesson.speed.known else ""
    paragraph(out, f"RATE INTO GEARS: the run was accepted at a rate of {rate}", style="bold")
    for gears in lesson.gears:
        names = together(gears.motors)
        if gears.after.known:
            text = (
                f"{names}: the same speed{speed} at full signal needs a reduction of {_plain(gears.after)} "
                f"in B, {_factor(gears.factor)} the {_plain(gears.before)} of A"
            )
            counted = f", {_factor(gears.counted)} with the motors' free current counted"
            text += f"{counted if gears.counted.known else ''}."
        else:
            text = f"{names}: cannot tell which reduction; needs {', '.join(sorted(gears.after.gaps))}."
        paragraph(out, text, 2)
    paragraph(out, "Speed and steering hold for that machine. What the rate could not show of it:", 2)
    for hidden in lesson.hidden:
        paragraph(out, f"{hidden.what}: {_factor(hidden.factor)} {hidden.words} ({hidden.formula})", 4)


def _factor(node: Node) -> str:
    value = number(node)
    return f"x{people(value, '1')}" if value is not None else "unknown"


def _plain(node: Node) -> str:
    return people(number(node) or 0.0, node.unit)
