"""What to measure next on a mule, with which instrument, and where to enter the result."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from mulewright.advice.at_hand import at_hand
from mulewright.advice.measuring import Left, Line, Worksheet, worksheet
from mulewright.errors import MulewrightError
from mulewright.tasks.opening import Opened, open_mule

DIGITS = 4


@dataclass(frozen=True)
class MeasureReport:
    """A worksheet for one mule."""

    opened: Opened
    where: str
    sheet: Worksheet
    limit: float | None

    def as_dict(self) -> dict[str, Any]:
        """The worksheet for programs."""
        sheet = self.sheet
        return {
            "mule": self.opened.name,
            "worksheet": [_line(line) for line in sheet.lines],
            "undecided": sheet.undecided,
            "doubtful": sheet.doubtful,
            "minutes": sheet.minutes,
            "left": [_left(one) for one in sheet.left],
            "ties": [list(tie) for tie in sheet.ties],
            "exact": sheet.exact,
            "drawn": {"usual_range": list(sheet.study.usual), "usual_spread": list(sheet.study.spread)},
        }


def measure_file(
    path: str | Path,
    settings: Sequence[str] = (),
    variant: str | None = None,
    minutes: float | None = None,
    instruments: Sequence[str] | None = None,
) -> MeasureReport:
    """Read a mule file and work out what to measure next.

    Raises
    ------
    MulewrightError
        If the file cannot be read, an instrument is not known, or the minutes are none.
    """
    if minutes is not None and not (math.isfinite(minutes) and minutes > 0):
        raise MulewrightError(
            "no time to measure in", "--minutes", "a number of minutes above 0", f"{minutes:g}"
        )
    opened = open_mule(path, settings, variant)
    named = None
    if instruments:
        named = [word.strip() for text in instruments for word in text.split(",") if word.strip()]
    return MeasureReport(
        opened, str(path), worksheet(opened.evaluation, at_hand(opened.mule, named), minutes), minutes
    )


def _line(line: Line) -> dict[str, Any]:
    first = line.measurement.means[0]
    return {
        "rank": line.rank,
        "path": first.path,
        "also": list(line.measurement.also),
        "instrument": first.way.instrument,
        "how": first.way.how,
        "minutes": first.way.minutes,
        "settles": [
            {
                "check": one.verdict.check.id,
                "entity": one.verdict.entity,
                "by": round(one.by, DIGITS),
                "turns_at": one.turns_at,
            }
            for one in line.settles
        ],
        "together": list(line.together),
        "enter": "\n".join(means.enter for means in line.measurement.means),
    }


def _left(one: Left) -> dict[str, Any]:
    return {
        "check": one.verdict.check.id,
        "entity": one.verdict.entity,
        "doubt": round(one.doubt, DIGITS),
        "why": one.why,
    }
