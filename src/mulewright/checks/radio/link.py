"""Does the link reach this machine, only this one, and soon enough?"""

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
    below,
    check,
    either,
    flagged,
    lacking,
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.link_care import AntennaFacts, LateDriveFacts, MemoryFacts, NeighbourFacts


@check(
    "R10",
    on=AntennaFacts,
    severity=Severity.WARN,
    why="The link drops out in some headings and holds in others.",
    seen="Glitches only while the machine faces one way",
    symptom=Symptom.CUTS_OUT,
    fixes=(
        "Lead the antenna up a plastic tube, away from metal, battery and motor leads.",
        "Set two antennas square to each other.",
    ),
    levers=("receiver.antenna_clear", "receiver.antenna_angle"),
    limits=Limit("30 mm", "length", mark="common practice"),
    also={"square": Limit("30 deg", "angle", mark="judgement")},
    examples=(
        Example("tray-cart", Outcome.PASS, "receiver"),
        Example("tray-cart", Outcome.TRIP, "receiver", ("receiver.antenna_clear=20 mm",)),
        Example(
            "tray-cart", Outcome.TRIP, "receiver", ("receiver.antennas=2", "receiver.antenna_angle=20 deg")
        ),
        Example(
            "tray-cart", Outcome.PASS, "receiver", ("receiver.antennas=2", "receiver.antenna_angle=80 deg")
        ),
        Example("tray-cart", Outcome.CANNOT_TELL, "receiver", ("receiver.antenna_clear=?",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "receiver", ("receiver.antennas=2",)),
    ),
    flips=(Flip("tray-cart", "receiver", "receiver.antenna_clear", "10 mm", "60 mm"),),
)
def antenna_is_hemmed_in(receiver: AntennaFacts, limits: Limits) -> Answer:
    """How far a receiver's antenna keeps from metal, battery and motor leads, and how two of them stand.

    Worked out: nothing; both are measured. A receiver with two antennas hears from every side only while
    they stand about square to each other.

    Not covered: an antenna that is cut or doubled back, and what the transmitter's own antenna points at.

    Source: common practice, no source; how far from square two may stand is a judgement.
    """
    return either(
        below(
            receiver.antenna_clear,
            limits,
            "Its antenna is {value} from metal, battery or motor leads; at least {limit} is expected.",
        ),
        above(
            receiver.off_square,
            {Severity.WARN: limits.also["square"]},
            "Its antennas are {value} from square to each other; up to {limit} is usual.",
        ),
    )


@check(
    "R11",
    on=LateDriveFacts,
    severity=Severity.NOTE,
    why="A driver steers where the machine was, and overshoots every stop.",
    seen="Feels late, and every stop ends 10 to 20 cm too far",
    symptom=Symptom.COARSE,
    fixes=("Tell the drivers how far it goes before it follows.", "Lower the rate of forward."),
    levers=("radio.latency", "radio.control.*.rate"),
    limits=Limit("0.1 m", "length", mark="judgement"),
    examples=(
        Example("tray-cart", Outcome.PASS, "drive"),
        Example("tray-cart", Outcome.TRIP, "drive", ("radio.latency=0.12 s",)),
        Example("vine-lift", Outcome.TRIP, "drive"),
        Example("tray-cart", Outcome.CANNOT_TELL, "drive", ("drive.wheel.diameter=?",)),
    ),
    flips=(Flip("tray-cart", "drive", "radio.latency", "0.02 s", "0.2 s"),),
)
def follows_late(drive: LateDriveFacts, limits: Limits) -> Answer:
    """The way that a drive goes at top speed before it follows the stick.

    Worked out: the time from stick to motor, which takes in the radio's frame and the controller, times the
    speed with nothing to push at full stick. A time that nobody measured is assumed.

    Not covered: the time that people take to react, and how long it takes to slow down.

    Source: common practice, no source; the limit is a judgement.
    """
    return above(
        drive.late_way,
        limits,
        "With {delay} from stick to motor it goes {value} before it follows; the limit is {limit}.",
        delay=drive.delay,
    )


@check(
    "R13",
    on=MemoryFacts,
    severity=Severity.STOP,
    why="Reverses, endpoints and mixes of another machine are in force.",
    seen="Runs oddly from the first push, as if everything were swapped",
    symptom=Symptom.WRONG,
    fixes=(
        "Switch the transmitter to the model memory of the plan, before the battery is connected.",
        "Or write the memory that is in use into the plan, if that one is meant.",
    ),
    levers=("radio.memory", "radio.planned_memory"),
    examples=(
        Example("tray-cart", Outcome.PASS, "radio"),
        Example("tray-cart", Outcome.PASS, "radio", ("radio.memory=4  Tray Cart",)),
        Example("tray-cart", Outcome.TRIP, "radio", ("radio.memory=5 hose tug",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "radio", ("radio.memory=?",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "radio", ("radio.planned_memory=?",)),
    ),
)
def wrong_model_memory(radio: MemoryFacts, limits: Limits) -> Answer:
    """The model memory that the transmitter shows, against the one in the plan.

    Worked out: both names are compared as they are written, without regard to capitals and spaces.

    Not covered: whether somebody changed settings inside the right memory.

    Source: the transmitter's display.
    """
    return lacking(
        radio.as_planned,
        Severity.STOP,
        "The transmitter is set to {in_use}; the plan says {planned}.",
        in_use=radio.in_use,
        planned=radio.planned,
    )


@check(
    "R15",
    on=NeighbourFacts,
    severity=Severity.WARN,
    why="A receiver that is bound beside another transmitter of the kind may listen to the wrong one.",
    seen="Another cart twitches while one binds, or this one obeys somebody else",
    symptom=Symptom.BY_ITSELF,
    fixes=(
        "Bind again with every other transmitter of the kind switched off, and tick it.",
        "Label transmitter and machine as a pair.",
    ),
    levers=("room.other_radios", "checklist.bind_alone"),
    examples=(
        Example("tray-cart", Outcome.PASS, "radio"),
        Example("tray-cart", Outcome.TRIP, "radio", ("room.other_radios=true",)),
        Example("tray-cart", Outcome.PASS, "radio", ("room.other_radios=true", "checklist.bind_alone=true")),
        Example("tray-cart", Outcome.TRIP, "radio", ("second_radio={part='tx8'}",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "radio", ("room.other_radios=?",)),
    ),
)
def bound_among_others(radio: NeighbourFacts, limits: Limits) -> Answer:
    """Whether another transmitter of the kind is on nearby, and binding with the others off is not ticked.

    Worked out: the note about the room, and the tick; a second transmitter of the same part counts as one
    nearby.

    Not covered: other kinds of radio on the same band, which crowd it but do not steer the machine.

    Source: common practice, no source.
    """
    return together(
        flagged(
            radio.accompanied, Severity.WARN, "As noted, {neighbours}; {bind}.", neighbours=radio.neighbours,
            bind=radio.bind_note,
        ),
        lacking(radio.bound_alone, Severity.WARN, ""),
    )  # fmt: skip
