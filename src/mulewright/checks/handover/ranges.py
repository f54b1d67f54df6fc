"""Does the same command do more on the target: a wider range, more volts, both together?"""

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
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.handover import MachineFacts
from mulewright.facts.handover_signals import ControllerPairFacts, ServoPairFacts

BENCHES, TARGET = "two-benches", "two-benches/target.toml"
SAME_RANGE = tuple(f"target:radio.channel.{number}.travel=79 %" for number in (1, 2, 3))
SAME_VOLTS = ("target:target.loaded_voltage=11.4 V",)
NO_VOLTS = ("accepted.loaded_voltage=?", "battery.main.rested=?")
LEFT = "controller.front_left"


@check(
    "H01",
    on=ControllerPairFacts,
    severity=Severity.STOP,
    why="Speed and force grow with the range, and the current out of the battery with its square.",
    seen="A fuse that never blew blows on the target; an arm slams",
    symptom=Symptom.COARSE,
    fixes=(
        "Cap the output of the target at the share with which to begin, and raise it in steps.",
        "Go through what gets worse on the target: fuses, wires, tipping, stops.",
        "Drive the mule again with the full range, so that its lessons hold.",
    ),
    levers=("target:radio.channel.*.travel", "radio.channel.*.travel", "radio.control.*.rate"),
    limits=Limit(1.05, "ratio", mark="judgement"),
    examples=(
        Example(BENCHES, Outcome.TRIP, LEFT, target=TARGET),
        Example(BENCHES, Outcome.PASS, LEFT, SAME_RANGE, target=TARGET),
        Example(BENCHES, Outcome.CANNOT_TELL, LEFT, (f"target:{LEFT}.half_range=?",), target=TARGET),
    ),
    flips=(
        Flip(BENCHES, LEFT, "target:radio.channel.2.travel", "70 %", "100 %", target=TARGET),
        Flip(BENCHES, LEFT, "radio.channel.2.travel", "80 %", "125 %", target=TARGET),
    ),
)
def range_widens(pair: ControllerPairFacts, limits: Limits) -> Answer:
    """The duty at full stick on the target over the duty at full stick on the mule.

    Worked out: pulse, dead band and range of the controller give the duty on each machine, as the two files
    have it. A motor held fast takes from the battery in proportion to the square of the duty.

    Not covered: the volts of the battery, which have a check of their own, and ports that limit the current.

    Source: arithmetic on both files; the threshold is a judgement.
    """
    return above(
        pair.duty_factor,
        limits,
        "Full stick asks {there:%} of the supply on the target and {here:%} on the mule: {value} times as much; "
        "up to {limit} passes for the same.",
        there=pair.beyond.full_duty,
        here=pair.here.full_duty,
    )


@check(
    "H02",
    on=ServoPairFacts,
    severity=Severity.STOP,
    why="The linkage is sent where it has never been, on the first start.",
    seen="On the first start a horn bends, a servo buzzes at an end",
    symptom=Symptom.HOT,
    fixes=(
        "Give the programmers the ends of the mule in microseconds as soft limits.",
        "Take the horn off for the first start.",
    ),
    levers=("target:target.pulse_low", "target:target.pulse_high", "radio.channel.*.travel"),
    limits=Limit("1 us", "pulse", mark="judgement", source="no servo tells less apart"),
    examples=(
        Example(BENCHES, Outcome.TRIP, "servo.tray", target=TARGET),
        Example(
            BENCHES,
            Outcome.PASS,
            "servo.tray",
            ("target:target.pulse_low=1100 us", "target:target.pulse_high=1900 us"),
            target=TARGET,
        ),
        Example(BENCHES, Outcome.TRIP, "servo.tray", ("target:target.pulse_low=1100 us",), target=TARGET),
        Example(BENCHES, Outcome.TRIP, "servo.tray", ("target:target.pulse_high=1900 us",), target=TARGET),
        Example(
            BENCHES, Outcome.CANNOT_TELL, "servo.tray", ("radio.channel.others.travel=?",), target=TARGET
        ),
    ),
    flips=(
        Flip(
            BENCHES,
            "servo.tray",
            "target:target.pulse_high",
            "1890 us",
            "1910 us",
            ("target:target.pulse_low=1200 us",),
            target=TARGET,
        ),
        Flip(
            BENCHES,
            "servo.tray",
            "target:target.pulse_low",
            "1090 us",
            "1110 us",
            ("target:target.pulse_high=1800 us",),
            target=TARGET,
        ),
    ),
)
def servo_range_widens(servo: ServoPairFacts, limits: Limits) -> Answer:
    """The pulses that the target may send a servo, against the longest and the shortest that the mule sent it.

    Worked out: the ends on the mule come from radio, travel and trims; those of the target from what is noted
    about it, or else from its own settings. The larger of both excesses counts.

    Not covered: where the linkage really binds, which may lie beyond the ends of the mule.

    Source: arithmetic on both files.
    """
    return above(
        servo.excess,
        limits,
        "The target sends {shortest} to {longest}, the mule never went beyond {low} to {high}: {value} too far.",
        shortest=servo.shortest_to_come,
        longest=servo.longest_to_come,
        low=servo.here.shortest,
        high=servo.here.longest,
    )


