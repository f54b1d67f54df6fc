"""Of how many wires is a servo lead, and how large is its plug?"""

from __future__ import annotations

from mulewright.design.harness import Kind
from mulewright.paper.wiring.scene import Look

STRAND = 1.15  # [mm] from one wire of a lead to the next
PLUG, PLUG_HALF = 2.6, 2.2  # [mm] of a servo plug: length, half its height
THICK_LEAD = 0.5  # [mm]
STRANDS: dict[Kind, tuple[tuple[Look, float], ...]] = {
    "servo lead": (("signal", -STRAND), ("red", 0.0), ("ground", STRAND)),
    "supply lead": (("red", 0.0), ("ground", STRAND)),
}
