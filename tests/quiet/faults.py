"""What can be done wrong: the faults that are put into every quiet design in which they can be made."""

from __future__ import annotations

from tests.quiet.injection import Fault

DRIVEN = r"~motor\.(front_|rear_)?(left|right)"  # motors of wheels
COMMANDED = "~forward|turn|strafe|left|right|arm|lift|winch|roller"  # functions that go both ways

SIGNAL = (
    Fault("S01", sets=("radio.channel.others.travel=80 %",)),
    Fault("S01", "controller.*", scale={"half_range": 1.3}),
    Fault("S02", "controller.*", scale={"half_range": 0.8}),
    Fault("S03", "servo.*", ("{it}.need=170 deg",)),
    Fault("S04", "servo.*", ("{it}.stop_high=1600 us",)),
    Fault("S04", "servo.*", ("{it}.stop_low=1400 us",)),
    Fault("S05", "mechanism.*", ("{it}.linkage.limit_high=20 deg",), {"kind": "gripper"}),
    Fault("S05", "mechanism.*", ("{it}.linkage.limit_low=-20 deg",), {"kind": "gripper"}),
    Fault("S06", "controller.*", ("{it}.polarity=swapped",), {"polarity": "straight", "feeds": DRIVEN}),
    Fault("S06", "controller.*", ("{it}.polarity=straight",), {"polarity": "swapped", "feeds": DRIVEN}),
    Fault("S07", "controller.*", ("{it}.signal=receiver.6",), {"signal": r"~receiver\.\d"}),
    Fault("S07", "servo.*", ("{it}.signal=receiver.6",), {"signal": r"~receiver\.\d"}),
    Fault("S09", "servo.*", ("{it}.signal=receiver.6",), {"signal": r"~receiver\.\d"}),
    Fault("S10", "controller.*", ("{it}.signal=[]",)),
    Fault("S10", "servo.*", ("{it}.signal=[]",)),
    Fault(
        "S11", "radio.control.*", ("{it}.sprung=false", "{it}.conversion=possible"), {"commands": COMMANDED}
    ),
    Fault(
        "S13",
        "controller.*",
        (
            "radio.control.SW2.commands={name}",
            "radio.control.SW2.positions=['-100 %', '100 %']",
            "radio.control.LV.commands=?",
            "{it}.signal=receiver.6",
        ),
        {"signal": "receiver.3"},
    ),
    Fault(
        "S15",
        "controller.*",
        ("radio.control.KN.commands={name}", "radio.control.LV.commands=?", "{it}.signal=receiver.5"),
        {"signal": "receiver.3"},
    ),
    Fault(
        "S16",
        "mechanism.*",
        ("{it}.slow_mode=true", "radio.rate={{ switch = 'SW2', slow = '50 %', covers = ['RV', 'RH'] }}"),
    ),
    Fault("S24", "radio.mix.*", ("{it}.forward_weight=60 %",)),
    Fault("S28", sets=("radio.channel.2.trim=24 us", "radio.channel.3.trim=24 us")),
    Fault("S28", "controller.*", ("{it}.neutral=1530 us",)),
    Fault("S30", sets=("radio.control.others.expo=70 %", "radio.control.others.rate=40 %")),
    Fault("S32", sets=("radio.channel.others.travel_minus=105 %", "radio.channel.others.travel_plus=120 %")),
    Fault("S34", "controller.*", ("{it}.direction=stop-then-reverse",), {"feeds": DRIVEN}),
    Fault("S35", "controller.*", ("{it}.direction=one-way",), {"feeds": DRIVEN}),
    Fault(
        "S43", "mixer.*", ("{it}.strafe=receiver.4", "{it}.turn=receiver.1"), {"mixes": "four-roller-wheels"}
    ),
)

POWER = (
    Fault("P01", "controller.*", ("{it}.red_wire=pulled",), {"red_wire": "in"}),
    Fault("P02", "controller.*", ("{it}.red_wire=in",), {"red_wire": "pulled"}),
    Fault(
        "P13",
        "controller.*",
        sets=("battery.small={{ feeds = ['receiver.8'], rested = '4.8 V' }}",),
        where={"red_wire": "in"},
    ),
    Fault("P10", "battery.*", ("{it}.rested=8.4 V",), {"cells": 4}),
    Fault("P16", "switch.*", ("{it}.conductor=minus",)),
    Fault("P16", "fuse.*", ("{it}.conductor=minus",)),
    Fault("P21", "fuse.*", scale={"rating": 2}),
    Fault("P21", "wire.*", ("{it}.gauge=24 AWG",)),
    Fault("P23", "fuse.*", ("{it}.from_battery=0.6 m",)),
    Fault("P24", "fuse.*", scale={"rating": 0.1}),
    Fault("P26", "wire.branches", ("{it}.length=25 m",)),
    Fault(
        "P30",
        "battery.main",
        (
            "{it}.part=b-dry",
            "{it}.chemistry=dry",
            "{it}.cells=8",
            "{it}.capacity=?",
            "{it}.rested=12.4 V",
            "{it}.resistance=1.6 ohm",
            "{it}.peak_current=?",
        ),
    ),
    Fault("P31", "battery.main", ("{it}.alarm=?",), {"chemistry": "lithium-polymer"}),
    Fault("P34", "controller.*", ("{it}.max_voltage=11 V",)),
    Fault("P35", sets=("y_lead.packs={{ kind = 'series', carries = 'power', joins = ['battery.main'] }}",)),
    Fault("P37", "switch.*", ("{it}.rating=2 A",)),
)

