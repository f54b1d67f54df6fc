"""What do the wires cost in volts, and do wires and boards bear what flows in them for long?"""

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
    either,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.drops import DropFacts
from mulewright.facts.steady import BoardLoadFacts, WireLoadFacts

LONG = ("wire.branches.length=8 m",)
WORKING_WARN = ("wire.branches.length=16 m",)
WORKING_STOP = ("wire.branches.length=40 m",)


@check(
    "P26",
    on=DropFacts,
    severity=Severity.WARN,
    why="Lost volts are lost speed, and the receiver's rail sinks with them.",
    seen="Far fewer volts at the motor than at the battery, and a warm wire",
    symptom=Symptom.WEAK,
    fixes=("Take thicker wire.", "Shorten the wire, or move the battery."),
    levers=("wire.*.gauge", "wire.*.length", "wire.*.contact_resistance"),
    limits={
        Severity.WARN: Limit(0.05, "ratio", "common practice"),
        Severity.STOP: Limit(0.10, "ratio", "common practice"),
    },
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left@all-stalled"),
        Example("tray-cart", Outcome.TRIP, "controller.left@all-stalled", LONG, Severity.WARN),
        Example("aisle-carrier", Outcome.PASS, "controller.lift@lift-working"),
        Example("aisle-carrier", Outcome.TRIP, "controller.lift@lift-working", WORKING_WARN, Severity.WARN),
        Example("aisle-carrier", Outcome.TRIP, "controller.lift@lift-working", WORKING_STOP, Severity.STOP),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left@all-stalled", ("wire.main.length=?",)),
    ),
    flips=(
        Flip("tray-cart", "controller.left@all-stalled", "wire.branches.length", "0.3 m", "20 m"),
        Flip("aisle-carrier", "controller.lift@lift-working", "wire.branches.length", "0.3 m", "20 m"),
    ),
)
def wires_cost_volts(drop: DropFacts, limits: Limits) -> Answer:
    """The volts lost between battery and controller, as a share of the battery's rested volts.

    Worked out: all loads of a case solved together. At the load of a lift, an arm or a winch the stricter
    pair of limits holds; with every motor held fast only the higher one, and it warns.

    Not covered: plugs whose resistance is not noted, and drives, whose steady load depends on the floor.

    Source: common practice, no source.
    """
    levels = {Severity.WARN: limits[Severity.STOP]} if drop.stalled else limits
    what = "{lost} are lost on the way to {place} while {case}: {value:%}, at most {limit:%} is fine."
    return above(drop.share, levels, what, place=drop.thing, lost=drop.lost, case=drop.words)


@check(
    "P22",
    on=WireLoadFacts,
    severity=Severity.WARN,
    why="Its insulation softens, its resistance climbs, and with it the volts that it costs.",
    seen="A wire is warm after a minute of driving",
    symptom=Symptom.HOT,
    fixes=("Take thicker wire.", "Draw less: lower the travel or the rate, or gear the motor down."),
    levers=("wire.*.gauge", "wire.*.ampacity", "radio.channel.*.travel"),
    limits=Limit(1.0, "ratio", "common practice"),
    examples=(
        Example("tray-cart", Outcome.PASS, "wire.main"),
        Example("log-winch", Outcome.TRIP, "wire.main", ("wire.main.gauge=22 AWG",), Severity.WARN),
        Example("tray-cart", Outcome.CANNOT_TELL, "wire.main", ("body.mass=?",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "wire.main", ("wire.main.path=?",)),
        Example("two-benches", Outcome.NOT_APPLICABLE, "wire.servo"),
    ),
    flips=(Flip("log-winch", "wire.main", "mechanism.winch.load", "5 kg", "40 kg"),),
)
def wire_too_thin(wire: WireLoadFacts, limits: Limits) -> Answer:
    """The current in a wire for long, against what its gauge bears.

    Worked out: every motor at its work at full stick at once: loads raised, the machine rolling on level
    ground, the rest at the torque that is noted for it. What a gauge bears is read off a table for short runs
    on a chassis, unless the file says it for the wire.

    Not covered: slopes, carpets and pushing, which draw more; pauses, in which a wire cools; bundles, hot
    places and what regulators draw.

    Source: the table is common practice, no source.
    """
    if not wire.runs:
        return NotApplicable(f"the current of no motor goes through {wire.id}")
    what = "{wire} carries {steady} for long, {value:%} of the {most} that it bears."
    return above(wire.steady_share, limits, what, wire=wire.id, steady=wire.steady, most=wire.wire.ampacity)


@check(
    "P38",
    on=BoardLoadFacts,
    severity=Severity.WARN,
    why="A copper track or a terminal overheats where nobody looks.",
    seen="The distribution board is hot, or smells",
    symptom=Symptom.HOT,
    fixes=("Share the loads out over two boards.", "Wire the strongest load straight to the battery's lead."),
    levers=("board.*.rating", "board.*.port_rating", "wire.*.path"),
    limits=Limit(1.0, "ratio", "common practice"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "board.main"),
        Example("aisle-carrier", Outcome.TRIP, "board.main", ("board.main.rating=3 A",), Severity.WARN),
        Example("aisle-carrier", Outcome.TRIP, "board.main", ("board.main.port_rating=1 A",), Severity.WARN),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "board.main", ("board.main.rating=?",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "board.main", ("motor.pump.load_torque=?",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "board.main", ("wire.branches.path=?",)),
        Example(
            "tray-cart",
            Outcome.NOT_APPLICABLE,
            "board.main",
            ('wire.branches.path=["board.main", "regulator.x"]', "regulator.x={}"),
        ),
    ),
    flips=(
        Flip("aisle-carrier", "board.main", "board.main.rating", "1 A", "30 A"),
        Flip("aisle-carrier", "board.main", "board.main.port_rating", "0.5 A", "15 A"),
    ),
)
def board_too_small(board: BoardLoadFacts, limits: Limits) -> Answer:
    """The current through a distribution board for long, in all and in one port, against its ratings.

    Worked out: every motor at its work at full stick at once, as for wires.

    Not covered: peaks, loose terminal screws, and what regulators draw.

    Source: common practice, no source.
    """
    if not board.feeds_motors:
        return NotApplicable(f"the current of no motor goes through {board.id}")
    in_all = above(
        board.share, limits, "{board} carries {current} for long, {value:%} of its {most}.",
        board=board.id, current=board.current, most=board.rating,
    )  # fmt: skip
    port = above(
        board.port_share, limits, "One port of {board} carries {current} for long, {value:%} of its {most}.",
        board=board.id, current=board.port_current, most=board.port_rating,
    )  # fmt: skip
    return either(in_all, port)
