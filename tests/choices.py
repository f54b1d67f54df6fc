"""Functions of shipped designs laid out for trying parts, and what the facts say of single candidates."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import cache

from mulewright.advice.choosing.bench import Bench, Wanted, bench
from mulewright.advice.choosing.slots import Slots, slots_of
from mulewright.advice.choosing.tables import Asked, Tables, perhaps, tables_of
from mulewright.design.resolve import load
from mulewright.facts.serving import ServiceFacts
from tests.designs import EXAMPLES

NOTED = ("mechanism.roller.load_torque=0.1 N m", "motor.roller.load_torque=?")
FUNCTIONS: dict[str, tuple[str, str, tuple[str, ...]]] = {
    "arm": ("long-reach-pruner", "arm", ()),
    "lift": ("aisle-carrier", "lift", ()),
    "winch": ("log-winch", "winch", ()),
    "pulling winch": ("log-winch", "winch", ("mechanism.winch.use=pulling", "mechanism.winch.pull=60 N")),
    "drive of two wheels": ("tray-cart", "drive", ()),
    "drive of four wheels": ("aisle-carrier", "drive", ()),
    "thrower": ("seed-ball-thrower", "flywheel", ()),
    "feeder": ("seed-ball-thrower", "feeder", ()),
    "roller": ("leaf-sweeper", "roller", NOTED),
    "pump": ("aisle-carrier", "pump", ()),
}
SIZES = tuple(millimetres / 1e3 for millimetres in (25, 40, 60, 85, 110))
GAUGES = (("18 AWG", 0.8231e-6), ("14 AWG", 2.0810e-6), ("10 AWG", 5.2612e-6))
ASKED = Asked(1.0)
WANTED = Wanted((0.25, 40.0), 2, (10, 16, 24, 36, 60), SIZES, GAUGES)


@cache
def laid_out(design: str, function: str, sets: Sequence[str] = ()) -> Bench:
    loaded = load(EXAMPLES / design / "mule.toml", settings=sets)
    return bench(loaded, function, sets)


@cache
def tables(name: str, asked: Asked = ASKED, wanted: Wanted = WANTED) -> tuple[Bench, Slots, Tables]:
    on = laid_out(*FUNCTIONS[name])
    slots = slots_of(on, wanted, on.loaded.catalog)
    return on, slots, tables_of(on, slots, asked)


def by_facts(service: ServiceFacts) -> list[float]:
    """Margin, speed, current, heat, mass, and what is held fast, as the facts see them."""
    return [perhaps(service, name) for name in ("margin", "speed", "current", "heat", "mass", "unbroken")]


def same(one: float, other: float, share: float) -> bool:
    return (math.isnan(one) and math.isnan(other)) or math.isclose(one, other, rel_tol=share, abs_tol=1e-12)
