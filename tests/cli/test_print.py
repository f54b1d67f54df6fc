"""Does `print` write what it says, where it says, and nothing over what is somebody else's?"""

from __future__ import annotations

import io
from pathlib import Path
from xml.etree import ElementTree

import pytest
from pypdf import PdfReader

from mulewright.tasks.printing import NAMES
from tests.cli.conftest import Run, path_of

CART = path_of("tray-cart").read_text("utf-8")
TITLES = {
    "plugs": "Plug map", "labels": "Wire labels", "radio": "Radio settings", "failsafe": "Fail-safe matrix",
    "checklists": "Checklists",
}  # fmt: skip


@pytest.fixture
def cart(tmp_path: Path) -> Path:
    """A copy of the tray cart."""
    file = tmp_path / "mule.toml"
    file.write_text(CART, encoding="utf-8")
    return file


def text_of(pdf: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf.read_bytes())).pages)


def test_all_papers_go_beside_the_file(mulewright: Run, cart: Path) -> None:
    ran = mulewright("print", cart)
    out = cart.parent / "tray-cart-papers.pdf"
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith(f"Wrote {out}: ")
    assert all(title in ran.out and title in text_of(out) for title in TITLES.values())


@pytest.mark.parametrize("what", ["labels,plugs", "plugs, labels,plugs"])
def test_papers_are_chosen_and_stand_in_their_usual_order(mulewright: Run, cart: Path, what: str) -> None:
    out = cart.parent / "some.PDF"
    assert mulewright("print", cart, "--what", what, "-o", out).out == f"Wrote {out}: Plug map, Wire labels\n"


@pytest.mark.parametrize("name", NAMES)
def test_each_paper_can_be_printed_alone(mulewright: Run, cart: Path, name: str) -> None:
    for ending in ("pdf", "png", "svg"):
        ran = mulewright("print", cart, "--what", name, "-o", cart.parent / f"one.{ending}")
        assert ran.code == 0
        for line in ran.out.splitlines():
            written = Path(line.removeprefix("Wrote ").split(": ")[0])
            assert written.stat().st_size > 1000
            assert written.suffix == f".{ending}"


def test_a_paper_of_several_pages_becomes_several_pictures(mulewright: Run, tmp_path: Path) -> None:
    ran = mulewright("print", path_of("aisle-carrier"), "--what", "labels", "-o", tmp_path / "l.png")
    assert [line.split(": ")[0] for line in ran.out.splitlines()] == [
        f"Wrote {tmp_path / 'l-1.png'}", f"Wrote {tmp_path / 'l-2.png'}",
    ]  # fmt: skip
    assert sorted(path.name for path in tmp_path.iterdir()) == ["l-1.png", "l-2.png"]


def test_sizes_come_from_the_file_or_from_the_command(mulewright: Run, cart: Path) -> None:
    out = cart.parent / "out.pdf"

    def size(*words: str) -> tuple[int, str]:
        assert mulewright("print", cart, "--what", "labels", "-o", out, *words).code == 0
        return round(PdfReader(out).pages[0].mediabox.width), text_of(out)

    assert size()[0] == 595
    assert size("--page", "letter")[0] == 612
    assert "9 mm high" in size("--tape", "9 mm")[1]
    cart.write_text(f'{CART}\n[print]\npage = "letter"\ntape = "18 mm"\n')
    width, text = size()
    assert width == 612
    assert "18 mm high" in text
    width, text = size("--page", "a4", "--tape", "24 mm")
    assert width == 595
    assert "24 mm high" in text


def test_a_variant_and_settings_are_laid_over(mulewright: Run) -> None:
    words = ("print", path_of("aisle-carrier"), "--json", "--what", "plugs")
    plain, supply, set_ = (
        str(mulewright(*words, *more).json)
        for more in ((), ("--variant", "own-servo-supply"), ("--set", "controller.lift.red_wire=pulled"))
    )
    assert "servo tilt supply" not in plain
    assert "servo tilt supply" in supply
    assert "'controller lift', 'pulled'" in set_


def test_json_says_what_stands_on_the_papers_and_writes_only_where_it_is_asked_to(
    mulewright: Run, cart: Path
) -> None:
    found = mulewright("print", cart, "--json").json
    assert found["mule"] == "Tray cart"
    assert [paper["paper"] for paper in found["papers"]] == list(NAMES)
    assert found["written"] == []
    assert list(cart.parent.iterdir()) == [cart]
    out = cart.parent / "x.pdf"
    assert mulewright("print", cart, "--json", "-o", out).json["written"] == [str(out)]
    assert out.exists()


def test_the_same_file_gives_the_same_bytes(mulewright: Run, cart: Path) -> None:
    first, second = cart.parent / "1.pdf", cart.parent / "2.pdf"
    for out in (first, second):
        mulewright("print", cart, "-o", out)
    assert first.read_bytes() == second.read_bytes()


