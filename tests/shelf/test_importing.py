"""Sheets become parts line by line; a wrong line is named and nothing is written."""

import tomllib
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl import Workbook

from mulewright.errors import MulewrightError, NotFound, Problems, ShelfError
from mulewright.shelf.catalog import Catalog
from mulewright.shelf.headings import heading_of
from mulewright.shelf.importing import drafts_in, import_parts
from mulewright.shelf.sheets import read_sheet

MOTORS = """\
id,title,stall torque (kgf.cm),free_speed [rpm],Gearbox,stall_current
m-1,"Motor, small",12,100,yes,3 A
m-2,,1.5 N m,?,no,
"""


def sheet(tmp_path: Path, text: str, name: str = "parts.csv") -> Path:
    path = tmp_path / name
    path.write_bytes(text.encode())
    return path


def book(tmp_path: Path, *rows: list[Any], formats: dict[str, str] | None = None) -> Path:
    made = Workbook()
    page = made.active
    assert page is not None
    for row in rows:
        page.append(row)
    for cell, number_format in (formats or {}).items():
        page[cell].number_format = number_format
    path = tmp_path / "parts.xlsx"
    made.save(path)
    return path


def parts(path: Path, kind: str | None = None) -> list[dict[str, Any]]:
    return [tomllib.loads(new.text) for new in drafts_in(path, kind)]


def test_units_stand_in_the_headings_or_in_the_cells(tmp_path: Path) -> None:
    assert parts(sheet(tmp_path, MOTORS), "motor") == [
        {
            "source": {"ref": "parts.csv, line 2"},
            "title": "Motor, small",
            "stall_torque": "12 kgf.cm",
            "free_speed": "100 rpm",
            "gearbox": True,
            "stall_current": "3 A",
        },
        {"source": {"ref": "parts.csv, line 3"}, "stall_torque": "1.5 N m", "gearbox": False},
    ]


def test_several_kinds_in_one_sheet_with_inner_keys_and_sources(tmp_path: Path) -> None:
    text = (
        "kind;id;Regulator.voltage [V];control.RV.kind;cells [1];from;ref;capacity.plus_minus;capacity\n"
        "controller;c;6;;;data-sheet;page 1;;\n"
        "radio;r;;stick;;;;;\n"
        "\n"
        "Battery;b;;;3;;;5 %;2 Ah\n"
    )
    assert parts(sheet(tmp_path, text)) == [
        {"source": {"ref": "page 1", "from": "data-sheet"}, "regulator": {"voltage": "6 V"}},
        {"source": {"ref": "parts.csv, line 3"}, "control": {"RV": {"kind": "stick"}}},
        {
            "source": {"ref": "parts.csv, line 5"},
            "cells": 3,
            "capacity": {"value": "2 Ah", "plus_minus": "5 %"},
        },
    ]


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
@pytest.mark.parametrize("ending", ["\n", "\r\n"])
def test_every_usual_form_of_csv(separator: str, mark: str, ending: str, tmp_path: Path) -> None:
    text = mark + ending.join((f"id{separator}mass [g]", f"m{separator}330", ""))
    assert parts(sheet(tmp_path, text), "motor") == [
        {"source": {"ref": "parts.csv, line 2"}, "mass": "330 g"}
    ]


def test_the_kind_of_a_fuse(tmp_path: Path) -> None:
    assert parts(sheet(tmp_path, "id,kind\nf,blade\n"), "fuse")[0]["kind"] == "blade"
    assert parts(sheet(tmp_path, "kind,id,fuse.kind\nfuse,f,blade\n"))[0]["kind"] == "blade"


def test_line_numbers_count_lines_inside_quotes(tmp_path: Path) -> None:
    path = sheet(tmp_path, 'id,note\na,"one\ntwo"\nb!,x\n')
    with pytest.raises(ShelfError, match="line 4: not an id"):
        drafts_in(path, "motor")


