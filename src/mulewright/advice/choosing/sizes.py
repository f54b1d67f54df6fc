"""Which diameters and which gauges of wire can be tried, and where do they stand in the file?"""

from __future__ import annotations

from mulewright.advice.choosing.bench import AS_IT_IS, Edit, Option, Wanted
from mulewright.design.merging import UNKNOWN, Raw, is_number
from mulewright.design.paths import Path, look_up, written
from mulewright.design.schema.functions import Flywheel, Lift, Roller, Winch
from mulewright.facts.chain import DRIVE
from mulewright.facts.serving import ServiceFacts


def size_place(service: ServiceFacts) -> tuple[str, Path] | None:
    """Whether it is a drum, a wheel, a roller or a thrower whose diameter can be chosen, and where that stands."""
    if service.target == DRIVE:
        return "wheel", ("drive", "wheel", "diameter")
    kinds = {Lift: ("drum", "drum_diameter"), Winch: ("drum", "drum_diameter")}
    kinds |= {Roller: ("roller", "diameter"), Flywheel: ("thrower", "wheel_diameter")}
    found = kinds.get(type(service.mule.things[service.target]))
    return (found[0], ("mechanism", service.name, found[1])) if found else None


def sizes(service: ServiceFacts, wanted: Wanted) -> list[Option]:
    """What the file has now, and every size that shall be tried."""
    found = size_place(service)
    if found is None:
        return [Option("")]
    place = found[1]
    table = service.mule.table(written(place[:-1]))
    now = table.quantity(place[-1])
    options = [Option(_mm(now.value), (), now.value)] if now is not None else []
    if "size" in wanted.keep and options:
        return options
    heavier: list[Edit] = []
    if isinstance(table, Flywheel) and table.wheel_inertia is not None and table.wheel_mass is not None:
        heavier = [((*place[:-1], "wheel_inertia"), UNKNOWN)]  # then it follows from mass and diameter
    for size in wanted.sizes:
        if now is None or abs(size - now.value) > 1e-9:
            options.append(Option(_mm(size), ((place, _mm(size)), *heavier), size))
    return options


def wires(raw: Raw, service: ServiceFacts, wanted: Wanted) -> list[Option]:
    """The wires as they are, and one gauge for every run between battery and controllers."""
    wires = list(dict.fromkeys(service.mule.supply.run_by_id[run].wire for run in service.runs))
    places: list[Path] = [(*wire.split(".", 1), "gauge") for wire in wires]
    gauges = [look_up(raw, place) for place in places]
    texts = list(dict.fromkeys(str(gauge["value"] if is_number(gauge) else gauge) for gauge in gauges))
    label = texts[0] if len(texts) == 1 else AS_IT_IS
    options = [Option(label)]
    if "wire" in wanted.keep:
        return options
    return options + [
        Option(text, tuple((place, text) for place in places), area)
        for text, area in wanted.gauges
        if text != label
    ]


def _mm(size: float) -> str:
    return f"{size * 1e3:.6g} mm"
