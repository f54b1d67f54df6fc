"""Does it tip over?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Flip, Limit, Limits, Outcome, Severity, above, check
from mulewright.facts.driving import DrivingFacts


@check(
    "X01",
    on=DrivingFacts,
    severity=Severity.STOP,
    why="A full stick lifts the front wheels, and it goes over backwards.",
    fixes=(
        "Lower the rate of forward.",
        "Bring the centre of gravity forward or down.",
        "Move the rear wheels further back.",
    ),
    levers=("body.center_height", "body.center_ahead", "body.wheelbase", "radio.control.*.rate"),
    limits={
        Severity.STOP: Limit(
            1, "ratio", mark="published", source="balance of moments about the rear contacts"
        ),
        Severity.WARN: Limit(0.6, "ratio", mark="common practice"),
    },
    examples=(
        Example("tray-cart", Outcome.PASS, "drive"),
        Example("tray-cart", Outcome.TRIP, "drive", ("body.center_height=0.12 m",), Severity.WARN),
        Example("tray-cart", Outcome.TRIP, "drive", ("body.center_height=0.20 m",), Severity.STOP),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", ("body.center_height=?",)),
    ),
    flips=(
        Flip("tray-cart", "drive", "body.center_height", "0.07 m", "0.12 m"),
        Flip("tray-cart", "drive", "body.center_ahead", "0.04 m", "0.12 m"),
    ),
)
def tips_over_backwards(drive: DrivingFacts, limits: Limits) -> Answer:
    """The acceleration that it can make, over the one at which its front wheels leave the ground.

    Worked out: it pushes as hard as the driven wheels grip, or as its motors pull on the rested battery if
    that is less; weight on the wheels as when standing still. It tips at gravity times the distance of the
    centre of gravity from the rear contacts over its height.

    Not covered: a raised arm or lift, a slope, soft tyres, the weight that moves to the rear while it
    speeds up.

    Source: balance of moments; the limit of the warning is common practice, no source.
    """
    return above(
        drive.tips_back_ratio,
        limits,
        "Full stick makes {acceleration}, and {tipping} tip it backwards: a ratio of {value}, "
        "where the limit is {limit}.",
        acceleration=drive.acceleration,
        tipping=drive.body.tips_back_at,
    )
