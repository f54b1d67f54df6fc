"""Harness trees: textbook networks, ngspice, and a plain nodal solve of random trees."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.optimize import brentq

from mulewright.errors import DomainError
from mulewright.models import bus
from mulewright.models.bus import (
    brushed_load_conductance,
    brushed_load_offset,
    far_end_voltage,
    limited_node_voltage,
    node_voltage,
    run_current,
    through_run_conductance,
    through_run_offset,
    total,
)
from mulewright.models.wire import T_20C, awg_area, copper_wire_resistance
from tests.models.agreement import assert_keeps_promises
from tests.ngspice import needs_ngspice, operating_point, run
from tests.published import agrees, as_printed, noted, outside

BOYLESTAD = "Boylestad, Introductory Circuit Analysis"
MEHTA = "Mehta and Mehta, Principles of Power System, ex. 13.1"


@dataclass
class Node:
    """A point of the harness: the run that leads to it, what loads it, and what comes after it."""

    run: float  # [ohm]
    after: "list[Node]" = field(default_factory=list)
    conductance: float = 0.0  # [S]
    offset: float = 0.0  # [A]

    def behind(self) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Conductance and offset at this point, of all that hangs on it."""
        seen = [node.seen() for node in self.after]
        return total([self.conductance, *(g for g, _ in seen)]), total([self.offset, *(c for _, c in seen)])

    def seen(self) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """The same, from the near end of the run."""
        conductance, offset = self.behind()
        return (
            through_run_conductance(conductance, self.run),
            through_run_offset(offset, conductance, self.run),
        )

    def voltages(self, near: Any) -> Iterator[float]:
        """Voltage here and then at all that follows, depth first."""
        here = far_end_voltage(near, *self.behind(), self.run)
        yield float(here)
        for node in self.after:
            yield from node.voltages(here)

    def current(self, near: Any) -> Any:
        return run_current(near, *self.behind(), self.run)

    def all(self) -> "Iterator[Node]":
        yield self
        for node in self.after:
            yield from node.all()


def in_ngspice(source: float, tree: Node) -> list[float]:
    """Voltages of the same tree, depth first, followed by the current from the source."""
    nodes = list(tree.all())
    number = {id(node): n for n, node in enumerate(nodes, start=1)}
    near = {id(node): number[id(parent)] for parent in nodes for node in parent.after}
    lines = [f"V1 source 0 {source!r}"]
    for n, node in enumerate(nodes, start=1):
        lines.append(f"Rrun{n} {near.get(id(node), 'source')} {n} {node.run!r}")
        lines.append(f"Iback{n} 0 {n} {node.offset!r}")
        if node.conductance:
            lines.append(f"Rload{n} {n} 0 {1 / node.conductance!r}")
    wanted = [f"v({n})" for n in number.values()]
    found = operating_point("\n".join(lines), *wanted, "i(v1)")
    return [found[name] for name in wanted] + [-found["i(v1)"]]


def in_numpy(source: float, tree: Node) -> NDArray[np.float64]:
    """Voltages of the same tree, depth first, by Kirchhoff's current law at every node at once."""
    nodes = list(tree.all())
    place = {id(node): k for k, node in enumerate(nodes)}
    matrix, right = np.zeros((len(nodes), len(nodes))), np.zeros(len(nodes))
    for k, node in enumerate(nodes):
        matrix[k, k] += node.conductance + 1 / node.run
        right[k] += node.offset
        for child in node.after:
            j = place[id(child)]
            matrix[k, k] += 1 / child.run
            matrix[k, j] = matrix[j, k] = -1 / child.run
    right[0] += source / tree.run
    return np.asarray(np.linalg.solve(matrix, right), dtype=np.float64)


def constant(current: float, run: float) -> Node:
    """A load that draws the same current at any voltage, at the end of a run."""
    return Node(run, offset=-current)


# 240 V feeds 5, then 6 across, 4, then 6 across, 1 and 2 ohm
LADDER = Node(5, [Node(4, [Node(1, conductance=1 / 2)], conductance=1 / 6)], conductance=1 / 6)
# 54 V feeds 2 kohm, then 12 kohm beside 6 kohm
DIVIDER = Node(2000, conductance=1 / 12000 + 1 / 6000)
# 300 V, 0.02 ohm for each 1000 m of the pair, loads at 500, 1000, 1600 and 2000 m
DISTRIBUTOR = Node(
    0.010,
    [Node(0.010, [Node(0.012, [constant(50, 0.008)], offset=-200)], offset=-150)],
    offset=-100,
)
# 12.6 V, 50 mohm pack; 30 mohm harness; two stalled motors of 1.2 ohm and a steady 1.5 A
BROWN_OUT = Node(0.050, [Node(0.030, conductance=2 / 1.2, offset=-1.5)])


def harness() -> Node:
    """12.6 V, 20 mohm; fuse 3 mohm; 0.30 m of AWG 14; two branches of 0.25 m AWG 16; 0.9 A at the node."""
    main = float(copper_wire_resistance(2 * 0.30, awg_area(14), T_20C))
    branch = float(copper_wire_resistance(2 * 0.25, awg_area(16), T_20C))
    node = Node(main, [constant(8, branch), constant(5, branch)], offset=-0.9)
    return Node(0.020, [Node(0.003, [node])])


