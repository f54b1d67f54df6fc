"""What changed in a mule file from snapshot to snapshot, and since the last one, and which verdicts changed with it?"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from mulewright.design.reading import read_text
from mulewright.errors import DesignError, MulewrightError
from mulewright.tasks.comparing import CompareReport, Judged, State, compare_states, judged
from mulewright.tasks.snapshots import Snapshot, read_log

JSON_SCHEMA = 1
USUAL = 10  # snapshots that are shown where no number is given


@dataclass(frozen=True)
class Step:
    """One state of a mule file against the one before it."""

    snapshot: Snapshot | None  # None: the file as it is now
    readable: bool = True
    against: int | None = None  # the snapshot before; None for the first
    report: CompareReport | None = None

    @property
    def same_text(self) -> bool:
        """Whether not even a comment differs."""
        if self.report is None:
            return False
        before, after = (one.mule.loaded.text for one in (self.report.before, self.report.after))
        return before == after

    def as_dict(self) -> dict[str, Any]:
        """It for programs; inputs and verdicts as ``compare`` gives them."""
        own = self.snapshot.as_dict() if self.snapshot is not None else {}
        found = own | {"readable": self.readable, "against": self.against}
        if self.report is not None:
            compared = self.report.as_dict()
            found |= {key: compared[key] for key in ("same", "inputs", "verdicts")}
            found |= {"same_text": self.same_text}
        return found


@dataclass(frozen=True)
class History:
    """The snapshots of one mule file, the newest first, and the file itself against the last of them."""

    where: str
    name: str
    now: Step
    steps: tuple[Step, ...]
    count: int  # of all snapshots, also those that are not shown
    problems: tuple[MulewrightError, ...]

    def as_dict(self) -> dict[str, Any]:
        """It for programs."""
        return {
            "schema": JSON_SCHEMA,
            "mule": self.name,
            "file": self.where,
            "snapshot_count": self.count,
            "now": self.now.as_dict(),
            "snapshots": [one.as_dict() for one in self.steps],
            "problems": [one.as_dict() for one in self.problems],
        }


@dataclass
class _Reading:
    """Reads and judges each state once, and keeps note of those that it cannot."""

    path: Path
    problems: list[MulewrightError]
    _read: dict[int | None, Judged | None] = field(default_factory=dict)

    def side(self, number: int | None) -> Judged | None:
        if number not in self._read:
            try:
                self._read[number] = judged(State(self.path, snapshot=number))
            except MulewrightError as no:
                self._read[number] = None
                self.problems.append(no)
        return self._read[number]

    def step(self, snapshot: Snapshot | None, older: Iterable[Snapshot]) -> Step:
        """Lay one state beside the nearest before it that can be read."""
        here = self.side(snapshot.number if snapshot is not None else None)
        if here is None:
            return Step(snapshot, readable=False)
        for one in older:
            if (before := self.side(one.number)) is not None:
                return Step(snapshot, against=one.number, report=compare_states(before, here))
        return Step(snapshot)

    @property
    def name(self) -> str:
        """What people call the mule, by the newest state that can be read."""
        sides = (one for one in self._read.values() if one is not None)
        return next((one.evaluation.mule.file.name for one in sides), "")


def history(path: Path, last: int = USUAL) -> History:
    """Say what changed from each snapshot of a mule file to the next, and since the last.

    What cannot be read is among the problems, and hides nothing else.

    Raises
    ------
    MulewrightError
        If there is neither a file nor a snapshot of it, or fewer than one is asked for.
    """
    if last < 1:
        raise DesignError("too few snapshots", "--last", "at least 1", str(last))
    log = read_log(path)
    newest = log.snapshots[::-1]
    if not newest:
        read_text(path)
    reading = _Reading(path, [*log.problems])
    now = reading.step(None, newest)
    steps = [reading.step(one, newest[place:]) for place, one in enumerate(newest[:last], 1)]
    return History(str(path), reading.name, now, tuple(steps), len(newest), tuple(reading.problems))
