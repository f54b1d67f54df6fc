"""Are papers set so that all of it can be read, on any page, in any letters that the fonts have?"""

from __future__ import annotations

import io
import itertools
import sys
import unicodedata
from dataclasses import replace

import pytest
from pypdf import PdfReader

from mulewright.paper import fonts, typeset
from mulewright.paper.blocks import TICK, Block, Drawing, Grid, Label, Labels, Paper, Ticks, Width, Words
from mulewright.paper.typeset import OURS, LettersLacking, pdf, pictures
from tests.paper.pages import letter_sizes, pages, printed, runs, said, sheet, squeezed

PT_PER_MM = 72 / 25.4
BOX = '<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="20mm" viewBox="0 0 80 20"><path d="M1 1h78v18h-78z"/></svg>'
HOSTILE = (
    "#emph[x] #panic()", "$x^2$ @ref <label>", "*b* _i_ `c` ~ --- ...", "= heading", "- list / + list",
    r"\textbf{a} \u{41} \\", "${x} {{x}} %s {0}", "=1+1", "=cmd|' /C calc'!A0", "<svg onload='x'/>",
    "]]> &amp; <!-- x -->", "// comment /* more */", "#import \"x.typ\"", "#(1+1)",
)  # fmt: skip
ALIVE = (
    "Ελιά ΆΣΔ",
    "Кран подъёма",
    "Žluťoučký kůň",
    "e\u0301 a\u0308 o\u0302",
    "œuvre Ærø ßtraße",
    "x" * 60,
    "w" * 120,
)


def paper(*blocks: Block, wide: bool = False, title: str = "A paper") -> Paper:
    return Paper("plugs", title, "What it is for.", blocks, wide)


def table(*texts: str) -> Grid:
    return Grid(("no.", "name", "more", "seen"), [(str(n), text, text, TICK) for n, text in enumerate(texts)])


def everything(text: str) -> Paper:
    """A text in every place where one can stand."""
    looks = ("plain", "small", "heading", "warning")
    blocks: list[Block] = [Words(text, look) for look in looks]  # type: ignore[arg-type]
    return Paper("plugs", text, text, [*blocks, table(text), Ticks([(text, text), (text, "")])])


@pytest.mark.parametrize("text", HOSTILE + ALIVE)
def test_any_text_comes_out_as_it_is(text: str) -> None:
    made = everything(text)
    assert said(made) in printed(made, of=replace(sheet(), mule=text, caution=text))


def test_text_from_right_to_left_comes_out() -> None:
    for text in ("محرك الرفع", "מנוע הרמה"):
        found = "".join(page.extract_text() for page in pages(paper(Words(text), table(text))))
        for word in text.split():
            assert found.count(word) == 3, word


def test_what_would_turn_the_reading_direction_is_seen_instead() -> None:
    assert "a\\u202eb" in printed(paper(Words("a\u202eb")))


@pytest.mark.parametrize(
    "block", [Words("漢字"), table("漢字"), Ticks([("漢字", "")]), Labels([Label("1", ["漢字"], "x")], 12e-3)]
)
def test_letters_that_the_fonts_lack_are_named(block: Block) -> None:
    with pytest.raises(LettersLacking, match=r"the font lacks 字 漢 \(CJK\)") as refused:
        pdf([paper(block)], sheet())
    assert refused.value.lacking == set("漢字")
    assert refused.value.found == "漢字"
    with pytest.raises(LettersLacking):
        pictures(paper(block), sheet(), "png")


def test_letters_in_a_picture_are_letters_too() -> None:
    with pytest.raises(LettersLacking):
        pdf([paper(Drawing(BOX.replace("<path", "<text>漢</text><path"), "a box"))], sheet())


def test_symbols_are_called_so() -> None:
    assert fonts.scripts("🦾漢ก") == ["CJK", "Thai", "emoji or symbol"]


