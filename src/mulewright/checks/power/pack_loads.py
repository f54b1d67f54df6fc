"""Does the pack bear the currents that are asked of it, and does it last?"""

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
    either,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.steady import PackLoadFacts, SessionFacts

RECEIVER_PACK = ('battery.small={ feeds = ["receiver.8"], rested = "4.8 V" }',)
NO_PEAK = ("battery.main.peak_current=?",)
RATES = (*NO_PEAK, "battery.main.peak_rate={} C", "battery.main.continuous_rate={} C")


def _rates(peak: float, steady: float) -> tuple[str, ...]:
    return (NO_PEAK[0], RATES[1].format(peak), RATES[2].format(steady))


@check(
    "P29",
    on=PackLoadFacts,
    severity=Severity.STOP,
    why="The pack sags and heats, and cells that are asked for too much swell and die.",
    seen="Slow in peaks, the pack hot, later swollen",
    symptom=Symptom.HOT,
    fixes=(
        "Take a bigger pack, or one made for higher currents.",
        "Draw less: lower the travel or the rate.",
    ),
    levers=("battery.*.part", "battery.*.capacity", "battery.*.peak_current", "radio.channel.*.travel"),
    limits={
        Severity.WARN: Limit(1.0, "ratio", "common practice"),
        Severity.STOP: Limit(1.0, "ratio", "common practice"),
    },
    examples=(
        Example("tray-cart", Outcome.PASS, "battery.main"),
        Example("hose-tug", Outcome.PASS, "battery.main"),
        Example("tray-cart", Outcome.TRIP, "battery.main", _rates(3, 2), Severity.WARN),
        Example("tray-cart", Outcome.TRIP, "battery.main", _rates(25, 0.2), Severity.STOP),
        Example("tray-cart", Outcome.CANNOT_TELL, "battery.main", NO_PEAK),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "battery.small", RECEIVER_PACK),
    ),
    flips=(
        Flip("tray-cart", "battery.main", "battery.main.peak_current", "5 A", "30 A"),
        Flip("tray-cart", "battery.main", "battery.main.continuous_rate", "0.1 C", "2 C"),
    ),
)
def pack_overdrawn(pack: PackLoadFacts, limits: Limits) -> Answer:
    """The current asked of a pack, for a moment and for long, against what its cells bear.

    Worked out: every motor held fast gives the peak, which warns; every motor at its work at full stick gives
    the current for long, which is a STOP. What the cells bear is noted, or a rate times the capacity. Where
    only the peak is known, a share of it counts as what they bear for ever.

    Not covered: labels that promise too much, cold cells and old ones.

    Source: common practice, no source; the share is a judgement.
    """
    if not pack.drives:
        return NotApplicable(f"no motor is fed from {pack.id}")
    moment = above(
        pack.peak_share, {Severity.WARN: limits[Severity.WARN]},
        "{pack} is asked for {peak} for a moment, {value:%} of the {most} that it bears.",
        pack=pack.id, peak=pack.pack.peak, most=pack.bears_peak,
    )  # fmt: skip
    long = above(
        pack.steady_share, {Severity.STOP: limits[Severity.STOP]},
        "{pack} is asked for {steady} for long, {value:%} of the {most} that it bears.",
        pack=pack.id, steady=pack.steady, most=pack.bears_steady,
    )  # fmt: skip
    return either(moment, long)


@check(
    "P33",
    on=SessionFacts,
    severity=Severity.NOTE,
    why="Trials die half way, and runs on a fading pack cannot be compared with those on a fresh one.",
    seen="Fades towards the end of a session, then resets",
    symptom=Symptom.WEAK,
    fixes=("Bring more packs, and change them after a set number of runs.", "Plan shorter sessions."),
    levers=("battery.*.capacity", "battery.*.part", "course.session", "battery.*.mean_current"),
    limits=Limit(1.0, "ratio", "common practice"),
    examples=(
        Example("tray-cart", Outcome.PASS, "battery.main"),
        Example("tray-cart", Outcome.TRIP, "battery.main", ("course.session=6 h",), Severity.NOTE),
        Example("tray-cart", Outcome.TRIP, "battery.main", ("battery.main.mean_current=9 A",), Severity.NOTE),
        Example("tray-cart", Outcome.CANNOT_TELL, "battery.main", ("course.session=?",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "battery.main", ("battery.main.capacity=?",)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "battery.small", RECEIVER_PACK),
    ),
    flips=(Flip("tray-cart", "battery.main", "course.session", "20 min", "600 min"),),
)
def pack_ends_before_session(pack: SessionFacts, limits: Limits) -> Answer:
    """How many planned sessions a pack lasts, against one.

    Worked out: the part of its charge that may be taken out and still comes out, over the mean current. That
    is the one measured, or every motor at its work for a share of the time.

    Not covered: what receiver and servos draw, cold and age beyond what is assumed, and a pack that starts
    half empty.

    Source: common practice, no source; the shares are judgements, listed among the assumptions.
    """
    if not pack.load.drives:
        return NotApplicable(f"no motor is fed from {pack.id}")
    what = "At {mean} on average {pack} lasts {lasts}; a session is planned for {planned}."
    return below(
        pack.sessions,
        limits,
        what,
        pack=pack.id,
        mean=pack.mean_current,
        lasts=pack.lasts,
        planned=pack.planned,
    )
