"""Motors, controllers, servos and everything that carries current or pulses between them."""

from typing import Literal

from pydantic import Field

from mulewright.design.schema.functions import Function
from mulewright.shelf import parts
from mulewright.units import fields as u
from mulewright.units.table import Table

Reference = str
RedWire = Literal["in", "pulled"]


class Placed(Table):
    """A thing that may be taken from the shelf."""

    part: str | None = Field(None, description="Name of a part on the shelf; what is said here overrides it")


class Lead(Table):
    """The servo lead of a device: where its plug sits and what it is like."""

    signal: Reference | list[Reference] | None = Field(None, description="Where its signal plug sits")
    red_wire: RedWire | None = Field(None, description="Whether its middle wire is in the plug or pulled")
    ground_wire: RedWire | None = Field(
        None, description="Whether its ground wire is in the plug, as in every whole plug, or pulled"
    )
    plug: Literal["as marked", "turned", "one pin off"] | None = Field(None, description="How the plug sits")
    lead_length: u.Length | None = Field(None, description="Length of the signal lead")
    way_to_socket: u.Length | None = Field(
        None, description="Way to where its plug sits, as a lead is laid; longer than its own, it is extended"
    )
    lead_gauge: u.Area | None = Field(None, description="Thickness of the signal lead")
    beside_motor_leads: bool | None = Field(None, description="Whether it runs bundled with motor leads")


class Gear(Table):
    """One gear stage between a motor's shaft and what it turns."""

    kind: Literal["spur", "planetary", "chain", "belt", "worm", "screw", "friction"] | None = Field(
        None, description="What it is made of"
    )
    driver_teeth: u.Count | None = Field(None, description="Teeth on the side of the motor")
    driven_teeth: u.Count | None = Field(None, description="Teeth on the far side")
    ratio: u.Ratio | None = Field(None, description="Motor turns for one turn of the far side")
    efficiency: u.Efficiency | None = Field(None, description="Power out over power in")
    pitch: u.Length | None = Field(None, description="Pitch of chain or belt")
    limit: u.Torque | None = Field(None, description="Largest torque on the far side")
    breaking: u.Force | None = Field(None, description="Pull at which its chain or belt breaks")
    reverses: bool | None = Field(None, description="Whether the far side turns the other way")


class Motor(parts.MotorPart, Placed, Function):
    """A motor where it is built in."""

    turns: Reference | None = Field(None, description="The wheel or mechanism that it turns")
    gears: list[Gear] | None = Field(None, description="Stages from its shaft outwards")
    total_ratio: u.Ratio | None = Field(None, description="Product of the stages as somebody noted it")
    mirrored: bool | None = Field(None, description="Whether it is mounted mirror-wise to its twin")
    runs: Literal["both ways", "one-way"] | None = Field(None, description="Which ways the task needs")
    suppressed: bool | None = Field(None, description="Whether noise capacitors sit on its terminals")
    load_torque: u.Torque | None = Field(None, description="Torque at work where it turns nothing named")
    shaft_load: u.Torque | None = Field(None, description="Torque that the hub has to bear")
    set_screw_force: u.Force | None = Field(
        None, description="Force of all set screws on a round shaft together"
    )
    script: list[str] | None = Field(None, description="Drive script in words: duty and seconds")


class Controller(parts.ControllerPart, Placed, Lead):
    """A controller where it is wired in."""

    feeds: Reference | list[Reference] | None = Field(None, description="The motor or motors on its output")
    polarity: Literal["straight", "swapped"] | None = Field(None, description="The motor leads")
    calibrated_to: u.Pulse | None = Field(None, description="Half range that it was taught from this radio")
    resets_itself: bool | None = Field(None, description="Whether it protects itself and comes back")


class Mixer(parts.MixerPart, Placed):
    """A mixer box and where its inputs are plugged."""

    forward: Reference | None = Field(None, description="Where its forward input is plugged")
    strafe: Reference | None = Field(None, description="Where its strafe input is plugged")
    turn: Reference | None = Field(None, description="Where its turn input is plugged")
    red_wire: RedWire | None = Field(None, description="Whether its input leads carry the rail")
    forward_weight: u.Percent | None = Field(None, description="Share of forward in its sum")
    strafe_weight: u.Percent | None = Field(None, description="Share of strafe in its sum")
    turn_weight: u.Percent | None = Field(None, description="Share of turn in its sum")


