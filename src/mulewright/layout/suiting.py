"""What does it cost to put one function on one control and on one channel, and why?"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from mulewright.layout.problem import Channel, Control, Function, Problem

About = Literal["risk", "handling"]
Costs = Mapping[str, float]

WAYS = {"vertical": "up and down", "horizontal": "sideways"}


@dataclass(frozen=True)
class Line:
    """One reason: what it costs, and whether it is about harm or about handling."""

    cost: float
    why: str
    about: About

    @property
    def text(self) -> str:
        """The reason with its price, for people."""
        return f"{self.cost:+g} {self.why}" if self.cost else f"0 {self.why}"


def on_control(function: Function, control: Control, costs: Costs) -> Iterator[Line]:
    """Every reason for or against a control."""
    yield _rest(function, control, costs)
    if function.kind == "speed" and control.kind == "stick":
        yield from _sense(function, control, costs)
    if function.wants_slow:
        if control.slowed:
            yield Line(0, "the rate switch reaches it", "handling")
        else:
            yield Line(costs["rate_missed"], "the rate switch does not reach it", "handling")
    if function.outputs and not control.mixed:
        yield Line(costs["mix_set_again"], "the radio's mix has to be set to it", "handling")


def on_channel(function: Function, channel: Channel | None, problem: Problem) -> Iterator[Line]:
    """Every reason for or against a channel, or against the channels at which a mix lets it out."""
    costs = problem.costs
    outputs = (channel,) if channel is not None else function.outputs
    if function.motor and outputs:
        bare = [str(one.number) for one in outputs if one not in problem.protected]
        where = f"channel{'s' if len(bare) > 1 else ''} {' and '.join(bare)}"
        if bare:
            why = f"no fail-safe preset on {where}: it goes on when the link is lost"
            yield Line(costs["fail_safe_missed"], why, "risk")
        else:
            yield Line(0, "a fail-safe preset can be stored for it", "risk")
    if channel is not None and channel in problem.taken and function.at != channel:
        yield Line(costs["taken_channel"], f"channel {channel.number}: {problem.taken[channel]}", "risk")


def _rest(function: Function, control: Control, costs: Costs) -> Line:
    return _of_speed(control, costs) if function.kind == "speed" else _of_place(function, control, costs)


def _of_speed(control: Control, costs: Costs) -> Line:
    if control.kind == "stick":
        key, why = {
            "sprung": ("speed_sprung", "springs back to its middle"),
            "converted": ("speed_converted", "springs back, by a conversion"),
            "none": ("speed_unsprung", "has no spring: let go, it goes on running"),
        }[control.spring]
    elif control.kind == "knob":
        key, why = "speed_knob", "has no spring and no middle that a thumb finds"
    elif control.kind == "switch" and control.positions > 2:
        key, why = "speed_three_positions", "steps to full speed at once"
    else:
        key, why = "speed_two_positions", "has no off between both ways"
    return Line(costs[key], why, "risk")


def _of_place(function: Function, control: Control, costs: Costs) -> Line:
    if control.kind == "button" or (control.kind == "stick" and control.spring != "none"):
        return Line(costs["position_sprung"], "springs back: somebody has to hold it", "handling")
    if control.kind != "switch":
        return Line(costs["position_free"], "stays as it is put", "handling")
    if function.kind == "position":
        why = f"has only {control.positions} places to go to"
        return Line(costs["position_switch"], why, "handling")
    why = "is switched, and one end is its off" if function.motor else "is switched between two ends"
    return Line(costs["two_state_switch"], why, "handling")


def _sense(function: Function, control: Control, costs: Costs) -> Iterator[Line]:
    if function.axis and control.axis:
        if function.axis == control.axis:
            yield Line(0, f"goes {WAYS[control.axis]}, as {function.name} should", "handling")
        else:
            why = f"goes {WAYS[control.axis]}, and {function.name} wants {WAYS[function.axis]}"
            yield Line(costs["wrong_axis"], why, "handling")
    if function.side and control.gimbal in ("left", "right") and function.side != control.gimbal:
        yield Line(costs["wrong_axis"], f"is on the {control.gimbal} stick", "handling")
