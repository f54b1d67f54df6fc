"""Which leads and adapters are taken off the shelf, which are missing, and what are all the parts of the mule?"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from mulewright.advice.lead_picking.leads import SCREW, End, ShelfLead
from mulewright.advice.lead_picking.listing import UNCOUNTED, Lacking, PickList, pick_leads
from mulewright.advice.lead_picking.needs import Connection
from mulewright.advice.lead_picking.solving import Served
from mulewright.advice.parts_list import list_parts
from mulewright.advice.spoken import UNKNOWN, listed, spoken
from mulewright.facts.graph import Evaluation
from mulewright.paper.blocks import TICK, Block, Grid, Paper, Words
from mulewright.paper.parts_table import parts_table
from mulewright.units.shown import people

TAKEN = "that there is a lead of its own with the usual servo plug on every controller, servo and regulator"


def picklist_paper(evaluation: Evaluation) -> Paper:
    """The leads to take, those that are missing, and the list of parts."""
    picked = pick_leads(evaluation)
    parts = list_parts(evaluation, picked)
    blocks = [
        Words(_summary(picked)),
        *_taken(picked),
        *_lacking(picked),
        *_unknown(picked),
        *_swaps(picked),
        *_reaching(picked),
        *parts_table(parts),
    ]
    what_for = (
        "What to take off the shelf and what to get before the wiring begins. Tick what lies in the box."
    )
    data = {"leads": picked.as_dict(), "parts": parts.as_dict()}
    return Paper("picklist", "Pick list", what_for, blocks, data=data)


def _summary(picked: PickList) -> str:
    parts = {
        "served from the shelf": len(picked.taken),
        "without a lead": len(picked.lacking),
        "where nothing more is needed": len(picked.reaching),
        "with an end that is not noted": len(picked.unknown),
    }
    every = sum(parts.values())
    if not every:
        return "No connection is described, so no lead is needed yet."
    proof = "" if picked.proved else " There may be a better choice than this one: not all were tried."
    counts = ", ".join(f"{count} {words}" for words, count in parts.items() if count)
    return f"{every} connection{'s' * (every > 1)}: {counts}.{proof}"


def _taken(picked: PickList) -> Iterator[Block]:
    groups: dict[tuple[tuple[str, ...], str], list[tuple[Connection, Served]]] = {}
    for connection, served in picked.taken:
        ids = tuple(lead.id for lead in served.leads)
        groups.setdefault((ids, _note(connection, served)), []).append((connection, served))
    rows: list[tuple[str, ...]] = []
    marked: list[int] = []
    for (_, note), same in groups.items():
        served = same[0][1]
        marked += [len(rows)] if served.chain.flips else []
        rows.append((
            TICK, f"{len(same)} ×", _chain(served.leads), _bins(served.leads),
            _numbers([number for one, _ in same for number in one.wires]),
            _between(*(one for one, _ in same)), note,
        ))  # fmt: skip
    if rows:
        yield Words("Take off the shelf", "heading")
        columns = ("", "how many", "lead", "bin", "wire", "between", "note")
        yield Grid(columns, rows, ("fit", "fit", 1.3, "fit", "fit", 1.1, 1), strong=(1, 2, 3), marked=marked)


def _note(connection: Connection, served: Served) -> str:
    spare = f"{_metres(served.surplus)} to spare" if connection.short and served.surplus else ""
    swaps = f"plus and minus swap {served.chain.flips} ×, which cancels" if served.chain.flips else ""
    adapters = f"{served.adapters} adapter{'s' * (served.adapters > 1)}" if served.adapters else ""
    return _words([spare, adapters, swaps, *connection.notes])


def _lacking(picked: PickList) -> Iterator[Block]:
    groups: dict[tuple[object, ...], list[Lacking]] = {}
    for one in picked.lacking:
        get = tuple(lead.id for lead in one.get)
        groups.setdefault((one.need.alike, one.why, get, one.connection.notes), []).append(one)
    rows = []
    for same in groups.values():
        first, wires = same[0], [number for one in same for number in one.connection.wires]
        such = f"this would do: {_chain(first.get)}" if first.get else ""
        plugs = f"to crimp: {listed(first.plugs)}" if first.plugs else ""
        why = first.why if first.why != UNCOUNTED else ""
        rows.append((
            TICK, f"{len(same)} ×", _wanted(first), _numbers(wires), _between(*(one.connection for one in same)),
            _words([why, such, plugs, *_notes(first.connection)]),
        ))  # fmt: skip
    if rows:
        yield Words("Missing: get or crimp", "heading")
        columns = ("", "how many", "what", "wire", "between", "why, and what would do")
        yield Grid(columns, rows, ("fit", "fit", 1.2, "fit", 1, 1.2), strong=(1, 2))


def _wanted(lacking: Lacking) -> str:
    """What a lead has to be, for one who crimps it."""
    need, gauge = lacking.need, lacking.connection.gauge
    start, end = _plug(need.start), _plug(need.end)
    far = f"{need.branches} × {end}" if need.branches > 1 else end
    ends = (
        f"both ends: {start}"
        if start == end and need.branches == 1
        else f"one end: {start}; other end: {far}"
    )
    length = f"at least {_metres(need.length)} long" if need.length else "any length"
    words = [ends, length if lacking.connection.way is not None else "as long as its way, which is not noted"]
    if need.kind in ("power", "motor"):
        words.insert(0, "pair of wires")
    if gauge is not None:
        words.append(f"{gauge.text} or thicker")
    elif need.kind in ("power", "motor"):
        words.append(f"thickness {UNKNOWN}")
    words += [f"joined in {need.joins}"] if need.joins == "series" else []
    words += ["middle wire in"] if need.red else []
    return "; ".join(words)


def _plug(place: End) -> str:
    """The end of a lead that goes onto a place."""
    return place.words if place == SCREW else place.other.words


def _unknown(picked: PickList) -> Iterator[Block]:
    rows = []
    for one in picked.unknown:
        known = [end.words for end in (one.start, one.end) if end is not None]
        ends = f"one end not noted; the other: {known[0]}" if known else "neither end noted"
        note = f"note {listed(one.unknown)}" if one.unknown else ""
        rows.append((_numbers(one.wires), _between(one), ends, _words([note, *_notes(one)])))
    if rows:
        yield Words("Ends that nobody noted", "heading")
        yield Grid(("wire", "between", "what goes there", "to settle it"), rows, ("fit", 1, 1, 1.2))
    for id, gaps in picked.unusable.items():
        yield Words(f"Lead {id} on the shelf was left out: {listed(gaps)} not noted.", "small")


def _swaps(picked: PickList) -> Iterator[Block]:
    for one in picked.polarity:
        times = len(one.flipping)
        words = f"Before {listed(map(spoken, one.devices))} plus and minus swap {times} ×, in {listed(one.flipping)}"
        if one.is_wrong:
            yield Words(f"{words}: they arrive the wrong way round.", "warning")
        else:
            yield Words(f"{words}: they cancel; meter it before the plug goes in.")


def _reaching(picked: PickList) -> Iterator[Block]:
    known = [number for one in picked.reaching if one.way is not None for number in one.wires]
    unsaid = [number for one in picked.reaching if one.way is None for number in one.wires]
    words = [f"The leads built on reach: wires {_numbers(known)}."] if known else []
    if unsaid:
        words.append(
            f"Wires {_numbers(unsaid)}: how far they have to go is not noted, and the leads built on are taken "
            "to reach. For a servo lead, way_to_socket says it."
        )
    if any(one.kind in ("servo lead", "supply lead") for one in picked.reaching):
        words.append(f"Taken: {TAKEN}, and three pins in every socket.")
    if words:
        yield Words("Nothing more is needed", "heading")
        yield Words(" ".join(words), "small")


def _lead(lead: ShelfLead) -> str:
    return f"{lead.id}: {lead.title}" if lead.title else lead.id


def _chain(leads: Sequence[ShelfLead]) -> str:
    """Leads that are plugged together, each kind once."""
    counts = Counter(leads)
    return " + ".join(f"{f'{count} × ' if count > 1 else ''}{_lead(lead)}" for lead, count in counts.items())


def _bins(leads: Sequence[ShelfLead]) -> str:
    return " + ".join(dict.fromkeys(lead.bin or UNKNOWN for lead in leads))


def _between(*connections: Connection) -> str:
    """What connections join; those that begin at the same thing are said together."""
    ends: dict[str, list[str]] = {}
    for one in connections:
        ends.setdefault(one.start_at, []).append(spoken(one.end_at))
    return "; ".join(f"{spoken(start)} – {', '.join(dict.fromkeys(far))}" for start, far in ends.items())


def _notes(connection: Connection) -> list[str]:
    """What is noted of a connection, without what is said of its length elsewhere."""
    return [words for words in connection.notes if not words.startswith("length")]


def _metres(length: float) -> str:
    return people(length, "m", 2)


def _words(words: Sequence[str]) -> str:
    return "; ".join(word for word in words if word)


def _numbers(wires: Sequence[int]) -> str:
    """Numbers of wires, those that follow each other as a range.

    >>> _numbers([1, 2, 3, 7])
    '1–3, 7'
    """
    found: list[list[int]] = []
    for number in sorted(set(wires)):
        if found and number == found[-1][-1] + 1:
            found[-1].append(number)
        else:
            found.append([number])
    return ", ".join(str(one[0]) if len(one) == 1 else f"{one[0]}–{one[-1]}" for one in found)