class Servo(parts.ServoPart, Placed, Lead, Function):
    """A servo where it is built in."""

    moves: Reference | None = Field(None, description="The mechanism that it moves")
    need: u.Angle | None = Field(None, description="Angle that the task needs")
    power: Reference | None = Field(
        None, description="Its own supply, where it is not fed through its signal plug"
    )
    mirrored: bool | None = Field(None, description="Whether it is mounted mirror-wise to its twin")
    coupled_with: Reference | None = Field(None, description="Another servo on the same shaft or jaw")
    center_error: u.PulseShift | None = Field(None, description="Pulse between its middle and its twin's")
    load_torque: u.Torque | None = Field(None, description="Torque that it holds")
    load_inertia: u.Inertia | None = Field(None, description="Moment of inertia that it moves")
    wanted_time: u.Time | None = Field(None, description="Time for its travel")
    horn_on: bool | None = Field(None, description="Whether the horn is screwed on")


class Tester(parts.TesterPart, Placed):
    """A servo tester in use."""

    mode: Literal["knob", "centre", "sweep"] | None = Field(None, description="What it is set to")
    power: Reference | None = Field(None, description="What feeds it")


class Inline(parts.InlinePart, Placed, Lead):
    """A device in a signal lead."""


class YLead(Table):
    """One plug to two."""

    kind: Literal["parallel", "series"] | None = Field(None, description="How it joins the two")
    carries: Literal["signal", "power"] | None = Field(None, description="A servo lead or a power lead")
    signal: Reference | list[Reference] | None = Field(None, description="Where its signal plug sits")
    red_wire: RedWire | None = Field(None, description="Whether its middle wire is in")
    joins: list[Reference] | None = Field(None, description="Packs that a power lead joins")


class Battery(parts.BatteryPart, Placed):
    """A pack where it is plugged in."""

    alarm: u.Voltage | None = Field(None, description="Voltage of a cell at which an alarm sounds")
    feeds: list[Reference] | None = Field(
        None, description="Receiver sockets or servos that it feeds by itself"
    )
    in_use: bool | None = Field(None, description="False for a pack that lies beside the machine")
    retained: bool | None = Field(None, description="Whether it is strapped, away from sharp edges")
    charge_lead_reachable: bool | None = Field(
        None, description="Whether it can be charged while switched on"
    )
    off_charger: bool | None = Field(None, description="Whether it is driven straight off the charger")
    planned_sessions: u.Count | None = Field(None, description="Packs at hand")
    mean_current: u.Current | None = Field(
        None, description="Mean current over a session with its pauses, as measured"
    )


class BenchSupply(Table):
    """A bench supply instead of a battery."""

    voltage: u.Voltage | None = Field(None, description="What it is set to")
    current_limit: u.Current | None = Field(None, description="Limit that it is set to")
    absorbs: bool | None = Field(None, description="Whether it takes current back")


class Regulator(parts.RegulatorPart, Placed):
    """A regulator on its own."""

    feeds: list[Reference] | None = Field(None, description="Receiver sockets or servos that it feeds")
    red_wire: RedWire | None = Field(None, description="Whether its plug carries the rail")


class Fuse(parts.FusePart, Placed):
    """A fuse or breaker in a run."""

    conductor: Literal["plus", "minus"] | None = Field(None, description="Which conductor it sits in")
    from_battery: u.Length | None = Field(None, description="Wire between the battery and the fuse")


class Switch(parts.SwitchPart, Placed):
    """A switch, loop or pull-out link in a run."""

    conductor: Literal["plus", "minus"] | None = Field(None, description="Which conductor it breaks")
    reachable: bool | None = Field(None, description="Whether one reaches it while the mechanism moves")


class Board(parts.BoardPart, Placed):
    """A distribution board where it is wired in."""


class Joint(parts.ConnectorPart, Placed):
    """A connector in a run."""

    battery_side: Literal["sockets", "pins"] | None = Field(
        None, description="Contacts on the side of the battery"
    )
    mates_with: str | None = Field(None, description="Family of the other half, if it is another")
    adapter: bool | None = Field(None, description="Whether an adapter lead lies between")
    flips: bool | None = Field(None, description="Whether it swaps plus and minus")


class Wire(Table):
    """A run of wire; it goes out in plus and comes back in minus."""

    path: list[Reference] | None = Field(None, description="What it joins, from the battery outwards")
    gauge: u.Area | None = Field(None, description="Thickness, as AWG or mm2")
    length: u.Length | None = Field(None, description="Length one way")
    temperature: u.Temperature | None = Field(None, description="Temperature of the copper")
    ampacity: u.Current | None = Field(
        None, description="Current that it bears, where better known than the table"
    )
    ampacity_table: Literal["short-chassis", "free-air", "small-craft", "bundled"] | None = Field(
        None, description="Which table says what it bears; short runs on a chassis where nothing is said"
    )
    joints: list[Joint] | None = Field(None, description="Connectors along it")
    contact_resistance: u.Resistance | None = Field(None, description="Of all plugs and terminals along it")
    polarity_metered: bool | None = Field(None, description="Whether its polarity was metered at the plug")
