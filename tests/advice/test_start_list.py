"""No control that moves anything is missing from the places at switch-on."""

from __future__ import annotations

from mulewright.advice.start_list import StartPlace, start_list
from tests.designs import evaluation


def places(design: str, *sets: str) -> dict[str, StartPlace]:
    return {one.name: one for one in start_list(evaluation(design, sets))}


def test_a_control_that_commands_nothing_but_moves_a_plug_is_listed() -> None:
    found = places("leaf-sweeper")  # the roller's plug sits in socket 7, which a knob moves
    assert found["KN2"].place == "middle"
    assert found["KN2"].because == "roller is still"
    assert list(found) == ["RV", "RH", "SW2", "KN2"]


def test_a_control_with_nothing_in_its_socket_is_not() -> None:
    assert "KN2" not in places("leaf-sweeper", "controller.roller.signal=receiver.6")


def test_a_note_comes_first() -> None:
    assert places("leaf-sweeper", "radio.control.KN2.start=up")["KN2"].noted
