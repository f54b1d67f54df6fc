"""Is it slow enough to be placed by hand, and fast enough for its task?"""

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
    below,
    check,
    either,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.budgets import BudgetFacts
from mulewright.facts.driving import WantedSpeedFacts
from mulewright.facts.holding import RaisingArmFacts, RaisingOnRopeFacts
from mulewright.facts.sweeping import SweepingFacts

SLOWER = (
    "Put more reduction between motor and load.",
    "Lower the rate, and look at how much of the stick then does nothing.",
)


@check(
    "M12",
    on=RaisingArmFacts,
    severity=Severity.WARN,
    why="A person cannot stop it where they want it.",
    seen="Arm overshoots the place where it is wanted",
    symptom=Symptom.COARSE,
    fixes=SLOWER,
    levers=("motor.*.gears.*.ratio", "radio.channel.*.travel"),
    limits=Limit("1.0 s", "time", mark="common practice"),
    examples=(
        Example("long-reach-pruner", Outcome.PASS, "mechanism.arm"),
        Example("long-reach-pruner", Outcome.TRIP, "mechanism.arm", ("mechanism.arm.travel=15 deg",)),
        Example("long-reach-pruner", Outcome.CANNOT_TELL, "mechanism.arm", ("mechanism.arm.travel=?",)),
    ),
    flips=(Flip("long-reach-pruner", "mechanism.arm", "mechanism.arm.travel", "10 deg", "90 deg"),),
)
def arm_too_fast_to_place(arm: RaisingArmFacts, limits: Limits) -> Answer:
    """The time that an arm takes over its whole way going up with its load, against what a hand can follow.

    Worked out: the motor's speed at full stick and nominal volts under the torque of the level arm, through
    its gear stages.

    Not covered: going down, which is faster; the time to get up to speed and to stop.

    Source: common practice, no source.
    """
    return below(arm.rise_time, limits, "Its whole way takes {value} at full stick; the limit is {limit}.")


@check(
    "M13",
    on=BudgetFacts,
    severity=Severity.NOTE,
    why="Time is lost on every run, or drivers leave the step out.",
    seen="Everybody waits for the arm",
    symptom=Symptom.WEAK,
    fixes=("Put less reduction between motor and load.", "Take a stronger motor.", "Give it more signal."),
    levers=("motor.*.gears.*.ratio", "motor.*.part", "drive.wheel.diameter", "radio.channel.*.travel"),
    examples=(
        Example("long-reach-pruner", Outcome.PASS, "mechanism.arm", ("mechanism.arm.time_budget=20 s",)),
        Example("long-reach-pruner", Outcome.TRIP, "mechanism.arm", ("mechanism.arm.time_budget=0.5 s",)),
        Example("tray-cart", Outcome.PASS, "course", ("course.length=5 m", "course.time_budget=10 s")),
        Example("tray-cart", Outcome.TRIP, "course", ("course.length=20 m", "course.time_budget=10 s")),
        Example("tray-cart", Outcome.CANNOT_TELL, "course", ("course.length=?", "course.time_budget=10 s")),
    ),
    flips=(
        Flip("long-reach-pruner", "mechanism.arm", "mechanism.arm.time_budget", "0.5 s", "20 s"),
        Flip("tray-cart", "course", "course.length", "1 m", "30 m", ("course.time_budget=10 s",)),
    ),
)
def too_slow_for_its_task(budget: BudgetFacts, limits: Limits) -> Answer:
    """The time of an arm over its whole way, or of the drive over the course, against what the task allows.

    Worked out: for an arm going up with its load, at full stick and nominal volts; for the drive the length
    of the course over the top speed to expect.

    Not covered: starting and stopping, corners, a second look before one goes on; a lift has a check of its
    own.

    Source: the task's own numbers.
    """
    return above(
        budget.full_stick_time,
        {Severity.NOTE: budget.time_budget},
        "{words} takes {value} at full stick; the task allows {limit}.",
        words=budget.words,
    )


