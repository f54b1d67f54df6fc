"""The loop of signal grounds beside a controller's minus."""

from collections.abc import Callable
from typing import Any

import pytest

from mulewright.errors import DomainError
from mulewright.models import ground_loop
from mulewright.models.ground_loop import thin_loop_resistance, way_conductance
from mulewright.models.wire import thin_ground_share
from tests.models.agreement import assert_keeps_promises
from tests.ngspice import needs_ngspice, operating_point
from tests.published import agrees, outside

LEADS = {"a": 0.060, "b": 0.060, "c": 0.080}  # [ohm] to the receiver
MINUSES = {"a": 0.020, "b": 0.006, "c": 0.010}  # [ohm] to the board


@needs_ngspice
@outside(
    "GL1", quantity="share of 10 A that returns through three signal grounds", source="computed independently (ngspice)",
    mark="C",
)  # fmt: skip
def test_share_of_a_star_of_three() -> None:
    ways = {name: way_conductance([LEADS[name], MINUSES[name]]) for name in LEADS}
    thin = thin_loop_resistance(LEADS["a"], sum(ways.values()), ways["a"])

    circuit = "I1 0 a 10\nVlead a a1 0\n"
    circuit += "".join(f"Rl{n} {'a1' if n == 'a' else n} hub {ohm}\n" for n, ohm in LEADS.items())
    circuit += "".join(f"Rm{n} {n} 0 {ohm}\n" for n, ohm in MINUSES.items())
    through_lead = operating_point(circuit, "i(vlead)")["i(vlead)"]

    agrees(10 * thin_ground_share(MINUSES["a"], thin), through_lead, rel=1e-6)


def test_one_neighbour_lies_in_series_by_hand() -> None:
    # 60 mohm out, 60 mohm back and the neighbour's minus of 6 mohm; its conductance 1 / 0.066
    assert way_conductance([0.060, 0.006]) == pytest.approx(15.1515, abs=1e-4)
    assert thin_loop_resistance(0.060, 1 / 0.066, 0.0) == pytest.approx(0.126)


@pytest.mark.parametrize(
    ("model", "arguments"),
    [
        (way_conductance, {"resistances": [0.06, 0.006]}),
        (thin_loop_resistance, {"lead": 0.06, "conductance_of_all": 30, "own_conductance": 12}),
    ],
)
def test_models_keep_their_promises(model: Callable[..., Any], arguments: dict[str, Any]) -> None:
    assert_keeps_promises(model, arguments)


@pytest.mark.parametrize(
    ("model", "arguments", "says"),
    [
        ("way_conductance", ([-0.1],), "resistances must be >= 0 ohm"),
        ("way_conductance", ([],), "sum of the resistances must be > 0 ohm"),
        ("thin_loop_resistance", (-0.1, 2, 1), "lead must be >= 0 ohm"),
        ("thin_loop_resistance", (0.1, 2, -1), "own_conductance must be >= 0 S"),
        ("thin_loop_resistance", (0.1, 2, 2), "conductance_of_all - own_conductance must be > 0 S"),
    ],
)
def test_impossible_inputs_are_refused_by_name(model: str, arguments: tuple[Any, ...], says: str) -> None:
    with pytest.raises(DomainError, match=says):
        getattr(ground_loop, model)(*arguments)
