"""How does a comparison read? What trips now first, then what was changed, what moved most, and the factors."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rich.console import Console

from mulewright.advice.comparing import Turn, VerdictChange, short
from mulewright.advice.differing import FactChange
from mulewright.cli.console import console, labelled, paragraph
from mulewright.cli.factors_text import print_factors
from mulewright.cli.inputs_text import gathered, print_inputs
from mulewright.cli.names import STYLES, together
from mulewright.facts.nodes import Node, number
from mulewright.tasks.comparing import CompareReport
from mulewright.units.shown import people

MOST_ENTITIES, MOST_FACTS = 6, 3


def print_comparison(report: CompareReport) -> None:
    """Print a whole comparison."""
    out = console()
    for label, name, where in zip("AB", report.names, report.where, strict=True):
        paragraph(out, f"{label}  {name} ({where})", style="bold")
    if report.same:
        paragraph(out, "No difference.")
        return
    counts = [f"{len(report.of(turn))} {words}" for turn, words in TURNS.items() if report.of(turn)]
    paragraph(out, f"Verdicts: {', '.join(counts) or 'all as before'}.")
    paragraph(out, f"{len(report.inputs)} inputs and {len(report.facts)} facts differ.")
    _worse(out, report.of(Turn.WORSE))
    _unknown(out, report.of(Turn.UNKNOWN))
    for turn in TITLES:
        _turned(out, turn, report.of(turn))
    print_inputs(out, report)
    _facts(out, report)
    print_factors(out, report)


TURNS = {
    Turn.WORSE: "worse",
    Turn.UNKNOWN: "newly unknown",
    Turn.BETTER: "better",
    Turn.GONE: "gone with the thing that they were about",
    Turn.SETTLED: "told now",
    Turn.OTHER: "on one side only",
}


def _title(out: Console, text: str) -> None:
    out.print()
    paragraph(out, text, style="bold")


TITLES = {
    Turn.BETTER: "BETTER: trips no more, or less severely",
    Turn.GONE: "GONE: tripped about things that B has not",
    Turn.SETTLED: "CAN BE TOLD NOW",
}


# --- verdicts


def _worse(out: Console, changes: Sequence[VerdictChange]) -> None:
    if changes:
        _title(out, "WORSE: trips now, or more severely")
    for group in alike(changes):
        first = group[0]
        assert first.after is not None
        was = "" if first.between else f" (was {short(first.was)})"
        labelled(out, first.after.severity.name, f"{_named(group)}{was}", 0, STYLES[first.after.severity])
        labelled(out, "What", first.after.what)


def _unknown(out: Console, changes: Sequence[VerdictChange]) -> None:
    if changes:
        _title(out, "NEWLY UNKNOWN: cannot be told any more")
    for group in alike(changes):
        needs = dict.fromkeys(path for one in group if one.after is not None for path in one.after.needs)
        why = f"needs {', '.join(gathered(needs))}"
        was = "" if group[0].between else f"was {short(group[0].was)}; "
        _line(out, group, f"{was}{why}")


def _turned(out: Console, turn: Turn, changes: Sequence[VerdictChange]) -> None:
    if changes:
        _title(out, TITLES[turn])
    for group in alike(changes):
        now = "" if turn is Turn.GONE else f" -> {short(group[0].now)}"
        _line(out, group, f"{short(group[0].was)}{now}")


def _line(out: Console, group: Sequence[VerdictChange], says: str) -> None:
    first = group[0].check
    names = together([one.entity for one in group])
    labelled(out, first.id, f"{first.name}{f', {names}' if names else ''}: {says}")


def _named(group: Sequence[VerdictChange]) -> str:
    return f"{group[0].check.id} {group[0].check.name}: {together([one.entity for one in group])}"


def alike(changes: Iterable[VerdictChange]) -> list[list[VerdictChange]]:
    """Group changes of one check that read the same; of those that cannot be told, whatever they lack."""

    def key(one: VerdictChange) -> tuple[str, str, str, str]:
        what = one.after.what if one.turn is Turn.WORSE and one.after is not None else ""
        return one.check.id, one.was, one.now, what

    found: dict[tuple[str, str, str, str], list[VerdictChange]] = {}
    for one in changes:
        found.setdefault(key(one), []).append(one)
    return list(found.values())


# --- facts


def _facts(out: Console, report: CompareReport) -> None:
    """Print the facts that changed most among those that checks compare, a few for each thing."""
    judged = report.judged
    telling = [
        one
        for one in report.facts
        if one.relative is not None and one.worked_out and (one.entity, one.name) in judged
    ]
    if not telling:
        return
    _title(out, "WHAT MOVED MOST, of what checks compare")
    by_entity: dict[str, list[FactChange]] = {}
    for one in telling:
        by_entity.setdefault(one.entity, []).append(one)
    lines = {entity: tuple(map(_moved, facts[:MOST_FACTS])) for entity, facts in by_entity.items()}
    same: dict[tuple[str, ...], list[str]] = {}
    for entity, said in lines.items():
        same.setdefault(said, []).append(entity)
    for said, names in list(same.items())[:MOST_ENTITIES]:
        paragraph(out, together(names), 2)
        for line in said:
            paragraph(out, line, 4)
    paragraph(out, f"All {len(report.facts)} stand in the output of --json.", 2)


def _moved(one: FactChange) -> str:
    before, after = (_shown(side) for side in (one.before, one.after))
    return f"{one.node.says}: {before} -> {after}"


def _shown(node: Node | None) -> str:
    value = number(node) if node is not None else None
    return people(value, node.unit) if node is not None and value is not None else "unknown"
