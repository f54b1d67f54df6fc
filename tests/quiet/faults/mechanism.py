"""Faults of motors, gears and mechanisms."""

from __future__ import annotations

from tests.quiet.injection import Fault

LIGHT = ("sapling-arm", "seed-runner", "seed-thrower")  # their motors hardly work
ARM, LIFT, WINCH = {"kind": "arm"}, {"kind": "lift"}, {"kind": "winch"}
RAISED = {"kind": "~lift|arm"}
JAW, WHEEL = {"kind": "gripper"}, {"kind": "flywheel"}

MOTORS = (
    Fault("M00", "motor.*", ("{it}.stall_torque=240 N m",)),
    Fault("M01", "controller.*", scale={"peak_current": 0.08, "continuous_current": 0.08}),
    Fault("M02", "controller.*", ("{it}.continuous_current=0.1 A",)),
    Fault("M03", "controller.hoist", ("{it}.peak_current=8 A",)),
    Fault("M04", "drive", ("{it}.wheel.friction=0.3",)),
    Fault("M06", "mechanism.*", scale={"load": 15}, where=RAISED),
    Fault("M11", "controller.*", ("{it}.peak_current=9 A",), {"part": "ctl-10l", "feeds": r"~motor\.lift"}),
    Fault("M11", "controller.*", ("{it}.peak_current=4 A",), {"feeds": r"~motor\.arm"}),
    Fault("M11", "controller.*", ("{it}.peak_current=22 A",), {"feeds": r"~motor\.winch"}),
    Fault("M15", "motor.*", ("{it}.gearbox_limit=0.1 N m",), {"gearbox": True}),
    Fault("M16", "motor.*", ("{it}.set_screw_force=20 N",), {"shaft": "round"}),
    Fault(
        "M16",
        "motor.*",
        ("{it}.shaft=round", "{it}.shaft_diameter=4 mm", "{it}.set_screw_force=100 N"),
        {"shaft": "flat", "part": "~gm-(drive|heavy)"},
        brings=True,
    ),
    Fault(
        "M44",
        "motor.*",
        ("{it}.gears=[{{ kind = 'spur', driver_teeth = 20, driven_teeth = 30 }}]", "{it}.total_ratio=2"),
        {"gears": None},
        brings=True,
    ),
    Fault("M44", "motor.arm", ("{it}.total_ratio=6",)),
    Fault("M45", "motor.*", ("{it}.friction_voltage=3 V",)),
    Fault("M46", "motor.*", ("{it}.mass=0.01 kg",), but=LIGHT),
    Fault("M47", "motor.*", ("{it}.mirrored=true",), {"turns": "mechanism.hoist"}),
    Fault("M47", "motor.*", ("{it}.free_speed=300 rpm",), {"turns": "mechanism.hoist"}),
)

