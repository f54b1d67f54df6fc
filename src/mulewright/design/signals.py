"""Where does each signal lead go? From a device back to the receiver socket, tester or mixer that drives it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import networkx as nx

from mulewright.design.reads import kept
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


@dataclass(frozen=True)
class Joined:
    """Sockets that give pulses, and the leads that they are joined to."""

    sources: tuple[str, ...]
    leads: tuple[str, ...]


class Signals:
    """Every signal lead of a mule file."""

    def __init__(self, file: MuleFile) -> None:
        self.file = file

    @kept
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
            if _kind(socket) not in ("inline", "y_lead") or socket in hops:
                return Trace(device, tuple(hops), socket)
            hops.append(socket)
            here = socket

    def sources(self, device: str) -> list[str]:
        """All sockets that a device's plug is said to sit in."""
        return self.leads.get(device, [])

    @kept
    def in_socket(self) -> dict[str, list[str]]:
        """Everything whose plug is said to sit in each socket that takes one plug, supplies of the rail included."""
        found: dict[str, list[str]] = {}
        for lead, sockets in [*self.leads.items(), *self._supply_plugs()]:
            for socket in sockets:
                if _kind(socket) not in ("y_lead", "tester"):
                    found.setdefault(socket, []).append(lead)
        return found

    def _supply_plugs(self) -> Iterator[tuple[str, list[str]]]:
        for kind in ("regulator", "battery"):
            for name, supply in getattr(self.file, kind).items():
                if getattr(supply, "in_use", None) is not False:
                    fed = supply.feeds or []
                    yield f"{kind}.{name}", [one for one in fed if _kind(one) in RECEIVERS and "." in one]

    @kept
    def unplaced(self) -> dict[str, None]:
        """The paths that would say where a plug sits, of which nobody said it."""
        tables = {lead: getattr(self.file, _kind(lead)).get(lead.split(".", 1)[1]) for lead in self.leads}
        plugs = [f"{lead}.signal" for lead, table in tables.items() if getattr(table, "signal", "") is None]
        boxes = self.file.mixer.items()
        nowhere = [name for name, box in boxes if all(getattr(box, side) is None for side in INPUTS)]
        return dict.fromkeys([*plugs, *(f"mixer.{name}.{INPUTS[0]}" for name in nowhere)])

    @kept
    def nets(self) -> dict[str, Joined]:
        """The leads and sockets that are joined to each other, by the first of the sockets, else of the leads.

        Y-leads join; boxes and in-line devices make pulses of their own.
        """
        graph: nx.Graph[tuple[str, bool]] = nx.Graph()  # a name, and whether it is a lead or a socket
        for lead, sockets in self.leads.items():
            graph.add_node((lead, True))
            graph.add_edges_from(((lead, True), (socket, False)) for socket in sockets)
            if _kind(lead) == "y_lead":
                graph.add_edge((lead, True), (lead, False))
        found = {}
        for part in nx.connected_components(graph):
            leads = tuple(sorted(name for name, is_lead in part if is_lead))
            starts = (name for name, is_lead in part if not is_lead and _kind(name) != "y_lead")
            sources = tuple(sorted(starts))
            found[(sources or leads)[0]] = Joined(sources, leads)
        return found

    def inlines(self, trace: Trace) -> list[Inline]:
        """The in-line devices on the way."""
        return [self.file.inline[hop.split(".", 1)[1]] for hop in trace.hops if hop.startswith("inline.")]

    def mixer(self, mixer_id: str) -> Mixer:
        """The table of a mixer."""
        return self.file.mixer[mixer_id.split(".", 1)[1]]

    def problems(self) -> Iterator[MulewrightError]:
        """Leads that only lead to each other, and boxes that feed themselves."""
        for lead in self.leads:
            trace = self.trace(lead)
            if trace.source is not None and trace.source in trace.hops:
                rule = "a signal starts at a receiver, a mixer or a tester"
                yield DesignError(
                    "these leads only lead to each other", f"{lead}.signal", rule, " - ".join(trace.hops)
                )
        for ring in nx.simple_cycles(self._boxes()):
            rule = "a box takes its signals from a receiver, a tester or another box"
            yield DesignError("a box feeds itself", ring[0], rule, " - ".join([*ring, ring[0]]))

    def _boxes(self) -> nx.DiGraph[str]:
        """Which mixer box takes a signal from which."""
        inputs = [lead for lead in self.leads if _kind(lead) == "mixer"]
        fed_by = ((lead.rsplit(".", 1)[0], self.trace(lead).mixer) for lead in inputs)
        return nx.DiGraph([(box, source[0]) for box, source in fed_by if source is not None])


def _kind(name: str) -> str:
    return name.split(".", 1)[0]
