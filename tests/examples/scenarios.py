"""What each shipped mule must say: exactly these checks trip, these pass although they are close.

``named`` are the findings for which the mule was made. ``besides`` are those that the catalogue's thresholds give on
the mule as it is described, each with a word of reason; anything else is a false alarm.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True)
class Scenario:
    """One shipped mule, or one variant of it."""

    design: str
    named: frozenset[str]
    besides: Mapping[str, str] = field(default_factory=dict)
    unknown: frozenset[str] = frozenset()
    quiet: frozenset[str] = frozenset()
    variant: str | None = None

    @property
    def title(self) -> str:
        """For test ids."""
        return f"{self.design}-{self.variant}" if self.variant else self.design


def ids(text: str) -> frozenset[str]:
    """Several ids from one line."""
    return frozenset(text.split())


ALL_MOTORS_SLIP_FIRST = "light carts never see a stall: the wheels slip below the controllers' peak"
BARE_PUMP = "the pump has no gearbox, and torque and current of its sheet do not fit each other"
FRESH_FLICK = "straight off the charger and without sag, a flick into reverse would draw 16.8 A"
SCENARIOS = (
    Scenario(
        "tray-cart",
        named=ids("S23 M04"),
        besides={"M11": FRESH_FLICK},
        unknown=ids("R16 M37"),
        quiet=ids("S01 P02 P21 P24 X01 R01"),
    ),
    Scenario(
        "aisle-carrier",
        named=ids("S11 S03 P02 P03 P05 P06 P07 R03 R02 R05 M07 M25 X07 M06 M10 S01 S16 S17 S23"),
        besides={
            "M04": ALL_MOTORS_SLIP_FIRST,
            "M00": BARE_PUMP,
            "X10": "the drive holds its last command, so the way after a lost link has no end",
        },
        unknown=ids("M37"),
        quiet=ids("M05 S13 P24 P21 S06 S44 S45"),
    ),
    Scenario(
        "aisle-carrier",
        variant="as-found",
        named=ids("S11 S03 P02 P03 P05 P06 P07 R03 R02 R05 M07 M25 X07 M06 M10 S01 S16 S17 S23 S06 S44 S45"),
        besides={"M00": BARE_PUMP, "M04": ALL_MOTORS_SLIP_FIRST, "X10": "as without the pushes"},
        unknown=ids("M37"),
    ),
    Scenario(
        "hose-tug",
        named=ids("S20 P16 P15 P02 S30 S01 P31 S45 S06"),
        besides={
            "M04": ALL_MOTORS_SLIP_FIRST,
            "P07": "two linear regulators share the rail, so the label currents do not add up",
        },
        unknown=ids("M37"),
    ),
)