@check(
    "M24",
    on=RaisingOnRopeFacts,
    severity=Severity.WARN,
    why="What is too fast cannot be stopped at a height, and for what is too slow everybody waits.",
    seen="Lift always stops too high or too low",
    symptom=Symptom.COARSE,
    fixes=(*SLOWER, "Take a thinner drum.", "Where it is too slow: less reduction, or a wider drum."),
    levers=("mechanism.*.drum_diameter", "motor.*.gears.*.ratio", "radio.channel.*.travel"),
    limits=Limit("0.8 s", "time", mark="common practice"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "mechanism.lift"),
        Example("aisle-carrier", Outcome.TRIP, "mechanism.lift", ("mechanism.lift.travel=0.1 m",)),
        Example("aisle-carrier", Outcome.TRIP, "mechanism.lift", ("mechanism.lift.time_budget=4 s",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "mechanism.lift", ("mechanism.lift.drum_diameter=?",)),
    ),
    flips=(
        Flip("aisle-carrier", "mechanism.lift", "mechanism.lift.travel", "0.05 m", "0.8 m"),
        Flip("aisle-carrier", "mechanism.lift", "mechanism.lift.time_budget", "2 s", "10 s"),
    ),
)
def lift_too_fast_or_too_slow(lift: RaisingOnRopeFacts, limits: Limits) -> Answer:
    """The time of a lift over its whole way up with its load, against what a hand can follow and a task allows.

    Worked out: the motor's speed at full stick and nominal volts under its load, times the radius of the
    drum, times the way of the load for each metre of rope. The task has a say where a longest time is noted.

    Not covered: going down, which is faster; the time to get up to speed and to stop.

    Source: common practice, no source.
    """
    return either(
        below(lift.rise_time, limits, "Its whole way takes {value} at full stick; the limit is {limit}."),
        above(
            lift.rise_time,
            {Severity.WARN: lift.allowed_time},
            "Its whole way takes {value} at full stick; the task allows {limit}.",
        ),
    )


@check(
    "M31",
    on=SweepingFacts,
    severity=Severity.STOP,
    why="A roller that is slower than the cart pushes things away instead of taking them in.",
    seen="Roller pushes things along instead of taking them in",
    symptom=Symptom.WRONG,
    fixes=("Take a larger roller.", "Put less reduction before the roller.", "Lower the rate of forward."),
    levers=("mechanism.*.diameter", "motor.*.gears.*.ratio", "drive.wheel.diameter"),
    limits={
        Severity.STOP: Limit(1, "ratio", mark="common practice"),
        Severity.WARN: Limit(2, "ratio", mark="common practice"),
    },
    examples=(
        Example("leaf-sweeper", Outcome.TRIP, "mechanism.roller", (), Severity.STOP),
        Example(
            "leaf-sweeper",
            Outcome.TRIP,
            "mechanism.roller",
            ("mechanism.roller.diameter=100 mm",),
            Severity.WARN,
        ),
        Example("leaf-sweeper", Outcome.PASS, "mechanism.roller", ("mechanism.roller.diameter=160 mm",)),
        Example("leaf-sweeper", Outcome.CANNOT_TELL, "mechanism.roller", ("mechanism.roller.diameter=?",)),
    ),
    flips=(Flip("leaf-sweeper", "mechanism.roller", "mechanism.roller.diameter", "80 mm", "200 mm"),),
)
def roller_slower_than_the_cart(sweeping: SweepingFacts, limits: Limits) -> Answer:
    """The speed of a roller's rim over the top speed of the cart, both with nothing to push, at full stick.

    Worked out: each motor's speed at nominal volts and free current, through its gear stages, times the
    radius.

    Not covered: how much either slows down under its load; leaves that slip on the roller.

    Source: common practice, no source.
    """
    return below(
        sweeping.rim_ratio,
        limits,
        "The roller's rim goes {rim} and the cart {cart}: a ratio of {value}, where {limit} is expected.",
        rim=sweeping.roller.roller_speed,
        cart=sweeping.cart,
    )


@check(
    "M34",
    on=WantedSpeedFacts,
    severity=Severity.NOTE,
    why="A trial at another speed answers another question.",
    seen="Drives faster or slower over the floor than was planned",
    symptom=Symptom.ON_PAPER,
    fixes=("Look at duty, volts, ratio and wheel diameter, in this order.",),
    levers=("drive.wheel.diameter", "motor.*.gears.*.ratio", "motor.*.part"),
    limits=Limit("20 %", "percent", mark="judgement"),
    examples=(
        Example("tray-cart", Outcome.PASS, "drive", ("drive.wanted_speed=1.0 m/s",)),
        Example("tray-cart", Outcome.TRIP, "drive", ("drive.wanted_speed=1.5 m/s",)),
        Example("tray-cart", Outcome.TRIP, "drive", ("drive.wanted_speed=0.5 m/s",)),
        Example(
            "tray-cart",
            Outcome.CANNOT_TELL,
            "drive",
            ("drive.wanted_speed=1.0 m/s", "drive.wheel.diameter=?"),
        ),
    ),
    flips=(Flip("tray-cart", "drive", "drive.wanted_speed", "0.9 m/s", "1.5 m/s"),),
)
def other_speed_than_wanted(drive: WantedSpeedFacts, limits: Limits) -> Answer:
    """The top speed to expect on the floor, against the one that the task asks for.

    Worked out: the sheet's free speed, times duty and volts over nominal volts, through the gear stages,
    times the wheel's radius, times 0.85 for rolling.

    Not covered: slopes, loads, soft floors.

    Source: common practice, no source.
    """
    return above(
        drive.speed_deviation,
        limits,
        "About {expected} is to be expected, {value:%} from the {wanted} that is wanted; "
        "the limit is {limit:%}.",
        expected=drive.expected,
        wanted=drive.wanted_speed,
    )