@outside(
    "E1", quantity="ladder network of 240 V", source=f"{BOYLESTAD}, ladder example, from memory", mark="M"
)
def test_ladder() -> None:
    current = LADDER.current(240)
    agrees(current, 30, rel=1e-12)
    agrees(240 / current, 8, rel=1e-12)
    agrees(list(LADDER.voltages(240)), [90, 30, 20], rel=1e-12)
    agrees(run_current(20, 1 / 2, 0, 0), 10, rel=1e-12)


@outside("E3", quantity="54 V divider, three currents", source=f"{BOYLESTAD}, ex. 7.1", mark="R")
def test_divider() -> None:
    (volts,) = DIVIDER.voltages(54)
    agrees(DIVIDER.current(54), 9e-3, rel=1e-12)
    agrees(run_current(volts, [1 / 12000, 1 / 6000], 0, 0), [3e-3, 6e-3], rel=1e-12)


@outside("W25", quantity="distributor of 300 V with four loads", source=MEHTA, mark="R")
def test_distributor() -> None:
    agrees(list(DISTRIBUTOR.voltages(300)), [295.0, 291.0, 288.0, 287.6], rel=1e-12)
    agrees(DISTRIBUTOR.current(300), 500, rel=1e-12)


@outside("E5", quantity="harness with two branches", source="computed independently, by hand", mark="C")
def test_harness() -> None:
    volts = list(harness().voltages(12.6))
    agrees(volts, [12.3220, 12.2803, 12.2112, 12.1585, 12.1783], abs=1e-4)
    agrees(harness().current(12.6), 13.9)


@outside(
    "B18", quantity="brown-out with two stalled motors", source="computed independently, by hand", mark="C"
)
def test_brown_out() -> None:
    pack, node = BROWN_OUT.voltages(12.6)
    agrees(pack, "11.6074")
    agrees(node, "11.0118")
    agrees(BROWN_OUT.current(12.6), "19.8529")
    agrees(node_voltage(12.6, 0.080, 2 / 1.2, -1.5), "11.0118")


@needs_ngspice
@outside(
    "E6",
    quantity="ladder, divider, distributor, harness and brown-out",
    source="computed independently, ngspice",
    mark="C",
)
@pytest.mark.parametrize(
    ("source", "tree"),
    [(240, LADDER), (54, DIVIDER), (300, DISTRIBUTOR), (12.6, harness()), (12.6, BROWN_OUT)],
    ids=["ladder", "divider", "distributor", "harness", "brown-out"],
)
def test_a_circuit_simulator_agrees(source: float, tree: Node) -> None:
    ours = [*tree.voltages(source), float(tree.current(source))]
    agrees(ours, in_ngspice(source, tree), rel=1e-8)


@needs_ngspice
@outside(
    "E9", quantity="a measure that ngspice could not take", source="computed independently, ngspice", mark="C"
)
@pytest.mark.parametrize(
    "control",
    ["tran 1u 5m\nmeas tran late find v(b) at=9m", "op\nprint v(nowhere)"],
    ids=["failed", "unknown"],
)
def test_a_run_of_the_simulator_that_failed_is_not_taken_for_an_answer(control: str) -> None:
    noted("refused", "a measure that failed", "as said")
    with pytest.raises(AssertionError, match="ngspice did not solve the circuit"):
        run("V1 a 0 1\nR1 a b 1k\nR2 b 0 1k", control)


@st.composite
def trees(draw: st.DrawFn) -> Node:
    """Up to ten points, loads and motors that feed back among them."""
    nodes: list[Node] = []
    for _ in range(draw(st.integers(1, 10))):
        node = Node(
            run=draw(st.floats(1e-3, 1)),
            conductance=draw(st.floats(0, 5)),
            offset=draw(st.floats(-20, 20)),
        )
        if nodes:
            draw(st.sampled_from(nodes)).after.append(node)
        nodes.append(node)
    return nodes[0]


@given(st.floats(1, 60), trees())
def test_folding_a_tree_is_solving_all_its_nodes_at_once(source: float, tree: Node) -> None:
    np.testing.assert_allclose(list(tree.voltages(source)), in_numpy(source, tree), rtol=1e-8, atol=1e-8)


@given(st.floats(1, 60), trees())
def test_what_the_source_gives_is_what_runs_and_loads_take(source: float, tree: Node) -> None:
    given_out = source * float(tree.current(source))

    def taken(node: Node, near: float) -> float:
        here = next(node.voltages(near))
        heat = node.run * float(node.current(near)) ** 2
        load = here * float(run_current(here, node.conductance, node.offset, 0))
        return heat + load + sum(taken(child, here) for child in node.after)

    assert taken(tree, source) == pytest.approx(given_out, rel=1e-8, abs=1e-6)