@check(
    "H03",
    on=MachineFacts,
    severity=Severity.WARN,
    why="The same command gives more speed, more force and more current.",
    seen="The same command does more of everything on the target's battery",
    symptom=Symptom.COARSE,
    fixes=(
        "Go through what gets worse on the target with its volts.",
        "Scale every duty that is handed over by the volts, or hand over volts instead of duties.",
    ),
    levers=("target:target.loaded_voltage", "accepted.loaded_voltage", "target:battery.*.rested"),
    limits=Limit(1.05, "ratio", mark="judgement"),
    examples=(
        Example(BENCHES, Outcome.TRIP, "handover", target=TARGET),
        Example(BENCHES, Outcome.PASS, "handover", SAME_VOLTS, target=TARGET),
        Example(BENCHES, Outcome.TRIP, "handover", ("accepted.loaded_voltage=?",), target=TARGET),
        Example(BENCHES, Outcome.CANNOT_TELL, "handover", NO_VOLTS, target=TARGET),
    ),
    flips=(Flip(BENCHES, "handover", "target:target.loaded_voltage", "11 V", "14 V", target=TARGET),),
)
def supply_has_more_volts(machine: MachineFacts, limits: Limits) -> Answer:
    """The supply of the target over the supply of the mule.

    Worked out: both as they were measured under load; where one of them is not noted, both rested packs.

    Not covered: how much further the target's pack sags with currents that the mule never drew.

    Source: arithmetic on both files; the threshold is a judgement.
    """
    return above(
        machine.voltage_factor,
        limits,
        "The target's supply has {value} times the volts of the mule's; up to {limit} passes for the same.",
    )


@check(
    "H04",
    on=ControllerPairFacts,
    severity=Severity.STOP,
    why="What was fine on the mule tips over, breaks or overshoots on the target.",
    seen="It was fine on the mule; the target tips, breaks or overshoots",
    symptom=Symptom.FALLS,
    fixes=(
        "Cap the output of the target at the share that is named here, and raise it in steps.",
        "Gear the target down by the factor.",
    ),
    levers=("target:radio.channel.*.travel", "target:target.loaded_voltage"),
    limits=Limit(1.3, "ratio", mark="judgement"),
    examples=(
        Example(BENCHES, Outcome.TRIP, LEFT, target=TARGET),
        Example(BENCHES, Outcome.PASS, LEFT, SAME_RANGE, target=TARGET),
        Example(BENCHES, Outcome.PASS, LEFT, SAME_VOLTS, target=TARGET),
        Example(BENCHES, Outcome.CANNOT_TELL, LEFT, NO_VOLTS, target=TARGET),
    ),
    flips=(Flip(BENCHES, LEFT, "target:target.loaded_voltage", "10 V", "14 V", target=TARGET),),
)
def range_and_volts_multiply(pair: ControllerPairFacts, limits: Limits) -> Answer:
    """Duty times volts at full stick, on the target over the mule.

    Worked out: the factor of the range times the factor of the supply. Speed grows with it, energy and tipping
    with its square, the current of a motor held fast out of the battery with the square of the range and the
    volts.

    Not covered: other gears, another mass, slipping wheels, ports that limit the current.

    Source: arithmetic on both files; the threshold is a judgement.
    """
    return above(
        pair.speed_factor,
        limits,
        "Range and volts together make {value} times the speed, {energy} times the energy and, held fast, {stall} "
        "times the battery current; the limit is {limit}. An output of {first:%} does what the mule did.",
        energy=pair.moving_factor,
        stall=pair.stall_factor,
        first=pair.first_output,
    )
