"""Put one fault into a design by a small edit, and see whether its check finds it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fnmatch import fnmatchcase
from functools import cache
from pathlib import Path

from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, run
from mulewright.design.mule import Mule, link
from mulewright.design.resolve import load
from mulewright.errors import MulewrightError
from mulewright.facts.graph import Evaluation
from mulewright.tasks.checking import CheckReport
from mulewright.tasks.opening import Opened
from mulewright.units.quantity import Quantity
from mulewright.units.table import Table, kinds_of

QUIET = {path.stem: path for path in sorted(Path(__file__).parent.glob("*.toml"))}
WORST = 3  # findings that a person reads before doing something


@dataclass(frozen=True)
class Fault:
    """One thing done wrong, wherever a design has a place for it.

    ``each`` is a pattern of ids, and every thing that fits and is as ``where`` says gets the fault in turn;
    in the edits ``{it}`` stands for its id and ``{name}`` for the last word of it. ``scale`` multiplies numbers.
    """

    check: str
    each: str = ""
    sets: tuple[str, ...] = ()
    where: Mapping[str, object] = field(default_factory=dict)
    scale: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Injection:
    """One fault in one design."""

    check: str
    design: str
    edits: tuple[str, ...]


@dataclass(frozen=True)
class Found:
    """Whether the check tripped, whether among the worst, and what else was worse."""

    injection: Injection
    trips: bool
    among_worst: bool
    worst: tuple[str, ...]


@cache
def design(name: str) -> Mule:
    """A quiet design as it stands in its file."""
    return link(load(QUIET[name]))


@cache
def report(name: str, edits: tuple[str, ...] = ()) -> CheckReport:
    """Every verdict on a design with edits."""
    mule = link(load(QUIET[name], settings=edits)) if edits else design(name)
    evaluation = Evaluation(mule)
    return CheckReport(Opened(mule, evaluation), name, tuple(run(evaluation, CHECKS.values())))


def injections(fault: Fault) -> Iterator[Injection]:
    """A fault in every place of every design in which its check passed."""
    for name in QUIET:
        outcomes = {one.outcome for one in report(name).verdicts if one.check.id == fault.check}
        if Outcome.PASS in outcomes:
            for edits in dict.fromkeys(_edits(fault, design(name))):
                yield Injection(fault.check, name, edits)


def find(injection: Injection) -> Found:
    """Judge a design with its fault."""
    try:
        found = report(injection.design, injection.edits)
    except MulewrightError as no:
        return Found(injection, False, False, (f"refused: {no}",))
    worst = tuple(verdict.check.id for verdict in found.worst(WORST))
    return Found(injection, injection.check in found.tripped_ids, injection.check in worst, worst)


def _edits(fault: Fault, mule: Mule) -> Iterator[tuple[str, ...]]:
    for id, table in _places(fault, mule):
        sets = tuple(text.format(it=id, name=id.rsplit(".", 1)[-1]) for text in fault.sets)
        scaled = [_scaled(f"{id}.{key}", table, key, by) for key, by in fault.scale.items()]
        if None not in scaled:
            yield (*sets, *(text for text in scaled if text))


def _places(fault: Fault, mule: Mule) -> Iterator[tuple[str, Table]]:
    if not fault.each:
        yield "", mule.file
        return
    for id in _ids(mule):
        table = mule.table(id)
        if fnmatchcase(id, fault.each) and all(
            _fits(getattr(table, key, None), value) for key, value in fault.where.items()
        ):
            yield id, table


def _ids(mule: Mule) -> Iterator[str]:
    yield from mule.things
    if mule.file.radio is not None:
        yield from (f"radio.control.{name}" for name in mule.file.radio.control)
        yield from (f"radio.mix.{number}" for number in range(len(mule.file.radio.mix)))


def _fits(found: object, wanted: object) -> bool:
    if isinstance(wanted, str) and wanted.startswith("~"):
        return re.fullmatch(wanted[1:], str(found)) is not None
    return found == wanted


def _scaled(path: str, table: Table, key: str, by: float) -> str | None:
    quantity: Quantity | None = table.quantity(key)
    if quantity is None:
        return None
    unit = kinds_of(type(table))[key].unit
    return f"{path}={quantity.value * by:.6g} {'' if unit == '1' else unit}".strip()
