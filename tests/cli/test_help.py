"""Every command explains itself, and the example in its explanation runs."""

from __future__ import annotations

import shlex
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import typer.main

from mulewright.cli.commands import app
from tests.cli.conftest import Run, path_of

MOTORS = "id,free_speed,stall_torque,from\ngm-mine,180 rpm,2.1 N m,measured\n"


def commands() -> Iterator[tuple[str, ...]]:
    """Every command by its words."""
    waiting: list[tuple[tuple[str, ...], Any]] = [((), typer.main.get_command(app))]
    while waiting:
        words, command = waiting.pop()
        below = getattr(command, "commands", {})
        waiting += [((*words, name), one) for name, one in below.items()]
        if words and not below:
            yield words


COMMANDS = sorted(commands())


def test_the_commands_are_found() -> None:
    assert ("check",) in COMMANDS
    assert ("shelf", "import") in COMMANDS


@pytest.mark.parametrize("words", [(), ("shelf",), *COMMANDS], ids=" ".join)
def test_help_is_printed_and_fits(mulewright: Run, words: tuple[str, ...]) -> None:
    ran = mulewright(*words, "--help")
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.startswith(f"Usage: {' '.join(('mulewright', *words))} ")
    assert max(map(len, ran.out.splitlines())) <= 80


def test_nothing_asked_is_answered_with_help(mulewright: Run) -> None:
    assert mulewright().out == mulewright("--help").out


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_the_example_of_a_command_runs(
    mulewright: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...]
) -> None:
    monkeypatch.chdir(tmp_path)
    if words != ("new",):
        Path("mule.toml").write_bytes(path_of("aisle-carrier").read_bytes())
        Path("motors.csv").write_text(MOTORS)
    shown = " ".join(mulewright(*words, "--help").out.partition("Example: ")[2].split())
    typed, _, kept_in = shown.partition(" > ")
    program, *arguments = shlex.split(typed)
    assert (program, tuple(arguments[: len(words)])) == ("mulewright", words)
    assert kept_in in ("", "mule.schema.json")
    ran = mulewright(*arguments)
    assert ran.code in (0, 1), ran.err
    assert ran.out
    assert ran.err == ""
