"""Does the kind of controller suit the control and the task: can it reverse, and does it at once?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Limits, Outcome, Severity, check, flagged
from mulewright.checks.symptoms import Symptom
from mulewright.facts.controller_use import ControllerUseFacts

CAR = ("controller.left.direction=stop-then-reverse",)
ONE_WAY = "controller.left.direction=one-way"


@check(
    "S34",
    on=ControllerUseFacts,
    severity=Severity.STOP,
    why="The first pull only brakes and the second one reverses, so it cannot turn on the spot.",
    seen="Reverse comes only at the second pull",
    symptom=Symptom.WRONG,
    fixes=("Take a controller that reverses at once.",),
    levers=("controller.*.direction", "controller.*.part", "drive.immediate_reverse"),
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example("tray-cart", Outcome.TRIP, "controller.left", CAR, Severity.STOP),
        Example("tray-cart", Outcome.PASS, "controller.left", (*CAR, "drive.immediate_reverse=false")),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("controller.left.direction=?",)),
    ),
)
def reverses_at_the_second_pull(controller: ControllerUseFacts, limits: Limits) -> Answer:
    """Whether a controller that stops before it reverses has a task that needs reverse at once.

    Worked out: a drive that turns on the spot, arms, lifts and winches need it, unless it is noted that the
    drive may pause; a motor that runs one way does not.

    Not covered: how long the pause is.

    Source: common practice, no source.
    """
    return flagged(controller.late_reverse, Severity.STOP, "It is {kind}.", kind=controller.kind_and_task)


@check(
    "S35",
    on=ControllerUseFacts,
    severity=Severity.BLOCK,
    why="For a one-way controller the middle of a sprung stick is half power, or it refuses to start at all.",
    seen="Motor runs with the stick in the middle, or beeps and never starts",
    symptom=Symptom.BY_ITSELF,
    fixes=(
        "Take a controller that reverses.",
        "For a flywheel only: move it to an unsprung axis, with the stick down before power comes on.",
    ),
    levers=("controller.*.direction", "controller.*.part", "radio.control.*.commands"),
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example("tray-cart", Outcome.TRIP, "controller.left", (ONE_WAY,), Severity.BLOCK),
        Example("aisle-carrier", Outcome.PASS, "controller.lift", ("controller.lift.direction=one-way",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", ("controller.left.direction=?",)),
    ),
)
def one_way_controller_on_a_sprung_stick(controller: ControllerUseFacts, limits: Limits) -> Answer:
    """Whether a controller that cannot reverse follows a stick that returns to the middle.

    Worked out: the controller's kind, and the spring or conversion of the axis that gives it its own command.

    Not covered: one-way controllers whose zero can be set to the middle.

    Source: common practice, no source.
    """
    return flagged(controller.half_power, Severity.BLOCK, "It is {kind}.", kind=controller.kind_and_spring)
