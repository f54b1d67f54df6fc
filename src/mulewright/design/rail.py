"""Which servo leads are joined to each other? Their middle wires as rails, their grounds as nets."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import networkx as nx

from mulewright.design.schema.electrics import Mixer
from mulewright.design.schema.file import MuleFile
from mulewright.design.signals import INPUTS, RECEIVERS, Signals


@dataclass(frozen=True)
class Join:
    """Two things whose grounds meet, and perhaps their middle wires."""

    here: str
    there: str
    middle: bool | None  # whether the middle wire goes through; None where nobody noted it
    settles: str  # the path that would say so
    plugged: str | None = None  # the path that would say whether the plug sits there, where nobody did
    ground: bool = True  # whether the ground wire goes through


@dataclass(frozen=True)
class Feed:
    """A supply and what its own lead takes it to."""

    source: str
    target: str  # a thing, or a socket of a receiver
    middle: bool  # whether the red wire is in its plug
    settles: str  # the path that says so


@dataclass(frozen=True, eq=False)
class Net:
    """Things that are joined for certain, those that may be as well, and the paths that would settle it."""

    name: str  # the first of those that are certain
    sure: frozenset[str]
    possible: frozenset[str]
    unknown: tuple[str, ...]


def rail_graph(file: MuleFile) -> nx.Graph[str]:
    """Everything that meets in middle wires.

    Nodes carry ``feeds`` or ``draws`` where they do; edges carry in ``unknown`` the path that would say
    whether they are there, or None where that is certain.
    """
    graph = _things(file)
    for join in joins(file):
        if join.middle is not False:
            _add(graph, join, join.plugged or (join.settles if join.middle is None else None))
    return graph


def ground_graph(file: MuleFile) -> nx.Graph[str]:
    """Everything that meets in the grounds of servo leads, with ``unknown`` as in :func:`rail_graph`."""
    graph = _things(file)
    for join in joins(file):
        if join.ground:
            _add(graph, join, join.plugged)
    return graph


def nets(graph: nx.Graph[str]) -> dict[str, Net]:
    """The net of every node."""
    certain = nx.subgraph_view(graph, filter_edge=lambda a, b: graph.edges[a, b]["unknown"] is None)
    sure = {node: part for part in map(frozenset, nx.connected_components(certain)) for node in part}
    found: dict[str, Net] = {}
    for possible in map(frozenset, nx.connected_components(graph)):
        unknown = _between(graph, possible, sure)
        made = {part: Net(min(part), part, possible, unknown) for part in {sure[node] for node in possible}}
        found |= {node: made[sure[node]] for node in possible}
    return found


def _between(
    graph: nx.Graph[str], nodes: frozenset[str], part_of: Mapping[str, frozenset[str]]
) -> tuple[str, ...]:
    """The paths that would say which of the parts are joined."""
    edges = graph.subgraph(nodes).edges(data=True)
    return tuple(sorted({data["unknown"] for a, b, data in edges if part_of[a] is not part_of[b]}))


def joins(file: MuleFile) -> Iterator[Join]:
    """Every place where a plug, a box or a supply of its own joins two things."""
    for lead, sockets in Signals(file).leads.items():
        yield from _plugs(file, lead, sockets)
    for name, mixer in file.mixer.items():
        path = f"mixer.{name}"
        yield Join(f"{path}.in", f"{path}.out", mixer.passes_rail, f"{path}.passes_rail")
        if all(getattr(mixer, side) is None for side in INPUTS):
            yield from _anywhere(file, f"{path}.in", mixer.red_wire != "pulled", f"{path}.{INPUTS[0]}")
    for feed in feeds(file):
        yield Join(feed.source, socket_node(feed.target), feed.middle, feed.settles)


def feeds(file: MuleFile) -> Iterator[Feed]:
    """Every supply that is led to the middle pins of something by a lead of its own."""
    for kind in ("regulator", "battery"):
        for name, source in getattr(file, kind).items():
            in_plug = getattr(source, "red_wire", None) != "pulled"
            for target in source.feeds or []:
                yield Feed(f"{kind}.{name}", target, in_plug, f"{kind}.{name}.red_wire")
    for kind in ("servo", "tester"):
        for name, thing in getattr(file, kind).items():
            if thing.power is not None:
                yield Feed(thing.power, f"{kind}.{name}", True, f"{kind}.{name}.power")


def _plugs(file: MuleFile, lead: str, sockets: list[str]) -> Iterator[Join]:
    kind, name = lead.split(".")[:2]
    table = getattr(file, kind)[name]
    here = f"mixer.{name}.in" if isinstance(table, Mixer) else lead
    middle, settles = _middle(file, kind, name)
    ground = getattr(table, "ground_wire", None) != "pulled"
    for socket in sockets:
        yield Join(here, socket_node(socket), middle, settles, ground=ground)
    if not isinstance(table, Mixer) and table.signal is None:
        yield from _anywhere(file, here, middle, f"{lead}.signal")


def _anywhere(file: MuleFile, here: str, middle: bool | None, path: str) -> Iterator[Join]:
    """A plug of which nobody said where it sits may sit in any receiver."""
    for receiver in RECEIVERS:
        if getattr(file, receiver) is not None:
            yield Join(here, receiver, middle, path, plugged=path)


def _middle(file: MuleFile, kind: str, name: str) -> tuple[bool | None, str]:
    """Whether the middle wire of a lead is in its plug, and the path that would say so."""
    table, path = getattr(file, kind)[name], f"{kind}.{name}"
    if table.red_wire is not None:
        middle: bool | None = table.red_wire == "in"
    elif kind == "servo":
        middle = table.power is None
    else:
        middle = None if kind == "controller" else True
    if kind != "controller" or middle is False:
        return middle, f"{path}.red_wire"
    if table.regulator is None:  # whether its red wire feeds anything is unknown as well
        return None, f"{path}.regulator.kind" if middle else f"{path}.red_wire"
    return (True if table.regulator.kind == "none" else middle), f"{path}.red_wire"


def node_of(thing: str) -> str:
    """The node at which a thing draws its own current; a mixer does so on the side of its outputs."""
    return f"{thing}.out" if thing.startswith("mixer.") else thing


def socket_node(socket: str) -> str:
    """The node behind a socket: the receiver, one side of a mixer, or the device itself."""
    kind, _, rest = socket.partition(".")
    if kind in RECEIVERS:
        return kind
    if kind != "mixer":
        return socket
    name, _, place = rest.partition(".")
    return f"mixer.{name}.in" if place in INPUTS else f"mixer.{name}.out"


def _things(file: MuleFile) -> nx.Graph[str]:
    """Everything with a middle wire: first what draws from it, then what may feed it."""
    graph: nx.Graph[str] = nx.Graph()
    testers = [f"tester.{name}" for name, tester in file.tester.items() if not tester.own_supply]
    mixers, servos = (f"mixer.{name}.out" for name in file.mixer), (f"servo.{name}" for name in file.servo)
    receivers = (receiver for receiver in RECEIVERS if getattr(file, receiver) is not None)
    graph.add_nodes_from((*receivers, *testers, *mixers, *servos), draws=True)
    graph.add_nodes_from(f"mixer.{name}.in" for name in file.mixer)
    for name, controller in file.controller.items():
        fed = controller.regulator is None or controller.regulator.kind != "none"
        graph.add_node(f"controller.{name}", feeds=fed)
    packs = [f"battery.{name}" for name, pack in file.battery.items() if pack.in_use is not False]
    graph.add_nodes_from((*(f"regulator.{name}" for name in file.regulator), *packs), feeds=True)
    return graph


def _add(graph: nx.Graph[str], join: Join, unknown: str | None) -> None:
    """Add an edge; of two leads between the same things the certain one counts."""
    known = graph.get_edge_data(join.here, join.there, {"unknown": ""})["unknown"] is None
    graph.add_edge(join.here, join.there, unknown=None if known else unknown)
