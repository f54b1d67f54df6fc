"""People, habits, instruments, records and the machine to come."""

from typing import Literal

from pydantic import Field

from mulewright.design.schema.day import Day
from mulewright.units import fields as u
from mulewright.units.table import Table

Tick = bool | Day


class Driver(Table):
    """Somebody who drives the mule."""

    reaction: u.Time | None = Field(None, description="Time to react")
    experience: str | None = Field(None, description="In words")
    minor: bool | None = Field(None, description="Whether a grown-up has to stand by")


class Instrument(Table):
    """An instrument at hand."""

    kind: str | None = Field(None, description="What it is, e.g. luggage scale")
    error: str | None = Field(None, description="How far off it may be, e.g. 2 % + 50 g")


class Measuring(Table):
    """How something is measured here, where the shelf's table says it otherwise."""

    instrument: str | None = Field(None, description="With what, e.g. luggage scale")
    how: str | None = Field(None, description="What to do, in a sentence or two")
    minutes: u.Count | None = Field(None, description="Minutes that it takes")
    error: str | None = Field(None, description="How far off the result may be, e.g. 2 % + 50 g")
    lowest: str | float | None = Field(None, description="What is unknown is hardly below this")
    highest: str | float | None = Field(None, description="What is unknown is hardly above this")


class Checklist(Table):
    """Items that somebody ticks, with true or with the day."""

    range_walk: Tick | None = Field(None, description="Range walk with reduced power, motors running")
    wheels_up: Tick | None = Field(None, description="First power with the wheels up and arms propped")
    hair_and_sleeves: Tick | None = Field(None, description="Hair tied, sleeves, lanyards and gloves away")
    eyes: Tick | None = Field(None, description="Eye protection worn")
    battery_strapped: Tick | None = Field(None, description="Battery strapped, no sharp edge near it")
    disconnect_reachable: Tick | None = Field(None, description="A disconnect in reach while anything moves")
    noise_parts: Tick | None = Field(None, description="Noise capacitors fitted, antenna free")
    plugs_seated: Tick | None = Field(None, description="Servo plugs looked at: right way round, on all pins")
    start_list: Tick | None = Field(None, description="Start position of every control listed")
    polarity_metered: Tick | None = Field(None, description="Polarity metered at the mating plug")
    bind_alone: Tick | None = Field(None, description="Bound with no other radio of the kind switched on")
    transmitter_first: Tick | None = Field(None, description="Transmitter is switched on first")
    own: dict[str, Tick] = Field(default_factory=dict, description="The mule's own items")


class Habits(Table):
    """How the machine is driven."""

    full_reverse_flicks: bool | None = Field(None, description="Whether the stick is thrown into reverse")
    holds_at_stops: bool | None = Field(None, description="Whether mechanisms are held against their stops")
    charges_on_board: bool | None = Field(None, description="Whether the pack is charged in the machine")


class Pushes(Table):
    """What each wheel did on each push, as found: one of + - 0 for each command, in their order."""

    order: list[str] | None = Field(None, description="Commands in the order of the signs")
    wheels: dict[str, str] = Field(default_factory=dict, description="Signs seen at each wheel")
    seen: str | None = Field(None, description="On blocks or on the floor, by whom, when")


class Rule(Table):
    """One line of a rule table that the user typed."""

    about: str | None = Field(None, description="Kind of thing: motor, battery, fuse, wire, ...")
    most: u.Count | None = Field(None, description="Largest number of them")
    parts: list[str] | None = Field(None, description="Parts that are listed")
    property: str | None = Field(None, description="A value of the part, e.g. rating")
    limit: str | None = Field(None, description="Its largest value with unit")
    least: str | None = Field(None, description="Its smallest value with unit")
    note: str | None = Field(None, description="The rule in the user's words")


class RuleTable(Table):
    """The user's own rule table; the program ships none."""

    dated: Day | None = Field(None, description="Day of the table")
    typed_by: str | None = Field(None, description="Who typed it")
    rule: list[Rule] = Field(default_factory=list, description="Its lines")


class Axis(Table):
    """Sign convention of one function."""

    positive: str | None = Field(None, description="What positive means, e.g. up")
    seen_from: str | None = Field(None, description="Where from")


class Target(Table):
    """The machine that this mule stands in for, or what this file says as such a target."""

    file: str | None = Field(None, description="Mule file of the target")
    note: str | None = Field(None, description="In words")
    port_current_limit: u.Current | None = Field(None, description="Current limit of each motor port")
    port_count: u.Count | None = Field(None, description="Motor ports")
    servo_rail_current: u.Current | None = Field(None, description="Current for all servos together")
    servo_port_current: u.Current | None = Field(None, description="Current for one servo")
    pulse_low: u.Pulse | None = Field(None, description="Shortest pulse that it sends")
    pulse_high: u.Pulse | None = Field(None, description="Longest pulse that it sends")
    loop_time: u.Time | None = Field(None, description="Time of its control loop")
    loaded_voltage: u.Voltage | None = Field(None, description="Supply under load")
    y_leads_allowed: bool | None = Field(None, description="Whether its rules allow two things on one port")
    polarity: dict[str, Axis] = Field(
        default_factory=dict, description="What positive means for each function"
    )


class Accepted(Table):
    """The run that was accepted, and the settings it was driven with."""

    rate: u.Percent | None = Field(None, description="Rate that the drivers liked")
    settings_recorded: bool | None = Field(None, description="Whether the radio's settings were kept")
    loaded_voltage: u.Voltage | None = Field(None, description="Supply under load in that run")
    speed: u.Speed | None = Field(None, description="Top speed in that run")
    load: u.Mass | None = Field(None, description="What it carried in that run")
    floor: list[str] | None = Field(None, description="Floors that it was driven on, named as in the room")
    on: Day | None = Field(None, description="Day of the run")


class LimitSetting(Table):
    """A limit of a check set by the user, with the reason."""

    limit: str | float | None = Field(None, description="The limit, in the check's own unit")
    block: str | float | None = Field(None, description="Limit at which it is a BLOCK")
    stop: str | float | None = Field(None, description="Limit at which it is a STOP")
    warn: str | float | None = Field(None, description="Limit at which it is a WARN")
    note: str | float | None = Field(None, description="Limit at which it is a NOTE")
    also: dict[str, str | float] = Field(
        default_factory=dict, description="Limits of the check's further conditions, by their names"
    )
    deliberate: bool | None = Field(None, description="The state is meant and recorded")
    because: str | None = Field(None, description="Why")


class LayoutWishes(Table):
    """What matters in a layout of the controls, where it differs from the table of assumptions."""

    cost: dict[str, u.Count] = Field(
        default_factory=dict, description="Points by name, such as speed_unsprung = 10"
    )
    keep: dict[str, str] = Field(
        default_factory=dict, description="Functions that stay on a control, such as forward = RV"
    )


class Printing(Table):
    """How papers are printed."""

    page: Literal["a4", "letter"] | None = Field(
        None, description="Size of the pages; a4 where nothing is said"
    )
    tape: u.Length | None = Field(
        None, description="Height of label strips: 9, 12, 18 or 24 mm; 12 mm where nothing is said"
    )