RAISING = (
    Fault("M05", "mechanism.*", scale={"load": 40}),
    Fault("M07", "mechanism.*", ("{it}.ratchet=false", "{it}.load=3 kg"), ARM),
    Fault("M07", "mechanism.*", ("{it}.ratchet=false", "{it}.load=1.5 kg"), LIFT),
    Fault("M08", "mechanism.*", ("{it}.ratchet=false", "{it}.counterbalance=0 N m", "{it}.load=4 kg"), ARM),
    Fault("M08", "mechanism.*", ("{it}.ratchet=false", "{it}.hold_time=120 s"), LIFT, scale={"load": 32}),
    Fault("M09", "mechanism.*", scale={"load": 60}, where=RAISED),
    Fault("M10", "mechanism.*", ("{it}.stop_switch=false",), {"stop_switch": True, "kind": "lift"}),
    Fault("M12", "mechanism.*", ("{it}.travel=10 deg",), ARM),
    Fault("M13", "mechanism.*", ("{it}.time_budget=0.5 s",), ARM),
    Fault("M13", "drive", ("course.time_budget=3 s",)),
    Fault("M14", "mechanism.*", ("{it}.efficiency=1.0",), {"kind": "~lift|winch"}),
    Fault("M14", "mechanism.*", ("motor.arm.gears.0.efficiency=1.0",), ARM),
    Fault("M23", "mechanism.*", scale={"load": 50}, where=LIFT),
    Fault("M24", "mechanism.*", ("{it}.travel=50 mm",), LIFT),
    Fault("M24", "mechanism.*", ("{it}.time_budget=0.5 s",), LIFT),
    Fault("M25", "mechanism.*", ("{it}.ratchet=false", "{it}.load=3 kg"), LIFT),
    Fault("M25", "mechanism.*", ("{it}.ratchet=false", "{it}.load=6 kg"), {"use": "lifting"}),
    Fault("M26", "mechanism.*", ("{it}.rope.breaking=200 N",), WINCH),
    Fault("M26", "mechanism.*", ("{it}.rope.breaking=1.2 kN", "{it}.rope.knots=true"), WINCH),
    Fault("M27", "mechanism.*", ("{it}.layers=6",), WINCH),
    Fault("M43", "mechanism.*", ("{it}.inertia=5 kg m2",), ARM),
    Fault("M48", "mechanism.*", ("{it}.backlash=30 mm",)),
)

SERVOS = (
    Fault("M17", "servo.*", ("{it}.load_torque=1.2 N m",), {"moves": None}),
    Fault("M17", "servo.*", ("{it}.load_torque=0.7 N m",), {"part": "sv-ht", "moves": None}),
    Fault("M18", "servo.*", ("{it}.load_inertia=0.2 kg m2",)),
    Fault("M19", "servo.*", ("{it}.wanted_time=0.1 s",)),
    Fault("M20", "mechanism.*", ("{it}.linkage.transmission_angle=20 deg",), JAW),
    Fault("M21", "mechanism.*", ("{it}.object_mass=5 kg",), JAW),
    Fault("M21", "mechanism.*", ("{it}.friction=0.01",), JAW),
    Fault("M22", "mechanism.*", ("{it}.closes_beyond=true", "{it}.compliant=false"), JAW),
)

TURNING = (
    Fault("M28", "mechanism.*", ("{it}.object_mass=150 g",), WHEEL),
    Fault("M29", "mechanism.*", ("{it}.interval=0.05 s",), WHEEL),
    Fault("M30", "mechanism.*", ("{it}.wanted_distance=30 m",), WHEEL),
    Fault("M30", "mechanism.*", ("room.free=1.5 m",), WHEEL),
    Fault("M31", "mechanism.*", ("{it}.diameter=15 mm",), {"kind": "roller"}),
    Fault("M32", "mechanism.*", ("{it}.slips=false", "{it}.bears=5 N"), {"kind": "roller"}, brings=True),
)

DRIVING = (
    Fault("M33", "drive", ("{it}.wanted_push=800 N",)),
    Fault("M34", "drive", ("{it}.wanted_speed=2 m/s",)),
    Fault("M35", sets=("room.free=0.7 m",), but=("seed-runner",)),
    Fault("M36", sets=("body.track=0.20 m",)),
    Fault("M37", "drive", ("{it}.side_mismatch=4 %",)),
    Fault(
        "M38",
        "drive",
        (
            "{it}.hands={{ front_left = 'right', front_right = 'left', rear_left = 'left', rear_right = 'right' }}",
        ),
    ),
    Fault("M39", "drive", ("{it}.wheel.plan_loss=100 %",)),
    Fault("M40", sets=("body.frame_error=5 mm", "body.lightest_wheel=?")),
    Fault("M40", sets=("body.lightest_wheel=5 %",)),
    Fault("M41", sets=("body.center_ahead=0.22 m",)),
    Fault("M42", "drive", ("room.steepest=46 deg",), {"kind": r"~two-.*|four.*|skid.*"}),
)

MECHANISM = (*MOTORS, *RAISING, *SERVOS, *TURNING, *DRIVING)
