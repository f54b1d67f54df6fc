"""The field types of mule files and part files: each reads text with a unit of one kind."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from mulewright.errors import UnitError
from mulewright.units.kinds import KINDS
from mulewright.units.quantity import KEYS, WORDS, Quantity, read_quantity

SMALLEST, LARGEST = 1e-15, 1e12  # [SI] whatever the kind, no number about a mule lies beyond
NEAREST = 1e-3  # of the way from a bound that is no value to the value


@dataclass(frozen=True)
class Of:
    """Marks a field as a quantity of one kind, within bounds in SI."""

    kind: str
    above: float | None = None  # value > above
    least: float | None = None  # value >= least
    most: float | None = None  # value <= most

    def read(self, raw: object) -> Quantity:
        """Read and bound one value."""
        quantity = read_quantity(raw, self.kind)
        numbers = [number for number in (quantity.value, quantity.low, quantity.high) if number is not None]
        if not all(map(self._within, numbers)):
            raise UnitError(what="an impossible value", rule=self.rule, found=quantity.text)
        if any(number and not SMALLEST <= abs(number) <= LARGEST for number in numbers):
            rule = f"0, or between {SMALLEST:g} and {LARGEST:g} {self.unit}".removesuffix(" 1")
            raise UnitError(what="a number beyond all sense", rule=rule, found=quantity.text)
        return quantity

    def within(self, quantity: Quantity) -> Quantity:
        """The same with its interval cut off at the bounds; where a bound is no value, short of it."""
        low, high = quantity.low, quantity.high
        if low is not None and self.least is not None:
            low = max(low, self.least)
        if low is not None and self.above is not None and low <= self.above:
            low = self.above + NEAREST * (quantity.value - self.above)
        if high is not None and self.most is not None:
            high = min(high, self.most)
        return replace(quantity, low=low, high=high)

    def _within(self, value: float) -> bool:
        return (
            (self.above is None or value > self.above)
            and (self.least is None or value >= self.least)
            and (self.most is None or value <= self.most)
        )

    @property
    def unit(self) -> str:
        """The SI unit."""
        return KINDS[self.kind].si

    @property
    def rule(self) -> str:
        """The bounds in words, with their SI unit."""
        unit = KINDS[self.kind].si.replace("1", "")
        bounds = ((">", self.above), (">=", self.least), ("<=", self.most))
        return " and ".join(
            f"must be {sign} {bound:g} {unit}".rstrip() for sign, bound in bounds if bound is not None
        )

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        kind = KINDS[self.kind]
        text = {"type": "string", "description": f"a number with its unit: {kind.accepted}; or ? for unknown"}
        known = {key: {"type": "string"} for key in KEYS} | {"from": {"enum": list(WORDS)}}
        plain = [text, {"type": "number"}] if kind.bare_ok else [text]
        return {"anyOf": [*plain, {"type": "object", "properties": known, "additionalProperties": False}]}


Voltage = Annotated[Quantity, Of("voltage", least=0)]
Current = Annotated[Quantity, Of("current", least=0)]
Resistance = Annotated[Quantity, Of("resistance", least=0)]
Charge = Annotated[Quantity, Of("charge", above=0)]
CRate = Annotated[Quantity, Of("c_rate", above=0)]
Length = Annotated[Quantity, Of("length", above=0)]
Offset = Annotated[Quantity, Of("length")]
Area = Annotated[Quantity, Of("area", above=0)]
Mass = Annotated[Quantity, Of("mass", least=0)]
Force = Annotated[Quantity, Of("force", least=0)]
Torque = Annotated[Quantity, Of("torque", least=0)]
Angle = Annotated[Quantity, Of("angle")]
Rotation = Annotated[Quantity, Of("rotation", above=0)]
Time = Annotated[Quantity, Of("time", least=0)]
Pulse = Annotated[Quantity, Of("pulse", least=0)]
PulseShift = Annotated[Quantity, Of("pulse")]
Speed = Annotated[Quantity, Of("speed", least=0)]
Acceleration = Annotated[Quantity, Of("acceleration", least=0)]
Temperature = Annotated[Quantity, Of("temperature", above=0)]
TemperatureRise = Annotated[Quantity, Of("temperature_rise", least=0)]
ThermalResistance = Annotated[Quantity, Of("thermal_resistance", above=0)]
SpecificPower = Annotated[Quantity, Of("specific_power", above=0)]
Power = Annotated[Quantity, Of("power", least=0)]
Energy = Annotated[Quantity, Of("energy", least=0)]
Stiffness = Annotated[Quantity, Of("stiffness", above=0)]
Inertia = Annotated[Quantity, Of("inertia", above=0)]
ServoGain = Annotated[Quantity, Of("servo_gain", above=0)]
ServoTime = Annotated[Quantity, Of("servo_time", above=0)]
Percent = Annotated[Quantity, Of("percent", least=0)]
Expo = Annotated[Quantity, Of("percent", least=-0.5, most=1)]
SignedPercent = Annotated[Quantity, Of("percent")]
Ratio = Annotated[Quantity, Of("ratio", least=0)]
Efficiency = Annotated[Quantity, Of("ratio", above=0, most=1)]
Count = Annotated[Quantity, Of("count", least=0)]
