"""The command `print`: its options, and what it says of the files that it wrote."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from mulewright.cli.options import File, Json, Set, Variant
from mulewright.cli.plain import print_json, say
from mulewright.paper.blocks import PAPERS

EXAMPLE = "Example: mulewright print mule.toml --what plugs,labels -o papers.pdf"


def print_(
    file: File,
    as_json: Json = False,
    what: Annotated[
        list[str] | None,
        typer.Option(metavar="PAPER,...", help=f"Only these: {', '.join(PAPERS)}"),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option(
            "-o",
            "--out",
            metavar="OUT.pdf|svg|png|csv|xlsx",
            help="The file to write: all papers as PDF, one as pictures, the list of parts as a sheet; "
            "by default a PDF beside the mule file",
        ),
    ] = None,
    page: Annotated[str | None, typer.Option(metavar="a4|letter", help="Size of the pages")] = None,
    tape: Annotated[
        str | None, typer.Option(metavar="WIDTH", help="Height of label strips, as '12 mm'")
    ] = None,
    settings: Set = None,
    variant: Variant = None,
) -> None:
    """Print papers for the bench: plug map, wiring picture, labels, radio settings, checklists and more."""
    from mulewright.tasks.printing import print_papers, tape_said

    sizes = {"print.page": page, "print.tape": tape_said(tape) if tape is not None else None}
    laid_over = [*(settings or ()), *(f"{path}={said}" for path, said in sizes.items() if said is not None)]
    write = out is not None or not as_json
    printed = print_papers(file, what or (), laid_over, variant, out=out, day=date.today(), write=write)
    if as_json:
        print_json(printed.as_dict())
    else:
        for path in printed.files:
            say(f"Wrote {path}: {', '.join(paper.title for paper in printed.papers)}")
