"""Facts about where a drive could be mixed: in the radio, in a box, or nowhere before its controllers."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.machine import COMMANDS
from mulewright.facts.channels import NeededFacts, SupplyOfChannelsFacts
from mulewright.facts.controls import ChannelFacts, ControlFacts, RadioFacts
from mulewright.facts.descriptors import fact, given
from mulewright.facts.directions import WheelMotorFacts
from mulewright.facts.driving import DrivingFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.motors import MotorFacts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import MixerBoxFacts
from mulewright.facts.standing import ROLLERS
from mulewright.models.arithmetic import difference, quotient, stick_reach
from mulewright.models.bus import total
from mulewright.models.duty import duty_jump, duty_rescaled, signal_fraction
from mulewright.models.mixing import clipped, largest_command, turn_reserve
from mulewright.models.senses import share_let_through

IN_RADIO, IN_BOX, IN_NONE = "radio", "box", "controllers"
PLACES = (IN_RADIO, IN_BOX, IN_NONE)
ROLLER_MIXES = 3  # strafe with turn, and forward with both that come of it


class InputChoiceFacts(Facts):
    """One command of the drive on its way to a mix: ``mixing.forward``."""

    kind = "command to be mixed"
    none = DrivingFacts.none

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = MixingChoiceFacts.all(evaluation)
        commands = evaluation.mule.drive_commands if found else ()
        return [evaluation.entity(cls, f"mixing.{command}") for command in commands]

    @property
    def control(self) -> ControlFacts:
        """The control that commands it.

        Raises
        ------
        Missing
            If none does.
        """
        command = self.id.split(".", 1)[1]
        controls = self.mule.controls_for(command)
        if not controls:
            raise Missing(f"a control that commands {command}")
        return self.of(ControlFacts, controls[0])

    @property
    def radio(self) -> RadioFacts:
        """Its radio."""
        return self.control.radio

    @property
    def channel(self) -> ChannelFacts:
        """The channel that it moves without a mix."""
        number = self.control.choice("channel")
        return self.of(ChannelFacts, f"{self.radio.id}.channel.{number}")

    @fact("s", "pulse from neutral at full deflection, all of it let through")
    def input_pulse(self) -> Value:
        return self.by(
            stick_reach, sign=1.0, half_range=self.radio.half_range, travel=self.channel.upward,
            rate=self.control.rate, weights=[],
        )  # fmt: skip

    @fact("1", "the same as a share of all that an output of a box can give")
    def box_share(self) -> Value:
        boxes = MixerBoxFacts.all(self.evaluation)
        half_range = boxes[0].half_range if boxes else self.assumed("full_half_range")
        return self.by(signal_fraction, deviation=self.input_pulse, controller_half_range=half_range)


class MixingChoiceFacts(Facts):
    """A drive mixed in one place: ``mixing@radio``, ``mixing@box`` or ``mixing@controllers``."""

    kind = "place where a drive could be mixed"
    none = DrivingFacts.none

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        self.where = id.split("@", 1)[1]

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        drive = evaluation.mule.file.drive
        places = PLACES if drive is not None and drive.kind is not None else ()
        return [evaluation.entity(cls, f"mixing@{place}") for place in places]

    @property
    def drive_kind(self) -> str:
        """How its wheels are arranged."""
        drive = self.mule.file.drive
        assert drive is not None
        assert drive.kind is not None
        return drive.kind

    @property
    def rollers(self) -> bool:
        """Whether four wheels follow four sums."""
        return self.drive_kind == ROLLERS

    @property
    def inputs(self) -> list[InputChoiceFacts]:
        """Its commands on their way to the mix, forward first."""
        return [self.of(InputChoiceFacts, f"mixing.{command}") for command in self.mule.drive_commands]

    @fact("1", "channels that the drive takes")
    def drive_channels(self) -> Value:
        if self.where == IN_BOX:
            commands = COMMANDS[self.drive_kind] if self.drive_kind == ROLLERS else ("forward", "turn")
            return self.found(len(commands), f"{', '.join(commands)} into the box")
        if self.rollers:
            return self.found(4, "one for each wheel")
        return self.found(2, "one for each side")

    @fact("1", "channels that everything else takes")
    def other_channels(self) -> Value:
        others = [one for one in NeededFacts.all(self.evaluation) if one.id != "drive"]
        if not others:
            return self.found(0, "nothing else is commanded")
        return self.by(total, values=[one.channels for one in others])

    @fact("1", "channels that transmitter and receiver have in common")
    def usable_channels(self) -> Value:
        supply = SupplyOfChannelsFacts.all(self.evaluation)
        if not supply:
            raise Missing("radio")
        return supply[0].channels

    @fact("1", "channels that the drive leaves to the others")
    def left_by_drive(self) -> Value:
        return self.by(difference, first=self.usable_channels, second=self.drive_channels)

    @fact("1", "channels that stay free; below 0 some are lacking")
    def free_channels(self) -> Value:
        return self.by(difference, first=self.left_by_drive, second=self.other_channels)

    @fact("1", "two-channel mixes of the radio that the drive takes")
    def radio_mixes(self) -> Value:
        if self.where != IN_RADIO:
            return self.found(0, f"mixed in the {self.where}: the radio mixes nothing for it")
        if self.rollers:
            return self.found(ROLLER_MIXES, "strafe with turn, and forward with both that come of it")
        return self.found(1, "forward with turn")

    @fact("1", "the same over the mixes that the radio has")
    def mix_share(self) -> Value:
        return self.by(quotient, part=self.radio_mixes, whole=self.of(RadioMixCountFacts, "radio").mixes)

    @fact("s", "pulse from neutral at full forward alone")
    def forward_pulse(self) -> Value:
        pulse = self.inputs[0].input_pulse
        boxes = MixerBoxFacts.all(self.evaluation)
        if self.where != IN_BOX:
            return pulse
        return self.by(
            clipped, command=pulse, limit=boxes[0].half_range if boxes else self.assumed("full_half_range")
        )

    @fact("1", "share of the supply at full forward alone, all of it let through")
    def forward_duty(self) -> Value:
        motors = WheelMotorFacts.all(self.evaluation)
        if not motors:
            raise Missing("a motor that turns a wheel")
        signal = self.of(MotorFacts, motors[0].id).controller
        model = duty_jump if signal.choice("response") == "jump" else duty_rescaled
        return self.by(
            model, deviation=self.forward_pulse, controller_half_range=signal.full_pulse,
            dead_band=signal.dead_band,
        )  # fmt: skip

    def _asked(self) -> list[Value]:
        if self.where == IN_BOX:
            return [one.box_share for one in self.inputs]
        return [one.control.rate for one in self.inputs]

    @fact("1", "largest command of a wheel with every control at its end; above 1 it is cut off")
    def corner(self) -> Value:
        if self.where == IN_NONE:
            return self.found(1, "each side follows one stick alone")
        return self.by(largest_command, weights=self._asked())

    @fact("1", "share of the turn that is left at full forward; for roller wheels of a wheel's command")
    def turn_left(self) -> Value:
        if self.where == IN_NONE:
            return self.found(1, "each side follows one stick alone: nothing is cut off")
        if self.rollers:
            return self.by(share_let_through, command=self.corner)
        forward, turn = self._asked()[:2]
        return self.by(turn_reserve, forward_weight=forward, turn_weight=turn)


class RadioMixCountFacts(Facts):
    """How many mixes a radio has."""

    kind = "mixes of a radio"
    none = RadioFacts.none

    mixes = given()

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, radio.id) for radio in RadioFacts.all(evaluation)]
