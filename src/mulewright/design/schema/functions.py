"""The mechanisms: arm, lift, winch, flywheel, roller, gripper; each is a function the driver commands."""

from typing import Annotated, Literal

from pydantic import Field

from mulewright.design.schema.day import Day
from mulewright.units import fields as u
from mulewright.units.table import Table


class Function(Table):
    """What can be said about anything that a control commands."""

    slow_mode: bool | None = Field(None, description="Whether the driver wants a slow mode for it")
    used_with: list[str] | None = Field(None, description="Functions used at the same moment")
    positive: str | None = Field(None, description="What a positive command does, e.g. up")
    habit: str | None = Field(None, description="What the driver expects a push up or right to do")
    stop_switch: bool | None = Field(None, description="Whether a switch stops it at its ends")
    held_at_stop: u.Time | None = Field(
        None, description="How long a driver holds it against a stop by habit"
    )
    hold_time: u.Time | None = Field(None, description="How long a driver holds it up with the stick")
    near_hands: bool | None = Field(None, description="Whether hands or feet come under or into it")
    closing_gap: u.Length | None = Field(None, description="Smallest gap that it leaves")
    closing_radius: u.Length | None = Field(
        None, description="From its axis to where it closes, if it is no arm, lift, winch, roller or gripper"
    )
    repeatability: u.Length | None = Field(None, description="How exactly it should come back to a place")
    backlash: u.Length | None = Field(None, description="Free travel before it moves")
    friction_voltage: u.Voltage | None = Field(None, description="Volts before it starts to move")
    time_budget: u.Time | None = Field(None, description="Longest time for its travel")
    needs_feedback: bool | None = Field(
        None, description="Whether the target has to drive it to a place by itself"
    )
    sensor_place: bool | None = Field(None, description="Whether a sensor would find room on it")
    working_share: u.Percent | None = Field(None, description="Share of a session for which it works")
    zero: str | None = Field(None, description="Where its way counts from, e.g. lower stop")


class HoldTest(Table):
    """A load held by hand on the stick, as it was measured."""

    rising_duty: u.Percent | None = Field(None, description="Duty at which it just starts to rise")
    sinking_duty: u.Percent | None = Field(None, description="Duty at which it just starts to sink")
    voltage: u.Voltage | None = Field(None, description="Supply during the test")
    on: Day | None = Field(None, description="Day of the test")


class Held(Function):
    """What can be said about anything that gravity pulls on."""

    hold_test: HoldTest | None = Field(None, description="At which duties it starts to rise and to sink")


class Lump(Table):
    """A mass on an arm."""

    mass: u.Mass | None = Field(None, description="Its mass")
    at: u.Length | None = Field(None, description="Distance of its centre from the pivot")


class Arm(Held):
    """An arm on a pivot, against gravity."""

    kind: Literal["arm"]
    lumps: list[Lump] | None = Field(None, description="Masses along the arm")
    load: u.Mass | None = Field(None, description="What it carries")
    load_at: u.Length | None = Field(None, description="Distance of the load from the pivot")
    pivot_ahead: u.Offset | None = Field(None, description="Pivot ahead of the centre of gravity of the body")
    pivot_height: u.Length | None = Field(None, description="Pivot above the floor")
    lowest: u.Angle | None = Field(None, description="Lowest angle above level")
    highest: u.Angle | None = Field(None, description="Highest angle above level")
    travel: u.Angle | None = Field(None, description="Angle from stop to stop")
    counterbalance: u.Torque | None = Field(
        None, description="Torque that a spring or weight gives against gravity"
    )
    inertia: u.Inertia | None = Field(None, description="Moment of inertia about the pivot")
    ratchet: bool | None = Field(None, description="Whether it cannot be driven back")


class Stage(Table):
    """One moving stage of a lift, lowest first."""

    mass: u.Mass | None = Field(None, description="Mass of the stage without its load")


class Rope(Table):
    """A rope or cord."""

    diameter: u.Length | None = Field(None, description="Diameter")
    breaking: u.Force | None = Field(None, description="Force at which a new one breaks")
    stiffness: u.Stiffness | None = Field(None, description="Stiffness of the length in use")
    knots: bool | None = Field(None, description="Whether a knot carries the load")


class Lift(Held):
    """A lift on a rope."""

    kind: Literal["lift"]
    rigging: Literal["single", "cascade", "continuous"] | None = Field(
        None, description="How the stages hang"
    )
    drum_diameter: u.Length | None = Field(None, description="Diameter at the middle of the rope on the drum")
    efficiency: u.Efficiency | None = Field(None, description="Of rope, sheaves and slides")
    carriage: u.Mass | None = Field(None, description="Mass of what moves, single rigging")
    stages: list[Stage] | None = Field(None, description="Moving stages, lowest first")
    load: u.Mass | None = Field(None, description="What it carries")
    travel: u.Length | None = Field(None, description="Way of the load from bottom to top")
    counter_force: u.Force | None = Field(
        None, description="Upward force of a spring or counterweight at the rope"
    )
    ratchet: bool | None = Field(None, description="Whether it cannot run back")
    load_ahead: u.Offset | None = Field(None, description="Load ahead of the centre of gravity of the body")
    lowest_height: u.Length | None = Field(None, description="Load above the floor at the bottom")
    rope: Rope = Field(default_factory=Rope, description="The rope on its drum")