@pytest.mark.parametrize(
    ("text", "kind", "message"),
    [
        (
            "id,stall_torqe [N m]\nm,1\n",
            "motor",
            r"heading 'stall_torqe \[N m\]'.*\n.*\n.*Closest: stall_torque",
        ),
        ("id,regulator voltage\nc,6 V\n", "controller", "Closest: regulator.voltage"),
        ("id,stall_torque [kg]\nm,1\n", "motor", r"heading 'stall_torque \[kg\]': not a torque"),
        ("id,title [V]\nm,x\n", "motor", "a unit where no number stands"),
        ("id,mass,Mass\nm,1 g,2 g\n", "motor", "the same heading twice"),
        ("id,,mass\nm,1,2 g\n", "motor", "heading ''"),
        ("title\nx\n", "motor", "no column id"),
        ("title\nx\n", None, "no column id and no column kind"),
        ("id,mass\n", "motor", "no lines below"),
        ("\n\n", "motor", "an empty sheet"),
        ("id,mass\n,1 g\n", "motor", "line 2: a line without its id"),
        ("kind,id\n,m\n", None, "line 2: a line without its kind"),
        ("kind,id\nmoter,m\n", None, "Closest: motor"),
        ("kind,id\nservo,m\n", "motor", "kind is one of motor"),
        ("id,mass\nm,1 g,2\n", "motor", "line 2: more cells than headings"),
        ("id,mass [g]\nm,=1+1\n", "motor", "line 2: a formula"),
        ('id,mass [g]\nm,"1,5"\n', "motor", "Closest: 1.5 g"),
        ("id,mass\nm,5\n", "motor", "line 2, mass: not a mass"),
        ('id,note\nm,"open\n', "motor", "not a CSV file"),
        ("kind,id,mass,cells\nmotor,m,,3\nbattery,b,,3\n", None, "line 2, heading 'cells'"),
        ("id,from\nm,hearsay\n", "motor", "from is one of"),
    ],
)
def test_what_is_wrong_is_named(text: str, kind: str | None, message: str, tmp_path: Path) -> None:
    with pytest.raises(ShelfError, match=message):
        drafts_in(sheet(tmp_path, text), kind)


def test_all_wrong_lines_are_named_and_nothing_is_written(tmp_path: Path) -> None:
    path = sheet(tmp_path, "id,mass [g],shaft\na,1,flat\nb,heavy,rund\nc,2,key\nd e,3,\n")
    with pytest.raises(Problems) as caught:
        import_parts(path, tmp_path / "shelf", Catalog([]), "motor")
    assert [problem.where.removeprefix(f"{path}, ") for problem in caught.value.problems] == [
        "line 3, mass",
        "line 3, shaft",
        "line 5",
    ]
    assert not (tmp_path / "shelf").exists()


def test_an_import_lands_on_the_shelf(tmp_path: Path) -> None:
    shelf = tmp_path / "shelf"
    written = import_parts(sheet(tmp_path, MOTORS), shelf, Catalog([]), "motor")
    assert [path.relative_to(shelf).as_posix() for path in written] == ["motor/m-1.toml", "motor/m-2.toml"]
    raw = Catalog([shelf]).find("motor", "m-1").raw
    assert raw["stall_torque"] == {"value": "12 kgf.cm", "ref": "parts.csv, line 2", "part": "m-1"}


def test_an_id_twice_in_a_file_or_on_the_shelf(tmp_path: Path) -> None:
    shelf = tmp_path / "shelf"
    twice = sheet(tmp_path, "id,title\nm,a\nm,b\n")
    with pytest.raises(ShelfError, match="line 3: there is a motor called 'm' already"):
        import_parts(twice, shelf, Catalog([shelf]), "motor")
    import_parts(twice, shelf, Catalog([shelf]), "motor", replace=True)
    assert Catalog([shelf]).find("motor", "m").title == "b"
    with pytest.raises(ShelfError, match="line 2: there is a motor"):
        import_parts(twice, shelf, Catalog([shelf]), "motor")


