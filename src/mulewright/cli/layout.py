"""The command `layout`: its options, and what it prints."""

from __future__ import annotations

from typing import Annotated

import typer

from mulewright.cli.options import File, Json, Set, Variant
from mulewright.cli.plain import print_json

EXAMPLE = "Example: mulewright layout mule.toml --apply"


def layout(
    file: File,
    as_json: Json = False,
    apply: Annotated[
        bool,
        typer.Option(
            "--apply", help="Write the best layout into the file; the file as it was is kept beside it"
        ),
    ] = False,
    settings: Set = None,
    variant: Variant = None,
) -> None:
    """Find the best control and channel for each function, with the price of each reason."""
    from mulewright.cli.progress import watched
    from mulewright.tasks.laying_out import lay_out_file

    with watched("Laying out the controls") as watch:
        report = lay_out_file(file, settings or (), variant, apply=apply, watch=watch)
    if as_json:
        print_json(report.as_dict())
    else:
        from mulewright.cli.layout_text import print_layout

        print_layout(report)
