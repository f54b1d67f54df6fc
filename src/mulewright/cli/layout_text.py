"""How does a layout read? The best one with its reasons, what is as good, what would help."""

from __future__ import annotations

from collections.abc import Iterable

from rich.console import Console

from mulewright.cli.console import console, paragraph
from mulewright.layout.pricing import Entry, Priced
from mulewright.layout.problem import Seat
from mulewright.tasks.laying_out import LayoutReport

FEW = 2  # what is counted up to here is written as a word
NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def print_layout(report: LayoutReport) -> None:
    """Print the layout, from the best one to what was written."""
    out, plan = console(), report.plan
    paragraph(out, f"{report.opened.name} ({report.where})", style="bold")
    paragraph(out, _head(report))
    _print_priced(out, plan.best)
    _print_springs(out, report)
    _print_present(out, report)
    _print_ties(out, report)
    _print_trio(out, report)
    _print_changes(out, report)
    _print_packing(out, report)
    _print_section(out, "TO KNOW", plan.notes)
    _print_written(out, report)


def _head(report: LayoutReport) -> str:
    plan = report.plan
    proof = "no layout costs less" if plan.proved else "the best that was found; a better one may exist"
    text = f"Best layout: {plan.best.cost:g} points ({proof})."
    if plan.short:
        text += f" Left out, for want of a control or a channel: {', '.join(plan.best.left_out)}."
    return text


def _print_priced(out: Console, priced: Priced) -> None:
    for entry in priced.entries:
        out.print()
        paragraph(out, f"{entry.function.name}: {_seat(entry)}, {entry.cost:g}", style="bold")
        for line in sorted(entry.lines, key=lambda line: -line.cost):
            paragraph(out, line.text, indent=2)
    together = [one.line.text for one in priced.beside if one.line.cost]
    _print_section(out, "TOGETHER", [*together, *(line.text for line in priced.clashes)])


def _print_springs(out: Console, report: LayoutReport) -> None:
    springs = report.plan.springs
    wanted, there = len(springs.wanted), len(springs.there)
    if wanted:
        want = f"{_count(wanted)} speed function{'s want springs' if wanted > 1 else ' wants a spring'}"
        axes = (
            f"there {'is' if there == 1 else 'are'} {_count(there)} sprung ax{'is' if there == 1 else 'es'}"
        )
        names = f"{', '.join(springs.wanted)}; {', '.join(springs.there) or 'none'}"
        _print_section(out, "SPRINGS", [f"{want.capitalize()}, and {axes} ({names})."])


def _print_present(out: Console, report: LayoutReport) -> None:
    best, present = report.plan.best, report.plan.present
    missing = f"; without a control: {', '.join(present.left_out)}" if present.left_out else ""
    if not present.entries:
        lines = ["The file gives no function a control yet."]
    elif not list(_differences(best, present)) and not missing:
        lines = [f"The layout in the file is this one ({present.cost:g})."]
    else:
        lines = [f"The layout in the file: {present.cost:g} points{missing}."]
        lines += [f"{change} (in the file: {was})" for change, was in _differences(best, present)]
        lines += [line.text for line in present.clashes]
    _print_section(out, "AS IT IS", lines)


def _print_ties(out: Console, report: LayoutReport) -> None:
    plan = report.plan
    lines = []
    for one in plan.ties:
        more = one.cost - plan.best.cost
        how = "equal" if more <= 0 else f"{more:+g}"
        lines.append(f"{how}: {', '.join(change for change, _ in _differences(one, plan.best))}")
    if plan.more_ties:
        lines.append("and more of them")
    _print_section(out, "AS GOOD, OR NEARLY", lines)


def _print_trio(out: Console, report: LayoutReport) -> None:
    plan = report.plan
    lines = []
    for name, one in plan.pareto:
        differs = ", ".join(change for change, _ in _differences(one, plan.best)) or "the best layout itself"
        price = f"risk {one.part('risk'):g}, handling {one.part('handling'):g}, work {one.work}"
        lines.append(f"{name}: {price}; {differs}")
    _print_section(out, "THREE WAYS TO CHOOSE", lines)


def _print_changes(out: Console, report: LayoutReport) -> None:
    changes = report.plan.changes
    lines = []
    for one in changes:
        if one.gain > 0 or one.fits > 0:
            gain = f"a place for {one.fits} more" if one.fits > 0 else f"{one.gain:g} points less"
            lines.append(f"{one.what}: {gain}, {one.best.cost:g} in all")
    idle = [one.what for one in changes if one.gain <= 0 and one.fits <= 0]
    if idle:
        lines.append(f"nothing gained by: {', '.join(idle)}")
    _print_section(out, "ONE CHANGE OF THE HARDWARE", lines)


def _print_packing(out: Console, report: LayoutReport) -> None:
    plan = report.plan
    if not plan.short:
        return
    lines = [f"{one.moves[0].what}: {one.price:g} points, {_left(one.short)}" for one in plan.packing]
    if plan.packed is not None:
        what = "; ".join(one.what for one in plan.packed.moves)
        lines.append(f"cheapest, {plan.packed.price:g} points: {what}")
    else:
        lines.append("no set of up to three of these is enough")
    _print_section(out, "CHANNELS RUN SHORT", lines)


def _print_written(out: Console, report: LayoutReport) -> None:
    if report.applied:
        _print_section(out, "WRITTEN", [f"{path} = {_value(value)}" for path, value in report.values.items()])
        paragraph(out, f"The file as it was: {report.kept}", indent=2)
    elif report.values:
        moves = [f"{path} = {_value(value)}" for path, value in report.values.items()]
        _print_section(out, "WOULD BE WRITTEN WITH --apply", moves)
    if report.values:
        _print_section(out, "THEN BY HAND", report.by_hand)


def _print_section(out: Console, title: str, lines: Iterable[str]) -> None:
    found = list(lines)
    if found:
        out.print()
        paragraph(out, title, style="bold")
        for line in found:
            paragraph(out, line, indent=2)


def _differences(one: Priced, other: Priced) -> Iterable[tuple[str, str]]:
    """What sits elsewhere in one than in another, and where it sits there."""
    for entry in one.entries:
        before = other.layout.get(entry.function.name, Seat(None, None))
        if (before.control, before.channel) != (entry.seat.control, entry.seat.channel):
            was = before.control.rsplit(".", 1)[1] if before.control else "nothing"
            yield f"{entry.function.name} on {_seat(entry)}", was


def _seat(entry: Entry) -> str:
    control = entry.seat.control.rsplit(".", 1)[1] if entry.seat.control else ""
    channel = f"channel {entry.seat.channel.number}" if entry.seat.channel is not None else "through the mix"
    second = " of the second radio" if str(entry.seat.control).startswith("second_") else ""
    return f"{control}{second}, {channel}" if control else channel


def _count(number: int) -> str:
    return NUMBERS[number] if number < len(NUMBERS) else str(number)


def _left(short: int) -> str:
    return f"{_count(short)} still left out" if short else "and everything has a place"


def _value(value: object) -> str:
    from mulewright.design.edits import toml

    return toml(value)
