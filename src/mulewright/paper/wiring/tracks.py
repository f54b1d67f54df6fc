"""In which order do bent wires turn between two columns, so that none lies on another and few cross?"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import permutations
from typing import NamedTuple

import networkx as nx

from mulewright.paper.wiring.plan import Wire

APART = 4.0  # [mm] between two wires that run level


class Bend(NamedTuple):
    """A wire that comes in at one height and goes on at another. [mm]."""

    wire: Wire
    before: float
    after: float


def in_order(bends: Iterable[Bend]) -> list[Wire]:
    """The wires by their tracks, from left to right.

    A wire that comes in where another one goes on has to turn first. Where two would each have to, their sockets
    lie on each other's heights; then the order that crosses least stands.
    """
    wanted = sorted(bends, key=_preferred)
    place = {bend.wire: number for number, bend in enumerate(wanted)}
    graph: nx.DiGraph[Wire] = nx.DiGraph()
    graph.add_nodes_from(place)
    graph.add_edges_from(
        (one.wire, other.wire)
        for one, other in permutations(wanted, 2)
        if abs(one.before - other.after) < APART
    )
    if not nx.is_directed_acyclic_graph(graph):
        return [bend.wire for bend in wanted]
    return list(nx.lexicographical_topological_sort(graph, key=lambda wire: place[wire]))


def _preferred(bend: Bend) -> tuple[int, float]:
    """Of those that go down the lowest first, of those that go up the highest first: so they do not cross."""
    return (0, -bend.before) if bend.after >= bend.before else (1, bend.before)
