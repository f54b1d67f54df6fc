"""How does a band read to a person with a meter in one hand?"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from mulewright.advice.power_up.plan import Band, Limit, Reading, Source, Step
from mulewright.advice.spoken import listed
from mulewright.shelf.power_up import meters
from mulewright.units.shown import people

OUTSIDE = (("Low", "below"), ("High", "above"), ("None", "nothing"), ("Minus", "minus"))
MOST_WRITTEN = 4
SOURCES = 3  # inputs that are named behind a band
FEWEST, MOST = 2, 5  # digits
COARSE = 0.02  # of a band's width; rounding its ends may take no more


def band_words(band: Band) -> str:
    """A band with its unit: ``9.4 V to 10.3 V``, ``up to 1.6 s``, ``needs battery.main.rested``.

    >>> band_words(Band("voltage", 9.38, 10.31, 9.9))
    '9.38 V to 10.3 V'
    """
    words = _plain(band)
    return f"{words}, the most that {band.bearer} bears" if band.bearer else words


def _plain(band: Band) -> str:
    if band.needs:
        return f"? (needs {', '.join(band.needs)}): write it down"
    if not band.known:
        return "? (no bound is known)"
    if band.low is None or (band.low == 0 and band.high is not None):
        return f"up to {_shown(band, band.high)}"
    if band.high is None:
        return f"at least {_shown(band, band.low)}"
    if band.low == band.high:
        return people(band.low, band.unit, MOST)
    return f"{_shown(band, band.low)} to {_shown(band, band.high)}"


def beyond_words(reading: Reading) -> str:
    """What is not to be connected, where all that is expected is more than something bears; empty elsewhere."""
    band = reading.band
    if band.expected is None:
        return ""
    low, high = band.expected
    there = _plain(replace(band, low=low, high=high))
    most = people(band.high or 0.0, band.unit, FEWEST)
    return f"DO NOT CONNECT: by the file {there} come here, and {band.bearer} bears {most} at most."


def _shown(band: Band, end: float | None) -> str:
    """An end, with as many digits as the width of the band is worth."""
    assert end is not None
    width = abs((band.high or 0.0) - (band.low or 0.0)) or abs(end)
    for digits in range(FEWEST, MOST):
        if abs(float(f"{end:.{digits}g}") - end) <= COARSE * width:
            return people(end, band.unit, digits)
    return people(end, band.unit, MOST)


def limit_words(limit: Limit) -> str:
    """To what a bench supply is set, or which fuse comes first, and why."""
    why = f"{limit.why} (needs {', '.join(limit.needs)})" if limit.needs else limit.why
    if limit.volts is None and limit.amps is None:
        size = people(limit.fuse, "A") if limit.fuse is not None else "the smallest that you have"
        return f"first fuse {size}, instead of the main one or in a holder of its own: {why}"
    volts = people(limit.volts, "V") if limit.volts is not None else "? V"
    amps = people(limit.amps, "A", 2) if limit.amps is not None else "? A"
    return f"bench supply {volts}, {amps}: {why}"


def outside(reading: Reading) -> list[tuple[str, str]]:
    """What to do outside its band: a label and a text for each side on which it can lie."""
    band, found = reading.band, []
    for label, key in OUTSIDE:
        text: str = getattr(reading.words, key)
        if text and not (key == "below" and not band.low) and not (key == "above" and band.high is None):
            found.append(("Open" if key == "nothing" and band.kind == "resistance" else label, text))
    return found


def source_words(reading: Reading) -> str:
    """What makes a band as wide as it is: inputs that may be off, and the meter."""
    meter = meters()[reading.words.meter]
    sources = sorted(reading.band.rests_on, key=_width, reverse=True)
    named = [f"{one.path} {one.text} ({one.why})" for one in sources[:SOURCES]]
    more = [f"{len(sources) - SOURCES} more"] if len(sources) > SOURCES else []
    if not sources and (reading.band.nominal is None or meter.off(reading.band.nominal) == 0):
        return ""
    return ", ".join([*named, *more, f"meter {meter.error}"])


def _width(source: Source) -> float:
    """How wide the interval of an input is, as a share of its size."""
    return (source.high - source.low) / (abs(source.high) + abs(source.low) or 1.0)


def written(paths: Sequence[str]) -> str:
    """The inputs that a step fills in, the first of them by name."""
    more = [f"{len(paths) - MOST_WRITTEN} more"] if len(paths) > MOST_WRITTEN else []
    return listed([*paths[:MOST_WRITTEN], *more])


def step_words(numbers: Sequence[int]) -> str:
    """Numbers of steps, rows of them joined.

    >>> step_words([3, 5, 6, 7, 10]), step_words([4])
    ('steps 3, 5 to 7 and 10', 'step 4')
    """
    rows: list[list[int]] = []
    for number in numbers:
        if rows and rows[-1][-1] == number - 1:
            rows[-1].append(number)
        else:
            rows.append([number])
    said = [
        one
        for row in rows
        for one in ([f"{row[0]} to {row[-1]}"] if len(row) > 2 else [str(number) for number in row])
    ]
    return f"step{'s' if len(numbers) > 1 else ''} {listed(said)}"


def wait_words(step: Step) -> str:
    """For which of the open checks a step waits."""
    ids = dict.fromkeys(one.split()[0] for one in step.waits)
    return f"for {listed(ids)}, told above"
