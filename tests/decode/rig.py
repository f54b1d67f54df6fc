"""A drive on blocks, simulated from stick to wheel with matrices; it knows nothing of the decoder's own model."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import permutations, product

import numpy as np
from numpy.typing import NDArray

from mulewright.decode.bench import BOX, CONTROLLERS, RADIO, Bench
from mulewright.decode.fixing import CHANNEL, CONTROL, INPUTS, LEADS, PLUGS, Fix
from mulewright.decode.wiring import Code, Rows, right

Matrix = NDArray[np.float64]

FOUR = ("front_left", "front_right", "rear_left", "rear_right")
TWO = ("left", "right")
COSTS = {
    BOX: {CONTROL: 0.1, INPUTS: 0.3, PLUGS: 0.4, LEADS: 1.0},
    RADIO: {CHANNEL: 0.1, CONTROL: 0.2, INPUTS: 0.3, PLUGS: 0.4, LEADS: 1.0},
    CONTROLLERS: {CHANNEL: 0.1, INPUTS: 0.3, PLUGS: 0.4, LEADS: 1.0},
}
UNIT = {CONTROL: 1.0, INPUTS: 1.0, PLUGS: 1.0, LEADS: 1.0}


def rolling(half_wheelbase: float = 0.15, half_track: float = 0.16, radius: float = 0.06) -> Matrix:
    """Rates of four 45 degree roller wheels for unit speed ahead, to the right and turning right.

    Lynch and Park, Modern Robotics, equation 13.6 (from memory): a wheel's rim drives along its heading and slides
    freely along its rollers.
    """
    rows = []
    for ahead, left, slant in ((1, 1, -1), (1, -1, 1), (-1, 1, 1), (-1, -1, -1)):
        gamma, x, y = slant * np.pi / 4, ahead * half_wheelbase, left * half_track
        towards = np.array([1, np.tan(gamma)]) / radius
        of_wheel = np.array([[-y, 1, 0], [x, 0, 1]])
        yaw, forward, to_left = towards @ of_wheel
        rows.append([forward, -to_left, -yaw])
    return np.array(rows)


def two_sided(sides: Sequence[int]) -> Matrix:
    """Rates of wheels on the left (1) and on the right (-1) of a cart for ahead and for turning right."""
    return np.array([[1.0, side] for side in sides])


def code(matrix: Matrix, wheels: Sequence[str], commands: Sequence[str], channels: Sequence[int]) -> Code:
    """The code of a drive from its rates."""
    rows = tuple(tuple(int(sign) for sign in np.sign(row)) for row in matrix)
    plugs = tuple((wheel,) for wheel in range(len(wheels)))
    return Code(tuple(wheels), tuple(commands), rows, plugs, tuple(channels))


ROLLERS = code(rolling(), FOUR, ("forward", "strafe", "turn"), range(4))
SIDES = code(two_sided((1, -1)), TWO, ("forward", "turn"), range(2))
SKID = code(two_sided((1, -1, 1, -1)), FOUR, ("forward", "turn"), (0, 1, 0, 1))
STICKS = code(np.eye(2), TWO, TWO, range(2))


def bench(drive: Code, mixing: str = BOX, costs: dict[str, float] | None = None) -> Bench:
    """A drive whose file says that all is right."""
    count = len(drive.plugs)
    return Bench(
        drive, mixing, False, costs or COSTS[mixing], right(drive), drive.wheels, drive.wheels, (None,) * count,
        (None,) * drive.channel_count, (None,) * len(drive.commands), True,
    )  # fmt: skip


@dataclass
class Rig:
    """Everything between the sticks and the wheels, as somebody built it."""

    drive: Code
    leads: list[int]
    socket_of: list[int]  # where the plug of each wheel sits
    input_of: list[int] = field(default_factory=list)  # the input at which each stick's channel enters
    sticks: list[int] = field(default_factory=list)
    channels: list[int] = field(default_factory=list)

    def __post_init__(self) -> None:
        count = len(self.drive.commands)
        self.input_of = self.input_of or [*range(count)]
        self.sticks = self.sticks or [1] * count
        self.channels = self.channels or [1] * self.drive.channel_count

    def pushed(self) -> Rows:
        """What each wheel does on each push."""
        seen = np.zeros((len(self.leads), len(self.sticks)))
        for stick, (place, sense) in enumerate(zip(self.input_of, self.sticks, strict=True)):
            given = np.array(self.drive.rows, dtype=float)[:, place] * sense
            reversed_ = given * [self.channels[channel] for channel in self.drive.channels]
            seen[:, stick] = np.array(self.leads) * reversed_[self.socket_of]
        return tuple(tuple(int(np.sign(sign)) for sign in row) for row in seen)

    def do(self, fix: Fix, number: int) -> None:
        """Carry out one thing of a fix: plugs by their wheels, controls by their sticks, a channel by who sits there."""
        action = fix.actions[number]
        if action.kind in (PLUGS, INPUTS):
            one, other = action.of
            places = self.socket_of if action.kind == PLUGS else self.input_of
            places[one], places[other] = places[other], places[one]
            return
        (at,) = action.of
        if action.kind == CHANNEL:
            sits = [self.drive.channels[socket] for socket in fix.to.sockets]
            self.channels[self.drive.channels[self.socket_of[sits.index(at)]]] *= -1
        elif action.kind == CONTROL:
            self.sticks[at] *= -1
        else:
            assert action.kind == LEADS
            self.leads[at] *= -1


def rigs(drive: Code, *, inputs: bool = False) -> Iterator[Rig]:
    """Every way to plug the wheels and to join their leads, and every order of the inputs too."""
    count, commands = len(drive.wheels), len(drive.commands)
    orders = permutations(range(commands)) if inputs else [tuple(range(commands))]
    for order, sockets, leads in product(orders, permutations(range(count)), product((1, -1), repeat=count)):
        yield Rig(drive, [*leads], [*sockets], [*order])
