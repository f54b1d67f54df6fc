"""Draw a choice of parts: margin against speed, with a line for each candidate that is numbered."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from mulewright.advice.choosing.judge import Judged
from mulewright.paper.choice_plot import Picture, Point, plot_choice
from mulewright.tasks.choosing import ChoiceReport
from mulewright.units.shown import people

TURN = 2 * np.pi  # [rad/s] above it a shaft is counted in turns, below it an arm in degrees


def draw(report: ChoiceReport, path: Path) -> None:
    """Draw what was found into an SVG or a PNG file; where nothing serves, the file as it is stands alone.

    Raises
    ------
    FileProblem
        If it cannot be drawn or written there.
    """
    unit, factor = _unit(report)
    numbered = {one.place: place for place, one in enumerate(report.shown, 1)}
    every = [one for one in report.verdicts.best if np.isfinite(one.numbers[0])]
    points = [
        Point(one.numbers[0], one.numbers[1] * factor, one.labels[0], numbered.get(one.place), one.severe > 0)
        for one in every
    ]
    margin, speed = report.verdicts.now.numbers[:2]
    now = (speed * factor, margin) if np.isfinite(margin) and margin > 0 and speed > 0 else None
    plot_choice(
        Picture(
            title=f"{report.mule}: what could serve the {report.function}",
            speed=f"speed at full stick, rested battery [{unit}]",
            margin="margin: load at which something gives, over the load at work",
            points=points,
            cloud=[(fast * factor, margin) for fast, margin in report.cloud()],
            now=now,
            listed=[f"{numbered[one.place]}  {_line(one, report.sized)}" for one in report.shown],
        ),
        path,
    )


def _unit(report: ChoiceReport) -> tuple[str, float]:
    """The unit in which people read these speeds, and how many of it are one of SI."""
    if report.unit == "m/s":
        return "m/s", 1.0
    fastest = max((one.numbers[1] for one in report.verdicts.best), default=0.0)
    return ("rpm", 60 / TURN) if fastest >= TURN else ("deg/s", 360 / TURN)


def _line(one: Judged, sized: str) -> str:
    motor, ratio, size, controller, battery, wire = one.labels
    parts = [motor, f"ratio {ratio}", f"{sized} {size}" if sized else "", controller, battery, f"wire {wire}"]
    mass = one.numbers[4]
    weighs = f", {people(mass, 'kg')}" if np.isfinite(mass) else ""
    return f"{', '.join(filter(None, parts))}: {one.weakest} gives first{weighs}"
