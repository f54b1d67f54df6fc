"""Do fuses protect what lies behind them, and do they bear the peaks?"""

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
    below,
    check,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.fuses import FusePeakFacts
from mulewright.facts.wiring import FuseFacts

AUX = (
    'regulator.aux={ kind = "switching", voltage = "6.0 V", current = "3 A", feeds = ["receiver.8"] }',
    'fuse.aux={ kind = "blade", rating = "5 A" }',
    'wire.aux={ path = ["board.main", "fuse.aux", "regulator.aux"], gauge = "20 AWG", length = "0.2 m" }',
)


@check(
    "P21",
    on=FuseFacts,
    severity=Severity.BLOCK,
    why="The wire becomes the fuse, and it does so inside the machine.",
    seen="Wire smokes while its fuse stays whole",
    symptom=Symptom.HOT,
    fixes=(
        "Take a fuse no larger than the thinnest wire behind it bears.",
        "Take thicker wire behind it.",
        "Give the thin branches fuses of their own.",
    ),
    levers=("fuse.*.rating", "wire.*.gauge"),
    limits=Limit(1.0, "ratio", "common practice"),
    examples=(
        Example("tray-cart", Outcome.PASS, "fuse.main"),
        Example("tray-cart", Outcome.TRIP, "fuse.main", ("fuse.main.rating=20 A",), Severity.BLOCK),
        Example("aisle-carrier", Outcome.PASS, "fuse.main"),
        Example("aisle-carrier", Outcome.PASS, "fuse.main", variant="own-servo-supply"),
        Example("tray-cart", Outcome.CANNOT_TELL, "fuse.main", ("wire.branches.gauge=?",)),
    ),
    flips=(Flip("tray-cart", "fuse.main", "fuse.main.rating", "5 A", "30 A"),),
)
def fuse_bigger_than_wire(fuse: FuseFacts, limits: Limits) -> Answer:
    """The rating of a fuse, against what the thinnest wire behind it bears.

    Worked out: every run behind it counts up to the next fuse; behind a regulator that device limits the
    current. What a gauge bears is read off a table for short runs on a chassis, unless the file says it for
    the wire.

    Not covered: bundles, hot places and long runs, for which the table promises too much.

    Source: the ratio as in ABYC E-11 for circuits without motors; the table is common practice, no source.
    """
    what = "{fuse} is rated {rating} and the thinnest wire behind it bears {thinnest}, {value:%} of it."
    return above(fuse.over_wire, limits, what, fuse=fuse.id, rating=fuse.rating, thinnest=fuse.thinnest)


@check(
    "P24",
    on=FusePeakFacts,
    severity=Severity.WARN,
    why="The mule goes dead while it pushes against a wall, and the spare fuses are used up in an afternoon.",
    seen="Everything is dead after a hard push, and the fuse is blown",
    symptom=Symptom.CUTS_OUT,
    fixes=(
        "Take the next size, as far as the wire bears it.",
        "Lower the travel or the rate, so that less is drawn.",
    ),
    levers=("fuse.*.rating", "radio.channel.*.travel", "battery.*.part"),
    limits=Limit("2 s", "time", "judgement", "judgement: how long somebody pushes a wall before letting go"),
    examples=(
        Example("tray-cart", Outcome.PASS, "fuse.main"),
        Example("aisle-carrier", Outcome.PASS, "fuse.main"),
        Example("tray-cart", Outcome.TRIP, "fuse.main", ("fuse.main.rating=7.5 A",), Severity.WARN),
        Example("tray-cart", Outcome.CANNOT_TELL, "fuse.main", ("battery.main.resistance=?",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "fuse.main", ("fuse.main.kind=?",)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "fuse.main", ("fuse.main.kind=breaker",)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "fuse.aux", AUX),
    ),
    flips=(Flip("tray-cart", "fuse.main", "fuse.main.rating", "6 A", "11 A"),),
)
def fuse_blows_on_peaks(fuse: FusePeakFacts, limits: Limits) -> Answer:
    """The shortest time after which a fuse may blow with every motor held fast, against how long that lasts.

    Worked out: the current of all motors behind it, held fast at full stick and solved together with the
    battery's sag and all wires, over its rating. At that multiple a published band gives the time: it holds
    at least to the one end and has blown for certain at the other. Between them nobody can tell.

    Not covered: a fuse that is warm from the minutes before, and reversals, which draw more for a moment.

    Source: ISO 8820-3, medium blade; between its points straight lines in double logarithms, a judgement.
    """
    if not fuse.feeds_motors:
        return NotApplicable(f"no controller with a motor lies behind {fuse.id}")
    if not fuse.is_blade:
        return NotApplicable(f"{fuse.id} is no blade fuse, and its own curve is not known here")
    what = (
        "Every motor held fast draws {current} through {fuse}, {multiple} times its rating. "
        "Time until it may blow: {value}; until it surely has: {longest}. A peak is taken to last {limit}."
    )
    return below(
        fuse.shortest, limits, what, fuse=fuse.id, current=fuse.current, multiple=fuse.multiple,
        longest=fuse.longest,
    )  # fmt: skip


@check(
    "P25",
    on=FusePeakFacts,
    severity=Severity.NOTE,
    why="With a fault in its motor the controller is the fuse: it smokes and the fuse stays whole.",
    seen="Controller smokes while the fuse stays whole",
    symptom=Symptom.HOT,
    fixes=(
        "Give the controller a fuse or a breaker of its own.",
        "Take a smaller main fuse, as far as the peaks allow it.",
    ),
    levers=("fuse.*.rating", "controller.*.part"),
    limits=Limit(3.0, "ratio", "common practice"),
    examples=(
        Example("tray-cart", Outcome.PASS, "fuse.main"),
        Example("tray-cart", Outcome.TRIP, "fuse.main", ("fuse.main.rating=50 A",), Severity.NOTE),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "fuse.aux", AUX),
        Example("tray-cart", Outcome.CANNOT_TELL, "fuse.main", ("controller.left.peak_current=?",)),
    ),
    flips=(Flip("tray-cart", "fuse.main", "fuse.main.rating", "15 A", "80 A"),),
)
def fuse_too_big_for_controller(fuse: FusePeakFacts, limits: Limits) -> Answer:
    """The rating of a fuse, against the peak current of the weakest controller that it alone protects.

    Worked out: every controller behind it counts, up to the next fuse.

    Not covered: controllers that limit their current by themselves.

    Source: common practice, no source.
    """
    if not fuse.controllers:
        return NotApplicable(f"no controller lies behind {fuse.id} before the next fuse")
    what = "{fuse} is rated {value} times the {weakest} that the weakest controller behind it bears."
    return above(fuse.over_controller, limits, what, fuse=fuse.id, weakest=fuse.weakest)
