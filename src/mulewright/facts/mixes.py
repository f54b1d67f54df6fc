"""Facts about mixes, in the radio or in a box: what each control asks, and what is left of a turn."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.schema.electrics import Mixer
from mulewright.design.schema.radio import Mix
from mulewright.facts.boxes import BoxFacts
from mulewright.facts.controls import ControlFacts, RateFacts
from mulewright.facts.descriptors import fact
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.facts.outputs import MixerBoxFacts, OutputFacts, ShareFacts, TermFacts
from mulewright.models.arithmetic import largest, magnitude, quotient, smallest
from mulewright.models.bus import total
from mulewright.models.duty import signal_fraction
from mulewright.models.mixing import largest_command, turn_reserve
from mulewright.models.senses import chain_product, share_let_through

RADIO_INPUTS = ("forward", "turn")


class InputPartFacts(Facts):
    """One control's part in an input of a box: ``mixer.drive.forward@radio.control.RV@0``."""

    kind = "part of a box's input"
    none = "no mixer box is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        parts = [part.id for one in BoxInputFacts.all(evaluation) for part in one.parts]
        return [evaluation.entity(cls, id) for id in parts]

    @fact("s", "size of the pulse from neutral that the control makes at the input")
    def size(self) -> Value:
        return self.by(magnitude, value=self.of(TermFacts, self.id).upward)


class BoxInputFacts(Facts):
    """One input of a box: ``mixer.drive.forward``."""

    kind = "input of a box"
    none = "no mixer box is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        boxes = BoxFacts.all(evaluation)
        return [evaluation.entity(cls, f"{box.id}.{side}") for box in boxes for side in box.plugged]

    @property
    def parts(self) -> list[InputPartFacts]:
        """The controls' parts in its pulse."""
        return [self.of(InputPartFacts, part.id) for part in self.of(OutputFacts, self.id).parts]

    @property
    def controls(self) -> list[str]:
        """The controls that enter it."""
        return [part.term.control for part in self.of(OutputFacts, self.id).parts]

    @fact("s", "size of its pulse from neutral with everything that enters it at full deflection")
    def pulse(self) -> Value:
        if not self.parts:
            raise Missing(self.id)
        return self.by(total, values=[part.size for part in self.parts])

    @fact("1", "the same as a share of all that an output can give")
    def signal_share(self) -> Value:
        half_range = self.of(MixerBoxFacts, self.id.rsplit(".", 1)[0]).half_range
        return self.by(signal_fraction, deviation=self.pulse, controller_half_range=half_range)


class MixInputFacts(Facts):
    """One input of a mix: ``radio.mix.0.forward`` or ``mixer.drive.strafe``."""

    kind = "input of a mix"
    none = "nothing mixes"

    def __init__(self, evaluation: Evaluation, id: str) -> None:
        super().__init__(evaluation, id)
        mix, self.side = id.rsplit(".", 1)
        self.mix = self.of(MixFacts, mix)

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        inputs = [one.id for mix in MixFacts.all(evaluation) for one in mix.known_inputs]
        return [evaluation.entity(cls, id) for id in inputs]

    @fact("1", "size of the share that the mix gives it")
    def weight(self) -> Value:
        shares = self.of(ShareFacts, self.mix.id)
        return self.by(magnitude, value=getattr(shares, f"{self.side}_weight"))

    @fact(
        "1",
        "its command at full deflection, as a share of all that an output can give, before the mix's weight",
    )
    def command(self) -> Value:
        if not self.mix.is_box:
            return self.of(ControlFacts, self.mix.control_of(self.side)).rate
        return self.of(BoxInputFacts, self.id).signal_share

    @fact("1", "what it asks of an output at full deflection, as a share of all that the output can give")
    def asked(self) -> Value:
        return self.by(chain_product, factors=[self.weight, self.command])