@pytest.mark.parametrize(("page", "size"), [("a4", (210, 297)), ("letter", (215.9, 279.4))])
@pytest.mark.parametrize("wide", [False, True])
def test_pages_have_the_size_that_was_asked_for(page: str, size: tuple[float, float], wide: bool) -> None:
    [made] = pages(paper(Words("x"), wide=wide), of=sheet(page=page))
    found = float(made.mediabox.width) / PT_PER_MM, float(made.mediabox.height) / PT_PER_MM
    assert found == pytest.approx(size[::-1] if wide else size, abs=0.1)


def test_head_and_foot_stand_on_every_page_and_pages_are_counted_in_each_paper() -> None:
    long, short = paper(table(*["x"] * 90), title="Long"), paper(Words("x"), title="Short")
    texts = [page.extract_text() for page in pages(long, short, long)]
    count = (len(texts) - 1) // 2
    assert count > 1
    heads = [("Long", n, count) for n in range(1, count + 1)]
    for text, (title, number, of) in zip(texts, [*heads, ("Short", 1, 1), *heads], strict=True):
        assert squeezed(f"Mule {title} page {number} of {of}") in squeezed(text)
        assert squeezed("One line of caution. printed 25 November 2026") in squeezed(text)


def test_a_table_over_several_pages_repeats_its_head() -> None:
    made = pages(paper(table(*map(str, range(100)))))
    assert len(made) > 1
    assert all("no.namemoreseen" in squeezed(page.extract_text()) for page in made)


def test_letters_are_as_large_as_there_is_room_for_but_never_small() -> None:
    sizes = [
        letter_sizes(pages(paper(table(*["x"] * rows)))[0])
        for rows in (5, 33, 34, 35, 36, 37, 38, 39, 40, 80)
    ]
    assert min(map(min, sizes)) >= 8
    assert max(sizes[0]) == max(sizes[-1])  # what cannot stand on one page is not made smaller
    assert any(max(size) < max(sizes[0]) for size in sizes)


def test_a_picture_fits_its_page() -> None:
    huge = BOX.replace("80mm", "900mm").replace("20mm", "2000mm")
    for wide in (False, True):
        assert len(pages(paper(Words("x"), Drawing(BOX, "small"), Drawing(huge, "huge"), wide=wide))) == 2
        assert len(pages(paper(Drawing(huge, "huge"), wide=wide))) == 1


def test_it_is_tagged_and_says_what_pictures_show() -> None:
    made = pdf([paper(Drawing(BOX, "a box to look at"))], sheet())
    root = PdfReader(io.BytesIO(made)).root_object
    assert str(root["/Lang"]) == "en"
    assert "'/Marked': True" in str(root["/MarkInfo"])
    assert b"pdfuaid:part>1" in made
    assert b"pdfaid:part>2" in made
    assert OURS in made


def test_the_same_papers_give_the_same_bytes() -> None:
    papers = [everything("Ελιά"), paper(Labels([Label("1", ["here"], "code")] * 2, 12e-3), title="Labels")]
    first, first_picture = pdf(papers, sheet()), pictures(papers[0], sheet(), "svg")
    typeset._compiler.cache_clear()
    assert pdf(papers, sheet()) == first
    assert pictures(papers[0], sheet(), "svg") == first_picture


def test_pictures_of_pages() -> None:
    pngs, svgs = (pictures(paper(table(*["x"] * 90)), sheet(), kind) for kind in ("png", "svg"))
    assert len(pngs) == len(svgs) > 1
    assert all(png.startswith(b"\x89PNG") for png in pngs)
    assert all(svg.startswith(b"<svg") for svg in svgs)


def test_every_character_is_printed_or_refused() -> None:
    every = (chr(code) for code in range(1, sys.maxunicode + 1))
    assigned = "".join(one for one in every if unicodedata.category(one) not in ("Cn", "Cs"))
    known = sorted(set(assigned) - fonts.lacking(assigned))
    assert len(known) > 5000
    assert pdf([paper(*(Words(f"a{one}b") for one in known))], sheet())


