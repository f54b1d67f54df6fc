"""What does a person look at before power, at first power, while driving and afterwards? The table of checklists."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from mulewright.shelf.tables import CHECKLISTS, FOLDER, Mark, read_table

ALWAYS = "mule"  # what an item is about that stands once on every mule


@dataclass(frozen=True)
class ListedItem:
    """One item as it stands in the table, with words in braces that come from the mule."""

    id: str
    says: str
    each: str  # the kind of thing for each of which it stands once
    known: str  # what the file says about it, with words in braces
    tick: str  # the line of the checklist in a mule file that is about it; empty where there is none


@dataclass(frozen=True)
class Listed:
    """One list as it stands in the table."""

    id: str
    title: str
    when: str
    items: tuple[ListedItem, ...]
    mark: Mark
    source: str


@lru_cache(maxsize=1)
def checklists() -> tuple[Listed, ...]:
    """Every list, in the order in which they are gone through."""
    table = read_table(FOLDER / f"{CHECKLISTS}.toml")
    return tuple(_list(id, part, table) for id, part in table.items() if isinstance(part, dict))


def _list(id: str, part: dict[str, Any], table: dict[str, Any]) -> Listed:
    items = tuple(_item(**item) for item in part["items"])
    return Listed(id, part["title"], part["when"], items, table["mark"], table["source"])


def _item(id: str, says: str, each: str = ALWAYS, known: str = "", tick: str = "") -> ListedItem:
    return ListedItem(id, says, each, known, tick)
