"""What do the facts and the checks say about the candidates that nothing beats, and in which order are they shown?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from mulewright.advice.choosing.bench import Bench, Option
from mulewright.advice.choosing.search import Served, Tick, plenty, scores
from mulewright.advice.choosing.tables import Tables, perhaps
from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, Severity, run
from mulewright.facts.graph import Evaluation
from mulewright.facts.serving import service_of

PROPERTIES = ("margin", "speed", "current", "heat", "mass")
LEAST = Severity.WARN  # findings below it are not counted


@dataclass(frozen=True)
class Trip:
    """One finding on a candidate."""

    check: str
    entity: str
    severity: Severity


@dataclass(frozen=True)
class Judged:
    """One candidate as the facts and the checks see it."""

    place: int
    labels: tuple[str, ...]  # of its options, slot by slot
    settings: tuple[str, ...]  # that put it into the file
    numbers: tuple[float, ...]  # in the order of PROPERTIES [SI]
    weakest: str
    fails: str
    trips: tuple[Trip, ...]

    @property
    def severe(self) -> int:
        """How many findings forbid its use."""
        return len({trip.check for trip in self.trips if trip.severity >= Severity.STOP})

    @property
    def merit(self) -> tuple[float, ...]:
        """The properties so that less is better; what cannot be told is worst."""
        signed = (sign * value for sign, value in zip((-1, -1, 1, -1, 1), self.numbers, strict=True))
        return tuple(np.inf if np.isnan(value) else value for value in signed)


def judge_one(on: Bench, options: Sequence[Option], place: int = -1) -> Judged:
    """Ask every fact and every check about one candidate."""
    evaluation = Evaluation(on.mule(*options))
    service = service_of(evaluation, on.function)
    trips = tuple(
        Trip(verdict.check.id, verdict.entity, verdict.severity)
        for verdict in run(evaluation, CHECKS.values())
        if verdict.outcome is Outcome.TRIP and verdict.severity >= LEAST
    )
    link = service.weakest
    numbers = tuple(perhaps(service, name) for name in PROPERTIES)
    named = f"{link.part} ({link.manner.words})"
    labels = tuple(option.label for option in options)
    settings = tuple(setting for option in options for setting in option.settings)
    return Judged(place, labels, settings, numbers, named, link.manner.fails, trips)


@dataclass(frozen=True)
class Verdicts:
    """Every candidate worth showing, the best first, and what they have in common."""

    now: Judged  # the file as it is
    best: tuple[Judged, ...]
    anyway: tuple[Trip, ...]  # findings on all of them, and on the file as it is
    complete: bool


def judge_served(on: Bench, tables: Tables, served: Served, tick: Tick | None = None) -> Verdicts:
    """Ask facts and checks about what a search found; an interrupt ends it with those that were asked about."""
    now = judge_one(on, tables.now)
    found: list[Judged] = []
    order = np.argsort(-balance(scores(served.numbers, plenty(tables))), kind="stable")
    complete = True
    try:
        for place in served.places[order]:
            found.append(judge_one(on, tables.options(int(place)), int(place)))
            if tick is not None:
                tick(len(found), len(served.places))
    except KeyboardInterrupt:
        complete = False
    anyway = set(now.trips).intersection(*(set(one.trips) for one in found))
    lean = [replace(one, trips=tuple(trip for trip in one.trips if trip not in anyway)) for one in found]
    best = sorted(lean, key=lambda one: one.severe)  # stable: balance decides among equals
    kept = tuple(sorted(anyway, key=lambda trip: (-trip.severity, trip.check, trip.entity)))
    left = replace(now, trips=tuple(trip for trip in now.trips if trip not in anyway))
    return Verdicts(left, tuple(best), kept, complete)


def balance(merit: NDArray[np.float64]) -> NDArray[np.float64]:
    """How well candidates do in the property in which each does worst: 0 as the worst of all, 1 as the best."""
    if not len(merit):
        return np.empty(0)
    low, high = merit.min(axis=0), merit.max(axis=0)
    span = np.where(high > low, high - low, 1.0)
    return np.asarray(np.where(high > low, (merit - low) / span, 1.0).min(axis=1))