@pytest.mark.parametrize(
    "quantity", ["0.4 m", "-400 us", "1: +400 us", "14 AWG", "3.9 s", "0.153 m/s", "79 %", "2.4 N m"]
)
def test_a_number_stays_with_its_unit(quantity: str) -> None:
    for ahead in range(60, 90):
        [made] = pages(
            paper(
                Words(
                    f"{'x' * 8} {'y' * (ahead - 50)} {'z' * 9} {'o' * 9} {'u' * 9} {'v' * 9} {quantity}, so."
                )
            )
        )
        assert any(quantity in line for line in made.extract_text().splitlines())


def test_words_from_right_to_left_turn_nothing_around_them() -> None:
    text = "5: servo ذراع الرافعة; 7: battery, سَلَام, 8: fuse"
    [made] = pages(paper(Words(text), table(text)))
    for y in {y for _, y, run in runs(made) if "battery" in run}:
        line = sorted((x, run.strip("\u2068\u2069;, ")) for x, at, run in runs(made) if at == y)
        said = " ".join(run for _, run in line)
        assert said.index("5: servo") < said.index("ذراع") < said.index("7: battery") < said.index("fuse")


HEADS = (
    "output",
    "moves",
    "socket",
    "receiver",
    "it then",
    "the machine",
    "after",
    "as far as",
    "commands",
    "seen",
)


@pytest.mark.parametrize("page", ["a4", "letter"])
def test_heads_of_columns_do_not_overlap(page: str) -> None:
    row = (
        "controller right", "drive (front_right and rear_right)", "1", "no", "stops and brakes",
        "rolls out and stands, or goes on", "1 s (assumed)", "?", "-", "",
    )  # fmt: skip
    widths: tuple[Width, ...] = ("fit", "fit", 1, 0.5, 1.3, 2.4, "fit", "fit", 0.5, 2.2)
    for wide in (True, False):
        [made] = pages(paper(Grid(HEADS, [row] * 3, widths), wide=wide), of=sheet(page=page))
        line = sorted(run for run in runs(made) if run[2] in HEADS)
        assert len(line) > 5
        for (x, y, head), (beside, at, _) in itertools.pairwise(line):
            assert y != at or x + fonts.width(head, 9.5, bold=True) < beside, head


def test_long_words_break_behind_what_divides_them() -> None:
    name = "servo.plain.signal_of_it.and_its_lead."
    for width in range(20, 60):
        [made] = pages(paper(Words(f"{'x' * 9} {'y ' * width}{name}")))
        lines = made.extract_text().splitlines()
        assert any(
            line.endswith(name[:cut]) for line in lines for cut in range(1, 39) if name[cut - 1] in "._"
        )
        assert not {"s", "."} & {line.strip() for line in lines}


def test_what_folds_stands_on_one_page_in_two_columns() -> None:
    long = paper(*[block for n in range(9) for block in (Words(f"Part {n}", "heading"), table(*"abcde"))])
    assert len(pages(long)) == 2
    [made] = pages(replace(long, folds=True))
    assert made.mediabox.width > made.mediabox.height
    assert min(letter_sizes(made)) >= 8
    assert squeezed(made.extract_text()).index("Part0") < squeezed(made.extract_text()).index("Part8")


def test_sections_have_pages_of_their_own_where_one_page_is_too_small() -> None:
    part = (Words("Part", "section"), table(*["x"] * 30))
    assert len(pages(paper(*part, *part))) == 2
    assert len(pages(paper(part[0], table("x"), part[0], table("y")))) == 1


def test_sections_are_joined_where_they_stay_large_and_flow_where_they_do_not_fit() -> None:
    short, long, endless = ((Words("Part", "section"), table(*["x"] * rows)) for rows in (16, 36, 90))
    joined = pages(paper(*long, *short, *short))
    assert len(joined) == 2
    assert joined[1].extract_text().count("Part") == 2
    assert all(max(letter_sizes(page)) > 9 for page in joined)
    assert len(pages(paper(*endless, *short))) == len(pages(paper(*endless)))
