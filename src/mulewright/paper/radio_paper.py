"""What has to be set in the radio, so that a lost model memory can be entered again?"""

from __future__ import annotations

from collections.abc import Iterator

from mulewright.advice.spoken import listed, spoken
from mulewright.design.mule import Mule
from mulewright.design.schema.radio import Radio, Receiver
from mulewright.facts.boxes import RADIO_OF
from mulewright.facts.graph import Evaluation
from mulewright.paper.blocks import Block, Grid, Paper, Ticks, Words
from mulewright.paper.radio_tables import (
    CHANNELS,
    CONTROLS,
    MIXES,
    channel_rows,
    control_rows,
    mix_rows,
    percent,
    pulse,
    radio_of,
)

TESTERS = ("tester", "is set to", "shortest pulse", "longest pulse", "on it")


def radio_paper(evaluation: Evaluation) -> Paper:
    """The settings sheet of every radio of a mule, or of its servo testers."""
    mule = evaluation.mule
    radios = [name for name in RADIO_OF.values() if name in mule.things]
    blocks = [block for name in radios for block in _radio(evaluation, name, alone=len(radios) == 1)]
    blocks += _testers(mule)
    if not radios:
        blocks.insert(0, Words("No radio is described in the mule file, so there is nothing to enter again."))
    return Paper(
        "radio", "Radio settings",
        "From this sheet a lost model memory is entered again. What is not known is left empty: write it in.",
        tuple(blocks), wide=True,
    )  # fmt: skip


def _radio(evaluation: Evaluation, name: str, *, alone: bool) -> Iterator[Block]:
    radio, receiver_name = radio_of(evaluation, name)
    receiver = evaluation.mule.things.get(receiver_name)
    assert receiver is None or isinstance(receiver, Receiver)
    if not alone:
        yield Words(spoken(name).capitalize(), "section")
    yield Grid(
        ("setting", "is", "setting ", "is "), _as_a_whole(radio, receiver), ("fit", 1, "fit", 1), (0, 2)
    )
    yield Words("Channels", "heading")
    yield Grid(CHANNELS, channel_rows(evaluation, name), ("fit", 1, 1.5, 1.5, *("fit",) * 4, 1))
    yield Words("100 % is another pulse on another radio. Compare the microseconds.", "small")
    yield Words("Mixes", "heading")
    mixes = mix_rows(radio)
    yield Grid(MIXES, mixes) if mixes else Words("None is noted.")
    yield Words("Controls, and where each stands when the power comes on", "heading")
    yield Grid(
        CONTROLS, control_rows(evaluation, name), ("fit", 1.4, "fit", 0.9, 1, 1.4, 1.4, "fit", 1.5, 1.3)
    )
    yield Words("Bind", "heading")
    yield Ticks(_bind(evaluation.mule, receiver))


def _as_a_whole(radio: Radio, receiver: Receiver | None) -> list[tuple[str, ...]]:
    rate = radio.rate
    covers = rate.covers if rate.covers is not None else radio.rate_covers
    left = [
        ("radio", _part(radio.part, radio.title)),
        ("receiver", _part(receiver.part, receiver.title) if receiver is not None else ""),
        ("memory in use", radio.memory or ""),
        ("memory of the plan", radio.planned_memory or ""),
    ]
    right = [
        ("neutral", pulse(radio.neutral)),
        ("100 % of a channel", pulse(radio.half_range)),
        ("rate switch", ", slow: ".join(word for word in (rate.switch or "", percent(rate.slow)) if word)),
        ("it reaches", ", ".join(covers) if covers is not None else ""),
    ]
    return [(*one, *other) for one, other in zip(left, right, strict=True)]


def _part(part: str | None, title: str | None) -> str:
    return ": ".join(word for word in (part, title) if word)


def _bind(mule: Mule, receiver: Receiver | None) -> list[tuple[str, str]]:
    alone = mule.file.checklist.bind_alone
    tested = receiver.fail_safe.tested if receiver is not None else None
    since = " but bound or re-plugged since" if receiver is not None and receiver.rebound_since_test else ""
    light = f"noted: {receiver.light}" if receiver is not None and receiver.light else ""
    return [
        ("Choose the model memory, then bind with every other transmitter of the kind off", _ticked(alone)),
        ("The receiver's light shows what it shows when it is linked", light),
        (_stored(receiver), ""),
        (
            "Wheels up: transmitter off while each function runs",
            f"in the file: tried {tested}{since}" if tested is not None else "in the file: never tried",
        ),
    ]


def _stored(receiver: Receiver | None) -> str:
    """For which channels the receiver can store what they do on a lost link."""
    protects = receiver.protects if receiver is not None else None
    if protects is None or protects == "all":
        return "Store the fail-safe of each channel again, with the sticks at neutral"
    if not protects:
        return "This receiver can store no fail-safe: every channel goes on with its last command"
    numbers = listed(str(one) for one in protects)
    channel = f"channel{'s' if len(protects) > 1 else ''} {numbers}"
    return f"Store the fail-safe of {channel} again, with the sticks at neutral; the others hold, and cannot be set"


def _ticked(tick: object) -> str:
    if not tick:
        return ""
    return "ticked in the file" if tick is True else f"ticked in the file: {tick}"


def _testers(mule: Mule) -> list[Block]:
    if not mule.file.tester:
        return []
    rows = []
    for name, tester in mule.file.tester.items():
        leads = mule.signals.leads.items()
        on_it = [spoken(lead) for lead, sockets in leads if any(_is_on(one, name) for one in sockets)]
        rows.append(
            (name, tester.mode or "", pulse(tester.low), pulse(tester.high), listed(on_it) if on_it else "")
        )
    return [Words("Servo testers", "heading"), Grid(TESTERS, rows)]


def _is_on(socket: str, tester: str) -> bool:
    return socket == f"tester.{tester}" or socket.startswith(f"tester.{tester}.")