@given(st.floats(-1, 1), st.floats(0.1, 5), st.floats(0, 1), st.floats(-100, 100), st.floats(0, 30))
def test_a_motor_behind_its_controller(
    duty: float, ohms: float, ke: float, speed: float, volts: float
) -> None:
    # power is kept: what the supply gives is duty times the motor's own current
    motor_current = (duty * volts - ke * speed) / ohms
    drawn = run_current(
        volts, brushed_load_conductance(duty, ohms), brushed_load_offset(duty, ke, speed, ohms), 0
    )
    assert drawn == pytest.approx(duty * motor_current, rel=1e-9, abs=1e-9)


def test_stalled_motors_on_a_soft_battery_by_hand() -> None:
    # 12.4 V behind 1.6 ohm of dry cells, motors of 1.6 ohm at a duty of 0.789
    one = brushed_load_conductance(0.789, 1.6)
    volts = [node_voltage(12.4, 1.6, total([one] * motors), 0) for motors in (1, 2, 3)]
    assert volts == [as_printed("7.6"), as_printed("5.5"), as_printed("4.3")]


def test_arrays_of_cases_at_once() -> None:
    open_circuit, ohms = np.array([[12.6], [np.nan]]), np.array([0.02, 0.1, 0.5])
    volts = node_voltage(open_circuit, ohms, 1.0, [0.0, -1.0, 2.0])
    assert volts.shape == (2, 3)
    assert volts[0, 1] == node_voltage(12.6, 0.1, 1.0, -1.0)
    assert np.isnan(volts[1]).all()
    assert total([]) == 0
    np.testing.assert_allclose(total([1, [2, 3]]), [3, 4])


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (brushed_load_conductance, {"duty": 0.5, "resistance": 1.6}),
        (brushed_load_offset, {"duty": 0.5, "back_emf_constant": 0.5, "speed": 9, "resistance": 1.6}),
        (total, {"values": [1, 2, 3.5]}),
        (through_run_conductance, {"conductance": 2, "run_resistance": 0.03}),
        (through_run_offset, {"offset": 2, "conductance": 2, "run_resistance": 0.03}),
        (
            node_voltage,
            {"open_circuit_voltage": 12.6, "source_resistance": 0.08, "conductance": 2, "offset": 1},
        ),
        (
            limited_node_voltage,
            {"set_voltage": 12, "current_limit": 5, "conductance": 1.6, "offset": 0.4},
        ),
        (
            limited_node_voltage,
            {"set_voltage": 12, "current_limit": 50, "conductance": 1.6, "offset": 0.4},
        ),
        (far_end_voltage, {"near_voltage": 12, "conductance": 2, "offset": 1, "run_resistance": 0.03}),
        (run_current, {"near_voltage": 12, "conductance": 2, "offset": 1, "run_resistance": 0.03}),
    ],
)
def test_models_keep_their_promises(model: Callable[..., Any], arguments: dict[str, Any]) -> None:
    assert_keeps_promises(model, arguments)


@outside(
    "A35",
    quantity="voltage of a bench supply at its current limit",
    source="computed independently (scipy.optimize, the supply as a steep diode of currents)",
    mark="C",
)
@pytest.mark.parametrize("limit", [0.5, 2.0, 5.0, 14.0, 40.0])
@pytest.mark.parametrize("offset", [-0.4, 0.0, 0.7])
def test_bench_supply_holds_volts_or_current(limit: float, offset: float) -> None:
    load = 2 / 1.6  # [S] two stalled motors

    def surplus(volts: float) -> float:
        given = limit * (1 - np.exp((volts - 12.0) / 1e-4))  # all of the limit below 12 V, nothing at 12 V
        return float(given - (load * volts - offset))

    agrees(limited_node_voltage(12.0, limit, load, offset), brentq(surplus, 0.0, 12.0), abs=1e-2)


def test_bench_supply_falls_to_nothing_under_too_large_a_constant_current() -> None:
    assert limited_node_voltage(12.0, 5.0, 0.0, -4.0) == 12
    assert limited_node_voltage(12.0, 5.0, 0.0, -6.0) == 0


@pytest.mark.parametrize(
    ("model", "arguments", "says"),
    [
        ("brushed_load_conductance", (1.1, 1.6), "duty must be -1 to 1"),
        ("brushed_load_conductance", (1, 0), "resistance must be > 0 ohm"),
        ("brushed_load_offset", (-1.1, 0.5, 9, 1.6), "duty must be -1 to 1"),
        ("brushed_load_offset", (1, 0.5, 9, 0), "resistance must be > 0 ohm"),
        ("through_run_conductance", (-1, 0.1), "conductance must be >= 0 S"),
        ("through_run_offset", (1, 1, -0.1), "resistance must be >= 0 ohm"),
        ("node_voltage", (12, -0.1, 1, 0), "resistance must be >= 0 ohm"),
        ("far_end_voltage", (12, -1, 0, 0.1), "conductance must be >= 0 S"),
        ("run_current", (12, 1, 0, -0.1), "resistance must be >= 0 ohm"),
    ],
)
def test_impossible_inputs_are_refused_by_name(model: str, arguments: tuple[float, ...], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        getattr(bus, model)(*arguments)
