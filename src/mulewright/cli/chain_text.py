"""How does a chain of limits read? A line for each link, the weakest first, where the load leads."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from rich.console import Console

from mulewright.cli.console import console, paragraph, print_table
from mulewright.cli.names import together
from mulewright.tasks.chains import Chain, ChainReport, Link, Load
from mulewright.units.shown import people

HEADINGS = ("link", "gives at", "over work", "how", "rests on")


def print_chains(report: ChainReport) -> None:
    """Print the chains that were asked for."""
    out = console()
    for place, chain in enumerate(report.chains):
        if place:
            out.print()
        paragraph(out, f"{chain.function}: {chain.measure}", style="bold")
        for sentence in _sentences(chain):
            paragraph(out, sentence, 2)
        print_table(out, HEADINGS, _rows(chain.known))
        for same in _alike(chain.unknown):
            needs = ", ".join(same[0].gives_at.needs)
            paragraph(out, f"cannot tell: {_named(same)} {same[0].fails}; needs {needs}", 2)


def print_first(out: Console, chains: Sequence[Chain]) -> None:
    """Print one paragraph for each function: what gives first."""
    out.print()
    paragraph(out, "WHAT GIVES FIRST: mulewright chain FILE FUNCTION lists every link", style="bold")
    for chain in chains:
        paragraph(out, f"{chain.function}: {' '.join(_sentences(chain))}", 2)


def _sentences(chain: Chain) -> Iterator[str]:
    """Say what gives first in one function, and what it has to bear."""
    first, lasting = chain.first, chain.first_in_time
    if first is not None:
        yield f"{_named([first])} {first.fails} at {_shown(first.gives_at)}."
    if lasting is not None:
        yield f"If the load lasts, {_named([lasting])} {lasting.fails} from {_shown(lasting.gives_at)}."
    yield f"At work {_shown(chain.at_work)}; held fast {_shown(chain.stalls_at)}."
    if chain.unknown:
        yield f"{len(chain.unknown)} of {len(chain.links)} links could not be told."


def _rows(links: Sequence[Link]) -> Iterator[tuple[str, ...]]:
    """One row for each link; links of the same kind that give at the same load share one."""
    for same in _alike(links):
        link = same[0]
        margin = people(link.margin, "1") if link.margin is not None else ""
        fails = f"{link.fails} in time" if link.lasting else link.fails
        yield _named(same), _shown(link.gives_at), margin, fails, link.gives_at.origin


def _alike(links: Sequence[Link]) -> list[list[Link]]:
    """Gather links of one kind that give at the same load, or lack the same."""
    found: dict[tuple[object, ...], list[Link]] = {}
    for link in links:
        kind = link.thing.split(".", 1)[0]
        found.setdefault((link.gives_at.value, link.gives_at.needs, link.what, kind), []).append(link)
    return list(found.values())


def _named(links: Sequence[Link]) -> str:
    """The things of equal links with what about them gives."""
    return f"{together(list(dict.fromkeys(link.thing for link in links)))} ({links[0].what})"


def _shown(load: Load) -> str:
    if load.value is None:
        return f"cannot tell (needs {', '.join(load.needs)})"
    return people(load.value, load.unit)
