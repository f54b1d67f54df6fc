"""Do the commands on a page do what the page shows? Each block is run in a folder of its own page.

In a ``console`` block, lines that begin with ``$ mulewright`` are run, and the lines below must be
what is printed. A line of three dots stands for any lines, three dots within a line for any text.
``$ echo $?`` shows the exit code of the command before. A ``toml`` block that is named after a file
is written there, or laid over the file that is there.
"""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
import tomlkit

from mulewright.cli import main

PROGRAM = "mulewright"
BLOCK = re.compile(r"^```(console|toml) ?(\S*)\n(.*?)^```$", re.M | re.S)
COMMAND = re.compile(r"^\$ (.*)\n((?:(?!\$ ).*\n)*)", re.M)
OMITTED = "..."
ASK_CODE = "echo $?"


@dataclass(frozen=True)
class Step:
    """One thing that a page does: a command with what it shows, or values for a file."""

    command: str = ""
    shows: str = ""
    file: str = ""
    values: str = ""


def steps(page: str) -> Iterator[Step]:
    """Everything that a page does, from top to bottom."""
    for language, name, body in BLOCK.findall(page):
        if language == "toml" and name:
            yield Step(file=name, values=body)
        if language == "console":
            for command, shows in COMMAND.findall(body):
                yield Step(command, shows)


def pattern(shows: str) -> re.Pattern[str]:
    """Return what the output has to match: the lines shown, with gaps where dots stand."""
    lines = [
        r"(?:.*\n)*?" if line == OMITTED else re.escape(line).replace(re.escape(OMITTED), ".*") + r"\n"
        for line in shows.splitlines()
    ]
    return re.compile("".join(lines))


def run(command: str, capsys: pytest.CaptureFixture[str]) -> tuple[int, str]:
    """Run one command in this process; give back its exit code and all that it printed."""
    words = shlex.split(command)
    target = Path(words[words.index(">") + 1]) if ">" in words else None
    arguments = words[1 : words.index(">")] if target else words[1:]
    with pytest.raises(SystemExit) as left:
        main(arguments)
    printed = capsys.readouterr()
    if target:
        target.write_text(printed.out, encoding="utf-8")
    code = left.value.code
    assert isinstance(code, int | None)
    return code or 0, ("" if target else printed.out) + printed.err


def lay_over(path: Path, values: str) -> None:
    """Write values into a TOML file, beginning it where there is none."""
    document = tomlkit.parse(path.read_text(encoding="utf-8")) if path.exists() else tomlkit.document()
    _merge(document, tomlkit.parse(values))
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(tomlkit.dumps(document), encoding="utf-8")


def _merge(into: tomlkit.TOMLDocument | dict[str, object], values: dict[str, object]) -> None:
    for key, value in values.items():
        inside = into.get(key)
        if isinstance(value, dict) and isinstance(inside, dict):
            _merge(inside, value)
        else:
            into[key] = value


def follow(page: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Do everything that a page does, in the current folder, and compare with what it shows."""
    code, todo = 0, [*steps(page)]
    for step, following in zip(todo, [*todo[1:], Step()], strict=True):
        if step.file:
            lay_over(Path(step.file), step.values)
        elif step.command == ASK_CODE:
            assert step.shows.strip() == str(code), f"exit code is {code}, the page says {step.shows}"
        elif step.command.startswith(f"{PROGRAM} "):
            code, printed = run(step.command, capsys)
            text = "".join(f"{line.rstrip()}\n" for line in printed.splitlines())
            assert code < 2 or following.command == ASK_CODE, f"$ {step.command}\n{text}"
            shown = not step.shows or pattern(step.shows).fullmatch(text)
            assert shown, f"$ {step.command}\n{text}\nbut the page shows\n{step.shows}"
