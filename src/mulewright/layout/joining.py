"""How does a layout change when functions share a control, go away, or a transmitter is added?"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from mulewright.layout.problem import RECEIVER_OF, Channel, Kind, Pair, Problem


def joined(
    problem: Problem, names: Sequence[str], only: frozenset[str] | None = None, kind: Kind | None = None
) -> Problem:
    """Let functions share one control and its channel, as if they were one.

    Parameters
    ----------
    problem : Problem
        The layout to be made.
    names : sequence of str
        The functions, at least two.
    only : frozenset of str, optional
        The controls that can serve them so.
    kind : str, optional
        What they are together, if that is not what the most demanding of them is.

    Returns
    -------
    problem : Problem
        The same with one function in their place.
    """
    parts = [problem.function(name) for name in names]
    name = " and ".join(names)
    kinds = [one.kind for one in parts]
    kind = kind or ("speed" if "speed" in kinds else "position" if "position" in kinds else kinds[0])
    whole = replace(
        parts[0], name=name, names=tuple(inner for one in parts for inner in one.names),
        kind=kind, motor=any(one.motor for one in parts),
        held=any(one.held for one in parts), wants_slow=any(one.wants_slow for one in parts),
        leads=tuple(lead for one in parts for lead in one.leads), only=only if only is not None else parts[0].only,
    )  # fmt: skip
    new = dict.fromkeys(names, name)
    functions = [
        replace(one, follows=new.get(one.follows, one.follows))
        for one in problem.functions
        if one.name not in names[1:]
    ]
    functions[next(place for place, one in enumerate(functions) if one.name == names[0])] = whole
    pairs = (
        replace(one, first=new.get(one.first, one.first), second=new.get(one.second, one.second))
        for one in problem.pairs
    )
    present = {new.get(one, one): seat for one, seat in problem.present.items()}
    return replace(problem, functions=tuple(functions), pairs=_real(pairs), present=present)


def without(problem: Problem, names: Collection[str]) -> Problem:
    """Do without functions, and without their second leads."""
    gone = {one.name for one in problem.functions if one.name in names or one.follows in names}
    return replace(
        problem,
        functions=tuple(one for one in problem.functions if one.name not in gone),
        pairs=tuple(one for one in problem.pairs if gone.isdisjoint((one.first, one.second))),
        present={name: seat for name, seat in problem.present.items() if name not in gone},
    )


def with_leads_on_one(problem: Problem, follower: str) -> Problem:
    """Plug a second lead into the same channel as its function, by a Y-lead."""
    second = problem.function(follower)
    functions = [
        replace(one, leads=(*one.leads, *second.leads)) if one.name == second.follows else one
        for one in problem.functions
    ]
    return without(replace(problem, functions=tuple(functions)), {follower})


def freed(problem: Problem, channels: Iterable[Channel]) -> Problem:
    """Let functions sit on channels that something took."""
    free = {one for one in channels if one in problem.taken}
    taken = {one: why for one, why in problem.taken.items() if one not in free}
    return replace(problem, channels=tuple(sorted({*problem.channels, *free})), taken=taken)


def with_second_radio(problem: Problem) -> Problem:
    """Add a second transmitter and receiver like the first."""
    first, second = RECEIVER_OF
    swap = {
        one: Channel(second, one.number) for one in (*problem.channels, *problem.taken, *problem.protected)
    }
    own = [one for one in problem.controls if one.radio == first]
    twins = (
        replace(
            one, id=f"{second}{one.id.removeprefix(first)}", mixed=False,
            channels=tuple(Channel(second, channel.number) for channel in one.channels),
        )
        for one in own
    )  # fmt: skip
    free = sorted({swap[one] for one in (*problem.channels, *problem.taken)})
    return replace(
        problem, controls=(*problem.controls, *twins), channels=(*problem.channels, *free),
        protected=problem.protected | {swap[one] for one in problem.protected},
    )  # fmt: skip


def _real(pairs: Iterable[Pair]) -> tuple[Pair, ...]:
    return tuple(dict.fromkeys(one for one in pairs if one.first != one.second))
