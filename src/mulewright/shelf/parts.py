"""What can be said about each kind of part? One schema per kind: loader, errors and docs derive from it."""

from collections.abc import Mapping
from typing import Literal

from pydantic import Field

from mulewright.units import fields as u
from mulewright.units.table import Table

Chemistry = Literal["nimh", "lithium-polymer", "lithium-ion", "iron-phosphate", "lead", "dry"]


class Part(Table):
    """What every part may carry."""

    title: str | None = Field(None, description="One line that a person recognises the part by")
    mass: u.Mass | None = Field(None, description="Mass of the part")
    price: str | None = Field(None, description="What one costs, as text with its currency")
    count: u.Count | None = Field(None, description="How many lie on the shelf")
    bin: str | None = Field(None, description="Where it lies")
    note: str | None = Field(None, description="Anything worth remembering about it")


class LeadEnd(Table):
    """What one plugs in, or into: one end of a lead, or that of the lead built onto a device."""

    family: str | None = Field(None, description="Shape, pins and spacing in the user's own words")
    contacts: Literal["pins", "sockets", "alike", "open"] | None = Field(
        None,
        description="What is in it; alike: both halves are the same; open: bare, ring or spade, for a screw",
    )


class OwnLead(LeadEnd):
    """Where one plugs a device in: a lead that is built on, or pins on its case."""

    length: u.Length | None = Field(
        None, description="Length of the lead built on; left out for pins on a case"
    )


class MotorPart(Part):
    """A brushed motor, bare or with its gearbox; the sheet's values at the shaft that comes out."""

    nominal_voltage: u.Voltage | None = Field(None, description="Volts at which the sheet's figures hold")
    free_speed: u.Rotation | None = Field(None, description="Speed with nothing on the shaft")
    stall_torque: u.Torque | None = Field(None, description="Torque with the shaft held")
    stall_current: u.Current | None = Field(None, description="Current with the shaft held")
    free_current: u.Current | None = Field(None, description="Current with nothing on the shaft")
    gearbox: bool | None = Field(None, description="Whether a gearbox is built on and in the sheet's figures")
    gearbox_limit: u.Torque | None = Field(None, description="Largest torque that the gearbox bears")
    copper_mass: u.Mass | None = Field(None, description="Mass of the copper in the winding")
    rotor_inertia: u.Inertia | None = Field(None, description="Moment of inertia of the rotor")
    tolerance: u.Percent | None = Field(None, description="How far two of the same kind differ in speed")
    shaft: Literal["flat", "key", "pin", "spline", "round"] | None = Field(
        None, description="What the hub grips"
    )
    shaft_diameter: u.Length | None = Field(None, description="Diameter of the shaft")
    hub_limit: u.Torque | None = Field(
        None, description="Torque at which the shaft breaks or its hub slips, whichever is less"
    )
    lead: OwnLead | None = Field(None, description="Its own lead, or its terminals")


class RegulatorPart(Table):
    """The regulator (BEC) that feeds a receiver rail."""

    kind: Literal["linear", "switching", "none"] | None = Field(None, description="How it lowers the voltage")
    voltage: u.Voltage | None = Field(None, description="Voltage that it gives")
    current: u.Current | None = Field(None, description="Current that it gives for ever, by its label")
    peak_current: u.Current | None = Field(None, description="Current that it gives for a second")
    dropout: u.Voltage | None = Field(None, description="Volts that it needs above its output")
    thermal_resistance: u.ThermalResistance | None = Field(
        None, description="Rise for each watt turned to heat"
    )
    efficiency: u.Efficiency | None = Field(None, description="Output over input power, switching kind")


class ClosedLoopPart(Table):
    """A controller that reads an encoder and takes the pulse as a wish rather than as a duty."""

    command: Literal["position", "speed"] | None = Field(None, description="What the pulse asks for")
    encoder: str | None = Field(None, description="What it reads, in words")
    at_full_pulse: str | None = Field(None, description="What it goes to at full pulse, in words with units")
    on_lost_signal: Literal["stop", "hold", "coast"] | None = Field(
        None, description="What it does without pulses"
    )


