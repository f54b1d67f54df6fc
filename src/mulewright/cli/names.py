"""How do severities look, and how are several things named together?"""

from __future__ import annotations

from collections.abc import Sequence

from mulewright.checks.engine import Severity

STYLES = {Severity.BLOCK: "bold red", Severity.STOP: "red", Severity.WARN: "yellow", Severity.NOTE: "cyan"}


def together(entities: Sequence[str]) -> str:
    """Name several entities shortly: ``controller.{left, right}``."""
    if len(entities) == 1:
        return entities[0]
    kinds = {entity.split(".", 1)[0] for entity in entities}
    if len(kinds) == 1 and all("." in entity for entity in entities):
        return f"{kinds.pop()}: {', '.join(entity.split('.', 1)[1] for entity in entities)}"
    return ", ".join(entities)
