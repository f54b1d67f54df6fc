"""Which checklists does a person at the bench go through with this mule?"""

from __future__ import annotations

from collections.abc import Iterator

from mulewright.advice.cautions import cautions
from mulewright.advice.checklists import Checklists, MuleList, checklists_of
from mulewright.advice.spoken import listed, spoken
from mulewright.facts.graph import Evaluation
from mulewright.paper.blocks import Block, Grid, Paper, Ticks, Words


def checklists_paper(evaluation: Evaluation) -> Paper:
    """The checklists of a mule, its own items filled in, with the usual cautions at the end."""
    found = checklists_of(evaluation)
    blocks = [block for one in found.lists for block in _list(one, found)]
    said = [
        Words("The usual cautions", "heading"),
        *(Words(one, "small") for one in cautions(evaluation.mule)),
    ]
    return Paper(
        "checklists", "Checklists",
        "Tick what was seen today. What the file says of an item stands behind it; a ? is not known: write it in.",
        (*blocks, *said),
    )  # fmt: skip


def _list(one: MuleList, found: Checklists) -> Iterator[Block]:
    yield Words(f"{one.id} {one.title}" if one.id[1:].isdigit() else one.title, "section")
    yield Words(one.when)
    if one is found.lists[0] and found.forbidding:
        yield from _forbidding(found)
    yield Ticks([(item.text, item.known) for item in one.items])


def _forbidding(found: Checklists) -> Iterator[Block]:
    """What must be cleared first, the things of which a check says the same together."""
    yield Words("No check that forbids power may be open. As the file stands, these are:", "warning")
    about: dict[tuple[str, str], list[str]] = {}
    for verdict in found.forbidding:
        about.setdefault((verdict.check.id, verdict.what), []).append(spoken(verdict.entity))
    rows = [(id, listed(things), what) for (id, what), things in about.items()]
    yield Grid(("check", "about", "says"), rows, ("fit", 1, 2))
