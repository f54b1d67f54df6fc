"""Facts about a lost link: what does each motor do then, and was it tried?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Self

from mulewright.design.commands import mixer_row
from mulewright.design.mule import Mule
from mulewright.design.reads import kept
from mulewright.design.schema.lost_link import HOLD, NEUTRAL, SILENT
from mulewright.design.schema.radio import Receiver
from mulewright.design.signals import RECEIVERS
from mulewright.design.unsaid import SIGNALS
from mulewright.facts.descriptors import fact, given
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.models.arithmetic import largest


def sources(mule: Mule, device: str) -> Iterator[str]:
    """Sockets and testers that move a device, through boxes; the path of a plug that sits nowhere."""
    trace = mule.signals.trace(device)
    if trace.mixer is None:
        last = trace.hops[-1] if trace.hops else device
        yield trace.source or (last if last.count(".") > 1 else f"{last}.signal")
        return
    box, output = trace.mixer
    inputs = mixer_row(mule.signals.mixer(box), output)
    if not inputs:
        yield f"{box}.mixes"
    for side in inputs:
        yield from sources(mule, f"{box}.{side}")


class SocketFacts(Facts):
    """A socket of a receiver that moves something: ``receiver.3``."""

    kind = "receiver socket"
    none = "no motor hangs on a receiver"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        known = [name for lost in LostLinkFacts.all(evaluation) for name in lost.known_sockets]
        return [evaluation.entity(cls, name) for name in dict.fromkeys(known)]

    @kept
    def number(self) -> int:
        """Its number, which is that of its channel."""
        return int(self.id.rsplit(".", 1)[1])

    @property
    def receiver(self) -> Receiver:
        """The receiver's table."""
        table = self.mule.things[self.id.split(".", 1)[0]]
        assert isinstance(table, Receiver)
        return table

    @property
    def presettable(self) -> bool:
        """Whether the receiver can give it a preset."""
        protects = self.receiver.protects
        if protects is None:
            raise Missing(f"{self.id.split('.', 1)[0]}.protects")
        return protects == "all" or self.number in protects

    @property
    def noted(self) -> str | None:
        """What is noted as its setting, whether or not the receiver can do it."""
        fail_safe = self.receiver.fail_safe
        return fail_safe.channels.get(self.number, fail_safe.others)

    @property
    def setting(self) -> str:
        """What it does when the link is lost: neutral, hold, no pulses, or a pulse."""
        if not self.presettable:
            return HOLD
        if self.noted is None:
            receiver, number = self.id.split(".", 1)
            raise Missing(f"{receiver}.fail_safe.{number}")
        return self.noted

    @fact("1", "1 where a preset can be stored for it")
    def protected(self) -> Value:
        can = self.presettable
        return self.found(float(can), f"the receiver can {'store a' if can else 'store no'} preset for it")

    @fact("1", "1 where it goes on with its last pulse when the link is lost")
    def holds(self) -> Value:
        setting = self.setting
        because = f"it is set to {setting}" if self.presettable else "the receiver can store no preset for it"
        return self.found(float(setting == HOLD), because)


