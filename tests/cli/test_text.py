"""Text for people fits a bench screen, stays plain in a file, and shows what was typed without obeying it."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from rich.cells import cell_len

from tests.cli.conftest import Run, path_of
from tests.designs import DESIGNS

CARRIER = path_of("aisle-carrier")
REPORTS = (
    ("check", CARRIER, "--all"),
    ("facts", CARRIER),
    ("chain", CARRIER, "lift"),
    ("envelope", CARRIER, "lift"),
    ("matrix", CARRIER),
    ("endpoints", CARRIER, "tilt"),
    ("mixing", CARRIER),
    ("explain", CARRIER, "mechanism.lift.margin"),
    ("explain", "S01"),
    ("checks",),
    ("checks", "--seen", "o"),
    ("shelf", "list"),
)
WORD = "unbreakable" * 20
HOSTILE = {
    "markup": "[red]danger[/red] [link=x]y[/link] :boom:",
    "escapes": "\\u001b[31mred\\u001b[0m \\u001b]0;title\\u0007 \\b\\r",
    "a second line": "first\\nBLOCK P01 made-up: battery",
    "braces": "{value} {limit:%} {0} {{ }} %s %(x)s",
    "a long word": WORD,
    "turned text": "abc\\u202Edef\\u2069",
    "other scripts": "Ωm µs 20 °C Καροτσάκι 手押し車 \U0001f331",
    "quotes": "'single' \\\"double\\\" `back` $(shell) <b>&amp;</b>",
    "nothing": "",
    "blanks": "   \\t  ",
}


def widest(text: str) -> int:
    return max(cell_len(line) for line in text.splitlines())


@pytest.mark.parametrize("design", DESIGNS)
@pytest.mark.parametrize("words", [("check", "--all"), ("facts",)], ids=" ".join)
def test_no_line_is_wider_than_a_screen(mulewright: Run, design: str, words: tuple[str, ...]) -> None:
    command, *options = words
    ran = mulewright(command, path_of(design), *options)
    assert ran.err == ""
    assert widest(ran.out) <= 80
    assert "\x1b" not in ran.out


@pytest.mark.parametrize("columns", ["40", "60", "200", "0", "wide"])
@pytest.mark.parametrize("words", REPORTS, ids=lambda words: words[0])
def test_a_narrow_screen_is_kept_to(
    mulewright: Run, monkeypatch: pytest.MonkeyPatch, words: tuple[str | Path, ...], columns: str
) -> None:
    monkeypatch.setenv("COLUMNS", columns)
    ran = mulewright(*words)
    assert ran.err == ""
    assert widest(ran.out) <= {"40": 40, "60": 60, "0": 40}.get(columns, 80)
    said = "".join(ran.out.split())
    monkeypatch.delenv("COLUMNS")
    if words[0] not in (
        "shelf",
        "chain",
        "envelope",
        "matrix",
        "endpoints",
        "mixing",
    ):  # tables with ruled heads
        assert said == "".join(mulewright(*words).out.split())


@pytest.fixture
def named(tmp_path: Path) -> Path:
    return tmp_path / "mule.toml"


def write_named(file: Path, name: str) -> None:
    """The carrier, with a text wherever a person may write what they like."""
    text = CARRIER.read_text("utf-8")
    for old, new in {
        '"Aisle carrier"': f'"{name}"',
        '"Can one person bring a full tray down a 0.8 m aisle without touching the benches?"': f'"{name}"',
        '"multimeter"': f'"{name}"',
        "[checklist]": f'[checklist]\nown = {{ "{name}" = true }}',
        "[receiver]": f'[limits.S01]\ndeliberate = true\nbecause = "{name}"\n\n[receiver]',
    }.items():
        assert old in text, old
        text = text.replace(old, new, 1)
    file.write_text(text, "utf-8")


@pytest.mark.parametrize("what", HOSTILE)
@pytest.mark.parametrize("command", ["check", "facts", "explain"])
def test_names_are_shown_and_not_obeyed(mulewright: Run, named: Path, what: str, command: str) -> None:
    write_named(named, HOSTILE[what])
    more = {"check": ("--all",), "explain": ("battery.main.rested",)}.get(command, ())
    ran = mulewright(command, named, *more)
    assert ran.code in (0, 1), ran.err
    assert widest(ran.out) <= 80
    assert {char for char in ran.out if not char.isprintable()} <= {"\n"}
    assert not any(line.startswith("BLOCK P01 made-up") for line in ran.out.splitlines())
    if what in ("markup", "braces", "a long word", "other scripts") and command != "facts":
        assert "".join(HOSTILE[what].split()) in "".join(ran.out.split())
    assert mulewright(command, named, *more, "--json").json


@pytest.mark.parametrize("what", HOSTILE)
def test_complaints_show_names_and_do_not_obey_them(mulewright: Run, named: Path, what: str) -> None:
    write_named(named, HOSTILE[what])
    ran = mulewright("explain", named, f"\x1b[31m{HOSTILE[what]}\n\r")
    assert ran.code == 2
    assert {char for char in ran.err if not char.isprintable()} <= {"\n"}
    named.write_text(
        CARRIER.read_text("utf-8") + f'\n[motor."{HOSTILE[what]}\\u001b[31m"]\npart = "gm-drive"\n', "utf-8"
    )
    ran = mulewright("check", named)
    assert ran.code == 2
    assert "cannot be a name" in ran.err
    assert {char for char in ran.err if not char.isprintable()} <= {"\n"}


def test_a_thing_may_be_named_in_any_script(mulewright: Run, named: Path) -> None:
    text = CARRIER.read_text("utf-8").replace("motor.pump", "motor.Pumpe-µ [1] {x}")
    named.write_text(
        text.replace("[motor.Pumpe-µ [1] {x}]", '[motor."Pumpe-µ [1] {x}"]').replace(
            '"pump"', '"Pumpe-µ [1] {x}"'
        ),
        "utf-8",
    )
    ran = mulewright("check", named, "--json")
    assert ran.code in (0, 1), ran.err
    assert "motor.Pumpe-µ [1] {x}" in {
        fact["entity"] for fact in mulewright("facts", named, "--json").json["facts"]
    }


# --- the streams themselves need a process of their own


def process(*words: str | Path, columns: str = "", **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "mulewright", *map(str, words)],
        env=os.environ | environment,
        capture_output=True,
    )


@pytest.mark.parametrize("more", [(), ("--json",), ("--set", "motor.Ωµ.part=x")])
def test_an_ascii_console_is_no_reason_to_stop(named: Path, more: tuple[str, ...]) -> None:
    write_named(named, HOSTILE["other scripts"])
    ran = process("check", named, *more, PYTHONIOENCODING="ascii")
    assert ran.returncode == (2 if "--set" in more else 1)
    assert b"Traceback" not in ran.stderr
    assert (ran.stdout + ran.stderr).isascii()


LONG_AND_SHORT = pytest.mark.parametrize(
    "words",
    [("facts", CARRIER), ("check", CARRIER, "--json"), ("schema",), ("explain", "S01"), ("--version",)],
    ids=lambda words: words[0],
)


@LONG_AND_SHORT
def test_a_reader_who_goes_away_is_no_reason_to_shout(words: tuple[str | Path, ...]) -> None:
    with subprocess.Popen(
        [sys.executable, "-m", "mulewright", *map(str, words)], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as running:
        assert running.stdout is not None
        assert running.stderr is not None
        running.stdout.close()
        assert running.stderr.read() == b""
    assert running.returncode == 2


@LONG_AND_SHORT
def test_a_full_disk_is_told_in_one_line(words: tuple[str | Path, ...]) -> None:
    with Path("/dev/full").open("wb") as full:
        ran = subprocess.run(
            [sys.executable, "-m", "mulewright", *map(str, words)], stdout=full, stderr=subprocess.PIPE
        )
    assert (ran.returncode, ran.stderr) == (2, b"the output: No space left on device\n")


def test_colour_is_for_terminals_only(mulewright: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FORCE_COLOR", "1")
    coloured = mulewright("check", CARRIER).out
    assert "\x1b[1m" in coloured
    monkeypatch.setenv("NO_COLOR", "1")
    assert "\x1b[31m" not in mulewright("check", CARRIER).out
