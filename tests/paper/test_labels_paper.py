"""Does each wire get two strips that say the same as the picture, on any tape, with a code that can be read?"""

from __future__ import annotations

from itertools import chain

import numpy as np
import pytest
from PIL import Image

from mulewright.design.harness import harness
from mulewright.design.mule import link
from mulewright.design.resolve import load_text
from mulewright.errors import DesignError
from mulewright.facts.graph import Evaluation
from mulewright.paper import fonts
from mulewright.paper.blocks import Labels, Words
from mulewright.paper.labels_paper import code_text, labels_paper
from mulewright.paper.places import place
from mulewright.paper.strips import LENGTH, MODULE, POINT, QUIET, TAPES, Strip, matrix, modules_of, svg_of
from tests.designs import DESIGNS, evaluation, mule
from tests.paper import qr_reader
from tests.paper.pages import letter_sizes, pages, printed, said

TAPE = ("9 mm", "12 mm", "18 mm", "24 mm")
LONG = "правый мотор с очень длинным именем, которое не кончается!!!"


def labels_of(design: str, *sets: str) -> Labels:
    [block] = labels_paper(evaluation(design, sets)).blocks
    assert isinstance(block, Labels)
    return block


@pytest.mark.parametrize("design", DESIGNS)
def test_each_wire_has_a_strip_for_each_of_its_ends(design: str) -> None:
    labels = labels_of(design, "print.tape=24 mm").labels
    wires = harness(mule(design)).conductors
    assert [label.number for label in labels] == [str(wire.number) for wire in wires for _ in range(2)]
    for wire, here, there in zip(wires, labels[::2], labels[1::2], strict=True):
        assert here.code == there.code
        for strip, end, other in ((here, wire.start, wire.end), (there, wire.end, wire.start)):
            for line, words in zip(strip.lines, (place(end), f"to {place(other)}"), strict=False):
                assert line == words or words.startswith(line.removesuffix("…"))
                assert len(line) > 20 or line == words
        assert here.lines[2:] == there.lines[2:]


@pytest.mark.parametrize("design", DESIGNS)
@pytest.mark.parametrize("tape", TAPE)
def test_what_stands_on_strips_is_on_paper(design: str, tape: str) -> None:
    paper = labels_paper(evaluation(design, (f"print.tape={tape}",)))
    body = said(paper)
    found = printed(paper)
    if len(pages(paper)) == 1:
        assert body in found
    for label in labels_of(design, f"print.tape={tape}").labels:
        assert "".join((label.number, *label.lines)).replace(" ", "") in found


@pytest.mark.parametrize("tape", TAPE)
def test_codes_say_what_they_should(tape: str) -> None:
    for label in chain.from_iterable(
        labels_of(design, f"print.tape={tape}").labels[::2] for design in DESIGNS
    ):
        assert qr_reader.read(matrix(label.code)) == label.code
        assert label.number in label.code


@pytest.mark.parametrize("tape", TAPES[2:])
def test_a_wide_tape_has_room_for_mule_and_both_ends_as_they_are(tape: float) -> None:
    strip = Strip(tape)
    text = code_text("Aisle carrier", 37, ["mixer drive turn", "receiver socket 4"], strip)
    assert text == "Aisle carrier\nwire 37\nmixer drive turn\nreceiver socket 4"


def test_a_narrow_tape_gets_capitals_and_then_less() -> None:
    ends = ["mixer drive turn", "receiver socket 4"]
    assert code_text("Aisle carrier", 37, ends, Strip(12e-3)) == (
        "AISLE CARRIER / 37: MIXER DRIVE TURN - RECEIVER SOCKET 4"
    )
    assert code_text("Aisle carrier", 37, ends, Strip(9e-3)) == "37 Aisle carrier"
    assert code_text(LONG, 37, ends, Strip(9e-3)) == "37 правый.."


@pytest.mark.parametrize("tape", TAPES)
@pytest.mark.parametrize("name", ["a", LONG, "漢字" * 30, "W" * 60, "_'{}<svg>" * 7])
def test_every_code_can_be_read_off_its_tape(tape: float, name: str) -> None:
    strip = Strip(tape)
    text = code_text(name, 123, [f"controller {name}, output A", f"motor {name} +"], strip)
    assert qr_reader.read(matrix(text)) == text
    assert strip.module(text) >= MODULE
    assert strip.side(text) <= tape + 1e-9
    assert strip.room("123", text) > 100


def test_the_picture_of_a_code_is_its_modules(tmp_path_factory: pytest.TempPathFactory) -> None:
    import resvg_py

    code = "Aisle carrier\nwire 37"
    side = modules_of(code) + 2 * QUIET
    png = tmp_path_factory.mktemp("code") / "code.png"
    drawn = svg_of(code).replace("<svg", f'<svg width="{8 * side}" height="{8 * side}"', 1)
    png.write_bytes(bytes(resvg_py.svg_to_bytes(svg_string=drawn, background="white")))
    seen = np.asarray(Image.open(png).convert("L"))
    inner = slice(8 * QUIET + 4, 8 * (side - QUIET), 8)
    assert qr_reader.read((seen[inner, inner] < 128).astype(int).tolist()) == code


@pytest.mark.parametrize("tape", TAPE)
def test_long_names_are_shortened_to_the_strip(tape: str) -> None:
    sets = (f'servo."{LONG}"={{signal = "receiver.7"}}', f"print.tape={tape}")
    block = labels_of("aisle-carrier", *sets)
    strip = Strip(block.tape)
    for label in block.labels:
        room = LENGTH / POINT
        assert strip.room(label.number, label.code) < room
        for row, line in enumerate(label.lines):
            assert fonts.width(line, strip.text, bold=row == 0) <= strip.room(label.number, label.code)
    assert any("правый мотор" in label.lines[0] for label in block.labels)
    paper = labels_paper(evaluation("aisle-carrier", sets))
    assert min(min(letter_sizes(page)) for page in pages(paper)) >= 8


@pytest.mark.parametrize("tape", TAPES)
def test_lines_fit_the_height_of_a_strip(tape: float) -> None:
    strip = Strip(tape)
    assert 2 <= strip.lines <= 4
    assert strip.text >= 8
    assert strip.lines * strip.text * 1.2 * POINT < tape


@pytest.mark.parametrize(
    ("said_", "nearest"), [("10 mm", "9 mm"), ("0.5 in", "12 mm"), ("1 m", "24 mm"), ("16 mm", "18 mm")]
)
def test_a_tape_that_nobody_sells(said_: str, nearest: str) -> None:
    with pytest.raises(DesignError, match="no label tape is this wide") as refused:
        labels_of("tray-cart", f"print.tape={said_}")
    assert refused.value.nearest == (nearest,)


def test_strips_are_as_high_as_the_tape() -> None:
    assert labels_of("tray-cart").tape == 12e-3
    assert [labels_of("tray-cart", f"print.tape={tape}").tape for tape in TAPE] == list(TAPES)


def test_a_mule_without_wires_has_no_strips() -> None:
    bare = Evaluation(link(load_text('schema_version = 1\nname = "bare"\n')))
    assert labels_paper(bare).blocks == [Words("No wire is described.")]
