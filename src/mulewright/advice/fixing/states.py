"""What does a mule look like with some steps taken? Each of its tables read once for all the steps that touch it."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace
from functools import cached_property, reduce
from operator import or_
from typing import Any, Generic, TypeVar

from mulewright.advice.fixing.steps import Setting, Step
from mulewright.design.merging import Raw, put
from mulewright.design.mule import Mule, link
from mulewright.design.paths import Path, parse_path
from mulewright.design.reads import READING, Difference, Ledger, changed, within
from mulewright.design.resolve import Loaded, build
from mulewright.design.schema.file import MuleFile
from mulewright.errors import MulewrightError
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Node
from mulewright.units.table import Table

V = TypeVar("V")
Thing = tuple[str, ...]  # ("motor", "lift"), or ("radio",)
Said = frozenset[tuple[int, str]]  # which fields differ from the file, and what they say instead
Steps = frozenset[Step]


class Version:
    """One thing with some steps taken: a table that tells what is read of it, and where it differs from the file.

    Parameters
    ----------
    thing : tuple of str
        Where it stands in the file.
    telling : Table
        The table.
    differs : mapping of int to str
        Which fields differ, and what they say.
    leaves : mapping of path to Difference, optional
        What differs, where those are single values.
    own : collection of path, optional
        The places within it that the steps set themselves; what is said there holds whatever else is done.
    """

    def __init__(
        self,
        thing: Thing,
        telling: Table,
        differs: Mapping[int, str],
        leaves: Mapping[Path, Difference] | None = None,
        own: Collection[Path] = (),
    ) -> None:
        self.thing = thing
        self.telling = telling
        self.differs = differs
        self.leaves = leaves
        self.own = own
        self.bits = sum(differs)
        self._through: dict[int, Said] = {}

    def through(self, seen: int) -> Said:
        """What differs in some fields."""
        found = self._through.get(seen)
        if found is None:
            found = frozenset((bit, said) for bit, said in self.differs.items() if bit & seen)
            self._through[seen] = found
        return found


class State:
    """The mule with some steps taken.

    Parameters
    ----------
    states : States
        All states of the mule.
    versions : collection of Version
        The things that differ, in their order.
    """

    def __init__(self, states: States, versions: Collection[Version]) -> None:
        self.states = states
        self.versions = versions
        added: dict[str, list[str]] = {}
        for one in versions:
            if len(one.thing) == 2 and one.thing[1] not in getattr(states.file, one.thing[0]):
                added.setdefault(one.thing[0], []).append(one.thing[1])
        self.added = frozenset((states.ledger.bit("", kind), repr(names)) for kind, names in added.items())
        self.bits = sum(bit for bit, _ in self.added)
        for one in versions:
            self.bits |= one.bits
        self._through: dict[int, tuple[Said, ...]] = {}

    def through(self, seen: int) -> tuple[Said, ...]:
        """What differs from the file in some fields; states that agree in it get the same results from them."""
        found = self._through.get(seen)
        if found is None:
            every = [one.through(seen & one.bits) for one in self.versions if seen & one.bits]
            if self.added:
                every.append(frozenset(one for one in self.added if one[0] & seen))
            found = self._through[seen] = tuple(said for said in every if said)
        return found

    @cached_property
    def mule(self) -> Mule:
        """The mule, whose tables tell what is read of them."""
        states = self.states
        inside = dict(within(states.told))
        for one in self.versions:
            if len(one.thing) == 1:
                inside[one.thing[0]] = one.telling
            else:
                kind, name = one.thing
                inside[kind] = inside[kind] | {name: one.telling}
        return Mule(replace(states.loaded, file=states.ledger.made(MuleFile, "", inside)))

    @cached_property
    def evaluation(self) -> Evaluation:
        """The facts; what rests on nothing that differs from some other state is taken over from there."""
        return self.with_values({})

    def with_values(self, values: Mapping[str, Any]) -> Evaluation:
        """The facts with values of numbers laid over; what rests on none of them is taken over."""
        evaluation = Evaluation(self.mule, values)
        evaluation.settled = Shared(self.states.facts, self, self.states.bits(values))
        return evaluation


class Remembered(Generic[V]):
    """Results by what they rest on: one that is known for a state holds for all that agree in what was read."""

    def __init__(self) -> None:
        self._known: dict[int, dict[tuple[Said, ...], tuple[V, int]]] = {}

    def get(self, state: State, moved: int = 0) -> tuple[V, int] | None:
        """The result for a state with what it rests on, if one is known that rests on nothing that moved."""
        bits = state.bits
        for seen, known in self._known.items():
            if not seen & moved:
                found = known.get(state.through(here) if (here := seen & bits) else ())
                if found is not None:
                    return found
        return None

    def keep(self, state: State, seen: int, value: V) -> None:
        """Remember a result with what was read for it."""
        self._known.setdefault(seen, {})[state.through(seen & state.bits)] = value, seen


class Shared:
    """Where the evaluation of one state finds facts that another has worked out."""

    def __init__(
        self, facts: dict[tuple[type[Facts], str, str], Remembered[Node]], state: State, moved: int
    ) -> None:
        self.facts = facts
        self.state = state
        self.moved = moved

    def node(self, owner: Facts, name: str) -> Node | None:
        """The node of a fact that is known."""
        known = self.facts.get((type(owner), owner.id, name))
        found = known.get(self.state, self.moved) if known is not None else None
        return found[0] if found is not None else None

    def keep(self, owner: Facts, name: str, node: Node) -> None:
        """Remember a fact that was worked out."""
        if not node.rests & self.moved:
            key = (type(owner), owner.id, name)
            known = self.facts.get(key)
            if known is None:
                known = self.facts[key] = Remembered()
            known.keep(self.state, node.rests, node)


class States:
    """Every state of one mule that was looked at.

    Parameters
    ----------
    loaded : Loaded
        The file.
    raw : Raw
        What it says, with a variant and settings, before its parts are filled in.
    """

    def __init__(self, loaded: Loaded, raw: Raw) -> None:
        self.loaded = loaded
        self.raw = raw
        self.file: MuleFile = loaded.file
        self.ledger = Ledger()
        self.told = self.ledger.telling(self.file)
        self.facts: dict[tuple[type[Facts], str, str], Remembered[Node]] = {}
        self._states: dict[Steps, State | None] = {}
        self._versions: dict[tuple[Thing, Steps], Version | None] = {}
        self._settings: dict[Step, dict[Thing, list[Setting]]] = {}
        self._linked: Remembered[bool] = Remembered()

    def bits(self, paths: Iterable[str]) -> int:
        """What stands for some inputs."""
        return reduce(or_, (self.ledger.bit(*_parts(path)) for path in paths), 0)

    def of(self, steps: Steps) -> State | None:
        """The state with some steps taken; None where that is no mule any more."""
        if steps not in self._states:
            self._states[steps] = self._state(steps)
        return self._states[steps]

    def _state(self, steps: Steps) -> State | None:
        by_thing: dict[Thing, list[Step]] = {}
        for step in steps:
            for thing in self._things(step):
                by_thing.setdefault(thing, []).append(step)
        versions = []
        for thing in sorted(by_thing):
            version = self._version(thing, frozenset(by_thing[thing]))
            if version is None:
                return None
            versions.append(version)
        state = State(self, versions)
        return state if self._holds(state) else None

    def _holds(self, state: State) -> bool:
        """Whether all names lead somewhere, and nothing runs in a ring."""
        known = self._linked.get(state)
        if known is not None:
            return known[0]
        holds = True
        with READING.apart() as own:
            try:
                link(state.mule.loaded)
            except MulewrightError:
                holds = False
        self._linked.keep(state, own.seen, holds)
        return holds

    def _things(self, step: Step) -> dict[Thing, list[Setting]]:
        """What a step sets, by the things that it sets it on."""
        found = self._settings.get(step)
        if found is None:
            found = self._settings[step] = {}
            for path, value in step.settings:
                place = parse_path(path)
                named = isinstance(getattr(self.file, place[0]), Mapping)
                found.setdefault(place[: 2 if named else 1], []).append((path, value))
        return found

    def _version(self, thing: Thing, steps: Steps) -> Version | None:
        known = (thing, steps)
        if known not in self._versions:
            try:
                composed = self._composed(thing, steps) if len(steps) > 1 else None
                self._versions[known] = composed or self._read(thing, steps)
            except MulewrightError:
                self._versions[known] = None
        return self._versions[known]

    def _composed(self, thing: Thing, steps: Steps) -> Version | None:
        """The versions of single steps laid over each other, where that is told from them."""
        ones = [self._version(thing, frozenset({step})) for step in sorted(steps)]
        told, leaves = _table(self.told, thing), _laid_over([one for one in ones if one is not None])
        if None in ones or leaves is None or told is None:
            return None
        for path, leaf in leaves.items():
            told = changed(told, path, leaf.value)
        return Version(thing, told, {leaf.bit: leaf.says for leaf in leaves.values()})

    def _read(self, thing: Thing, steps: Steps) -> Version:
        raw: Raw = _narrowed(self.raw, thing)
        settings = [one for step in sorted(steps) for one in self._things(step)[thing]]
        for path, value in settings:
            raw = put(raw, parse_path(path), value)
        raw = {"schema_version": self.raw["schema_version"]} | raw
        loaded = self.loaded
        fresh = build(raw, loaded.where, loaded.folder, base=loaded.base, catalog=loaded.catalog).file
        was, now = _table(self.file, thing), _table(fresh, thing)
        assert now is not None
        found = list(self.ledger.differing(was, now, thing))
        differs = {one.bit: one.says for one in found}
        if was is None and len(thing) == 1:
            differs[self.ledger.bit("", thing[0])] = "there"
        local = was is not None and all(one.leaf for one in found)
        leaves = {one.place[len(thing) :]: one for one in found} if local else None
        own = {parse_path(path)[len(thing) :] for path, _ in settings}
        telling = self.ledger.telling(now, ".".join(thing), was, _table(self.told, thing))
        return Version(thing, telling, differs, leaves, own)


def _laid_over(versions: Collection[Version]) -> dict[Path, Difference] | None:
    """What differs with the steps of several versions together; None where that is not told from what each does."""
    found: dict[Path, Difference] = {}
    for one in versions:
        if one.leaves is None:
            return None
        brought = {place: leaf for place, leaf in one.leaves.items() if place not in one.own}
        if not found.keys().isdisjoint(brought):
            return None
        found |= brought
    set_by: set[Path] = set()
    for one in versions:
        if not set_by.isdisjoint(one.own) or one.leaves is None:
            return None
        set_by |= set(one.own)
        for place in one.own:  # what a file says itself goes before what a part or the others bring
            found.pop(place, None)
            if place in one.leaves:
                found[place] = one.leaves[place]
    return found


def _parts(path: str) -> tuple[str, str]:
    table, _, name = path.rpartition(".")
    return table, name


def _narrowed(raw: Raw, thing: Thing) -> Raw:
    """What a description says of one thing."""
    if len(thing) == 1:
        return {thing[0]: raw[thing[0]]} if thing[0] in raw else {}
    tables = raw.get(thing[0], {})
    return {thing[0]: {thing[1]: tables[thing[1]]} if thing[1] in tables else {}}


def _table(file: MuleFile, thing: Thing) -> Table | None:
    found = getattr(file, thing[0])
    found = found.get(thing[1]) if len(thing) == 2 else found
    return found if isinstance(found, Table) else None
