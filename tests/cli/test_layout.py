"""What `layout` answers: for people, for programs, into the file, and one clear message where it cannot."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.cli.conftest import Run, path_of
from tests.designs import DESIGNS

SWEEPER, CARRIER = path_of("leaf-sweeper"), path_of("aisle-carrier")
SEAT = set("function control channel socket cost reasons".split())
BARE = 'schema_version = 1\nname = "bare"\n'


@pytest.mark.parametrize("design", [one for one in DESIGNS if one != "soft-fruit-gripper"])
def test_it_fits_80_columns_and_is_the_same_every_time(mulewright: Run, design: str) -> None:
    first, second = (mulewright("layout", path_of(design)) for _ in range(2))
    assert (first.code, first.err) == (0, "")
    assert max(map(len, first.out.splitlines())) <= 80
    assert first.out == second.out


def test_programs_get_all_of_it(mulewright: Run) -> None:
    found = mulewright("layout", CARRIER, "--json").json
    assert {"best", "present", "ties", "pareto", "changes", "packing", "short", "proved"} <= found.keys()
    assert (found["best"]["cost"], found["short"], found["proved"]) == (95.75, 0, True)
    assert all(one.keys() == SEAT for one in found["best"]["assignment"])
    lift = next(one for one in found["best"]["assignment"] if one["function"] == "lift")
    assert (lift["control"], lift["channel"], lift["socket"]) == ("radio.control.LV", 3, "receiver.3")
    assert "+8 has no spring: let go, it goes on running" in lift["reasons"]
    assert {one["what"]: one["gain"] for one in found["changes"]}["self-centring conversion on LV"] == 7
    assert found["springs"] == {"wanted": ["forward", "strafe", "turn", "lift"], "there": ["RV", "RH", "LH"]}
    assert found["packing"] == []


def test_packing_moves_have_their_price(mulewright: Run) -> None:
    found = mulewright("layout", CARRIER, "--json", "--set", "radio.channels=4").json
    assert found["short"] == 2
    assert {"move", "price", "short", "cost"} == found["packing"][0].keys()
    assert found["packed"]["price"] == 40
    text = mulewright("layout", CARRIER, "--set", "radio.channels=4").out
    assert "CHANNELS RUN SHORT" in text
    assert "Left out, for want of a control or a channel: lift, pump." in " ".join(text.split())


def test_it_is_written_into_the_file_and_the_old_one_kept(mulewright: Run, tmp_path: Path) -> None:
    file = tmp_path / "mule.toml"
    shutil.copy(SWEEPER, file)
    before = file.read_text()
    wanted = mulewright("layout", file, "--json").json
    ran = mulewright("layout", file, "--apply")
    assert (ran.code, ran.err) == (0, "")
    assert "WRITTEN" in ran.out
    assert (tmp_path / "mule.toml.before").read_text() == before
    after = file.read_text()
    assert 'LV     = { commands = "roller" }' in after
    assert 'signal   = "receiver.3"           # meant for 6; nobody looked' in after
    assert sum(line not in before for line in after.splitlines()) == 3
    again = mulewright("layout", file, "--json").json
    assert again["present"]["assignment"] == again["best"]["assignment"] == wanted["best"]["assignment"]
    assert (again["set"], again["best"]["work"]) == ({}, 0)
    tripped = {one["id"] for one in mulewright("check", file, "--json", "--only", "S07,S09,S10,S13").json["verdicts"]
               if one["outcome"] == "trip"}  # fmt: skip
    assert tripped == set()


def test_nothing_to_change_writes_nothing(mulewright: Run, tmp_path: Path) -> None:
    file = tmp_path / "mule.toml"
    shutil.copy(CARRIER, file)
    assert mulewright("layout", file, "--apply", "--json").json["applied"] is False
    assert list(tmp_path.iterdir()) == [file]
    assert file.read_text() == CARRIER.read_text()


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (f'{BARE}[drive]\nkind = "two-sides"\n', "no transmitter is described"),
        (f'{BARE}[drive]\nkind = "two-sides"\n[radio]\nchannels = 6\n', "the transmitter has no controls"),
        (f'{BARE}[radio]\npart = "tx8"\n[receiver]\npart = "rx8"\n', "there is no function to lay out"),
        (
            f'{BARE}[drive]\nkind = "two-sides"\n[radio]\npart = "tx8"\n[radio.control]\nRV = {{ commands = "forwrd" }}\n',
            "no function is called 'forwrd'",
        ),
    ],
)
def test_one_clear_message(mulewright: Run, tmp_path: Path, text: str, says: str) -> None:
    file = tmp_path / "mule.toml"
    file.write_text(text)
    ran = mulewright("layout", file)
    assert (ran.code, ran.out) == (2, "")
    assert says in ran.err
    assert "Traceback" not in ran.err


def test_only_the_file_itself_is_written(mulewright: Run) -> None:
    ran = mulewright("layout", CARRIER, "--apply", "--set", "radio.channels=4")
    assert ran.code == 2
    assert "cannot be written into it" in ran.err


def test_nothing_is_written_that_leaves_something_out(mulewright: Run, tmp_path: Path) -> None:
    file = tmp_path / "mule.toml"
    file.write_text(CARRIER.read_text().replace('part = "tx7"', 'part = "tx7"\nchannels = 4'))
    before = file.read_text()
    ran = mulewright("layout", file, "--apply")
    assert ran.code == 2
    assert "no place is left for" in ran.err
    assert file.read_text() == before


def test_names_in_any_script_and_hostile_ones_are_plain_text(mulewright: Run, tmp_path: Path) -> None:
    names = ["подъём", "ανύψωση", "élévateur", "=SUM(1)", "{x}", "[red]x", "a b", "#let"]
    parts = "".join(f'[servo."{name}"]\npart = "sv-std"\nsignal = []\n' for name in names)
    control = '"SW 2" = { kind = "switch", position_count = 2, channel = 9, commands = "[red]x" }'
    radio = f'[radio]\npart = "tx8"\nchannels = 9\n[radio.control]\n{control}\n[receiver]\npart = "rx8"\nchannels = 9\n'
    file = tmp_path / "mule.toml"
    file.write_text(f"{BARE}{radio}{parts}", encoding="utf-8")
    ran = mulewright("layout", file, "--apply")
    assert (ran.code, ran.err) == (0, "")
    assert all(f"\n{name}: " in ran.out for name in names)
    found = mulewright("layout", file, "--json").json
    assert found["present"]["assignment"] == found["best"]["assignment"]
    assert "third position on SW 2" in {one["what"] for one in found["changes"]}
