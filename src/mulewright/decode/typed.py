"""How does one type what was seen? Wheels, commands and signs in short words, and clear refusals of others."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from mulewright.decode.explaining import Probe
from mulewright.decode.floor import Motions, names
from mulewright.decode.states import UNSEEN, Seen
from mulewright.decode.wiring import Code, Word
from mulewright.errors import MulewrightError, NotFound, closest

SIGNS = {"+": 1, "-": -1, "\N{MINUS SIGN}": -1, "0": 0, "?": UNSEEN}
SHOWN = {1: "+", -1: "-", 0: "0", UNSEEN: "?"}
INPUT, OUTPUT = "input", "output"
PUSHES, FLOOR, TESTER = "--pushes", "--floor", "--tester"


def shown(word: Word) -> str:
    """Signs as one types them."""
    return "".join(SHOWN[sign] for sign in word)


def short(wheel: str) -> str:
    """The letters of a wheel.

    >>> short("front_left")
    'FL'
    """
    return "".join(word[0].upper() for word in wheel.split("_"))


def wheel_named(code: Code, name: str, where: str) -> int:
    """The wheel of a name such as FL or front_left.

    Raises
    ------
    NotFound
        If the drive has no such wheel.
    """
    known = {short(wheel).casefold(): place for place, wheel in enumerate(code.wheels)}
    known |= {wheel.casefold(): place for place, wheel in enumerate(code.wheels)}
    plain = re.sub(r"[\s-]+", "_", name.strip().casefold())
    if plain not in known:
        rule = f"one of {', '.join(short(wheel) for wheel in code.wheels)}"
        raise NotFound(
            f"this drive has no wheel called {name!r}", where, rule, name, closest(plain, code.wheels)
        )
    return known[plain]


def read_signs(text: str, count: int, where: str, of: str) -> Word:
    """So many signs.

    Raises
    ------
    MulewrightError
        If they are not so many, or something else than signs.
    """
    rule = f"{count} signs, each one of + - 0 ?, for {of}"
    if len(text) != count or any(char not in SIGNS for char in text):
        raise MulewrightError("these are not the signs of a look", where, rule, text or "nothing")
    return tuple(SIGNS[char] for char in text)


def read_pushes(text: str, code: Code) -> Seen:
    """What each wheel did, from text such as ``FL:++- FR:+--``.

    Raises
    ------
    MulewrightError
        If a word is impossible, a wheel is none of this drive, or two words contradict each other.
    """
    found: dict[int, Word] = {}
    for name, signs in items(text, PUSHES, "WHEEL:SIGNS, as FL:++-"):
        wheel = wheel_named(code, name, PUSHES)
        word = read_signs(signs, len(code.commands), f"{PUSHES} {name}", ", ".join(code.commands))
        found[wheel] = _merged(found.get(wheel, word), word, f"{PUSHES} {name}")
    nothing = (UNSEEN,) * len(code.commands)
    return tuple(found.get(wheel, nothing) for wheel in range(len(code.wheels)))


def _merged(one: Word, other: Word, where: str) -> Word:
    for first, second in zip(one, other, strict=True):
        if UNSEEN not in (first, second) and first != second:
            found = f"{shown(one)} and {shown(other)}"
            raise MulewrightError("the same wheel is said to do two things", where, "one word a wheel", found)
    return tuple(second if first == UNSEEN else first for first, second in zip(one, other, strict=True))


def read_floor(text: str, code: Code) -> Motions:
    """How the whole mule moved, from text such as ``forward:+00 strafe:0+0``.

    Raises
    ------
    MulewrightError
        If a word is impossible, a command is none of this drive, or one comes twice.
    """
    found: dict[int, Word] = {}
    for name, signs in items(text, FLOOR, "COMMAND:SIGNS, as forward:+00"):
        command = _command(code, name, FLOOR)
        word = read_signs(signs, len(names(code)), f"{FLOOR} {name}", _motions(code))
        found[command] = _merged(found.get(command, word), word, f"{FLOOR} {name}")
    return found


def _motions(code: Code) -> str:
    said = {"forward": "ahead", "strafe": "to the right", "turn": "turned right"}
    return ", ".join(said[name] for name in names(code))


def _command(code: Code, name: str, where: str) -> int:
    if name.casefold() not in code.commands:
        rule = f"one of {', '.join(code.commands)}"
        raise NotFound(f"this drive has no command {name!r}", where, rule, name, closest(name, code.commands))
    return code.commands.index(name.casefold())


def read_tests(text: str, code: Code, sockets: Mapping[str, int]) -> tuple[Probe, ...]:
    """What a tester showed: ``forward:+-++`` in an input, ``out2:RL-`` at an output, ``FL:-`` in a wheel's lead.

    Raises
    ------
    MulewrightError
        If a word is impossible, or names nothing of this drive.
    """
    return tuple(
        _test(name, word, code, sockets)
        for name, word in items(text, TESTER, "PLACE:SIGNS, as forward:+-++, out2:RL- or FL:-")
    )


def _test(name: str, word: str, code: Code, sockets: Mapping[str, int]) -> Probe:
    where = f"{TESTER} {name}"
    wheels = len(code.wheels)
    if name.casefold() in code.commands:
        signs = read_signs(word, wheels, where, ", ".join(map(short, code.wheels)))
        return Probe(INPUT, _command(code, name, TESTER), _looked(signs, where, word))
    if name.casefold() in sockets:
        moved = [0] * wheels
        moved_wheels = re.findall(r"([A-Za-z_]+)([^A-Za-z_]?)", word)
        if not moved_wheels:
            raise MulewrightError(
                "this names no wheel that turned", where, "a wheel and a sign, as RL-", word
            )
        for wheel, sign in moved_wheels:
            (moved[wheel_named(code, wheel, where)],) = _looked(
                read_signs(sign, 1, where, wheel), where, word
            )
        return Probe(OUTPUT, sockets[name.casefold()], tuple(moved))
    try:
        wheel = wheel_named(code, name, TESTER)
    except MulewrightError as no:
        places = (*code.commands, *sockets, *map(short, code.wheels))
        no.what, no.rule = f"there is no place called {name!r} for a tester", f"one of {', '.join(places)}"
        raise
    (sign,) = _looked(read_signs(word, 1, where, code.wheels[wheel]), where, word)
    return Probe("lead", wheel, tuple(sign * (place == wheel) for place in range(wheels)))


def _looked(signs: Word, where: str, word: str) -> Word:
    if UNSEEN in signs:
        raise MulewrightError("a test that nobody saw tells nothing", where, "leave it out", word)
    return signs


def items(text: str, where: str, form: str) -> Iterator[tuple[str, str]]:
    """Names with what is said of each.

    Raises
    ------
    MulewrightError
        If nothing is said, or a word is not of the form.
    """
    said = text.replace(",", " ").split()
    if not said:
        raise MulewrightError("nothing is said", where, form)
    for item in said:
        name, colon, word = item.partition(":")
        if not (colon and name):
            raise MulewrightError("this says nothing about a push", where, form, item)
        yield name, word
