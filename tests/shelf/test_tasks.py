"""What the faces get to know about the shelf."""

from pathlib import Path

import pytest

from mulewright.errors import NotFound, ShelfError
from mulewright.shelf.catalog import PACKAGED, VARIABLE
from mulewright.tasks.shelf import add_part, check_shelf, import_parts, list_parts, show_part


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The user's own shelf, empty."""
    monkeypatch.setenv(VARIABLE, str(tmp_path / "shelf"))
    (tmp_path / "shelf").mkdir()
    return tmp_path / "shelf"


def test_the_list_names_kind_id_title_and_place(shelf: Path) -> None:
    add_part("battery", "mine", ["title=From the drawer"])
    found = list_parts("battery")
    assert [(part.id, part.place) for part in found.parts] == [
        ("b-dry", "packaged"),
        ("b-li", "packaged"),
        ("b-ni", "packaged"),
        ("mine", "user"),
    ]
    assert found.parts[3].title == "From the drawer"
    assert not found.problems


def test_one_broken_part_does_not_hide_the_others(shelf: Path) -> None:
    good = len(list_parts().parts)
    broken = shelf / "motor" / "broken.toml"
    broken.parent.mkdir()
    broken.write_text('shaft = "rund"\nmass = "1 V"', encoding="utf-8")
    found = list_parts()
    assert len(found.parts) == good
    assert [problem.where for problem in found.problems] == [f"{broken}, mass", f"{broken}, shaft"]


def test_a_part_is_shown_with_its_usual_source_and_the_others(shelf: Path) -> None:
    part = show_part("ctl-10l")
    assert (part.kind, part.place, part.source) == (
        "controller",
        "packaged",
        "data-sheet (invented for the demonstration shelf)",
    )
    values = {value.key: value for value in part.values}
    assert values["regulator.voltage"].text == "6.0 V"
    assert values["regulator.peak_current"].source.startswith("assumed")
    assert values["stops_on_lost_pulses"].text == "yes"
    assert values["stops_on_lost_pulses"].source == ""
    assert {value.key: value.text for value in show_part("tx7").values}["control.LV.sprung"] == "no"
    assert {value.key: value.text for value in show_part("tx7").values}["rate_covers"] == "RV, RH"


def test_a_part_of_an_unknown_or_doubtful_name(shelf: Path) -> None:
    with pytest.raises(NotFound, match="Closest: gm-drive"):
        show_part("gm-drvie")
    add_part("motor", "b-ni", [])
    with pytest.raises(ShelfError, match="Found: motor, battery"):
        show_part("b-ni")
    assert show_part("b-ni", "motor").values == []


def test_added_by_pairs(shelf: Path) -> None:
    path = add_part("motor", "gm-mine", ["free_speed=180 rpm", "note=a=b", "from=measured"])
    assert path == shelf / "motor" / "gm-mine.toml"
    part = show_part("gm-mine")
    assert part.source == "measured"
    assert [(value.key, value.text) for value in part.values] == [("note", "a=b"), ("free_speed", "180 rpm")]


@pytest.mark.parametrize(
    ("pairs", "message"),
    [
        (["free_speed"], "a value without its key"),
        (["mass=1 kg", "mass=2 kg"], "a key said twice"),
        (["mas=1 kg"], "Closest: mass"),
    ],
)
def test_pairs_that_make_no_sense(pairs: list[str], message: str, shelf: Path) -> None:
    with pytest.raises(ShelfError, match=message):
        add_part("motor", "m", pairs)
    assert list(shelf.iterdir()) == []


def test_a_packaged_part_is_covered_only_on_demand(shelf: Path) -> None:
    with pytest.raises(ShelfError, match="already"):
        add_part("motor", "gm-drive", ["title=mine"])
    add_part("motor", "gm-drive", ["title=mine"], replace=True)
    assert show_part("gm-drive").place == "user"
    assert "200 rpm" in (PACKAGED / "motor" / "gm-drive.toml").read_text(encoding="utf-8")


def test_imported_into_another_shelf(shelf: Path, tmp_path: Path) -> None:
    sheet = tmp_path / "fuses.csv"
    sheet.write_text("id;rating [A];kind\nf-15;15;blade\nf-20;20;blade\n", encoding="utf-8")
    other = tmp_path / "other"
    assert len(import_parts(sheet, "fuse", other)) == 2
    assert show_part("f-20", shelf=other).values[0].text == "blade"
    assert list(shelf.iterdir()) == []


def test_the_packaged_shelf_is_in_order(shelf: Path) -> None:
    report = check_shelf()
    assert report.files == 30
    assert not report.problems


def test_checking_finds_broken_covered_and_stray_files(shelf: Path, tmp_path: Path) -> None:
    for name, text in {
        "motor/gm-drive.toml": 'mass = "1 V"',
        "motor/My Motor.toml": "",
        "motors/m.toml": "",
        "loose.toml": "",
        "motor/deep/m.toml": "",
    }.items():
        path = shelf / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    beside = tmp_path / "mule" / "shelf" / "motor" / "gm-drive.toml"
    beside.parent.mkdir(parents=True)
    beside.write_text("", encoding="utf-8")
    report = check_shelf(beside=tmp_path / "mule")
    assert report.files == 33
    where = [
        Path(problem.where.partition(",")[0]).relative_to(shelf).as_posix() for problem in report.problems
    ]
    assert where == [
        "motor/My Motor.toml",
        "motor/gm-drive.toml",
        "loose.toml",
        "motor/deep/m.toml",
        "motors/m.toml",
    ]
    assert report.problems[4].nearest[0] == "motor"


def test_a_shelf_or_kind_that_is_not_there(shelf: Path, tmp_path: Path) -> None:
    with pytest.raises(ShelfError, match="no such shelf"):
        list_parts(shelf=tmp_path / "no")
    with pytest.raises(NotFound, match="Closest: motor"):
        check_shelf("moter")
