"""What shall be tried, and what is asked of it, where parts are chosen for a function?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np

from mulewright.advice.choosing.asking import asked_of
from mulewright.advice.choosing.bench import Wanted
from mulewright.advice.choosing.sizes import size_place
from mulewright.advice.choosing.slots import SLOTS
from mulewright.advice.choosing.tables import Asked
from mulewright.errors import DesignError, NotFound, closest
from mulewright.facts.serving import ServiceFacts
from mulewright.shelf.tables import default, group
from mulewright.tasks.ranges import Span, read_counts, read_sizes, read_span, steps
from mulewright.units.parse import to_si


@dataclass(frozen=True)
class Request:
    """What to try, as it was typed; what is left out comes from the tables of the shelf or from the mule."""

    ratio: str | None = None
    stages: int | None = None
    teeth: str | None = None
    size: str | None = None
    step: str | None = None
    wire: str | None = None
    margin: float | None = None
    speed: str | None = None
    keep: Sequence[str] = ()
    shelves: Sequence[Path] = ()
    alike: str | None = None


def wanted_of(service: ServiceFacts, request: Request) -> Wanted:
    """What shall be tried.

    Raises
    ------
    MulewrightError
        If a range, a list or the name of a slot cannot be read.
    """
    unknown = [word for word in request.keep if word not in SLOTS]
    if unknown:
        raise NotFound(
            f"{unknown[0]!r} is nothing that is chosen", "--keep", f"one of {', '.join(SLOTS)}",
            unknown[0], closest(unknown[0], SLOTS),
        )  # fmt: skip
    place, ratios = size_place(service), group("ratio_to_try")
    ratio = ratios.get(place[0] if place else "", ratios["usual"])
    span = Span(ratio.low or ratio.value, ratio.high or ratio.value)
    stages = int(default("stages_to_try").value) if request.stages is None else request.stages
    if not 0 <= stages <= 3:
        raise DesignError("so many gear stages are not tried", "--stages", "0 to 3", str(stages))
    span = read_span(request.ratio, "ratio", "--ratio") if request.ratio else span
    if span.low <= 0:
        raise DesignError("is no ratio", "--ratio", "above 0", str(request.ratio))
    teeth = read_counts(request.teeth, "--teeth") if request.teeth else _table("teeth_at_hand")
    return Wanted(
        (span.low, span.high), stages, tuple(int(one) for one in teeth), _sizes(service, request),
        _gauges(request.wire), frozenset(request.keep),
    )  # fmt: skip


def _table(name: str) -> list[float]:
    return [quantity.value for quantity in group(name).values()]


def _sizes(service: ServiceFacts, request: Request) -> tuple[float, ...]:
    found = size_place(service)
    if found is None:
        if request.size or request.step:
            raise DesignError(
                f"{service.name} has no drum, wheel or roller whose size could be chosen", "--size"
            )
        return ()
    kind = found[0]
    step = to_si(request.step, "length") if request.step else group("size_step")[kind].value
    if not step > 0:
        raise DesignError("is no step", "--step", "above 0 mm", str(request.step))
    if request.size:
        return tuple(read_sizes(request.size, step, "--size"))
    row = group("size_to_try")[kind]
    return tuple(steps(Span(row.low or row.value, row.high or row.value), step, "--step"))


def _gauges(text: str | None) -> tuple[tuple[str, float], ...]:
    if text is None:
        return tuple((quantity.text, quantity.value) for quantity in group("wire_at_hand").values())
    words = [word.strip() for word in text.split(",") if word.strip()]
    return tuple((word, to_si(word, "area")) for word in words)


def asked_by(service: ServiceFacts, request: Request) -> Asked:
    """What a candidate has to reach.

    Raises
    ------
    MulewrightError
        If no candidate could, whatever it is.
    """
    asked = asked_of(service)
    if request.margin is not None:
        if not (request.margin > 0 and np.isfinite(request.margin)):
            raise DesignError("is no margin", "--margin", "above 0", str(request.margin))
        asked = replace(asked, margin=request.margin)
    if request.speed is not None:
        kind = "speed" if service.node("speed").unit == "m/s" else "rotation"
        span = read_span(request.speed, kind, "--speed")
        asked = replace(asked, slowest=span.low, fastest=span.high if span.high > span.low else float("inf"))
    if asked.slowest > asked.fastest:
        raise DesignError("no speed is both", "--speed", "the slowest speed below the fastest")
    return asked


def alike_of(text: str | None) -> float:
    """Within which share two candidates count as one.

    Raises
    ------
    MulewrightError
        If it is no share below the whole.
    """
    alike = default("nearly_alike").value if text is None else to_si(text, "ratio")
    if not 0 <= alike < 1:
        raise DesignError("is no share", "--alike", "from 0 % to below 100 %", str(text))
    return alike
