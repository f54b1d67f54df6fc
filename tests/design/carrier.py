"""A mule file that says a little of everything, and the shelf that it takes its parts from."""

from collections.abc import Iterable

from mulewright.design.resolve import Loaded, load_text
from mulewright.shelf.catalog import PACKAGED, Catalog

SHELF = Catalog([PACKAGED])

CARRIER = """\
# carries trays down an aisle
schema_version = 1
name     = "Aisle carrier"
question = "Can one person bring a tray down the aisle?"

[body]
mass      = { value = "11.0 kg", from = "measured", with = "luggage scale", plus_minus = "0.2 kg" }
wheelbase = "0.30 m"              # front to rear
track     = "?"

[drive]
kind  = "four-roller-wheels"
wheel = { diameter = "120 mm", roller_angle = "45 deg", friction = { value = 0.6, from = "assumed" } }
hands = { front_left = "left", front_right = "right", rear_left = "right", rear_right = "left" }
commands = ["forward", "strafe", "turn"]

[motor.front_left]
part  = "gm-drive"
turns = "wheel.front_left"

[motor.lift]
part  = "gm-drive"
turns = "mechanism.lift"
stall_current = "7.0 A"
free_current  = "?"
gears = [{ kind = "spur", ratio = 2 }, { kind = "chain", ratio = 1.5 }]

[mechanism.lift]
kind    = "lift"
rigging = "single"
load    = "3.0 kg"

[controller.front_left]
part   = "ctl-10l"
feeds  = "motor.front_left"
signal = "receiver.1"
regulator.voltage = "5 V"

[controller.lift]
part     = "ctl-10l"
feeds    = "motor.lift"
signal   = "receiver.3"
red_wire = "in"

[battery.main]
part   = "b-ni"

[fuse.main]
rating = "20 A"
kind   = "blade"

[wire.main]
path   = [
    "battery.main",               # [from here]
    "fuse.main",
    "controller.*",
]
gauge  = "14 AWG"
joints = [{ family = "two round pins", rating = "30 A" }]

[radio]
part = "tx7"

[[radio.mix]]
kind   = "two-sides"
active = false

[[radio.mix]]
kind   = "slave"
active = true

[radio.control]
RV = { commands = "forward" }
LV = { commands = "lift", expo = "10 %" }
others = { expo = "30 %" }

[radio.channel]
1 = { travel = "100 %" }
others = { travel = "120 %", reverse = false }

[receiver]
part      = "rx7"
fail_safe = { 3 = "neutral", others = "hold", tested = "?" }

[checklist]
eyes = 2026-05-01

[limits]
P26 = { limit = "6 %", because = "short runs, metered" }

[variant.slow]
"radio.control.RV" = { rate = "60 %" }
"motor.lift.gears.0.ratio" = 3

[variant.heavy.body]
mass = "15 kg"
"""


def carrier(*changes: tuple[str, str], settings: Iterable[str] = (), variant: str | None = None) -> Loaded:
    """Load the carrier with pieces of its text replaced."""
    text = CARRIER
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    return load_text(text, settings=settings, variant=variant, catalog=SHELF)
