"""What is a first power-up made of? Steps with readings, each with the band in which it should lie."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, replace
from enum import StrEnum
from typing import Any, Literal

from mulewright.checks.engine import Outcome, Verdict
from mulewright.shelf.power_up import ReadingWords, readings, stages
from mulewright.units.kinds import KINDS

FAINT = 0.05  # of the lower end; less is no reading at all
Mode = Literal["bench supply", "battery", "servo tester"]


class Place(StrEnum):
    """Where a reading lies."""

    INSIDE = "inside"
    BELOW = "below"
    ABOVE = "above"
    NOTHING = "nothing"
    MINUS = "minus"  # the same size with the other sign
    UNKNOWN = "unknown"  # no band could be worked out: the reading is only written down


@dataclass(frozen=True)
class Source:
    """One input of a band that may be off: where it stands, what was typed, and how far off it may be."""

    path: str
    text: str
    low: float
    high: float
    why: str


@dataclass(frozen=True)
class Band:
    """Between what a reading should lie; an end that is None is open. [SI]."""

    kind: str
    low: float | None = None
    high: float | None = None
    nominal: float | None = None
    needs: tuple[str, ...] = ()
    rests_on: tuple[Source, ...] = ()
    bearer: str = ""  # what bears no more than the upper end, where the band was cut there
    expected: tuple[float | None, float | None] | None = None  # what was left of it: nothing

    def cut(self, most: float, bearer: str) -> Band:
        """The band with nothing above what something bears. [SI]."""
        if not self.known or (self.high is not None and self.high <= most):
            return self
        whole = self.low is not None and self.low > most
        return replace(
            self,
            low=None if whole else self.low,
            high=most,
            bearer=bearer,
            expected=(self.low, self.high) if whole else None,
        )

    @property
    def unit(self) -> str:
        """Its SI unit."""
        return KINDS[self.kind].si

    @property
    def known(self) -> bool:
        """Whether there is a band at all."""
        return not self.needs and (self.low is not None or self.high is not None)

    def place(self, value: float) -> Place:
        """Where a reading lies; nothing is an open line where ohms are read, else next to nothing. [SI]."""
        if not self.known:
            return Place.UNKNOWN
        if self.holds(value):
            return Place.INSIDE
        if self.kind == "resistance":
            return Place.NOTHING if value == float("inf") else self._side(value)
        if value < 0 < (self.low or 0.0) and self.holds(-value):
            return Place.MINUS
        return Place.NOTHING if abs(value) < FAINT * abs(self.low or 0.0) else self._side(value)

    def _side(self, value: float) -> Place:
        return Place.BELOW if self.low is not None and value < self.low else Place.ABOVE

    def holds(self, value: float) -> bool:
        """Whether a reading lies in it. [SI]."""
        return (self.low is None or self.low <= value) and (self.high is None or value <= self.high)


def around(bands: Sequence[Band]) -> Band:
    """The band around some bands of one kind; an end that is open in one is open."""
    first = bands[0]
    lows, highs = [one.low for one in bands], [one.high for one in bands]
    return replace(
        first,
        low=None if None in lows else min(low for low in lows if low is not None),
        high=None if None in highs else max(high for high in highs if high is not None),
        rests_on=tuple({source.path: source for one in bands for source in one.rests_on}.values()),
    )


@dataclass(frozen=True)
class Reading:
    """One number to read."""

    id: str
    word: str  # the entry of the table that says what it is
    what: str
    band: Band
    instrument: str = ""  # with what it is read
    about: str = ""  # of what, where several things are read alike
    each: str = ""  # what is read, said of each of them

    @property
    def words(self) -> ReadingWords:
        """What it means outside its band."""
        return readings()[self.word]

    def advice(self, place: Place) -> str:
        """What to do where it lies there."""
        says = self.words
        found = {
            Place.BELOW: says.below,
            Place.ABOVE: says.above,
            Place.NOTHING: says.nothing or says.below,
            Place.MINUS: says.minus or says.below,
        }
        return found.get(place, "")

    def as_dict(self) -> dict[str, Any]:
        """The reading for programs."""
        band, says = self.band, self.words
        return {
            "id": self.id,
            "what": self.what,
            "with": self.instrument,
            "low": band.low,
            "high": band.high,
            "nominal": band.nominal,
            "cut_at_what_bears": band.bearer or None,
            "expected_beyond": list(band.expected) if band.expected else None,
            "unit": band.unit,
            "needs": list(band.needs),
            "rests_on": [asdict(one) for one in band.rests_on],
            "if": {
                key: text
                for key in ("below", "above", "nothing", "minus")
                if (text := getattr(says, key)) and band.known
            },
        }


@dataclass(frozen=True)
class Limit:
    """To what a bench supply is set, or the first fuse; why in words."""

    volts: float | None
    amps: float | None
    fuse: float | None  # the smallest blade fuse that lets this through, where a battery gives the current
    why: str
    needs: tuple[str, ...] = ()


@dataclass(frozen=True)
class Step:
    """One step."""

    id: str
    stage: int
    title: str
    do: tuple[str, ...]
    readings: tuple[Reading, ...] = ()
    limit: Limit | None = None
    live: frozenset[str] = frozenset()  # what gets power, or moves
    wires: tuple[int, ...] = ()
    then: str = ""
    proves: tuple[str, ...] = ()  # patterns of the paths that it fills in
    records: tuple[str, ...] = ()  # checks that ask for the record that it makes
    number: int = 0
    waits: tuple[str, ...] = ()  # what keeps it from being done yet
    minds: tuple[str, ...] = ()
    settles: tuple[str, ...] = ()  # ids of the checks that can be told, or stop tripping, once it is noted
    writes: tuple[str, ...] = ()  # unknown inputs that it fills in

    def as_dict(self) -> dict[str, Any]:
        """The step for programs."""
        return {
            "number": self.number,
            "id": self.id,
            "stage": self.stage,
            "stage_title": stages()[self.stage],
            "title": self.title,
            "do": list(self.do),
            "wires": list(self.wires),
            "readings": [one.as_dict() for one in self.readings],
            "limit": asdict(self.limit) if self.limit else None,
            "waits": list(self.waits),
            "minds": list(self.minds),
            "proven": self.then,
            "settles": list(self.settles),
            "writes": list(self.writes),
        }


@dataclass(frozen=True)
class OpenCheck:
    """A check that says not to connect the battery, the steps that wait for it, and the step that settles it."""

    verdict: Verdict
    waits: tuple[int, ...]
    settled_by: int | None = None
    about: tuple[str, ...] = ()  # all things of which it says so
    says: tuple[str, ...] = ()  # what it says of them, each sentence once

    def as_dict(self) -> dict[str, Any]:
        """The open check for programs."""
        return {
            "check": self.verdict.check.id,
            "name": self.verdict.check.name,
            "about": list(self.about),
            "outcome": self.verdict.outcome.value,
            "what": " ".join(self.says),
            "needs": list(self.verdict.needs),
            "fixes": list(self.verdict.check.fixes) if self.verdict.outcome is Outcome.TRIP else [],
            "waits": list(self.waits),
            "settled_by": self.settled_by,
        }


@dataclass(frozen=True)
class Plan:
    """The whole power-up."""

    mode: Mode
    mode_why: str
    steps: tuple[Step, ...]
    open_checks: tuple[OpenCheck, ...]
    order: tuple[tuple[str, str], ...]  # what is powered in which order, and what makes it come there
    unproven: tuple[str, ...] = ()

    @property
    def readings(self) -> Mapping[str, Reading]:
        """Every reading by its id."""
        return {reading.id: reading for step in self.steps for reading in step.readings}

    def as_dict(self) -> dict[str, Any]:
        """The plan for programs."""
        return {
            "mode": self.mode,
            "mode_why": self.mode_why,
            "open_checks": [one.as_dict() for one in self.open_checks],
            "order": [{"thing": thing, "because": because} for thing, because in self.order],
            "steps": [step.as_dict() for step in self.steps],
            "unproven": list(self.unproven),
        }
