"""Whole machines of invented parts, worked by hand: each number follows from a sheet and a tape measure."""

from dataclasses import dataclass

import numpy as np
import pytest
from numpy.typing import NDArray

from mulewright.models.body import axle_load, combined_centre, static_margin, tip_ratio, tipping_acceleration
from mulewright.models.constants import GRAVITY
from mulewright.models.gear import back_driving_efficiency, gearmotor_efficiency, train_efficiency
from mulewright.models.grip import jaw_force, needed_grip_force
from mulewright.models.heat import stall_heating_time, winding_heat_capacity
from mulewright.models.hold import friction_volts, gravity_volts, hold_duty_lower, hold_duty_upper, sink_speed
from mulewright.models.inertia import disc_inertia, flywheel_energy
from mulewright.models.joint import gravity_torque, needed_torque, safety_factor
from mulewright.models.motor import (
    current_for_torque,
    scaled_stall_torque,
    speed_under_load,
    stall_current,
    stall_torque_at,
)
from mulewright.models.motor_sheet import (
    back_emf_constant,
    sheet_power_ratio,
    torque_constant,
    winding_resistance,
)
from mulewright.models.motor_step import mechanical_time_constant
from mulewright.models.moving import falling_energy, traction_acceleration
from mulewright.models.rope import (
    drum_torque,
    layer_radius,
    lift_rope_force,
    lift_speed,
    rope_energy,
    rope_pull,
)
from tests.published import as_printed

RPM = np.pi / 30  # [rad/s]
MM = 1e-3  # [m]
VOLTS = 12.0
DUTY = 0.789  # a radio of +-400 us on a controller of 500 us with a dead band of 25 us


@dataclass(frozen=True)
class Motor:
    """The sheet of an invented motor."""

    rpm: float
    stall_torque: float
    stall_current: float
    free_current: float
    copper: float = 0.015

    @property
    def resistance(self) -> NDArray[np.float64]:
        return winding_resistance(VOLTS, self.stall_current)

    @property
    def kt(self) -> NDArray[np.float64]:
        return torque_constant(self.stall_torque, self.stall_current, self.free_current)

    @property
    def ke(self) -> NDArray[np.float64]:
        return back_emf_constant(VOLTS, self.free_current, self.resistance, self.rpm * RPM)

    @property
    def forwards(self) -> NDArray[np.float64]:
        return gearmotor_efficiency(self.kt, self.ke)

    def backwards(self, *others: float) -> NDArray[np.float64]:
        """Back-driving efficiency with the stages that follow."""
        return train_efficiency(
            [back_driving_efficiency(stage) for stage in [self.forwards, *map(np.asarray, others)]]
        )

    def heating_time(self, volts: float) -> NDArray[np.float64]:
        """[s] of a stall at the usual duty to +80 K."""
        current = stall_current(DUTY, volts, self.resistance)
        return stall_heating_time(80, winding_heat_capacity(self.copper), current, self.resistance)


SLOW = Motor(30, 12, 5.5, 0.3, copper=0.020)
DRIVE = Motor(200, 2.4, 7.5, 0.4)
FAST = Motor(1000, 0.50, 7.5, 0.4)
HEAVY = Motor(150, 9, 20, 0.9, copper=0.060)
RAW = Motor(5200, 0.11, 7, 0.35)


@pytest.mark.parametrize(
    ("motor", "ohm", "kt", "ke"),
    [
        (SLOW, "2.18", "2.31", "3.61"),
        (DRIVE, "1.60", "0.338", "0.542"),
        (FAST, "1.60", "0.0704", "0.1085"),
        (HEAVY, "0.60", "0.471", "0.730"),
        (RAW, "1.71", "0.0165", "0.0209"),
    ],
)
def test_constants_of_the_shelf(motor: Motor, ohm: str, kt: str, ke: str) -> None:
    assert motor.resistance == as_printed(ohm)
    assert motor.kt == as_printed(kt)
    assert motor.ke == as_printed(ke)


@pytest.mark.parametrize(
    ("motor", "forwards", "backwards"), [(SLOW, 0.64, 0.44), (DRIVE, 0.62, 0.40), (HEAVY, 0.65, 0.45)]
)
def test_gearboxes_of_the_shelf(motor: Motor, forwards: float, backwards: float) -> None:
    assert motor.forwards == pytest.approx(forwards, abs=0.006)
    assert motor.backwards() == pytest.approx(backwards, abs=0.006)


def test_a_bare_motor_with_the_losses_of_a_gearbox_looks_odd() -> None:
    assert RAW.forwards == as_printed("0.79")
    ratio = sheet_power_ratio(RAW.stall_torque, RAW.rpm * RPM, VOLTS, RAW.stall_current)
    assert 0.15 < ratio < 0.95


