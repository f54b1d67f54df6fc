"""The generic discharge curve: published points of two batteries, and where it must refuse."""

from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest

from mulewright.errors import DomainError
from mulewright.models.cell import (
    DEEPEST,
    FASTEST,
    cell_voltage,
    constant_voltage,
    exponential_amplitude,
    exponential_decay,
    polarisation,
)
from mulewright.models.formula import sides
from tests.models.agreement import assert_keeps_promises
from tests.published import agrees, outside

AH = 3600.0  # [A s]
CURVE = "ns-3 network simulator, generic battery model (after Tremblay and Dessaint 2009)"


@dataclass(frozen=True)
class Points:
    """Three points of a discharge curve, in V, Ah, A and ohm as they are published."""

    full_voltage: float
    capacity: float
    nominal_voltage: float
    nominal_charge: float
    exponential_voltage: float
    exponential_charge: float
    resistance: float
    current: float

    def parameters(self) -> dict[str, Any]:
        """All that the voltage needs besides charge and current."""
        amplitude = exponential_amplitude(self.full_voltage, self.exponential_voltage)
        decay = exponential_decay(self.exponential_charge * AH)
        constant = constant_voltage(self.full_voltage, self.resistance, self.current, amplitude)
        return {
            "constant": constant,
            "resistance": self.resistance,
            "polarisation": polarisation(
                constant,
                self.nominal_voltage,
                self.resistance,
                self.current,
                amplitude,
                decay,
                self.nominal_charge * AH,
                self.capacity * AH,
            ),
            "capacity": self.capacity * AH,
            "amplitude": amplitude,
            "decay": decay,
        }

    def voltage(self, depth: float, c_rate: float) -> Any:
        """Terminal voltage after a steady discharge; depth and C-rate refer to ``capacity``."""
        current = c_rate * self.capacity
        return cell_voltage(depth * self.capacity * AH, current, current, **self.parameters())


NICKEL = Points(1.39, 7.0, 1.18, 6.25, 1.28, 1.3, 0.0046, 1.3)  # 6.5 Ah cell
LEAD = Points(12.8, 7.2, 11.5, 4.5, 12.5, 2.0, 0.056, 0.36)  # 12 V, 7.2 Ah
each_battery = pytest.mark.parametrize("points", [NICKEL, LEAD], ids=["nickel", "lead"])


@outside("B9", quantity="the curve passes through its own points", source=CURVE, mark="R")
@each_battery
def test_the_curve_meets_the_points_it_was_made_from(points: Points) -> None:
    parameters = points.parameters()
    full = cell_voltage(0, points.current, 0, **parameters)
    nominal = cell_voltage(points.nominal_charge * AH, points.current, points.current, **parameters)
    agrees(full, points.full_voltage, rel=1e-9)
    agrees(nominal, points.nominal_voltage, rel=1e-9)


@outside("B10", quantity="6.5 Ah nickel cell: parameters", source=CURVE, mark="R")
def test_parameters_of_a_nickel_cell() -> None:
    found = NICKEL.parameters()
    agrees(found["amplitude"], "0.11")
    agrees(found["decay"] * AH, "2.307692")
    agrees(found["constant"], "1.28598")
    agrees(found["polarisation"] * AH, "0.00141911")


@outside("B10b", quantity="6.5 Ah nickel cell: half empty", source="computed independently", mark="C")
def test_a_nickel_cell_half_empty() -> None:
    agrees(NICKEL.voltage(depth=0.5, c_rate=1), "1.22401")
    agrees(NICKEL.voltage(depth=0.5, c_rate=0.2), "1.26567")


@outside("B11", quantity="12 V 7.2 Ah lead-acid: parameters", source=CURVE, mark="R")
def test_parameters_of_a_lead_acid_battery() -> None:
    found = LEAD.parameters()
    agrees(found["amplitude"], "0.3")
    agrees(found["decay"] * AH, "1.5")
    agrees(found["constant"], "12.52016")
    agrees(found["polarisation"] * AH, "0.0771876")


