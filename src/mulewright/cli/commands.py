"""Every command with its options; what each prints lies in a module of its own."""

from __future__ import annotations

import shlex
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from mulewright import __version__
from mulewright.cli import choose, compare, decode, fix, layout, measure, power_up, shelf, snapshot, why
from mulewright.cli import print as printing
from mulewright.cli.options import File, Json, Level, Set, Variant
from mulewright.cli.plain import print_json, say

if TYPE_CHECKING:
    from mulewright.tasks.sheets import Sheets

app = typer.Typer(
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    help="From one description of a rough, driveable stand-in to honest verdicts about it",
)
app.add_typer(shelf.app, name="shelf")


class Side(StrEnum):
    """A side of the mule."""

    LEFT = "left"
    RIGHT = "right"


Target = Annotated[
    Path | None,
    typer.Option(metavar="FILE", help="Beside it, the mule file of the machine that it stands for"),
]
TargetVariant = Annotated[str | None, typer.Option(help="Lay one of the target's variants over it")]


def _version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"mulewright {__version__}")
        raise typer.Exit


@app.callback()
def _all(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version and stop")
    ] = False,
    debug: Annotated[
        bool, typer.Option("--debug", help="Show where in the program an error was raised")
    ] = False,
) -> None:
    pass


@app.command(epilog="Example: mulewright check mule.toml --set 'fuse.main.rating=15 A'")
def check(
    file: File,
    as_json: Json = False,
    fail_on: Annotated[
        Level, typer.Option(help="Exit with 1 if something trips at this severity or above")
    ] = Level.STOP,
    fail_on_unknown: Annotated[
        Level | None,
        typer.Option(help="Exit with 1 also if a check of this severity or above cannot be told"),
    ] = None,
    only: Annotated[
        list[str] | None,
        typer.Option(metavar="ID,...", help="Only these checks, or families by their letter"),
    ] = None,
    settings: Set = None,
    variant: Variant = None,
    target: Target = None,
    target_variant: TargetVariant = None,
    all_: Annotated[
        bool, typer.Option("--all", help="Also list what passes and what does not apply")
    ] = False,
) -> None:
    """Check a mule: what trips, what passes, what cannot be told."""
    from mulewright.checks.engine import Severity
    from mulewright.tasks.checking import check_file
    from mulewright.tasks.opening import TargetFile

    report = check_file(file, settings or (), variant, only or (), TargetFile(target, target_variant))
    if as_json:
        print_json(report.as_dict())
    else:
        from mulewright.cli.check_text import print_report

        print_report(report, everything=all_)
    unknown = Severity[fail_on_unknown.name] if fail_on_unknown is not None else None
    raise typer.Exit(1 if report.fails(Severity[fail_on.name], unknown) else 0)


@app.command(epilog="Example: mulewright checks --seen buzz")
def checks(
    as_json: Json = False,
    seen: Annotated[
        str | None, typer.Option(metavar="WORDS", help="Only those that are looked up by these words")
    ] = None,
) -> None:
    """List the checks, all or those that what one sees at the bench may come from."""
    from mulewright.tasks.catalogue import list_checks

    found = list_checks(seen)
    if as_json:
        print_json(found.as_dict())
    else:
        from mulewright.cli.checks_text import print_checks

        print_checks(found, seen=seen is not None)


@app.command(epilog="Example: mulewright explain mule.toml mechanism.lift.margin")
def explain(
    file: Annotated[
        str, typer.Argument(metavar="FILE|CHECK", help="A mule file, or the id of a check such as S01")
    ],
    name: Annotated[
        str | None, typer.Argument(help="The fact to open, as `mulewright facts` lists it")
    ] = None,
    as_json: Json = False,
    settings: Set = None,
    variant: Variant = None,
    target: Target = None,
    target_variant: TargetVariant = None,
) -> None:
    """Open a number down to what was typed, or print the page of a check."""
    from mulewright.cli.explain_text import print_check, print_fact
    from mulewright.tasks.explaining import explain_any
    from mulewright.tasks.opening import TargetFile

    found = explain_any(file, name, settings or (), variant, TargetFile(target, target_variant))
    if as_json:
        print_json(found.as_dict())
    elif found.fact is not None:
        print_fact(found.fact)
    else:
        print_check(found.page)


@app.command(epilog="Example: mulewright facts mule.toml --json")
def facts(
    file: File,
    as_json: Json = False,
    settings: Set = None,
    variant: Variant = None,
    target: Target = None,
    target_variant: TargetVariant = None,
) -> None:
    """List every quantity that is computed about a mule."""
    from mulewright.tasks.listing import list_facts
    from mulewright.tasks.opening import TargetFile

    found = list_facts(file, settings or (), variant, TargetFile(target, target_variant))
    if as_json:
        print_json(found.as_dict())
    else:
        from mulewright.cli.facts_text import print_facts

        print_facts(found)


@app.command(epilog="Example: mulewright chain mule.toml lift")
def chain(
    file: File,
    function: Annotated[str, typer.Argument(help="A function, such as lift, gripper, drive or drive-left")],
    as_json: Json = False,
    settings: Set = None,
    variant: Variant = None,
) -> None:
    """List what lies between battery and load of a function, and the load at which each link gives."""
    from mulewright.tasks.chains import chain_of_function

    found = chain_of_function(file, function, settings or (), variant)
    if as_json:
        print_json(found.as_dict())
    else:
        from mulewright.cli.chain_text import print_chains

        print_chains(found)


