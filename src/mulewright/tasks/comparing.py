"""Compare two mule files, or two states of one: verdicts, inputs, facts, and the factors between two machines."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from mulewright.advice.comparing import Turn, VerdictChange, changed_verdicts, compares_both
from mulewright.advice.differing import FactChange, InputChange, changed_facts, changed_inputs
from mulewright.advice.factors import FactorTable, RateLesson, factor_tables, rate_lesson
from mulewright.checks import CHECKS
from mulewright.checks.engine import Verdict, run
from mulewright.design.mule import Mule, link
from mulewright.design.overlay import TARGET
from mulewright.design.resolve import load
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import Node, number
from mulewright.tasks.limits import require_limits
from mulewright.tasks.snapshots import copy_of
from mulewright.units.quantity import Quantity

JSON_SCHEMA = 1
_SNAPSHOT = re.compile(r"(.+)@([1-9][0-9]{0,8})")


@dataclass(frozen=True)
class State:
    """A mule file, as it is or as a snapshot keeps it, with a variant and settings laid over it."""

    path: str | Path
    settings: Sequence[str] = ()
    variant: str | None = None
    snapshot: int | None = None

    @property
    def shown(self) -> str:
        """How it is written on the command line: ``mule.toml``, or ``mule.toml@3``."""
        return str(self.path) if self.snapshot is None else f"{self.path}@{self.snapshot}"

    @property
    def source(self) -> str | Path:
        """The file that is read."""
        return self.path if self.snapshot is None else copy_of(Path(self.path), self.snapshot)


def state_of(shown: str, settings: Sequence[str] = (), variant: str | None = None) -> State:
    """Read what was written on the command line; a file that is called so comes before a snapshot."""
    match = _SNAPSHOT.fullmatch(shown)
    if match is None or Path(shown).exists():
        return State(shown, settings, variant)
    return State(match[1], settings, variant, int(match[2]))


@dataclass(frozen=True)
class Judged:
    """A state of a mule with its own verdicts, to be laid beside other states of the same mule."""

    where: str
    evaluation: Evaluation
    verdicts: tuple[Verdict, ...]


@dataclass(frozen=True)
class CompareReport:
    """What differs between two mules, or two states of one."""

    before: Evaluation
    after: Evaluation
    where: tuple[str, str]
    verdicts: tuple[VerdictChange, ...]
    inputs: tuple[InputChange, ...]
    facts: tuple[FactChange, ...]
    judged: frozenset[tuple[str, str]]  # entity and name of the facts that a check compares

    @property
    def two_machines(self) -> bool:
        """Whether the second is a machine of its own, and not another state of the first."""
        return self.before.target is self.after

    @property
    def same(self) -> bool:
        """Whether nothing differs."""
        return not (self.verdicts or self.inputs or self.facts)

    @property
    def names(self) -> tuple[str, str]:
        """What people call both."""
        return self.before.mule.file.name, self.after.mule.file.name

    @cached_property
    def tables(self) -> list[FactorTable]:
        """The factors of each function; none between two states of one mule."""
        return factor_tables(self.before) if self.two_machines else []

    @cached_property
    def lesson(self) -> RateLesson | None:
        """What the rate of the accepted run says about gears; nothing between two states of one mule."""
        return rate_lesson(self.before) if self.two_machines else None

    @cached_property
    def only(self) -> tuple[list[str], list[str]]:
        """Things that only the first has, and those that only the second has."""
        here, there = self.before.mule.things, self.after.mule.things
        return [one for one in here if one not in there], [one for one in there if one not in here]

    def of(self, turn: Turn) -> list[VerdictChange]:
        """The verdicts that went one way, the worst first."""
        return [one for one in self.verdicts if one.turn is turn]

    def as_dict(self) -> dict[str, Any]:
        """The comparison for programs; numbers in SI, each with its unit."""
        sides = zip(self.names, self.where, self.only, strict=True)
        before, after = ({"mule": name, "file": where, "only": only} for name, where, only in sides)
        return {
            "schema": JSON_SCHEMA,
            "before": before,
            "after": after,
            "same": self.same,
            "verdicts": [_verdict(one) for one in self.verdicts],
            "inputs": [_input(one) for one in self.inputs],
            "facts": [_fact(one) for one in self.facts],
            "factors": {
                "two_machines": self.two_machines,
                "functions": [_table(one) for one in self.tables],
                "rate": _lesson(self.lesson) if self.lesson is not None else None,
            },
        }


def compare_files(first: State, second: State) -> CompareReport:
    """Read two mule files and lay them side by side.

    They are states of one mule where they are one file or carry one name, unless the first names the second as
    its target; else the second is judged as the target of the first.

    Raises
    ------
    MulewrightError
        If a file cannot be read or does not describe a mule.
    """
    here, there = _linked(first), _linked(second)
    if _one_mule(here, there, first.path, second.path):
        return compare_states(_alone(first, Evaluation(here)), _alone(second, Evaluation(there)))
    before = Evaluation(here, target=there)
    assert before.target is not None
    both = Judged(first.shown, before, tuple(run(before, CHECKS.values())))
    return compare_states(both, _alone(second, before.target))


def judged(state: State) -> Judged:
    """Read and judge one state of a mule.

    Raises
    ------
    MulewrightError
        If the file cannot be read or does not describe a mule.
    """
    return _alone(state, Evaluation(_linked(state)))


def compare_states(before: Judged, after: Judged) -> CompareReport:
    """Lay two states side by side that were judged already."""
    verdicts = changed_verdicts(before.verdicts, after.verdicts)
    inputs = changed_inputs(before.evaluation.mule, after.evaluation.mule)
    facts = changed_facts(before.evaluation, after.evaluation)
    compared = _compared((*before.verdicts, *after.verdicts))
    sides, where = (before.evaluation, after.evaluation), (before.where, after.where)
    return CompareReport(*sides, where, tuple(verdicts), tuple(inputs), tuple(facts), compared)


def _alone(state: State, evaluation: Evaluation) -> Judged:
    rules = [rule for rule in CHECKS.values() if not compares_both(rule)]
    return Judged(state.shown, evaluation, tuple(run(evaluation, rules)))


def _compared(verdicts: Iterable[Verdict]) -> frozenset[tuple[str, str]]:
    nodes = (node for one in verdicts if (node := one.node) is not None)
    return frozenset((node.entity.removeprefix(TARGET), node.name) for node in nodes)


def _linked(state: State) -> Mule:
    mule = link(load(state.source, settings=state.settings, variant=state.variant))
    require_limits(mule.file.limits, state.shown)
    return mule


def _one_mule(here: Mule, there: Mule, first: str | Path, second: str | Path) -> bool:
    """Whether two files are states of one mule."""
    place = Path(second).resolve()
    if place == Path(first).resolve():
        return True
    said = here.file.target
    if said is not None and said.file and (Path(first).parent / said.file).resolve() == place:
        return False
    return here.file.name == there.file.name


def _verdict(one: VerdictChange) -> dict[str, Any]:
    return {
        "check": one.check.id,
        "name": one.check.name,
        "entity": one.entity,
        "before": one.was,
        "after": one.now,
        "turn": one.turn.value,
        "what": one.after.what if one.after is not None else "",
        "needs": list(one.after.needs) if one.after is not None else [],
    }


def _input(one: InputChange) -> dict[str, Any]:
    sides = one.before, one.after
    before, after = (side.value if isinstance(side, Quantity) else _plain(side) for side in sides)
    found = {"path": one.path, "before": before, "after": after}
    if any(isinstance(side, Quantity) for side in sides):
        texts, origins = (
            [getattr(side, name) if isinstance(side, Quantity) else None for side in sides]
            for name in ("text", "source")
        )
        found |= {
            "unit": one.unit,
            "text": {"before": texts[0], "after": texts[1]},
            "origin": {"before": origins[0], "after": origins[1]},
        }
    return found


def _plain(value: Any) -> Any:
    """A value that is no number with a unit, as JSON has it."""
    if isinstance(value, list):
        return [_plain(one) for one in value]
    return value if value is None or isinstance(value, bool | int | float | str) else str(value)


def _fact(one: FactChange) -> dict[str, Any]:
    before, after = one.numbers
    return {
        "entity": one.entity,
        "name": one.name,
        "unit": one.node.unit,
        "before": before,
        "after": after,
        "change": one.relative,
        "on": one.sides,
        "says": one.node.says,
    }


def _number(node: Node) -> dict[str, Any]:
    return {"value": number(node), "unit": node.unit, "needs": sorted(node.gaps)}


def _table(one: FactorTable) -> dict[str, Any]:
    return {
        "moves": one.moves,
        "motors": list(one.motors),
        **{symbol: number(node) for symbol, node in one.basic.items()},
        "first_output": one.cap,
        "other_motor": one.other_motor,
        "rows": [
            {
                "quantity": row.quantity,
                "formula": row.formula,
                "fact": row.node.name,
                "factor": number(row.node),
                "needs": sorted(row.node.gaps),
            }
            for row in one.rows
        ],
    }


def _lesson(one: RateLesson) -> dict[str, Any]:
    return {
        "rate": _number(one.rate),
        "speed": _number(one.speed),
        "gears": [
            {
                "motors": list(gears.motors),
                "factor": number(gears.factor),
                "factor_with_free_current": number(gears.counted),
                "ratio_before": number(gears.before),
                "ratio_after": number(gears.after),
                "needs": sorted(gears.after.gaps),
            }
            for gears in one.gears
        ],
        "hidden": [
            {
                "what": hidden.what,
                "multiplies": hidden.words,
                "factor": number(hidden.factor),
                "formula": hidden.formula,
            }
            for hidden in one.hidden
        ],
    }
