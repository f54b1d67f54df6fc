"""The machine and the place it drives in: body, drive, room, course."""

from typing import Literal

from pydantic import Field

from mulewright.units import fields as u
from mulewright.units.table import Table

DriveKind = Literal["two-sides", "two-sticks", "four-roller-wheels", "skid-steer"]
FOUR_WHEELS = ("front_left", "front_right", "rear_left", "rear_right")
WHEELS: dict[str, tuple[str, ...]] = {
    "two-sides": ("left", "right"),
    "two-sticks": ("left", "right"),
    "four-roller-wheels": FOUR_WHEELS,
    "skid-steer": FOUR_WHEELS,
}
COMMANDS: dict[str, tuple[str, ...]] = {
    "two-sides": ("forward", "turn"),
    "two-sticks": ("left", "right"),
    "four-roller-wheels": ("forward", "strafe", "turn"),
    "skid-steer": ("forward", "turn"),
}


class Body(Table):
    """The machine as a lump with contacts to the floor, nothing carried."""

    mass: u.Mass | None = Field(
        None,
        description="Mass without what it carries and without the lumps of its arms, which are added where an "
        "arm is out",
    )
    center_height: u.Length | None = Field(
        None, description="Height of that mass's centre of gravity above the floor"
    )
    center_ahead: u.Offset | None = Field(
        None, description="Centre of gravity of that mass ahead of the rear contacts"
    )
    center_aside: u.Offset | None = Field(None, description="Centre of gravity to the left of the middle")
    wheelbase: u.Length | None = Field(None, description="Front contacts ahead of the rear contacts")
    track: u.Length | None = Field(None, description="Left contacts beside the right contacts")
    stiff_frame: bool | None = Field(
        None, description="Whether four wheels stand on a frame that cannot twist"
    )
    frame_error: u.Length | None = Field(None, description="How far one wheel stands off a flat floor")
    touchable_hot: list[str] | None = Field(None, description="Hot parts within reach")
    lightest_wheel: u.Percent | None = Field(
        None, description="Share of the weight on the wheel that carries least, by scales"
    )


class Wheel(Table):
    """The driven wheels."""

    diameter: u.Length | None = Field(None, description="Diameter over the tread")
    friction: u.Ratio | None = Field(None, description="Grip: sideways force over load at first slip")
    side_friction: u.Ratio | None = Field(None, description="The same across the wheel, for skid steer")
    rolling_resistance: u.Ratio | None = Field(None, description="Force to roll over load")
    roller_angle: u.Angle | None = Field(None, description="Angle of the rollers to the axle")
    plan_loss: u.Percent | None = Field(None, description="Speed sideways over speed forward")


class Drive(Table):
    """What moves the machine over the floor."""

    kind: DriveKind | None = Field(None, description="How the wheels are arranged and steered")
    wheel: Wheel = Field(default_factory=Wheel, description="The driven wheels")
    hands: dict[str, Literal["left", "right"]] | None = Field(
        None, description="Hand of each roller wheel as it is mounted"
    )
    commands: list[str] | None = Field(None, description="Functions of the drive that the driver commands")
    driven: Literal["rear", "front", "all"] | None = Field(None, description="Which axle the motors turn")
    wanted_speed: u.Speed | None = Field(None, description="Top speed that the task asks for")
    side_mismatch: u.Percent | None = Field(
        None, description="Speed difference of the sides at the same command"
    )
    drift_run: u.Length | None = Field(None, description="Length of a run on which its drift was measured")
    drift_seen: u.Offset | None = Field(
        None, description="How far aside it ended on that run, without a sign"
    )
    drifts_to: Literal["left", "right"] | None = Field(None, description="The side to which it drifted")
    immediate_reverse: bool | None = Field(None, description="Whether the task needs reverse without a pause")
    wanted_push: u.Force | None = Field(None, description="Push ahead that the task asks for")
    working_share: u.Percent | None = Field(None, description="Share of a session for which it drives")


class Room(Table):
    """Where it is driven."""

    free: u.Length | None = Field(None, description="Free way in front of it")
    surfaces: list[str] | None = Field(None, description="Floors that it will meet")
    steepest: u.Angle | None = Field(None, description="Steepest slope")
    straight_run: u.Length | None = Field(None, description="Length over which it should keep straight")
    people: bool | None = Field(None, description="Whether people walk there")
    other_radios: bool | None = Field(None, description="Whether the same type of radio is on nearby")


class Course(Table):
    """The course that trials are driven on."""

    describe: str | None = Field(None, description="The course in words")
    length: u.Length | None = Field(None, description="Way to drive")
    width: u.Length | None = Field(None, description="Narrowest place")
    objects: str | None = Field(None, description="What is picked up or carried")
    session: u.Time | None = Field(None, description="How long a session is planned to last")
    time_budget: u.Time | None = Field(None, description="Longest time for the whole way")
