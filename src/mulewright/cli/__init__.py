"""The command line: parse, call one task, print. No arithmetic."""

from __future__ import annotations

import atexit
import gc
import os
import sys
from typing import Any, NoReturn

from mulewright.errors import FileProblem, MulewrightError

PROGRAM = "mulewright"
FAILED, INTERRUPTED = 2, 130


def main(arguments: list[str] | None = None) -> NoReturn:
    """Run one command and exit: 0 nothing found, 1 findings at the asked level, 2 could not run."""
    words = sys.argv[1:] if arguments is None else arguments
    for stream in (sys.stdout, sys.stderr):
        reconfigure: Any = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")
    try:
        code = _run(words)
    except MulewrightError as problem:
        if "--debug" in words:
            raise
        _report(problem, as_json="--json" in words)
        code = FAILED
    except KeyboardInterrupt:
        code = INTERRUPTED
    sys.exit(code)


def _run(words: list[str]) -> int:
    """Run one command and return its exit code; what goes wrong on the way becomes a message."""
    gc.disable()  # a command ends before looking for cycles pays; it would cost a tenth of the start
    atexit.register(gc.freeze)  # and looking once more at the end a fifth
    import typer

    from mulewright.cli.commands import app

    try:
        code = app(words or ["--help"], prog_name=PROGRAM, standalone_mode=False)
        if sys.stdout is not None:
            sys.stdout.flush()  # a full disk is noticed here
    except typer.TyperException as usage:
        context = getattr(usage, "ctx", None)
        command = context.command_path if context is not None else PROGRAM
        rule = f"{command} --help says what it takes"
        raise MulewrightError(usage.format_message(), rule=rule) from usage
    except (SystemExit, BrokenPipeError):  # whoever read the output has gone away
        _let_go()
        return FAILED
    except OSError as no:
        if no.filename is None:
            _let_go()
        raise FileProblem(no.strerror or str(no), str(no.filename or "the output")) from no
    finally:
        gc.enable()
    return int(code or 0)


def _let_go() -> None:
    """Let standard output lead nowhere: what still waits to be written would fail again at exit."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _report(problem: MulewrightError, *, as_json: bool) -> None:
    if as_json:
        from mulewright.cli.plain import print_json

        print_json({"error": problem.as_dict()})
    if sys.stderr is not None:
        sys.stderr.write(f"{problem}\n")
