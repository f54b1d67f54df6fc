"""A part made of texts is written so that reading it gives what was said; what cannot be is refused whole."""

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mulewright.errors import MulewrightError, NotFound, ShelfError
from mulewright.shelf.adding import Draft, draft, write
from mulewright.shelf.catalog import Catalog
from mulewright.shelf.keys import inner_tables, key_at, paths
from mulewright.shelf.parts import PART_KINDS


def made(kind: str, said: dict[str, str]) -> dict[str, Any]:
    return tomllib.loads(draft(kind, "x", said, "here", {}).text)


def test_numbers_keep_their_texts_and_the_rest_its_type() -> None:
    said = {
        "title": 'A "quoted" title',
        "stall_torque": "2 N m",
        "gearbox": "yes",
        "count": "3",
        "shaft": "flat",
        "from": "data-sheet",
        "ref": "page 2",
    }
    assert made("motor", said) == {
        "source": {"from": "data-sheet", "ref": "page 2"},
        "title": 'A "quoted" title',
        "stall_torque": "2 N m",
        "gearbox": True,
        "count": 3,
        "shaft": "flat",
    }


def test_inner_tables_and_lists() -> None:
    said = {"control.RV.kind": "stick", "control.RV.sprung": "true", "rate_covers": "RV; RH", "channels": "7"}
    assert made("radio", said) == {
        "channels": 7,
        "rate_covers": ["RV", "RH"],
        "control": {"RV": {"kind": "stick", "sprung": True}},
    }
    assert made("controller", {"regulator.efficiency": "0.85"}) == {"regulator": {"efficiency": 0.85}}
    assert made("receiver", {"protects": "all"}) == {"protects": "all"}
    assert made("receiver", {"protects": "1, 3"}) == {"protects": [1, 3]}


@pytest.mark.parametrize("order", [1, -1])
def test_what_is_known_about_a_number(order: int) -> None:
    said = [("stall_torque", "2 N m"), ("stall_torque.from", "measured"), ("stall_torque.plus_minus", "5 %")]
    assert made("motor", dict(said[::order])) == {
        "stall_torque": {"value": "2 N m", "from": "measured", "plus_minus": "5 %"}
    }
    assert made("motor", {"free_speed.min": "90 rpm", "free_speed.max": "110 rpm"}) == {
        "free_speed": {"min": "90 rpm", "max": "110 rpm"}
    }


def test_unknown_values_are_not_written() -> None:
    assert made("motor", {"stall_torque": "?", "title": " ", "free_speed": ""}) == {}


@pytest.mark.parametrize(
    ("kind", "said", "message"),
    [
        ("motor", {"stall_torqe": "2 N m"}, "Closest: stall_torque"),
        ("motor", {"stall_torque.form": "measured"}, "Closest: stall_torque"),
        ("motor", {"stall_torque": "2 kg"}, "here, stall_torque: not a torque"),
        ("motor", {"gearbox": "perhaps"}, "yes or no"),
        ("motor", {"from": "hearsay"}, "from is one of"),
        ("motor", {"stall_torque": "2 N m", "stall_torque.from": "hearsay"}, "from is one of"),
        ("controller", {"regulator": "6 V"}, "Closest: regulator"),
        ("radio", {"control.RV": "stick"}, "Closest: control"),
        ("tester", {"modes": "knob, sweeep"}, "Closest: sweep"),
        ("receiver", {"protects": "one"}, "protects"),
    ],
)
def test_what_cannot_be_said(kind: str, said: dict[str, str], message: str) -> None:
    with pytest.raises(ShelfError, match=message):
        draft(kind, "x", said, "here", {})


@pytest.mark.parametrize(("id", "hint"), [("GM Drive 2", "gm-drive-2"), ("a/b", "a-b"), ("..", ""), ("", "")])
def test_an_id_is_a_file_name(id: str, hint: str) -> None:
    with pytest.raises(ShelfError, match="not an id") as caught:
        draft("motor", id, {}, "here", {})
    assert list(caught.value.nearest) == ([hint] if hint else [])


