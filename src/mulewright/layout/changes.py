"""What would one change of the hardware gain: a spring, a third position, another receiver or transmitter?"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from mulewright.design.edits import toml
from mulewright.design.mule import Mule
from mulewright.design.paths import look_up, parse_path, written
from mulewright.errors import MulewrightError
from mulewright.facts.graph import Evaluation
from mulewright.layout.describing import describe
from mulewright.layout.pricing import Priced
from mulewright.layout.problem import RECEIVER_OF
from mulewright.layout.solving import solve

Again = Callable[[Sequence[str]], Mule]  # the same mule with further settings


@dataclass(frozen=True)
class Change:
    """One change of the hardware, and the best layout with it."""

    what: str
    settings: tuple[str, ...]
    gain: float  # points that the best layout then costs less
    fits: int  # functions more that then find a place
    best: Priced


def possible(mule: Mule) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Every single change that the mule's controls and the shelf allow: in words, and as settings."""
    for radio in RECEIVER_OF:
        table = getattr(mule.file, radio)
        for name, control in table.control.items() if table is not None else ():
            id = written((radio, "control", name))
            convertible = control.conversion not in ("fitted", "impossible")
            if control.kind == "stick" and not control.sprung and convertible:
                yield f"self-centring conversion on {name}", (f"{id}.conversion=fitted",)
            positions = control.position_count.value if control.position_count is not None else 2
            if control.kind == "switch" and positions < 3:
                yield f"third position on {name}", (f"{id}.position_count=3",)
    for thing in [name for pair in RECEIVER_OF.items() for name in reversed(pair)]:
        table = getattr(mule.file, thing)
        kind = thing.removeprefix("second_")
        word = ("second " if thing != kind else "") + ("transmitter" if kind == "radio" else "receiver")
        for _, part in mule.loaded.catalog.ids(kind) if table is not None else ():
            if part != table.part:
                yield f"{word} {part}", (f"{thing}.part={part}",)


def _as_new(mule: Mule, settings: Sequence[str]) -> list[str]:
    """The same settings; what the file says of an old part otherwise than its sheet is not said of a new one."""
    found = [*settings]
    for thing, part in (one.split(".part=") for one in settings if ".part=" in one):
        raw = mule.loaded.catalog.find(thing.removeprefix("second_"), part).raw
        for path in (one.path for one in mule.loaded.overrides if one.path.startswith(f"{thing}.")):
            value = look_up(dict(raw), parse_path(path.removeprefix(f"{thing}.")))
            found.append(f"{path}={'?' if value is None else toml(value)}")
    return found


def what_changes_gain(
    mule: Mule, now: Priced, again: Again, step: Callable[[], None] = lambda: None
) -> tuple[list[Change], list[str]]:
    """Work out what each change would gain, most first.

    Parameters
    ----------
    mule : Mule
        The mule as it is.
    now : Priced
        Its best layout.
    again : callable
        Makes the same mule with further settings.
    step : callable
        Called after each change.

    Returns
    -------
    changes : list of Change
        Each with the best layout that it allows.
    skipped : list of str
        Changes that could not be tried, and why.
    """
    found: list[Change] = []
    skipped: list[str] = []
    try:
        for what, settings in possible(mule):
            try:
                found.append(_tried(mule, now, again, what, settings))
            except MulewrightError as no:
                skipped.append(f"{what}: {no.what}")
            step()
    except KeyboardInterrupt:
        skipped.append("stopped by hand: not every change of the hardware was tried")
    return sorted(found, key=lambda one: (-one.fits, -one.gain, one.what)), skipped


def _tried(mule: Mule, now: Priced, again: Again, what: str, settings: tuple[str, ...]) -> Change:
    best = solve(describe(Evaluation(again(_as_new(mule, settings)))))[1].priced
    fits = len(now.left_out) - len(best.left_out)
    return Change(what, settings, round(now.cost - best.cost, 6), fits, best)
