"""Do the connectors mate, the right way round, with nothing live laid bare, and do they bear the current?"""

from __future__ import annotations

from mulewright.checks.engine import (
    Answer,
    Example,
    Flip,
    Limit,
    Limits,
    NotApplicable,
    Outcome,
    Severity,
    above,
    check,
    either,
    flagged,
    lacking,
)
from mulewright.checks.symptoms import Symptom
from mulewright.facts.joints import ConnectorFacts, PolarityFacts

PLUG = "wire.main.joints.0"
FLIPPED = ("wire.main.polarity_metered=?", f"{PLUG}.flips=true")
OTHER = (f"{PLUG}.mates_with=round pins, 4 mm",)
ADAPTER = "wire.main.joints=[{{ flips = true }}, {{ flips = {} }}]"
UNDESCRIBED = ("wire.main.joints=?",)


@check(
    "P17",
    on=PolarityFacts,
    severity=Severity.BLOCK,
    why="Plus and minus the wrong way round kill a controller in an instant.",
    seen="A bang and smoke at the moment of plugging in",
    symptom=Symptom.HOT,
    fixes=(
        "Meter plus and minus at the last plug before mating it, and write that down.",
        "Take out the adapter that swaps plus and minus.",
    ),
    levers=("wire.*.joints.*.flips", "wire.*.polarity_metered"),
    examples=(
        Example("tray-cart", Outcome.PASS, "controller.left"),
        Example("tray-cart", Outcome.TRIP, "controller.left", FLIPPED, Severity.BLOCK),
        Example("tray-cart", Outcome.PASS, "controller.left", (FLIPPED[0], ADAPTER.format("true"))),
        Example("tray-cart", Outcome.TRIP, "controller.left", (FLIPPED[0], ADAPTER.format("false"))),
        Example("tray-cart", Outcome.PASS, "controller.left", FLIPPED[1:]),
        Example(
            "tray-cart",
            Outcome.PASS,
            "controller.left",
            (*FLIPPED, "checklist.polarity_metered=true"),
        ),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", (FLIPPED[0], f"{PLUG}.flips=?")),
        Example("tray-cart", Outcome.CANNOT_TELL, "controller.left", UNDESCRIBED),
        Example("tray-cart", Outcome.NOT_APPLICABLE, "controller.left", ("wire.main.joints=[]",)),
    ),
)
def plus_and_minus_swapped(device: PolarityFacts, limits: Limits) -> Answer:
    """How often plus and minus swap in the connectors and adapters between battery and device: odd is wrong.

    Worked out: every connector on the way is asked whether it swaps the two. Where they were metered at a
    plug, only what lies behind it counts.

    Not covered: leads that are soldered or screwed on the wrong way round, and anything changed since the
    metering.

    Source: common practice, no source.
    """
    if not device.connected:
        return NotApplicable(f"no connector lies between the battery and {device.id}")
    what = "On the way to {device} {words}."
    return flagged(device.turned, Severity.BLOCK, what, device=device.id, words=device.flip_words)


