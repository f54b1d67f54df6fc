"""Faults of signals: plugs, channels, mixes, trims, servos and testers."""

from __future__ import annotations

from tests.quiet.injection import Fault

DRIVEN = r"~motor\.(front_|rear_)?(left|right)"  # motors of wheels
COMMANDED = "~forward|turn|strafe|left|right|arm|lift|winch|hoist|roller|brush"  # functions that go both ways
PLUGGED = {"signal": r"~receiver\.\d"}
ON_A_WHEEL = {"feeds": DRIVEN}
MIXED = {"kind": "two-sides"}
TWO_SIDES = (
    "{{ kind = 'two-sides', active = true, inputs = ['RV', 'RH'], channels = [2, 1], "
    "forward_weight = '100 %', turn_weight = '100 %' }}"
)
FLAP = "mechanism.flap"
ONE_LEAD = "y_lead.flap={{ kind = 'parallel', carries = 'signal', signal = 'receiver.5', red_wire = 'in' }}"


def _with_a_tester(mode: str, *sets: str) -> tuple[str, ...]:
    return (f"tester.lent={{{{ part = 'st', mode = '{mode}', power = '{{it}}' }}}}", *sets)


RANGE = (
    Fault("S01", sets=("radio.channel.others.travel=80 %",)),
    Fault("S01", "controller.*", scale={"half_range": 1.3}),
    Fault("S02", "controller.*", scale={"half_range": 0.8}),
    Fault("S03", "servo.*", ("{it}.need=170 deg",)),
    Fault("S04", "servo.*", ("{it}.stop_high=1600 us",)),
    Fault("S04", "servo.*", ("{it}.stop_low=1400 us",)),
    Fault("S05", "mechanism.*", ("{it}.linkage.limit_high=20 deg",), {"kind": "gripper"}),
    Fault("S05", "mechanism.*", ("{it}.linkage.limit_low=-20 deg",), {"kind": "gripper"}),
)

PLUGS = (
    Fault("S06", "controller.*", ("{it}.polarity=swapped",), {"polarity": "straight", **ON_A_WHEEL}),
    Fault("S06", "controller.*", ("{it}.polarity=straight",), {"polarity": "swapped", **ON_A_WHEEL}),
    Fault("S07", "controller.*", ("{it}.signal=receiver.6",), PLUGGED),
    Fault("S07", "servo.*", ("{it}.signal=receiver.6",), PLUGGED),
    Fault("S08", "controller.*", ("{it}.signal={others.signal}",), PLUGGED),
    Fault("S08", "servo.*", ("{it}.signal={others.signal}",), PLUGGED),
    Fault("S09", "servo.*", ("{it}.signal=receiver.6",), {"coupled_with": None, **PLUGGED}),
    Fault("S10", "controller.*", ("{it}.signal=[]",)),
    Fault("S10", "servo.*", ("{it}.signal=[]",)),
    Fault("S18", "radio.control.*", ("radio.channels=1",), {"commands": "~turn|left|lid|brush|pan"}),
    Fault("S26", "controller.*", ("{it}.signal=['{its.signal}', 'receiver.6']",), PLUGGED),
    Fault("S26", "servo.*", ("{it}.signal=['{its.signal}', 'receiver.6']",), PLUGGED),
    Fault("S39", "controller.*", ("{it}.signal_high=4.2 V",), PLUGGED),
    Fault("S39", "servo.*", ("{it}.signal_high=4.2 V",), PLUGGED),
    Fault("S41", "controller.*", ("{it}.lead_length=1.5 m",)),
    Fault("S41", "servo.*", ("{it}.lead_length=1.2 m",)),
    Fault("S41", "controller.*", ("{it}.lead_length=0.5 m", "{it}.beside_motor_leads=true")),
    Fault(
        "S44",
        "controller.*",
        ("{it}.signal={others.signal}", "{other}.signal={its.signal}"),
        {"feeds": r"~motor\.(front_)?(left|right)"},
        but=("barrow", "leaf-picker", "seed-runner"),  # each stick has a side of its own there
    ),
    Fault("S45", "controller.*", ("{it}.polarity=swapped",), {"polarity": "straight", **ON_A_WHEEL}),
    Fault("S46", "controller.*", ("{it}.plug=turned",)),
    Fault("S46", "servo.*", ("{it}.plug=turned",)),
    Fault("S47", "controller.*", ("{it}.plug=one pin off",)),
    Fault("S47", "servo.*", ("{it}.plug=one pin off",)),
)

CONTROLS = (
    Fault(
        "S11", "radio.control.*", ("{it}.sprung=false", "{it}.conversion=possible"), {"commands": COMMANDED}
    ),
    Fault(
        "S12",
        "radio.control.*",
        ("{it}.kind=stick", "{it}.axis=horizontal", "{it}.sprung=true"),
        {"kind": "knob", "commands": "~hand|lid|pan|flap"},
        brings=True,
    ),
    Fault("S12", "radio.control.*", ("{it}.sprung=true",), {"commands": "flywheel"}),
    Fault(
        "S13",
        "controller.*",
        (
            "radio.control.SW2.commands={name}",
            "radio.control.SW2.positions=['-100 %', '100 %']",
            "radio.control.LV.commands=?",
            "{it}.signal=receiver.6",
        ),
        {"signal": "receiver.3", "feeds": r"~.*(arm|lift|winch|hoist|front).*"},
        brings=True,
    ),
    Fault("S14", sets=("radio.control.SW3.positions=['-100 %', '0 %', '100 %']",)),
    Fault(
        "S15",
        "controller.*",
        ("radio.control.KN.commands={name}", "radio.control.LV.commands=?", "{it}.signal=receiver.5"),
        {"signal": "receiver.3"},
        but=("seed-runner",),  # its knob tips the pan
    ),
    Fault(
        "S16",
        "mechanism.*",
        ("{it}.slow_mode=true", "radio.rate={{ switch = 'SW2', slow = '50 %', covers = ['RV', 'RH'] }}"),
        but=("fruit-hand", "potting-table"),
    ),
    Fault(
        "S29",
        "radio.control.*",
        ("{it}.sprung=false", "{it}.conversion=possible", "{it}.detent_error=35 us"),
        {"kind": "stick", "commands": COMMANDED},
        brings=True,
    ),
    Fault("S48", "radio.control.*", ("{it}.pushes_to=down",), {"pushes_to": "up"}),
    Fault("S48", "radio.control.*", ("{it}.pushes_to=close",), {"pushes_to": "open"}),
    Fault("S48", "radio.control.*", ("{it}.pushes_to=out",), {"pushes_to": "in"}),
)

