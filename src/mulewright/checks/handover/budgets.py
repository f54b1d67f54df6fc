"""Does the target give what the mule took: amperes at each port, ports, a servo rail?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Flip,
    Limit,
    Limits,
    Outcome,
    Severity,
    above,
    check,
    either,
    flagged,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.handover_load import PlugPlanFacts, PortFacts, ServoBudgetFacts

BENCHES, TARGET = "two-benches", "two-benches/target.toml"
LIFT = "motor.lift"


@check(
    "H05",
    on=PortFacts,
    severity=Severity.STOP,
    why="The port holds the motor back, and what the mule lifted stays half way up.",
    seen="Lift stops half way although the volts are healthy",
    symptom=Symptom.WEAK,
    fixes=(
        "Put more reduction between motor and load, so that it takes fewer amperes.",
        "Share the load between two motors on two ports.",
        "Add a counterbalance, or take weight off.",
    ),
    levers=("target:target.port_current_limit", "mechanism.*.load", "motor.*.gears"),
    examples=(
        Example(BENCHES, Outcome.TRIP, LIFT, target=TARGET),
        Example(BENCHES, Outcome.PASS, LIFT, ("target:target.port_current_limit=10 A",), target=TARGET),
        Example(
            BENCHES,
            Outcome.PASS,
            LIFT,
            ("target:target.port_current_limit=?", "target.port_current_limit=10 A"),
            target=TARGET,
        ),
        Example(BENCHES, Outcome.CANNOT_TELL, LIFT, ("target:target.port_current_limit=?",), target=TARGET),
    ),
    flips=(Flip(BENCHES, LIFT, "target:target.port_current_limit", "4 A", "12 A", target=TARGET),),
)
def port_holds_motor_back(port: PortFacts, limits: Limits) -> Answer:
    """The current that a motor takes for its load on the mule, against the current limit of the target's ports.

    Worked out: load, gears and efficiencies give the torque, the motor's sheet the current. At the limit the
    torque is the torque constant times what is left above the free current.

    Not covered: driving and turning on the spot, short peaks, another motor or another load on the target.

    Source: arithmetic on both files; the limit is a value of the target's maker.
    """
    return above(
        port.used_current,
        {Severity.STOP: port.port_limit},
        "For its load it takes {value}; the target's port limits to {limit}. That gives {torque}, and {asked} "
        "are asked.",
        torque=port.torque_at_limit,
        asked=port.held.asked,
    )


@check(
    "H06",
    on=ServoBudgetFacts,
    severity=Severity.STOP,
    why="The port shuts down, and every servo on it goes limp at once.",
    seen="All servos die together on the target",
    symptom=Symptom.CUTS_OUT,
    fixes=(
        "Split the servos over two rails, or give them a supply of their own.",
        "Take servos that draw less.",
        "Set the ends so that no servo is held fast at its stop.",
    ),
    levers=("target:target.servo_rail_current", "target:target.servo_port_current", "servo.*.stall_current"),
    limits=Limit(1.0, "ratio", mark="common practice"),
    examples=(
        Example(BENCHES, Outcome.TRIP, "servos", target=TARGET),
        Example(BENCHES, Outcome.PASS, "servo.tray", target=TARGET),
        Example(BENCHES, Outcome.PASS, "servos", ("target:target.servo_rail_current=6 A",), target=TARGET),
        Example(
            BENCHES, Outcome.TRIP, "servo.tray", ("target:target.servo_port_current=2 A",), target=TARGET
        ),
        Example(
            BENCHES, Outcome.CANNOT_TELL, "servos", ("target:target.servo_rail_current=?",), target=TARGET
        ),
    ),
    flips=(
        Flip(BENCHES, "servos", "target:target.servo_rail_current", "3 A", "9 A", target=TARGET),
        Flip(BENCHES, "servo.tray", "target:target.servo_port_current", "1 A", "4 A", target=TARGET),
    ),
)
def servo_rail_too_weak(servos: ServoBudgetFacts, limits: Limits) -> Answer:
    """The current of the mule's servos held fast, against what the target has for them.

    Worked out: the stall currents of all servos together over the rail, and that of each one over its port.

    Not covered: servos that can never be held fast together.

    Source: common practice, no source; the amperes are values of the target's maker.
    """
    return above(
        servos.budget_share,
        limits,
        "Held fast, {which} {draw}; the target has {budget} for that: {value:%}.",
        which=servos.words,
        draw=servos.draw,
        budget=servos.budget,
    )


@check(
    "H08",
    on=PlugPlanFacts,
    severity=Severity.STOP,
    why="The machine cannot be plugged in as it was tried out.",
    seen="On wiring day there are more plugs than ports",
    symptom=Symptom.ON_PAPER,
    fixes=(
        "Let one motor do the work of two, by gears or a linkage.",
        "Take a control unit with more ports.",
        "Give up a function.",
    ),
    levers=("target:target.port_count", "target:target.y_leads_allowed"),
    examples=(
        Example(BENCHES, Outcome.PASS, "ports", target=TARGET),
        Example(BENCHES, Outcome.TRIP, "ports", ("target:target.port_count=2",), target=TARGET),
        Example(BENCHES, Outcome.PASS, "ports", ("target:target.port_count=3",), target=TARGET),
        Example(BENCHES, Outcome.TRIP, "ports", ("target:target.y_leads_allowed=false",), target=TARGET),
        Example(BENCHES, Outcome.CANNOT_TELL, "ports", ("target:target.port_count=?",), target=TARGET),
        Example(BENCHES, Outcome.CANNOT_TELL, "ports", ("target:target.y_leads_allowed=?",), target=TARGET),
    ),
)
def ports_too_few(plan: PlugPlanFacts, limits: Limits) -> Answer:
    """The motor ports that the mule's motors take, against those of the target; and whether motors may share one.

    Worked out: counted. Motors whose controllers get their pulse from one plug share a port where the target's
    rules allow it, and take one each where they do not; then the plan itself is forbidden as well.

    Not covered: ports for servos and sensors.

    Source: the target's own data.
    """
    return either(
        above(
            plan.ports_taken,
            {Severity.STOP: plan.ports_there},
            "The mule's motors take {value} ports; the target has {limit}.",
        ),
        flagged(
            plan.shares_forbidden,
            Severity.STOP,
            "{shared} of the mule's motors share a plug with another one, and the target's rules forbid that.",
            shared=str(plan.shared),
        ),
    )
