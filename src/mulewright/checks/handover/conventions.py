"""Is what the programmers need written down: signs, what happens at neutral, settings, scales of numbers?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Limits,
    Outcome,
    Severity,
    above,
    check,
    flagged,
    lacking,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.handover import AcceptedFacts
from mulewright.facts.handover_joints import AxisFacts, ScaleFacts
from mulewright.facts.handover_signals import ControllerPairFacts

BENCHES, TARGET = "two-benches", "two-benches/target.toml"
LIFT, UP = "controller.lift", '{ positive = "up" }'


@check(
    "H09",
    on=ControllerPairFacts,
    severity=Severity.WARN,
    why="It stops later than the driver learnt, or an arm sags that stood still.",
    seen="Stops 20 cm later than the mule did; an arm sags",
    symptom=Symptom.BY_ITSELF,
    fixes=("Set the target's output to the mode of the mule.", "State the difference in the hand-over."),
    levers=("target:controller.*.stopping", "controller.*.stopping"),
    examples=(
        Example(BENCHES, Outcome.PASS, LIFT, target=TARGET),
        Example(BENCHES, Outcome.TRIP, LIFT, (f"target:{LIFT}.stopping=coast",), target=TARGET),
        Example(BENCHES, Outcome.TRIP, LIFT, (f"{LIFT}.stopping=coast",), target=TARGET),
        Example(BENCHES, Outcome.CANNOT_TELL, LIFT, (f"target:{LIFT}.stopping=?",), target=TARGET),
    ),
)
def stops_in_another_way(pair: ControllerPairFacts, limits: Limits) -> Answer:
    """What a motor does at neutral on the target, against what it does on the mule.

    Worked out: brake and coast as both files say it.

    Not covered: how strongly each of them brakes.

    Source: both files.
    """
    here, there = pair.stopping
    return flagged(
        pair.stops_differently,
        Severity.WARN,
        "At neutral the mule is set to {here}, the target to {there}.",
        here=here.mode,
        there=there.mode,
    )


@check(
    "H10",
    on=AxisFacts,
    severity=Severity.STOP,
    why="A loop with the wrong sign runs to the stop as soon as it is switched on.",
    seen="Runs to its stop the first time a loop is switched on",
    symptom=Symptom.WRONG,
    fixes=("Write for each axis what positive means and where it is seen from, in the target's table.",),
    levers=("target:target.polarity.*.positive", "mechanism.*.positive"),
    examples=(
        Example(BENCHES, Outcome.TRIP, "axis.lift", target=TARGET),
        Example(BENCHES, Outcome.PASS, "axis.lift", (f"target:target.polarity.lift={UP}",), target=TARGET),
        Example(BENCHES, Outcome.PASS, "axis.lift", (f"target.polarity.lift={UP}",), target=TARGET),
        Example(BENCHES, Outcome.PASS, "axis.lift", ("mechanism.lift.positive=up",), target=TARGET),
        Example(BENCHES, Outcome.TRIP, "axis.turn", (f"target:target.polarity.lift={UP}",), target=TARGET),
    ),
)
def sign_written_nowhere(axis: AxisFacts, limits: Limits) -> Answer:
    """Whether it is written for each function what a positive command does.

    Worked out: nothing; it is a record. It counts in the target's table of either file, and at the function.

    Not covered: whether the motor then turns that way.

    Source: common practice, no source.
    """
    return lacking(
        axis.signed,
        Severity.STOP,
        "What a positive command does: {words}.",
        words=axis.convention or "not written",
    )


@check(
    "H15",
    on=AcceptedFacts,
    severity=Severity.STOP,
    why="Nobody can repeat the run that everybody liked.",
    seen="Nobody can repeat the good run",
    symptom=Symptom.ON_PAPER,
    fixes=("Write down rates, curves, trims and ends with each run that is accepted.", "Drive it again."),
    levers=("accepted.settings_recorded",),
    examples=(
        Example(BENCHES, Outcome.TRIP, "accepted", target=TARGET),
        Example(BENCHES, Outcome.TRIP, "accepted", ("accepted.settings_recorded=?",), target=TARGET),
        Example(BENCHES, Outcome.PASS, "accepted", variant="settings-noted", target=TARGET),
    ),
)
def settings_of_the_run_not_recorded(run: AcceptedFacts, limits: Limits) -> Answer:
    """Whether the radio's settings of the accepted run were kept.

    Worked out: nothing; it is a record.

    Not covered: whether the radio still has these settings.

    Source: common practice, no source.
    """
    return lacking(run.recorded, Severity.STOP, "Rates, curves and trims of the accepted run were not kept.")


@check(
    "H17",
    on=ScaleFacts,
    severity=Severity.STOP,
    why="A number without its volts, its load and its zero is gossip.",
    seen="Somebody is off by a factor of ten",
    symptom=Symptom.ON_PAPER,
    fixes=("Fill in what is left out.", "Or strike the numbers out that need it."),
    levers=("accepted.loaded_voltage", "accepted.load", "mechanism.*.zero"),
    examples=(
        Example(BENCHES, Outcome.PASS, "accepted", target=TARGET),
        Example(BENCHES, Outcome.TRIP, "accepted", ("accepted.loaded_voltage=?",), target=TARGET),
        Example(BENCHES, Outcome.TRIP, "accepted", ("accepted.load=?",), target=TARGET),
        Example(BENCHES, Outcome.PASS, "mechanism.lift", target=TARGET),
        Example(BENCHES, Outcome.TRIP, "mechanism.lift", ("mechanism.lift.zero=?",), target=TARGET),
        Example(
            BENCHES,
            Outcome.PASS,
            "mechanism.lift",
            ("mechanism.lift.zero=?", "target:mechanism.lift.zero=floor"),
            target=TARGET,
        ),
    ),
)
def number_without_its_scale(scale: ScaleFacts, limits: Limits) -> Answer:
    """Whether volts and load of the accepted run are noted, and the zero of each arm, lift and winch.

    Worked out: counted. Units cannot be left out of a mule file.

    Not covered: numbers that are handed over outside these files.

    Source: common practice, no source.
    """
    return above(scale.left_out, {Severity.STOP: 0}, "{value} left out: {paths}.", paths=scale.words)
