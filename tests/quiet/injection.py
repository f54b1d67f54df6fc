"""Put one fault into a design by a small edit, and see whether its check finds it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fnmatch import fnmatchcase
from functools import cache
from itertools import islice
from pathlib import Path

from mulewright.advice.comparing import compares_both
from mulewright.checks import CHECKS
from mulewright.checks.engine import Outcome, run
from mulewright.design.mule import Mule, link
from mulewright.design.overlay import by_design
from mulewright.design.resolve import Loaded, load, rebuild
from mulewright.errors import MulewrightError
from mulewright.facts.graph import Evaluation
from mulewright.tasks.checking import CheckReport
from mulewright.tasks.opening import Opened
from mulewright.units.quantity import Quantity
from mulewright.units.table import Table, kinds_of

QUIET = {path.stem: path for path in sorted(Path(__file__).parent.glob("*.toml"))}
WORST = 3  # findings that a person reads before doing something
PLACES = 2  # in one design that get the same fault in turn; of controllers, which are much alike, one


@dataclass(frozen=True)
class Fault:
    """One thing done wrong, wherever a design has a place for it.

    ``each`` is a pattern of ids, and every thing that fits and is as ``where`` says gets the fault in turn;
    in the edits ``{it}`` stands for its id, ``{name}`` for the last word of it, ``{its.signal}`` for what its
    table says, and ``{other}`` and ``{others.signal}`` for the next such thing. ``scale`` multiplies numbers.
    A fault that ``brings`` in what its check is about goes into designs in which there was nothing to judge.
    ``but`` names designs in which it would do no harm. Edits that begin with ``target:`` change the target, which is otherwise the design itself.
    """

    check: str
    each: str = ""
    sets: tuple[str, ...] = ()
    where: Mapping[str, object] = field(default_factory=dict)
    scale: Mapping[str, float] = field(default_factory=dict)
    brings: bool = False
    but: tuple[str, ...] = ()

    @property
    def beside(self) -> bool:
        """Whether its check is about a mule beside its target."""
        return compares_both(CHECKS[self.check])


@dataclass(frozen=True)
class Injection:
    """One fault in one design."""

    check: str
    design: str
    edits: tuple[str, ...]
    beside: bool = False


@dataclass(frozen=True)
class Found:
    """Whether the check tripped or got worse, and whether it, or the root that it is folded under, is among the worst."""

    injection: Injection
    trips: bool
    among_worst: bool
    worst: tuple[str, ...]


@cache
def opened(name: str) -> Loaded:
    """The file of a quiet design as it stands."""
    return load(QUIET[name])


@cache
def design(name: str) -> Mule:
    """A quiet design as it stands in its file."""
    return link(opened(name))


@cache
def report(name: str, *, beside: bool = False) -> CheckReport:
    """Every verdict on a design, alone or beside itself as its own target."""
    return judged(name, (), beside)


def judged(name: str, edits: tuple[str, ...], beside: bool) -> CheckReport:
    """Every verdict on a design with edits; not kept, for there are thousands."""
    own, of_target = by_design(edits)
    mule = link(rebuild(opened(name), own)) if own else design(name)
    target = link(rebuild(opened(name), of_target)) if of_target else design(name)
    evaluation = Evaluation(mule, target=target if beside else None)
    return CheckReport(Opened(mule, evaluation), name, tuple(run(evaluation, CHECKS.values())))


def injections(fault: Fault) -> Iterator[Injection]:
    """A fault in every place of every design that its check can judge."""
    able = {Outcome.PASS} | ({Outcome.NOT_APPLICABLE} if fault.brings else set())
    rule, most = CHECKS[fault.check], 1 if fault.each.startswith("controller.") else PLACES
    for name in QUIET:
        if name in fault.but or (fault.beside and design(name).file.target is None):
            continue
        quiet = report(name, beside=fault.beside)
        outcomes = {one.outcome for one in quiet.verdicts if one.check.id == fault.check}
        may_get_worse = _worst_of(quiet, fault.check) < max((rule.severity, *rule.limits))
        if may_get_worse and (able | {Outcome.TRIP}) & outcomes:
            for edits in islice(dict.fromkeys(_edits(fault, design(name))), most):
                yield Injection(fault.check, name, edits, fault.beside)


def find(injection: Injection) -> Found:
    """Judge a design with its fault."""
    before = report(injection.design, beside=injection.beside)
    try:
        found = judged(injection.design, injection.edits, injection.beside)
    except MulewrightError as no:
        return Found(injection, False, False, (f"refused: {no}",))
    worst = tuple(verdict.check.id for verdict in found.worst(WORST))
    own = [one for one in found.of(Outcome.TRIP) if one.check.id == injection.check]
    shown = {injection.check, *(root for one in own for root in found.roots(one))} & set(worst)
    worse = _worst_of(found, injection.check) > _worst_of(before, injection.check)
    return Found(injection, worse, worse and bool(shown), worst)


def _worst_of(found: CheckReport, check: str) -> int:
    return max((one.severity for one in found.of(Outcome.TRIP) if one.check.id == check), default=0)


def _edits(fault: Fault, mule: Mule) -> Iterator[tuple[str, ...]]:
    places = list(_places(fault, mule))
    for (id, table), (other, others) in zip(places, places[1:] + places[:1], strict=True):
        if any("{other" in text for text in fault.sets) and id == other:
            continue
        words = {"it": id, "name": id.rsplit(".", 1)[-1], "its": table, "other": other, "others": others}
        sets = tuple(text.format(**words) for text in fault.sets)
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
    return (found.value if isinstance(found, Quantity) else found) == wanted


def _scaled(path: str, table: Table, key: str, by: float) -> str | None:
    quantity: Quantity | None = table.quantity(key)
    if quantity is None:
        return None
    unit = kinds_of(type(table))[key].unit
    return f"{path}={quantity.value * by:.6g} {'' if unit == '1' else unit}".strip()
