"""The facts graph: who computes the quantities of a mule, each once, and records what it read?

Reading a fact of an entity in an evaluation records what it rests on, so that explanation, gaps and provenance need
no code of their own.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Callable, Mapping, Sequence
from typing import Any, ClassVar, Self, TypeVar, cast

import numpy as np
from numpy.typing import ArrayLike

from mulewright.design.mule import Mule
from mulewright.design.overlay import TARGET
from mulewright.design.reads import READING
from mulewright.design.unsaid import unsaid
from mulewright.facts.nodes import UNKNOWN, Computed, Found, Given, Missing, Node, Step, Value, same_as
from mulewright.facts.settled import Settled, Settling
from mulewright.units.kinds import KINDS
from mulewright.units.quantity import Origin, Quantity
from mulewright.units.table import Table, description_of, kinds_of


class Frame:
    """What is read, and what is missing, while a block runs; gaps of what was read are added at its end."""

    __slots__ = ("frames", "gaps", "mark", "reads", "route", "step")

    def __init__(self, frames: list[Frame], mark: str = "") -> None:
        self.frames = frames
        self.mark = mark
        self.reads: list[Node] = []
        self.gaps: set[str] = set()
        self.step: Step | None = None
        self.route = ""

    def __enter__(self) -> Self:
        self.frames.append(self)
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: object) -> bool:
        self.frames.pop()
        for node in self.reads:
            if node.gaps:
                self.gaps |= node.gaps
        if isinstance(error, Missing):
            mark = self.mark
            self.gaps.update(path if path.startswith(mark) else mark + path for path in error.paths)
            return True
        return False


class Evaluation:
    """One evaluation of a mule: facts are computed once, and the evaluation is thrown away, never changed.

    Parameters
    ----------
    mule : Mule
        The linked design.
    values : mapping of str to array_like, optional
        SI values that replace given inputs, by path: draws, trial values of a search. [SI]
    target : Mule, optional
        The linked design of the machine that it stands for. It gets an evaluation of its own, whose ids and
        paths begin with ``target:`` wherever they are shown, in ``values`` too.
    """

    def __init__(
        self, mule: Mule, values: Mapping[str, ArrayLike] | None = None, target: Mule | None = None
    ) -> None:
        self.mule = mule
        self.values = {path: np.asarray(value, dtype=float) for path, value in (values or {}).items()}
        self.frames: list[Frame] = []
        self.given: dict[str, Quantity] = {}  # every input that was read, by path
        self._entities: dict[tuple[type[Facts], str], Any] = {}
        self._all: dict[type[Facts], tuple[Any, int]] = {}
        self._assumptions: dict[str, Node] = {}
        self._unsaid: dict[str, tuple[tuple[str, ...], int]] = {}
        self.mark = ""
        self.settled: Settling | None = None
        self.target = self._beside(target) if target is not None else None

    def _beside(self, target: Mule) -> Evaluation:
        """Evaluate the target so that what is read of it, and what it lacks, is recorded here."""
        marks = (TARGET, "assumed.")
        values = {path: value for path, value in self.values.items() if path.startswith(marks)}
        found = Evaluation(target, {path.removeprefix(TARGET): value for path, value in values.items()})
        found.mark, found.frames, found.given, found._assumptions = (
            TARGET, self.frames, self.given, self._assumptions
        )  # fmt: skip
        return found

    def again(self, values: Mapping[str, ArrayLike]) -> Evaluation:
        """Evaluate the same mule and target with further values; what rests on none of them is taken over."""
        target = self.target.mule if self.target is not None else None
        found = Evaluation(self.mule, {**self.values, **values}, target)
        if self.given.keys() >= values.keys():
            found.settled = Settled(self, values)
            if found.target is not None and self.target is not None:
                found.target.settled = Settled(self.target, values)
        return found

    @property
    def is_target(self) -> bool:
        """Whether it is that of a target beside its mule."""
        return bool(self.mark)

    def entity(self, kind: type[F], name: str) -> F:
        """The facts of one entity; the same object each time."""
        found: F | None = self._entities.get((kind, name))
        if found is None:
            with READING.apart() as own:
                found = self._entities[kind, name] = kind(self, name)
            found.rests = own.seen
        READING.seen |= found.rests
        return found

    def all(self, kind: type[F]) -> Sequence[F]:
        """All entities of a kind, looked for once."""
        found = self._all.get(kind)
        if found is None:
            with READING.apart() as own:
                every: Sequence[F] = kind.all(self)
            found = self._all[kind] = every, own.seen
        READING.seen |= found[1]
        return cast(Sequence[F], found[0])

    def unsaid(self, *links: str) -> list[str]:
        """The links of some patterns, such as ``controller.*.feeds``, that nobody wrote; looked for once."""
        for link in links:
            if link not in self._unsaid:
                with READING.apart() as own:
                    paths = tuple(unsaid(self.mule.file, link))
                self._unsaid[link] = paths, own.seen
            READING.seen |= self._unsaid[link][1]
        return [self.mark + path for link in links for path in self._unsaid[link][0]]

    def watch(self) -> Frame:
        """Record what is read, and what is missing, until the block ends."""
        return Frame(self.frames, self.mark)

    def assumption(self, name: str) -> Node:
        """The node of a default in the shelf's table of assumptions."""
        if name not in self._assumptions:
            quantity = self.mule.assumed(name)
            kind = KINDS[quantity.kind]
            step = Given(quantity, f"assumed.{name}")
            self.given[step.path] = quantity
            value = self.values.get(step.path, np.asarray(quantity.value))
            says = f"assumed: {name.replace('_', ' ')}"
            self._assumptions[name] = Node(
                "assumed",
                name,
                kind.si,
                says,
                value,
                origin=quantity.origin,
                step=step,
                uncertain=quantity.uncertain,
            )
        return self._assumptions[name]


