"""What `measure` answers: a worksheet for people and one for programs, and one clear message where it cannot."""

from __future__ import annotations

from pathlib import Path

import pytest

from mulewright.cli.measure import EXAMPLE
from tests.cli.conftest import Run, path_of
from tests.designs import DESIGNS

TUG, BENCHES = path_of("hose-tug"), path_of("two-benches")
BARE = 'schema_version = 1\nname = "bare"\n[drive]\nkind = "two-sides"\n'
LINE = set("rank path also instrument how minutes settles together enter".split())


@pytest.mark.parametrize("design", DESIGNS)
def test_a_worksheet_fits_80_columns_and_is_the_same_every_time(mulewright: Run, design: str) -> None:
    first, second = (mulewright("measure", path_of(design)) for _ in range(2))
    assert (first.code, first.err) == (0, "")
    assert max(map(len, first.out.splitlines())) <= 80
    assert first.out == second.out


def test_programs_get_the_same_worksheet(mulewright: Run) -> None:
    found = mulewright("measure", BENCHES, "--json").json
    assert {"worksheet", "undecided", "doubtful", "minutes", "left", "ties", "exact"} <= found.keys()
    assert found["undecided"] == 10
    assert found["minutes"] == sum(line["minutes"] for line in found["worksheet"])
    for place, line in enumerate(found["worksheet"], 1):
        assert line.keys() == LINE
        assert line["rank"] == place
        assert all(
            one.keys() == {"check", "entity", "by", "turns_at"} and 0 < one["by"] <= 1
            for one in line["settles"]
        )
        assert len(line["enter"].splitlines()) == 1 + len(line["also"])
        assert line["enter"].startswith(f"{line['path']} = ")
    assert all(one.keys() == {"check", "entity", "doubt", "why"} for one in found["left"])
    first = found["worksheet"][0]
    assert (first["path"], first["also"][0]) == (
        "motor.front_left.gearbox_limit",
        "motor.front_right.gearbox_limit",
    )


def test_most_settled_per_minute_stands_first(mulewright: Run) -> None:
    lines = mulewright("measure", BENCHES, "--json").json["worksheet"]
    per_minute: list[float] = []
    step: list[dict[str, object]] = []
    for line in lines:
        step.append(line)
        if len(step) == 1 + len(line["together"]):
            gain = sum(one["by"] for part in step for one in part["settles"])  # type: ignore[attr-defined]
            per_minute.append(gain / sum(part["minutes"] for part in step))  # type: ignore[misc]
            step = []
    assert per_minute == pytest.approx(sorted(per_minute, reverse=True), abs=0.01)


def test_lines_alike_are_printed_as_one(mulewright: Run, tmp_path: Path) -> None:
    file = tmp_path / "mule.toml"
    file.write_text(f'{BARE}[motor.left]\nturns = "wheel.left"\n[motor.right]\nturns = "wheel.right"\n')
    said = " ".join(mulewright("measure", file).out.split())
    assert "motor.left.shaft and 1 like it: eyes, 2 min each" in said
    assert "and what you find at motor.right.shaft" in said


def test_time_and_instruments_are_kept_to(mulewright: Run) -> None:
    found = mulewright("measure", BENCHES, "--minutes", "9", "--with", "tape, kitchen scale", "--json").json
    assert found["minutes"] <= 9
    assert {line["instrument"] for line in found["worksheet"]} <= {
        "tape",
        "kitchen scale",
        "data sheet",
        "decision",
        "eyes",
    }
    assert any(one["why"] == "there is no time for all that it needs" for one in found["left"])


def test_settings_and_variants_are_laid_over(mulewright: Run) -> None:
    settled = ("--set", "drive.side_mismatch=1 %", "--set", "room.straight_run=3 m")
    assert mulewright("measure", TUG, *settled, "--json").json["undecided"] == 0
    assert mulewright("measure", TUG, "--variant", "radio-mix-off").code == 0


def test_a_file_with_nothing_open_says_so(mulewright: Run) -> None:
    settled = (
        "--set", "drive.side_mismatch=0.5 %", "--set", "room.straight_run=3 m", "--set",
        'drive.wheel.friction={ value = 0.8, from = "measured" }',
    )  # fmt: skip
    ran = mulewright("measure", TUG, *settled)
    assert ran.code == 0
    assert "Nothing to measure: every verdict could be told, and none is in doubt." in ran.out
    found = mulewright("measure", TUG, *settled, "--json").json
    assert (found["worksheet"], found["left"], found["minutes"]) == ([], [], 0)


def test_nothing_that_helps_is_said_too(mulewright: Run) -> None:
    ran = mulewright("measure", TUG, "--minutes", "0.5")
    assert "Nothing that could be measured here would settle one of them." in " ".join(ran.out.split())


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--with", "kichen scale"), "--with: no instrument is called 'kichen scale'"),
        (("--minutes", "0"), "--minutes: no time to measure in"),
        (("--minutes", "nan"), "--minutes: no time to measure in"),
        (
            ("--set", 'instrument.scale={ kind = "lugage scale" }'),
            "instrument.scale.kind: no instrument is called",
        ),
        (
            ("--set", 'instrument.multimeter={ error = "a bit" }', "--set", "battery.main.rested=?"),
            "how far off it may be does",
        ),
    ],
)
def test_what_cannot_be_is_one_clear_message(mulewright: Run, words: tuple[str, ...], says: str) -> None:
    ran = mulewright("measure", TUG, *words)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.startswith(says) or says in ran.err.splitlines()[0]
    assert "Traceback" not in ran.err
    assert set(mulewright("measure", TUG, *words, "--json").json) == {"error"}


def test_the_nearest_instrument_is_named(mulewright: Run) -> None:
    assert "Closest: kitchen scale" in mulewright("measure", TUG, "--with", "kichen scale").err


def test_a_mule_of_which_next_to_nothing_is_said(mulewright: Run, tmp_path: Path) -> None:
    file = tmp_path / "mule.toml"
    file.write_text(
        'schema_version = 1\nname = "bare"\n[drive]\nkind = "two-sides"\n[motor.left]\nturns = "wheel.left"\n'
    )
    ran = mulewright("measure", file)
    assert (ran.code, ran.err) == (0, "")


def test_the_example_names_a_known_option() -> None:
    assert "--minutes" in EXAMPLE
