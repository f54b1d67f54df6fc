"""How does the list of facts read? One line each, grouped by entity."""

from __future__ import annotations

from itertools import groupby

from mulewright.cli.console import console, paragraph
from mulewright.facts.nodes import number
from mulewright.tasks.listing import FactList
from mulewright.units.shown import people


def print_facts(found: FactList) -> None:
    """Print every fact with its value and its origin."""
    out = console()
    for entity, nodes in groupby(
        sorted(found.facts, key=lambda node: node.entity), key=lambda node: node.entity
    ):
        paragraph(out, entity, style="bold")
        for node in nodes:
            value = number(node)
            shown = people(value, node.unit) if value is not None else "without bound"
            if node.id in found.intervals:
                low, high = (people(end, node.unit) for end in found.intervals[node.id])
                shown = f"{shown} ({low} to {high})"
            text = shown if node.known else f"unknown (needs {', '.join(sorted(node.gaps))})"
            paragraph(out, f"{node.name:<22} {text:<16} {node.origin.word}".rstrip(), 2)
