"""How does the list of checks read? One line each, grouped by family, with what one sees where that was asked."""

from __future__ import annotations

from itertools import groupby

from mulewright.checks import FAMILIES
from mulewright.cli.console import console, paragraph
from mulewright.tasks.catalogue import Catalogue


def print_checks(found: Catalogue, *, seen: bool = False) -> None:
    """Print the checks; with what one sees of each at the bench, if asked."""
    out = console()
    widest = max(len(rule.name) for rule in found.checks)
    for letter, rules in groupby(found.checks, key=lambda rule: rule.id[0]):
        paragraph(out, f"{letter}  {FAMILIES[letter]}", style="bold")
        for rule in rules:
            paragraph(out, f"{rule.id}  {rule.name:<{widest}}  {rule.severity.name:<5}  {rule.status}", 2)
            if seen:
                paragraph(out, rule.seen, 7)
