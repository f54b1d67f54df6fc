"""The usual cautions, chosen by what is on the mule; printed with every report, whatever the checks say."""

from __future__ import annotations

from mulewright.design.mule import Mule
from mulewright.design.schema.functions import Arm, Flywheel, Lift, Winch

ALWAYS = (
    "This is worked out from what was typed. No check tripped is not an approval of any kind.",
    "Local rules on radio, batteries and minors come first; ask somebody qualified where you are unsure.",
)
DRIVEN = (
    "The moment the drive battery is connected the machine may go to full power: "
    "wheels off the ground, hands away."
)
STEERED = "Transmitter on first and off last. Try the fail-safe with the wheels up before every session."
LITHIUM = (
    "Lithium cells: never above 4.2 V or below 3.0 V a cell, charge attended on a surface that cannot burn, "
    "never use a swollen or dented pack."
)
RAISED = "A raised arm or lift falls: lower it or put a pin in before hands or feet go under it."
WHEEL = (
    "A spinning flywheel throws its parts when it bursts: guard it, nobody in its plane, eye protection on."
)
ROPE = "A rope under load snaps back: stand aside of its line, eye protection on."


def cautions(mule: Mule) -> list[str]:
    """The cautions that concern a mule, the general ones first."""
    file = mule.file
    found = [*ALWAYS]
    if file.motor or file.controller or file.drive is not None or not file.servo:
        found.append(DRIVEN)
    if not file.tester or file.radio or file.second_radio or file.receiver or file.second_receiver:
        found.append(STEERED)
    if any((pack.chemistry or "lithium").startswith("lithium") for pack in file.battery.values()):
        found.append(LITHIUM)
    kinds = [type(mechanism) for mechanism in file.mechanism.values()]
    for caution, about in ((RAISED, (Arm, Lift, Winch)), (WHEEL, (Flywheel,)), (ROPE, (Winch,))):
        if any(kind in about for kind in kinds):
            found.append(caution)
    if any(driver.minor for driver in file.driver.values()):
        found.append("A minor drives: a grown-up who can reach the disconnect stands by all the time.")
    return found
