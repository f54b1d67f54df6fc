"""The command `fix` with its options."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

import typer

from mulewright.cli.options import File, Json, Level, Set, Variant
from mulewright.cli.plain import print_json
from mulewright.cli.progress import bars

EXAMPLE = "Example: mulewright fix mule.toml --allow settings,wiring"


class Take(StrEnum):
    """Which of the two sets."""

    CHEAPEST = "cheapest"
    CLEANEST = "cleanest"


def fix(
    file: File,
    as_json: Json = False,
    level: Annotated[Level, typer.Option(help="Clear what trips at this severity or above")] = Level.WARN,
    allow: Annotated[
        list[str] | None,
        typer.Option(
            metavar="KIND,...",
            help="Only these kinds of change: records, settings, wiring, parts, mechanics, task, waivers",
        ),
    ] = None,
    apply: Annotated[
        bool, typer.Option("--apply", help="Write the set into the file; records and waivers are left to you")
    ] = False,
    take: Annotated[Take, typer.Option(help="Which set --apply writes")] = Take.CHEAPEST,
    sets: Annotated[
        int,
        typer.Option(min=1, max=1_000_000, help="Most sets of changes that are tried out before it stops"),
    ] = 600,
    seconds: Annotated[
        float, typer.Option(min=0.1, max=86_400, help="Most seconds of computing before it stops")
    ] = 20.0,
    settings: Set = None,
    variant: Variant = None,
) -> None:
    """Find the cheapest and the cleanest set of changes that clears what trips; Ctrl-C ends it with the best so far."""
    from mulewright.checks.engine import Severity
    from mulewright.cli.fix_text import print_fix, print_written
    from mulewright.tasks import fixing

    with bars() as tell:
        report = fixing.fix_file(
            file,
            settings or (),
            variant,
            level=Severity[level.name],
            allow=allow or (),
            sets=sets,
            seconds=seconds,
            tell=tell,
        )
    cure = report.cheapest if take is Take.CHEAPEST else report.cleanest
    written = fixing.apply(report, cure, laid_over=bool(settings or variant)) if apply else None
    if as_json:
        print_json(report.as_dict() | ({"written": [one.number for one in written[0]]} if written else {}))
    else:
        print_fix(report)
        if written:
            print_written(report, take.value, *written)
