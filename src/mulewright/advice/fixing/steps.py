"""What is one step of a cure? One input, or a few that belong together, set to something else."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from typing import Any

from mulewright.design.edits import toml
from mulewright.design.paths import Path, parse_path
from mulewright.design.typed import OTHERS
from mulewright.shelf.changes import Change, cost_classes

Setting = tuple[str, Any]


@dataclass(frozen=True, eq=False)
class Step:
    """One thing to do. Two steps that set the same to the same are one."""

    path: str
    to: Any
    was: str
    cost: float
    kind: str
    do: str
    also: tuple[Setting, ...] = ()
    shown: str = ""
    change: Change | None = field(default=None, repr=False)

    @cached_property
    def key(self) -> str:
        """What tells it from other steps."""
        return "; ".join(f"{path}={toml(value)}" for path, value in self.settings)

    @property
    def settings(self) -> tuple[Setting, ...]:
        """Every input that it sets."""
        return ((self.path, self.to), *self.also)

    @cached_property
    def places(self) -> list[Path]:
        """The paths of what it sets, in their parts."""
        return [parse_path(path) for path, _ in self.settings]

    @property
    def record(self) -> bool:
        """Whether it only writes down what a person has to do first."""
        return cost_classes()[self.kind].allow == "records"

    @property
    def for_all(self) -> bool:
        """Whether it speaks for all channels or controls that say nothing themselves."""
        return OTHERS in self.path.split(".")

    @property
    def waiver(self) -> bool:
        """Whether it leaves a finding as it is."""
        return self.kind == "waiver"

    @property
    def clean(self) -> bool:
        """Whether it makes the mule right, rather than asking less of it or leaving it as it is."""
        return cost_classes()[self.kind].clean

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Step) and self.key == other.key

    @cached_property
    def _hash(self) -> int:
        return hash(self.key)

    def __hash__(self) -> int:
        return self._hash

    def __str__(self) -> str:
        return self.key

    def __lt__(self, other: Step) -> bool:
        return (self.cost, self.key) < (other.cost, other.key)


@lru_cache(maxsize=1 << 16)
def clash(first: Step, second: Step) -> bool:
    """Whether two different steps set the same input, or one inside what the other sets."""
    return first != second and any(
        one[: len(two)] == two or two[: len(one)] == one for one in first.places for two in second.places
    )


def consistent(steps: Iterable[Step]) -> bool:
    """Whether no two of the steps clash."""
    known = list(steps)
    return not any(clash(one, two) for place, one in enumerate(known) for two in known[:place])


def together(steps: frozenset[Step], more: Iterable[Step]) -> frozenset[Step]:
    """Steps with others taken in the place of those that they clash with."""
    added = frozenset(more)
    return frozenset(step for step in steps if not any(clash(step, one) for one in added)) | added
