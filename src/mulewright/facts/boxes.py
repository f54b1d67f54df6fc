"""Facts about mixer boxes: what enters them, what mixes before them, which wheels hang on them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Self

from mulewright.design.commands import SIGNS, terms
from mulewright.design.reads import kept
from mulewright.design.schema.electrics import Mixer
from mulewright.design.signals import INPUTS
from mulewright.facts.descriptors import fact
from mulewright.facts.directions import WheelMotorFacts
from mulewright.facts.graph import Evaluation, Facts
from mulewright.facts.nodes import Missing, Value
from mulewright.models.arithmetic import largest, quotient, smallest
from mulewright.models.bus import total

RADIO_OF = {"receiver": "radio", "second_receiver": "second_radio"}


class BoxFacts(Facts):
    """A mixer box and what enters it."""

    kind = "mixer box"
    none = "no mixer box is described"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return cls.each(evaluation, "mixer")

    @property
    def box(self) -> Mixer:
        """Its table."""
        assert isinstance(self.table, Mixer)
        return self.table

    @property
    def sides(self) -> list[str]:
        """Names of the inputs that it mixes.

        Raises
        ------
        Missing
            If it is not said what it mixes, or where an input is plugged.
        """
        sides = list(SIGNS[self.choice("mixes")][0])
        unknown = [f"{self.id}.{side}" for side in sides if side not in self.plugged]
        if unknown:
            raise Missing(*unknown)
        return sides

    @property
    def plugged(self) -> list[str]:
        """Names of the inputs of which it is said where they are plugged."""
        return [side for side in INPUTS if getattr(self.box, side) is not None]

    @property
    def wheels(self) -> list[WheelMotorFacts]:
        """Wheel motors whose signal comes from it."""
        mule = self.mule
        return [
            motor
            for motor in WheelMotorFacts.all(self.evaluation)
            if (mule.signals.trace(mule.controller_of.get(motor.id, "")).mixer or ("",))[0] == self.id
        ]

    @property
    def radio_mix(self) -> tuple[str, list[str]] | None:
        """A radio's mix whose channels feed two or more of its inputs, with those inputs.

        Raises
        ------
        Missing
            If it is not said of a mix which channels it drives, what it is, or whether it is switched on.
        """
        ports = {side: self.mule.signals.trace(f"{self.id}.{side}").port for side in self.sides}
        for receiver, name in RADIO_OF.items():
            radio = getattr(self.mule.file, name)
            for place, mix in enumerate(radio.mix if radio is not None else ()):
                if mix.kind == "slave" or mix.active is False:
                    continue
                here = self.of(BoxFacts, f"{name}.mix.{place}")
                driven = [(receiver, number) for number in here.choice("channels")]
                fed = [side for side, port in ports.items() if port in driven]
                if len(fed) > 1 and here.choice("kind") and here.choice("active"):
                    return here.id, fed
        return None

    @property
    def twice(self) -> str:
        """In words, what mixes before it."""
        mix = self.radio_mix
        return (
            f"{mix[0]} acts on its {' and '.join(mix[1])} inputs"
            if mix
            else "no radio mix acts on its inputs"
        )

    @fact("1", "1 where a radio mix acts on the channels that feed it")
    def mixed_twice(self) -> Value:
        return self.found(self.radio_mix is not None, self.twice)

    @kept
    def entering(self) -> dict[str, list[str]]:
        """The functions whose controls enter each input."""
        found = {}
        for side in self.sides:
            entering = terms(self.mule, self.mule.signals.trace(f"{self.id}.{side}"))
            commands = [self.mule.commands_of.get(term.control, []) for term in entering]
            found[side] = [function for functions in commands for function in functions]
        return found

    @property
    def inputs(self) -> str:
        """In words, what enters each input."""
        entering = {
            side: ", ".join(dict.fromkeys(found)) or "nothing" for side, found in self.entering.items()
        }
        return "; ".join(f"{side} input: {found}" for side, found in entering.items())

    @fact("1", "1 where each input gets the control that commands it")
    def in_order(self) -> Value:
        return self.found(all(side in found for side, found in self.entering.items()), self.inputs)

    @fact(
        "1",
        "1 where its inputs are in order, or another exchange makes up for it on every wheel",
    )
    def follows_controls(self) -> Value:
        if not self.wheels:
            return self.in_order
        return self.by(largest, values=[self.in_order, self.all_wheels_follow])

    @fact("1", "1 where each of its wheels, as described, follows every command the right way")
    def all_wheels_follow(self) -> Value:
        if not self.wheels:
            return self.found(0, "no wheel hangs on it")
        return self.by(smallest, values=[motor.all_in_all for motor in self.wheels])


class DriveBoxFacts(Facts):
    """A mixer box on which wheels hang."""

    kind = "mixer box of a drive"
    none = "no wheel gets its signal from a mixer box"

    @classmethod
    def all(cls, evaluation: Evaluation) -> Sequence[Self]:
        return [evaluation.entity(cls, box.id) for box in BoxFacts.all(evaluation) if box.wheels]

    @property
    def wheels(self) -> list[WheelMotorFacts]:
        """Wheel motors whose signal comes from it."""
        return self.of(BoxFacts, self.id).wheels

    @fact("1", "wheels that hang on it")
    def wheel_count(self) -> Value:
        return self.found(len(self.wheels), f"{len(self.wheels)} motors of wheels get their signal from it")

    @fact("1", "wheels of it that turn the wrong way round")
    def reversed_wheels(self) -> Value:
        turned = [motor.wheel for motor in WheelMotorFacts.all(self.evaluation)]
        idle = [f"a motor that turns wheel.{wheel}" for wheel in self.mule.wheels if wheel not in turned]
        if idle:
            raise Missing(*idle)
        for motor in WheelMotorFacts.all(self.evaluation):
            motor.require_signal()
        return self.by(total, values=[motor.reversed for motor in self.wheels])

    @fact("1", "share of its wheels that turn the wrong way round")
    def reversed_share(self) -> Value:
        return self.by(quotient, part=self.reversed_wheels, whole=self.wheel_count)
