"""Facts about presets: which pulse does a socket go to when the link is lost, and what does that do?"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.functions import Flywheel, Gripper
from mulewright.design.schema.lost_link import HOLD, NEUTRAL, SILENT
from mulewright.design.signals import RECEIVERS
from mulewright.design.unsaid import FEEDS, SERVO_SIGNALS
from mulewright.facts.controls import RadioFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.fail_safe import LostLinkFacts, SocketFacts, sources
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import ControllerSignalFacts
from mulewright.models.arithmetic import difference, magnitude
from mulewright.models.bus import total
from mulewright.units.quantity import read_quantity


class MeasuredPresetFacts(Facts):
    """The preset of a channel as somebody measured it: ``radio.channel.3``."""

    kind = "measured preset"
    none = "no channel is described"

    failsafe_pulse = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        presets = (PresetFacts(evaluation, socket.id) for socket in SocketFacts.all(evaluation))
        return [evaluation.entity(cls, preset.channel) for preset in presets if preset.measured]


class PresetFacts(Facts):
    """The pulse that a socket goes to when the link is lost: ``receiver.3``."""

    kind = "preset"
    none = SocketFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, socket.id) for socket in SocketFacts.all(evaluation)]

    @property
    def socket(self) -> SocketFacts:
        """The socket."""
        return self.of(SocketFacts, self.id)

    @property
    def radio(self) -> RadioFacts:
        """The transmitter that its receiver listens to."""
        return self.of(RadioFacts, "second_radio" if self.id.startswith("second_") else "radio")

    @property
    def channel(self) -> str:
        """The settings of its channel."""
        return f"{self.radio.id}.channel.{self.socket.number}"

    @property
    def measured(self) -> bool:
        """Whether somebody measured it."""
        radio = getattr(self.mule.file, self.radio.id)
        channel = radio.channel.get(str(self.socket.number)) if radio is not None else None
        return channel is not None and channel.failsafe_pulse is not None

    @fact("s", "pulse that it goes to when the link is lost")
    def preset(self) -> Value:
        setting = self.socket.setting
        if setting in (HOLD, SILENT):
            raise Missing(f"a preset of {self.id}")
        if self.measured:
            return self.of(MeasuredPresetFacts, self.channel).failsafe_pulse
        if setting == NEUTRAL:
            return self.radio.neutral
        return self.found(read_quantity(setting, "pulse").value, f"its fail-safe is noted as {setting}")

    @fact("s", "preset from neutral, below 0 for a shorter pulse")
    def preset_shift(self) -> Value:
        return self.by(difference, first=self.preset, second=self.radio.neutral)

    @fact("s", "size of that shift")
    def preset_offset(self) -> Value:
        return self.by(magnitude, value=self.preset_shift)


class PresetControllerFacts(Facts):
    """A controller whose sockets go to presets when the link is lost."""

    kind = "controller on a receiver"
    none = LostLinkFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, lost.id) for lost in LostLinkFacts.all(evaluation)]

    @property
    def dead_band(self) -> Value:
        """Pulse either side of neutral that does nothing."""
        return self.of(ControllerSignalFacts, self.id).dead_band

    @fact("s", "how far the presets that move it are from neutral, added up")
    def preset_error(self) -> Value:
        sockets = self.of(LostLinkFacts, self.id).sockets
        preset = [socket for socket in sockets if socket.setting not in (HOLD, SILENT)]
        if not preset:
            return self.found(0, "no socket that moves it goes to a preset")
        return self.by(total, values=[self.of(PresetFacts, socket.id).preset_offset for socket in preset])


class FlywheelLinkFacts(Facts):
    """A controller that feeds a flywheel through a receiver."""

    kind = "flywheel on a receiver"
    none = "no flywheel hangs on a receiver"
    rests_on = (FEEDS,)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        mechanisms = evaluation.mule.file.mechanism
        return [
            evaluation.entity(cls, lost.id)
            for lost in LostLinkFacts.all(evaluation)
            if any(isinstance(mechanisms.get(name), Flywheel) for name in lost.served)
        ]

    @classmethod
    def open_ends(cls, evaluation: Evaluation) -> Sequence[str]:
        mechanisms = evaluation.mule.file.mechanism.values()
        turns = any(isinstance(one, Flywheel) for one in mechanisms)
        return super().open_ends(evaluation) if turns else ()

    @property
    def lost(self) -> LostLinkFacts:
        """What it does when the link is lost."""
        return self.of(LostLinkFacts, self.id)

    @fact("1", "1 where the flywheel is let go when the link is lost")
    def stops(self) -> Value:
        if self.choice("direction") == "one-way":
            return self.found(0, "it is a one-way controller, and neutral is half power to it")
        return self.lost.lets_go


class ServoLinkFacts(Facts):
    """A servo that is steered through a receiver."""

    kind = "servo on a receiver"
    none = "no servo hangs on a receiver"
    rests_on = (SERVO_SIGNALS,)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        names = evaluation.mule.file.servo
        found = [evaluation.entity(cls, f"servo.{name}") for name in names]
        return [one for one in found if one.sockets]

    @property
    def sockets(self) -> list[SocketFacts]:
        """The sockets that move it."""
        known = [name for name in sources(self.mule, self.id) if name.split(".", 1)[0] in RECEIVERS]
        return [self.of(SocketFacts, name) for name in known]

    @property
    def reaction(self) -> str:
        """What its sockets do when the link is lost, for people."""
        return ", ".join(f"{socket.id}: {socket.setting}" for socket in self.sockets)

    @fact("1", "1 where it leaves its place when the link is lost, and that may do harm")
    def lets_drop(self) -> Value:
        target = self.mule.things.get(getattr(self.table, "moves", None) or "")
        if isinstance(target, Gripper) and target.release_harmless:
            return self.found(0, "letting go of what it holds does no harm")
        return self.found(float(any(socket.setting != HOLD for socket in self.sockets)), self.reaction)
