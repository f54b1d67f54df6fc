"""The command `measure`: its options, and what it prints."""

from __future__ import annotations

from typing import Annotated

import typer

from mulewright.cli.options import File, Json, Set, Variant
from mulewright.cli.plain import print_json

EXAMPLE = "Example: mulewright measure mule.toml --minutes 15 --with 'luggage scale,tape'"


def measure(
    file: File,
    as_json: Json = False,
    minutes: Annotated[
        float | None,
        typer.Option(help="The best set within so many minutes; without it, all that is worth it"),
    ] = None,
    instruments: Annotated[
        list[str] | None,
        typer.Option(
            "--with", metavar="INSTRUMENT,...", help="Only these, instead of the instruments in the file"
        ),
    ] = None,
    settings: Set = None,
    variant: Variant = None,
) -> None:
    """List what to measure next: which inputs settle most verdicts per minute."""
    from mulewright.tasks.measuring import measure_file

    found = measure_file(file, settings or (), variant, minutes, instruments)
    if as_json:
        print_json(found.as_dict())
    else:
        from mulewright.cli.measure_text import print_worksheet

        print_worksheet(found)
