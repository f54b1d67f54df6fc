"""The commands ``snapshot`` and ``log`` with their options."""

from __future__ import annotations

from typing import Annotated

import typer

from mulewright.cli.options import File, Json
from mulewright.cli.plain import print_json, say

EXAMPLE = "Example: mulewright snapshot mule.toml -m 'stronger lift motor'"
LOG_EXAMPLE = "Example: mulewright log mule.toml --last 3"

Why = Annotated[str, typer.Option("-m", "--why", help="What was changed, and why, in a few words")]
Last = Annotated[int, typer.Option(metavar="N", help="How many snapshots to show, the newest first")]


def snapshot(file: File, why: Why, as_json: Json = False) -> None:
    """Keep a copy of a mule file and its parts, with day, reason and version, unless nothing changed."""
    from mulewright.tasks.snapshots import folder_of, keep

    kept = keep(file, why)
    if as_json:
        print_json(kept.as_dict())
    elif kept.new:
        say(f"Kept {file} as snapshot {kept.snapshot.number} in {folder_of(file)}.")
    else:
        say(f"Nothing changed since snapshot {kept.snapshot.number}; nothing is kept.")


def log(file: File, as_json: Json = False, last: Last = 10) -> None:
    """Show what changed from snapshot to snapshot, and which verdicts changed with it."""
    from mulewright.tasks.history import history

    found = history(file, last)
    if as_json:
        print_json(found.as_dict())
    else:
        from mulewright.cli.log_text import print_log

        print_log(found)
    raise typer.Exit(1 if found.problems else 0)
