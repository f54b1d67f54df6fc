"""The shelf from the command line: text that fits 80 columns, JSON for programs, exit codes."""

import json
import shlex
from pathlib import Path
from typing import Any

import pytest
from typer.models import CommandInfo

from mulewright.cli import main
from mulewright.cli.shelf import app
from mulewright.shelf.catalog import VARIABLE

Capture = pytest.CaptureFixture[str]


@pytest.fixture(autouse=True)
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty folder to work in, and an empty shelf of one's own."""
    monkeypatch.setenv(VARIABLE, str(tmp_path / "mine"))
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*words: str, exits: int = 0) -> None:
    with pytest.raises(SystemExit) as caught:
        main(["shelf", *words])
    assert (caught.value.code or 0) == exits


def answer(capsys: Capture) -> Any:
    return json.loads(capsys.readouterr().out)


def test_the_list_fits_the_width_of_a_terminal(capsys: Capture) -> None:
    run("list")
    lines = capsys.readouterr().out.splitlines()
    assert all(len(line.rstrip()) <= 80 for line in lines)
    assert any(
        line.split()[:2] == ["motor", "gm-drive"] and line.rstrip().endswith("packaged") for line in lines
    )


def test_the_list_for_programs(capsys: Capture) -> None:
    run("list", "--kind", "tester", "--json")
    assert answer(capsys) == {
        "parts": [
            {
                "kind": "tester",
                "id": "st",
                "title": "Servo tester with knob, centre and sweep",
                "place": "packaged",
            }
        ],
        "problems": [],
    }


def test_a_part_shown(capsys: Capture) -> None:
    run("show", "ctl-10l")
    out = capsys.readouterr().out
    assert out.startswith("ctl-10l: Reversible brushed controller")
    assert "assumed (no more for a" in out
    assert "25 us" in out
    run("show", "ctl-10l", "--json")
    shown = answer(capsys)
    assert shown["kind"] == "controller"
    assert {"key", "text", "source", "meaning"} == set(shown["values"][0])


def test_text_of_the_user_is_printed_as_it_is(capsys: Capture) -> None:
    run("add", "motor", "odd", "title=[bold]x[/bold] :smile:", "note=[red]y")
    run("show", "odd")
    out = capsys.readouterr().out
    assert "[bold]x[/bold] :smile:" in out
    assert "[red]y" in out


def test_added_listed_checked(bench: Path, capsys: Capture) -> None:
    run("add", "motor", "gm-mine", "free_speed=180 rpm", "from=measured")
    assert capsys.readouterr().out == f"wrote {bench / 'mine' / 'motor' / 'gm-mine.toml'}\n"
    run("list", "--kind", "motor")
    assert "gm-mine" in capsys.readouterr().out
    run("check")
    assert capsys.readouterr().out == "31 part files read, 0 problems\n"


def test_imported(bench: Path, capsys: Capture) -> None:
    Path("fuses.csv").write_text("id,rating [A]\nf-15,15\nf-20,20\n", encoding="utf-8")
    run("import", "fuses.csv", "--kind", "fuse", "--shelf", "drawer", "--json")
    assert answer(capsys) == {"written": ["drawer/fuse/f-15.toml", "drawer/fuse/f-20.toml"]}
    run("import", "fuses.csv", "--kind", "fuse", "--shelf", "drawer", exits=2)
    assert "line 2: there is a fuse called 'f-15' already" in capsys.readouterr().err
    run("import", "fuses.csv", "--kind", "fuse", "--shelf", "drawer", "--replace")


def test_the_shelf_of_the_folder_counts(bench: Path, capsys: Capture) -> None:
    run("add", "motor", "here", "--shelf", "shelf")
    capsys.readouterr()
    run("list", "--kind", "motor")
    assert "beside the mule" in capsys.readouterr().out


def test_findings_exit_with_1(bench: Path, capsys: Capture) -> None:
    broken = bench / "mine" / "motor" / "m.toml"
    broken.parent.mkdir(parents=True)
    broken.write_text('mass = "1 V"', encoding="utf-8")
    run("check", exits=1)
    captured = capsys.readouterr()
    assert captured.out == "31 part files read, 1 problems\n"
    assert "m.toml, mass: not a mass" in captured.err
    run("check", "--json", exits=1)
    assert answer(capsys)["problems"][0]["nearest"] == ["1 kg"]
    run("list", exits=1)
    run("list", "--json", exits=1)


def test_what_is_not_there_exits_with_2(capsys: Capture) -> None:
    run("show", "gm-drvie", exits=2)
    assert "Closest: gm-drive" in capsys.readouterr().err
    run("show", "gm-drvie", "--json", exits=2)
    assert "gm-drive" in answer(capsys)["error"]["nearest"]


@pytest.mark.parametrize("command", app.registered_commands, ids=lambda command: command.name)
def test_every_command_ends_with_an_example_that_works(command: CommandInfo, capsys: Capture) -> None:
    Path("motors.csv").write_text("id,free_speed [rpm]\nm-1,100\n", encoding="utf-8")
    program, _, *words = shlex.split((command.epilog or "").removeprefix("Example: "))
    assert program == "mulewright"
    run(*words)
    capsys.readouterr()
    run(words[0], "--help")
    out = capsys.readouterr().out
    assert "Example: mulewright shelf" in out
    assert "--json" in out