MIXES = (
    Fault(
        "S17",
        "radio.control.*",
        ("radio.rate={{ switch = 'SW2', slow = '50 %', covers = ['RV'] }}",),
        {"commands": "turn"},
    ),
    Fault(
        "S19",
        "controller.*",
        (
            "radio.mix=[{{ kind = 'slave', active = true, inputs = ['RH'], channels = [3], weight = '50 %' }}]",
        ),
        {"signal": "receiver.3", "feeds": r"~motor\.(arm|winch|flywheel|left)"},
    ),
    Fault(
        "S19",
        "servo.*",
        (
            "radio.mix=[{{ kind = 'slave', active = true, inputs = ['RH'], channels = [5], weight = '50 %' }}]",
        ),
        {"signal": "receiver.5"},
    ),
    Fault("S20", "mixer.*", (f"radio.mix=[{TWO_SIDES}]",)),
    Fault("S21", "radio.mix.*", ("{it}.active=false",), MIXED),
    Fault("S22", "radio.mix.*", ("{it}.channels=[2, 4]",), MIXED),
    Fault("S22", "radio.mix.*", ("{it}.channels=[6, 1]",), MIXED),
    Fault("S23", "radio.mix.*", ("{it}.forward_weight=125 %",), MIXED),
    Fault("S24", "radio.mix.*", ("{it}.forward_weight=60 %",), MIXED),
    Fault(
        "S43", "mixer.*", ("{it}.strafe=receiver.4", "{it}.turn=receiver.1"), {"mixes": "four-roller-wheels"}
    ),
    Fault("S43", "mixer.*", ("{it}.forward=receiver.1", "{it}.turn=receiver.2"), {"mixes": "two-sides"}),
)

SETTINGS = (
    Fault("S28", sets=("radio.channel.others.trim=24 us",)),
    Fault("S28", "controller.*", ("{it}.neutral=1530 us",)),
    Fault("S30", sets=("radio.control.others.expo=70 %", "radio.control.others.rate=40 %")),
    Fault("S31", "radio.control.*", ("{it}.expo=60 %",), {"commands": "~left|right"}),
    Fault("S31", "radio.control.*", ("{it}.rate=85 %",), {"commands": "~left|right"}),
    Fault("S32", sets=("radio.channel.others.travel_minus=105 %", "radio.channel.others.travel_plus=120 %")),
    Fault("S33", "controller.*", ("{it}.dead_band=45 us",), ON_A_WHEEL),
    Fault("S33", "controller.*", ("{it}.response=jump",), ON_A_WHEEL),
    Fault("S34", "controller.*", ("{it}.direction=stop-then-reverse",), ON_A_WHEEL),
    Fault("S35", "controller.*", ("{it}.direction=one-way",), ON_A_WHEEL),
    Fault("S36", sets=("checklist.transmitter_first=false",)),
    Fault("S36", sets=("radio.channel.others.trim=15 us",)),
    Fault(
        "S36", "controller.*", ("{it}.learns_neutral=true", "checklist.transmitter_first=false"), brings=True
    ),
)

SERVOS = (
    Fault(
        "S25", sets=(ONE_LEAD, "servo.flap_left.signal=y_lead.flap", "servo.flap_right.signal=y_lead.flap")
    ),
    Fault("S27", "servo.*", ("{it}.center_error=40 us",), {"mirrored": True, "moves": FLAP}),
    Fault("S27", "servo.*", ("{it}.gain=0.1 deg/us",), {"moves": FLAP}),
    Fault("S37", "servo.*", ("{it}.rotation=continuous",)),
    Fault("S38", sets=("receiver.frame=9 ms",)),
    Fault("S38", sets=("receiver.frame=13 ms",)),
    Fault("S38", "servo.*", ("{it}.signal_kind=analogue",), PLUGGED, brings=True, but=("seed-runner",)),
    Fault("S40", "servo.*", ("{it}.neutral=760 us",)),
    Fault("S42", "tester.*", ("battery.servo.in_use=false",)),
    Fault(
        "S42",
        "servo.*",
        ("{it}.signal=['tester.bench', 'receiver.5']", "receiver={{ part = 'rx8' }}"),
        {"signal": "tester.bench"},
    ),
    Fault(
        "S42",
        "controller.*",
        _with_a_tester("sweep", "{it}.signal=tester.lent"),
        {"red_wire": "in", **ON_A_WHEEL, **PLUGGED},
        brings=True,
    ),
    Fault(
        "S42",
        "controller.*",
        _with_a_tester("knob", "{it}.signal=['{its.signal}', 'tester.lent']"),
        PLUGGED,
        brings=True,
    ),
)

SIGNAL = (*RANGE, *PLUGS, *CONTROLS, *MIXES, *SETTINGS, *SERVOS)