class ControllerPart(Part):
    """A brushed motor controller that takes a servo pulse."""

    half_range: u.Pulse | None = Field(None, description="Pulse from neutral to full output")
    dead_band: u.Pulse | None = Field(None, description="Pulse either side of neutral that does nothing")
    neutral: u.Pulse | None = Field(None, description="Pulse at which the output is off")
    response: Literal["rescaled", "jump"] | None = Field(
        None, description="After the dead band the output starts from nothing (rescaled) or jumps"
    )
    direction: Literal["reversible", "one-way", "stop-then-reverse"] | None = Field(
        None, description="Whether it reverses, and how"
    )
    outputs: u.Count | None = Field(None, description="Motors that it drives separately")
    continuous_current: u.Current | None = Field(
        None, description="Current that it bears for ever, in moving air"
    )
    peak_current: u.Current | None = Field(None, description="Current that it bears for a moment")
    peak_time: u.Time | None = Field(None, description="How long the peak may last")
    current_limit: u.Current | None = Field(None, description="Current at which it holds the motor back")
    resistance: u.Resistance | None = Field(None, description="Resistance of the power stage, both ways")
    max_voltage: u.Voltage | None = Field(None, description="Highest supply")
    min_voltage: u.Voltage | None = Field(None, description="Lowest supply")
    regulator: RegulatorPart | None = Field(None, description="The BEC built in")
    stopping: Literal["brake", "coast", "either"] | None = Field(None, description="What it does at neutral")
    stops_on_lost_pulses: bool | None = Field(None, description="Whether it stops when pulses stay away")
    learns_neutral: bool | None = Field(
        None, description="Whether it takes the pulse at switch-on as neutral"
    )
    calibrates: bool | None = Field(None, description="Whether its range can be set to the radio's")
    cuts_off: bool | None = Field(None, description="Whether it cuts off by itself at low volts")
    cut_off: str | None = Field(
        None, description="Battery for which its low-voltage cut-off is set, in words"
    )
    cut_off_chemistry: Chemistry | None = Field(None, description="Cells for which its cut-off is set")
    cut_off_cells: u.Count | None = Field(None, description="Cells in series for which its cut-off is set")
    cut_off_voltage: u.Voltage | None = Field(None, description="Supply at which it cuts off by itself")
    signal_high: u.Voltage | None = Field(None, description="Lowest voltage that it reads as a high signal")
    closed_loop: ClosedLoopPart | None = Field(None, description="If it closes a loop of its own")
    supply_lead: OwnLead | None = Field(None, description="Its own lead or terminals towards the battery")
    motor_lead: OwnLead | None = Field(None, description="Its own lead or terminals towards the motor")


class MixerPart(Part):
    """A box that makes motor commands out of control commands."""

    mixes: Literal["two-sides", "four-roller-wheels"] | None = Field(None, description="Which sum it forms")
    inputs: list[str] | None = Field(None, description="Names of the inputs in the order of its sockets")
    outputs: list[str] | None = Field(None, description="Names of the outputs in the order of its sockets")
    half_range: u.Pulse | None = Field(None, description="Pulse from neutral to full at its outputs")
    passes_rail: bool | None = Field(None, description="Whether inputs and outputs share their middle pins")
    current: u.Current | None = Field(None, description="Current that it takes from the rail")
    min_voltage: u.Voltage | None = Field(None, description="Lowest rail voltage")
    max_voltage: u.Voltage | None = Field(None, description="Highest rail voltage")
    stops_on_lost_pulses: bool | None = Field(
        None, description="Whether its outputs go to neutral when pulses stay away"
    )
    output_test: str | None = Field(None, description="What its own test of the outputs does, in words")
    signal_high: u.Voltage | None = Field(None, description="Lowest voltage that it reads as a high signal")
    output_high: u.Voltage | None = Field(None, description="Voltage of the pulses at its outputs")
    input_lead: OwnLead | None = Field(None, description="Its own leads at the inputs, or the pins there")


