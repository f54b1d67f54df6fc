"""What does every step need to know? The mule, its wires by number, its bands, and how the current comes in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import cached_property
from math import ceil, isclose

from mulewright.advice.power_up.bands import Bands, Read
from mulewright.advice.power_up.currents import volts_of
from mulewright.advice.power_up.plan import Band, Limit, Mode, Reading, Step
from mulewright.advice.power_up.risk import in_order
from mulewright.advice.power_up.words import beyond_words
from mulewright.advice.spoken import control_word, listed, spoken
from mulewright.design.harness import Conductor, harness
from mulewright.design.mule import Mule
from mulewright.facts.graph import Evaluation
from mulewright.facts.wiring import BatteryFacts
from mulewright.shelf.power_up import factor, fixed, readings, sizes, steps
from mulewright.shelf.power_up import meters as all_meters

STEP = 0.1  # [A] in which the limit of a bench supply is given
LEAST = 0.2  # [A] below which a bench supply is hardly set


class Bench:
    """A mule on the bench, and how its current comes in."""

    def __init__(self, evaluation: Evaluation, mode: Mode) -> None:
        self.evaluation = evaluation
        self.mode = mode
        self.bands = Bands(evaluation, on_supply=mode == "bench supply")
        self.pack_bands = Bands(evaluation, on_supply=False)

    @property
    def mule(self) -> Mule:
        """The mule."""
        return self.evaluation.mule

    @cached_property
    def wires(self) -> Sequence[Conductor]:
        """Every wire with its number."""
        return harness(self.mule).conductors

    @cached_property
    def functions(self) -> list[str]:
        """The functions that motors serve, the least risk first."""
        return in_order(self.evaluation, list(self.mule.motors_serving))

    @cached_property
    def batteries(self) -> list[str]:
        """The packs in use."""
        return [one.id for one in BatteryFacts.all(self.evaluation)]

    def control(self, control: str) -> str:
        """The name of a control, with its transmitter where there are two."""
        file = self.mule.file
        several = file.radio is not None and file.second_radio is not None
        return control_word(control, several=several)

    # --- wires

    def numbers(self, *, thing: str, kinds: Iterable[str]) -> tuple[int, ...]:
        """Numbers of the wires of some kinds that end on a thing."""
        wanted = set(kinds)
        return tuple(
            one.number
            for one in self.wires
            if one.kind in wanted and thing in (pin.thing for pin in one.pins)
        )

    def power_wires(self, thing: str) -> tuple[int, ...]:
        """The wires that bring plus and minus to a thing."""
        ends = (one for one in self.wires if one.end is not None and one.kind in ("plus", "minus"))
        return tuple(one.number for one in ends if one.end is not None and one.end.thing == thing)

    def way(self, thing: str) -> frozenset[str]:
        """Everything through which the current of a thing comes, and the thing itself."""
        found = {thing, f"{thing}.regulator"}
        for run in self.mule.supply.way_to(thing):
            found |= {run.start, run.end, run.wire, run.id, *run.through}
        rail = self.mule.supply.rail_nets.get(thing)
        if rail is not None and rail in self.mule.supply.rail_names:
            found.add(self.mule.supply.rail_names[rail])
        return frozenset(found)

    # --- readings and steps

    def reading(
        self, word: str, key: str, *reads: Read, pack: bool = False, about: str = "", **words: str
    ) -> Reading:
        """A reading with the band of some values."""
        bands = self.pack_bands if pack else self.bands
        return self.said(word, key, bands.of(readings()[word].meter, *reads), about=about, **words)

    def said(self, word: str, key: str, band: Band, *, about: str = "", **words: str) -> Reading:
        """A reading with a band that is known already."""
        says, meter = readings()[word], all_meters()[readings()[word].meter]
        supply = "the battery" if self.mode == "battery" else "the supply"
        with_ = meter.on_battery if meter.on_battery and self.mode == "battery" else meter.instrument
        called = self.called(words)
        what = says.what.format(**called, supply=supply)
        thing = called.get("thing") or called.get("motors") or about
        each = what.replace(about, "each") if about else what
        return Reading(
            f"{word}:{key}",
            word,
            what,
            band,
            with_,
            about or thing,
            each.replace(thing, "each") if thing else each,
        )

    def borne(self, band: Band, things: Iterable[str]) -> Band:
        """A band of volts, cut at what the weakest of some things bears.

        What is made for just the volts that its supply is set to bears what such supplies are usually off, too.
        """
        tables = ((thing, self.mule.table(thing)) for thing in things if thing in self.mule.things)
        most = ((getattr(table, "max_voltage", None), thing) for thing, table in tables)
        bears = [(one.value, thing) for one, thing in most if one is not None]
        if not bears:
            return band
        volts, weakest = min(bears)
        made_for_it = band.nominal is not None and isclose(band.nominal, volts)
        return band if made_for_it else band.cut(volts, spoken(weakest))

    def constant(self, word: str, key: str, name: str, *, about: str = "", **words: str) -> Reading:
        """A reading whose band does not hang on the mule."""
        low, high = fixed(name)
        band = Band(all_meters()[readings()[word].meter].kind, low, high)
        return self.said(word, key, band, about=about, **words)

    def step(
        self,
        word: str,
        key: str,
        do: Iterable[str] = (),
        readings: Iterable[Reading] = (),
        live: Iterable[str] = (),
        wires: Iterable[int] = (),
        limit: Limit | None = None,
        stage: int | None = None,
        **words: str,
    ) -> Step:
        """A step of some kind; what the table says to do comes first."""
        says, called, readings = steps()[word], self.called(words), tuple(readings)
        return Step(
            f"{word}:{key}",
            says.stage if stage is None else stage,
            says.title.format(**called),
            (
                *dict.fromkeys(line for one in readings if (line := beyond_words(one))),
                *(line.format(**called) for line in says.do),
                *do,
            ),
            readings,
            limit,
            frozenset(live),
            tuple(sorted(set(wires))),
            says.then.format(**called),
            tuple(path.format(**words) for path in says.proves),
            says.checks,
        )

    def called(self, words: Mapping[str, str]) -> dict[str, str]:
        """Words for a text, with things of the mule as people call them."""
        return {key: spoken(word) if word in self.mule.things else word for key, word in words.items()}

    # --- limits

    def limit(self, source: str | None, parts: Sequence[tuple[str, Band]]) -> Limit:
        """To what the current is limited: all that should flow, and half as much again."""
        volts = self._volts(source)
        needs = tuple(sorted({need for _, band in parts for need in band.needs} | set(volts.needs)))
        unknown = [name for name, band in parts if not band.known]
        if unknown:
            return Limit(volts.nominal, None, None, f"cannot be worked out: {' and '.join(unknown)}", needs)
        sum_ = sum(band.high or 0.0 for _, band in parts)
        amps = max(LEAST, ceil(sum_ * factor("margin") / STEP - 1e-9) * STEP)
        fuse = next((size for size in sizes("blades") if size >= amps), None)
        why = " + ".join(f"{name} {band.high or 0.0:.2g} A" for name, band in parts)
        return Limit(volts.nominal, round(amps, 3), fuse, f"{why}, and half as much again", needs)

    def _volts(self, source: str | None) -> Band:
        if source is None:
            return Band("voltage", needs=("a battery or a bench supply that feeds it",))
        return self.bands.of("volts", lambda on: volts_of(on, source).rested)


def named(things: Iterable[str]) -> str:
    """Things of the mule in a row, as people call them."""
    return listed(spoken(thing) for thing in things)


def wire_words(numbers: Sequence[int]) -> str:
    """``wire 3``, ``wires 3 and 4``; nothing where there is none."""
    if not numbers:
        return ""
    return f"wire{'s' if len(numbers) > 1 else ''} {listed(str(number) for number in numbers)}"
