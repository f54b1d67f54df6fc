"""`new` begins a file, `schema` says its form, `demo` shows what the rest is for."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from mulewright import __version__
from mulewright.design.schema.file import MuleFile
from mulewright.design.starters import KINDS, starter
from tests.cli.conftest import Run

BAD = ("stop", "block")
NEVER_TICKED = ("X12", "X14")  # nor ticked that the wheels are up and the battery is strapped
NEVER_TRIED = "R01"  # nobody has tried the fail-safe of a machine that is only being written down


@pytest.mark.parametrize("kind", KINDS)
def test_a_begun_file_can_be_checked(
    mulewright: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, kind: str
) -> None:
    monkeypatch.chdir(tmp_path)
    assert mulewright("new", "--drive", kind).code == 0
    assert Path("mule.toml").read_text("utf-8") == starter(kind)
    ran = mulewright("check", "mule.toml", "--json")
    serious = {
        one["check"] for one in ran.json["verdicts"] if one["outcome"] == "trip" and one["severity"] in BAD
    }
    assert (ran.code, serious) == (1, {NEVER_TRIED, *NEVER_TICKED})
    assert ran.json["counts"]["cannot-tell"] > 0
    done = (
        "receiver.fail_safe.tested=2026-05-01",
        "checklist.wheels_up=true",
        "checklist.battery_strapped=true",
    )
    settings = [word for one in done for word in ("--set", one)]
    assert mulewright("check", "mule.toml", *settings).code == 0


def test_the_first_file_is_named_and_the_command_to_go_on_with(mulewright: Run, tmp_path: Path) -> None:
    file = tmp_path / "my mule.toml"
    ran = mulewright("new", file)
    command = ran.out.rstrip("\n").split("then: ")[1]
    assert shlex.split(command) == ["mulewright", "check", str(file)]


def test_nothing_is_overwritten(mulewright: Run, tmp_path: Path) -> None:
    file = tmp_path / "mule.toml"
    file.write_text("mine")
    ran = mulewright("new", file)
    assert ran.code == 2
    assert ran.err == f"{file}: is there already\n  Rule: choose another name, or move it\n"
    assert file.read_text() == "mine"
    link = tmp_path / "link.toml"
    link.symlink_to(tmp_path / "nowhere.toml")
    assert mulewright("new", link).code == 2
    assert not (tmp_path / "nowhere.toml").exists()


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("mule.toml", "--drive", "two-sidse"), "Closest: two-sides"),
        (("nowhere/mule.toml",), "cannot be written: No such file or directory"),
        ((".",), "is there already"),
        (("a" * 300,), "cannot be written: File name too long"),
    ],
)
def test_what_cannot_be_begun(
    mulewright: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...], says: str
) -> None:
    monkeypatch.chdir(tmp_path)
    ran = mulewright("new", *words)
    assert ran.code == 2
    assert says in ran.err
    assert list(tmp_path.iterdir()) == []


def test_the_schema_knows_every_table(mulewright: Run) -> None:
    ran = mulewright("schema")
    assert ran.code == 0
    assert ran.json["$schema"].startswith("https://json-schema.org/")
    assert set(ran.json["properties"]) == set(MuleFile.model_fields)
    assert ran.json["additionalProperties"] is False


def test_the_demonstration_opens_findings_and_its_commands_work(
    mulewright: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    ran = mulewright("demo")
    assert ran.code == 0
    assert "Aisle carrier" in ran.out
    commands = [line.strip() for line in ran.out.splitlines() if line.startswith("  mulewright ")]
    assert len(commands) >= 5
    for command in commands:
        tried = mulewright(*shlex.split(command)[1:])
        assert tried.code in (0, 1), f"{command}\n{tried.err}"
        assert tried.out


def test_the_version_is_that_of_the_package(mulewright: Run) -> None:
    ran = mulewright("--version")
    assert (ran.code, ran.out) == (0, f"mulewright {__version__}\n")
