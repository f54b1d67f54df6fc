"""What draws current while nothing moves, how much is that, and to what is the current limited?"""

from __future__ import annotations

from collections.abc import Sequence

from mulewright.advice.power_up.bands import Read
from mulewright.advice.power_up.bench import Bench
from mulewright.advice.power_up.currents import seen_at_supply, standing
from mulewright.advice.power_up.plan import Limit
from mulewright.advice.power_up.rails import draws, rail_source, rails, receiver_rail
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import Value
from mulewright.facts.rail import RailFacts
from mulewright.shelf.power_up import readings


def everything(bench: Bench, source: str | None = None) -> list[str]:
    """All that draws current while nothing moves; from one source where one is named."""
    found = [(one, rail_source(bench, rail)) for rail in rails(bench) for one in draws(bench, rail)]
    controllers = [f"controller.{name}" for name in bench.mule.file.controller]
    found += [(one, bench.mule.supply.source_of(one)) for one in controllers]
    return [thing for thing, fed_by in found if source is None or fed_by == source]


def all_live(bench: Bench) -> set[str]:
    """Everything that has power with all of it on, what it comes through, and every motor."""
    motors = {f"motor.{name}" for name in bench.mule.file.motor}
    return motors.union(*(bench.way(one) for one in everything(bench)))


def standing_band_reads(bench: Bench, powered: Sequence[str], rail: str, source: str | None) -> list[Read]:
    """Standing current of some things; lower at the supply where a switching regulator lies between."""

    def of_all(on: Evaluation) -> Value:
        return standing(on, powered)

    def through_regulator(on: Evaluation) -> Value:
        own = [one for one in powered if one.startswith("controller.")]
        others = [one for one in powered if one not in own]
        assert source is not None
        return standing(on, own) + seen_at_supply(on, rail, source, standing(on, others))

    switching = bool(rail) and source is not None and _switching(bench, rail)
    return [of_all, through_regulator] if switching else [of_all]


def _switching(bench: Bench, rail: str) -> bool:
    return bench.evaluation.entity(RailFacts, rail).switching


def limit_with(bench: Bench, source: str | None, parts: Sequence[tuple[str, Read]]) -> Limit:
    """The limit for everything at rest and some more."""
    rail = receiver_rail(bench)
    rest = bench.bands.of(
        readings()["standing"].meter, *standing_band_reads(bench, everything(bench, source), rail, source)
    )
    more = [(name, bench.bands.of("supply", read)) for name, read in parts]
    return bench.limit(source, [("standing", rest), *more])
