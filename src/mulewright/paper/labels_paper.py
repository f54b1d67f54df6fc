"""Which labels does a mule need? Two strips for each wire, with its number, both ends in words, and a code."""

from __future__ import annotations

from collections.abc import Iterator

from mulewright.design.harness import Conductor, harness
from mulewright.facts.graph import Evaluation
from mulewright.paper import fonts
from mulewright.paper.blocks import Block, Label, Labels, Paper, Words
from mulewright.paper.places import SIGNS, place
from mulewright.paper.strips import Strip, tape_of
from mulewright.units.shown import people

USUAL = 12e-3  # [m] tape
SHORTER = (60, 40, 30, 24, 20, 16, 13, 10)  # letters of each name that a code keeps
PLAIN = (
    "".join(map(chr, range(ord("A"), ord("Z") + 1))) + "0123456789 $%*+-./:"
)  # what takes least room in a code


def labels_paper(evaluation: Evaluation) -> Paper:
    """Two strips for each wire, side by side.

    Raises
    ------
    DesignError
        If no tape is as wide as the file says.
    """
    mule = evaluation.mule
    said = mule.file.print.tape
    strip = Strip(tape_of(said.value, said.text, "print.tape") if said is not None else USUAL)
    name, wires = mule.file.name, harness(mule).conductors
    labels = [label for wire in wires for label in _labels(name, wire, strip)]
    blocks: list[Block] = [Labels(labels, strip.tape)] if labels else [Words("No wire is described.")]
    how = f"Print it at 100 %, cut along the lines; each strip is {people(strip.tape, 'm')} high."
    if any(mule.file.name not in label.code for label in labels):
        how += " Where a code had no room for all of it, its words are shortened or in capitals."
    return Paper("labels", "Wire labels", how, blocks)


def _labels(mule: str, wire: Conductor, strip: Strip) -> Iterator[Label]:
    """One strip for each end, with that end first."""
    ends = [place(wire.start), place(wire.end)]
    code = code_text(mule, wire.number, [words.replace(SIGNS["-"], "-") for words in ends], strip)
    number = str(wire.number)
    room = strip.room(number, code)
    for here, there in (ends, ends[::-1]):
        lines = [here, f"to {there}", what(wire), mule][: strip.lines]
        yield Label(
            number,
            [fonts.shortened(line, strip.text, room, bold=row == 0) for row, line in enumerate(lines)],
            code,
        )


def what(wire: Conductor) -> str:
    """What kind of wire it is, its thickness and its length where they are known."""
    words = ["motor wire" if wire.kind == "motor" else str(wire.kind)]
    if wire.area is not None:
        words.append(wire.area.text)
    if wire.length is not None:
        words.append(wire.length.text)
    elif wire.part_of is not None:
        words.append(f"part of {wire.part_of.text}")
    if wire.red_pulled:
        words.append("red pulled")
    return ", ".join(words)


def code_text(mule: str, number: int, ends: list[str], strip: Strip) -> str:
    """The text of a code: as much of mule, number and both ends as it has room for."""
    return next(text for text in _texts(mule, str(number), ends) if strip.fits(text))


def _texts(mule: str, number: str, ends: list[str]) -> Iterator[str]:
    """What a code may say, the fullest first; the last ones leave out the ends, and then all but the number."""
    for most in SHORTER:
        name, start, end = (_cut(text, most) for text in (mule, *ends))
        yield f"{name}\nwire {number}\n{start}\n{end}"
        yield from _plain(f"{name} / {number}: {start} - {end}")
    for most in (60, *range(24, 0, -1)):
        yield f"{number} {_cut(mule, most)}"
        yield from _plain(f"{number} {_cut(mule, most)}")
    yield number


def _cut(text: str, most: int) -> str:
    return text if len(text) <= most else f"{text[: most - 2].rstrip()}.."


def _plain(text: str) -> Iterator[str]:
    """The same in capitals without commas, if a code can then be smaller."""
    capitals = text.upper().replace(",", "").replace("_", " ")
    if all(letter in PLAIN for letter in capitals):
        yield capitals
