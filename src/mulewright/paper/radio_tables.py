"""What stands in the tables of the settings sheet: channels, controls and mixes, each value as it is to be set?"""

from __future__ import annotations

from mulewright.advice.spoken import listed, read, spoken
from mulewright.advice.start_list import StartPlace, start_list
from mulewright.design.schema.radio import Channel, Control, Mix, Radio, Receiver
from mulewright.facts.boxes import RADIO_OF
from mulewright.facts.ends import ChannelEndFacts, EndDutyFacts, PositionPulseFacts
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import number
from mulewright.facts.slow_mode import FunctionModeFacts
from mulewright.units.quantity import Quantity

TO_WRITE_IN = 6  # rows at least, where nobody said how many there are
CHANNELS = (
    "channel", "in its socket", "above neutral", "below neutral", "reverse", "sub-trim", "trim",
    "slowed to", "without a link",
)  # fmt: skip
CONTROLS = (
    "control", "is", "channel", "commands", "up or right", "rate", "slow rate", "expo", "positions",
    "at switch-on",
)  # fmt: skip
MIXES = ("mix", "kind", "is", "takes", "drives channels", "shares", "rates act")
ON = {True: "on", False: "off", None: ""}
REVERSED = {True: "reversed", False: "normal", None: ""}
ACTS = {True: "before it", False: "after it", None: ""}


def percent(quantity: Quantity | None) -> str:
    """A share as it is to be set; empty where it is not known."""
    return f"{round(quantity.value * 100, 6):g} %" if quantity is not None else ""


def pulse(quantity: Quantity | None) -> str:
    """A pulse as it is to be set."""
    return f"{round(quantity.value * 1e6, 6):g} us" if quantity is not None else ""


# --- channels


def channel_rows(evaluation: Evaluation, name: str) -> list[tuple[str, ...]]:
    """One row for each channel of a radio and each socket of its receiver."""
    radio, receiver = radio_of(evaluation, name)
    numbers = {int(number) for number in radio.channel if number.isdigit()}
    numbers |= {control.channel for control in radio.control.values() if control.channel is not None}
    numbers |= {number for mix in radio.mix for number in mix.channels or ()}
    sockets = (name.partition(".") for name in evaluation.mule.signals.in_socket)
    numbers |= {int(number) for kind, _, number in sockets if kind == receiver and number.isdigit()}
    last = max([radio.channels or TO_WRITE_IN, *numbers])
    return [_channel(evaluation, name, receiver, number) for number in range(1, last + 1)]


def radio_of(evaluation: Evaluation, name: str) -> tuple[Radio, str]:
    """The table of a radio, and the name of its receiver."""
    radio = evaluation.mule.things[name]
    assert isinstance(radio, Radio)
    return radio, next(receiver for receiver, of in RADIO_OF.items() if of == name)


def _channel(evaluation: Evaluation, name: str, receiver: str, number: int) -> tuple[str, ...]:
    table = evaluation.mule.table(f"{name}.channel.{number}")
    assert isinstance(table, Channel)
    plugged = evaluation.mule.signals.in_socket.get(f"{receiver}.{number}", [])
    ends = [_end(evaluation, f"{name}.channel.{number}", side) for side in ("up", "down")]
    slow = table.slow.text if table.slow is not None else ""
    return (
        f"{number}", listed(map(spoken, plugged)) if plugged else "", *ends, REVERSED[table.reverse],
        pulse(table.sub_trim), pulse(table.trim), slow, _without_a_link(evaluation, receiver, number, table),
    )  # fmt: skip


def _end(evaluation: Evaluation, channel: str, side: str) -> str:
    """One end of a channel: in percent, in microseconds, and in duty where a controller follows it."""
    table = evaluation.mule.table(channel)
    assert isinstance(table, Channel)
    own = table.travel_plus if side == "up" else table.travel_minus
    travel = own if own is not None else table.travel
    if travel is None:
        return ""
    ends = evaluation.entity(ChannelEndFacts, channel).node(f"end_{side}")
    words = [percent(travel), read(ends, 4)]
    duties = [one.node(f"duty_{side}") for one in EndDutyFacts.all(evaluation) if one.channel == channel]
    words += dict.fromkeys(f"duty {read(duty, as_percent=True).lstrip('-')}" for duty in duties if duty.known)
    return " = ".join(words)


