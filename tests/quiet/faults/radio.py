"""Faults of the link: fail-safe, range, memory, records."""

from __future__ import annotations

from tests.quiet.faults.signal import COMMANDED
from tests.quiet.injection import Fault

RADIO = (
    Fault("R01", sets=("receiver.fail_safe.tested=?",)),
    Fault("R01", sets=("receiver.rebound_since_test=true",)),
    Fault("R02", sets=("receiver.fail_safe.others=hold",)),
    Fault("R03", "drive", ("receiver.protects=[3]", "receiver.fail_safe.others=hold")),
    Fault("R04", "controller.*", ("receiver.fail_safe.others=1560 us",)),
    Fault("R05", "mechanism.*", ("{it}.ratchet=false", "{it}.load=1.5 kg"), {"kind": "~arm|lift"}),
    Fault(
        "R06",
        "mechanism.*",
        ("receiver.fail_safe.5=1100 us", "{it}.release_harmless=false"),
        {"kind": "gripper"},
    ),
    Fault("R07", "mechanism.*", ("receiver.fail_safe.3=1600 us",), {"kind": "flywheel"}),
    Fault("R07", "mechanism.*", ("receiver.fail_safe.3=hold",), {"kind": "flywheel"}),
    Fault("R08", sets=("room.free=0.5 m",)),
    Fault("R09", sets=("checklist.range_walk=?",)),
    Fault("R10", sets=("receiver.antenna_clear=10 mm",)),
    Fault("R11", "drive", ("radio.latency=400 ms",)),
    Fault("R12", "radio.control.*", ("{it}.channel=9",), {"commands": COMMANDED}),
    Fault("R13", sets=("radio.memory=1 glider",)),
    Fault("R14", sets=("checklist.start_list=?",)),
    Fault("R15", sets=("room.other_radios=true", "checklist.bind_alone=?")),
    Fault("R16", sets=("radio.permission=not allowed here",)),
    Fault("R17", sets=("radio.battery_checked=?",)),
    Fault("R18", sets=("radio.channel.others.trim=5 us", "radio.settings_noted=false")),
)
