"""How is each servo tried: horn off, then on, and how far should it go?"""

from __future__ import annotations

from collections.abc import Iterator

from mulewright.advice.power_up.at_rest import everything, limit_with
from mulewright.advice.power_up.bands import Read
from mulewright.advice.power_up.bench import Bench, named
from mulewright.advice.power_up.currents import standing
from mulewright.advice.power_up.plan import Reading, Step
from mulewright.advice.power_up.rails import draws, feeders, rail_source, rails
from mulewright.advice.same_lead import on_the_same_lead, on_the_same_part
from mulewright.advice.spoken import listed, spoken
from mulewright.facts.consumers import ServoDrawFacts
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import Value
from mulewright.facts.outputs import OutputFacts
from mulewright.facts.rest import on_tester
from mulewright.facts.servo_travel import ServoTravelFacts


def servo_steps(bench: Bench) -> Iterator[Step]:
    """A step for each servo that a radio commands."""
    for name in bench.mule.file.servo:
        if not on_tester(bench.mule, f"servo.{name}"):
            yield _step(bench, f"servo.{name}")


def swing(servo: str) -> Read:
    """Angle between the ends of its control."""
    return lambda on: on.entity(ServoTravelFacts, servo).swing


def moving(servo: str) -> Read:
    """What it draws while it moves."""
    return lambda on: on.entity(ServoDrawFacts, servo).moving_current


def current_reading(bench: Bench, servo: str, things: list[str]) -> Reading:
    """Current from the supply while one servo moves: between everything at rest and that with the servo at work."""
    others = [one for one in things if one != servo]

    def at_rest(on: Evaluation) -> Value:
        return standing(on, things)

    def at_work(on: Evaluation) -> Value:
        return standing(on, others) + on.entity(ServoDrawFacts, servo).moving_current

    return bench.reading("servo_current", servo, at_work, at_rest, thing=servo)


def rail_of(bench: Bench, servo: str) -> str | None:
    """The rail from which a servo draws for certain."""
    return next((one for one in rails(bench) if servo in draws(bench, one)), None)


def live_of(bench: Bench, servo: str) -> set[str]:
    """What gets power or moves with a servo."""
    function = bench.mule.function_of(servo) or ""
    rail = rail_of(bench, servo)
    controls = bench.mule.controls_for(function)
    found = {servo, function, f"function.{function}", f"mechanism.{function}", *controls}
    if rail is None:
        return found
    ways = {one for source in feeders(bench, rail) for one in bench.way(source)}
    return found | {rail} | {one for one in ways if not one.startswith("controller.")}


def controls_of(bench: Bench, servo: str) -> list[str]:
    """The controls that move a servo: those of its function, or of what hangs on the same lead."""
    mule = bench.mule
    if own := mule.controls_for(mule.function_of(servo) or servo):
        return own
    return list(dict.fromkeys(term.control for term in bench.evaluation.entity(OutputFacts, servo).terms))


def others_aside(bench: Bench, servo: str) -> list[str]:
    """What else moves with a servo, or works against it, and is kept aside while it is tried alone."""
    same_lead = on_the_same_lead(bench.mule, servo)
    same_part = [one for one in on_the_same_part(bench.mule, servo) if one not in same_lead]
    lines = []
    if same_lead:
        plugs = "its plug" if len(same_lead) == 1 else "their plugs"
        lines.append(
            f"{_first_word(named(same_lead))} on the same Y-lead: {plugs} out while this one is tried."
        )
    if same_part:
        horns = "its horn" if len(same_part) == 1 else "their horns"
        lines.append(
            f"{_first_word(named(same_part))} on the same part: {horns} off while this one is tried alone."
        )
    return lines


def all_together(bench: Bench, servo: str) -> list[str]:
    """After the last of some servos that move together: all of them at once."""
    group = [servo, *on_the_same_lead(bench.mule, servo), *on_the_same_part(bench.mule, servo)]
    group = [f"servo.{name}" for name in bench.mule.file.servo if f"servo.{name}" in group]
    if len(group) < 2 or group[-1] != servo:
        return []
    return [f"Then {named(group)} together, plugs in and horns on, slowly: none strains against another."]


def _first_word(text: str) -> str:
    """With a capital at the beginning."""
    return text[:1].upper() + text[1:]


def _step(bench: Bench, servo: str) -> Step:
    mule = bench.mule
    commanding = controls_of(bench, servo)
    controls = listed(map(bench.control, commanding)) if commanding else "Its control (nobody noted which)"
    table = mule.file.servo[servo.split(".", 1)[1]]
    do = [
        f"Horn off. {controls} slowly from end to end: it follows, does not buzz at the ends, and comes back."
    ]
    if table.rotation == "continuous":
        do = [f"{controls} at rest: it stands still; a little either way: it turns that way."]
    else:
        do.append(
            "Horn on in its middle, where its linkage is in the middle too. Slowly to either end: stop where it binds."
        )
    do = [*others_aside(bench, servo), *do, *all_together(bench, servo)]
    rail = rail_of(bench, servo)
    source = rail_source(bench, rail) if rail else None
    found = []
    if table.rotation != "continuous":
        found.append(bench.reading("swing", servo, swing(servo), thing=servo))
    if source is not None:
        out = on_the_same_lead(mule, servo)
        found.append(
            current_reading(bench, servo, [one for one in everything(bench, source) if one not in out])
        )
    lead = [one.number for one in bench.wires if one.kind == "servo lead" and one.path == servo]
    return bench.step(
        "servo", servo, do=do,
        readings=found,
        live=live_of(bench, servo), wires=lead,
        limit=limit_with(bench, source, [(f"{spoken(servo)} moving", moving(servo))]) if source else None, thing=servo,
    )  # fmt: skip
