"""Which endpoint makes a mule run straight that drifted aside by so much, on a run of such a length?"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from mulewright.errors import NotFound
from mulewright.facts.straightening import OTHER, DriftFacts, FasterSideFacts
from mulewright.tasks.opening import open_mule
from mulewright.tasks.sheets import Cell, Sheet, Sheets, figure

COLUMNS = (
    "it drifts to the",
    "so the faster side is",
    "channel",
    "mismatch",
    "endpoint now",
    "set it to",
    "pulse",
)
AFTER = (
    "The endpoint is the one that forward uses; it is the full stick that is set straight.",
    "Drive the same way backwards and measure again: the endpoint below neutral is a setting of its own.",
    "If the curve changes its side backwards, it is the neutral, not the endpoint.",
)
BOXED = (
    "A box mixes for these wheels, so none of them has an endpoint of its own: a channel is a control there, not a "
    "wheel. Cure it mechanically, mix in the radio, or accept it."
)


def straighten(
    path: str | Path,
    distance: str,
    sideways: str,
    to: str | None = None,
    settings: Sequence[str] = (),
    variant: str | None = None,
) -> Sheets:
    """Lay a measured drift over a mule file, and work out the endpoint to set.

    Raises
    ------
    NotFound
        If nothing drives the mule.
    """
    if open_mule(path, settings, variant).mule.file.drive is None:
        raise NotFound(
            "nothing drives this mule over the floor", str(path), "a mule with a [drive]", "no drive"
        )
    measured = [f"drive.drift_run={distance}", f"drive.drift_seen={sideways}"]
    measured += [f"drive.drifts_to={to}"] if to is not None else []
    opened = open_mule(path, [*settings, *measured], variant)
    drift = opened.evaluation.entity(DriftFacts, "drive")
    noted = drift.drifts_to
    every = FasterSideFacts.all(opened.evaluation)
    rows: list[tuple[Cell, ...]] = []
    for drifts_to, faster in OTHER.items():
        if noted in (None, drifts_to):
            rows += _rows(drift, [one for one in every if one.side == faster], drifts_to, faster)
    boxed = any(one.boxed for one in every)
    below = (BOXED,) if boxed else AFTER
    columns = COLUMNS[:2] + COLUMNS[3:4] if boxed else COLUMNS
    title = f"drift of {sideways} on {distance}"
    return Sheets(opened, (Sheet(title, columns, tuple(rows), (), below),))


def _rows(
    drift: DriftFacts, wheels: Sequence[FasterSideFacts], drifts_to: str, faster: str
) -> list[tuple[Cell, ...]]:
    mismatch = figure(drift, "drift_mismatch", as_percent=True)
    if any(wheel.boxed for wheel in wheels):
        return [(drifts_to, faster, mismatch)]
    by_channel = {wheel.channel.id: wheel for wheel in wheels}
    return [
        (
            drifts_to,
            faster,
            channel.rsplit(".", 1)[1],
            mismatch,
            figure(wheel, "travel_ahead", as_percent=True),
            figure(wheel, "straight_ahead", as_percent=True),
            figure(wheel, "straight_pulse"),
        )
        for channel, wheel in by_channel.items()
    ]
