"""What goes wrong on a bench supply that went well on a battery?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Flip,
    Limit,
    Limits,
    NotApplicable,
    Outcome,
    Severity,
    above,
    check,
    flagged,
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.bench import BenchFacts

LAB = "bench_supply.lab"
BENCH = (
    f'{LAB}={{ voltage = "12 V", current_limit = "5 A", absorbs = false }}',
    f'wire.main.path=["{LAB}", "fuse.main", "switch.main", "board.main"]',
)
IDLE = BENCH[:1]
COASTING = (*BENCH, "controller.*.stopping=coast")


@check(
    "P39",
    on=BenchFacts,
    severity=Severity.WARN,
    why="What a braked motor gives back has nowhere to go: the volts climb and the supply switches off.",
    seen="The bench supply trips when the stick is let go or a load is lowered",
    symptom=Symptom.CUTS_OUT,
    fixes=(
        "Drive from a battery.",
        "Put a diode behind the supply, and a resistor that takes what comes back.",
        "Set the controllers to coast for the time on the bench.",
    ),
    levers=("bench_supply.*.absorbs", "controller.*.stopping"),
    examples=(
        Example("tray-cart", Outcome.TRIP, LAB, BENCH, Severity.WARN),
        Example("tray-cart", Outcome.PASS, LAB, COASTING),
        Example("tray-cart", Outcome.PASS, LAB, (*BENCH, f"{LAB}.absorbs=true")),
        Example("tray-cart", Outcome.PASS, LAB, (*BENCH, f"{LAB}.absorbs=true", "controller.*.stopping=?")),
        Example("log-winch", Outcome.TRIP, LAB, (BENCH[0], f'wire.main.path=["{LAB}", "controller.winch"]',
                                                 "controller.winch.stopping=coast")),
        Example("tray-cart", Outcome.CANNOT_TELL, LAB, (*BENCH, f"{LAB}.absorbs=?")),
        Example("tray-cart", Outcome.CANNOT_TELL, LAB, (*BENCH, "controller.*.stopping=?")),
        Example("tray-cart", Outcome.NOT_APPLICABLE, LAB, IDLE),
    ),
)  # fmt: skip
def bench_supply_takes_nothing_back(bench: BenchFacts, limits: Limits) -> Answer:
    """Whether a motor on a bench supply gives current back that the supply cannot take.

    Worked out: a controller that brakes, or a load that is lowered, gives back; whether the supply takes it is
    read off what was written about it.

    Not covered: how much comes back, and capacitors that swallow a little of it.

    Source: common practice, no source.
    """
    if not bench.motors:
        return NotApplicable(f"{bench.id} feeds no motor")
    if bench.choice("absorbs"):
        return flagged(bench.blocks, Severity.WARN, "{bench} takes current back.", bench=bench.id)
    what = "{bench} takes no current back; braked or lowering a load: {motors}."
    blocks = flagged(
        bench.blocks, Severity.WARN, what, bench=bench.id, motors=", ".join(bench.returning) or "no motor"
    )
    return together(blocks, flagged(bench.returning_count, Severity.WARN, ""))


@check(
    "P40",
    on=BenchFacts,
    severity=Severity.NOTE,
    why="The supply cuts in and out, which looks like a fault of the mule.",
    seen="Twitches and stops on the bench supply, runs on a battery",
    symptom=Symptom.CUTS_OUT,
    fixes=("Set a higher limit, as far as the wires bear it.", "Push the stick slowly, or lower the travel."),
    levers=("bench_supply.*.current_limit", "radio.channel.*.travel"),
    limits=Limit(1.0, "ratio", "common practice"),
    examples=(
        Example("tray-cart", Outcome.TRIP, LAB, BENCH, Severity.NOTE),
        Example("tray-cart", Outcome.PASS, LAB, (*BENCH, f"{LAB}.current_limit=30 A")),
        Example("tray-cart", Outcome.CANNOT_TELL, LAB, (*BENCH, f"{LAB}.current_limit=?")),
        Example("tray-cart", Outcome.NOT_APPLICABLE, LAB, IDLE),
    ),
    flips=(Flip("tray-cart", LAB, f"{LAB}.current_limit", "5 A", "30 A", BENCH),),
)
def bench_supply_limit_below_start(bench: BenchFacts, limits: Limits) -> Answer:
    """The current with which the strongest function starts on a bench supply, against the supply's limit.

    Worked out: volts over resistance of each motor that stands still, at full stick, seen from the supply;
    the motors of a function start together.

    Not covered: wires, which take a little off, and functions that start at the same moment.

    Source: Ohm's law.
    """
    if not bench.motors:
        return NotApplicable(f"{bench.id} feeds no motor")
    what = "A start asks {bench} for {start}, {value:%} of its limit of {most}."
    return above(
        bench.start_share, limits, what, bench=bench.id, start=bench.start_current, most=bench.current_limit
    )
