"""Which choices are there, where they depend on the rest of the mule: sockets, parts, supplies, stages?"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from mulewright.advice.fixing.bench import Bench
from mulewright.advice.fixing.levers import Input
from mulewright.advice.fixing.steps import Setting
from mulewright.design.merging import UNKNOWN, is_number
from mulewright.design.paths import look_up, path_of, written
from mulewright.design.references import outputs_of
from mulewright.errors import MulewrightError
from mulewright.shelf.changes import Change
from mulewright.shelf.parts import PART_KINDS
from mulewright.units.table import kinds_of

EITHER = "either"  # a part that can be set to this or that


@dataclass(frozen=True)
class Choice:
    """What to set an input to, and what else belongs to that."""

    to: Any
    also: tuple[Setting, ...] = ()
    shown: str = ""
    things: str = ""


def choices(bench: Bench, change: Change, at: Input) -> Iterator[Choice]:
    """Every other choice for one input."""
    if change.by:
        yield from _BY[change.by](bench, change, at)
        return
    options = change.choices or at.options
    for one in options:
        if one != at.now and not (isinstance(at.now, list) and len(at.now) != len(one)):
            yield Choice(one)


def kind_of_part(at: Input) -> str:
    """The kind of part that a place takes."""
    return at.place[0].removeprefix("second_")


def _parts(bench: Bench, change: Change, at: Input) -> Iterator[Choice]:
    kind = kind_of_part(at)
    if at.now is None:
        return
    for _, id in bench.loaded.catalog.ids(kind):
        try:
            part = bench.loaded.catalog.find(kind, id).raw
        except MulewrightError as no:
            bench.skipped[f"{kind} {id}"] = no
            continue
        if id != at.now:
            yield Choice(id, tuple(_anew(bench, at, kind, part)))


def _anew(bench: Bench, at: Input, kind: str, part: Mapping[str, Any]) -> Iterator[Setting]:
    """What the file says of the old part and does not hold for another one: its measured numbers, its fixed ways."""
    own = look_up(bench.raw, at.place[:-1], {})
    form = PART_KINDS[kind]
    for key, said in own.items():
        if (
            key not in form.model_fields
            or key == "part"
            or (isinstance(said, Mapping) and not is_number(said))
        ):
            continue
        brought = part.get(key)
        if key in kinds_of(form):
            yield written((*at.place[:-1], key)), UNKNOWN if brought is None else brought
        elif brought not in (None, EITHER, said):
            yield written((*at.place[:-1], key)), brought


def _sockets(bench: Bench, change: Change, at: Input) -> Iterator[Choice]:
    """Free sockets, and an exchange with a plug that sits elsewhere."""
    signals, file = bench.mule.signals, bench.mule.file
    if isinstance(at.now, list):
        yield from (Choice(one) for one in at.now)
        return
    if at.now is None or at.now.partition(".")[0] in ("y_lead", "inline", "tester"):
        return
    every = [
        f"{receiver}.{number}"
        for receiver in ("receiver", "second_receiver")
        if (table := getattr(file, receiver)) is not None
        for number in range(1, (table.channels or 0) + 1)
    ]
    if at.place[0] != "mixer":
        every += [
            f"mixer.{name}.{output}" for name, mixer in file.mixer.items() for output in outputs_of(mixer)
        ]
    plug: dict[str, str] = {}
    for lead, sockets in signals.leads.items():
        if len(sockets) == 1:
            plug.setdefault(sockets[0], path_of(lead if lead.startswith("mixer.") else f"{lead}.signal"))
    for socket in every:
        if socket == at.now:
            continue
        if socket not in signals.in_socket:
            yield Choice(socket)
        elif socket in plug and plug[socket] != at.path and not _feeds_itself(plug[socket], at.now):
            yield Choice(socket, ((plug[socket], at.now),), f"{socket}, and {plug[socket]} to {at.now}")


def _feeds_itself(plug: str, socket: str) -> bool:
    """Whether a box's own output would end up in one of its inputs."""
    return plug.startswith("mixer.") and socket.startswith("mixer.")


