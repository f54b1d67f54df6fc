"""The command `why`: its options, and the questions that it asks."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated

import typer

from mulewright.cli.options import File, Json, Set, Variant
from mulewright.cli.plain import print_json

EXAMPLE = "Example: mulewright why mule.toml 'arm sinks'"


def why(
    file: File,
    symptom: Annotated[
        list[str], typer.Argument(metavar="SYMPTOM", help="What one sees, in a few words: 'arm sinks'")
    ],
    as_json: Json = False,
    answers: Annotated[
        str | None,
        typer.Option(metavar="y,n,?", help="Answers to the tests, in their order, instead of being asked"),
    ] = None,
    trail: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Append what was asked and answered to a file")
    ] = None,
    settings: Set = None,
    variant: Variant = None,
) -> None:
    """Look for the cause of what one sees at the bench, test by test."""
    from mulewright.cli.why_text import converse, print_inquiry
    from mulewright.tasks.asking import keep_trail
    from mulewright.tasks.asking import why as ask

    inquiry = ask(file, " ".join(symptom), answers or "", settings or (), variant)
    if as_json:
        print_json(inquiry.as_dict())
    elif answers is None and sys.stdin.isatty():
        inquiry = converse(inquiry)
    else:
        print_inquiry(inquiry)
    if trail is not None:
        keep_trail(inquiry, trail)
