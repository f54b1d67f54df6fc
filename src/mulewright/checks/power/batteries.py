"""Is the pack up to what is asked of it, and does anything stop it in time?"""

from __future__ import annotations

from mulewright.checks.engine import Answer, Example, Limits, NotApplicable, Outcome, Severity, check, lacking
from mulewright.facts.wiring import BatteryFacts


@check(
    "P31",
    on=BatteryFacts,
    severity=Severity.STOP,
    why="It runs well to the end, the cells are ruined the next day, and ruined cells burn on the charger.",
    fixes=(
        "Fit an alarm and set it to 3.3 to 3.5 V a cell.",
        "Set the cut-off of a controller for this pack and write it down.",
    ),
    levers=("battery.*.alarm", "controller.*.cut_off", "battery.*.part"),
    examples=(
        Example("hose-tug", Outcome.TRIP, "battery.main", severity=Severity.STOP),
        Example("hose-tug", Outcome.PASS, "battery.main", ("battery.main.alarm=3.4 V",)),
        Example("hose-tug", Outcome.PASS, "battery.main", ("controller.left.cut_off=three cells lithium",)),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "battery.main"),
        Example("hose-tug", Outcome.CANNOT_TELL, "battery.main", ("battery.main.chemistry=?",)),
    ),
)
def lithium_unwatched(battery: BatteryFacts, limits: Limits) -> Answer:
    """Whether anything watches the voltage of a lithium pack.

    Worked out: an alarm written at the pack, or a cut-off written at a controller that it feeds. A record
    that is missing counts as none.

    Not covered: whether the alarm is set to a sensible voltage, and whether somebody hears it.

    Source: common practice, no source.
    """
    if not battery.lithium:
        return NotApplicable(f"the cells of {battery.id} are {battery.choice('chemistry')}, not lithium")
    what = "Below 3.0 V a cell under load {battery} is ruined; what watches it: {watches}."
    watches = ", ".join(battery.watches) or "nothing that is written down"
    return lacking(battery.watched, Severity.STOP, what, battery=battery.id, watches=watches)