class Facts(ABC):
    """The facts about one entity. Subclasses say what kind of entity, and where to find them all."""

    kind: ClassVar[str]
    none: ClassVar[str]  # why a check about this kind does not apply to a mule without one
    rests_on: ClassVar[tuple[str, ...]] = ()  # links without which nobody can tell what is of this kind
    rests: int = 0  # what was read to make it, where the tables tell

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        self.evaluation = evaluation
        self.mule = evaluation.mule
        self.id = id
        self.nodes: dict[str, Node] = {}

    @classmethod
    @abstractmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        """All entities of this kind on the mule."""

    @classmethod
    def open_ends(cls, evaluation: Evaluation) -> Sequence[str]:
        """Links that nobody wrote, and behind which there may be more of this kind."""
        return evaluation.unsaid(*cls.rests_on)

    @classmethod
    def absent(cls, evaluation: Evaluation) -> str:
        """Why there is none of this kind."""
        return cls.none

    @property
    def shown(self) -> str:
        """Its id as people see it, which tells the target's things from the mule's."""
        return self.evaluation.mark + self.id

    @classmethod
    def each(cls, evaluation: Evaluation, kind: str) -> list[Self]:
        """One entity for each table of a kind in the mule file, e.g. for each ``motor``."""
        tables: Mapping[str, Table] = getattr(evaluation.mule.file, kind)
        return [evaluation.entity(cls, f"{kind}.{name}") for name in tables]

    @property
    def table(self) -> Table:
        """The table of the mule file in which the entity's inputs stand.

        Raises
        ------
        Missing
            If the file has no such table.
        """
        try:
            return self.mule.table(self.id)
        except KeyError as no:
            raise Missing(self.shown) from no

    def require_said(self, *links: str) -> None:
        """Let nothing be concluded from what was not found while such links are not written.

        Raises
        ------
        Missing
            If one is not.
        """
        if paths := self.evaluation.unsaid(*links):
            raise Missing(*paths)

    def missing(self, words: str, *links: str) -> Missing:
        """What to ask for where a thing was not found: such links as nobody wrote, or else some words."""
        return Missing(*self.evaluation.unsaid(*links) or [words])

    def of(self, kind: type[F], name: str) -> F:
        """The facts of another entity."""
        return self.evaluation.entity(kind, name)

    def node(self, name: str) -> Node:
        """Compute one fact and return its node."""
        getattr(self, name)
        return self.nodes[name]

    def by(self, model: Callable[..., Value], /, **arguments: Any) -> Value:
        """Compute the value of the fact at hand with a model, and record which facts went in."""
        value = np.asarray(model(**arguments), dtype=float)
        frame = self.evaluation.frames[-1]
        frame.step = Computed(model, arguments, frame.reads)
        return value

    def found(self, value: ArrayLike, because: str) -> Value:
        """Return a value that was found by looking at the mule, with what was seen."""
        on = "on the target: " if self.evaluation.is_target else ""
        self.evaluation.frames[-1].step = Found(on + because)
        return np.array(value, dtype=float)

    def assumed(self, name: str) -> Value:
        """Return a default of the shelf's table of assumptions."""
        node = self.evaluation.assumption(name)
        self.evaluation.frames[-1].reads.append(node)
        return node.value

    def choice(self, name: str) -> Any:
        """Return a choice made in the entity's table.

        Raises
        ------
        Missing
            If it was left out.
        """
        value = getattr(self.table, name)
        if value is None:
            raise Missing(f"{self.shown}.{name}")
        return value

    def read(self, key: str) -> Value:
        """Return an input of the entity's table that is only known by its name."""
        node = self.nodes.get(key)
        if node is None:
            with READING.apart() as own:
                node = self.nodes[key] = given_node(self, key, key)
            node.rests = own.seen | self.rests
        READING.seen |= node.rests
        self.evaluation.frames[-1].reads.append(node)
        return node.value

    def first(self, *routes: tuple[str, Callable[[], Value]]) -> Value:
        """Take the first route whose inputs are all known; the trace says which one it was."""
        outer = self.evaluation.frames[-1]
        gaps: set[str] | None = None
        for label, route in routes:
            value = UNKNOWN
            with self.evaluation.watch() as inner:
                value = route()
            if not inner.gaps:
                outer.reads += inner.reads
                outer.step, outer.route = inner.step or same_as(value, inner.reads), label
                return value
            gaps = gaps or inner.gaps
        outer.gaps |= gaps or set()
        return UNKNOWN


F = TypeVar("F", bound=Facts)


def given_node(owner: Facts, name: str, key: str, assume: str = "") -> Node:
    """Read one input of an entity's table."""
    path = f"{owner.shown}.{key}"
    try:
        table = owner.table
    except Missing as no:
        raise Missing(path) from no
    kind = kinds_of(type(table))[key]
    says = description_of(type(table), key)
    quantity = table.quantity(key)
    if quantity is None and assume:
        quantity = owner.mule.assumed(assume)
    node = Node(owner.shown, name, kind.unit, says, step=Given(quantity, path))
    if quantity is not None:
        owner.evaluation.given[path] = quantity
        node.uncertain = quantity.uncertain
    replaced = owner.evaluation.values.get(f"{owner.id}.{key}")
    if replaced is not None:
        node.value = replaced
    elif quantity is not None:
        node.value = np.asarray(quantity.value)
    else:
        node.value, node.gaps = np.array(np.nan), frozenset({path})
    node.origin = quantity.origin if quantity is not None else Origin.TYPED
    return node
