"""How does one decode pushes from the command line: typed at once, or asked for one by one?"""

from __future__ import annotations

import sys
from enum import StrEnum
from typing import Annotated

import typer

from mulewright.cli.options import File, Json, Set, Variant
from mulewright.cli.plain import print_json

EXAMPLE = "Example: mulewright decode mule.toml --pushes 'FL:+++ FR:+-+ RL:+--'"


class Record(StrEnum):
    """A table of the mule file for pushes."""

    AS_FOUND = "as-found"
    AS_LEFT = "as-left"


Signs = typer.Option(metavar="SIGNS", help="Each wheel with a sign for each command, as 'FL:++- FR:+--'")


def decode(
    file: File,
    pushes: Annotated[str | None, Signs] = None,
    speeds: Annotated[
        str | None,
        typer.Option(
            metavar="SPEEDS",
            help="Instead, each wheel's speed with all controls pushed at once: 55 %, 25 %, 12 %; or 60 %, 30 %",
        ),
    ] = None,
    floor: Annotated[
        str | None,
        typer.Option(
            metavar="SIGNS", help="How the whole mule moved on each push: ahead, to the right, turned right"
        ),
    ] = None,
    tester: Annotated[
        str | None,
        typer.Option(
            metavar="SIGNS", help="What a tester showed in an input, at an output or in a wheel's lead"
        ),
    ] = None,
    moved: Annotated[
        bool, typer.Option("--moved", help="The plugs were moved as told: from here on only reversals")
    ] = False,
    ask: Annotated[
        bool, typer.Option("--ask", help="Ask for the pushes, even if some stand in the file")
    ] = False,
    soldered: Annotated[
        bool, typer.Option("--soldered", help="The motor leads are soldered, so that swapping costs more")
    ] = False,
    record: Annotated[
        Record | None, typer.Option(help="Write what was seen into the mule file; its last state is kept")
    ] = None,
    as_json: Json = False,
    settings: Set = None,
    variant: Variant = None,
) -> None:
    """Tell from the way each wheel turned on each push what is wrong with the wiring, and what puts it right."""
    from mulewright.cli.decode_text import ask_all, print_decoded
    from mulewright.errors import MulewrightError
    from mulewright.tasks.decoding import ASKED, Typed, begin
    from mulewright.tasks.decoding import record as write

    if record is not None and (settings or variant):
        raise MulewrightError(
            "a file is not written while something is laid over it",
            "--record",
            "leave --set and --variant out",
        )
    if speeds is not None and pushes is not None:
        raise MulewrightError("pushes and speeds are two ways to say the same", "--speeds", "one of both")
    found = begin(
        file, Typed(pushes, floor, tester, speeds, moved), settings or (), variant, ask=ask, soldered=soldered
    )
    if found.source == ASKED:
        ask_all(found, sys.stdin, sys.stderr if as_json else sys.stdout)
    answer = found.answer()
    if as_json:
        print_json(answer.as_dict())
    else:
        print_decoded(answer)
    if record is not None:
        written = write(file, answer, record.value)
        typer.echo(f"Wrote {record.value.replace('-', '_')} into {written}", err=as_json)
