"""How does one see and fill the shelf from the command line?"""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any

import typer

from mulewright.cli.console import console, print_table
from mulewright.cli.plain import print_json, say

app = typer.Typer(rich_markup_mode=None, help="Parts: list, look at, add, import a sheet, check")

Kind = Annotated[str | None, typer.Option(help="Only this kind of part; all kinds if left out")]
Shelf = Annotated[Path | None, typer.Option(help="Shelf to read in place of your own")]
Into = Annotated[Path | None, typer.Option("--shelf", help="Shelf to write into in place of your own")]
Replace = Annotated[bool, typer.Option("--replace", help="Overwrite parts that exist already; else refuse")]
Json = Annotated[bool, typer.Option("--json", help="Print JSON for programs in place of text")]


@app.command("list", epilog="Example: mulewright shelf list --kind motor")
def list_(kind: Kind = None, shelf: Shelf = None, as_json: Json = False) -> None:
    """List the parts that a mule file can name."""
    from mulewright.tasks import shelf as tasks

    found = tasks.list_parts(kind, shelf, Path.cwd())
    if as_json:
        print_json(found)
    else:
        print_table(
            console(),
            ("kind", "id", "title", "from"),
            [(part.kind, part.id, part.title, part.place) for part in found.parts],
        )
        _print_problems(found.problems)
    raise typer.Exit(1 if found.problems else 0)


@app.command(epilog="Example: mulewright shelf show gm-drive")
def show(id: str, kind: Kind = None, shelf: Shelf = None, as_json: Json = False) -> None:
    """Show every value of a part and where it comes from."""
    from mulewright.tasks import shelf as tasks

    part = tasks.show_part(id, kind, shelf, Path.cwd())
    if as_json:
        print_json(part)
        return
    say(f"{part.id}: {part.title}" if part.title else part.id)
    say(f"{part.kind}, {part.place}: {part.path}")
    if part.source:
        say(f"Values are {part.source}, where nothing else is said.")
    print_table(
        console(),
        ("key", "value", "meaning"),
        [
            (
                value.key,
                value.text,
                value.meaning,
                value.source if value.source not in ("", part.source) else "",
            )
            for value in part.values
        ],
    )


@app.command(epilog="Example: mulewright shelf add motor gm-mine free_speed='180 rpm' from=measured")
def add(
    kind: Annotated[str, typer.Argument(help="Kind of part")],
    id: Annotated[str, typer.Argument(help="What a mule file will call it")],
    values: Annotated[list[str] | None, typer.Argument(help="KEY=VALUE, as many as are known")] = None,
    shelf: Into = None,
    replace: Replace = False,
    as_json: Json = False,
) -> None:
    """Write one part onto your shelf."""
    from mulewright.tasks import shelf as tasks

    _print_written([tasks.add_part(kind, id, values or [], shelf, replace)], as_json)


@app.command("import", epilog="Example: mulewright shelf import motors.csv --kind motor")
def import_(
    path: Annotated[Path, typer.Argument(help="CSV or XLSX file with one part in each line")],
    kind: Annotated[str | None, typer.Option(help="Kind of all its parts; else its column kind says")] = None,
    sheet: Annotated[str | None, typer.Option(help="Sheet of an XLSX file that has several")] = None,
    shelf: Into = None,
    replace: Replace = False,
    as_json: Json = False,
) -> None:
    """Write every line of a sheet onto your shelf, or nothing if one is wrong."""
    from mulewright.tasks import shelf as tasks

    _print_written(list(tasks.import_parts(path, kind, shelf, replace, sheet)), as_json)


@app.command(epilog="Example: mulewright shelf check")
def check(kind: Kind = None, shelf: Shelf = None, as_json: Json = False) -> None:
    """Read every part file and say what is wrong."""
    from mulewright.tasks import shelf as tasks

    report = tasks.check_shelf(kind, shelf, Path.cwd())
    if as_json:
        print_json(report)
    else:
        _print_problems(report.problems)
        say(f"{report.files} part files read, {len(report.problems)} problems")
    raise typer.Exit(1 if report.problems else 0)


def _print_written(paths: list[Path], as_json: bool) -> None:
    if as_json:
        print_json({"written": paths})
        return
    for path in paths:
        say(f"wrote {path}")


def _print_problems(problems: Any) -> None:
    for problem in problems:
        typer.echo(str(problem), err=True)
