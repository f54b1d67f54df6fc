"""Mules on which papers are tried besides the shipped ones: bare, unknown, with two radios, with odd names."""

from __future__ import annotations

from mulewright.design.mule import link
from mulewright.design.resolve import load_text
from mulewright.facts.graph import Evaluation

BARE = "schema_version = 1\n"

UNKNOWN = """
schema_version = 1
[drive]
kind = "two-sides"
[mechanism.arm]
kind = "arm"
[motor.left]
turns = "wheel.left"
[motor.right]
turns = "wheel.right"
[motor.arm]
turns = "mechanism.arm"
[controller.left]
feeds = "motor.left"
signal = "receiver.1"
[controller.right]
feeds = "motor.right"
[controller.arm]
signal = "receiver.3"
feeds = "motor.arm"
[servo.tip]
[battery.main]
[fuse.main]
[wire.main]
path = ["battery.main", "fuse.main", "controller.left"]
[radio]
[radio.control]
RV = { commands = "forward" }
[receiver]
"""

TWO_RADIOS = """
schema_version = 1
name = "Two at once"
[drive]
kind = "two-sticks"
[motor.left]
part = "gm-drive"
turns = "wheel.left"
[motor.right]
part = "gm-drive"
turns = "wheel.right"
[motor.brush]
part = "gm-fast"
[controller.left]
part = "ctl-10l"
feeds = "motor.left"
signal = "receiver.2"
[controller.right]
part = "ctl-10l"
feeds = "motor.right"
signal = "receiver.1"
[controller.brush]
part = "ctl-20s"
feeds = "motor.brush"
signal = "second_receiver.3"
[radio]
part = "tx8"
memory = "1 drive"
[radio.control]
RV = { commands = "left", rate = "80 %", expo = "12.5 %", start = "middle" }
RH = { commands = "right" }
[radio.channel]
1 = { travel_plus = "110 %", travel_minus = "97.5 %", reverse = true, sub_trim = "-12 us", trim = "8 us", slow = "0.5 s" }
2 = { travel = "100 %", failsafe_pulse = "1510 us" }
[[radio.mix]]
kind = "slave"
active = false
inputs = ["RH"]
channels = [2]
weight = "-30 %"
rate_before = true
[receiver]
part = "rx8"
rebound_since_test = true
fail_safe = { 1 = "1490 us", 2 = "neutral", others = "no pulses", tested = 2026-11-20 }
[second_radio]
part = "tx7"
memory = "2 brush"
planned_memory = "3 brush"
rate = { switch = "SW1", slow = "33.3 %", covers = ["LV"] }
[second_radio.control]
LV = { commands = "brush", pushes_to = "sweeps ahead" }
SW2 = { positions = ["-100 %", "50 %"], start = "up, away from you" }
[second_receiver]
part = "rx7"
[checklist]
bind_alone = 2026-11-19
own = { "Thumb screws of the lid" = true, "Water off" = 2026-11-21 }
"""

NAMES = ("Ορεινό κάρο", "Садовая тележка", "Bäckerkarren à l'écluse", "n" * 60)
HOSTILE = (
    "<script>alert(1)</script>",
    "#set page(fill: red)",
    "=cmd|' /C calc'!A0",
    "{battery} $x$ *b* _i_ `c` \\n",
)


def evaluated(text: str, *settings: str) -> Evaluation:
    """The evaluation of a mule file of which the text is given."""
    return Evaluation(link(load_text(text, settings=settings)))
