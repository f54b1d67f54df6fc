"""Does it roll over in a turn?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Flip, Limit, Limits, Outcome, Severity, above, check
from mulewright.checks.symptoms import Symptom
from mulewright.facts.turning import TurningFacts


@check(
    "X04",
    on=TurningFacts,
    severity=Severity.WARN,
    why="A fast turn lifts the inner wheels, and it rolls over.",
    seen="Inner wheels lift in a fast turn",
    symptom=Symptom.FALLS,
    fixes=(
        "Lower the rate of the turn.",
        "Bring the centre of gravity down.",
        "Set the wheels further apart.",
    ),
    levers=("body.center_height", "body.track", "radio.control.*.rate", "drive.wheel.diameter"),
    limits=Limit(0.6, "ratio", mark="common practice"),
    examples=(
        Example("tray-cart", Outcome.PASS, "drive"),
        Example("tray-cart", Outcome.TRIP, "drive", ("body.track=0.1 m",)),
        Example("tray-cart", Outcome.PASS, "drive", ("body.track=0.1 m", "radio.control.RH.rate=20 %")),
        Example("vine-lift", Outcome.TRIP, "drive", ("body.center_height=0.2 m",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", ("body.track=?",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", ("radio.control.RH.rate=?",)),
    ),
    flips=(
        Flip("tray-cart", "drive", "body.track", "0.08 m", "0.3 m"),
        Flip("tray-cart", "drive", "body.center_height", "0.07 m", "0.8 m"),
    ),
)
def turn_tips_it(drive: TurningFacts, limits: Limits) -> Answer:
    """The sideways acceleration of the worst turn, over the one at which the inner wheels leave the ground.

    Worked out: speed times yaw rate, at the worst mix of full forward and full turn that the mix or the box
    lets through, with nothing to push, on the rested battery. It tips at gravity times half the track over
    the height of the centre of gravity, every arm straight out.

    Not covered: wheels that slide before it tips, a raised lift, a centre of gravity that is not in the
    middle, a slope.

    Source: balance of moments; the limit is common practice, no source.
    """
    return above(
        drive.tips_aside_ratio,
        limits,
        "The worst turn makes {acceleration} sideways, and {tipping} tip it: a ratio of {value}, "
        "where the limit is {limit}.",
        acceleration=drive.turning_acceleration,
        tipping=drive.tips_aside_at,
    )