@pytest.mark.parametrize(
    ("name", "content", "message"),
    [
        ("parts.ods", b"", "not a file that can be imported"),
        ("parts.csv", "id,title\nm,gr\u00f6\u00dfe\n".encode("latin-1"), "not UTF-8"),
        ("parts.csv", "id,title\nm,x\n".encode("utf-16"), "not UTF-8"),
        ("parts.csv", b"#" * 20_000_001, "too large"),
        ("parts.xlsx", b"PK not really", "not an XLSX file"),
        ("parts.xlsx", b"", "not an XLSX file"),
    ],
)
def test_files_that_cannot_be_read(name: str, content: bytes, message: str, tmp_path: Path) -> None:
    path = tmp_path / name
    path.write_bytes(content)
    with pytest.raises(ShelfError, match=message):
        drafts_in(path, "motor")
    with pytest.raises(ShelfError, match="cannot be read"):
        drafts_in(tmp_path / f"gone-{name.replace('ods', 'csv')}", "motor")


def test_a_spreadsheet(tmp_path: Path) -> None:
    path = book(
        tmp_path,
        ["id", "stall_torque [N m]", "gearbox", "tolerance [%]", "note", "count", "bin"],
        ["m-1", 2.4, True, 0.05, date(2026, 5, 1), 3.0, None],
        [None, None, None],
        [7, "1 kgf.cm", False, 10, "", None, 12],
        formats={"D2": "0%"},
    )
    assert parts(path, "motor") == [
        {
            "source": {"ref": "parts.xlsx, line 2"},
            "count": 3,
            "note": "2026-05-01",
            "stall_torque": "2.4 N m",
            "gearbox": True,
            "tolerance": "5 %",
        },
        {
            "source": {"ref": "parts.xlsx, line 4"},
            "bin": "12",
            "stall_torque": "1 kgf.cm",
            "gearbox": False,
            "tolerance": "10 %",
        },
    ]


def test_a_formula_that_nobody_has_computed_is_not_taken_for_empty(tmp_path: Path) -> None:
    path = book(tmp_path, ["id", "mass [g]"], ["m", "=100+50"])
    with pytest.raises(ShelfError, match="line 2: a formula without its value"):
        drafts_in(path, "motor")


def test_one_of_several_pages(tmp_path: Path) -> None:
    made = Workbook()
    for title, mass in (("old", 1), ("new", 2)):
        page = made.create_sheet(title)
        page.append(["id", "mass [g]"])
        page.append(["m", mass])
    path = tmp_path / "parts.xlsx"
    made.save(path)
    with pytest.raises(ShelfError, match="Found: old, new"):
        drafts_in(path, "motor")
    assert read_sheet(path, "new").lines[0].cells == ("m", "2")
    with pytest.raises(NotFound, match="Closest: new"):
        read_sheet(path, "ne")


@pytest.mark.parametrize(
    ("text", "name", "unit"),
    [
        ("stall_torque [N m]", "stall_torque", "N m"),
        ("Stall torque (kgf.cm)", "Stall_torque", "kgf.cm"),
        ("stall-torque", "stall_torque", ""),
        ("cells [1]", "cells", ""),
        (" gain [ deg/us ] ", "gain", "deg/us"),
        ("a [b", "a_[b", ""),
    ],
)
def test_a_heading_taken_apart(text: str, name: str, unit: str) -> None:
    heading = heading_of(text)
    assert (heading.name, heading.unit) == (name, unit)


@given(st.text("id,;kmas [g]()\"=\n\t1.'\x00é", max_size=60))
def test_any_text_is_imported_or_refused(text: str) -> None:
    with TemporaryDirectory() as folder:
        path = sheet(Path(folder), "id,mass [g]\n" + text)
        try:
            drafts_in(path, "motor")
        except MulewrightError:
            return