class LostLinkFacts(Facts):
    """A controller whose motors are steered through a receiver."""

    kind = "controller on a receiver"
    none = "no motor hangs on a receiver"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        if not any(getattr(evaluation.mule.file, receiver) for receiver in RECEIVERS):
            return []
        names = evaluation.mule.file.controller
        found = [evaluation.entity(cls, f"controller.{name}") for name in names]
        return [one for one in found if not one.holds_an_angle and one.sources]

    @kept
    def holds_an_angle(self) -> bool:
        """Whether it goes to an angle by itself, so that holding the last pulse stops the motor."""
        loop = self.mule.file.controller[self.id.split(".", 1)[1]].closed_loop
        return loop is not None and loop.command == "position"

    @kept
    def sources(self) -> list[str]:
        """Everything but testers that moves it: sockets, and paths of plugs that sit nowhere yet."""
        found = dict.fromkeys(sources(self.mule, self.id))
        return [source for source in found if not source.startswith("tester.")]

    @property
    def known_sockets(self) -> list[str]:
        """Receiver sockets that move it, as far as is known."""
        return [source for source in self.sources if source.split(".", 1)[0] in RECEIVERS]

    @property
    def sockets(self) -> list[SocketFacts]:
        """Receiver sockets that move it."""
        unknown = [source for source in self.sources if source not in self.known_sockets]
        if unknown:
            raise Missing(*unknown)
        return [self.of(SocketFacts, name) for name in self.known_sockets]

    @property
    def served(self) -> list[str]:
        """Functions that its motors serve, as far as is known."""
        served = [self.mule.function_of(motor) for motor in self.mule.motors_of(self.id)]
        return list(dict.fromkeys(name for name in served if name))

    @property
    def drives(self) -> bool:
        """Whether its motors turn wheels."""
        self.choice("feeds")
        return "drive" in self.served

    @property
    def keeping(self) -> str:
        """The sockets that go on with their last pulse, for people."""
        return ", ".join(socket.id for socket in self.sockets if socket.setting == HOLD) or "none"

    @property
    def reaction(self) -> str:
        """What its sockets do when the link is lost, for people."""
        does = {NEUTRAL: "goes to neutral", HOLD: "holds", SILENT: "gives no pulses"}
        settings = {socket.id: socket.setting for socket in self.sockets}
        said = (f"{socket} {does.get(setting, f'goes to {setting}')}" for socket, setting in settings.items())
        return ", ".join(said) or "nothing happens: no receiver steers it"

    @property
    def stops_without_pulses(self) -> bool:
        """Whether it stops its motors when pulses stay away, or the box before it does."""
        mixer = self.mule.signals.trace(self.id).mixer
        device = mixer[0] if mixer is not None else self.id
        stops: bool | None = getattr(self.mule.things[device], "stops_on_lost_pulses", None)
        if stops is None:
            raise Missing(f"{device}.stops_on_lost_pulses")
        return stops

    @fact("1", "1 where its motors run on when pulses stay away")
    def runs_without_pulses(self) -> Value:
        stops = self.stops_without_pulses
        return self.found(float(not stops), f"without pulses it {'stops' if stops else 'does not stop'}")

    @fact("1", "1 where its motors go on with the last command when the link is lost")
    def runs_on(self) -> Value:
        return self.by(
            largest,
            values=[
                self.runs_without_pulses if socket.setting == SILENT else socket.holds
                for socket in self.sockets
            ],
        )

    @fact("1", "1 where it lets go of its motors, as with the stick at neutral, when the link is lost")
    def lets_go(self) -> Value:
        settings = {socket.setting for socket in self.sockets}
        harmless = {NEUTRAL, SILENT} if SILENT in settings and self.stops_without_pulses else {NEUTRAL}
        return self.found(float(bool(settings) and settings <= harmless), self.reaction)


class ReceiverFacts(Facts):
    """A receiver on which motors hang."""

    kind = "receiver"
    none = "no motor hangs on a receiver"
    rests_on = (SIGNALS,)

    fail_safe_delay = given(assume="fail_safe_delay")
    restart = given(assume="receiver_restart")

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        used = dict.fromkeys(socket.id.split(".", 1)[0] for socket in SocketFacts.all(evaluation))
        return [evaluation.entity(cls, receiver) for receiver in used]

    @property
    def sockets(self) -> list[SocketFacts]:
        """Its sockets that move motors."""
        every = SocketFacts.all(self.evaluation)
        return [socket for socket in every if socket.id.startswith(f"{self.id}.")]

    @property
    def receiver(self) -> Receiver:
        """Its table."""
        assert isinstance(self.table, Receiver)
        return self.table

    @property
    def bare(self) -> str:
        """The sockets that move motors and cannot store a preset, for people."""
        return ", ".join(socket.id for socket in self.sockets if not socket.presettable) or "none"

    @fact("1", "sockets that move motors and for which no preset can be stored")
    def unprotected(self) -> Value:
        bare = [socket for socket in self.sockets if not socket.presettable]
        protects = self.receiver.protects
        can = "all" if protects == "all" else ", ".join(str(number) for number in protects or []) or "none"
        return self.found(len(bare), f"sockets that can store a preset: {can}")

    @property
    def trial(self) -> tuple[bool, str]:
        """Whether its fail-safe counts as tried, and what was found about it."""
        fail_safe = self.receiver.fail_safe
        unset = [str(socket.number) for socket in self.sockets if socket.noted is None]
        if fail_safe.tested is None:
            return False, "no day is noted on which the fail-safe was tried"
        if self.receiver.rebound_since_test:
            return False, f"it was bound or re-plugged after the test on {fail_safe.tested}"
        if unset:
            return False, f"no fail-safe is noted for {', '.join(unset)}"
        return True, f"tried on {fail_safe.tested}, and no change since is noted"

    @fact("1", "1 where its fail-safe was tried on a noted day, and nothing was changed since")
    def tried(self) -> Value:
        good, because = self.trial
        return self.found(float(good), because)