class TestCarrier:
    """Four roller wheels, a mast lift with 0.8 + 3.0 kg on a drum of 15 mm behind 80 % efficiency."""

    rope = lift_rope_force([0.8 + 3.0], [1], 1)
    drum = drum_torque(rope, 15 * MM)
    asked = needed_torque(drum, 1, 0.8)
    current = current_for_torque(asked, DRIVE.kt, DRIVE.free_current)

    def test_load_of_the_motor(self) -> None:
        assert self.rope == as_printed("37.3")
        assert self.drum == as_printed("0.559")
        assert self.asked == as_printed("0.699")
        assert self.asked / DRIVE.stall_torque == as_printed("0.29")
        assert self.current == as_printed("2.47")

    def test_losses_may_sit_in_the_rope_or_behind_the_drum(self) -> None:
        assert drum_torque(lift_rope_force([3.8], [1], 0.8), 15 * MM) == pytest.approx(self.asked)

    def test_reserve(self) -> None:
        by_scaling = scaled_stall_torque(DUTY, VOLTS, VOLTS, DRIVE.stall_torque)
        exactly = stall_torque_at(DUTY, VOLTS, DRIVE.resistance, DRIVE.kt, DRIVE.free_current)
        assert safety_factor(by_scaling, self.asked) == as_printed("2.7")
        assert safety_factor(exactly, self.asked) == as_printed("2.7")

    def test_speed(self) -> None:
        turning = speed_under_load(DUTY, VOLTS, self.current, DRIVE.resistance, DRIVE.ke)
        speed = lift_speed(1, turning, 15 * MM)
        assert speed == as_printed("0.153")
        assert 0.8 / speed == as_printed("5.2")

    def test_hold_band_and_sinking(self) -> None:
        back = DRIVE.backwards(0.8)
        upper = hold_duty_upper(self.drum, DRIVE.resistance, 1, 0.8, DRIVE.kt, VOLTS)
        lower = hold_duty_lower(self.drum, back, DRIVE.resistance, 1, DRIVE.ke, VOLTS)
        assert upper * 100 == as_printed("28")
        assert lower * 100 == as_printed("4")
        sinking = lift_speed(1, sink_speed(self.drum, back, DRIVE.resistance, 1, DRIVE.ke), 15 * MM)
        assert sinking / MM == as_printed("14")

    def test_current_at_which_a_wheel_slips(self) -> None:
        load = 11.0 * GRAVITY / 4  # [N] on each wheel
        torque = 0.6 * load * 60 * MM / np.sqrt(2)  # rollers at 45 degrees
        assert current_for_torque(torque, DRIVE.kt, DRIVE.free_current) == as_printed("2.43")

    def test_stall(self) -> None:
        assert DRIVE.heating_time(VOLTS) == as_printed("8.2")
        assert 5 * DUTY * stall_current(DUTY, VOLTS, DRIVE.resistance) == as_printed("23")

    def test_it_falls_with_thirty_joules(self) -> None:
        assert falling_energy(3.8, 0.8) == as_printed("30")


class TestPruner:
    """An arm of 1.2 kg at 0.30 m with 1.0 kg at 0.60 m, 1.5:1 at 85 %, on a base of 8 kg."""

    load = gravity_torque([1.2, 1.0], [0.30, 0.60], 0)
    asked = needed_torque(load, 1.5, 0.85)
    back = SLOW.backwards(0.85)

    def test_load_and_reserve(self) -> None:
        assert self.load == as_printed("9.42")
        assert self.asked == as_printed("7.39")
        assert self.asked / SLOW.stall_torque == as_printed("0.62")
        available = scaled_stall_torque(DUTY, VOLTS, VOLTS, SLOW.stall_torque) * 1.5 * 0.85
        assert available == as_printed("12.07")
        assert safety_factor(available, self.load) == as_printed("1.28")

    def test_hold_band(self) -> None:
        upper = hold_duty_upper(self.load, SLOW.resistance, 1.5, 0.85, SLOW.kt, VOLTS)
        lower = hold_duty_lower(self.load, self.back, SLOW.resistance, 1.5, SLOW.ke, VOLTS)
        assert upper * 100 == as_printed("58")
        assert lower * 100 == as_printed("11")
        assert gravity_volts(upper, lower, VOLTS) == as_printed("4.2")
        assert friction_volts(upper, lower, VOLTS) == as_printed("2.8")

    def sinking(self, torque: float | NDArray[np.float64]) -> NDArray[np.float64]:
        """[degrees/s] in brake mode."""
        return np.degrees(sink_speed(torque, self.back, SLOW.resistance, 1.5, SLOW.ke))

    def test_sinking_and_its_counterbalance(self) -> None:
        assert self.sinking(self.load) == pytest.approx(14, abs=0.6)
        bearable = 2.0 / self.sinking(1.0)  # [N m] that sinks at 2 degrees/s
        assert self.load - bearable == as_printed("8.1")

    def test_stall(self) -> None:
        assert SLOW.heating_time(12.0) == as_printed("15.0")
        assert SLOW.heating_time(12.6) == as_printed("13.6")

    def test_balance(self) -> None:
        masses = [8.0, 1.2, 1.0]
        centre = combined_centre(masses, [0, 0.05 + 0.30, 0.05 + 0.60])
        height = combined_centre(masses, [0.09, 0.30, 0.30])
        assert (0.13 - centre) / MM == as_printed("25")
        assert static_margin(0.13, centre, 0.13) == as_printed("0.19")
        tipping = tipping_acceleration(0.13 - centre, height)
        braking = traction_acceleration(0.6, sum(masses) * GRAVITY, sum(masses))
        assert tipping == as_printed("1.8")
        assert braking == as_printed("5.9")
        assert 0.6 * tipping == as_printed("1.1")
        assert tip_ratio(braking, tipping) > 1

    def test_it_falls_with_nine_joules(self) -> None:
        assert falling_energy(1.2, 0.30) + falling_energy(1.0, 0.60) == as_printed("9.4")


