"""Is there as much room as a drive needs that nobody steers any more?"""

from __future__ import annotations

from mulewright.advice.spoken import read
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import number
from mulewright.facts.runaway import RunawayFacts


def short_of(evaluation: Evaluation) -> str:
    """That the room is smaller than the way after a lost link, and what to do; empty where nobody can say so.

    Parameters
    ----------
    evaluation : Evaluation
        The mule.

    Returns
    -------
    said : str
        Two sentences.
    """
    for drive in RunawayFacts.all(evaluation):
        way, free = drive.node("runaway"), drive.room.node("free")
        if not (way.known and free.known):
            continue
        needs, has = number(way), number(free)
        if has is not None and (needs is None or needs > has):
            goes, remedy = "goes on without end", "Set a fail-safe that stops it first."
            if needs is not None:
                goes, remedy = f"goes {read(way)}", "First a lower rate, more room, or a tether."
            return f"TOO LITTLE ROOM: after a lost link it {goes}, and {read(free)} are free. {remedy}"
    return ""