def test_an_unknown_kind() -> None:
    with pytest.raises(NotFound, match="Closest: motor"):
        draft("moter", "x", {}, "here", {})


@pytest.mark.parametrize("kind", PART_KINDS)
def test_every_path_of_a_schema_is_a_key(kind: str) -> None:
    for path in paths(PART_KINDS[kind]):
        assert key_at(PART_KINDS[kind], path).path == path


def test_every_inner_table_is_found() -> None:
    assert {kind: sorted(inner_tables(PART_KINDS[kind])) for kind in ("controller", "radio", "motor")} == {
        "controller": ["closed_loop", "motor_lead", "regulator", "supply_lead"],
        "radio": ["control"],
        "motor": ["lead"],
    }


@given(st.text(), st.text(), st.text())
def test_any_text_is_written_so_that_it_reads_back(title: str, control: str, note: str) -> None:
    said = {"title": title, f"control.{control}.gimbal": note}
    try:
        new = draft("radio", "x", said, "here", {})
        new.text.encode()
    except (MulewrightError, UnicodeEncodeError):
        return
    read = tomllib.loads(new.text)
    assert read.get("title", "") == ("" if title.strip() == "?" else title.strip())
    assert [below["gimbal"] for below in read.get("control", {}).values()] in ([], [note.strip()])


def test_writing_makes_the_shelf(tmp_path: Path) -> None:
    paths = write([draft("motor", "m", {"title": "x"}, "", {})], tmp_path / "new" / "shelf", Catalog([]))
    assert paths == [tmp_path / "new" / "shelf" / "motor" / "m.toml"]
    assert Catalog([tmp_path / "new" / "shelf"]).find("motor", "m").title == "x"


def test_what_exists_is_replaced_only_on_demand(tmp_path: Path) -> None:
    catalog = Catalog([tmp_path])
    write([draft("motor", "m", {"title": "old"}, "", {})], tmp_path, catalog)
    new = [draft("motor", "m", {"title": "new"}, "line 7", {})]
    with pytest.raises(ShelfError, match=r"line 7: there is a motor called 'm' already"):
        write(new, tmp_path, catalog)
    write(new, tmp_path, catalog, replace=True)
    assert Catalog([tmp_path]).find("motor", "m").title == "new"


def test_a_failure_half_way_leaves_everything_as_it_was(tmp_path: Path) -> None:
    old = tmp_path / "motor" / "a.toml"
    write([draft("motor", "a", {"title": "old"}, "", {})], tmp_path, Catalog([]))
    before = old.read_bytes()
    (tmp_path / "motor" / "c.toml").mkdir()
    (tmp_path / "motor" / "c.toml" / "in the way").touch()
    drafts = [draft("motor", id, {"title": "new"}, "", {}) for id in ("a", "b", "c")]
    with pytest.raises(ShelfError, match="cannot be written"):
        write(drafts, tmp_path, Catalog([tmp_path]), replace=True)
    assert old.read_bytes() == before
    assert sorted(path.name for path in old.parent.iterdir()) == ["a.toml", "c.toml"]


def test_a_failure_while_renaming_undoes_what_was_renamed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write([draft("motor", "a", {"title": "old"}, "", {})], tmp_path, Catalog([]))
    rename = Path.replace

    def fails_at_c(path: Path, target: Path) -> Path:
        if target.stem == "c":
            raise OSError("disk full")
        return rename(path, target)

    monkeypatch.setattr(Path, "replace", fails_at_c)
    drafts = [draft("motor", id, {"title": "new"}, "", {}) for id in ("a", "b", "c")]
    with pytest.raises(ShelfError, match="disk full"):
        write(drafts, tmp_path, Catalog([tmp_path]), replace=True)
    assert [path.name for path in (tmp_path / "motor").iterdir()] == ["a.toml"]
    assert Catalog([tmp_path]).find("motor", "a").title == "old"


def test_text_that_is_no_unicode_is_refused(tmp_path: Path) -> None:
    with pytest.raises(ShelfError, match="cannot be written"):
        write([Draft("motor", "m", 'title = "\udcff"', "")], tmp_path, Catalog([]))
    assert not (tmp_path / "motor").exists()
