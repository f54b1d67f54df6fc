"""Faults of the supply: packs, fuses, wires, plugs, regulators and grounds."""

from __future__ import annotations

from tests.quiet.injection import Fault

RED, BARE = {"red_wire": "in"}, {"red_wire": "pulled"}
APART = ("compost-tug",)  # its receiver has a regulator of its own
SECOND = "battery.second={{{{ chemistry = '{}', cells = {}, capacity = '3 Ah', rested = '{} V' }}}}"
JOINED = "y_lead.packs={{{{ kind = '{}', carries = 'power', joins = ['battery.main', 'battery.second'] }}}}"
BENCH = "bench_supply.lab={{{{ voltage = '12 V', current_limit = '{}', absorbs = false }}}}"
ON_BENCH = "wire.main.path=['bench_supply.lab', 'fuse.main', 'switch.main', 'board.main']"
SPARE = "battery.spare={{ chemistry = 'nimh', cells = 4, rested = '5.2 V', feeds = ['receiver.6'] }}"
TWO_SERVOS = (
    "servo.extra_one={{ part = 'sv-ht', signal = 'receiver.6' }}",
    "servo.extra_two={{ part = 'sv-ht', signal = 'receiver.7' }}",
)

RAIL = (
    Fault("P01", "controller.*", ("{it}.red_wire=pulled",), RED, but=APART),
    Fault("P01", "regulator.*", ("{it}.red_wire=pulled",)),
    Fault("P02", "controller.*", ("{it}.red_wire=in",), BARE, but=APART),
    Fault(
        "P03",
        "controller.*",
        ("{it}.red_wire=in", "{it}.regulator.voltage=5.6 V"),
        BARE,
        brings=True,
        but=APART,
    ),
    Fault("P04", "controller.*", ("{it}.regulator.current=0.1 A",), RED, but=APART),
    Fault("P05", "servo.*", ("{it}.stall_current=9 A",)),
    Fault("P06", "controller.*", TWO_SERVOS, {"part": "ctl-10l", **RED}),
    Fault("P07", "controller.*", ("{it}.red_wire=in",), {"part": "ctl-10l", **BARE}),
    Fault(
        "P08",
        "controller.*",
        ("{it}.red_wire=pulled",),
        {"signal": "mixer.drive.out1"},
        but=("bench-shuttle",),
    ),
    Fault("P09", "controller.*", ("{it}.regulator.voltage=9.6 V",), RED, but=APART),
    Fault("P09", "controller.*", ("{it}.regulator.voltage=3.3 V",), RED, but=APART),
    Fault("P09", "regulator.*", ("{it}.voltage=9.6 V",)),
    Fault("P10", "battery.*", ("{it}.rested=8.4 V",), {"cells": 4, "chemistry": "nimh"}),
    Fault("P10", "regulator.*", ("{it}.voltage=7.4 V",)),
    Fault("P11", "controller.*", ("{it}.regulator.voltage=9 V",), {"signal": "mixer.drive.out1"}),
    Fault("P11", "battery.*", ("{it}.rested=9 V",), {"feeds": ["tester.bench"]}),
    Fault(
        "P12",
        "controller.*",
        ("{it}.red_wire=pulled",),
        {"signal": "mixer.drive.out1"},
        but=("bench-shuttle",),
    ),
    Fault("P12", "mixer.*", ("{it}.passes_rail=false",), {"passes_rail": True}, brings=True),
    Fault(
        "P13",
        "controller.*",
        sets=("battery.small={{ feeds = ['receiver.8'], rested = '4.8 V' }}",),
        where=RED,
        but=APART,
    ),
    Fault("P27", "battery.main", ("{it}.resistance=10 ohm",), but=("potting-table",)),
    Fault("P27", "battery.*", ("{it}.rested=3.6 V",), {"cells": 4, "chemistry": "nimh"}),
    Fault("P28", "servo.*", ("{it}.lead_length=6 m", "{it}.lead_gauge=28 AWG")),
    Fault("P41", "wire.receiver", ("{it}.path=['battery.main', 'fuse.receiver', 'regulator.receiver']",)),
    Fault("P41", "controller.*", (SPARE,), RED, but=APART),
    Fault("P43", "battery.main", ("{it}.resistance=3 ohm",)),
)

