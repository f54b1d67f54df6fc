"""Where does the current go? The wires as a tree from each battery outwards, and what servo leads join."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

import networkx as nx

from mulewright.design.rail import Net, ground_graph, nets, node_of, rail_graph
from mulewright.design.reads import kept
from mulewright.design.schema.file import MuleFile
from mulewright.errors import DesignError, MulewrightError

SERIES = ("fuse", "switch", "y_lead")
ENDS = ("controller", "regulator", "board", "motor", "battery", "bench_supply")


@dataclass(frozen=True)
class Run:
    """One run of wire between two things, with what lies in it."""

    wire: str  # id of the wire's table
    start: str
    end: str
    through: tuple[str, ...]  # fuses, switches, in the order of the path

    @property
    def id(self) -> str:
        """The name of the run: that of its wire, with its end where the wire's table stands for several."""
        return f"{self.wire}>{self.end}"


class Supply:
    """The power wiring of a mule file."""

    def __init__(self, file: MuleFile) -> None:
        self.file = file

    @kept
    def runs(self) -> list[Run]:
        """Every run; a path that ends on ``controller.*`` is one run for each controller."""
        found = []
        for name, wire in self.file.wire.items():
            path = wire.path or []
            if len(path) < 2:
                continue
            for end in self._ends(path[-1]):
                found.append(Run(f"wire.{name}", path[0], end, tuple(path[1:-1])))
        return found

    def _ends(self, end: str) -> list[str]:
        if not end.endswith(".*"):
            return [end]
        kind = end.removesuffix(".*")
        tables: Mapping[str, object] = getattr(self.file, kind)
        named = {path[-1] for wire in self.file.wire.values() if (path := wire.path)}
        return [f"{kind}.{name}" for name in tables if f"{kind}.{name}" not in named]

    @kept
    def run_by_id(self) -> dict[str, Run]:
        """The runs by their names."""
        return {run.id: run for run in self.runs}

    @kept
    def runs_of(self) -> dict[str, list[Run]]:
        """The runs that each wire's table stands for."""
        found: dict[str, list[Run]] = {}
        for run in self.runs:
            found.setdefault(run.wire, []).append(run)
        return found

    @kept
    def graph(self) -> nx.DiGraph[str]:
        """The runs as edges from the battery outwards."""
        graph: nx.DiGraph[str] = nx.DiGraph()
        for run in self.runs:
            graph.add_edge(run.start, run.end, run=run)
        return graph

    @kept
    def sources(self) -> list[str]:
        """Batteries and bench supplies that feed a wire."""
        return [node for node in self.graph if node.startswith(("battery.", "bench_supply."))]

    def run_into(self, node: str) -> Run | None:
        """The run that feeds a thing."""
        return self._into.get(node)

    def runs_from(self, node: str) -> list[Run]:
        """The runs that leave a thing."""
        return self._from.get(node, [])

    @kept
    def _into(self) -> dict[str, Run]:
        return {run.end: run for run in reversed(self.runs)}

    @kept
    def _from(self) -> dict[str, list[Run]]:
        found: dict[str, list[Run]] = {}
        for run in self.runs:
            found.setdefault(run.start, []).append(run)
        return found

    def way_to(self, node: str) -> list[Run]:
        """The runs from the battery to a thing, from the battery outwards."""
        way: list[Run] = []
        run = self.run_into(node)
        while run is not None:
            way.append(run)
            run = self.run_into(run.start)
        return way[::-1]

    def source_of(self, node: str) -> str | None:
        """The battery or bench supply that feeds a thing."""
        way = self.way_to(node)
        return way[0].start if way and way[0].start in self.sources else None

    @kept
    def run_through(self) -> dict[str, Run]:
        """The run in which each fuse, switch or Y-lead lies."""
        return {item: run for run in reversed(self.runs) for item in run.through}

    def beyond(self, run: Run) -> list[Run]:
        """A run and all that it feeds, up to the next fuse, or to a regulator, which limits the current."""
        found = [run]
        if run.end.startswith("regulator."):
            return found
        for further in self.runs_from(run.end):
            if not any(item.startswith("fuse.") for item in further.through):
                found += self.beyond(further)
        return found

    def behind(self, run: Run) -> set[str]:
        """Everything that a run feeds, directly or further on."""
        return {run.end, *nx.descendants(self.graph, run.end)}

    # --- servo leads

    @kept
    def rail(self) -> nx.Graph[str]:
        """Everything that meets in the middle wires of servo leads."""
        return rail_graph(self.file)

    @kept
    def rail_nets(self) -> dict[str, Net]:
        """Which things share a rail with a thing, for certain and perhaps."""
        return nets(self.rail)

    @kept
    def rail_names(self) -> dict[Net, str]:
        """The rails from which something draws, named after the first thing that does: ``rail.receiver``."""
        names: dict[Net, str] = {}
        for node, draws in self.rail.nodes(data="draws"):
            if draws:
                names.setdefault(self.rail_nets[node], f"rail.{node.removesuffix('.out')}")
        return names

    def rail_of(self, thing: str) -> Net:
        """The rail that a thing is on, for certain and perhaps."""
        return self.rail_nets[node_of(thing)]

    def on_rail(self, nodes: Iterable[str], role: Literal["feeds", "draws"]) -> list[str]:
        """The things among nodes of the rail that feed it, or draw from it."""
        return sorted(node.removesuffix(".out") for node in nodes if self.rail.nodes[node].get(role))

    @kept
    def ground_nets(self) -> dict[str, Net]:
        """Which things share the grounds of servo leads with a thing, for certain and perhaps."""
        return nets(ground_graph(self.file))

    @kept
    def common_grounds(self) -> dict[str, Net]:
        """Which things share a ground with a thing: through servo leads, or through the minus of wires."""
        graph = ground_graph(self.file)
        graph.add_edges_from(((run.start, run.end) for run in self.runs), unknown=None)
        return nets(graph)

    def problems(self) -> Iterator[MulewrightError]:
        """Paths that are no runs, and wiring that runs in a ring."""
        for name, wire in self.file.wire.items():
            yield from _path_problems(f"wire.{name}.path", wire.path)
        feeders: dict[str, list[str]] = {}
        for run in self.runs:
            feeders.setdefault(run.end, []).append(run.wire)
        twice = {node: wires for node, wires in feeders.items() if len(wires) > 1}
        for node, wires in twice.items():
            rule = "each thing is fed by one run, so that the supply is a tree and not a ring"
            yield DesignError(f"{node} is fed twice", " and ".join(wires), rule, f"{len(wires)} runs")
        if not twice and (ring := _ring(self.graph)):
            rule = "current goes from the battery outwards"
            yield DesignError("the supply runs in a ring", ring[0], rule, " - ".join([*ring, ring[0]]))


def _path_problems(where: str, path: list[str] | None) -> Iterator[MulewrightError]:
    """Say what keeps a path from being one run of wire."""
    if path is None:
        return
    rule = "two ends (battery, board, controller, regulator, motor) with only fuses and switches between them"
    if len(path) < 2:
        yield DesignError("a wire needs two ends", where, rule, ", ".join(path))
    middle = [place for place in path[1:-1] if _kind(place) not in SERIES]
    ends = [place for place in path[:1] + path[-1:] if _kind(place) not in ENDS]
    several = [place for place in path[:-1] if place.endswith(".*")]
    for place in middle:
        yield DesignError(f"{place} cannot lie in the middle of a wire", where, rule, place)
    for place in ends:
        yield DesignError(f"{place} cannot be the end of a wire", where, rule, place)
    for place in several:
        what = f"{place} is not one thing"
        yield DesignError(what, where, "only the last end of a path may stand for several", place)


def _kind(place: str) -> str:
    return place.split(".", 1)[0]


def _ring(graph: nx.DiGraph[str]) -> list[str]:
    try:
        return [str(edge[0]) for edge in nx.find_cycle(graph)]
    except nx.NetworkXNoCycle:
        return []
