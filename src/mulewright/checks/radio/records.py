"""Which records about the radio are missing?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Limits,
    Outcome,
    Severity,
    above,
    check,
    lacking,
    together,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.checklist import RangeWalkFacts
from mulewright.facts.records import RadioRecordFacts, SocketCountFacts, StartFacts, TrimFacts


@check(
    "R16",
    on=RadioRecordFacts,
    severity=Severity.NOTE,
    why="Which bands and powers may be used without a licence differs from place to place.",
    seen="Nothing shows at the bench",
    fixes=("Look up the rules for its band where it is driven, and write down what they say and when.",),
    levers=("radio.permission",),
    examples=(
        Example("tray-cart", Outcome.CANNOT_TELL, "radio"),
        Example("aisle-carrier", Outcome.PASS, "radio"),
        Example("tray-cart", Outcome.TRIP, "radio", ("radio.permission=not allowed here",)),
    ),
)
def band_not_permitted(radio: RadioRecordFacts, limits: Limits) -> Answer:
    """What the user found out about the local rules for the radio's band.

    Worked out: nothing; a note that begins with "no" or "not" trips.

    Not covered: the rules themselves. They are the user's to look up.

    Source: the user's own note.
    """
    return lacking(
        radio.permitted, Severity.NOTE, "The note on the local rules says: {note}.", note=radio.note
    )


@check(
    "R09",
    on=RangeWalkFacts,
    severity=Severity.WARN,
    why="It works on the table and fails across the hall.",
    seen="Answers on the table, but not across the hall",
    symptom=Symptom.CUTS_OUT,
    fixes=("Walk away with reduced power and motors running, as its maker says; note distance and day.",),
    levers=("checklist.range_walk",),
    examples=(
        Example("tray-cart", Outcome.PASS, "checklist"),
        Example("tray-cart", Outcome.TRIP, "checklist", ("checklist.range_walk=?",)),
    ),
)
def range_never_walked(checklist: RangeWalkFacts, limits: Limits) -> Answer:
    """Whether a range walk with running motors is ticked; no other test has their noise in it.

    Worked out: nothing; it is a record.

    Not covered: what changed since.

    Source: common practice, no source.
    """
    return lacking(checklist.range_walk, Severity.WARN, "{tick}.", tick=checklist.said("range_walk"))


@check(
    "R12",
    on=SocketCountFacts,
    severity=Severity.STOP,
    why="A planned function has no socket.",
    seen="Last knob or switch does nothing, and no socket is left for it",
    symptom=Symptom.STILL,
    fixes=("Move the control to a channel that the receiver has.", "Take a receiver with more sockets."),
    levers=("radio.control.*.channel", "receiver.part"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "radio.control.KN"),
        Example("aisle-carrier", Outcome.TRIP, "radio.control.KN", ("radio.control.KN.channel=8",)),
        Example("aisle-carrier", Outcome.CANNOT_TELL, "radio.control.KN", ("receiver.channels=?",)),
    ),
)
def channel_without_a_socket(control: SocketCountFacts, limits: Limits) -> Answer:
    """The number of a control's channel, against the number of sockets at the receiver.

    Worked out: counted.

    Not covered: receivers that put several channels on one lead.

    Source: the receiver's sheet.
    """
    return above(
        control.channel_number,
        {Severity.STOP: control.sockets},
        "It moves channel {value}; the receiver has {limit} sockets.",
    )


@check(
    "R14",
    on=StartFacts,
    severity=Severity.WARN,
    why="Something slams or starts at the moment of switching on.",
    seen="Gripper or roller moves the moment the power comes on",
    symptom=Symptom.BY_ITSELF,
    fixes=("Note where it stands when the power comes on, and go through the list before every start.",),
    levers=("radio.control.*.start", "checklist.start_list"),
    examples=(
        Example("aisle-carrier", Outcome.PASS, "radio.control.KN", ("radio.control.KN.start=fully left",)),
        Example("aisle-carrier", Outcome.PASS, "radio.control.LV", ("checklist.start_list=true",)),
        Example("aisle-carrier", Outcome.TRIP, "radio.control.LV", ("checklist.start_list=?",)),
    ),
)
def place_at_switch_on_not_listed(control: StartFacts, limits: Limits) -> Answer:
    """Whether the place at switch-on is noted for every control that stays where it was left.

    Worked out: switches, knobs, sliders and axes without a spring; the note at the control, or the tick of a
    list.

    Not covered: whether the list is used.

    Source: common practice, no source.
    """
    return lacking(
        control.start_noted, Severity.WARN, "Its place at switch-on: {note}.", note=control.start_note
    )


@check(
    "R17",
    on=RadioRecordFacts,
    severity=Severity.WARN,
    why="The link dies from the driver's end.",
    seen="Transmitter beeps, and a little later nothing answers",
    symptom=Symptom.CUTS_OUT,
    fixes=("Charge the transmitter's own battery, and note the day.",),
    levers=("radio.battery_checked",),
    examples=(
        Example("tray-cart", Outcome.PASS, "radio", ("radio.battery_checked=2026-11-02",)),
        Example("tray-cart", Outcome.TRIP, "radio", ("radio.battery_checked=?",)),
    ),
)
def transmitter_battery_not_looked_at(radio: RadioRecordFacts, limits: Limits) -> Answer:
    """Whether a day is noted on which the transmitter's own battery was looked at.

    Worked out: nothing; it is a record.

    Not covered: how long ago that day is.

    Source: common practice, no source.
    """
    return lacking(
        radio.battery_noted, Severity.WARN, "The transmitter's own battery: {note}.", note=radio.battery_note
    )


@check(
    "R18",
    on=TrimFacts,
    severity=Severity.NOTE,
    why="The same machine behaves differently once the model is entered again.",
    seen="Behaves otherwise after the settings were typed in again",
    symptom=Symptom.WRONG,
    fixes=("Fill in a settings sheet.", "Bring the trims back to nothing, and mend what they made up for."),
    levers=("radio.settings_noted", "radio.channel.*.trim", "radio.channel.*.sub_trim"),
    examples=(
        Example("tray-cart", Outcome.PASS, "radio.channel.2"),
        Example("tray-cart", Outcome.TRIP, "radio.channel.2", ("radio.channel.2.trim=-8 us",)),
        Example(
            "tray-cart",
            Outcome.PASS,
            "radio.channel.2",
            ("radio.channel.2.trim=8 us", "radio.settings_noted=true"),
        ),
        Example("tray-cart", Outcome.CANNOT_TELL, "radio.channel.2", ("radio.channel.2.trim=?",)),
    ),
)
def trims_written_nowhere(channel: TrimFacts, limits: Limits) -> Answer:
    """Whether a channel is trimmed while no settings sheet is filled in.

    Worked out: the larger of trim and sub-trim, where the sheet is missing.

    Not covered: rates, curves and endpoints.

    Source: common practice, no source.
    """
    return together(
        above(
            channel.hidden, {Severity.NOTE: 0.0}, "It is trimmed by {value}; {sheet}.", sheet=channel.sheet
        ),
        lacking(channel.written_down, Severity.NOTE, ""),
    )
