"""How many of the faults that are put into well-built designs does each check find? The figures that the tests keep."""

from __future__ import annotations

from docs._ext.markdown import table
from tests.quiet.record import recorded


def faults() -> str:
    """Write for each check how many faults were injected, found, and among the three worst findings."""
    kept = recorded()
    injected, found, worst = kept["total"]
    said = f"{injected} injections of {kept['faults']} faults into {kept['designs']} designs"
    share = f"**{found / injected:.1%} found, {worst / injected:.1%} among the three worst.**"
    rows = [(f"[{id}](#check-{id.lower()})", *map(str, counts)) for id, counts in kept["checks"].items()]
    return f"{said}: {share}\n\n" + table(("check", "injected", "found", "among the three worst"), rows)