@check(
    "P18",
    on=ConnectorFacts,
    severity=Severity.BLOCK,
    why="Halves that almost fit are forced, mated the wrong way round, or bridged with bare wire.",
    seen="The plug almost fits",
    symptom=Symptom.ON_PAPER,
    fixes=("Make or buy an adapter lead, and note whether it swaps plus and minus.",),
    levers=("wire.*.joints.*.mates_with", "wire.*.joints.*.adapter", "wire.*.joints.*.family"),
    examples=(
        Example("tray-cart", Outcome.PASS, PLUG),
        Example("tray-cart", Outcome.TRIP, PLUG, (*OTHER, f"{PLUG}.adapter=false"), Severity.BLOCK),
        Example("tray-cart", Outcome.PASS, PLUG, (*OTHER, f"{PLUG}.adapter=true")),
        Example("tray-cart", Outcome.CANNOT_TELL, PLUG, OTHER),
        Example("tray-cart", Outcome.CANNOT_TELL, PLUG, (f"{PLUG}.family=?",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "wire.main.joints", UNDESCRIBED),
    ),
)
def connector_halves_differ(joint: ConnectorFacts, limits: Limits) -> Answer:
    """Whether the two halves of a connector are of one family, or an adapter lies between them.

    Worked out: the family as the user describes it, of both halves; where no other half is written it is the
    same.

    Not covered: halves of one family with the same contacts on both, and worn ones.

    Source: common practice, no source.
    """
    what = "{joint}: {family} meets {other}."
    return lacking(
        joint.mates,
        Severity.BLOCK,
        what,
        joint=joint.id,
        family=joint.choice("family"),
        other=joint.other_half,
    )


@check(
    "P19",
    on=ConnectorFacts,
    severity=Severity.STOP,
    why="The bare pins of a pack meet a tool or each other in the box, and short it.",
    seen="A spark from the loose end of a battery lead",
    symptom=Symptom.HOT,
    fixes=(
        "Put sockets on the side of the battery and pins on the side of the machine.",
        "Cap the pins whenever they are not mated.",
    ),
    levers=("wire.*.joints.*.battery_side",),
    examples=(
        Example("tray-cart", Outcome.PASS, PLUG),
        Example("tray-cart", Outcome.TRIP, PLUG, (f"{PLUG}.battery_side=pins",), Severity.STOP),
        Example("tray-cart", Outcome.CANNOT_TELL, PLUG, (f"{PLUG}.battery_side=?",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "wire.main.joints", UNDESCRIBED),
    ),
)
def live_pins_bare(joint: ConnectorFacts, limits: Limits) -> Answer:
    """Whether the half of a connector that stays live when it is pulled has pins.

    Worked out: read off what was written about the connector.

    Not covered: shells that cover their pins; write such a connector down as deliberate.

    Source: common practice, no source.
    """
    what = "Towards the battery {joint} has {contacts}, which stay live when it is pulled."
    return flagged(joint.bare, Severity.STOP, what, joint=joint.id, contacts=joint.choice("battery_side"))


@check(
    "P20",
    on=ConnectorFacts,
    severity=Severity.WARN,
    why="A hot plug softens its shell and loses its grip, and then it gets hotter.",
    seen="A plug is hot, its plastic soft",
    symptom=Symptom.HOT,
    fixes=("Take a bigger family of connector.", "Draw less: lower the travel or the rate."),
    levers=("wire.*.joints.*.rating", "wire.*.joints.*.part", "radio.channel.*.travel"),
    limits=Limit(0.8, "ratio", "common practice"),
    also={"peak": Limit(2, "ratio", "common practice")},
    examples=(
        Example("tray-cart", Outcome.PASS, PLUG),
        Example("tray-cart", Outcome.TRIP, PLUG, (f"{PLUG}.rating=0.5 A",), Severity.WARN),
        Example("tray-cart", Outcome.TRIP, PLUG, (f"{PLUG}.rating=5 A",), Severity.WARN),
        Example(
            "aisle-carrier", Outcome.TRIP, PLUG, ("battery.main.resistance=0.9 ohm", f"{PLUG}.rating=6 A")
        ),
        Example("tray-cart", Outcome.CANNOT_TELL, PLUG, (f"{PLUG}.rating=?",)),
        Example("tray-cart", Outcome.CANNOT_TELL, "wire.main.joints", UNDESCRIBED),
        Example("soft-fruit-gripper", Outcome.NOT_APPLICABLE, PLUG, variant="mended"),
    ),
    flips=(
        Flip("tray-cart", PLUG, f"{PLUG}.rating", "3 A", "20 A"),
        Flip("aisle-carrier", PLUG, f"{PLUG}.rating", "1 A", "60 A", ("battery.main.resistance=0.9 ohm",)),
    ),
)
def connector_too_small(joint: ConnectorFacts, limits: Limits) -> Answer:
    """The current through a connector, for long and for a moment, against its rating.

    Worked out: every motor at its work gives the current for long, at most 0.8 of the rating; every motor held
    fast gives the peak, at most twice the rating.

    Not covered: worn contacts, bad crimps, and what regulators draw.

    Source: common practice, no source.
    """
    if not joint.wire.runs:
        return NotApplicable(f"the current of no motor goes through {joint.id}")
    words = {"joint": joint.id, "bears": joint.bears}
    long = above(
        joint.steady_share, limits, "{joint} carries {steady} for long, {value:%} of its {bears}.",
        steady=joint.wire.steady, **words,
    )  # fmt: skip
    moment = above(
        joint.peak_share, {Severity.WARN: limits.also["peak"]},
        "{joint} carries {peak} for a moment, {value:%} of its {bears}.", peak=joint.wire.peak, **words,
    )  # fmt: skip
    return either(long, moment)
