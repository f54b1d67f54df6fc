"""Options that several commands share: the file, JSON, settings, a variant."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

File = Annotated[Path, typer.Argument(help="The mule file, usually mule.toml")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON for programs instead of text for people")]
Set = Annotated[
    list[str] | None,
    typer.Option(
        "--set", metavar="PATH=VALUE", help="Try another value without touching the file; may be repeated"
    ),
]
Variant = Annotated[str | None, typer.Option(help="Lay one of the file's variants over it")]


class Level(StrEnum):
    """A severity."""

    BLOCK = "block"
    STOP = "stop"
    WARN = "warn"
    NOTE = "note"