class ServoPart(Part):
    """A servo; torque, current and speed at one voltage, or at several."""

    signal_kind: Literal["analogue", "digital"] | None = Field(None, description="How it treats the pulse")
    rotation: Literal["angle", "continuous"] | None = Field(
        None, description="Goes to an angle, or turns for ever"
    )
    rated_voltage: u.Voltage | None = Field(None, description="Volts at which the figures hold")
    stall_torque: u.Torque | None = Field(None, description="Torque held by its electronics at most")
    stall_current: u.Current | None = Field(None, description="Current when held fast")
    moving_current: u.Current | None = Field(None, description="Average current while it works")
    transit: u.ServoTime | None = Field(None, description="Time over an angle without load")
    second_voltage: u.Voltage | None = Field(
        None, description="Another voltage at which the sheet gives torque"
    )
    second_stall_torque: u.Torque | None = Field(None, description="Torque at the second voltage")
    gain: u.ServoGain | None = Field(None, description="Angle for each microsecond of pulse")
    neutral: u.Pulse | None = Field(None, description="Pulse of its middle")
    stop_low: u.Pulse | None = Field(None, description="Pulse at which it meets its lower stop")
    stop_high: u.Pulse | None = Field(None, description="Pulse at which it meets its upper stop")
    dead_band: u.Pulse | None = Field(None, description="Pulse change that it ignores")
    min_voltage: u.Voltage | None = Field(None, description="Lowest rail voltage")
    max_voltage: u.Voltage | None = Field(None, description="Highest rail voltage")
    spline: str | None = Field(None, description="Teeth and diameter of its output")
    signal_high: u.Voltage | None = Field(None, description="Lowest voltage that it reads as a high signal")


class TesterPart(Part):
    """A servo tester: a source of pulses without a radio."""

    low: u.Pulse | None = Field(None, description="Shortest pulse")
    high: u.Pulse | None = Field(None, description="Longest pulse")
    modes: list[Literal["knob", "centre", "sweep"]] | None = Field(None, description="What it can do")
    own_supply: bool | None = Field(None, description="Whether it needs no supply of its own")
    output_high: u.Voltage | None = Field(None, description="Voltage of its pulses")
    min_voltage: u.Voltage | None = Field(None, description="Lowest supply")
    max_voltage: u.Voltage | None = Field(None, description="Highest supply")


class InlinePart(Part):
    """A small device in a signal lead."""

    does: Literal["widens", "reverses", "cleans"] | None = Field(
        None, description="What it does to the pulse"
    )
    factor: u.Ratio | None = Field(None, description="How much wider the pulse becomes about neutral")
    output_high: u.Voltage | None = Field(None, description="Voltage of the pulses that come out")


class ControlPart(Table):
    """One stick axis, switch, knob or slider of a transmitter."""

    kind: Literal["stick", "switch", "knob", "slider", "button"] | None = Field(
        None, description="What it is"
    )
    axis: Literal["vertical", "horizontal"] | None = Field(None, description="Which way a stick axis goes")
    gimbal: str | None = Field(None, description="Which stick the axis belongs to")
    sprung: bool | None = Field(None, description="Whether it returns to the middle by itself")
    conversion: Literal["fitted", "possible", "impossible"] | None = Field(
        None, description="State of a self-centring conversion on an unsprung axis"
    )
    position_count: u.Count | None = Field(None, description="Positions of a switch")
    channel: int | None = Field(None, description="Channel that it moves", ge=1)
    channels: list[int] | Literal["any"] | None = Field(
        None, description="Channels that it can be set to move, where the radio lets one choose"
    )
    detent_error: u.Pulse | None = Field(None, description="How badly its click repeats")


class RadioPart(Part):
    """A transmitter: its controls, its range, what its rate switch and its mixes can do."""

    channels: int | None = Field(None, description="How many channels it sends", ge=1)
    neutral: u.Pulse | None = Field(None, description="Pulse in the middle")
    half_range: u.Pulse | None = Field(None, description="Pulse from neutral at 100 % travel")
    travel_limit: u.Percent | None = Field(None, description="Largest travel that it lets one set")
    control: Mapping[str, ControlPart] = Field(
        default_factory=dict, description="Every control by its short name"
    )
    rate_covers: list[str] | None = Field(None, description="Controls that its rate switch reaches")
    mixes: u.Count | None = Field(None, description="Free mixes of two channels")
    alarm_voltage: u.Voltage | None = Field(None, description="Volts at which it warns of its own battery")


