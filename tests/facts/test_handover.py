"""Facts that join a mule and its target, and how slow what they move is by itself."""

from __future__ import annotations

import pytest

from mulewright.facts.catalog import find
from mulewright.models.gear import reflected_inertia
from mulewright.models.motor_step import mechanical_time_constant
from tests.designs import DESIGNS, evaluation
from tests.published import as_printed

BENCHES, TARGET = "two-benches", "two-benches/target.toml"


@pytest.mark.parametrize(
    ("design", "fact", "seconds"),
    [
        # m r r R / (n kt ke G G eta), from the sheets by hand
        (BENCHES, "drive.time_constant", "0.30"),
        (BENCHES, "mechanism.lift.time_constant", "0.0267"),
        ("long-reach-pruner", "mechanism.arm.time_constant", "0.064"),
        ("log-winch", "mechanism.winch.time_constant", "0.0067"),
    ],
)
def test_time_constants_by_hand(design: str, fact: str, seconds: str) -> None:
    assert find(evaluation(design), fact).value == as_printed(seconds)


def test_time_constant_agrees_with_the_motor_seen_from_its_shaft() -> None:
    on = evaluation("long-reach-pruner")
    inertia, ratio, efficiency = (
        find(on, f"{name}").value
        for name in ("mechanism.arm.swinging", "motor.arm.ratio", "mechanism.arm.passes")
    )
    constants = (find(on, f"motor.arm.{name}").value for name in ("torque_constant", "back_emf_constant"))
    seen = reflected_inertia(inertia, 1 / ratio) / efficiency
    shaft = mechanical_time_constant(seen, find(on, "motor.arm.resistance").value, *constants)
    assert find(on, "mechanism.arm.time_constant").value == pytest.approx(float(shaft))


def test_a_noted_inertia_counts_before_the_lumps() -> None:
    on = evaluation("long-reach-pruner", ("mechanism.arm.inertia=1 kg m2",))
    assert find(on, "mechanism.arm.swinging").value == 1


def test_other_gears_and_another_mass_are_factors() -> None:
    gears = (f"target:motor.{end}_*.gears.0.driven_teeth=62" for end in ("front", "rear"))
    sets = (*gears, "target:body.mass=18 kg")
    on = evaluation(BENCHES, sets, target=TARGET)
    plain = evaluation(BENCHES, target=TARGET)
    assert find(on, "motor.front_left.ratio_factor").value == pytest.approx(2)
    assert find(on, "handover.mass_factor").value == pytest.approx(2)
    before, after = (find(one, "target:drive.time_constant").value for one in (plain, on))
    assert after / before == pytest.approx(2 / 2**2)  # mass over the square of the gears
    speeds = [find(one, "drive.speed_to_come").value for one in (plain, on)]
    assert speeds[0] / speeds[1] == pytest.approx(2)


@pytest.mark.parametrize("design", DESIGNS)
def test_a_mule_beside_itself_has_no_factors(design: str) -> None:
    on = evaluation(design, target=f"{design}/mule.toml")
    for name in on.mule.file.controller:
        node = find(on, f"controller.{name}.speed_factor")
        assert not node.known or node.value == pytest.approx(1)


def test_what_is_read_of_the_target_is_told_from_what_is_read_of_the_mule() -> None:
    on = evaluation(BENCHES, target=TARGET)
    node = find(on, "controller.lift.duty_factor")
    paths = {read.id for read in node.inputs()}
    assert {"controller.lift.dead_band", "target:controller.lift.dead_band"} <= paths
    assert find(on, "target:controller.lift.full_duty").value == 1


def test_values_go_to_the_machine_that_they_name() -> None:
    plain = evaluation(BENCHES, values={"body.mass": 10.0}, target=TARGET)
    there = evaluation(BENCHES, values={"target:body.mass": 10.0}, target=TARGET)
    for on, masses in ((plain, (10, 9)), (there, (9, 10))):
        assert tuple(float(find(on, f"{mark}body.mass").value) for mark in ("", "target:")) == masses


def test_an_assumption_is_one_for_both() -> None:
    values = {"assumed.neutral_pulse": 1.6e-3}
    on = evaluation("tray-cart", values=values, target="tray-cart/mule.toml")
    assert on.target is not None
    assert on.assumption("neutral_pulse") is on.target.assumption("neutral_pulse")
    assert on.target.assumption("neutral_pulse").value == 1.6e-3


def test_evaluated_again_it_keeps_its_target() -> None:
    on = evaluation(BENCHES, target=TARGET).again({"target:body.mass": [9.0, 18.0]})
    assert find(on, "handover.mass_factor").value == pytest.approx([1, 2])
