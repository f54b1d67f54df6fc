"""The command line: parse, call one task, print. No arithmetic."""

from __future__ import annotations

import json
import sys
from typing import Any

from mulewright.errors import MulewrightError

USAGE, INTERRUPTED = 2, 130


def main(arguments: list[str] | None = None) -> None:
    """Run one command and exit: 0 nothing found, 1 findings at the asked level, 2 could not run."""
    words = sys.argv[1:] if arguments is None else arguments
    for stream in (sys.stdout, sys.stderr):
        reconfigure: Any = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")
    try:
        from mulewright.cli.commands import app

        app(words)
    except MulewrightError as problem:
        if "--debug" in words:
            raise
        _report(problem, as_json="--json" in words)
        sys.exit(USAGE)
    except KeyboardInterrupt:
        sys.exit(INTERRUPTED)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(USAGE)


def _report(problem: MulewrightError, *, as_json: bool) -> None:
    if as_json:
        sys.stdout.write(json.dumps({"error": problem.as_dict()}, indent=2) + "\n")
    sys.stderr.write(f"{problem}\n")
