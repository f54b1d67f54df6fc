"""Faults that hurt people: tipping, falling, rolling on, habits."""

from __future__ import annotations

from tests.quiet.injection import Fault

LIGHT = ("compost-tug",)  # its motors are too weak to lift it
CREEPING = ("seed-runner",)  # too slow to hurt anybody

SAFETY = (
    Fault("X01", sets=("body.center_height=0.6 m",), but=LIGHT),
    Fault("X02", sets=("body.center_height=0.6 m",)),
    Fault("X03", "mechanism.*", ("{it}.pivot_ahead=0.35 m", "body.mass=1.5 kg"), {"kind": "arm"}),
    Fault("X04", "drive", ("body.track=0.08 m", "body.center_height=0.2 m")),
    Fault("X05", "drive", ("room.steepest=15 deg", "body.center_ahead=0.01 m")),
    Fault("X06", "mechanism.*", ("{it}.guard=false", "{it}.wheel_inertia=8e-4 kg m2"), {"kind": "flywheel"}),
    Fault("X07", "mechanism.*", ("{it}.near_hands=true", "{it}.load=1.5 kg"), {"kind": "lift"}),
    Fault("X08", "mechanism.*", ("{it}.rope.stiffness=1 kN/m",), {"kind": "winch"}),
    Fault(
        "X09",
        "servo.*",
        ("{its.moves}.closing_gap=5 mm", "{it}.transit=0.06 s/60deg"),
        {"moves": r"~mechanism\.(hand|flap)"},
    ),
    Fault("X10", sets=("room.free=0.6 m",)),
    Fault("X11", sets=("body.mass=80 kg",), but=CREEPING),
    Fault("X12", sets=("checklist.wheels_up=?",)),
    Fault("X13", sets=("checklist.hair_and_sleeves=false",)),
    Fault("X13", sets=("checklist.eyes=?",)),
    Fault("X14", sets=("checklist.battery_strapped=?",)),
    Fault("X14", "battery.*", ("{it}.retained=false",)),
    Fault("X15", "motor.left", ("{it}.mass=0.02 kg",)),
    Fault("X15", "motor.front_left", ("{it}.mass=0.02 kg",)),
)
