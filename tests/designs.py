"""Shipped designs, loaded once per edit, for tests that evaluate them often."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from pathlib import Path

from numpy.typing import ArrayLike

from mulewright.checks import CHECKS
from mulewright.checks.engine import Verdict, judge, limits_of
from mulewright.design.mule import Mule, link
from mulewright.design.overlay import by_design
from mulewright.design.resolve import load
from mulewright.facts.graph import Evaluation

EXAMPLES = Path(__file__).parents[1] / "examples"
DESIGNS = sorted(path.parent.name for path in EXAMPLES.glob("*/mule.toml"))


@lru_cache(maxsize=100)  # each holds its whole supply graph
def mule(design: str, sets: Sequence[str] = (), variant: str | None = None) -> Mule:
    """A shipped design, or another file of its folder, with edits laid over it."""
    file = design if design.endswith(".toml") else f"{design}/mule.toml"
    return link(load(EXAMPLES / file, settings=sets, variant=variant))


def evaluation(
    design: str,
    sets: Sequence[str] = (),
    variant: str | None = None,
    values: Mapping[str, ArrayLike] | None = None,
    target: str | None = None,
) -> Evaluation:
    """A fresh evaluation of it, beside its target where one is named."""
    own, of_target = by_design(sets)
    to_come = mule(target, tuple(of_target)) if target is not None else None
    return Evaluation(mule(design, tuple(own), variant), values, to_come)


def verdicts_on(on: Evaluation, id: str) -> dict[str, Verdict]:
    """What one check says, by entity."""
    rule = CHECKS[id]
    limits = limits_of(rule, on.mule.file.limits.get(id))
    return {entity.id: judge(rule, entity, limits) for entity in rule.on.all(on)}
