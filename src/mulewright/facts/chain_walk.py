"""Which things lie between the battery and the load of a function, and what about each of them can give?"""

from __future__ import annotations

from collections.abc import Iterator

from mulewright.design.mule import Mule
from mulewright.facts.chain import ChainFacts, PullChainFacts

Place = tuple[str, str]  # a thing, and what about it gives


def walk(chain: ChainFacts) -> list[Place]:
    """Every place of a chain once, from the battery to the load."""
    mule = chain.mule
    found = [place for motor in chain.motors for place in _before(mule, motor)]
    found += [place for motor in chain.motors for place in _behind(mule, motor)]
    if chain.side:
        found.append(("drive.wheel", "grip"))
    elif isinstance(chain, PullChainFacts):
        found.append((f"{chain.target}.rope", "rope"))
    return list(dict.fromkeys(found))


def way(chain: ChainFacts, motor: str) -> list[str]:
    """Things between the battery and the controller of a motor, from the battery outwards."""
    return [thing for thing, _ in _before(chain.mule, motor)]


def _before(mule: Mule, motor: str) -> Iterator[Place]:
    """Places from the battery to a motor's controller."""
    controller = mule.controller_of.get(motor, motor)
    source = mule.supply.source_of(controller) or controller
    bench = source.startswith("bench_supply.")
    yield from [(source, "supply")] if bench else [(source, "peak"), (source, "for-ever")]
    for run in mule.supply.way_to(controller):
        if run.start.startswith("board."):
            yield from [(run.start, "board"), (run.id, "port")]
        for item in run.through:
            if item.startswith("fuse."):
                yield from [(item, "holds"), (item, "may-blow")]
            elif item.startswith("switch."):
                yield item, "switch"
        yield run.id, "wire"
        joints = mule.file.wire[run.wire.split(".", 1)[1]].joints
        if joints is None:
            yield run.id, "connector"
        yield from ((f"{run.id}.joints.{place}", "connector") for place in range(len(joints or [])))


def _behind(mule: Mule, motor: str) -> Iterator[Place]:
    """Places from a motor's controller to what it turns."""
    table, controller = mule.file.motor[motor.split(".", 1)[1]], mule.controller_of.get(motor)
    if controller is not None:
        own = mule.file.controller[controller.split(".", 1)[1]]
        yield from [(controller, "continuous"), (controller, "cuts-out" if own.resets_itself else "over")]
        if own.current_limit is not None:
            yield controller, "holds-back"
    yield from [(motor, "heat"), (motor, "stall")]
    if table.gearbox is not False:
        yield motor, "gearbox"
    yield motor, "hub"
    yield from ((f"{motor}.gears.{place}", "stage") for place in range(len(table.gears or [])))
