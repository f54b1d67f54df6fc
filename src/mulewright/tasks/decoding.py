"""What is wrong with the wiring of a drive, seen from the way its wheels turned, and what puts it right?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from mulewright.decode.answer import SQUARE, Evidence, decode
from mulewright.decode.asking import Asking
from mulewright.decode.bench import Bench, benches
from mulewright.decode.explaining import Probe
from mulewright.decode.floor import Motions
from mulewright.decode.speeds import read_speeds
from mulewright.decode.states import UNSEEN, Seen, nothing_seen
from mulewright.decode.typed import read_floor, read_pushes, read_signs, read_tests, shown, wheel_named
from mulewright.decode.wiring import Code
from mulewright.design.mule import Mule
from mulewright.design.schema.people import Pushes
from mulewright.design.writing import save, set_values
from mulewright.errors import DesignError, MulewrightError
from mulewright.tasks.decoded import Decoded
from mulewright.tasks.mixing import mixed_now
from mulewright.tasks.opening import Opened, open_mule

TYPED, AS_LEFT, AS_FOUND, ASKED, NOWHERE = "as typed", "as left", "as found", "as answered", "not seen"
AT_ONCE = "all at once"
NOT_SEEN = shown((UNSEEN,))


@dataclass(frozen=True)
class Typed:
    """What was typed at the command line."""

    pushes: str | None = None
    floor: str | None = None
    tester: str | None = None
    speeds: str | None = None
    moved: bool = False  # the plugs were moved as an answer said before


@dataclass
class Decoding:
    """A drive on the bench, and what was seen so far."""

    opened: Opened
    benches: list[Bench]
    typed: Typed
    seen: Seen
    source: str  # where the pushes come from
    asking: Asking = field(init=False)
    floor: Motions = field(init=False)
    tests: tuple[Probe, ...] = field(init=False)

    def __post_init__(self) -> None:
        typed, sockets = self.typed, self.benches[-1].socket_names
        self.floor = read_floor(typed.floor, self.code) if typed.floor is not None else {}
        self.tests = read_tests(typed.tester, self.code, sockets) if typed.tester is not None else ()
        self.asking = Asking(tuple(bench.code for bench in self.benches))

    @property
    def code(self) -> Code:
        """The drive, each plug by itself."""
        return self.benches[-1].code

    def answer(self) -> Decoded:
        """What follows from what was seen."""
        pushes, skipped = self.seen, frozenset[tuple[int, int]]()
        if self.source == ASKED:
            pushes, skipped = self.asking.seen, self.asking.skipped
        evidence = Evidence(pushes, self.floor, self.tests, skipped, self._size(), self.typed.moved)
        return Decoded(self.opened, decode(self.benches, evidence), self.source)

    def _size(self) -> tuple[float, float]:
        body = self.opened.mule.file.body
        if body.wheelbase is None or body.track is None:
            return SQUARE
        return body.wheelbase.value, body.track.value


def begin(
    path: str | Path,
    typed: Typed,
    settings: Sequence[str] = (),
    variant: str | None = None,
    *,
    ask: bool = False,
    soldered: bool = False,
) -> Decoding:
    """Open a mule for decoding, with what was typed, else with what stands in its file, else with nothing yet.

    Raises
    ------
    MulewrightError
        If there is nothing to decode, or what was typed makes no sense.
    """
    opened = open_mule(path, settings, variant)
    mule = opened.mule
    found = benches(mule, opened.evaluation, mixed_now(mule), soldered=soldered)
    code = found[-1].code
    if typed.speeds is not None:
        return Decoding(opened, found, typed, read_speeds(typed.speeds, code), AT_ONCE)
    if typed.pushes is not None:
        return Decoding(opened, found, typed, read_pushes(typed.pushes, code), TYPED)
    noted, source = (nothing_seen(code), NOWHERE) if ask else _noted(mule, code)
    if source == NOWHERE and (ask or typed.floor is None):
        return Decoding(opened, found, typed, noted, ASKED)
    return Decoding(opened, found, typed, noted, source)


def _noted(mule: Mule, code: Code) -> tuple[Seen, str]:
    """The last pushes that stand in the file."""
    for source, name, table in (
        (AS_LEFT, "as_left", mule.file.as_left),
        (AS_FOUND, "as_found", mule.file.as_found),
    ):
        if table.wheels:
            return _read_noted(table, name, code), source
    return nothing_seen(code), NOWHERE


def _read_noted(table: Pushes, name: str, code: Code) -> Seen:
    order = table.order or list(code.commands)
    strange = [command for command in order if command not in code.commands]
    if strange or len({*order}) < len(order):
        rule = f"each of {', '.join(code.commands)} once"
        raise DesignError("is not an order of this drive's commands", f"{name}.order", rule, ", ".join(order))
    seen = [list(row) for row in nothing_seen(code)]
    for wheel, signs in table.wheels.items():
        where = f"{name}.wheels.{wheel}"
        word = read_signs(signs, len(order), where, ", ".join(order))
        row = seen[wheel_named(code, wheel, where)]
        for command, sign in zip(order, word, strict=True):
            row[code.commands.index(command)] = sign
    return tuple(map(tuple, seen))


def record(path: str | Path, found: Decoded, which: str) -> Path:
    """Write the pushes into the mule file, where its comments stay and its last state is kept beside it.

    Raises
    ------
    MulewrightError
        If nothing was pushed, or the file cannot be changed.
    """
    code, answer = found.bench.code, found.answer
    pushes = answer.evidence.pushes
    if pushes == nothing_seen(code):
        raise MulewrightError("nothing was pushed that could be written down", "--record")
    if answer.complete and answer.answers is not None:
        pushes = answer.answers  # the looks that were left out are settled by the others
    wheels = {wheel: word for wheel, word in found.words(pushes).items() if word.strip(NOT_SEEN)}
    file = Path(path)
    table = {"order": list(code.commands), "seen": "on blocks", "wheels": wheels}
    save(file, set_values(file.read_text("utf-8"), {which.replace("-", "_"): table}, str(path)))
    return file
