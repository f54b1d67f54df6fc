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
    clears: frozenset[str] = frozenset()  # what trips without the variant, and no longer with it

    @property
    def title(self) -> str:
        """For test ids."""
        return f"{self.design}-{self.variant}" if self.variant else self.design


def ids(text: str) -> frozenset[str]:
    """Several ids from one line."""
    return frozenset(text.split())


ALL_MOTORS_SLIP_FIRST = "light carts never see a stall: the wheels slip below the controllers' peak"
BARE_PUMP = "the pump has no gearbox, and torque and current of its sheet do not fit each other"
CLIPS = "the mix lets full forward and full turn add up to 200 %"
SHARED_RAIL = "several linear regulators share the rail, so the label currents do not add up"
NO_GEARBOX_LIMIT = "M15 M46"  # the feeder's sheet names no limit, and no motor's mass is known
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
    Scenario(
        "hose-tug",
        variant="radio-mix-off",
        named=ids("P16 P15 P02 S30 S01 P31 S45 S06"),
        besides={"M04": ALL_MOTORS_SLIP_FIRST, "P07": SHARED_RAIL},
        unknown=ids("M37"),
        clears=ids("S20"),
    ),
    Scenario(
        "aisle-carrier",
        variant="own-servo-supply",
        named=ids("S11 S03 P02 P03 P07 R03 R02 R05 M07 M25 X07 M06 M10 S01 S16 S17 S23"),
        besides={"M00": BARE_PUMP, "M04": ALL_MOTORS_SLIP_FIRST, "X10": "the drive holds its last command"},
        unknown=ids("M37"),
        clears=ids("P05 P06"),
    ),
    Scenario(
        "vine-lift",
        named=ids("P30 P27 P02 S01 M05 M06 M25 M07 X07 R05 R08"),
        besides={
            "S23": CLIPS,
            "P07": SHARED_RAIL,
            "M04": ALL_MOTORS_SLIP_FIRST,
            "M23": "a lift's rope asks the same of its motor as M05 compares",
            "R11": "on its large wheels it goes 0.11 m before it follows",
            "X10": "it rolls 4.2 m after a lost link, and has 3 m",
        },
        unknown=ids("M37 P29 P33"),
    ),
    Scenario(
        "vine-lift",
        variant="nimh-pack",
        named=ids("P02 S01 M06 M25 M07 X07 R05 R08"),
        besides={
            "S23": CLIPS,
            "P07": SHARED_RAIL,
            "M04": ALL_MOTORS_SLIP_FIRST,
            "M35": "on the better pack it is too fast for a room of 3 m",
            "R11": "and goes further before it follows",
            "X10": "and runs further",
        },
        unknown=ids("M37"),
        clears=ids("P30 P27 M05 M23"),
    ),
    Scenario(
        "vine-lift",
        variant="nimh-pack-without-fuse",
        named=ids("P23 P02 S01 M06 M25 M07 X07 R05 R08"),
        besides={
            "S23": CLIPS,
            "P07": SHARED_RAIL,
            "M04": ALL_MOTORS_SLIP_FIRST,
            "M35": "as with the fuse",
            "R11": "as with the fuse",
            "X10": "as with the fuse",
        },
        unknown=ids("M37"),
        clears=ids("P30 P27"),
    ),
    Scenario(
        "vine-lift",
        variant="mended",
        named=ids("M06 X07"),
        besides={"S23": CLIPS, "M04": ALL_MOTORS_SLIP_FIRST, "M11": FRESH_FLICK},
        unknown=ids("M37"),
        clears=ids("P30 P27 P02 S01 M05 M25 M07 R05 R08"),
    ),
    Scenario(
        "long-reach-pruner",
        named=ids("M05 M06 M15 M07 M10 X02 X03 X07 S01 R05"),
        besides={"S23": CLIPS, "M04": ALL_MOTORS_SLIP_FIRST},
        unknown=ids("M37"),
    ),
    Scenario(
        "long-reach-pruner",
        variant="counterbalance",
        named=ids("M06 M15 M07 M10 X02 X03 X07 S01 R05"),
        besides={"S23": CLIPS, "M04": ALL_MOTORS_SLIP_FIRST},
        unknown=ids("M37"),
        clears=ids("M05"),
    ),
    Scenario(
        "long-reach-pruner",
        variant="strong-counterbalance",
        named=ids("M15 M10 X02 X03 X07 S01"),
        besides={"S23": CLIPS, "M04": ALL_MOTORS_SLIP_FIRST},
        unknown=ids("M37"),
        clears=ids("M05 M06 M07 R05"),
    ),
    Scenario(
        "long-reach-pruner",
        variant="stop-switch",
        named=ids("M05 M06 M15 M07 X02 X03 X07 S01 R05"),
        besides={"S23": CLIPS, "M04": ALL_MOTORS_SLIP_FIRST},
        unknown=ids("M37"),
        clears=ids("M10"),
    ),
    Scenario(
        "long-reach-pruner",
        variant="travel-limit",
        named=ids("M05 M06 M07 X02 X03 X07 S01 R05"),
        besides={
            "S23": CLIPS,
            "M04": ALL_MOTORS_SLIP_FIRST,
            "M09": "with so little of the supply the arm no longer rises",
        },
        unknown=ids("M37"),
        clears=ids("M15 M10"),
    ),
    Scenario(
        "long-reach-pruner",
        variant="longer-base",
        named=ids("M05 M06 M15 M07 M10 X07 S01 R05"),
        besides={"S23": CLIPS, "M04": ALL_MOTORS_SLIP_FIRST},
        unknown=ids("M37"),
        clears=ids("X02 X03"),
    ),
    Scenario(
        "long-reach-pruner",
        variant="mended",
        named=ids("X07"),
        besides={"S01": "kept and written down as deliberate", "S23": CLIPS, "M04": ALL_MOTORS_SLIP_FIRST},
        unknown=ids("M37"),
        clears=ids("M05 M06 M15 M07 M10 X02 X03 R05"),
    ),
    Scenario(
        "seed-ball-thrower",
        named=ids("M03 P02 P03 S13 R02 R07 M29 S01 X06 X13 S11"),
        besides={"M00": BARE_PUMP},
        unknown=ids(NO_GEARBOX_LIMIT),
        quiet=ids("M28"),
    ),
    Scenario(
        "seed-ball-thrower",
        variant="two-controllers",
        named=ids("P02 P03 S13 R02 R07 M29 S01 X06 X13 S11"),
        besides={"M00": BARE_PUMP},
        unknown=ids(NO_GEARBOX_LIMIT),
        clears=ids("M03"),
    ),
    Scenario(
        "seed-ball-thrower",
        variant="full-signal",
        named=ids("M03 P02 P03 S13 R02 R07 M29 X06 X13 S11"),
        besides={"M00": BARE_PUMP, "M30": "thrown 19 m, in a place of 15 m"},
        unknown=ids(NO_GEARBOX_LIMIT),
        clears=ids("S01"),
    ),
    Scenario(
        "seed-ball-thrower",
        variant="mended",
        named=ids("S11"),
        besides={"M00": BARE_PUMP, "S01": "kept and written down as deliberate"},
        unknown=ids(NO_GEARBOX_LIMIT),
        clears=ids("M03 P02 P03 S13 R02 R07 M29 X06 X13"),
    ),
    Scenario(
        "log-winch",
        named=ids("P21 M01 P26 M26 M25 M07 M27 P31 R05 X07 X08 X13"),
        besides={"M11": "held fast it is above the controller's peak, and so is a flick into reverse"},
        unknown=ids("M46"),
    ),
    Scenario(
        "log-winch",
        variant="thick-wire",
        named=ids("M01 M26 M25 M07 M27 P31 R05 X07 X08 X13"),
        besides={"M11": "as with the thin wire"},
        unknown=ids("M46"),
        clears=ids("P21 P26"),
    ),
    Scenario(
        "log-winch",
        variant="travel-limit",
        named=ids("P21 M26 M25 M07 M27 P31 R05 X07 X13"),
        besides={
            "M11": "half of the signal still gives 18 A in a flick into reverse",
            "S01": "half of the signal is kept back",
            "M05": "which leaves just less than twice the torque that the log asks",
        },
        unknown=ids("M46"),
        clears=ids("M01 P26 X08"),
    ),
    Scenario(
        "log-winch",
        variant="mended",
        named=ids("M27 X07"),
        besides={"S01": "kept and written down as deliberate"},
        unknown=ids("M46"),
        clears=ids("P21 M01 P26 M26 M25 M07 P31 R05 X08 X13"),
    ),
    Scenario(
        "soft-fruit-gripper", named=ids("P01 S25 S05 S27 S42 M22"), unknown=ids("X09"), quiet=ids("M21")
    ),
    Scenario(
        "soft-fruit-gripper",
        variant="radio-bench",
        named=ids("S25 S05 S27 S38 M21 M22"),
        unknown=ids("R10 R13 R15 X09 X15"),
        clears=ids("P01 S42"),
    ),
    Scenario(
        "soft-fruit-gripper",
        variant="receiver-left-plugged",
        named=ids("P01 S25 S26 S05 S27 S42 M22"),
        unknown=ids("R10 X09"),
    ),
    Scenario(
        "soft-fruit-gripper",
        variant="high-voltage-pack",
        named=ids("P10 S25 S05 S27 M22"),
        unknown=ids("X09"),
        clears=ids("P01"),
    ),
    Scenario(
        "soft-fruit-gripper",
        variant="mended",
        named=ids(""),
        unknown=ids("R10 R13 R15 X09 X15"),
        clears=ids("P01 S25 S05 S27 S42 M22"),
    ),
    Scenario(
        "leaf-sweeper",
        named=ids("S34 S13 S07 M31 S16 S32 P34 R02 R03 P02 S01"),
        besides={
            "S09": "the channel of the switch has no lead, because the lead sits one socket further on",
            "S23": CLIPS,
            "P07": SHARED_RAIL,
            "M04": ALL_MOTORS_SLIP_FIRST,
            "X10": "the drive holds its last command, so the way after a lost link has no end",
        },
        unknown=ids("M15 M37 M46"),
    ),
    Scenario(
        "leaf-sweeper",
        variant="mended-roller",
        named=ids("S34 S13 S07 S16 S32 P34 R02 R03 P02 S01"),
        besides={
            "S09": "as before",
            "S23": CLIPS,
            "P07": SHARED_RAIL,
            "M04": ALL_MOTORS_SLIP_FIRST,
            "X10": "as before",
        },
        unknown=ids("M15 M37 M46"),
        quiet=ids("M31"),
        clears=ids("M31"),
    ),
    Scenario(
        "leaf-sweeper",
        variant="right-socket",
        named=ids("S34 S13 M31 S16 S32 P34 R02 R03 P02 S01"),
        besides={"S23": CLIPS, "P07": SHARED_RAIL, "M04": ALL_MOTORS_SLIP_FIRST, "X10": "as before"},
        unknown=ids("M15 M37 M46"),
        clears=ids("S07 S09"),
    ),
    Scenario(
        "leaf-sweeper",
        variant="mended",
        named=ids(""),
        besides={"S23": CLIPS, "M04": ALL_MOTORS_SLIP_FIRST, "M11": FRESH_FLICK},
        unknown=ids("M15 M37 M46"),
        clears=ids("S34 S13 S07 M31 S16 S32 P34 R02 R03 P02 S01 S09"),
    ),
)
