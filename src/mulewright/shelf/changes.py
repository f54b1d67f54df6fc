"""What can one change on a mule, in which steps, and what does it cost? The table of changes, read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fnmatch import fnmatchcase
from functools import lru_cache
from typing import Any

from mulewright.shelf.tables import CHANGES, FOLDER, read_table


@dataclass(frozen=True)
class CostClass:
    """One class of work: what it costs beside the others, and what must be allowed for it."""

    name: str
    cost: float
    allow: str
    about: str
    clean: bool  # whether it makes the mule right, rather than asking less of it or leaving it as it is
    mark: str
    source: str


@dataclass(frozen=True)
class Change:
    """One way of changing inputs: which, to what, and how a person says it."""

    paths: tuple[str, ...]
    cost: str
    do: str
    choices: tuple[Any, ...] = ()
    values: tuple[Any, ...] = ()  # numbers that can be had
    step: str = ""  # or the steps in which a number can be set,
    digits: int = 0  # or the digits to which it is made
    least: str = ""
    most: str = ""
    ends_at: str = ""  # the input that says how far it goes
    by: str = ""  # how the choices are found, where they depend on the rest of the mule
    then: str = ""  # the record that has to be made again
    only_if: str = ""  # field beside it that must say that it can be done
    usual: str = ""  # what one takes where nothing else is said
    only_up: bool = False
    only_down: bool = False

    @property
    def numeric(self) -> bool:
        """Whether it sets a number."""
        return bool(not self.by and (self.values or self.step or self.digits))


@lru_cache(maxsize=1)
def cost_classes() -> Mapping[str, CostClass]:
    """Every class of work by its name, the cheapest first."""
    table = read_table(FOLDER / f"{CHANGES}.toml")
    return {name: CostClass(name=name, **cost, **table["said"]) for name, cost in table["cost"].items()}


@lru_cache(maxsize=1)
def changes() -> tuple[Change, ...]:
    """Every change, in the order in which they are looked through."""
    return tuple(_change(row) for row in read_table(FOLDER / f"{CHANGES}.toml")["change"])


@lru_cache(maxsize=4096)
def change_of(path: str) -> Change | None:
    """How an input can be changed; None where it cannot, such as what a data sheet says."""
    return next((change for change in changes() if any(fnmatchcase(path, one) for one in change.paths)), None)


def _change(row: dict[str, Any]) -> Change:
    lists = {key: tuple(row[key]) for key in ("paths", "choices", "values") if key in row}
    said: dict[str, Any] = row | lists
    return Change(**said)