def _without_a_link(evaluation: Evaluation, receiver_name: str, number: int, table: Channel) -> str:
    receiver = evaluation.mule.things.get(receiver_name)
    if not isinstance(receiver, Receiver):
        return ""
    noted = receiver.fail_safe.channels.get(number, receiver.fail_safe.others)
    can = receiver.protects is None or receiver.protects == "all" or number in receiver.protects
    measured = f"measured {pulse(table.failsafe_pulse)}" if table.failsafe_pulse is not None else ""
    words = [noted or "", measured, "" if can else "it can only hold" if noted != "hold" else "cannot be set"]
    return ", ".join(word for word in words if word)


# --- controls


def control_rows(evaluation: Evaluation, name: str) -> list[tuple[str, ...]]:
    """One row for each control of a radio."""
    radio, _ = radio_of(evaluation, name)
    starts = {place.control: place for place in start_list(evaluation)}
    rows = [
        _control(evaluation, name, short, control, starts.get(f"{name}.control.{short}"))
        for short, control in radio.control.items()
    ]
    spare = TO_WRITE_IN - len(rows) if radio.part is None else 0
    return [*rows, *[("",) * len(CONTROLS)] * spare]


def _control(
    evaluation: Evaluation, radio: str, short: str, control: Control, start: StartPlace | None
) -> tuple[str, ...]:
    functions = evaluation.mule.commands_of[f"{radio}.control.{short}"]
    made = [one for one in FunctionModeFacts.all(evaluation) if one.name in functions]
    mode = made[0] if made else None
    return (
        short, kind_of(control), f"{control.channel or ''}", listed(functions) if functions else "-",
        control.pushes_to or "", _rate(percent(control.rate), mode, "full"), _slow_rate(mode),
        percent(control.expo), _positions(evaluation, f"{radio}.control.{short}", control), start_words(control, start),
    )  # fmt: skip


def kind_of(control: Control) -> str:
    """What a control is, by its place."""
    count = control.position_count
    words = [
        control.kind or "", control.gimbal or "", control.axis or "",
        f"{count.value:g} positions" if count is not None and control.kind == "switch" else "",
        _spring(control) if control.kind == "stick" else "",
    ]  # fmt: skip
    return ", ".join(word for word in words if word)


def _spring(control: Control) -> str:
    if control.conversion == "fitted":
        return "spring fitted"
    return {True: "sprung", False: "no spring", None: ""}[control.sprung]


def _rate(text: str, mode: FunctionModeFacts | None, which: str) -> str:
    """A rate, with the pulse and the duty that a full push then gives."""
    if not text or mode is None:
        return text
    facts = [mode.node(f"{which}_pulse")]
    words = [text, *(read(fact, 3) for fact in facts if fact.known)]
    if facts[0].known and mode.has_duty and (duty := mode.node(f"{which}_duty")).known:
        words.append(f"duty {read(duty, as_percent=True)}")
    return " = ".join(words)


def _slow_rate(mode: FunctionModeFacts | None) -> str:
    if mode is None:
        return "-"
    slowed = mode.node("slowed")
    if not slowed.known:
        return ""
    if not float(slowed.value):
        return "not slowed"
    rate = mode.node("slow_rate")
    return _rate(read(rate, 4, as_percent=True), mode, "slow") if rate.known else ""


def _positions(evaluation: Evaluation, id: str, control: Control) -> str:
    """What each position of a switch commands, in percent and in microseconds from neutral."""
    if control.positions is None:
        return "" if control.kind in ("switch", None) else "-"
    words = []
    for place, command in enumerate(control.positions, start=1):
        made = number(evaluation.entity(PositionPulseFacts, f"{id}@{place}").node("channel_pulse"))
        shown = f" = {made * 1e6:+.0f} us" if made is not None and control.kind == "switch" else ""
        words.append(f"{place}: {percent(command)}{shown}")
    return "; ".join(words)


def start_words(control: Control, start: StartPlace | None) -> str:
    """Where a control should stand, with the reason where nobody noted it."""
    if control.start is not None:
        return control.start
    return f"{start.place} ({start.because})" if start is not None and start.place is not None else ""


# --- mixes


def mix_rows(radio: Radio) -> list[tuple[str, ...]]:
    """One row for each mix, in the order in which they act."""
    return [_mix(place, mix) for place, mix in enumerate(radio.mix, start=1)]


def _mix(place: int, mix: Mix) -> tuple[str, ...]:
    shares = (("forward", mix.forward_weight), ("turn", mix.turn_weight), ("slave", mix.weight))
    said = [f"{side} {percent(share)}" for side, share in shares if share is not None]
    return (
        f"{place}", mix.kind or "", ON[mix.active], ", ".join(mix.inputs or ()),
        ", ".join(map(str, mix.channels or ())), ", ".join(said), ACTS[mix.rate_before],
    )  # fmt: skip
