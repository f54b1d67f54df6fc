"""What may a symptom at the bench come from, and which test tells the causes apart? The table of symptoms."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from mulewright.shelf.tables import FOLDER, SYMPTOMS, Mark


@dataclass(frozen=True)
class Cause:
    """One thing that may be wrong, the checks that compute it, and those without whose subject it cannot be."""

    id: str
    text: str
    do: str  # empty where the remedy of its check says it
    checks: tuple[str, ...]
    where: tuple[str, ...]


@dataclass(frozen=True)
class BenchTest:
    """One question at the bench, and which causes would have it answered yes, and which no."""

    do: str
    minutes: float
    yes: frozenset[str]
    no: frozenset[str]
    reliability: float  # share of its answers that are right


@dataclass(frozen=True)
class BenchSymptom:
    """What a person notices, in one way of saying it and some others, with what it may come from."""

    id: str
    says: str
    also: tuple[str, ...]
    causes: Mapping[Cause, float]  # share of each before anything is known
    tests: tuple[BenchTest, ...]

    @property
    def phrases(self) -> tuple[str, ...]:
        """Every way of saying it."""
        return (self.id.replace("-", " "), self.says, *self.also)


@dataclass(frozen=True)
class Belief:
    """How much answers and checks count."""

    reliability: float
    trips: float
    passes: float
    least_bits: float  # of a test that is worth asking
    mark: Mark
    source: str


@lru_cache(maxsize=1)
def _table() -> Mapping[str, Any]:
    return tomllib.loads((FOLDER / f"{SYMPTOMS}.toml").read_text(encoding="utf-8"))


@lru_cache(maxsize=1)
def belief() -> Belief:
    """How much answers and checks count."""
    table = _table()
    return Belief(**table["belief"], mark=table["mark"], source=table["source"])


@lru_cache(maxsize=1)
def causes() -> Mapping[str, Cause]:
    """Every cause by its id."""
    return {
        id: Cause(id, one["is"], one.get("do", ""), tuple(one.get("checks", ())), tuple(one.get("where", ())))
        for id, one in _table()["cause"].items()
    }


@lru_cache(maxsize=1)
def symptoms() -> Mapping[str, BenchSymptom]:
    """Every symptom by its id."""
    return {id: _symptom(id, one) for id, one in _table()["symptom"].items()}


@lru_cache(maxsize=1)
def alike() -> Sequence[Sequence[str]]:
    """Words of which people use one for another."""
    return tuple(map(tuple, _table()["words"]["alike"]))


@lru_cache(maxsize=1)
def ignored() -> frozenset[str]:
    """Words that tell nothing."""
    return frozenset(_table()["words"]["ignored"].split())


def _symptom(id: str, one: Mapping[str, Any]) -> BenchSymptom:
    known = causes()
    usual = belief().reliability
    tests = tuple(
        BenchTest(
            test["do"],
            float(test["minutes"]),
            frozenset(test["yes"]),
            frozenset(test["no"]),
            test.get("reliability", usual),
        )
        for test in one["tests"]
    )
    shares = {known[cause]: float(share) for cause, share in one["causes"].items()}
    return BenchSymptom(id, one["says"], tuple(one["also"]), shares, tests)
