"""Do four wheels on one frame let it turn, and does each of them stand on the floor?"""

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
from mulewright.facts.four_wheels import FourWheelFacts, SkidFacts


@check(
    "M36",
    on=SkidFacts,
    severity=Severity.STOP,
    seen="Hops and judders when it turns on the spot",
    symptom=Symptom.COARSE,
    why="Four gripping wheels on a long frame have to be dragged sideways, and the motors stall on it.",
    fixes=(
        "Put smooth or all-way wheels at one end.",
        "Lower the middle wheels, so that the outer ones hardly touch.",
        "Bring the axles closer together, or the sides further apart.",
    ),
    levers=("body.wheelbase", "body.track", "drive.driven"),
    limits={
        Severity.STOP: Limit(1.0, "ratio", mark="common practice"),
        Severity.WARN: Limit(0.8, "ratio", mark="common practice"),
    },
    examples=(
        Example("two-benches", Outcome.PASS, "drive"),
        Example("two-benches", Outcome.TRIP, "drive", ("body.wheelbase=0.32 m",), Severity.WARN),
        Example("two-benches", Outcome.TRIP, "drive", ("body.wheelbase=0.40 m",), Severity.STOP),
        Example("two-benches", Outcome.CANNOT_TELL, "drive", ("body.track=?",)),
        Example("long-reach-pruner", Outcome.TRIP, "drive", ("body.track=0.28 m",), Severity.WARN),
        Example("long-reach-pruner", Outcome.CANNOT_TELL, "drive", ("drive.driven=?",)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "drive"),
        Example("aisle-carrier", Outcome.NOT_APPLICABLE, "drive"),
    ),
    flips=(Flip("two-benches", "drive", "body.wheelbase", "0.2 m", "0.34 m"),),
)
def hops_in_a_turn(drive: SkidFacts, limits: Limits) -> Answer:
    """Wheelbase over track, where four wheels grip sideways.

    Worked out: turning on the spot drags every wheel sideways; each side has to push with grip across the
    wheel times the weight times wheelbase over twice the track. Where the grip across is not noted, it is
    taken as that along the wheel.

    Not covered: six wheels, weight that stands mostly on one axle, grass that gives way.

    Source: balance of moments; the limits are common practice, no source.
    """
    if drive.free_rolling:
        return NotApplicable(f"{drive.free_rolling}, so none is dragged in a turn")
    return above(
        drive.length_over_width,
        limits,
        "Its wheelbase is {value} of its track; the limit is {limit}. To turn on the spot each side pushes "
        "with {push}.",
        push=drive.turning_push,
    )


@check(
    "M40",
    on=FourWheelFacts,
    severity=Severity.WARN,
    seen="Drifts to a corner; paper slides under one wheel",
    symptom=Symptom.WRONG,
    why="A wheel that carries nothing drives nothing, and which one it is changes from place to place.",
    fixes=("Let one axle pivot about a bolt.", "Put a shim under the wheel that stands off."),
    levers=("body.frame_error", "body.stiff_frame", "body.lightest_wheel"),
    limits=Limit("2 mm", "length", mark="judgement"),
    examples=(
        Example("aisle-carrier", Outcome.NOT_APPLICABLE, "body"),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "body", ("body.stiff_frame=?",)),
        Example("aisle-carrier", Outcome.TRIP, "body", ("body.stiff_frame=true", "body.frame_error=3 mm")),
        Example("aisle-carrier", Outcome.PASS, "body", ("body.stiff_frame=true", "body.frame_error=1 mm")),
        Example("aisle-carrier", Outcome.TRIP, "body", ("body.lightest_wheel=8 %",)),
        Example(
            "aisle-carrier",
            Outcome.PASS,
            "body",
            ("body.lightest_wheel=20 %", "body.stiff_frame=true", "body.frame_error=3 mm"),
        ),
        Example("two-benches", Outcome.PASS, "body"),
    ),
    flips=(
        Flip("aisle-carrier", "body", "body.frame_error", "1 mm", "4 mm", ("body.stiff_frame=true",)),
        Flip("aisle-carrier", "body", "body.lightest_wheel", "5 %", "20 %"),
    ),
)
def one_wheel_hangs(frame: FourWheelFacts, limits: Limits) -> Answer:
    """How far one of four wheels stands off a flat floor, where the frame cannot twist.

    Worked out: nothing; it is measured with a feeler on a flat table. Where the wheels were weighed, the
    share of the lightest one counts instead, and a tenth of the weight is the least.

    Not covered: soft tyres, which take up a little; a floor that is worse than the frame.

    Source: judgement.
    """
    if frame.weighed:
        return below(
            frame.lightest_wheel,
            {Severity.WARN: frame.least_wheel_share},
            "Its lightest wheel carries {value:%} of the weight; {limit:%} are wanted.",
        )
    if not frame.stiff:
        return NotApplicable("its frame gives way, so that every wheel stands")
    return above(
        frame.frame_error,
        limits,
        "Its frame cannot twist, and one wheel stands {value} off a flat floor; the limit is {limit}.",
    )