GROUNDS = (
    Fault("P14", "controller.*", ("controller.*.ground_wire=pulled",), but=("compost-tug", "seed-runner")),
    Fault("P14", "servo.*", ("{it}.ground_wire=pulled",)),
    Fault("P15", "wire.branches", ("{it}.contact_resistance=0.3 ohm",), but=("seed-runner",)),
    Fault("P16", "switch.*", ("{it}.conductor=minus",)),
    Fault("P16", "fuse.*", ("{it}.conductor=minus",)),
)

WIRES = (
    Fault(
        "P17",
        "wire.*",
        ("{it}.joints.0.flips=true", "wire.*.polarity_metered=false", "checklist.polarity_metered=?"),
    ),
    Fault("P18", "wire.*", ("{it}.joints.0.mates_with=two round bullets", "{it}.joints.0.adapter=false")),
    Fault("P19", "wire.*", ("{it}.joints.0.battery_side=pins",)),
    Fault("P20", "wire.main", ("{it}.joints.0.rating=1 A",)),
    Fault("P21", "fuse.*", scale={"rating": 2}),
    Fault("P21", "wire.*", ("{it}.gauge=24 AWG",)),
    Fault("P22", "wire.main", ("{it}.ampacity=0.05 A",)),
    Fault("P23", "fuse.main", ("{it}.from_battery=0.6 m",)),
    Fault("P24", "fuse.main", scale={"rating": 0.1}),
    Fault("P25", sets=("fuse.main.rating=400 A", "wire.main.ampacity=500 A", "wire.branches.ampacity=500 A")),
    Fault("P26", "wire.branches", ("{it}.length=25 m",)),
    Fault("P37", "switch.*", ("{it}.rating=0.5 A",)),
    Fault("P38", "board.*", ("{it}.rating=0.1 A",)),
    Fault("P38", "board.*", ("{it}.port_rating=0.05 A",)),
    Fault("P42", "switch.*", ("{it}.reachable=false", "checklist.disconnect_reachable=?")),
    Fault("P42", "battery.*", ("checklist.disconnect_reachable=false",), {"chemistry": "nimh", "cells": 4}),
)

PACKS = (
    Fault("P29", "battery.main", ("{it}.peak_current=1 A",)),
    Fault(
        "P30",
        "battery.main",
        (
            "{it}.part=b-dry",
            "{it}.chemistry=dry",
            "{it}.cells=8",
            "{it}.capacity=?",
            "{it}.rested=12.4 V",
            "{it}.resistance=2.4 ohm",
            "{it}.peak_current=?",
        ),
    ),
    Fault("P31", "battery.*", ("{it}.alarm=?",), {"chemistry": "~lithium-.*"}),
    Fault("P32", "controller.*", ("{it}.cut_off_cells=6",), {"cuts_off": True}),
    Fault("P32", "controller.*", ("{it}.cut_off_chemistry=nimh",), {"cuts_off": True}),
    Fault(
        "P32",
        "controller.*",
        ("{it}.cuts_off=true", "{it}.cut_off_voltage=15 V"),
        {"cuts_off": False},
        brings=True,
    ),
    Fault("P33", sets=("course.session=60 h",)),
    Fault("P34", "controller.*", ("{it}.max_voltage=11 V",)),
    Fault("P35", "y_lead.packs", ("{it}.kind=series",)),
    Fault("P35", "battery.main", (SECOND.format("nimh", 10, "12.6"), JOINED.format("series")), brings=True),
    Fault("P36", "battery.second", ("{it}.chemistry=nimh",)),
    Fault("P36", "battery.second", ("{it}.cells=4",)),
    Fault(
        "P36",
        "battery.*",
        ("{it}.rested=11.7 V",),
        {"cells": 3, "chemistry": "lithium-polymer"},
        but=("bench-shuttle", "shelf-lift", "tray-lift"),
    ),
    Fault(
        "P36",
        "battery.main",
        (SECOND.format("nimh", 8, "10.0"), JOINED.format("parallel")),
        brings=True,
        but=("potting-table",),
    ),
    Fault(
        "P39",
        "battery.main",
        (BENCH.format("30 A"), ON_BENCH),
        brings=True,
        but=("potting-table", "seed-thrower"),
    ),
    Fault("P40", "battery.main", (BENCH.format("1 A"), ON_BENCH), brings=True, but=("potting-table",)),
    Fault(
        "P44", "motor.*", ("{it}.suppressed=false", "receiver.antenna_clear=40 mm", "checklist.noise_parts=?")
    ),
    Fault("P45", "battery.*", ("{it}.charge_lead_reachable=true",)),
)

POWER = (*RAIL, *GROUNDS, *WIRES, *PACKS)
