"""Which file counts, what a record says, and what a broken or missing part is answered with."""

import re
import sys
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mulewright.errors import MulewrightError, NotFound, Problems, ShelfError
from mulewright.shelf.catalog import PACKAGED, VARIABLE, Catalog, catalog_for, user_folder
from mulewright.shelf.parts import MotorPart


def put(shelf: Path, kind: str, id: str, text: str) -> Path:
    path = shelf / kind / f"{id}.toml"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def refusal(shelf: Path, kind: str, text: str) -> str:
    path = put(shelf, kind, "broken", text)
    with pytest.raises(MulewrightError) as caught:
        Catalog([shelf]).find(kind, "broken")
    assert str(path) in str(caught.value)
    return str(caught.value)


def test_every_quantity_carries_its_source_also_inside_tables() -> None:
    raw = catalog_for(None, PACKAGED).find("controller", "ctl-10l").raw
    assert raw["dead_band"] == {
        "value": "25 us",
        "from": "data-sheet",
        "ref": "invented for the demonstration shelf",
        "part": "ctl-10l",
    }
    assert raw["regulator"]["peak_current"]["from"] == "assumed"
    assert raw["regulator"]["voltage"]["part"] == "ctl-10l"
    assert raw["stopping"] == "either"


def test_the_part_itself_is_of_its_kind() -> None:
    record = catalog_for(None, PACKAGED).find("motor", "gm-drive")
    assert isinstance(record.part, MotorPart)
    assert record.place == "packaged"
    assert record.part is record.part


def test_named_tables_carry_sources_too(tmp_path: Path) -> None:
    put(tmp_path, "radio", "r", '[control.LV]\ndetent_error = "20 us"\nsprung = false')
    control = Catalog([tmp_path]).find("radio", "r").raw["control"]["LV"]
    assert control == {"detent_error": {"value": "20 us", "part": "r"}, "sprung": False}


def test_a_source_of_its_own_stands_alone(tmp_path: Path) -> None:
    put(
        tmp_path,
        "motor",
        "m",
        'source = { from = "data-sheet", ref = "page 2" }\n'
        'stall_current = { value = "5 A", from = "measured" }\n'
        'free_current = { value = "0.3 A", ref = "page 3" }\n',
    )
    raw = Catalog([tmp_path]).find("motor", "m").raw
    assert raw["stall_current"] == {"value": "5 A", "from": "measured", "part": "m"}
    assert raw["free_current"] == {"value": "0.3 A", "from": "data-sheet", "ref": "page 3", "part": "m"}


def test_what_is_unknown_is_left_out(tmp_path: Path) -> None:
    put(tmp_path, "motor", "m", 'stall_current = "?"\nshaft = "?"\ncount = 3')
    assert set(Catalog([tmp_path]).find("motor", "m").raw) == {"count"}


def test_later_shelves_win_and_say_where_they_are(tmp_path: Path) -> None:
    user, mule = tmp_path / "user", tmp_path / "mule"
    put(user, "motor", "gm-drive", 'title = "mine"')
    put(mule / "shelf", "motor", "gm-fast", 'title = "here"')
    catalog = catalog_for(mule, user)
    assert [catalog.find("motor", id).place for id in ("gm-slow", "gm-drive", "gm-fast")] == [
        "packaged",
        "user",
        "beside the mule",
    ]
    assert catalog.find("motor", "gm-drive").title == "mine"
    assert len(catalog.ids("motor")) == len(catalog_for(None, PACKAGED).ids("motor"))


def test_only_the_wanted_file_is_read(tmp_path: Path) -> None:
    put(tmp_path, "motor", "good", "")
    put(tmp_path, "motor", "bad", "= nonsense")
    assert Catalog([tmp_path]).find("motor", "good").id == "good"