def _covers(bench: Bench, change: Change, at: Input) -> Iterator[Choice]:
    """All controls that the radio's rate switch reaches, or none."""
    radio = getattr(bench.mule.file, at.place[0])
    commanded = [name for name, control in radio.control.items() if control.commands]
    reached = [name for name in commanded if radio.rate_covers is None or name in radio.rate_covers]
    now = at.now if at.now is not None else radio.rate_covers
    for one in (reached, []):
        if one != now:
            yield Choice(one, shown=" and ".join(one) or "nothing")


def _exchange(bench: Bench, change: Change, at: Input) -> Iterator[Choice]:
    """Two controls of one radio that exchange what they command."""
    controls = getattr(bench.mule.file, at.place[0]).control
    here = at.place[2]
    for name, control in controls.items():
        other = written((*at.place[:2], name, "commands"))
        if name != here and control.commands != at.now and (name > here or not control.commands):
            theirs = UNKNOWN if control.commands is None else control.commands
            mine = UNKNOWN if at.now is None else at.now
            if theirs != mine:
                yield Choice(theirs, ((other, mine),), things=f"{here} and {name}")


def _fuse(bench: Bench, change: Change, at: Input) -> Iterator[Choice]:
    """A fuse where there is none, right behind the battery."""
    path = at.now or []
    if not path or not path[0].startswith("battery.") or any(one.startswith("fuse.") for one in path):
        return
    new = f"fuse.{_free(bench, 'fuse', path[0].partition('.')[2])}"
    for rating in change.values:
        fuse = {"kind": "blade", "rating": rating, "conductor": "plus", "from_battery": "0.1 m"}
        yield Choice([path[0], new, *path[1:]], ((path_of(new), fuse),), rating)


def _supply(bench: Bench, change: Change, at: Input) -> Iterator[Choice]:
    """A supply that is there, or one more regulator."""
    file = bench.mule.file
    for supply in (
        *(f"regulator.{name}" for name in file.regulator),
        *(f"battery.{name}" for name in file.battery),
    ):
        if supply != at.now:
            yield Choice(supply)
    volts = getattr(at.holder, "rated_voltage", None)
    text = volts.text if volts is not None else change.usual
    fed_by, new = _source(bench)
    name = _free(bench, "regulator", at.place[1])
    own, run = f"regulator.{name}", f"wire.{_free(bench, 'wire', name)}"
    for current in change.values:
        regulator = {"kind": "switching", "voltage": text, "current": current, "peak_current": current}
        wire = {"path": [*fed_by, own], "gauge": "16 AWG", "length": "0.2 m", "joints": []}
        also = ((path_of(own), regulator), (path_of(run), wire), *new)
        what = f"a regulator of its own, {text}, {current}, from {fed_by[0]}"
        yield Choice(own, also, what)


def _source(bench: Bench) -> tuple[list[str], tuple[Setting, ...]]:
    """Where one more supply takes its current, and what has to be added for that."""
    file = bench.mule.file
    here = [f"board.{name}" for name in file.board] or [f"battery.{name}" for name in file.battery]
    if here:
        return here[:1], ()
    packs = [id for _, id in bench.loaded.catalog.ids("battery")]
    if not packs:
        return ["battery.bench"], ()
    fuse = {"kind": "blade", "rating": "10 A", "conductor": "plus", "from_battery": "0.1 m"}
    pack = {"part": next((id for id in packs if "ni" in id), packs[0]), "charge_lead_reachable": False}
    return ["battery.bench", "fuse.bench"], (("battery.bench", pack), ("fuse.bench", fuse))


def _teeth(bench: Bench, change: Change, at: Input) -> Iterator[Choice]:
    """Numbers of teeth are scanned as numbers."""
    yield from ()


def _free(bench: Bench, kind: str, wish: str) -> str:
    """A name that no thing of a kind has yet."""
    taken: Mapping[str, Any] = getattr(bench.mule.file, kind)
    return next(name for name in (wish, *(f"{wish}_{count}" for count in range(2, 99))) if name not in taken)


_BY: dict[str, Callable[[Bench, Change, Input], Iterator[Choice]]] = {
    "parts": _parts,
    "sockets": _sockets,
    "covers": _covers,
    "exchange": _exchange,
    "fuse": _fuse,
    "supply": _supply,
    "teeth": _teeth,
    "stage": _teeth,
}