class MixFacts(Facts):
    """A mix of two or more controls, in the radio or in a box."""

    kind = "mix"
    none = "nothing mixes"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        found = [f"mixer.{name}" for name in evaluation.mule.file.mixer]
        for name in ("radio", "second_radio"):
            radio = getattr(evaluation.mule.file, name)
            mixes: list[Mix] = radio.mix if radio is not None else []
            found += [
                f"{name}.mix.{place}"
                for place, mix in enumerate(mixes)
                if mix.kind != "slave" and mix.active is not False
            ]
        return [evaluation.entity(cls, id) for id in found]

    @property
    def is_box(self) -> bool:
        """Whether it is made in a box."""
        return isinstance(self.table, Mixer)

    @property
    def two_sides(self) -> bool:
        """Whether it forms sum and difference of forward and turn."""
        return bool(self.choice("mixes" if self.is_box else "kind") == "two-sides")

    @property
    def known_inputs(self) -> list[MixInputFacts]:
        """Its inputs, as far as it is said where they are plugged."""
        sides = self.of(BoxFacts, self.id).plugged if self.is_box else RADIO_INPUTS
        return [self.of(MixInputFacts, f"{self.id}.{side}") for side in sides]

    @property
    def inputs(self) -> list[MixInputFacts]:
        """Its inputs.

        Raises
        ------
        Missing
            If it is not said where one of them is plugged.
        """
        sides = self.of(BoxFacts, self.id).sides if self.is_box else RADIO_INPUTS
        return [self.of(MixInputFacts, f"{self.id}.{side}") for side in sides]

    def control_of(self, side: str) -> str:
        """The control that a radio's mix takes for one of its inputs."""
        controls: Sequence[str] = self.choice("inputs")
        place = RADIO_INPUTS.index(side)
        if place >= len(controls):
            raise Missing(f"{self.id}.inputs.{place}")
        return f"{self.id.split('.', 1)[0]}.control.{controls[place]}"

    @property
    def controls(self) -> list[ControlFacts]:
        """The controls that enter it."""
        if self.is_box:
            names = [name for one in self.inputs for name in self.of(BoxInputFacts, one.id).controls]
        else:
            names = [self.control_of(side) for side in RADIO_INPUTS] if self.two_sides else []
        if not names:
            raise Missing(f"a control that enters {self.id}")
        return [self.of(ControlFacts, name) for name in dict.fromkeys(names)]

    # --- all controls at their ends -------------------------------------------------------------------------

    @fact("1", "what all controls at their ends ask of an output; above 1 it is cut off")
    def asked(self) -> Value:
        return self.by(largest_command, weights=[one.asked for one in self.inputs])

    @fact(
        "1",
        "share of the command that is left at the worst corner: of the turn at full forward, or of a wheel's",
    )
    def left(self) -> Value:
        if self.is_box and self.of(BoxFacts, self.id).radio_mix is not None:
            return self.found(1, "it is mixed twice, so each control moves one side alone and loses nothing")
        if not self.two_sides:
            return self.by(share_let_through, command=self.asked)
        forward, turn = self.inputs
        return self.by(turn_reserve, forward_weight=forward.asked, turn_weight=turn.asked)

    # --- the slow position of the rate switch ---------------------------------------------------------------

    @property
    def slowed(self) -> list[bool]:
        """Whether the rate switch reaches each control."""
        found = []
        for control in self.controls:
            rates = self.of(RateFacts, f"{control.radio.id}.rate")
            if rates.covered is None:
                raise Missing(f"{rates.id}.covers")
            found.append(control.name in rates.covered)
        return found

    @property
    def reached(self) -> str:
        """In words, which of its controls the rate switch reaches."""
        reached = [control.name for control, slowed in zip(self.controls, self.slowed, strict=True) if slowed]
        everyone = [control.name for control in self.controls]
        return f"{' and '.join(reached) or 'none'} of {', '.join(everyone)}"

    def _slow_rates(self) -> list[Value]:
        return [
            self.of(RateFacts, f"{control.radio.id}.rate").slow if slowed else control.rate
            for control, slowed in zip(self.controls, self.slowed, strict=True)
        ]

    @fact("1", "largest rate among its controls in the slow position")
    def fastest(self) -> Value:
        return self.by(largest, values=self._slow_rates())

    @fact("1", "smallest rate among its controls in the slow position")
    def slowest(self) -> Value:
        return self.by(smallest, values=self._slow_rates())

    @fact("1", "how much faster its fastest control is than its slowest in the slow position")
    def slow_ratio(self) -> Value:
        if len(set(self.slowed)) < 2:
            return self.found(1, f"the rate switch reaches {self.reached}: all alike")
        return self.by(quotient, part=self.fastest, whole=self.slowest)
