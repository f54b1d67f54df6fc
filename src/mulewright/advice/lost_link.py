"""What happens at each output when the link is lost? The receiver first, then the controller, then the machine."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict, dataclass
from functools import partial
from typing import Any

from mulewright.advice.lost_machine import servo_happens, what_happens
from mulewright.advice.spoken import ENDLESS, UNKNOWN, listed, read, read_with_doubt, spoken
from mulewright.design.schema.lost_link import HOLD, NEUTRAL, SILENT
from mulewright.design.signals import RECEIVERS
from mulewright.facts.fail_safe import LostLinkFacts, ReceiverFacts, SocketFacts, sources
from mulewright.facts.graph import Evaluation
from mulewright.facts.nodes import known_number, number
from mulewright.facts.outputs import ControllerSignalFacts
from mulewright.facts.presets import PresetControllerFacts
from mulewright.facts.runaway import RunawayFacts

CANNOT = "hold, cannot be set"


@dataclass(frozen=True)
class LostSocket:
    """A socket that moves an output, and what the receiver does there."""

    id: str
    does: str  # a question mark where it is not known


@dataclass(frozen=True)
class LostOutput:
    """One controller or servo without its link; a question mark stands for what is not known."""

    device: str
    function: str
    sockets: tuple[LostSocket, ...]
    through: str | None  # the box that it hangs on
    then: str
    happens: str
    after: str
    way: str | None  # of the machine until it stands; None where it turns no wheel
    runs_on: bool | None  # None where it is not known
    tested: str
    needs: tuple[str, ...]

    @property
    def places(self) -> str:
        """The sockets that move it, and the box between."""
        places: dict[str, list[int]] = {}
        for socket in self.sockets:
            receiver, _, place = socket.id.partition(".")
            places.setdefault(receiver, []).append(int(place))
        mark = {"receiver": ""}
        words = [
            f"{mark.get(one, 'second: ')}{listed(map(str, sorted(found)))}" for one, found in places.items()
        ]
        through = f" through {spoken(self.through)}" if self.through is not None else ""
        return "; ".join(words) + through

    @property
    def receiver(self) -> str:
        """What the receiver does: once where all its sockets do the same, else for each of them."""
        does = list(dict.fromkeys(socket.does for socket in self.sockets))
        if len(does) == 1:
            return does[0]
        return "; ".join(f"{socket.id.rsplit('.', 1)[1]}: {socket.does}" for socket in self.sockets)

    def as_dict(self) -> dict[str, Any]:
        """The output for programs."""
        return asdict(self)


def lost_link(evaluation: Evaluation) -> list[LostOutput]:
    """Every output that is steered through a receiver, in the order of the sockets."""
    file = evaluation.mule.file
    devices = [*(f"controller.{name}" for name in file.controller), *(f"servo.{name}" for name in file.servo)]
    found = [_Lost(evaluation, device) for device in devices]
    reached = sorted((one for one in found if one.sockets), key=lambda one: one.place)
    return [one.output for one in reached]


class _Lost:
    """A controller or a servo, and what is missing to say what it does."""

    def __init__(self, evaluation: Evaluation, device: str) -> None:
        self.evaluation = evaluation
        self.mule = evaluation.mule
        self.device = device
        self.is_servo = device.startswith("servo.")
        self.facts = evaluation.entity(LostLinkFacts, device)
        starts = dict.fromkeys(sources(self.mule, device))
        known = [start for start in starts if start.split(".", 1)[0] in RECEIVERS]
        self.sockets = [evaluation.entity(SocketFacts, start) for start in known]
        self.needs: set[str] = {start for start in starts if start not in known}

    @property
    def place(self) -> tuple[str, int]:
        """The first of its sockets."""
        return min((socket.id.split(".", 1)[0], socket.number) for socket in self.sockets)

    @property
    def output(self) -> LostOutput:
        """What happens at it."""
        mixer = self.mule.signals.trace(self.device).mixer
        receiver = self.evaluation.entity(ReceiverFacts, self.place[0])
        sockets = tuple(LostSocket(one.id, self._told(partial(_does, one))) for one in self.sockets)
        then, happens = self._told(self._then), self._told(self._happens)
        on = self._told(self._at_another_pulse) not in ("", UNKNOWN) or self.runs_on
        return LostOutput(
            self.device, self.function, sockets, mixer[0] if mixer else None, then, happens,
            "never" if on else read_with_doubt(receiver.node("fail_safe_delay")),
            self._way(at_another=bool(on and not self.runs_on)), on, _tested(receiver), tuple(sorted(self.needs)),
        )  # fmt: skip

    def _way(self, *, at_another: bool) -> str | None:
        """How far the machine goes, where it turns a wheel."""
        if not self.turns_a_wheel:
            return None
        return ENDLESS if at_another else read(self.evaluation.entity(RunawayFacts, "drive").node("runaway"))

    def _told(self, ask: Callable[[], str]) -> str:
        """The answer to a question; what is missing for it is added to the needs."""
        answer = UNKNOWN
        with self.evaluation.watch() as frame:
            answer = ask()
        self.needs |= frame.gaps
        return answer

    @property
    def turns_a_wheel(self) -> bool:
        """Whether it feeds a motor of the drive."""
        return not self.is_servo and "drive" in self.facts.served

    @property
    def function(self) -> str:
        """What it serves, with the wheels that it turns."""
        if self.is_servo:
            return self.mule.function_of(self.device) or self.device
        motors = (self.mule.file.motor[name.split(".", 1)[1]] for name in self.mule.motors_of(self.device))
        turned = [(motor.turns or "").removeprefix("wheel.") for motor in motors]
        wheels = [name for name in turned if name in self.mule.wheels]
        own = wheels == [self.device.split(".", 1)[1]]  # its name says it already
        more = f" ({listed(wheels)})" if wheels and not own else ""
        served = [f"{name}{more}" if name == "drive" else name for name in self.facts.served]
        return listed(served) if served else UNKNOWN

    @property
    def runs_on(self) -> bool | None:
        """Whether its motors go on with the last command; None where that is not known."""
        if self.goes_to_an_angle:
            return False
        node = self.facts.node("runs_on")
        return bool(number(node)) if node.known else None

    @property
    def goes_to_an_angle(self) -> bool:
        """Whether a pulse asks it for an angle, so that holding the last pulse stops it."""
        return self.is_servo or self.facts.holds_an_angle

    # --- what the controller or the servo does, and the machine

    def _then(self) -> str:
        settings = {socket.setting for socket in self.sockets}
        if self.goes_to_an_angle:
            return listed(
                sorted(_ANGLE.get(setting, f"goes to the place of {setting}") for setting in settings)
            )
        if known_number(self.facts.node("runs_on")):
            return "does not stop without pulses" if settings == {SILENT} else "goes on"
        if settings == {SILENT}:
            return "stops, because no pulses come"
        stopping = getattr(self.facts.table, "stopping", None)
        stops = {"brake": "stops and brakes", "coast": "stops and coasts"}.get(stopping or "", "stops")
        return self._at_another_pulse() or stops

    def _at_another_pulse(self) -> str:
        """Why it runs although its sockets go to presets; empty where it does not."""
        settings = {socket.setting for socket in self.sockets}
        if self.goes_to_an_angle or settings <= {SILENT, HOLD}:
            return ""
        if getattr(self.facts.table, "direction", None) == "one-way":
            return "takes neutral for half power"
        error = self.evaluation.entity(PresetControllerFacts, self.device).node("preset_error")
        dead_band = self.evaluation.entity(ControllerSignalFacts, self.device).node("dead_band")
        runs = known_number(error) > known_number(dead_band)
        return f"runs: its preset is {read(error)} off neutral" if runs else ""

    def _happens(self) -> str:
        if self.goes_to_an_angle:
            return servo_happens(self.evaluation, self.device, [socket.setting for socket in self.sockets])
        on = bool(known_number(self.facts.node("runs_on")))
        if not on and self._at_another_pulse():
            return "goes on at that pulse until it is disconnected"
        return what_happens(self.facts, on=on)


_ANGLE = {HOLD: "stays at its angle", NEUTRAL: "goes to its middle", SILENT: "goes limp, or stays"}


def _does(socket: SocketFacts) -> str:
    if not socket.presettable:
        return CANNOT
    return socket.setting


def _tested(receiver: ReceiverFacts) -> str:
    day = receiver.receiver.fail_safe.tested
    if day is None:
        return "never"
    return f"{day}, but bound or re-plugged since" if receiver.receiver.rebound_since_test else f"{day}"
