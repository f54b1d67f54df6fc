"""Choose parts for a function: try every candidate of the shelf, and tell which nothing beats."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

import numpy as np

from mulewright.advice.choosing.bench import Bench, bench
from mulewright.advice.choosing.judge import PROPERTIES, Judged, Trip, Verdicts, judge_served
from mulewright.advice.choosing.search import Served, search
from mulewright.advice.choosing.sizes import size_place
from mulewright.advice.choosing.slots import SLOTS, slots_of
from mulewright.advice.choosing.tables import Asked, Tables, tables_of
from mulewright.design.mule import link
from mulewright.design.resolve import load
from mulewright.errors import FileProblem, NotFound, closest
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import Missing
from mulewright.facts.serving import ServiceFacts, service_of
from mulewright.shelf.catalog import Catalog, catalog_for
from mulewright.tasks.choice_request import Request, alike_of, asked_by, wanted_of

LACKS = (
    "margin",
    "speed",
    "slowness",
    "unbroken",
    "controller volts",
    "wire",
)  # in the order of the kernel's columns
WAYS = ("most margin", "fastest", "least current", "longest until hot", "lightest")
MOST_SHOWN = 8
MOST_DOTS = 3000
AS_TYPED = Request()
Progress = Callable[[str, int, int], None]


@dataclass(frozen=True)
class ChoiceReport:
    """What a search for parts found."""

    where: str
    mule: str
    function: str
    unit: str  # of the speed
    sized: str  # what has a size: drum, wheel, roller or thrower; empty where nothing has
    alike: float
    asked: Asked
    tables: Tables
    served: Served
    verdicts: Verdicts

    @property
    def units(self) -> dict[str, str]:
        """The SI unit of each property."""
        return dict(zip(PROPERTIES, ("1", self.unit, "A", "s", "kg"), strict=True))

    @property
    def complete(self) -> bool:
        """Whether nobody stopped it."""
        return self.served.complete and self.verdicts.complete

    @property
    def skipped(self) -> list[str]:
        """What of the shelf could not be tried, with the reason."""
        return self.tables.slots.skipped

    @cached_property
    def shown(self) -> list[Judged]:
        """The best few: the best balance, then the best of each property, then the rest in their order."""
        every = self.verdicts.best
        allowed = [one for one in every if one.severe == every[0].severe] if every else []
        champions = [
            min(allowed, key=lambda one: one.merit[place]) for place in range(len(PROPERTIES)) if allowed
        ]
        return list({one.place: one for one in (*every[:1], *champions, *every)}.values())[:MOST_SHOWN]

    @cached_property
    def praise(self) -> dict[int, list[str]]:
        """In which properties a candidate is the first of those that are shown, by its place."""
        found: dict[int, list[str]] = {one.place: [] for one in self.shown}
        for one in self.shown[:1]:
            found[one.place].append("best balance")
        for property, way in enumerate(WAYS):
            best = min(self.shown, key=lambda one: one.merit[property], default=None)
            if best is not None and np.isfinite(best.merit[property]):
                found[best.place].append(way)
        return found

    @property
    def nearest(self) -> tuple[list[str], str, float] | None:
        """Where nothing serves: labels of what comes nearest, what it lacks, and the share that it has of that."""
        if self.served.feasible or self.served.nearest is None:
            return None
        place, reach, lacks = self.served.nearest
        return [option.label for option in self.tables.options(place)], LACKS[lacks], reach

    def cloud(self) -> list[tuple[float, float]]:
        """Speed and margin of some candidates that serve, for a picture."""
        from mulewright.kernels.choosing import MARGIN, REACH, SPEED, judged

        if not self.served.feasible:
            return []
        places = np.unique(np.random.default_rng(2026).integers(0, self.tables.count, 4 * MOST_DOTS))
        found = judged(places, self.tables.choices, self.tables.wiring, self.tables.links, self.tables.work)
        serves = found[(found[:, REACH] >= 1) & np.isfinite(found[:, MARGIN])][:MOST_DOTS]
        return [(float(speed), float(margin)) for speed, margin in serves[:, [SPEED, MARGIN]]]

    def as_dict(self) -> dict[str, Any]:
        """The choice for programs; numbers in SI."""
        near = self.nearest
        return {
            "mule": self.mule,
            "function": self.function,
            "candidates": self.served.candidates,
            "tried": self.served.tried,
            "complete": self.complete,
            "feasible": self.served.feasible,
            "options": dict(zip(SLOTS, self.tables.shape, strict=True)),
            "asked": {
                "margin": self.asked.margin,
                "slowest": self.asked.slowest,
                "fastest": _finite(self.asked.fastest),
            },
            "alike": self.alike,
            "units": self.units,
            "now": candidate_as_dict(self.verdicts.now),
            "pareto": [candidate_as_dict(one) for one in self.verdicts.best],
            "trips_anyway": [trip_as_dict(trip) for trip in self.verdicts.anyway],
            "nearest": near
            and {**dict(zip(SLOTS, near[0], strict=True)), "lacks": near[1], "reach": near[2]},
            "skipped": self.skipped,
        }


def candidate_as_dict(one: Judged) -> dict[str, Any]:
    """One candidate for programs."""
    labels = dict(zip(SLOTS, one.labels, strict=True))
    numbers = {name: _finite(value) for name, value in zip(PROPERTIES, one.numbers, strict=True)}
    return {
        **labels,
        **numbers,
        "weakest": one.weakest,
        "fails": one.fails,
        "trips": [trip_as_dict(trip) for trip in one.trips],
        "settings": one.settings,
    }


def trip_as_dict(trip: Trip) -> dict[str, str]:
    """One finding for programs."""
    return {"check": trip.check, "entity": trip.entity, "severity": trip.severity.word}


def _finite(value: float) -> float | None:
    return value if np.isfinite(value) else None


def choose(
    path: str | Path,
    function: str,
    request: Request = AS_TYPED,
    settings: Sequence[str] = (),
    variant: str | None = None,
    progress: Progress | None = None,
) -> ChoiceReport:
    """Try every candidate for a function; an interrupt ends it with the best so far.

    Raises
    ------
    MulewrightError
        If the file, a range or a shelf cannot be read, motors serve no such function, or its load is unknown.
    """
    every, drawer = _shelves(Path(path).parent, request.shelves)
    loaded = load(path, settings=settings, variant=variant, catalog=every)
    on = bench(loaded, function, settings, variant)
    service = _service(on, str(path))
    wanted, asked = wanted_of(service, request), asked_by(service, request)
    try:
        slots = slots_of(on, wanted, drawer)
    except Missing as no:
        raise NotFound(
            f"parts for {function} cannot be tried", str(path), f"needs {', '.join(no.paths)}"
        ) from no
    tables = tables_of(on, slots, asked)
    alike = alike_of(request.alike)
    served = search(tables, alike, _told(progress, "candidates"))
    verdicts = judge_served(on, tables, served, _told(progress, "checks on the best"))
    unit, place = service.node("speed").unit, size_place(service)
    sized = place[0] if place is not None else ""
    return ChoiceReport(
        str(path), loaded.file.name, function, unit, sized, alike, asked, tables, served, verdicts
    )


def _told(progress: Progress | None, what: str) -> Callable[[int, int], None] | None:
    return None if progress is None else lambda done, of: progress(what, done, of)


def _service(on: Bench, where: str) -> ServiceFacts:
    mule = link(on.loaded)
    names = list(mule.motors_serving)
    if on.function not in names:
        if on.function in mule.drive_commands and "drive" in names:
            rule = "the drive is chosen as a whole: drive"
        else:
            rule = f"one of {', '.join(names)}" if names else "a function that motors serve"
        raise NotFound(
            f"no motor serves {on.function!r}", where, rule, on.function, closest(on.function, names)
        )
    return service_of(Evaluation(mule), on.function)


def _shelves(folder: Path, chosen: Sequence[Path]) -> tuple[Catalog, Catalog]:
    """Every shelf on which the file's parts may lie, and those whose parts are tried."""
    usual = catalog_for(folder)
    for shelf in chosen:
        if not shelf.is_dir():
            raise FileProblem(
                "there is no such shelf", str(shelf), "a folder with a folder for each kind of part"
            )
    if not chosen:
        return usual, usual
    return Catalog([*usual.folders, *chosen], usual.beside), Catalog(list(chosen))
