"""Power a mule up for the first time: the plan, and a walk through it with what the meter showed at each step."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from functools import cached_property
from pathlib import Path
from typing import Any, Literal

from mulewright.advice.cautions import cautions
from mulewright.advice.power_up.build import power_up
from mulewright.advice.power_up.plan import Place, Plan, Reading, Step
from mulewright.errors import FileProblem, MulewrightError, UnitError
from mulewright.tasks.opening import Opened, open_mule
from mulewright.units.kinds import KINDS
from mulewright.units.parse import to_si

JSON_SCHEMA = 1
NOT_READ = ("?", "-")
PACKS = ("pack", "dry_pack")  # the readings that set the volts of all that follow
GO_ON = "go on"  # what has to be typed to pass a stop
SEEN = {"y": "as it should be", "yes": "as it should be", "n": "not so", "no": "not so", "?": "not looked at"}


@dataclass(frozen=True)
class PowerUp:
    """The plan of one mule, and what it was asked with."""

    opened: Opened
    where: str
    plan: Plan
    supply: bool = False
    tester: bool = False
    settings: tuple[str, ...] = ()
    variant: str | None = None

    def with_pack(self, pack: str, volts: float) -> PowerUp:
        """The plan for the volts that a pack was just seen to have."""
        measured = f'{{ value = "{volts:.4g} V", from = "measured", with = "multimeter" }}'
        return plan_power_up(
            self.where, supply=self.supply, tester=self.tester, variant=self.variant,
            settings=(*self.settings, f"{pack}.rested={measured}"),
        )  # fmt: skip

    @property
    def cautions(self) -> list[str]:
        """The usual cautions."""
        return cautions(self.opened.mule)

    def as_dict(self) -> dict[str, Any]:
        """The plan for programs; numbers in SI, each with its unit."""
        plan = self.plan.as_dict()
        return {"schema": JSON_SCHEMA, "mule": self.opened.name, **plan, "cautions": self.cautions}


@dataclass(frozen=True)
class Entry:
    """What was entered for a reading, or for a step that is only looked at."""

    step: Step
    reading: Reading | None
    typed: str
    value: float | None
    place: Place | Literal["yes", "no", "not seen"]

    @property
    def is_outside(self) -> bool:
        """Whether it is not as it should be."""
        return self.place not in (Place.INSIDE, Place.UNKNOWN, "yes", "not seen")

    @property
    def advice(self) -> str:
        """What to do about it; empty where it is as it should be."""
        return self.reading.advice(self.place) if self.reading and isinstance(self.place, Place) else ""

    def as_dict(self) -> dict[str, Any]:
        """The entry for programs."""
        return {
            "step": self.step.number,
            "title": self.step.title,
            "reading": self.reading.id if self.reading else None,
            "typed": self.typed,
            "value": self.value,
            "unit": self.reading.band.unit if self.reading else "",
            "low": self.reading.band.low if self.reading else None,
            "high": self.reading.band.high if self.reading else None,
            "answer": str(self.place),
            "advice": self.advice,
        }


@dataclass(frozen=True)
class Walk:
    """A walk through a plan, with what was entered so far."""

    found: PowerUp
    entries: tuple[Entry, ...] = ()
    went_on: tuple[int, ...] = ()  # how much was answered each time somebody went on past a stop

    @cached_property
    def questions(self) -> tuple[tuple[Step, Reading | None], ...]:
        """Everything that is asked: each reading of each step, or whether it is done where it has none."""
        return tuple((step, one) for step in self.found.plan.steps for one in step.readings or (None,))

    @property
    def question(self) -> tuple[Step, Reading | None] | None:
        """What is asked next; None at the end."""
        return self.questions[len(self.entries)] if len(self.entries) < len(self.questions) else None

    @property
    def waits(self) -> Step | None:
        """The step that is asked next, where it begins and waits for an open check."""
        if self.question is None or not self.question[0].waits:
            return None
        begun = self.entries and self.entries[-1].step.number == self.question[0].number
        return None if begun else self.question[0]

    @property
    def stopped(self) -> bool:
        """Whether it only goes on once that is said: something was not as it should be, or the next step waits."""
        if self.question is None or len(self.entries) in self.went_on:
            return False
        return bool(self.entries and self.entries[-1].is_outside) or self.waits is not None

    def told(self, text: str) -> Walk:
        """The walk after one more answer.

        Raises
        ------
        MulewrightError
            If it is no answer to what is asked.
        """
        if self.question is None:
            raise MulewrightError("nothing more is asked", "", "", text.strip())
        if self.stopped:
            if text.strip().casefold() != GO_ON:
                raise MulewrightError(
                    "it stops here", "", f'back, stop, or "{GO_ON}" all the same', text.strip()
                )
            return replace(self, went_on=(*self.went_on, len(self.entries)))
        step, reading = self.question
        entry = _seen(step, text) if reading is None else _read(step, reading, text)
        found = self.found
        if (
            reading is not None
            and reading.word in PACKS
            and entry.place is Place.INSIDE
            and entry.value is not None
        ):
            found = found.with_pack(reading.id.partition(":")[2], entry.value)
        return Walk(found, (*self.entries, entry), self.went_on)

    def back(self) -> Walk:
        """The walk without its last answer."""
        entries = self.entries[:-1]
        return replace(self, entries=entries, went_on=tuple(n for n in self.went_on if n <= len(entries)))

    @property
    def outside(self) -> list[Entry]:
        """What was not as it should be."""
        return [one for one in self.entries if one.is_outside]

    @property
    def passed(self) -> list[int]:
        """The steps before which somebody went on past a stop."""
        return [self.questions[place][0].number for place in self.went_on]

    def as_dict(self) -> dict[str, Any]:
        """The walk for programs."""
        return {
            "schema": JSON_SCHEMA,
            "mule": self.found.opened.name,
            "asked": len(self.questions),
            "entries": [one.as_dict() for one in self.entries],
            "outside": [one.step.number for one in self.outside],
            "went_on_before": self.passed,
        }


def plan_power_up(
    path: str | Path,
    *,
    supply: bool = False,
    tester: bool = False,
    settings: Sequence[str] = (),
    variant: str | None = None,
) -> PowerUp:
    """Read a mule file and plan its first power-up.

    Raises
    ------
    MulewrightError
        If the file cannot be read or does not describe a mule.
    """
    opened = open_mule(path, settings, variant)
    plan = power_up(opened.evaluation, supply=supply, tester=tester)
    return PowerUp(opened, str(path), plan, supply, tester, tuple(settings), variant)


def print_plan(found: PowerUp, path: Path, day: date) -> Mapping[Path, bytes]:
    """Put a plan on paper.

    Raises
    ------
    MulewrightError
        If it cannot be set or written there.
    """
    from mulewright.paper.power_up_paper import plan_paper  # needed here alone, and slow to load
    from mulewright.tasks.printing import put_down

    return put_down(found.opened, [plan_paper(found.plan, found.opened.mule)], path, day)


def keep_walk(walk: Walk, path: str | Path) -> None:
    """Append what was entered to a file, as one line of JSON.

    Raises
    ------
    FileProblem
        If the file cannot be written.
    """
    dated = {"at": datetime.now().astimezone().isoformat(timespec="minutes")}
    line = json.dumps(dated | walk.as_dict(), ensure_ascii=False)
    try:
        with Path(path).open("a", encoding="utf-8") as file:
            file.write(line + "\n")
    except OSError as no:
        raise FileProblem("the trail cannot be written", str(path), found=no.strerror or str(no)) from no


def _read(step: Step, reading: Reading, text: str) -> Entry:
    """An answer to a reading: a number with its unit, or ? where nothing was read."""
    word = text.strip()
    if word in NOT_READ:
        return Entry(step, reading, word, None, "not seen")
    value = in_si(word, reading.band.kind)
    return Entry(step, reading, word, value, reading.band.place(value))


def in_si(text: str, kind: str) -> float:
    """A reading in SI; a bare number is taken in the unit in which people read that kind.

    Raises
    ------
    UnitError
        If it is no number, or its unit is of another kind.

    >>> in_si("9.6", "voltage"), in_si("250 mA", "current")
    (9.6, 0.25)
    """
    shown = KINDS[kind].shown
    word = text.strip().replace(",", ".")
    if word.casefold() in ("open", "ol"):
        if kind != "resistance":
            raise UnitError(
                "only ohms can read an open line", rule=f"a number in {shown}", found=text.strip()
            )
        return float("inf")
    try:
        return to_si(f"{float(word)!r} {shown}", kind)
    except ValueError:
        return to_si(word, kind)


def _seen(step: Step, text: str) -> Entry:
    word = text.strip().casefold()
    if word not in SEEN:
        raise MulewrightError("not an answer", "", "y, n, ? or back", text.strip())
    place: Literal["yes", "no", "not seen"] = "not seen" if word == "?" else "yes" if word[0] == "y" else "no"
    return Entry(step, None, text.strip(), None, place)