@app.command(epilog="Example: mulewright envelope mule.toml lift")
def envelope(
    file: File,
    function: Annotated[str, typer.Argument(help="An arm or a lift")],
    as_json: Json = False,
    settings: Set = None,
    variant: Variant = None,
) -> None:
    """Show how fast it may drive and how hard it may stop with an arm at each angle, or a lift at each height."""
    from mulewright.tasks.envelope import envelope as work_out

    _print_tables(work_out(file, function, settings or (), variant), as_json=as_json)


@app.command(epilog="Example: mulewright matrix mule.toml")
def matrix(
    file: File,
    as_json: Json = False,
    lost_link: Annotated[
        bool, typer.Option("--lost-link", help="Show instead what each output does when the link is lost")
    ] = False,
    settings: Set = None,
    variant: Variant = None,
) -> None:
    """Show for each switch of the radio which functions it slows or changes, and which it does not."""
    from mulewright.tasks.matrix import lost_link_matrix, switch_matrix

    found = (lost_link_matrix if lost_link else switch_matrix)(file, settings or (), variant)
    _print_tables(found, as_json=as_json)


@app.command(epilog="Example: mulewright endpoints mule.toml tilt")
def endpoints(
    file: File,
    function: Annotated[str, typer.Argument(help="A function that a servo serves, such as tilt")],
    as_json: Json = False,
    settings: Set = None,
    variant: Variant = None,
) -> None:
    """Turn the angles that a linkage needs and bears into pulses, and into endpoints to set."""
    from mulewright.tasks.endpoints import endpoints as work_out

    _print_tables(work_out(file, function, settings or (), variant), as_json=as_json)


@app.command(epilog="Example: mulewright offset mule.toml --distance '3 m' --sideways '0.39 m' --to left")
def offset(
    file: File,
    distance: Annotated[str, typer.Option(help="Length of the run that was meant to be straight, as 3 m")],
    sideways: Annotated[str, typer.Option(help="How far aside it ended, by the tape measure, as 0.39 m")],
    to: Annotated[
        Side | None, typer.Option(help="The side to which it drifted; left out, both are shown")
    ] = None,
    as_json: Json = False,
    settings: Set = None,
    variant: Variant = None,
) -> None:
    """Turn a tape-measure offset into the endpoint that makes it drive straight."""
    from mulewright.tasks.offset import straighten

    side = to.value if to is not None else None
    _print_tables(straighten(file, distance, sideways, side, settings or (), variant), as_json=as_json)


@app.command(epilog="Example: mulewright mixing mule.toml")
def mixing(file: File, as_json: Json = False, settings: Set = None, variant: Variant = None) -> None:
    """Compare mixing in the radio, in a box and in the controllers for this mule."""
    from mulewright.tasks.mixing import compare_mixing

    _print_tables(compare_mixing(file, settings or (), variant), as_json=as_json)


def _print_tables(found: Sheets, *, as_json: bool) -> None:
    if as_json:
        print_json(found.as_dict())
    else:
        from mulewright.cli.sheet_text import print_sheets

        print_sheets(found)


@app.command(epilog="Example: mulewright demo")
def demo() -> None:
    """Check a shipped mule and explain its three worst findings."""
    from mulewright.cli.demo_text import print_demo
    from mulewright.tasks.demo import demonstrate

    print_demo(demonstrate())


@app.command(epilog="Example: mulewright schema > mule.schema.json")
def schema() -> None:
    """Print the JSON schema of the mule file, for editors."""
    from mulewright.tasks.files import json_schema

    print_json(json_schema())


@app.command(epilog="Example: mulewright new mule.toml --drive two-sides")
def new(
    file: Annotated[
        Path, typer.Argument(help="The file to begin; one that exists is never overwritten")
    ] = Path("mule.toml"),
    drive: Annotated[
        str, typer.Option(help="Kind of drive: two-sides, two-sticks, four-roller-wheels or skid-steer")
    ] = "two-sides",
) -> None:
    """Begin a mule file for a kind of drive, with comments."""
    from mulewright.tasks.files import new_file

    written = new_file(drive, file)
    say(f"Wrote {written}. Edit it, then: mulewright check {shlex.quote(str(written))}")


app.command(epilog=measure.EXAMPLE)(measure.measure)
app.command(epilog=compare.EXAMPLE)(compare.compare)
app.command(epilog=snapshot.EXAMPLE)(snapshot.snapshot)
app.command(epilog=snapshot.LOG_EXAMPLE)(snapshot.log)
app.command(epilog=decode.EXAMPLE)(decode.decode)
app.command(epilog=choose.EXAMPLE)(choose.choose)
app.command(epilog=layout.EXAMPLE)(layout.layout)
app.command(epilog=fix.EXAMPLE)(fix.fix)
app.command(epilog=why.EXAMPLE)(why.why)
app.command("print", epilog=printing.EXAMPLE)(printing.print_)
app.command("power-up", epilog=power_up.EXAMPLE)(power_up.power_up)