def test_the_user_shelf_follows_the_environment(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv(VARIABLE, str(tmp_path))
    assert user_folder() == tmp_path
    assert tmp_path in catalog_for(None).folders


@pytest.mark.parametrize(
    ("platform", "variable", "expected"),
    [
        ("linux", "XDG_DATA_HOME", "{base}/mulewright/shelf"),
        ("win32", "LOCALAPPDATA", "{base}/mulewright/shelf"),
        ("linux", "", "{home}/.local/share/mulewright/shelf"),
        ("darwin", "", "{home}/Library/Application Support/mulewright/shelf"),
    ],
)
def test_the_user_shelf_of_each_platform(
    platform: str, variable: str, expected: str, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    for name in (VARIABLE, "XDG_DATA_HOME", "LOCALAPPDATA"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    monkeypatch.setattr(sys, "platform", platform)
    if variable:
        monkeypatch.setenv(variable, str(tmp_path))
    assert user_folder() == Path(expected.format(base=tmp_path, home=tmp_path / "home"))


@pytest.mark.parametrize(
    ("kind", "id", "message"),
    [
        ("motor", "gm-driv", "Closest: gm-drive"),
        ("motor", "GM-DRIVE", "Closest: gm-drive"),
        ("mtor", "gm-drive", "Closest: motor"),
        ("motor", "ctl-10l", "is a controller, not a motor"),
        ("motor", "../motor/gm-drive", "no motor called"),
        ("motor", "", "no motor called"),
        ("motor", "a" * 5000, "no motor called"),
        ("motor", "a\0b", "no motor called"),
    ],
)
def test_a_part_that_does_not_exist(kind: str, id: str, message: str) -> None:
    with pytest.raises(NotFound, match=message):
        catalog_for(None, PACKAGED).find(kind, id)


@given(st.text(), st.text())
def test_any_name_is_found_or_not(kind: str, id: str) -> None:
    with pytest.raises(NotFound):
        catalog_for(None, PACKAGED).find(kind, id)


@pytest.mark.parametrize(
    ("kind", "text", "message"),
    [
        ("motor", "stall_torque = ", "not a TOML file"),
        ("motor", 'title = "a"\ntitle = "b"', "not a TOML file"),
        ("motor", "a = " + "[" * 5000, "not a TOML file"),
        (
            "motor",
            'stall_torqe = "1 N m"',
            r"stall_torqe: no key 'stall_torqe' in a motor\n.*\n.*Closest: stall_torque",
        ),
        ("motor", 'stall_torque = "1 kg"', r"stall_torque: not a torque\n.*N m, mN m"),
        ("motor", "stall_torque = 1", 'Closest: "1 N m"'),
        ("motor", 'stall_torque = "-1 N m"', "must be >= 0 N m"),
        ("motor", "stall_torque = [1]", "not a torque"),
        ("motor", 'shaft = "rund"', r"one of flat, key, pin, spline, round\n.*Found: rund\n.*Closest: round"),
        ("motor", 'gearbox = "maybe"', "true or false"),
        ("motor", "title = 3", "a text"),
        ("controller", 'regulator = "6 V"', "a table"),
        ("controller", 'regulator = { voltge = "6 V" }', "Closest: regulator.voltage"),
        ("controller", 'regulator = { voltage = "6 A" }', "regulator.voltage: not a voltage"),
        ("radio", "control = { RV = { sprng = true } }", "Closest: control.NAME.sprung"),
        ("radio", "control = { RV = 3 }", "control.RV"),
        ("radio", "channels = 0", "a whole number"),
        ("receiver", 'protects = "some"', "protects"),
        ("battery", 'capacity = { value = "3 Ah", from = "guess" }', "from is one of measured"),
        ("battery", 'source = "sheet"', "a source that says nothing"),
        ("battery", 'source = { form = "measured" }', "a source that says nothing"),
        ("battery", 'source = { from = "data sheet" }', "Closest: data-sheet"),
    ],
)
def test_a_broken_part_names_file_key_and_rule(kind: str, text: str, message: str, tmp_path: Path) -> None:
    assert re.search(message, refusal(tmp_path, kind, text))


def test_all_that_is_wrong_with_a_part_is_told_at_once(tmp_path: Path) -> None:
    put(tmp_path, "motor", "m", 'shaft = "rund"\nstall_torque = "1 kg"\nx = 1\ny = 2')
    with pytest.raises(Problems) as caught:
        Catalog([tmp_path]).find("motor", "m")
    assert len(caught.value.problems) == 4


def test_files_that_are_no_text(tmp_path: Path) -> None:
    put(tmp_path, "motor", "binary", "").write_bytes(b"\xff\xfe\0")
    put(tmp_path, "motor", "large", "#" * 1_000_001)
    (tmp_path / "motor" / "folder.toml").mkdir()
    put(tmp_path, "motor", "Not An Id", "")
    catalog = Catalog([tmp_path])
    with pytest.raises(Problems) as caught:
        catalog.list()
    assert [problem.what for problem in caught.value.problems] == [
        "not a TOML file",
        "too large for a part file",
    ]
    assert len(list(catalog.files())) == 4


def test_a_byte_order_mark_does_no_harm(tmp_path: Path) -> None:
    put(tmp_path, "motor", "m", '\ufefftitle = "x"')
    assert Catalog([tmp_path]).find("motor", "m").title == "x"


def test_a_part_is_read_once(tmp_path: Path) -> None:
    path = put(tmp_path, "motor", "m", 'title = "x"')
    catalog = Catalog([tmp_path])
    first = catalog.find("motor", "m")
    path.unlink()
    assert catalog.find("motor", "m") is first


def test_a_shelf_that_is_not_there_holds_nothing(tmp_path: Path) -> None:
    assert Catalog([tmp_path / "no"]).list() == []
    with pytest.raises(ShelfError, match="cannot be read"):
        Catalog([tmp_path]).read("motor", tmp_path / "motor" / "gone.toml")
