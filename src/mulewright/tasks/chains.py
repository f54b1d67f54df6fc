"""What gives first between the battery and the load of each function, and at which load?"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from mulewright.errors import NotFound, closest
from mulewright.facts.chain import DRIVE, ChainFacts, chains
from mulewright.facts.chain_links import LinkFacts, links
from mulewright.facts.chain_servos import ServoLimitFacts
from mulewright.facts.graph import Evaluation
from mulewright.facts.grippers import GripFacts
from mulewright.facts.nodes import Node, number
from mulewright.tasks.opening import Opened, open_mule

GRIP = "force of each jaw"
HORN = "torque of its horn"
PUSH = "push at the wheels"
PULL = "pull in the rope at its drum"
TORQUE = "torque at its shaft"


@dataclass(frozen=True)
class Load:
    """A load of a function: a number, or what is missing to tell it."""

    value: float | None
    unit: str
    needs: tuple[str, ...]
    origin: str

    def as_dict(self) -> dict[str, Any]:
        """The load for programs."""
        return {"value": self.value, "unit": self.unit, "needs": list(self.needs), "origin": self.origin}


@dataclass(frozen=True)
class Link:
    """One link of a chain: the load at which it gives, and how."""

    thing: str
    what: str
    fails: str
    lasting: bool
    gives_at: Load
    margin: float | None
    fact: str

    def as_dict(self) -> dict[str, Any]:
        """The link for programs."""
        return {
            "thing": self.thing, "what": self.what, "fails": self.fails, "lasting": self.lasting,
            **self.gives_at.as_dict(), "margin": self.margin, "fact": self.fact,
        }  # fmt: skip


@dataclass(frozen=True)
class Chain:
    """The links of one function, the weakest first; those that could not be told stand last."""

    function: str
    measure: str
    at_work: Load
    stalls_at: Load
    links: tuple[Link, ...]
    one_of: str = ""  # the function, where several chains serve it and the name of each says more

    @property
    def known(self) -> list[Link]:
        """The links whose load is known."""
        return [link for link in self.links if link.gives_at.value is not None]

    @property
    def unknown(self) -> list[Link]:
        """The links whose load could not be told."""
        return [link for link in self.links if link.gives_at.value is None]

    @property
    def first(self) -> Link | None:
        """What gives first when the load comes on at once."""
        return next((link for link in self.known if not link.lasting), None)

    @property
    def first_in_time(self) -> Link | None:
        """What gives before that where the load lasts."""
        before = self.known[: self.known.index(self.first)] if self.first else self.known
        return next((link for link in before if link.lasting), None)

    def as_dict(self) -> dict[str, Any]:
        """The chain for programs; numbers in SI."""
        first, in_time = self.first, self.first_in_time
        return {
            "function": self.function,
            "measure": self.measure,
            "at_work": self.at_work.as_dict(),
            "stalls_at": self.stalls_at.as_dict(),
            "first": first.fact if first else None,
            "first_in_time": in_time.fact if in_time else None,
            "links": [link.as_dict() for link in self.links],
        }


@dataclass(frozen=True)
class ChainReport:
    """The chains that somebody asked for."""

    opened: Opened
    chains: tuple[Chain, ...]

    def as_dict(self) -> dict[str, Any]:
        """The chains for programs."""
        return {"mule": self.opened.name, "chains": [chain.as_dict() for chain in self.chains]}


def chains_of(evaluation: Evaluation) -> tuple[Chain, ...]:
    """The chain of every function that motors serve, a drive as its two sides, and of each thing that servos move."""
    grips = [grip for grip in GripFacts.all(evaluation) if grip.servos]
    found = (*map(_chain, chains(evaluation)), *map(_jaws, grips))
    horns = ServoLimitFacts.all(evaluation)
    serving = Counter((*(chain.function for chain in found), *(servo.function for servo in horns)))
    return (*found, *(_horn(servo, alone=serving[servo.function] == 1) for servo in horns))


def chain_of_function(
    path: str | Path, function: str, settings: Sequence[str] = (), variant: str | None = None
) -> ChainReport:
    """Read a mule file and work out the chain of one function, or all where several serve it, as in a drive.

    Raises
    ------
    NotFound
        If nothing moves such a function.
    """
    opened = open_mule(path, settings, variant)
    every = chains_of(opened.evaluation)
    wanted = [chain for chain in every if function in (chain.function, chain.one_of)]
    if not wanted:
        names = [chain.function for chain in every]
        rule = f"one of {', '.join(names)}" if names else "a function that motors or servos serve"
        raise NotFound(f"nothing moves {function!r}", str(path), rule, function, closest(function, names))
    return ChainReport(opened, tuple(wanted))


def _chain(facts: ChainFacts) -> Chain:
    ordered = _ordered([_link(link) for link in links(facts)])
    measure = PUSH if facts.function == DRIVE else PULL if facts.node("stalls_at").unit == "N" else TORQUE
    work, stall = _load(facts.node("at_work")), _load(facts.node("stalls_at"))
    return Chain(facts.name, measure, work, stall, ordered, facts.function if facts.side else "")


def _jaws(grip: GripFacts) -> Chain:
    """The chain of a gripper: its servos, against the force that keeps the object from slipping out."""
    found = [
        link
        for servo in grip.servos
        for link in _of_servo(
            servo, (grip.node("jaw_force"), grip.node("grip_factor")),
            (grip.node("peak_jaw_force"), grip.node("peak_grip_factor")),
        )
    ]  # fmt: skip
    work, stall = _load(grip.node("needed_force")), _load(grip.node("peak_jaw_force"))
    return Chain(grip.id.split(".", 1)[1], GRIP, work, stall, _ordered(found))


def _horn(servo: ServoLimitFacts, *, alone: bool) -> Chain:
    """The chain of a servo that holds something up or turns it, alone or as one of several."""
    found = _of_servo(
        servo.id, (servo.node("lasting_torque"), servo.node("lasting_margin")),
        (servo.node("stalls_at"), servo.node("stall_margin")),
    )  # fmt: skip
    work, stall = _load(servo.node("at_work")), _load(servo.node("stalls_at"))
    function = servo.function
    name = function if alone else f"{function}-{servo.id.split('.', 1)[1]}"
    return Chain(name, HORN, work, stall, _ordered(found), "" if alone else function)


def _of_servo(servo: str, lasting: tuple[Node, Node], stall: tuple[Node, Node]) -> list[Link]:
    """The two links of a servo, each from its load and its margin."""
    (warm, warm_margin), (held, held_margin) = lasting, stall
    return [
        Link(servo, "winding", "burns", True, _load(warm), number(warm_margin), warm.id),
        Link(servo, "stall", "stalls", False, _load(held), number(held_margin), held.id),
    ]


def _ordered(links: Sequence[Link]) -> tuple[Link, ...]:
    return tuple(sorted(links, key=lambda link: _place(link.gives_at)))


def _place(load: Load) -> tuple[bool, float]:
    """Known loads by their size; what could not be told after them, in the order of the chain."""
    return load.value is None, load.value or 0


def _link(link: LinkFacts) -> Link:
    gives_at, margin = link.output.node("gives_at"), link.output.node("margin")
    manner = link.manner
    return Link(
        link.part, manner.words, manner.fails, manner.lasting, _load(gives_at), number(margin), gives_at.id
    )


def _load(node: Node) -> Load:
    return Load(number(node), node.unit, tuple(sorted(node.gaps)), node.origin.word)