def test_two_stage_lift() -> None:
    # stages of 0.5 kg and 0.3 + 1.0 kg in cascade, drum of 20 mm behind 80 %, 1.0 m of travel
    rope = lift_rope_force([0.5, 1.3], [1, 2], 1)
    drum = drum_torque(rope, 20 * MM)
    asked = needed_torque(drum, 1, 0.8)
    assert rope == as_printed("30.4")
    assert asked == as_printed("0.76")
    assert asked / DRIVE.stall_torque == as_printed("0.32")
    sinking = sink_speed(drum, DRIVE.backwards(0.8), DRIVE.resistance, 1, DRIVE.ke)
    assert lift_speed(2, sinking, 20 * MM) / MM == as_printed("39")
    assert falling_energy(0.5, 0.5) + falling_energy(1.3, 1.0) == as_printed("15")


def test_winch() -> None:
    # 12 kg on a drum of 15 mm with rope of 4 mm, behind 90 %
    radius = layer_radius(15 * MM, 1, 4 * MM)
    drum = drum_torque(lift_rope_force([12], [1], 1), radius)
    asked = needed_torque(drum, 1, 0.9)
    assert asked == as_printed("2.2")
    assert asked / HEAVY.stall_torque == as_printed("0.25")
    assert current_for_torque(asked, HEAVY.kt, HEAVY.free_current) == as_printed("5.6")
    stalled = HEAVY.kt * (16.6 - HEAVY.free_current)  # at the far end of a thin wire
    assert rope_pull(stalled, 1, 1, radius) == pytest.approx(436, abs=2)
    assert rope_pull(stalled, 1, 0.9, radius) == pytest.approx(392, abs=2)
    assert rope_energy(436, 8e3) == as_printed("12")
    assert layer_radius(15 * MM, 3, 4 * MM) / radius - 1 == as_printed("0.47")
    sinking = sink_speed(drum, HEAVY.backwards(0.9), HEAVY.resistance, 1, HEAVY.ke)
    assert lift_speed(1, sinking, radius) / MM == as_printed("15")
    assert falling_energy(12, 0.5) == as_printed("59")


def test_thrower() -> None:
    # two discs of 250 g and 100 mm on one shaft with two bare motors
    inertia = 2 * disc_inertia(0.25, 50 * MM)
    assert inertia == as_printed("6.25e-4")
    speed = speed_under_load(DUTY, VOLTS, RAW.free_current, RAW.resistance, RAW.ke)
    assert speed == pytest.approx(424, rel=3e-3)
    assert flywheel_energy(inertia, speed) == as_printed("56")
    assert mechanical_time_constant(inertia, RAW.resistance / 2, RAW.kt, RAW.ke) == as_printed("1.55")


def test_tray_cart_that_stays_on_its_wheels() -> None:
    rear = axle_load(6.0, 0.22 - 0.08, 0.22)
    pull = traction_acceleration(0.8, rear, 6.0)
    assert tip_ratio(pull, tipping_acceleration(0.08, 0.07)) == as_printed("0.45")


def test_a_higher_lift_tips_where_the_lower_one_stood() -> None:
    braking = traction_acceleration(0.8, 9 * GRAVITY, 9)
    assert tip_ratio(braking, tipping_acceleration(0.12, 0.10)) == as_printed("0.67")
    assert tip_ratio(braking, tipping_acceleration(0.12, 0.16)) == as_printed("1.07")


@pytest.mark.parametrize(("servo", "lasting", "peak"), [(0.60, "3.0", "7.5"), (2.0, "10", "25")])
def test_soft_fruit_gripper(servo: float, lasting: str, peak: str) -> None:
    assert jaw_force(servo, 0.4, 1, 80 * MM) == as_printed(lasting)
    assert jaw_force(servo, 1, 1, 80 * MM) == as_printed(peak)
    assert 1.5 * needed_grip_force(0.5, 2, 0.5, 2) == as_printed("8.9")
