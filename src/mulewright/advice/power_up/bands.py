"""Between what should a reading lie? The facts behind it, on draws of all that may be off, and what the meter adds."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from mulewright.advice.at_hand import spread
from mulewright.advice.draws import draw
from mulewright.advice.power_up.plan import Band, Source
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import UNKNOWN, Value, average
from mulewright.shelf.measuring import error_in_si, instruments
from mulewright.shelf.power_up import meters, tolerance
from mulewright.units.quantity import Origin, Quantity

COUNT = 600  # draws; the ends of a band are quantiles of them
ENDS = (0.025, 0.975)
NEVER_BELOW_ZERO = frozenset(("current", "resistance", "time", "angle", "length", "temperature_rise"))
Read = Callable[[Evaluation], Value]


class Bands:
    """Bands of one mule; ``on_supply`` says that a bench supply holds the volts of its packs."""

    def __init__(self, evaluation: Evaluation, on_supply: bool) -> None:
        self.evaluation = evaluation
        self.on_supply = on_supply
        self._sources: dict[str, Source | None] = {}
        self._values: dict[str, NDArray[np.float64]] = {}
        self._drawn: Evaluation | None = None

    def of(self, meter: str, *reads: Read) -> Band:
        """The band that holds each of some values; the first one is the nominal one."""
        kind = meters()[meter].kind
        needs: set[str] = set()
        values, sources = [], dict[str, Source]()
        for read in reads:
            value = UNKNOWN
            with self.evaluation.watch() as seen:
                value = read(self.evaluation)
            needs |= seen.gaps
            values.append(average(value))
            for node in seen.reads:
                for given in node.inputs():
                    quantity = self.evaluation.given.get(given.path)
                    if quantity is not None and (source := self._source(given.path, quantity)):
                        sources[given.path] = source
        if needs:
            return Band(kind, needs=tuple(sorted(needs)))
        ends = [*(end for read in reads for end in self._ends(read)), *values]
        off = meters()[meter].off
        low, high = min(ends), max(ends)
        low, high = low - off(low), high + off(high)
        if kind in NEVER_BELOW_ZERO:
            low = meters()[meter].told(max(low, 0.0))
        rests_on = tuple(sources[path] for path in sorted(sources))
        return Band(kind, _bounded(low), _bounded(high), _bounded(values[0]), rests_on=rests_on)

    def _ends(self, read: Read) -> tuple[float, float]:
        if self._drawn is None:
            self._drawn = self.evaluation.again(self._values)
        drawn = np.asarray(read(self._drawn), dtype=float)
        low, high = np.quantile(drawn, ENDS, method="nearest") if drawn.ndim else (drawn, drawn)
        return float(low), float(high)

    def _source(self, path: str, quantity: Quantity) -> Source | None:
        """How far off an input may be; what may be off is drawn from here on."""
        if path not in self._sources:
            found, why = self._interval(path, quantity)
            self._sources[path] = None
            if found is not None and found.low is not None and found.high is not None and found.uncertain:
                self._sources[path] = Source(path, quantity.text, found.low, found.high, why)
                self._values[path] = draw(path, found, COUNT)
                self._drawn = None
        return self._sources[path]

    def _interval(self, path: str, quantity: Quantity) -> tuple[Quantity | None, str]:
        row = tolerance(path)
        if self.on_supply and path.startswith("battery.") and path.endswith(".rested"):
            row = tolerance("bench_supply.*.voltage")
            return (_about(quantity, row.off(quantity.value)), row.about) if row else (None, "")
        if quantity.uncertain:
            low = quantity.value if quantity.low is None else quantity.low
            high = quantity.value if quantity.high is None else quantity.high
            return replace(quantity, low=low, high=high), "as typed"
        meter = instruments().get(quantity.instrument)
        if quantity.origin is Origin.MEASURED and meter is not None:
            return _about(quantity, error_in_si(meter.error, quantity.kind, quantity.value)), meter.name
        if row is not None:
            return _about(quantity, row.off(quantity.value)), row.share
        return spread(self.evaluation.mule, path, quantity), quantity.origin.word


def _bounded(value: float) -> float | None:
    """A number, or None where it has no bound."""
    return float(value) if np.isfinite(value) else None


def _about(quantity: Quantity, off: float) -> Quantity:
    return replace(quantity, low=quantity.value - off, high=quantity.value + off)
