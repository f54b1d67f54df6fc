"""What does each command say about itself? The text of ``--help``, command by command."""

from __future__ import annotations

from collections.abc import Iterator

import typer
from typer.testing import CliRunner

from mulewright.cli.commands import app

PROGRAM = "mulewright"


def commands() -> Iterator[tuple[str, ...]]:
    """Every command, a group before those in it; the program itself is the empty one."""
    yield from _below(typer.main.get_command(app), ())


def _below(command: object, words: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    yield words
    for name, inner in getattr(command, "commands", {}).items():
        yield from _below(inner, (*words, name))


def help_text(words: tuple[str, ...]) -> str:
    """Return what a command prints for ``--help``, in 80 columns."""
    result = CliRunner().invoke(
        app, [*words, "--help"], prog_name=PROGRAM, env={"COLUMNS": "80", "TERMINAL_WIDTH": "80"}
    )
    return result.output.strip()


def command_line() -> str:
    """Write one section for each command."""
    return "\n\n".join(
        f"## {' '.join((PROGRAM, *words))}\n\n```text\n{help_text(words)}\n```" for words in commands()
    )