@outside("B11b", quantity="12 V 7.2 Ah lead-acid: a quarter empty", source="computed independently", mark="C")
def test_a_lead_acid_battery_a_quarter_empty() -> None:
    agrees(LEAD.voltage(depth=0.25, c_rate=1), "11.21087")


@outside(
    "B11c", quantity="refused where the formula gives -10.4 V", source="computed independently", mark="C"
)
def test_a_collapsed_voltage_is_refused() -> None:
    parameters = LEAD.parameters()
    drawn, current = 0.9 * parameters["capacity"], 3 * 7.2
    arguments = {"drawn": drawn, "current": current, "slow_current": current, **parameters}
    agrees(sides(cell_voltage, arguments, None)[1], "-10.4")
    with pytest.raises(DomainError, match=r"voltage must be >= 0\.7 of constant"):
        cell_voltage(**arguments)


def test_the_lowest_voltage_that_is_still_answered() -> None:
    # 0.7 of 12.52 V is 8.76 V: a lead-acid battery under 3 C passes it between these two depths
    assert 8.76 < LEAD.voltage(depth=0.25, c_rate=3) < 9
    with pytest.raises(DomainError, match="voltage must be"):
        LEAD.voltage(depth=0.30, c_rate=3)


@outside("B13", quantity="claimed range of the curve", source="Tremblay and Dessaint (2009)", mark="R")
@pytest.mark.parametrize(
    ("depth", "c_rate", "says"),
    [
        (0.91, 1, "drawn / capacity must be 0 to 0.9"),
        (0.5, 5.1, "units of C must be 0 to 5"),
        (-0.1, 1, "drawn"),
    ],
)
def test_outside_the_claimed_range_it_is_refused(depth: float, c_rate: float, says: str) -> None:
    agrees([DEEPEST, FASTEST], [0.9, 5.0], case="deepest, fastest")
    with pytest.raises(DomainError, match=says):
        NICKEL.voltage(depth, c_rate)


@each_battery
def test_voltage_falls_with_charge_drawn_and_with_current(points: Points) -> None:
    parameters = points.parameters()
    drawn = np.linspace(0, 0.6, 50)[:, None] * parameters["capacity"]
    current = np.linspace(0, 1, 11) * points.capacity
    voltage = cell_voltage(drawn, current, current, **parameters)
    assert np.all(np.diff(voltage, axis=0) < 0)
    assert np.all(np.diff(voltage, axis=1) < 0)
    assert np.isnan(cell_voltage(np.nan, 1, 1, **parameters))


def test_models_keep_their_promises() -> None:
    fitted = {name: float(value) for name, value in LEAD.parameters().items()}
    reading = {"resistance": 0.056, "current": 0.36, "amplitude": fitted["amplitude"]}
    points = {"nominal_voltage": 11.5, "nominal_charge": 4.5 * AH, "capacity": 7.2 * AH}
    assert_keeps_promises(exponential_amplitude, {"full_voltage": 12.8, "exponential_voltage": 12.5})
    assert_keeps_promises(exponential_decay, {"exponential_charge": 2 * AH})
    assert_keeps_promises(constant_voltage, {"full_voltage": 12.8, **reading})
    assert_keeps_promises(
        polarisation, {"constant": fitted["constant"], "decay": fitted["decay"], **reading, **points}
    )
    assert_keeps_promises(cell_voltage, {"drawn": AH, "current": 7.2, "slow_current": 4.0, **fitted})


def test_impossible_points_are_refused_by_name() -> None:
    with pytest.raises(DomainError, match="full_voltage - exponential_voltage must be >= 0 V"):
        exponential_amplitude(1.2, 1.3)
    with pytest.raises(DomainError, match="exponential_charge must be > 0 A s"):
        exponential_decay(0)
    with pytest.raises(DomainError, match="capacity - nominal_charge must be > 0 A s"):
        Points(1.39, 6.0, 1.18, 6.25, 1.28, 1.3, 0.0046, 1.3).parameters()
