"""Faults of a hand-over: what differs on a target that is otherwise the design itself, and what was not noted."""

from __future__ import annotations

from tests.quiet.injection import Fault

RAISED = {"kind": "~arm|lift|winch"}

HANDOVER = (
    Fault("H01", sets=("radio.channel.others.travel=100 %",)),
    Fault("H02", "servo.*", ("target:target.pulse_low=500 us", "target:target.pulse_high=2500 us")),
    Fault("H03", sets=("target:target.loaded_voltage=13.8 V",), but=("fruit-hand",)),
    Fault(
        "H03",
        "battery.*",
        ("accepted.loaded_voltage=?", "target:{it}.rested=14.8 V"),
        {"chemistry": "nimh", "cells": 10},
    ),
    Fault("H04", sets=("target:target.loaded_voltage=16.5 V",)),
    Fault("H05", sets=("target:target.port_current_limit=0.1 A",)),
    Fault("H06", sets=("target:target.servo_rail_current=1 A",)),
    Fault("H06", sets=("target:target.servo_port_current=1 A",)),
    Fault("H07", "fuse.main", ("target:{it}.rating=40 A",)),
    Fault("H07", "motor.*", ("target:rules.rule.0.most=0",)),
    Fault("H08", "motor.*", ("target:target.port_count=0",)),
    Fault("H08", "y_lead.*", ("target:target.y_leads_allowed=false",), {"carries": "signal"}),
    Fault("H09", "controller.*", ("target:{it}.stopping=coast",), {"stopping": "brake"}),
    Fault(
        "H10",
        "radio.control.*",
        ("target.polarity.{its.commands}=?", "target:target.polarity.{its.commands}=?"),
        {"commands": "~forward|turn|strafe|left|right"},
    ),
    Fault("H11", "mechanism.*", ("{it}.hold_test=?",), RAISED),
    Fault("H12", sets=("accepted.rate=60 %",)),
    Fault("H13", "body", scale={"mass": 1.5}),
    Fault("H13", sets=("target:body.center_height=0.3 m",)),
    Fault("H14", "drive", ("target:room.surfaces=['wet grass']",)),
    Fault("H14", "mechanism.*", ("target:{it}.load=2.5 kg",), RAISED),
    Fault("H15", sets=("accepted.settings_recorded=false",)),
    Fault("H16", "mechanism.*", ("{it}.sensor_place=false",), RAISED),
    Fault("H17", sets=("accepted.loaded_voltage=?",)),
    Fault("H17", "mechanism.*", ("{it}.zero=?", "target:{it}.zero=?"), RAISED),
    Fault("H18", sets=("target:target.loop_time=100 ms",)),
)