def test_only_papers_of_ours_are_written_over(mulewright: Run, cart: Path) -> None:
    out = cart.parent / "out.pdf"
    assert mulewright("print", cart, "-o", out).code == 0
    assert mulewright("print", cart, "-o", out).code == 0
    out.write_bytes(b"%PDF-1.7 somebody's thesis")
    ran = mulewright("print", cart, "-o", out)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith(f"{out}: is there already, and none of our papers\n")
    assert out.read_bytes() == b"%PDF-1.7 somebody's thesis"


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--what", "plug"), "--what: no paper is called 'plug'\n  Rule: one or several of plugs, "),
        (("--what", "labels,lables"), "Closest: labels"),
        (("-o", "papers.doc"), "papers.doc: papers of this kind cannot be printed\n  Rule: a name that ends in .pdf, .svg, .png"),
        (("-o", "papers"), "cannot be printed"),
        (("-o", "papers.png"), "papers.png: a picture holds one paper\n  Rule: one paper with --what for a png"),
        (("-o", "nowhere/at/all.pdf"), "all.pdf: cannot be written: No such file or directory"),
        (("-o", "a\0b.pdf"), "embedded null byte"),
        (("--page", "a5"), "print.page (laid over "),
        (("--page", "A4"), "Closest: a4"),
        (("--tape", "10 mm"), "no label tape is this wide\n  Rule: 9 mm, 12 mm, 18 mm or 24 mm\n  Found: 10 mm\n  Closest: 9 mm"),
        (("--tape", "12"), "--tape: no label tape is this wide\n  Rule: 9 mm, 12 mm, 18 mm or 24 mm\n  Found: 12\n  Closest: 12 mm"),
        (("--tape", "17 kg"), "Closest: 18 mm"),
        (("--tape", "wide"), "Closest: 12 mm"),
        (("--what", ""), "--what: names no paper\n  Rule: one or several of plugs, "),
        (("--what", " , "), "--what: names no paper"),
        (("--variant", "none"), "no variant"),
    ],
)  # fmt: skip
def test_what_cannot_be_done_is_told_in_one_message(
    mulewright: Run, cart: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...], says: str
) -> None:
    monkeypatch.chdir(cart.parent)
    ran = mulewright("print", cart, *words)
    assert (ran.code, ran.out) == (2, "")
    assert says in ran.err
    assert "Traceback" not in ran.err
    assert list(cart.parent.iterdir()) == [cart]


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ('name     = "Tray cart"', 'name = "漢字 cart"', "name ("),
        ("[switch.main]", '[inline."漢字"]\nsignal = "receiver.3"\n[switch.main]', 'inline."漢字" ('),
    ],
)
def test_letters_that_cannot_be_printed_are_named_with_their_place(
    mulewright: Run, cart: Path, old: str, new: str, place: str
) -> None:
    assert old in CART
    cart.write_text(CART.replace(old, new, 1), encoding="utf-8")
    ran = mulewright("print", cart)
    assert ran.code == 2
    assert ran.err.startswith(place)
    assert "cannot be printed, for the font lacks 字 漢 (CJK)" in ran.err
    assert ran.err.splitlines()[-1] in ("  Found: 漢字", "  Found: 漢字 cart")
    assert mulewright("print", cart, "--what", "wiring", "-o", cart.parent / "w.svg").err == ran.err
    assert list(cart.parent.iterdir()) == [cart]


@pytest.mark.parametrize(
    "name", ["Ελιά", "../../etc", "a/b\\\\c", "CON: \\u0000?"[:4], "x" * 300, "=cmd|'/C calc'"]
)
def test_any_name_of_a_mule_makes_a_name_of_a_file(mulewright: Run, cart: Path, name: str) -> None:
    cart.write_text(CART.replace('"Tray cart"', f'"{name}"', 1), encoding="utf-8")
    assert mulewright("print", cart).code == 0
    [out] = set(cart.parent.iterdir()) - {cart}
    assert out.name.endswith("-papers.pdf")
    assert len(out.name) <= 60


def test_a_mule_with_nothing_on_it_is_printed_all_the_same(mulewright: Run, cart: Path) -> None:
    cart.write_text('schema_version = 1\nname = "bare"\n')
    assert mulewright("print", cart).code == 0


def test_control_characters_in_a_name_break_no_file(mulewright: Run, cart: Path) -> None:
    name = '"Tray \\u0001 \\u001b[31m \\u202e <b>&amp; cart"'
    cart.write_text(CART.replace('"Tray cart"', name, 1), encoding="utf-8")
    assert mulewright("print", cart).code == 0
    out = cart.parent / "w.svg"
    assert mulewright("print", cart, "--what", "wiring", "-o", out).code == 0
    assert "<b>&amp; cart" in "".join(ElementTree.parse(out).getroot().itertext())
