"""Which kinds of quantity exist, and which unit texts does each accept?

The usual units are in this table so that reading a mule file needs no unit registry; anything else is handed to
pint once, at the edge (see :mod:`mulewright.units.parse`). A test compares every row here with pint.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

INCH = 0.0254  # [m] exact, international inch
POUND = 0.45359237  # [kg] exact, international pound
GRAVITY = 9.80665  # [m/s^2] exact, standard gravity; it defines kgf and lbf
DEGREE = math.pi / 180  # [rad]


@dataclass(frozen=True)
class Kind:
    """One kind of quantity: its SI unit, and how much SI each accepted unit text is worth."""

    name: str
    si: str
    factors: dict[str, float]
    shown: str  # the unit in which people read it
    bare_ok: bool = False  # a number without a unit means something

    @property
    def accepted(self) -> str:
        """The unit texts in the order in which a person would try them."""
        return ", ".join(self.factors) if self.factors else "a plain number"


def _kind(name: str, si: str, shown: str, bare_ok: bool = False, /, **factors: float) -> Kind:
    return Kind(
        name, si, {_SPELLING.get(unit, unit): worth for unit, worth in factors.items()}, shown, bare_ok
    )


_SPELLING = {
    "N_m": "N m", "mN_m": "mN m", "N_cm": "N cm", "N_mm": "N mm", "kgf_cm": "kgf.cm", "ozf_in": "ozf.in",
    "gf_cm": "gf.cm", "lbf_in": "lbf.in",
    "m_s": "m/s", "mm_s": "mm/s", "cm_s": "cm/s", "km_h": "km/h", "rad_s": "rad/s", "deg_s": "deg/s", "m_s2": "m/s2",
    "K_W": "K/W", "N_mper": "N/m", "kN_mper": "kN/m", "N_mmper": "N/mm", "kg_m2": "kg m2", "g_cm2": "g cm2",
    "deg_us": "deg/us", "rad_sec": "rad/s", "s_60deg": "s/60deg", "percent": "%", "per_C": "C",
    "ohm_km": "ohm/km", "ohm_m": "ohm/m", "W_kg": "W/kg", "per_min": "per min",
}  # fmt: skip

KINDS: dict[str, Kind] = {
    kind.name: kind
    for kind in (
        _kind("voltage", "V", "V", V=1, mV=1e-3, kV=1e3),
        _kind("current", "A", "A", A=1, mA=1e-3),
        _kind("resistance", "ohm", "ohm", ohm=1, mohm=1e-3, kohm=1e3),
        _kind("power", "W", "W", W=1, mW=1e-3, kW=1e3),
        _kind("energy", "J", "J", J=1, kJ=1e3, Wh=3600),
        _kind("charge", "A s", "Ah", Ah=3600, mAh=3.6),
        _kind("c_rate", "1/s", "C", per_C=1 / 3600),
        _kind("length", "m", "m", m=1, mm=1e-3, cm=1e-2, km=1e3, **{"in": INCH}, ft=12 * INCH),
        _kind("area", "m2", "mm2", mm2=1e-6, AWG=math.nan, cm2=1e-4, m2=1),
        _kind("mass", "kg", "kg", kg=1, g=1e-3, lb=POUND, oz=POUND / 16),
        _kind("force", "N", "N", N=1, kN=1e3, kgf=GRAVITY, gf=GRAVITY / 1e3, lbf=POUND * GRAVITY),
        _kind(
            "torque", "N m", "N m", N_m=1, mN_m=1e-3, N_cm=1e-2, N_mm=1e-3, kgf_cm=GRAVITY / 100,
            gf_cm=GRAVITY / 1e5, ozf_in=POUND / 16 * GRAVITY * INCH, lbf_in=POUND * GRAVITY * INCH,
        ),
        _kind("angle", "rad", "deg", deg=DEGREE, rad=1, turn=2 * math.pi),
        _kind("rotation", "rad/s", "rpm", rpm=2 * math.pi / 60, rad_s=1, deg_s=DEGREE),
        _kind("time", "s", "s", s=1, ms=1e-3, us=1e-6, min=60, h=3600, day=86400),
        _kind("pulse", "s", "us", us=1e-6, ms=1e-3, s=1),
        _kind("frequency", "Hz", "Hz", Hz=1, kHz=1e3),
        _kind("speed", "m/s", "m/s", m_s=1, mm_s=1e-3, cm_s=1e-2, km_h=1 / 3.6),
        _kind("acceleration", "m/s2", "m/s2", m_s2=1, g=GRAVITY),
        _kind("temperature", "K", "degC", degC=math.nan, K=1),
        _kind("temperature_rise", "K", "K", K=1, degC=1),
        _kind("thermal_resistance", "K/W", "K/W", K_W=1),
        _kind("specific_power", "W/kg", "W/kg", W_kg=1),
        _kind("stiffness", "N/m", "N/m", N_mper=1, kN_mper=1e3, N_mmper=1e3),
        _kind("inertia", "kg m2", "kg m2", kg_m2=1, g_cm2=1e-7),
        _kind("servo_gain", "rad/s", "deg/us", deg_us=DEGREE / 1e-6, rad_sec=1),
        _kind("servo_time", "s/rad", "s/60deg", s_60deg=1 / (60 * DEGREE)),
        _kind("percent", "1", "%", percent=1e-2),
        _kind("ratio", "1", "", True, percent=1e-2),
        _kind("count", "1", "", True),
    )
}  # fmt: skip

ALIASES = {
    "Ω": "ohm", "Ohm": "ohm", "ohms": "ohm", "mΩ": "mohm", "kΩ": "kohm", "µs": "us", "μs": "us", "usec": "us",
    "sec": "s", "mm²": "mm2", "mm^2": "mm2", "m²": "m2", "m^2": "m2", "cm^2": "cm2", "cm²": "cm2",
    "Nm": "N m", "N.m": "N m", "N·m": "N m", "N*m": "N m", "mNm": "mN m", "mN.m": "mN m", "mN·m": "mN m",
    "Ncm": "N cm", "N.cm": "N cm", "N·cm": "N cm", "Nmm": "N mm", "N.mm": "N mm", "N·mm": "N mm",
    "kgf cm": "kgf.cm", "kgf·cm": "kgf.cm", "kgf*cm": "kgf.cm", "gf cm": "gf.cm", "gf·cm": "gf.cm",
    "ozf in": "ozf.in", "ozf·in": "ozf.in", "lbf in": "lbf.in", "lbf·in": "lbf.in",
    "°": "deg", "degree": "deg", "degrees": "deg", "°/s": "deg/s", "°/µs": "deg/us", "deg/µs": "deg/us",
    "°/us": "deg/us", "1/min": "rpm", "r/min": "rpm", "rev/min": "rpm", "volt": "V", "volts": "V", "amp": "A",
    "amps": "A", "metre": "m", "metres": "m", "meter": "m", "meters": "m", "inch": "in", "inches": "in", '"': "in",
    "minutes": "min", "hours": "h", "days": "day", "seconds": "s", "m/s²": "m/s2", "m/s^2": "m/s2", "°C": "degC",
    "celsius": "degC", "kg m²": "kg m2", "kg m^2": "kg m2", "kg·m²": "kg m2", "g cm²": "g cm2", "g cm^2": "g cm2",
    "s/60°": "s/60deg", "s/60 deg": "s/60deg", "s per 60 deg": "s/60deg", "awg": "AWG", "gauge": "AWG",
    "percent": "%",
}  # fmt: skip
