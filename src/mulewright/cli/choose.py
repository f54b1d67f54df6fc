"""The command that chooses parts for a function, with its options."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from mulewright.cli.options import File, Json, Set, Variant
from mulewright.cli.plain import print_json
from mulewright.cli.progress import bars

EXAMPLE = "Example: mulewright choose mule.toml lift --drum '20..40 mm'"
Text = str | None


def choose(
    file: File,
    function: Annotated[str, typer.Argument(help="A function that motors serve, such as lift or drive")],
    as_json: Json = False,
    plot: Annotated[
        Path | None, typer.Option(metavar="OUT.svg|png", help="Also draw margin against speed into this file")
    ] = None,
    shelf: Annotated[
        list[Path] | None,
        typer.Option(metavar="DIR", help="Try the parts of this shelf, not those of all; may be repeated"),
    ] = None,
    ratio: Annotated[
        Text, typer.Option(metavar="A..B", help="Motor turns for one turn outside; by default 1..60")
    ] = None,
    stages: Annotated[int | None, typer.Option(help="Gear stages at most; by default 2")] = None,
    teeth: Annotated[
        Text, typer.Option(metavar="N,N,...", help="Toothed wheels at hand; by default the shelf's table")
    ] = None,
    size: Annotated[
        Text,
        typer.Option(
            "--size",
            "--drum",
            "--wheel",
            "--roller",
            metavar="A..B",
            help="Diameters of its drum, wheels or roller, a range or a list; by default the shelf's table",
        ),
    ] = None,
    step: Annotated[
        Text, typer.Option(metavar="LENGTH", help="From one diameter to the next; by default 5 or 10 mm")
    ] = None,
    wire: Annotated[
        Text, typer.Option(metavar="G,G,...", help="Gauges of wire at hand; by default the shelf's table")
    ] = None,
    margin: Annotated[
        float | None, typer.Option(help="Least margin; by default that at which the checks are quiet")
    ] = None,
    speed: Annotated[
        Text, typer.Option(metavar="A..B", help="Speeds that serve; by default from the task in the file")
    ] = None,
    keep: Annotated[
        list[str] | None,
        typer.Option(
            metavar="SLOT",
            help="Leave as it is: motor, ratio, size, controller, battery or wire; may be repeated",
        ),
    ] = None,
    alike: Annotated[
        Text,
        typer.Option(
            metavar="SHARE", help="Show one of those that differ by less in every way; by default 20 %"
        ),
    ] = None,
    settings: Set = None,
    variant: Variant = None,
) -> None:
    """Choose motor, ratio, size, controller, battery and wire for a function from the shelf."""
    from mulewright.tasks.choice_request import Request
    from mulewright.tasks.choosing import choose as choose_parts

    request = Request(
        ratio, stages, teeth, size, step, wire, margin, speed, tuple(keep or ()), tuple(shelf or ()), alike
    )
    with bars() as tell:
        found = choose_parts(file, function, request, settings or (), variant, tell)
    if plot is not None:
        from mulewright.tasks.choice_picture import draw

        draw(found, plot)
    if as_json:
        print_json(found.as_dict())
    else:
        from mulewright.cli.choose_text import print_choice

        print_choice(found, plot)
    raise typer.Exit(0 if found.verdicts.best else 1)
