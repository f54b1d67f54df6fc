"""How do the candidates for a function compare in a picture? Margin against speed, the best of them numbered."""

from __future__ import annotations

import logging
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mulewright.errors import FileProblem

if TYPE_CHECKING:
    from matplotlib.axes import Axes

KINDS = (".svg", ".png")
MARKERS = "osDph8^v<>dP"
PLAIN, LISTED = 30, 190  # [pt2] of a marker; a number fits into a listed one
SIZE = (7.6, 5.4)  # [in]
SPREAD = 5  # times the lowest value, from which an axis is logarithmic


@dataclass(frozen=True)
class Point:
    """One candidate in the picture."""

    margin: float
    speed: float
    group: str  # points of one group share a marker
    number: int | None  # where it is listed
    trips: bool  # whether a check forbids its use


@dataclass(frozen=True)
class Picture:
    """What is shown; speeds in the unit that is written beside them."""

    title: str
    speed: str
    margin: str
    points: Sequence[Point]
    cloud: Sequence[tuple[float, float]]  # speed and margin
    now: tuple[float, float] | None
    listed: Sequence[str]  # a line for each number


def plot_choice(picture: Picture, path: Path) -> None:
    """Draw it into a file.

    Raises
    ------
    FileProblem
        If the ending is neither .svg nor .png, or the file cannot be written.
    """
    if path.suffix.lower() not in KINDS:
        raise FileProblem(
            "a picture of this kind cannot be drawn", str(path), f"a name that ends in {' or '.join(KINDS)}"
        )
    import matplotlib as mpl

    logging.getLogger("matplotlib").setLevel(
        logging.ERROR
    )  # what it says of its caches is nobody's business here
    mpl.use("Agg")
    from matplotlib.figure import Figure

    looks: dict[Any, Any] = {
        "svg.fonttype": "none",
        "svg.hashsalt": "mulewright",
        "font.family": "DejaVu Sans",
        "font.size": 9,
    }
    with mpl.rc_context(looks):
        lines = len(picture.listed)
        figure = Figure(figsize=(SIZE[0], SIZE[1] + 0.19 * lines), layout="constrained")
        upper, lower = figure.subplots(2, 1, height_ratios=[SIZE[1], max(0.19 * lines, 0.01)])
        _draw(upper, picture)
        _list(lower, picture)
        dated: dict[str, Any] = {"Date": None} if path.suffix.lower() == ".svg" else {}
        try:
            figure.savefig(path, dpi=150, metadata=dated)
        except OSError as no:
            raise FileProblem(f"cannot be written: {no.strerror or no}", str(path)) from no


def _draw(axes: Axes, picture: Picture) -> None:
    if picture.cloud:
        speeds, margins = zip(*picture.cloud, strict=True)
        axes.scatter(
            speeds,
            margins,
            s=5,
            color="0.85",
            linewidths=0,
            zorder=1,
            label="serves, but is beaten",
            rasterized=True,
        )
    groups = list(dict.fromkeys(point.group for point in picture.points))
    for place, group in enumerate(groups):
        marker = MARKERS[place % len(MARKERS)]
        for point in (point for point in picture.points if point.group == group):
            size, level = (LISTED, 6 + 0.1 * point.number - 0.05) if point.number else (PLAIN, 3.0)
            face = "white" if point.trips else "0.15"
            axes.scatter(
                point.speed, point.margin, marker=marker, s=size, facecolors=face, edgecolors="0.15",
                linewidths=1.0, zorder=level,
            )  # fmt: skip
        axes.scatter([], [], marker=marker, s=PLAIN, color="0.15", label=group)
    if any(point.trips for point in picture.points):
        axes.scatter(
            [],
            [],
            marker="o",
            s=PLAIN,
            facecolors="white",
            edgecolors="0.15",
            label="hollow: a check says stop",
        )
    if picture.now is not None:
        axes.scatter(
            *picture.now,
            marker="+",
            s=130,
            color="0.15",
            linewidths=1.8,
            zorder=4,
            label="as the file has it",
        )
    _scale(axes, picture)
    axes.grid(color="0.9", linewidth=0.6, zorder=0)
    axes.set_axisbelow(True)
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
    axes.set_xlabel(picture.speed)
    axes.set_ylabel(picture.margin)
    axes.set_title(picture.title, loc="left", fontsize=11, fontweight="bold")
    axes.legend(loc="upper left", bbox_to_anchor=(1.01, 1.0), frameon=False, borderaxespad=0.0, fontsize=8)
    _number(axes, picture)


def _scale(axes: Axes, picture: Picture) -> None:
    """Scale each axis, evenly or by shares as its values spread, with room around what is shown."""
    from matplotlib.ticker import FuncFormatter, LogLocator, MaxNLocator, NullLocator

    every = [*picture.cloud, *((point.speed, point.margin) for point in picture.points)]
    every += [picture.now] if picture.now is not None else []
    for axis, scale, limit, values in (
        (axes.xaxis, axes.set_xscale, axes.set_xlim, [one[0] for one in every]),
        (axes.yaxis, axes.set_yscale, axes.set_ylim, [one[1] for one in every]),
    ):
        if not values:
            continue
        low, high = min(values), max(values)
        if high > SPREAD * low:
            scale("log")
            limit(low / 1.2, high * 1.2)
            axis.set_major_locator(LogLocator(subs=(1.0, 2.0, 5.0)))
        else:
            room = 0.08 * (high - low) or 0.1 * high
            limit(max(low - room, 0.0), high + room)
            axis.set_major_locator(MaxNLocator(6))
        axis.set_major_formatter(FuncFormatter(lambda value, _: f"{value:g}"))
        axis.set_minor_locator(NullLocator())


def _number(axes: Axes, picture: Picture) -> None:
    """Write its number into each listed point."""
    for point in picture.points:
        if point.number is not None:
            axes.annotate(
                str(point.number), (point.speed, point.margin), ha="center", va="center_baseline", fontsize=8,
                fontweight="bold", color="0.15" if point.trips else "white", zorder=6 + 0.1 * point.number,
            )  # fmt: skip


def _list(axes: Axes, picture: Picture) -> None:
    """Write what the numbers stand for."""
    axes.axis("off")
    for place, line in enumerate(picture.listed):
        axes.text(
            0.0,
            1.0 - (place + 0.5) / max(len(picture.listed), 1),
            line,
            va="center",
            fontsize=8,
            transform=axes.transAxes,
        )
