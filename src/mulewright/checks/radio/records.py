"""Which records about the radio are missing?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Limits, Outcome, Severity, check, lacking
from mulewright.facts.records import RadioRecordFacts


@check(
    "R16",
    on=RadioRecordFacts,
    severity=Severity.NOTE,
    why="Which bands and powers may be used without a licence differs from place to place.",
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