class ReceiverPart(Part):
    """A receiver with one socket for each channel."""

    channels: int | None = Field(None, description="Sockets with pulses", ge=1)
    min_voltage: u.Voltage | None = Field(None, description="Lowest rail voltage")
    max_voltage: u.Voltage | None = Field(None, description="Highest rail voltage")
    current: u.Current | None = Field(None, description="Current that it takes")
    frame: u.Time | None = Field(None, description="Time from one pulse to the next on a channel")
    restart: u.Time | None = Field(None, description="Time from low volts to working again")
    fail_safe_delay: u.Time | None = Field(None, description="Time from a lost link to the fail-safe")
    protects: list[int] | Literal["all"] | None = Field(
        None, description="Channels that can be given a preset; all others hold"
    )
    signal_high: u.Voltage | None = Field(None, description="Voltage of its pulses")
    antennas: int | None = Field(None, description="Antennas that it has", ge=1)


class BatteryPart(Part):
    """A pack, or cells in a holder."""

    chemistry: Chemistry | None = Field(None, description="What is in the cells")
    cells: u.Count | None = Field(None, description="Cells in series")
    capacity: u.Charge | None = Field(None, description="Charge that it holds")
    rested: u.Voltage | None = Field(None, description="Open-circuit voltage after a rest")
    fresh: u.Voltage | None = Field(None, description="Voltage straight off the charger")
    resistance: u.Resistance | None = Field(None, description="Resistance of the whole pack with its plug")
    peak_current: u.Current | None = Field(None, description="Current that it bears for a moment")
    peak_rate: u.CRate | None = Field(None, description="The same, in capacities an hour")
    continuous_rate: u.CRate | None = Field(
        None, description="Current that it bears for ever, in capacities an hour"
    )
    lead: OwnLead | None = Field(None, description="The plug of the pack")


class FusePart(Part):
    """A fuse or breaker."""

    kind: Literal["blade", "blade-mini", "breaker", "other"] | None = Field(None, description="What it is")
    rating: u.Current | None = Field(None, description="Current printed on it")
    resistance: u.Resistance | None = Field(None, description="Its own resistance")


class SwitchPart(Part):
    """A power switch, loop or pull-out link."""

    rating: u.Current | None = Field(None, description="Current that it may break")
    resistance: u.Resistance | None = Field(None, description="Its own resistance")


class BoardPart(Part):
    """A distribution board or terminal strip."""

    rating: u.Current | None = Field(None, description="Current in all")
    port_rating: u.Current | None = Field(None, description="Current in one port")
    ports: u.Count | None = Field(None, description="Pairs of terminals")


class ConnectorPart(Part):
    """A family of connectors, described by the user."""

    family: str | None = Field(None, description="Shape, pins and spacing in the user's own words")
    rating: u.Current | None = Field(None, description="Current for ever")
    resistance: u.Resistance | None = Field(None, description="Resistance of one mated pair")


class LeadPart(Part):
    """A ready-made lead or adapter: extension, Y-lead, battery adapter, pigtail."""

    first: LeadEnd | None = Field(None, description="One end; of a Y-lead the one that there is once")
    second: LeadEnd | None = Field(None, description="The other end, or each of the others")
    branches: u.Count | None = Field(None, description="How many second ends it has; 1 where nothing is said")
    joins: Literal["parallel", "series"] | None = Field(
        None, description="How a lead with several second ends joins them"
    )
    length: u.Length | None = Field(None, description="Length from end to end")
    gauge: u.Area | None = Field(None, description="Thickness of each wire, as AWG or mm2")
    flips: bool | None = Field(None, description="Whether it swaps plus and minus")
    red_wire: Literal["in", "pulled"] | None = Field(
        None, description="Whether the middle wire of a servo lead goes through"
    )


PART_KINDS: dict[str, type[Table]] = {
    "motor": MotorPart,
    "controller": ControllerPart,
    "mixer": MixerPart,
    "servo": ServoPart,
    "tester": TesterPart,
    "inline": InlinePart,
    "radio": RadioPart,
    "receiver": ReceiverPart,
    "battery": BatteryPart,
    "regulator": RegulatorPart,
    "fuse": FusePart,
    "switch": SwitchPart,
    "board": BoardPart,
    "connector": ConnectorPart,
    "lead": LeadPart,
}
