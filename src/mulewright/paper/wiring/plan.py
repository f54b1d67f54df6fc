"""Which boxes stand in the wiring picture, in which columns, and which wires join them?"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

import networkx as nx

from mulewright.design.harness import Conductor, Pin, harness
from mulewright.design.mule import Mule
from mulewright.design.references import outputs_of
from mulewright.design.signals import INPUTS, RECEIVERS

SOURCE, JOIN, SHARE, CONTROL, MOVE, MIX, RECEIVE = 0, 10, 20, 1000, 1010, 1020, 2000  # stages, left to right
STEP = 10  # from one board to the next one behind it, from one box of signals to the next
SOURCES = ("battery", "bench_supply")
BOXES = (
    *SOURCES, "fuse", "switch", "y_lead", "board", "controller", "regulator", "motor", "servo", "mixer",
    "inline", "tester", *RECEIVERS,
)  # fmt: skip
SIGNALS = ("servo lead", "supply lead")


def kind_of(thing: str) -> str:
    """Kind of a thing: ``battery`` of ``battery.main``."""
    return thing.split(".", 1)[0]


@dataclass(eq=False)
class Row:
    """A height at which wires run level; several wires may share it where a box lies between them."""

    above: float  # room over it [mm]
    below: float  # room under it [mm]
    y: float = 0.0  # [mm]


@dataclass(eq=False)
class Wire:
    """A conductor between two boxes, the left of which it starts from."""

    conductor: Conductor
    left: Box
    right: Box | None  # None for a plug that sits nowhere
    left_row: Row | None = None
    lane: Row | None = None  # the row along which it passes other columns
    right_row: Row | None = None

    @property
    def start(self) -> Pin:
        """Its pin at the left."""
        return self.conductor.start

    @property
    def is_lead(self) -> bool:
        """Whether it is a servo lead of two or three wires."""
        return self.conductor.kind in SIGNALS


@dataclass(eq=False)
class Box:
    """A thing in the picture."""

    thing: str
    stage: int
    incoming: list[Wire] = field(default_factory=list)  # on its left
    leaving: list[Wire] = field(default_factory=list)  # on its right
    empty: dict[str, Row] = field(default_factory=dict)  # sockets in which nothing sits
    rows: list[Row] = field(default_factory=list)  # rows of its own, without a wire
    pins: list[Row] = field(default_factory=list)  # those of the sockets of a receiver, from the top down

    @property
    def kind(self) -> str:
        """What it is."""
        return kind_of(self.thing)

    def all_rows(self) -> list[Row]:
        """Every row that it reaches over."""
        left = [wire.right_row for wire in self.incoming]
        right = [wire.left_row for wire in self.leaving]
        return [row for row in (*left, *right, *self.empty.values(), *self.rows) if row is not None]


@dataclass(eq=False)
class Stack:
    """A battery or bench supply with the fuses and switches that belong to it, from the top down."""

    source: Box
    over: list[Box]  # in its plus, the last one on top
    under: list[Box]  # in its minus, the last one at the bottom
    inside: list[Wire]  # the wires between them

    @property
    def boxes(self) -> list[Box]:
        """All of them, from the top down."""
        return [*reversed(self.over), self.source, *self.under]


@dataclass
class Plan:
    """The boxes and wires of one mule."""

    mule: Mule

    def __post_init__(self) -> None:
        self.boxes = {
            thing: Box(thing, stage) for thing, stage in _stages(self.mule, self._conductors).items()
        }
        self.wires: list[Wire] = []
        for conductor in self._conductors:
            left = self.boxes[conductor.start.thing]
            right = self.boxes[conductor.end.thing] if conductor.end is not None else None
            wire = Wire(conductor, left, right)
            self.wires.append(wire)
            left.leaving.append(wire)
            if right is not None:
                right.incoming.append(wire)
        self.stacks = [
            self._stack(box) for box in self.boxes.values() if box.kind in SOURCES and box.stage == SOURCE
        ]

    @cached_property
    def _conductors(self) -> tuple[Conductor, ...]:
        return harness(self.mule).conductors

    def _stack(self, source: Box) -> Stack:
        """Take what lies in the only run of a source, up to where packs are joined, onto its stack."""
        stack = Stack(source, [], [], [])
        for pole, items in (("plus", stack.over), ("minus", stack.under)):
            here = source
            while len(mine := [wire for wire in here.leaving if wire.conductor.kind == pole]) == 1:
                beyond = mine[0].right
                if beyond is None or beyond.kind not in ("fuse", "switch"):
                    break
                beyond.stage = SOURCE
                items.append(beyond)
                stack.inside.append(mine[0])
                here = beyond
        return stack

    @cached_property
    def stacked(self) -> set[Box]:
        """Boxes that stand in a stack."""
        return {box for stack in self.stacks for box in stack.boxes}

    @cached_property
    def upright(self) -> set[Wire]:
        """Wires that run up or down between the boxes of a stack."""
        return {wire for stack in self.stacks for wire in stack.inside}

    @property
    def standing(self) -> list[Box]:
        """Boxes that stand in no stack, column by column."""
        return sorted(
            (box for box in self.boxes.values() if box not in self.stacked), key=lambda box: box.stage
        )

    def sockets(self, thing: str) -> list[str]:
        """Names of the sockets of a receiver or a mixer box, in their order."""
        kind, _, name = thing.partition(".")
        if kind in RECEIVERS:
            table = getattr(self.mule.file, kind)
            return [str(number) for number in range(1, (table.channels or 0) + 1)]
        if kind == "mixer":
            return [*INPUTS, *outputs_of(self.mule.file.mixer[name])]
        return []


def _stages(mule: Mule, conductors: tuple[Conductor, ...]) -> dict[str, int]:
    """The column of each thing."""
    things = [thing for thing in mule.things if kind_of(thing) in BOXES]
    stages = dict.fromkeys(things, CONTROL)
    stages |= {thing: SOURCE for thing in things if kind_of(thing) in SOURCES}
    stages |= {thing: MOVE for thing in things if kind_of(thing) in ("motor", "servo")}
    stages |= {thing: RECEIVE for thing in things if kind_of(thing) in (*RECEIVERS, "tester")}
    stages |= {thing: SHARE for thing in things if kind_of(thing) in ("board", "fuse", "switch")}
    stages |= _shares(mule)
    stages |= {
        thing: JOIN if getattr(mule.things[thing], "carries", None) == "power" else MIX
        for thing in things
        if kind_of(thing) == "y_lead"
    }
    stages |= _mixes(conductors)
    return stages


def _shares(mule: Mule) -> dict[str, int]:
    """Columns of what runs start from behind the battery, and of what lies in them."""
    found: dict[str, int] = {}
    supply = mule.supply
    for thing in supply.graph:
        fed = supply.run_into(thing) is not None
        if kind_of(thing) == "board" or (fed and supply.runs_from(thing)):
            found[thing] = SHARE + STEP * len(supply.way_to(thing))
    for run in supply.runs:
        end = found.get(run.end, CONTROL)
        items = [item for item in run.through if kind_of(item) in ("fuse", "switch")]
        found |= {item: end - len(items) + place for place, item in enumerate(items)}
    return found


def _mixes(conductors: tuple[Conductor, ...]) -> dict[str, int]:
    """Columns of Y-leads, boxes and devices in signal leads: each right of all whose plugs sit in it."""
    graph: nx.DiGraph[str] = nx.DiGraph()
    for one in conductors:
        if one.kind == "servo lead" and one.end is not None:
            graph.add_edge(one.start.thing, one.end.thing)
    found: dict[str, int] = {}
    for thing in nx.topological_sort(graph):
        if kind_of(thing) in ("y_lead", "inline", "mixer"):
            found[thing] = max(
                (found.get(before, MIX - STEP) + STEP for before in graph.predecessors(thing)), default=MIX
            )
    return found
