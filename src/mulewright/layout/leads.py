"""Which plugs go where a function's channel comes out, and which of them need a channel of their own?"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from mulewright.design.mule import Mule
from mulewright.design.schema.electrics import Servo
from mulewright.layout.problem import RECEIVER_OF, Channel, Function

RADIO_OF = {receiver: radio for radio, receiver in RECEIVER_OF.items()}


@dataclass(frozen=True)
class LeadGroup:
    """Plugs that get the same pulses, and the channel at which they sit today."""

    leads: tuple[str, ...]
    channel: Channel | None


def wheel_controllers(mule: Mule, wheel: str | None = None) -> list[str]:
    """The controllers of the wheels, of all or of those that a command such as ``left`` names."""
    found = []
    for name, motor in mule.file.motor.items():
        turns, controller = motor.turns or "", mule.controller_of.get(f"motor.{name}")
        fits = turns.startswith("wheel.") and (wheel is None or turns == f"wheel.{wheel}")
        if fits and controller is not None:
            found.append(controller)
    return list(dict.fromkeys(found))


def lead_groups(mule: Mule, function: Function, devices: Iterable[str]) -> Sequence[LeadGroup]:
    """The plugs of a function by the channel that they need; that of its own control comes first.

    Plugs that sit in different sockets need a channel each. Of those that sit nowhere yet, all motors share one by
    Y-leads, and all servos that turn the same way.
    """
    groups: dict[str, tuple[str, ...]] = {}
    for device in devices:
        trace = mule.signals.trace(device)
        if trace.mixer is None:
            lead = (device, *trace.hops)[-1]
            key = trace.source or _sense(mule, device)
            groups[key] = tuple(dict.fromkeys((*groups.get(key, ()), f"{lead}.signal")))
    found = [LeadGroup(leads, channel_at(key)) for key, leads in groups.items()]
    own = set(mule.controls_for(function.name))
    return sorted(found, key=lambda one: one.channel is None or not _moved_by(mule, one.channel, own))


def box_lead(mule: Mule, box: str, command: str) -> str:
    """The plug through which a command gets into a box."""
    hops = mule.signals.trace(f"{box}.{command}").hops
    return f"{hops[-1]}.signal" if hops else f"{box}.{command}"


def channel_at(socket: str) -> Channel | None:
    """The channel that comes out at a socket."""
    receiver, _, number = socket.partition(".")
    return Channel(RADIO_OF[receiver], int(number)) if receiver in RADIO_OF and number.isdigit() else None


def plugged(mule: Mule, functions: Iterable[Function]) -> dict[str, str | None]:
    """Where each plug sits today, by its path."""
    found: dict[str, str | None] = {}
    for lead in (lead for function in functions for lead in function.leads):
        sockets = mule.signals.leads.get(lead.removesuffix(".signal"), [])
        found[lead] = sockets[0] if sockets else None
    return found


def _moved_by(mule: Mule, channel: Channel, controls: set[str]) -> bool:
    table = getattr(mule.file, channel.radio)
    named = {f"{channel.radio}.control.{name}": one.channel for name, one in table.control.items()}
    return any(named.get(control) == channel.number for control in controls)


def _sense(mule: Mule, device: str) -> str:
    table = mule.things[device]
    if not isinstance(table, Servo):
        return "motors"
    return "mirrored servos" if table.mirrored else "servos"
