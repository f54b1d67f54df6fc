"""How does a choice of parts read? The best few in two tables, then what holds for all of them."""

from __future__ import annotations

import shlex
from collections import defaultdict
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from rich.console import Console

from mulewright.advice.choosing.judge import PROPERTIES, Judged, Trip
from mulewright.checks.engine import Severity
from mulewright.cli.console import console, paragraph, print_table
from mulewright.cli.plain import say
from mulewright.tasks.choosing import ChoiceReport
from mulewright.units.shown import people, percent

PARTS = ("", "motor", "ratio", "size", "controller", "battery", "wire")
SIZE = PARTS.index("size")
LACKING = {
    "margin": "it has {} of the margin that is asked for",
    "speed": "it has {} of the speed that is asked for",
    "slowness": "the fastest that is asked for is {} of its speed",
    "unbroken": "held fast, something breaks at {} of the load at which it stalls or slips",
    "controller volts": "its controller bears {} of the volts of the fresh pack",
    "wire": "its wire bears {} of the rating of its fuse",
}
NUMBERS = ("", *PROPERTIES, "trips")


def print_choice(report: ChoiceReport, plot: Path | None) -> None:
    """Print what was found."""
    out = console()
    found, best = report.served, len(report.verdicts.best)
    paragraph(
        out,
        f"{report.function}: {_number(found.candidates)} candidates, {_number(found.feasible)} serve",
        style="bold",
    )
    paragraph(out, _asked(report), 2)
    if not report.complete:
        paragraph(out, f"Stopped after {_number(found.tried)} of them; this is the best so far.", 2)
    for reason in report.skipped:
        paragraph(out, f"Left out: {reason}.", 2)
    if report.shown:
        _print_best(out, report)
        paragraph(out, _left_out(report, best), 2)
    else:
        paragraph(out, _nothing(report), 2)
    if report.shown and (anyway := _trips(report.verdicts.anyway)):
        paragraph(out, f"Trips whatever is chosen here: {anyway}.", 2)
    if report.shown and report.shown[0].settings:
        words = (f"--set {shlex.quote(setting)}" for setting in report.shown[0].settings)
        paragraph(out, "Number 1 in full:", 2)
        say(f"    mulewright check {shlex.quote(report.where)} {' '.join(words)}")
    if plot is not None:
        say(f"  Drawn into {plot}")


def _print_best(out: Console, report: ChoiceReport) -> None:
    rows = [*((str(place), one) for place, one in enumerate(report.shown, 1)), ("now", report.verdicts.now)]
    print_table(out, _without(report, PARTS), (_without(report, (name, *one.labels)) for name, one in rows))
    print_table(out, NUMBERS, (_numbers(name, one, report) for name, one in rows))
    for name, one in rows[:-1]:
        if praise := report.praise[one.place]:
            paragraph(out, f"{name}: {', '.join(praise)}", 2)
    gives: dict[str, list[str]] = {}
    for name, one in rows:
        gives.setdefault(f"{one.weakest} {one.fails}", []).append(name)
    for what, names in gives.items():
        paragraph(out, f"gives first in {', '.join(names)}: {what}", 2)


def _without(report: ChoiceReport, cells: Sequence[str]) -> tuple[str, ...]:
    """The cells of a row, that of the size only where there is one."""
    named = (report.sized if cell == "size" else cell for cell in cells)
    return tuple(cell for place, cell in enumerate(named) if report.sized or place != SIZE)


def _numbers(name: str, one: Judged, report: ChoiceReport) -> tuple[str, ...]:
    shown = (people(value, unit) for value, unit in zip(one.numbers, report.units.values(), strict=True))
    return name, *shown, _trips(one.trips)


def _trips(trips: Sequence[Trip]) -> str:
    """Ids of the checks that trip, the severest first."""
    found: dict[Severity, set[str]] = defaultdict(set)
    for trip in trips:
        found[trip.severity].add(trip.check)
    return ", ".join(
        f"{severity.name} {' '.join(sorted(ids))}" for severity, ids in sorted(found.items(), reverse=True)
    )


def _asked(report: ChoiceReport) -> str:
    asked = report.asked
    words = [f"a margin of {people(asked.margin, '1')} at least"]
    if asked.slowest > 0:
        words.append(f"{people(asked.slowest, report.unit)} at least")
    if np.isfinite(asked.fastest):
        words.append(f"{people(asked.fastest, report.unit)} at most")
    return (
        f"Asked for: {', '.join(words)}; held fast nothing breaks before the motor stalls or the wheel slips; "
        "the controller bears the fresh pack, and the wire its fuse."
    )


def _left_out(report: ChoiceReport, best: int) -> str:
    return (
        f"{best} of them {'is' if best == 1 else 'are'} beaten by none. Each of the others has one among these that "
        f"is at most {percent(report.alike, 2)} worse in margin, speed, current, heat and mass, and whose battery, "
        "controller and wire make no more checks say stop."
    )


def _nothing(report: ChoiceReport) -> str:
    if report.nearest is None:
        return "Nothing was tried."
    labels, lacks, reach = report.nearest
    return (
        f"Nothing on the shelf serves. Nearest comes {', '.join(filter(None, labels))}: "
        f"{LACKING[lacks].format(percent(reach, 2))}, {percent(1 - reach, 2)} too little."
    )


def _number(count: int) -> str:
    """A count with its thousands apart."""
    return f"{count:,}".replace(",", " ")
