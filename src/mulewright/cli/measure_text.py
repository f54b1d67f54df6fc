"""How does a worksheet of measurements read at a bench? What, with what, how, for what, and what to type where."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from rich.console import Console

from mulewright.advice.entering import shown
from mulewright.advice.measuring import Left, Line, Settled, Worksheet
from mulewright.cli.console import console, labelled, paragraph
from mulewright.cli.names import together
from mulewright.design.mule import Mule
from mulewright.tasks.measuring import MeasureReport
from mulewright.units.shown import percent

MOST_TIES = 3
CERTAIN = 0.005  # a smaller doubt is not worth a word


def print_worksheet(report: MeasureReport) -> None:
    """Print what to measure, what stays open, and what the order rests on."""
    out, sheet = console(), report.sheet
    paragraph(out, f"{report.opened.name} ({report.where})", style="bold")
    if not sheet.undecided and not sheet.doubtful:
        paragraph(out, "Nothing to measure: every verdict could be told, and none is in doubt.")
        return
    paragraph(out, _head(report))
    for _, alike in groupby(sheet.lines, _sameness):
        _print_lines(out, report.opened.mule, list(alike))
    _print_ties(out, sheet)
    _print_left(out, sheet)
    _print_basis(out, sheet)


def _head(report: MeasureReport) -> str:
    sheet = report.sheet
    open_ = f"Could not be told: {sheet.undecided}. In doubt: {sheet.doubtful}."
    if not sheet.lines:
        return f"{open_} Nothing that could be measured here would settle one of them."
    within = f" of {report.limit:g}" if report.limit is not None else ""
    return (
        f"{open_} Measurements worth making, most verdicts settled per minute first: "
        f"{len(sheet.lines)}, {sheet.minutes:g}{within} minutes."
    )


def _sameness(line: Line) -> tuple[object, ...]:
    """Lines that follow each other and are equal in this are printed as one."""
    way = line.measurement.means[0].way
    settles = tuple((one.verdict.check.id, _gain(one)) for one in line.settles)
    return way, settles, line.together or line.rank if line.together or line.measurement.also else ()


def _print_lines(out: Console, mule: Mule, lines: Sequence[Line]) -> None:
    first, last = lines[0], lines[-1]
    means, many = first.measurement.means[0], len(lines) > 1
    out.print()
    ranks = f"{first.rank} to {last.rank}" if many else f"{first.rank}"
    more = f" and {len(lines) - 1} like it" if many else ""
    each = " each" if many else ""
    head = f"{ranks}. {means.path}{more}: {means.way.instrument}, {means.way.minutes:g} min{each}"
    paragraph(out, head, style="bold")
    labelled(out, "How", means.way.how)
    labelled(out, "For", _settles([one for line in lines for one in line.settles]))
    turns = _turns(mule, lines)
    if turns:
        labelled(out, "Turns", turns)
    if first.together:
        every = "all of them" if len(first.together) > 1 else "both"
        labelled(out, "With", f"{', '.join(first.together)}, for what needs {every}")
    labelled(out, "Type", means.enter)
    if first.measurement.also:
        labelled(out, "", f"and the same at {', '.join(first.measurement.also)}")
    if many:
        labelled(out, "", f"and what you find at {', '.join(line.measurement.path for line in lines[1:])}")


def _turns(mule: Mule, lines: Sequence[Line]) -> str:
    """Where verdicts turn that one number decides nearly alone."""
    found: dict[str, dict[str, None]] = {}
    for line in lines:
        for one in line.settles:
            if one.turns_at is not None:
                near = shown(mule, line.measurement.path, one.turns_at)
                found.setdefault(near, {})[one.verdict.check.id] = None
    return "; ".join(f"{', '.join(ids)} near {near}" for near, ids in found.items())


def _settles(settles: Sequence[Settled]) -> str:
    """Say for each kind of gain, once, which verdicts it is about."""
    groups: dict[str, dict[str, list[str]]] = {}
    for one in settles:
        check = one.verdict.check
        about = groups.setdefault(_gain(one), {}).setdefault(f"{check.id} {check.name}", [])
        about.extend([one.verdict.entity] if one.verdict.entity else [])
    return "; ".join(f"{gain}: {', '.join(map(_about, checks.items()))}" for gain, checks in groups.items())


def _about(check: tuple[str, list[str]]) -> str:
    name, entities = check
    return f"{name} ({together(entities)})" if entities else name


def _gain(one: Settled) -> str:
    if not one.sure:
        return "can be told, unless more turns out to be missing"
    if one.before == 1:
        return "can be told" + (f", wrong in {_cases(one.after)}" if one.after > CERTAIN else "")
    after = _cases(one.after) if one.after > CERTAIN else "next to none"
    return f"wrong in {_cases(one.before)}, then in {after}"


def _cases(share: float) -> str:
    return f"{percent(share, 2)} of cases"


def _print_ties(out: Console, sheet: Worksheet) -> None:
    if not sheet.exact:
        out.print()
        paragraph(out, "Too many hang together to try every set: this is the best that was found.")
    if sheet.ties:
        out.print()
        paragraph(out, f"JUST AS GOOD, in the same time: {len(sheet.ties)} other sets", style="bold")
        for tie in sheet.ties[:MOST_TIES]:
            paragraph(out, ", ".join(tie), 2)


def _print_left(out: Console, sheet: Worksheet) -> None:
    if not sheet.left:
        return
    out.print()
    paragraph(out, "STAYS OPEN", style="bold")
    groups: dict[tuple[str, str, str], list[Left]] = {}
    for one in sheet.left:
        key = (
            one.verdict.check.id,
            "cannot be told" if one.doubt == 1 else f"wrong in {_cases(one.doubt)}",
            one.why,
        )
        groups.setdefault(key, []).append(one)
    for (id, doubt, why), same in groups.items():
        check = same[0].verdict.check
        entities = [one.verdict.entity for one in same if one.verdict.entity]
        about = f"{check.name}, {together(entities)}" if entities else check.name
        labelled(out, id, f"{about}: {doubt}; {why}")


def _print_basis(out: Console, sheet: Worksheet) -> None:
    out.print()
    if sheet.at_hand.everything:
        labelled(
            out, "!", "No instrument is named in the file or by --with: every one is taken to be at hand.", 0
        )
    _print_paths(out, "Missing, so drawn over the usual range of such a number", sheet.study.usual)
    _print_paths(out, "No more than estimated or assumed, so drawn over the usual spread", sheet.study.spread)


def _print_paths(out: Console, what: str, paths: Sequence[str]) -> None:
    if paths:
        labelled(out, "!", f"{what}: {', '.join(paths)}.", 0)
