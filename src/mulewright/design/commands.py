"""Which controls move which output, and through what? Followed through channels, mixes and boxes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from mulewright.design.mule import Mule
from mulewright.design.references import outputs_of
from mulewright.design.schema.electrics import Mixer
from mulewright.design.schema.radio import Mix, Radio
from mulewright.design.signals import Trace

Share = tuple[str, str]  # id of a table and the name of the field in it that multiplies the command

# Rows: outputs in the order of the sockets; columns: forward, strafe, turn.
SIGNS: dict[str, tuple[dict[str, int], ...]] = {
    "two-sides": ({"forward": 1, "turn": 1}, {"forward": 1, "turn": -1}),
    "four-roller-wheels": (
        {"forward": 1, "strafe": 1, "turn": 1},
        {"forward": 1, "strafe": -1, "turn": -1},
        {"forward": 1, "strafe": -1, "turn": 1},
        {"forward": 1, "strafe": 1, "turn": -1},
    ),
}


@dataclass(frozen=True)
class Term:
    """One control's part in an output: its sign, its channel, and the shares that multiply it."""

    control: str  # "radio.control.RV"
    channel: str  # "radio.channel.2"
    sign: int
    shares: tuple[Share, ...]
    boxes: tuple[str, ...] = ()  # mixes and boxes that it passed, for people


def terms(mule: Mule, trace: Trace) -> list[Term]:
    """Every part in the output at the start of a signal trace; several with one control add up."""
    inlines = tuple((hop, "factor") for hop in trace.hops if hop.startswith("inline."))
    return [replace(term, shares=term.shares + inlines) for term in _at_source(mule, trace)]


def _at_source(mule: Mule, trace: Trace) -> list[Term]:
    if trace.port is not None:
        receiver, number = trace.port
        return channel_terms(mule, "second_radio" if receiver == "second_receiver" else "radio", number)
    if trace.mixer is None:
        return []
    mixer_id, output = trace.mixer
    mixer = mule.signals.mixer(mixer_id)
    found = []
    for side, sign in mixer_row(mixer, output).items():
        before = mule.signals.trace(f"{mixer_id}.{side}")
        for term in terms(mule, before):
            shares = (*term.shares, (mixer_id, f"{side}_weight"))
            found.append(replace(term, sign=sign * term.sign, shares=shares, boxes=(*term.boxes, mixer_id)))
    return found


def mixer_row(mixer: Mixer, output: str) -> dict[str, int]:
    """Signs with which a box's inputs enter one of its outputs."""
    names = outputs_of(mixer)
    rows = SIGNS.get(mixer.mixes or "", ())
    place = names.index(output) if output in names else len(rows)
    return rows[place] if place < len(rows) else {}


def channel_terms(mule: Mule, radio: str, number: int) -> list[Term]:
    """What moves one channel of a radio, its mixes in the order in which they act."""
    table = getattr(mule.file, radio)
    if table is None:
        return []
    channel = f"{radio}.channel.{number}"
    found = [Term(f"{radio}.control.{name}", channel, 1, ()) for name in _direct(table, number)]
    for place, mix in enumerate(table.mix):
        if mix.active is not False:
            found = _mixed(table, radio, number, place, mix, found)
    return found


def _direct(radio: Radio, number: int) -> Sequence[str]:
    return [name for name, control in radio.control.items() if control.channel == number]


def _mixed(radio: Radio, name: str, number: int, place: int, mix: Mix, found: list[Term]) -> list[Term]:
    channels, inputs, mix_id = mix.channels or [], mix.inputs or [], f"{name}.mix.{place}"
    if number not in channels:
        return found
    channel = f"{name}.channel.{number}"
    if mix.kind == "slave":
        added = [
            Term(f"{name}.control.{control}", channel, 1, ((mix_id, "weight"),), (mix_id,))
            for control in inputs
        ]
        return found + added
    signs = SIGNS["two-sides"][channels.index(number)] if channels.index(number) < 2 else {}
    return [
        Term(f"{name}.control.{control}", channel, sign, ((mix_id, f"{side}_weight"),), (mix_id,))
        for control, (side, sign) in zip(inputs, signs.items(), strict=False)
    ]
