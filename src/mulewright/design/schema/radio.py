"""Transmitter and receiver: controls, channels, mixes, fail-safe."""

from collections.abc import Mapping
from typing import Literal

from pydantic import Field, model_validator

from mulewright.design.schema.day import Day
from mulewright.design.schema.electrics import Placed
from mulewright.design.schema.lost_link import Reaction
from mulewright.shelf import parts
from mulewright.units import fields as u
from mulewright.units.table import Table


class Control(parts.ControlPart):
    """One control and what it is set to."""

    commands: str | list[str] | None = Field(None, description="The function or functions that it commands")
    positions: list[u.SignedPercent] | None = Field(None, description="Command at each position of a switch")
    start: str | None = Field(None, description="Where it stands when the power comes on")
    rate: u.Percent | None = Field(None, description="Rate in force")
    expo: u.Expo | None = Field(None, description="Curve: 0 % is straight, positive is soft about the middle")
    pushes_to: str | None = Field(None, description="What a push up or right does")


class Channel(Table):
    """Settings of one channel."""

    travel: u.Percent | None = Field(None, description="Endpoint, both ways")
    travel_plus: u.Percent | None = Field(None, description="Endpoint above neutral")
    travel_minus: u.Percent | None = Field(None, description="Endpoint below neutral")
    reverse: bool | None = Field(None, description="Channel reverse")
    sub_trim: u.PulseShift | None = Field(None, description="Sub-trim")
    trim: u.PulseShift | None = Field(None, description="Trim")
    slow: u.Time | None = Field(
        None, description="Time that the channel takes from end to end, if it is slowed"
    )
    failsafe_pulse: u.Pulse | None = Field(None, description="Preset as it was measured")


class Mix(Table):
    """A mix made in the radio."""

    kind: Literal["two-sides", "slave"] | None = Field(
        None, description="Sum and difference, or one onto another"
    )
    active: bool | None = Field(None, description="Whether it is switched on")
    inputs: list[str] | None = Field(None, description="Controls that it takes, forward before turn")
    channels: list[int] | None = Field(None, description="Channels that it drives, left first; or the slave")
    forward_weight: u.SignedPercent | None = Field(None, description="Share of forward in sum and difference")
    turn_weight: u.SignedPercent | None = Field(None, description="Share of turn in sum and difference")
    weight: u.SignedPercent | None = Field(None, description="Share that a slave channel takes")
    rate_before: bool | None = Field(None, description="Whether rates act before it")


class RateSwitch(Table):
    """The switch that makes everything slower."""

    switch: str | None = Field(None, description="Which switch it is")
    slow: u.Percent | None = Field(None, description="Rate in its slow position")
    covers: list[str] | None = Field(None, description="Controls that it reaches")


class Radio(parts.RadioPart, Placed):
    """The transmitter and what it is set to."""

    memory: str | None = Field(None, description="Model memory in use, name and number")
    planned_memory: str | None = Field(None, description="Model memory that the plan says")
    control: Mapping[str, Control] = Field(default_factory=dict, description="What each control does")
    channel: Mapping[str, Channel] = Field(
        default_factory=dict, description="Settings of each channel, or of others"
    )
    mix: list[Mix] = Field(default_factory=list, description="Mixes, in the order in which they act")
    rate: RateSwitch = Field(default_factory=RateSwitch, description="The rate switch")
    battery_checked: Day | None = Field(None, description="Day on which its own battery was checked")
    permission: str | None = Field(None, description="What the user found out about local rules for its band")
    latency: u.Time | None = Field(None, description="From stick to motor")
    settings_noted: bool | None = Field(None, description="Whether a settings sheet is filled in")


class FailSafe(Table):
    """What each channel does when the link is lost: neutral, hold, no pulses, or a pulse such as 1100 us."""

    channels: dict[int, Reaction] = Field(default_factory=dict, description="By channel number")
    others: Reaction | None = Field(None, description="All channels not named")
    tested: Day | None = Field(None, description="Day on which it was tried, wheels up, transmitter off")

    @model_validator(mode="before")
    @classmethod
    def _numbers_are_channels(cls, raw: object) -> object:
        if not isinstance(raw, dict):
            return raw
        numbered = {key: value for key, value in raw.items() if str(key).isdigit()}
        rest = {key: value for key, value in raw.items() if key not in numbered}
        return rest | {"channels": numbered | rest.get("channels", {})}


class Receiver(parts.ReceiverPart, Placed):
    """The receiver and how it is set."""

    fail_safe: FailSafe = Field(default_factory=FailSafe, description="What each channel does without a link")
    light: str | None = Field(None, description="The user's own note of its light patterns")
    antenna_clear: u.Length | None = Field(None, description="Antenna from metal, battery and motor leads")
    antenna_angle: u.Angle | None = Field(None, description="Angle between its antennas, if it has two")
    rebound_since_test: bool | None = Field(
        None, description="Whether it was bound or re-plugged since the test"
    )
