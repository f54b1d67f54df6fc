"""The command ``compare`` with its options."""

from __future__ import annotations

from typing import Annotated

import typer

from mulewright.cli.options import Json
from mulewright.cli.plain import print_json

EXAMPLE = "Example: mulewright compare mule.toml mule.toml --set-b 'body.mass=12 kg'"

First = Annotated[
    str,
    typer.Argument(metavar="A", help="A mule file: the mule, or how it was; mule.toml@3 is its snapshot 3"),
]
Second = Annotated[
    str,
    typer.Argument(metavar="B", help="The file to hold against it: its target, how it is now, or A again"),
]
VariantA = Annotated[str | None, typer.Option("--variant-a", help="Lay one of its variants over A")]
VariantB = Annotated[str | None, typer.Option("--variant-b", help="Lay one of its variants over B")]
SetA = Annotated[
    list[str] | None,
    typer.Option("--set-a", metavar="PATH=VALUE", help="Try another value in A; may be repeated"),
]
SetB = Annotated[
    list[str] | None,
    typer.Option("--set-b", metavar="PATH=VALUE", help="Try another value in B; may be repeated"),
]


def compare(
    first: First,
    second: Second,
    as_json: Json = False,
    variant_a: VariantA = None,
    variant_b: VariantB = None,
    set_a: SetA = None,
    set_b: SetB = None,
) -> None:
    """List what differs between two mules, or two states of one: verdicts, inputs, facts, factors."""
    from mulewright.tasks.comparing import compare_files, state_of

    found = compare_files(state_of(first, set_a or (), variant_a), state_of(second, set_b or (), variant_b))
    if as_json:
        print_json(found.as_dict())
    else:
        from mulewright.cli.compare_text import print_comparison

        print_comparison(found)
