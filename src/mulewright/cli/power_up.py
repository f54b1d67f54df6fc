"""The command `power-up`: its options, and whether it prints the plan or walks through it."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from mulewright.cli.options import File, Json, Set, Variant
from mulewright.cli.plain import print_json, say

EXAMPLE = "Example: mulewright power-up mule.toml --supply"


def power_up(
    file: File,
    tester: Annotated[
        bool, typer.Option("--tester", help="There is no radio today: what a servo tester alone can prove")
    ] = False,
    supply: Annotated[
        bool, typer.Option("--supply", help="A bench supply with a current limit is at hand")
    ] = False,
    ask: Annotated[
        bool, typer.Option("--ask", help="Walk through it step by step, and take what the meter shows")
    ] = False,
    trail: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Append what was entered to a file; with --ask")
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option("-o", "--out", metavar="OUT.pdf|svg|png", help="Put the plan on paper instead"),
    ] = None,
    as_json: Json = False,
    settings: Set = None,
    variant: Variant = None,
) -> None:
    """Plan the first power-up: each step with what the meter should show, and what to do if it does not.

    With --ask it ends with 1 where something was not as it should be.
    """
    from mulewright.cli.power_up_text import print_plan, print_walk, walk_through
    from mulewright.errors import MulewrightError
    from mulewright.tasks.powering_up import Walk, keep_walk, plan_power_up
    from mulewright.tasks.powering_up import print_plan as put_down

    if trail is not None and not ask:
        raise MulewrightError("nothing is entered without --ask", "--trail", "--ask --trail FILE")
    if out is not None and ask:
        raise MulewrightError("a plan is printed or walked through", "--out", "one of --out and --ask")
    found = plan_power_up(file, supply=supply, tester=tester, settings=settings or (), variant=variant)
    if not ask:
        written = put_down(found, out, date.today()) if out is not None else {}
        if as_json:
            print_json(found.as_dict())
        elif written:
            for path in written:
                say(f"Wrote {path}: First power-up")
        else:
            print_plan(found)
        return
    walk = walk_through(Walk(found), sys.stdin, sys.stderr if as_json else sys.stdout)
    if as_json:
        print_json(walk.as_dict())
    else:
        print_walk(walk)
    if trail is not None:
        keep_walk(walk, trail)
        typer.echo(f"Kept in {trail}", err=as_json)
    if walk.outside:
        raise typer.Exit(1)
