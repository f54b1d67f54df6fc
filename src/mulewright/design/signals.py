"""Where does each signal lead go? From a device back to the receiver socket, tester or mixer that drives it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from mulewright.design.schema.electrics import Inline, Lead, Mixer, YLead
from mulewright.design.schema.file import MuleFile
from mulewright.errors import DesignError, MulewrightError

INPUTS = ("forward", "strafe", "turn")
RECEIVERS = ("receiver", "second_receiver")


@dataclass(frozen=True)
class Trace:
    """The way of one signal: the devices it passes, from the device back, and the socket where it starts."""

    device: str
    hops: tuple[str, ...]
    source: str | None  # "receiver.3", "tester.st", "mixer.drive.out1" or None where the plug sits nowhere

    @property
    def port(self) -> tuple[str, int] | None:
        """Receiver and socket number, where it starts at a receiver."""
        if self.source is None:
            return None
        kind, _, number = self.source.partition(".")
        return (kind, int(number)) if kind in RECEIVERS and number.isdigit() else None

    @property
    def mixer(self) -> tuple[str, str] | None:
        """Mixer id and output, where it starts at a mixer."""
        if self.source is None or not self.source.startswith("mixer."):
            return None
        name, output = self.source.removeprefix("mixer.").rsplit(".", 1)
        return f"mixer.{name}", output


class Signals:
    """Every signal lead of a mule file."""

    def __init__(self, file: MuleFile) -> None:
        self.file = file

    @cached_property
    def leads(self) -> dict[str, list[str]]:
        """Every plug: the lead it belongs to, and the sockets that it is said to sit in."""
        found: dict[str, list[str]] = {}
        for kind in ("controller", "servo", "inline", "y_lead"):
            tables: dict[str, Lead | YLead] = getattr(self.file, kind)
            for name, lead in tables.items():
                if isinstance(lead, YLead) and lead.carries == "power":
                    continue
                signal = lead.signal
                found[f"{kind}.{name}"] = [signal] if isinstance(signal, str) else list(signal or [])
        for name, mixer in self.file.mixer.items():
            for side in INPUTS:
                if (socket := getattr(mixer, side)) is not None:
                    found[f"mixer.{name}.{side}"] = [socket]
        return found

    def trace(self, device: str) -> Trace:
        """Follow the signal of a device, or of a mixer input, back to where it starts."""
        hops: list[str] = []
        here = device
        while True:
            sockets = self.leads.get(here, [])
            if not sockets:
                return Trace(device, tuple(hops), None)
            socket = sockets[0]
            if socket.split(".", 1)[0] not in ("inline", "y_lead") or socket in hops:
                return Trace(device, tuple(hops), socket)
            hops.append(socket)
            here = socket

    def sources(self, device: str) -> list[str]:
        """All sockets that a device's plug is said to sit in."""
        return self.leads.get(device, [])

    def plugged(self, socket: str) -> list[str]:
        """Leads whose plug sits in a socket."""
        return [lead for lead, sockets in self.leads.items() if socket in sockets]

    def inlines(self, trace: Trace) -> list[Inline]:
        """The in-line devices on the way."""
        return [self.file.inline[hop.split(".", 1)[1]] for hop in trace.hops if hop.startswith("inline.")]

    def mixer(self, mixer_id: str) -> Mixer:
        """The table of a mixer."""
        return self.file.mixer[mixer_id.split(".", 1)[1]]

    def problems(self) -> Iterator[MulewrightError]:
        """Two plugs in one socket, and leads that only lead to each other."""
        taken: dict[str, str] = {}
        for lead, sockets in self.leads.items():
            for socket in sockets:
                if socket.split(".", 1)[0] in ("y_lead", "tester"):
                    continue
                where = lead if lead.count(".") > 1 else f"{lead}.signal"
                if socket in taken:
                    rule = "one plug to a socket; a Y-lead ([y_lead.NAME]) takes two"
                    yield DesignError(
                        f"the plug of {taken[socket]} sits in {socket} too", where, rule, socket
                    )
                taken[socket] = lead
        for lead in self.leads:
            trace = self.trace(lead)
            if trace.source is not None and trace.source in trace.hops:
                rule = "a signal starts at a receiver, a mixer or a tester"
                yield DesignError(
                    "these leads only lead to each other", f"{lead}.signal", rule, " - ".join(trace.hops)
                )
