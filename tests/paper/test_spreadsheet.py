"""Is what somebody typed a text in every sheet, and never a formula?"""

from __future__ import annotations

import csv
import io
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook

from mulewright.errors import FileProblem, visible
from mulewright.paper.spreadsheet import FORMULA, csv_file, xlsx_file
from mulewright.tasks.printing import print_papers
from tests.designs import EXAMPLES
from tests.paper.oddities import HOSTILE, NAMES

AISLE = EXAMPLES / "aisle-carrier" / "mule.toml"
ODD = [*HOSTILE, *NAMES, "+1", "-1", "@SUM(A1)", " =1+1", "\t=1", "a\x00b", 'a,b;"c"\nd']


def rows_of(content: bytes) -> list[list[str]]:
    return list(csv.reader(io.StringIO(content.decode("utf-8-sig"))))


def test_csv_begins_with_a_mark_and_no_cell_is_worked_out() -> None:
    content = csv_file(["name", "need"], [(name, 1) for name in ODD])
    assert content.startswith(b"\xef\xbb\xbf")
    for name, (cell, need) in zip(ODD, rows_of(content)[1:], strict=True):
        assert need == "1"
        assert not cell.lstrip().startswith(FORMULA)
        assert cell.removeprefix("'") == visible(name)


def test_numbers_stay_numbers_and_what_is_unknown_is_empty() -> None:
    assert rows_of(csv_file(["a", "b"], [(-0.5, None)])) == [["a", "b"], ["-0.5", ""]]
    sheet = load_workbook(io.BytesIO(xlsx_file("Parts", ["a", "b"], [(-0.5, None)]))).active
    assert sheet is not None
    assert [cell.value for cell in sheet[2]] == [-0.5, None]


@settings(max_examples=50, deadline=None)
@given(st.lists(st.one_of(st.text(max_size=30), st.sampled_from(ODD)), min_size=1, max_size=4))
def test_every_text_in_an_xlsx_is_a_text(names: list[str]) -> None:
    sheet = load_workbook(io.BytesIO(xlsx_file("Parts", ["name"], [(name,) for name in names]))).active
    assert sheet is not None
    for name, (cell,) in zip(names, sheet.iter_rows(min_row=2), strict=False):
        assert cell.data_type in ("s", "inlineStr", "n")  # n is an empty cell
        assert (cell.value or "") == visible(name)


def test_the_same_table_gives_the_same_bytes() -> None:
    assert xlsx_file("Parts", ["a"], [("b",)]) == xlsx_file("Parts", ["a"], [("b",)])


@pytest.mark.parametrize("ending", ["csv", "xlsx"])
def test_the_list_of_parts_goes_into_a_sheet(ending: str, tmp_path: Path) -> None:
    out = tmp_path / f"parts.{ending}"
    printed = print_papers(AISLE, ["picklist"], out=out, day=date(2026, 11, 25))
    if ending == "csv":
        heads, *rows = rows_of(out.read_bytes())
    else:
        sheet = load_workbook(out).active
        assert sheet is not None
        heads, *rows = [[str(cell.value) for cell in row] for row in sheet.iter_rows()]
    assert heads[:5] == ["kind", "part", "title", "need", "have"]
    assert ["motor", "gm-drive", "Gearmotor, 12 V, 200 rpm", "5"] in [row[:4] for row in rows]
    assert len(rows) == len(printed.papers[0].data["parts"]["rows"])
    with pytest.raises(FileProblem, match="somebody may have written into it"):
        print_papers(AISLE, ["picklist"], out=out, day=date(2026, 11, 25))


def test_no_other_paper_goes_into_a_sheet(tmp_path: Path) -> None:
    with pytest.raises(FileProblem, match="only the list of parts"):
        print_papers(AISLE, ["plugs"], out=tmp_path / "a.csv", day=date(2026, 11, 25))