MECHANISM = (
    Fault("M00", "motor.*", ("{it}.stall_torque=240 N m",)),
    Fault("M01", "controller.*", ("{it}.peak_current=2 A", "{it}.continuous_current=2 A")),
    Fault("M05", "mechanism.*", scale={"load": 40}),
    Fault("M07", "mechanism.*", ("{it}.ratchet=false", "{it}.load=3 kg"), {"kind": "arm"}),
    Fault("M07", "mechanism.*", ("{it}.ratchet=false", "{it}.load=3 kg"), {"kind": "lift"}),
    Fault("M10", "mechanism.*", ("{it}.stop_switch=false",), {"stop_switch": True, "kind": "lift"}),
    Fault("M12", "mechanism.*", ("{it}.travel=10 deg",), {"kind": "arm"}),
    Fault("M15", "motor.*", ("{it}.gearbox_limit=0.1 N m",), {"gearbox": True}),
    Fault("M24", "mechanism.*", ("{it}.travel=50 mm",), {"kind": "lift"}),
    Fault("M26", "mechanism.*", ("{it}.rope.breaking=200 N",), {"kind": "winch"}),
    Fault("M31", "mechanism.*", ("{it}.diameter=15 mm",), {"kind": "roller"}),
    Fault("M34", "drive", ("{it}.wanted_speed=2 m/s",)),
    Fault("M37", "drive", ("{it}.side_mismatch=4 %",)),
    Fault("M42", "drive", ("room.steepest=30 deg",), {"kind": r"~two-.*|four.*"}),
    Fault(
        "M44",
        "motor.*",
        ("{it}.gears=[{{ kind = 'spur', driver_teeth = 20, driven_teeth = 30 }}]", "{it}.total_ratio=2"),
    ),
)

RADIO = (
    Fault("R01", sets=("receiver.fail_safe.tested=?",)),
    Fault("R01", sets=("receiver.rebound_since_test=true",)),
    Fault("R02", sets=("receiver.fail_safe.others=hold",)),
    Fault("R03", "drive", ("receiver.part=rx7", "receiver.fail_safe.others=hold")),
    Fault("R04", "controller.*", ("receiver.fail_safe.others=1560 us",)),
    Fault("R07", "mechanism.*", ("receiver.fail_safe.3=1600 us",), {"kind": "flywheel"}),
    Fault("R08", sets=("room.free=0.5 m",)),
    Fault("R09", sets=("checklist.range_walk=?",)),
    Fault("R12", "radio.control.*", ("{it}.channel=9",), {"commands": COMMANDED}),
    Fault("R14", sets=("checklist.start_list=?",)),
    Fault("R16", sets=("radio.permission=not allowed here",)),
    Fault("R17", sets=("radio.battery_checked=?",)),
    Fault("R18", sets=("radio.channel.others.trim=5 us", "radio.settings_noted=false")),
)

HAZARDS = (
    Fault("X01", sets=("body.center_height=0.6 m",)),
    Fault("X02", sets=("body.center_height=0.6 m",)),
    Fault("X03", "mechanism.*", ("{it}.load=12 kg", "{it}.load_at=0.8 m"), {"kind": "arm"}),
    Fault("X05", sets=("room.steepest=15 deg", "body.center_height=0.5 m")),
    Fault("X07", "mechanism.*", ("{it}.near_hands=true", "{it}.load=3 kg"), {"kind": "lift"}),
    Fault("X10", sets=("room.free=0.6 m",)),
    Fault("X11", sets=("body.mass=80 kg",)),
    Fault("X12", sets=("checklist.wheels_up=?",)),
    Fault("X13", sets=("checklist.hair_and_sleeves=false",)),
    Fault("X13", sets=("checklist.eyes=?",)),
    Fault("X14", sets=("checklist.battery_strapped=?",)),
    Fault("X14", "battery.*", ("{it}.retained=false",)),
)

FAULTS = (*SIGNAL, *POWER, *MECHANISM, *RADIO, *HAZARDS)