class Winch(Held):
    """A drum that pulls or lifts on a rope."""

    kind: Literal["winch"]
    drum_diameter: u.Length | None = Field(None, description="Diameter of the bare drum")
    layers: u.Count | None = Field(None, description="Layers of rope on the full drum")
    rope: Rope = Field(default_factory=Rope, description="The rope")
    efficiency: u.Efficiency | None = Field(None, description="Of rope and sheaves")
    use: Literal["lifting", "pulling"] | None = Field(None, description="Against gravity, or along the floor")
    load: u.Mass | None = Field(None, description="What it lifts")
    pull: u.Force | None = Field(None, description="What it pulls with")
    height: u.Length | None = Field(None, description="How high it lifts")
    ratchet: bool | None = Field(None, description="Whether it cannot run back")


class Flywheel(Function):
    """A thrower: spinning wheels that an object is fed into."""

    kind: Literal["flywheel"]
    layout: Literal["one-wheel-and-hood", "two-wheels"] | None = Field(
        None, description="What grips the object"
    )
    wheel_diameter: u.Length | None = Field(None, description="Diameter of the wheels")
    wheel_mass: u.Mass | None = Field(None, description="Mass of one wheel")
    wheel_inertia: u.Inertia | None = Field(None, description="Moment of inertia of one wheel")
    wheel_count: u.Count | None = Field(None, description="Wheels on the shaft or shafts")
    object_mass: u.Mass | None = Field(None, description="Mass of one object")
    object_form: Literal["solid", "hollow"] | None = Field(None, description="Solid or hollow ball")
    interval: u.Time | None = Field(None, description="Wanted time between shots")
    guard: bool | None = Field(None, description="Whether a guard would catch its parts")
    wanted_distance: u.Length | None = Field(None, description="How far the task throws")


class Roller(Function):
    """An intake or sweeping roller."""

    kind: Literal["roller"]
    diameter: u.Length | None = Field(None, description="Diameter of the roller")
    efficiency: u.Efficiency | None = Field(None, description="Of its drive outside the gear stages")
    slips: bool | None = Field(
        None, description="Whether a clutch or belt slips before a jam stalls its motor"
    )
    bears: u.Force | None = Field(None, description="Force at its rim that its flaps and axle bear")
    load_torque: u.Torque | None = Field(None, description="Torque that it takes at work")


class Linkage(Table):
    """What lies between a servo horn and a jaw."""

    needed: u.Angle | None = Field(None, description="Angle of the servo from open to closed")
    limit_low: u.Angle | None = Field(
        None, description="Angle of the servo, from its middle, at which the linkage binds"
    )
    limit_high: u.Angle | None = Field(None, description="The same on the other side")
    horn: u.Length | None = Field(None, description="Radius at the horn")
    rod: u.Length | None = Field(None, description="Length of the rod")
    lever: u.Length | None = Field(None, description="Radius at the driven lever")
    base: u.Length | None = Field(None, description="Distance between the two pivots")
    horn_angle: u.Angle | None = Field(
        None, description="Horn from the line to the far pivot, servo in its middle"
    )
    lever_open: u.Angle | None = Field(
        None,
        description="Lever when open, read like the horn's angle: in a parallelogram the two are equal",
    )
    lever_closed: u.Angle | None = Field(None, description="The same when closed")
    rod_side: Literal["ahead", "behind"] | None = Field(
        None,
        description="Where the horn's end lies beside the line from the servo's axis to the lever's end: "
        "ahead of it, as the angles grow, or behind it",
    )
    transmission_angle: u.Angle | None = Field(None, description="Smallest angle between rod and lever")


class Gripper(Function):
    """Jaws that hold an object, moved by one or more servos."""

    kind: Literal["gripper"]
    linkage: Linkage = Field(default_factory=Linkage, description="Between servo and jaw")
    jaws: u.Count | None = Field(None, description="Jaws that one servo moves")
    pads: u.Count | None = Field(None, description="Surfaces that touch the object")
    finger_length: u.Length | None = Field(None, description="Finger from its pivot to the object")
    object_mass: u.Mass | None = Field(None, description="Mass of the object")
    friction: u.Ratio | None = Field(None, description="Grip between pad and object")
    acceleration: u.Acceleration | None = Field(None, description="Of the machine while it holds the object")
    compliant: bool | None = Field(None, description="Whether fingers or pads give way")
    closes_beyond: bool | None = Field(
        None, description="Whether the closing endpoint lies beyond the object"
    )
    release_harmless: bool | None = Field(None, description="Whether letting go of the object does no harm")


class Spinner(Function):
    """Anything that just turns: a pump, a feeder, a brush, a fan."""

    kind: Literal["spinner"]
    load_torque: u.Torque | None = Field(None, description="Torque that it takes at work")
    feeds: str | None = Field(None, description="Function that it serves, in words")


Mechanism = Annotated[Arm | Lift | Winch | Flywheel | Roller | Gripper | Spinner, Field(discriminator="kind")]
