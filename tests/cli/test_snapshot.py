"""Snapshots of a mule file, its log, and a snapshot as a side of a comparison."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from datetime import datetime
from pathlib import Path

import pytest

from mulewright import __version__
from mulewright.shelf.catalog import PACKAGED
from mulewright.tasks.snapshots import folder_of, keep, read_log
from tests.cli.conftest import Run, path_of
from tests.designs import DESIGNS

LIGHT, HEAVY = 'mass          = "7.5 kg"', 'mass = "9 kg"'
MIXED, ONCE = "mix  = [{ kind = \"two-sides\", active = true", "mix  = [{ kind = \"two-sides\", active = false"  # fmt: skip


@pytest.fixture
def mule(tmp_path: Path) -> Path:
    """A copy of the hose tug in a folder of its own."""
    return Path(shutil.copy(path_of("hose-tug"), tmp_path))


def edit(path: Path, was: str, now: str) -> None:
    text = path.read_text("utf-8")
    assert was in text
    path.write_text(text.replace(was, now), "utf-8")


def two(mule: Path) -> None:
    """Keep the tug as it is, and once more with the mix of its radio off."""
    keep(mule, "as found")
    edit(mule, MIXED, ONCE)
    keep(mule, "radio mix off")


def test_a_copy_is_kept_with_its_parts_reason_day_and_version(mulewright: Run, mule: Path) -> None:
    ran = mulewright("snapshot", mule, "-m", "as found, größer")
    assert (ran.code, ran.err) == (0, "")
    assert "as snapshot 1" in ran.out
    folder = folder_of(mule)
    assert (folder / "1" / "mule.toml").read_bytes() == mule.read_bytes()
    kept, part = (root / "motor" / "gm-drive.toml" for root in (folder / "1" / "shelf", PACKAGED))
    assert kept.read_bytes() == part.read_bytes()
    line = (folder / "index.jsonl").read_text("utf-8")
    found = json.loads(line)
    assert "größer" in line
    assert (found["number"], found["version"]) == (1, __version__)
    assert abs((datetime.now().astimezone() - datetime.fromisoformat(found["day"])).total_seconds()) < 60
    assert sorted(one.name for one in folder.iterdir()) == ["1", "index.jsonl"]


def test_nothing_changed_keeps_nothing(mulewright: Run, mule: Path) -> None:
    keep(mule, "as found")
    ran = mulewright("snapshot", mule, "-m", "again")
    assert (ran.code, ran.err) == (0, "")
    assert "Nothing changed since snapshot 1" in ran.out
    found = mulewright("snapshot", mule, "-m", "again", "--json").json
    assert (found["kept"], found["number"], found["why"]) == (False, 1, "as found")
    assert len(read_log(mule).snapshots) == 1


@pytest.mark.parametrize(
    ("was", "now", "says"),
    [(LIGHT, 'weight = "7.5 kg"', "there is no 'weight'"), (LIGHT, "mass = = 2", "not valid TOML")],
)
def test_a_file_that_does_not_read_is_not_kept(
    mulewright: Run, mule: Path, was: str, now: str, says: str
) -> None:
    edit(mule, was, now)
    ran = mulewright("snapshot", mule, "-m", "broken")
    assert (ran.code, ran.out) == (2, "")
    assert says in ran.err
    assert not folder_of(mule).exists()


@pytest.mark.parametrize(
    ("words", "says"),
    [((), "Missing option"), (("-m", " "), "no reason is given"), (("-m", "a\udcffb"), "no reason is given")],
)
def test_a_reason_has_to_be_given(mulewright: Run, mule: Path, words: tuple[str, ...], says: str) -> None:
    ran = mulewright("snapshot", mule, *words)
    assert ran.code == 2
    assert says in ran.err
    assert not folder_of(mule).exists()


def test_what_lies_where_snapshots_should_is_left_alone(mulewright: Run, mule: Path) -> None:
    folder_of(mule).write_text("mine")
    for words in (("snapshot", mule, "-m", "why"), ("log", mule)):
        ran = mulewright(*words)
        assert ran.code == 2
        assert "is no folder of snapshots" in ran.err
    assert folder_of(mule).read_text() == "mine"


def test_the_log_says_which_verdicts_changed_with_which_input(mulewright: Run, mule: Path) -> None:
    two(mule)
    edit(mule, LIGHT, HEAVY)
    ran = mulewright("log", mule)
    assert (ran.code, ran.err) == (0, "")
    assert max(map(len, ran.out.splitlines())) <= 80
    said = " ".join(ran.out.split())
    order = ["2 snapshots", "NOW Against 2:", "body.mass: 7.5 kg (typed) -> 9 kg (typed)", "radio mix off",
             "Against 1:", "radio.mix.0.active: true -> false", "S20 mixed-twice, mixer.tug: stop -> pass",
             "as found", "The first"]  # fmt: skip
    places = [said.index(words) for words in order]
    assert places == sorted(places)


def test_the_log_for_programs_says_what_compare_says(mulewright: Run, mule: Path) -> None:
    two(mule)
    found = mulewright("log", mule, "--json").json
    compared = mulewright("compare", f"{mule}@1", f"{mule}@2", "--json").json
    newest, first = found["snapshots"]
    assert (newest["number"], newest["against"], newest["why"]) == (2, 1, "radio mix off")
    assert newest["verdicts"] == compared["verdicts"] != []
    assert newest["inputs"] == compared["inputs"] != []
    assert (first["number"], first["against"]) == (1, None)
    assert (found["now"]["same"], found["now"]["same_text"]) == (True, True)
    assert found["problems"] == []
    assert compared["before"]["file"] == f"{mule}@1"


def test_only_the_last_are_shown(mulewright: Run, mule: Path) -> None:
    two(mule)
    said = mulewright("log", mule, "--last", "1").out
    assert "Against 1:" in said
    assert "as found" not in said
    assert "1 older; --last 2" in said
    assert "at least 1" in mulewright("log", mule, "--last", "0").err


def test_a_log_without_snapshots(mulewright: Run, mule: Path) -> None:
    ran = mulewright("log", mule)
    assert (ran.code, ran.err) == (0, "")
    assert "No snapshot yet" in ran.out
    missing = mulewright("log", mule.with_name("none.toml"))
    assert (missing.code, missing.out) == (2, "")
    assert "there is no such file" in missing.err


def test_a_comment_is_kept_and_said_to_be_one(mulewright: Run, mule: Path) -> None:
    keep(mule, "as found")
    edit(mule, "# Hose tug", "# The hose tug")
    assert "no difference but in comments" in mulewright("log", mule).out
    assert keep(mule, "a comment").new


@pytest.mark.parametrize("design", DESIGNS)
def test_a_snapshot_means_what_the_file_means(mulewright: Run, tmp_path: Path, design: str) -> None:
    mule = Path(shutil.copy(path_of(design), tmp_path))
    keep(mule, "as found")
    assert mulewright("compare", f"{mule}@1", mule, "--json").json["same"] is True


def test_an_old_snapshot_means_the_same_when_the_shelf_changes(mulewright: Run, mule: Path) -> None:
    beside = mule.parent / "shelf" / "battery" / "b-li.toml"
    beside.parent.mkdir(parents=True)
    shutil.copy(PACKAGED / "battery" / "b-li.toml", beside)
    keep(mule, "as found")
    before = mulewright("facts", folder_of(mule) / "1" / "mule.toml", "--json").out
    text = beside.read_text("utf-8")
    (line,) = (one for one in text.splitlines() if one.startswith("mass"))
    beside.write_text(text.replace(line, 'mass = "0.77 kg"'), "utf-8")
    assert mulewright("facts", folder_of(mule) / "1" / "mule.toml", "--json").out == before
    said = " ".join(mulewright("log", mule).out.split())
    assert "On the shelf, with the same part in the file: battery.main.mass:" in said
    assert "-> 0.77 kg" in said
    assert keep(mule, "another pack of the same name").new


def test_the_parts_of_a_variant_are_kept_too(mule: Path) -> None:
    with mule.open("a", encoding="utf-8") as file:
        file.write('\n[variant.stronger]\n"motor.*.part" = "mo-raw"\n[variant.lost]\n"motor.*.part" = "no"\n')
    kept = keep(mule, "two variants")
    assert {"shelf/motor/mo-raw.toml", "shelf/motor/gm-drive.toml"} <= set(kept.snapshot.files)


def test_another_name_of_the_mule_is_still_the_same_mule(mulewright: Run, mule: Path) -> None:
    keep(mule, "as found")
    edit(mule, 'name     = "Hose tug"', 'name = "Long hose tug"')
    found = mulewright("compare", f"{mule}@1", mule, "--json").json
    assert found["factors"]["two_machines"] is False


def test_a_file_that_is_called_like_a_snapshot_comes_first(mulewright: Run, mule: Path) -> None:
    other = Path(shutil.copy(mule, mule.with_name("mule.toml@1")))
    assert mulewright("compare", other, mule, "--json").json["same"] is True


@pytest.mark.parametrize("number", ["7", "3"])
def test_a_snapshot_that_is_not_there(mulewright: Run, mule: Path, number: str) -> None:
    two(mule)
    ran = mulewright("compare", f"{mule}@{number}", mule)
    assert (ran.code, ran.out) == (2, "")
    assert f"there is no snapshot {number}" in ran.err
    assert "there are 1 to 2" in ran.err


# --- damage


def three(mule: Path) -> Path:
    two(mule)
    edit(mule, LIGHT, HEAVY)
    keep(mule, "heavier")
    return folder_of(mule)


@pytest.mark.parametrize("name", ["mule.toml", "shelf/motor/gm-drive.toml"])
@pytest.mark.parametrize("how", ["missing", "changed"])
def test_a_copy_that_is_not_whole_hides_no_other(mulewright: Run, mule: Path, name: str, how: str) -> None:
    path = three(mule) / "2" / name
    if how == "missing":
        path.unlink()
    else:
        path.write_text(path.read_text("utf-8") + "\n", "utf-8")
    ran = mulewright("log", mule, "--json")
    assert ran.code == 1
    (problem,) = ran.json["problems"]
    assert (problem["where"], how in problem["what"]) == (str(path), True)
    newest, damaged, first = ran.json["snapshots"]
    assert (newest["against"], damaged["readable"], first["readable"]) == (1, False, True)
    assert {one["path"] for one in newest["inputs"]} == {"body.mass", "radio.mix.0.active"}
    assert "Cannot be read, see above." in mulewright("log", mule).out
    assert mulewright("compare", f"{mule}@2", mule).code == 2


def test_a_copy_that_is_gone_altogether(mulewright: Run, mule: Path) -> None:
    folder = three(mule)
    shutil.rmtree(folder / "3")
    (problem,) = mulewright("log", mule, "--json").json["problems"]
    assert str(folder / "3") in problem["where"]
    assert keep(mule, "kept again").snapshot.number == 4


@pytest.mark.parametrize(
    "damage", ["{torn", "\xff\xfe", "[]", "null", '{"number": "2"}', '{"number": 1e400}']
)
def test_a_damaged_line_of_the_index_hides_no_copy(mulewright: Run, mule: Path, damage: str) -> None:
    index = three(mule) / "index.jsonl"
    lines = index.read_bytes().split(b"\n")
    lines[1] = damage.encode("latin-1")
    index.write_bytes(b"\n".join(lines))
    ran = mulewright("log", mule, "--json")
    assert ran.code == 1
    (problem,) = ran.json["problems"]
    assert (problem["where"], problem["what"]) == (str(index), "is damaged")
    assert "line 2; day and reason are lost of snapshot 2" in problem["found"]
    _, second, _ = ran.json["snapshots"]
    assert (second["why"], second["against"], bool(second["verdicts"])) == ("", 1, True)
    assert "reason not known" in mulewright("log", mule).out


def test_names_in_the_index_lead_nowhere_else(mule: Path) -> None:
    index = three(mule) / "index.jsonl"
    index.write_text(
        index.read_text("utf-8").replace("shelf/motor/gm-drive.toml", "../../mule.toml"), "utf-8"
    )
    log = read_log(mule)
    assert len(log.problems) == 1
    assert [one.files for one in log.snapshots] == [{}, {}, {}]


@pytest.mark.parametrize("left", [None, b""])
def test_an_index_that_is_gone(mulewright: Run, mule: Path, left: bytes | None) -> None:
    index = three(mule) / "index.jsonl"
    index.unlink()
    if left is not None:
        index.write_bytes(left)
    ran = mulewright("log", mule)
    assert ran.code == 1
    assert ran.out.count("LOST") == 1
    assert len(read_log(mule).snapshots) == 3
    assert keep(mule, "with a reason again").snapshot.number == 4
    assert [one.why for one in read_log(mule).snapshots] == ["", "", "", "with a reason again"]


def test_a_line_behind_a_torn_one_stands_alone(mule: Path) -> None:
    index = three(mule) / "index.jsonl"
    index.write_bytes(index.read_bytes()[:-40])
    edit(mule, HEAVY, LIGHT)
    keep(mule, "lighter")
    assert [one.why for one in read_log(mule).snapshots] == ["as found", "radio mix off", "", "lighter"]


def test_a_file_that_broke_since_hides_no_snapshot(mulewright: Run, mule: Path) -> None:
    two(mule)
    edit(mule, LIGHT, "mass = = 2")
    ran = mulewright("log", mule)
    assert ran.code == 1
    assert "not valid TOML" in ran.out
    assert "mixed-twice" in ran.out


def test_a_write_that_fails_leaves_nothing_behind(mule: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    keep(mule, "as found")
    edit(mule, LIGHT, HEAVY)

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr("os.fsync", full)
        with pytest.raises(Exception, match="cannot be written: No space left on device"):
            keep(mule, "heavier")
    assert sorted(one.name for one in folder_of(mule).iterdir()) == ["1", "index.jsonl"]
    assert keep(mule, "heavier").snapshot.number == 2


def test_several_at_once_lose_none(mule: Path) -> None:
    keeping = (
        "import sys; from pathlib import Path; from mulewright.tasks.snapshots import keep;"
        "print(keep(Path(sys.argv[1]), sys.argv[2]).new)"
    )
    words = [[sys.executable, "-c", keeping, str(mule), why] for why in ("one", "two", "three")]
    running = [subprocess.Popen(one, stdout=subprocess.PIPE, text=True) for one in words]
    said = [one.communicate()[0].strip() for one in running]
    log = read_log(mule)
    assert log.problems == ()
    assert [one.number for one in log.snapshots] == [*range(1, said.count("True") + 1)]
    assert {log.copy(one).read_bytes() for one in log.snapshots} == {mule.read_bytes()}


def test_a_number_that_was_taken_meanwhile_is_passed_over(
    mule: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    keep(mule, "as found")
    stale = read_log(mule)
    edit(mule, LIGHT, HEAVY)
    keep(mule, "heavier")
    edit(mule, HEAVY, 'mass = "8 kg"')
    monkeypatch.setattr("mulewright.tasks.snapshots.read_log", lambda _: stale)
    assert keep(mule, "at the same time").snapshot.number == 3
    monkeypatch.undo()
    assert [one.why for one in read_log(mule).snapshots] == ["as found", "heavier", "at the same time"]
