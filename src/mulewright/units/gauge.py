"""How thick is a wire of a given gauge number? ASTM B258."""

from __future__ import annotations

import math

DIAMETER_36 = 0.127e-3  # [m] ASTM B258: No. 36 is 0.005 in
STEP: float = 92.0 ** (1 / 39)  # ASTM B258: 39 steps from No. 36 to No. 0000, which is 92 times as thick


def awg_to_area(gauge: float) -> float:
    """Cross-section [m2] of a solid round wire; 0000 is gauge -3."""
    diameter: float = DIAMETER_36 * STEP ** (36 - gauge)
    return math.pi / 4 * diameter * diameter
