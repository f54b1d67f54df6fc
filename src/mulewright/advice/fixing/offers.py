"""What could one do about a finding? Every single step that its levers offer, numbers already set as far as needed."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

import numpy as np
from numpy.typing import NDArray

from mulewright.advice.fixing.bench import MARGIN, Bench, Question, Standing
from mulewright.advice.fixing.choices import Choice, choices
from mulewright.advice.fixing.grids import grid
from mulewright.advice.fixing.levers import Input, inputs, used_by
from mulewright.advice.fixing.states import Steps
from mulewright.advice.fixing.steps import Setting, Step
from mulewright.checks.engine import Severity
from mulewright.design.paths import written
from mulewright.design.schema.electrics import Gear, Motor
from mulewright.shelf.changes import Change, change_of, cost_classes
from mulewright.units.quantity import Quantity

TODAY = "today"
WAIVED = {"deliberate": True, "because": "write down why"}


@dataclass(frozen=True)
class Terms:
    """On which terms steps are offered: what is allowed, what each class costs, which sprockets are at hand."""

    allowed: frozenset[str]
    costs: Mapping[str, float]
    today: date
    teeth: tuple[int, ...] = ()

    def takes(self, kind: str) -> bool:
        """Whether a class of work is allowed."""
        return cost_classes()[kind].allow in self.allowed


class Offers:
    """The steps that are offered for the questions of one mule."""

    def __init__(self, bench: Bench, terms: Terms) -> None:
        self.bench = bench
        self.terms = terms
        self._set_by: dict[Step, tuple[Change, Input, float]] = {}

    def of(self, questions: Collection[Question], steps: Steps) -> dict[Question, set[Step]]:
        """What the levers of each question offer, from where the mule stands with some steps taken."""
        found: dict[Question, set[Step]] = {question: set() for question in questions}
        scanned: dict[str, dict[Question, set[Step]]] = {}
        for question in questions:
            if self.terms.takes("waiver") and self._waivable(question, steps):
                found[question].add(self._waiver(question))
            for lever in question.check.levers:
                if lever.startswith("target:"):
                    continue
                for at in inputs(self.bench, lever):
                    change = change_of(at.path)
                    if change is None or not self.terms.takes(change.cost) or not _possible(change, at):
                        continue
                    if at.path not in scanned:
                        scanned[at.path] = self._for_all(change, at, questions, steps)
                    found[question] |= scanned[at.path].get(question, set())
        return found

    def _for_all(
        self, change: Change, at: Input, questions: Collection[Question], steps: Steps
    ) -> dict[Question, set[Step]]:
        """The steps at one input, by the questions that they are offered for."""
        if change.by in ("teeth", "stage"):
            return self._gears(change, at, questions, steps)
        if change.numeric and at.kind is not None:
            return self._numbers(change, at, questions, steps)
        every = {self._step(change, at, choice) for choice in choices(self.bench, change, at)}
        return dict.fromkeys(questions, every)

    # --- choices ------------------------------------------------------------------------------------------------

    def _step(self, change: Change, at: Input, choice: Choice) -> Step:
        to, shown = choice.to, choice.shown
        if to == TODAY:
            to, shown = self.terms.today, "the day on which it was done"
        cost = self.terms.costs[change.cost] * max(1, self._how_many(at))
        also = (*choice.also, *self._alike(at, to))
        return self._made(change, at, to, shown or _words(to), also, cost, choice.things)

    def _made(
        self,
        change: Change,
        at: Input,
        to: Any,
        shown: str,
        also: tuple[Setting, ...],
        cost: float,
        things: str = "",
    ) -> Step:
        do = change.do.format(path=at.path, thing=at.thing, things=things, to=shown, **{"from": at.shown})
        if also and change.by == "parts" and any(path.endswith(".part") for path, _ in also):
            do += ", and the same for " + ", ".join(
                p.removesuffix(".part") for p, _ in also if p.endswith(".part")
            )
        return Step(at.path, to, at.shown, cost, change.cost, do, also, shown, change)

    def _how_many(self, at: Input) -> int:
        """How often the same has to be done: for each channel in use, for each wheel."""
        if at.stands_for:
            return sum(used_by(self.bench.mule, *_parts_of(path)) for path in at.stands_for)
        return 1 + len(self._twins(at))

    def _twins(self, at: Input) -> list[str]:
        """Other motors of wheels: what drives one wheel drives all."""
        if at.place[0] != "motor" or at.place[2] not in ("part", "gears"):
            return []
        motors = self.bench.mule.file.motor
        if not (motors[at.place[1]].turns or "").startswith("wheel."):
            return []
        return [n for n, m in motors.items() if n != at.place[1] and (m.turns or "").startswith("wheel.")]

    def _alike(self, at: Input, to: Any) -> tuple[Setting, ...]:
        return tuple((written(("motor", twin, *at.place[2:])), to) for twin in self._twins(at))

    def _waivable(self, question: Question, steps: Steps) -> bool:
        return bool(0 < self.bench.standing(question, steps).severity <= Severity.WARN)

    def _waiver(self, question: Question) -> Step:
        rule = question.check
        do = f"Leave {rule.id} {rule.name} as it is, everywhere, and write down why"
        cost = self.terms.costs["waiver"]
        return Step(f"limits.{rule.id}", WAIVED, "not waived", cost, "waiver", do, shown="deliberate")

    # --- numbers ------------------------------------------------------------------------------------------------

    def _numbers(
        self, change: Change, at: Input, questions: Collection[Question], steps: Steps
    ) -> dict[Question, set[Step]]:
        """The smallest changes of one number that help each question, found in one evaluation over all its values."""
        assert at.kind is not None
        now = at.now if isinstance(at.now, Quantity) else None
        values, texts = grid(change, at.kind.kind, now, self.bench.mule)
        if not len(values):
            return {}
        paths = at.stands_for or (at.path,)
        base = steps
        if now is None:  # it has to be there to be scanned
            base = steps | {self._made(change, at, texts[len(texts) // 2], "", (), 0.0)}
        else:
            questions = [one for one in questions if self.bench.rests_on(one, paths, steps)]
        scan = self.bench.scan(questions, base, dict.fromkeys(paths, values))
        cost = self.terms.costs[change.cost] * max(1, self._how_many(at))
        return {
            question: {
                self._number(change, at, texts[place], cost)
                for place in self.useful(question, steps, scan[question], values, now.value if now else None)
            }
            for question in scan
        }

    def nearer(
        self, step: Step, steps: Steps, questions: Collection[Question]
    ) -> Iterator[tuple[Step, dict[Question, Standing]]]:
        """The same input set less far, beside the other steps: the smallest change first, with how questions stand."""
        if step not in self._set_by:
            return
        change, at, cost = self._set_by[step]
        assert at.kind is not None
        now = at.now if isinstance(at.now, Quantity) else None
        values, texts = grid(change, at.kind.kind, now, self.bench.mule)
        paths = at.stands_for or (at.path,)
        scan = self.bench.scan(questions, steps, dict.fromkeys(paths, values))
        here, start = texts.index(step.to), float(values[0]) if now is None else now.value
        between = (values - start) * (values[here] - start) >= 0
        nearer = between & (np.abs(values - start) < abs(values[here] - start))
        for place in sorted(np.flatnonzero(nearer), key=lambda place: abs(values[place] - start)):
            made = self._number(change, at, texts[place], cost)
            yield made, {question: standing.at(int(place)) for question, standing in scan.items()}

    def joint(self, question: Question, steps: Steps) -> Iterator[tuple[Step, ...]]:
        """The same number set to the same at several inputs that one lever means."""
        for lever in question.check.levers:
            every = [] if lever.startswith("target:") else list(inputs(self.bench, lever))
            found = [at for at in every if at.kind is not None and not at.stands_for]
            found = [
                at
                for at in found
                if self.bench.rests_on(question, (at.path,), steps) and isinstance(at.now, Quantity)
            ]
            change = change_of(found[0].path) if found else None
            if len(found) < 2 or change is None or not change.numeric or not self.terms.takes(change.cost):
                continue
            assert found[0].kind is not None
            values, texts = grid(change, found[0].kind.kind, found[0].now, self.bench.mule)
            scan = self.bench.scan([question], steps, {at.path: values for at in found})
            cost = self.terms.costs[change.cost]
            for place in self.useful(question, steps, scan[question], values, found[0].now.value):
                yield tuple(self._number(change, at, texts[place], cost) for at in found)

    def _number(self, change: Change, at: Input, text: Any, cost: float) -> Step:
        made = self._made(change, at, text, _words(text), (), cost)
        self._set_by[made] = change, at, cost
        return made

    def useful(
        self, question: Question, steps: Steps, scan: Standing, values: NDArray[np.float64], now: float | None
    ) -> list[int]:
        """Places of the nearest values that clear a question on either side, or that help it most."""
        level, before = int(self.bench.level), self.bench.standing(question, steps)
        clear = np.broadcast_to(scan.clear(level, MARGIN), values.shape)
        excess = np.broadcast_to(scan.excess, values.shape)
        found = []
        middle = float(values[0]) if now is None else now
        for side in (np.flatnonzero(values > middle), np.flatnonzero(values <= middle)[::-1]):
            good = side[clear[side]]
            if len(good):
                found.append(int(good[0]))
            elif len(side) and np.min(excess[side]) < before.excess - 1e-9:
                found.append(int(side[np.argmin(excess[side])]))
        return found

    # --- gears --------------------------------------------------------------------------------------------------

    def _gears(
        self, change: Change, at: Input, questions: Collection[Question], steps: Steps
    ) -> dict[Question, set[Step]]:
        teeth = self.terms.teeth or change.values
        if change.by == "stage":
            return self._stages(change, at, teeth, questions, steps)
        if (
            not isinstance(at.holder, Gear)
            or at.holder.driver_teeth is None
            or at.holder.driven_teeth is None
        ):
            return {}
        found: dict[Question, set[Step]] = {}
        for name in ("driver_teeth", "driven_teeth"):
            here = Input((*at.place[:-1], name), at.holder, getattr(at.holder, name))
            change_here = replace(change, by="", values=tuple(teeth))
            for question, offered in self._numbers(change_here, here, questions, steps).items():
                found.setdefault(question, set()).update(self._with_twins(here, step) for step in offered)
        return found

    def _with_twins(self, at: Input, step: Step) -> Step:
        also = self._alike(at, step.to)
        return replace(step, also=also, cost=step.cost) if also else step

    def _stages(
        self, change: Change, at: Input, teeth: Iterable[int], questions: Collection[Question], steps: Steps
    ) -> dict[Question, set[Step]]:
        """One chain stage more, for a motor that has none: the least reduction either way that helps."""
        if not isinstance(at.holder, Motor) or at.now:
            return {}
        pairs = sorted({b / a: (a, b) for a in teeth for b in teeth if a <= b and a >= min(teeth)}.items())
        pairs += sorted(((a / b), (b, a)) for a in teeth for b in teeth if a < b)
        unique = dict(sorted(dict(pairs).items()))
        values = np.array(list(unique))
        both = np.array(list(unique.values()))
        trial = self._staged(change, at, 12, 12)
        mule = self.bench.tried(steps | {trial})
        if mule is None:
            return {}
        twins = (at.place[1], *self._twins(at))
        paths = [written(("motor", name, "gears", "0")) for name in twins]
        scan = self.bench.scan(
            questions,
            steps | {trial},
            {f"{path}.driver_teeth": both[:, 0] for path in paths}
            | {f"{path}.driven_teeth": both[:, 1] for path in paths},
        )
        return {
            question: {
                self._staged(change, at, *map(int, both[place]))
                for place in self.useful(question, steps, scan[question], values, 1.0)
            }
            for question in scan
        }

    def _staged(self, change: Change, at: Input, driver: int, driven: int) -> Step:
        stage = [{"kind": "chain", "driver_teeth": driver, "driven_teeth": driven}]
        cost = self.terms.costs[change.cost] * self._how_many(at)
        shown = f"chain, {driver} to {driven} teeth"
        return self._made(change, at, stage, shown, self._alike(at, stage), cost)


def _possible(change: Change, at: Input) -> bool:
    """Whether what has to be so for a change is so."""
    if not change.only_if:
        return True
    said = getattr(at.holder, change.only_if, None)
    return said is True or said == "possible"


def _words(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list):
        return f"[{', '.join(map(str, value))}]"
    return str(value)


def _parts_of(path: str) -> Iterator[str]:
    yield from path.split(".")[:3]
