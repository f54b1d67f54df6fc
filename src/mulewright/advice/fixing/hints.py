"""What would a part have to be like that clears a finding, where none on the shelf does?"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from mulewright.advice.fixing.bench import MARGIN, NOTHING, Bench, Question
from mulewright.advice.fixing.choices import kind_of_part
from mulewright.advice.fixing.grids import grid
from mulewright.advice.fixing.levers import inputs
from mulewright.design.paths import written
from mulewright.shelf.changes import Change
from mulewright.shelf.parts import PART_KINDS
from mulewright.units.quantity import Quantity
from mulewright.units.table import description_of, kinds_of

ROUND = Change((), "part", "", digits=2)
NOT_ASKED = ("mass", "count")  # of a part: no reason to look for another one


@dataclass(frozen=True)
class Hint:
    """One property that a part would need, everything else on its sheet as it is."""

    path: str
    kind: str
    about: str
    least: bool
    value: str
    has: str

    @property
    def says(self) -> str:
        """In words."""
        thing, _, name = self.path.rpartition(".")
        bound = "at least" if self.least else "at most"
        return (
            f"{thing}: a {self.kind} with {name.replace('_', ' ')} {bound} {self.value} (it has {self.has})"
        )


def hints(bench: Bench, question: Question) -> Iterator[Hint]:
    """Single properties of parts, each of which alone would clear a question."""
    for lever in question.check.levers:
        if not lever.endswith(".part") or lever.startswith("target:"):
            continue
        for at in inputs(bench, lever):
            kind = kind_of_part(at)
            form = PART_KINDS[kind]
            for name, of in kinds_of(form).items():
                path = written((*at.place[:-1], name))
                now = getattr(at.holder, name, None)
                if not bench.rests_on(question, [path]) or name in NOT_ASKED or not isinstance(now, Quantity):
                    continue
                values, texts = grid(ROUND, of.kind, now, bench.mule)
                if not len(values):
                    continue
                clear = bench.scan([question], NOTHING, {path: values})[question].clear(bench.level, MARGIN)
                good = np.flatnonzero(np.broadcast_to(clear, values.shape))
                if len(good):
                    best = min(good, key=lambda place: abs(np.log(values[place] / now.value)))
                    about = description_of(form, name)
                    yield Hint(path, kind, about, bool(values[best] > now.value), str(texts[best]), now.text)
