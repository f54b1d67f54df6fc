"""What has to be laid out? Functions that want a control and a channel, and who sits beside whom."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

Kind = Literal["speed", "constant", "position", "two-state"]
Needs = Literal["control and channel", "control", "channel"]
Beside = Literal["apart", "arm with turn", "arm with forward", "together", "box order", "same lead"]

RECEIVER_OF = {"radio": "receiver", "second_radio": "second_receiver"}


class Channel(NamedTuple):
    """One channel of one transmitter."""

    radio: str
    number: int

    @property
    def socket(self) -> str:
        """The socket of the receiver at which it comes out."""
        return f"{RECEIVER_OF[self.radio]}.{self.number}"


class Seat(NamedTuple):
    """Where a function sits: on a control, on a channel, or on both."""

    control: str | None
    channel: Channel | None


Layout = Mapping[str, Seat]  # by the name of the function; one that is left out has no seat


@dataclass(frozen=True)
class Function:
    """Something that a driver commands, or a second lead of it that a mix of the radio moves along."""

    name: str
    kind: Kind = "speed"
    names: tuple[str, ...] = ()  # the functions of the file that it stands for
    motor: bool = True  # it goes on by itself when the link is lost
    drive: bool = False
    held: bool = False  # against gravity
    axis: Literal["vertical", "horizontal"] | None = None  # which way the machine goes
    side: Literal["left", "right"] | None = None
    wants_slow: bool = False
    needs: Needs = "control and channel"
    outputs: tuple[Channel, ...] = ()  # where a mix of the radio lets it out
    follows: str = ""  # of a second lead: the function
    leads: tuple[str, ...] = ()  # paths of the plugs that go where its channel comes out
    at: Channel | None = None  # the only channel on which it may sit
    only: frozenset[str] | None = None  # the only controls on which it may sit

    @property
    def wants_control(self) -> bool:
        """Whether a person moves it by a control of its own."""
        return self.needs != "channel"

    @property
    def wants_channel(self) -> bool:
        """Whether it takes a channel of its own."""
        return self.needs != "control"


@dataclass(frozen=True)
class Control:
    """A stick axis, a switch, a knob."""

    id: str
    kind: Literal["stick", "switch", "knob", "button"]
    channels: tuple[Channel, ...]
    axis: Literal["vertical", "horizontal"] | None = None
    gimbal: str | None = None
    spring: Literal["none", "sprung", "converted"] = "none"
    positions: int = 2
    slowed: bool = False
    mixed: bool = False  # the radio's drive mix takes it in today

    @property
    def radio(self) -> str:
        """Its transmitter."""
        return self.id.split(".", 1)[0]

    @property
    def name(self) -> str:
        """Its short name, with the transmitter where that is the second."""
        name = self.id.rsplit(".", 1)[1]
        return name if self.radio == "radio" else f"{name} of the second radio"

    @property
    def stick(self) -> str:
        """The stick that it is an axis of; empty if it is none."""
        return f"{self.radio}.{self.gimbal or self.name}" if self.kind == "stick" else ""


@dataclass(frozen=True)
class Pair:
    """Two functions that matter to each other."""

    first: str
    second: str
    why: Beside


@dataclass(frozen=True)
class Problem:
    """Everything that a layout depends on."""

    functions: tuple[Function, ...]
    controls: tuple[Control, ...]
    channels: tuple[Channel, ...]  # that come out of a receiver and that nothing else takes
    costs: Mapping[str, float]
    protected: frozenset[Channel] = frozenset()
    taken: Mapping[Channel, str] = field(default_factory=dict)  # why nothing else may sit there
    pairs: tuple[Pair, ...] = ()
    present: Layout = field(default_factory=dict)
    plugged: Mapping[str, str | None] = field(default_factory=dict)  # where each lead sits today
    notes: tuple[str, ...] = ()

    def function(self, name: str) -> Function:
        """Look up one function."""
        return next(one for one in self.functions if one.name == name)

    def control(self, id: str) -> Control:
        """Look up one control."""
        return next(one for one in self.controls if one.id == id)
