"""Wind, waves and current against print, and what is computed here where no print was found."""

from __future__ import annotations

import numpy as np
import pytest

from lakewright.physics import current, waves, wind
from lakewright.physics.types import Array
from tests.published import assert_printed, published

THIRD = np.pi / 3.0


def one(value: float) -> Array:
    return np.array([value])


# In miles an hour there as here: a ratio. Tolerance on the last two: 22.74 stands there as 22.8, having been rounded
# at the ratio, 1.09.
@published("cem-ii-2", "example II-2-1")
@pytest.mark.parametrize(
    "five_minutes, printed, tolerance", [(20.3, "18.6", None), (24.8, "22.8", 0.1), (28.2, "25.9", None)]
)
def test_wind_of_five_minutes_as_a_mean_of_an_hour(five_minutes: float, printed: str, tolerance: float | None) -> None:
    hourly = wind.averaged_wind(one(five_minutes), one(300.0), one(3600.0))
    assert_printed(hourly[0], printed, tolerance)


@published("cem-ii-2", "example II-2-1, ratio")
def test_ratio_of_five_minutes() -> None:
    assert_printed(wind.gust_ratio(one(300.0))[0], "1.09")


# Tolerance: the page takes gravity as 9.81, which moves the last digits.
@published("young-verhagen-1996", "worked restatement, 21.9444 m/s over 53.89 km of 7 m")
def test_waves_of_a_long_shallow_lake() -> None:
    height, _ = wind.finite_depth_waves(one(21.9444), one(53890.0), one(7.0))
    assert_printed(height[0], "1.6371", tolerance=4e-4)


# Tolerance: the solution rounds the dimensionless fetch on its way.
@published("coastal-growth-problem", "15 m/s over 200 km")
@pytest.mark.parametrize("which, printed, tolerance", [(0, "3.417", 0.011), (1, "9.0", None)])
def test_waves_of_deep_water(which: int, printed: str, tolerance: float | None) -> None:
    assert_printed(wind.deep_water_waves(one(15.0), one(200e3))[which][0], printed, tolerance)


# 10 s in 3 m of water. Tolerance: the manual takes the ratio from its own table between two rows, and gravity as 9.81.
@published("cem-ii-1", "example II-1-1")
@pytest.mark.parametrize(
    "what, printed, tolerance", [("d/L", "0.05641", 4e-5), ("L", "53.2", 0.06), ("C", "5.32", 0.006)]
)
def test_length_and_speed_of_a_wave(what: str, printed: str, tolerance: float) -> None:
    length = 2.0 * np.pi / waves.wave_number(one(10.0), one(3.0))[0]
    assert_printed({"d/L": 3.0 / length, "L": length, "C": length / 10.0}[what], printed, tolerance)


# 8 s, 15 m of water, 5.5 m high, 10 m over the bed, a sixth of a period from the crest.
@published("cem-ii-1", "example II-1-2")
@pytest.mark.parametrize("what, printed", [("u", "0.99"), ("w", "1.11"), ("ax", "1.35"), ("az", "-0.50")])
def test_motion_under_a_wave(what: str, printed: str) -> None:
    number = waves.wave_number(one(8.0), one(15.0))
    level, upright = waves.orbital_velocity(one(5.5), one(8.0), number, one(15.0), one(10.0))
    omega = 2.0 * np.pi / 8.0
    motion = {
        "u": level * np.cos(THIRD),
        "w": upright * np.sin(THIRD),
        "ax": omega * level * np.sin(THIRD),
        "az": -omega * upright * np.cos(THIRD),
    }
    assert_printed(motion[what][0], printed)


# Tolerance: the manual's length again comes from a table.
@published("cem-ii-1", "example II-1-2, k(z + d)")
def test_number_of_that_wave() -> None:
    assert_printed(10.0 * waves.wave_number(one(8.0), one(15.0))[0], "0.7691", tolerance=1e-3)


@published("spm-1984", "table C-1, from memory")
@pytest.mark.parametrize("over_deep, printed", [(0.1, "0.1410"), (0.2, "0.2251")])
def test_depth_over_length(over_deep: float, printed: str) -> None:
    period = np.sqrt(2.0 * np.pi / 9.80665 / over_deep)
    assert_printed(waves.wave_number(one(period), one(1.0))[0] / (2.0 * np.pi), printed)


# From here on: computed here, for want of print.


@pytest.mark.parametrize(
    "over_deep, over_length, tanh, sinh, cosh",
    [
        (0.0050, 0.02836, 0.1763, 0.1791, 1.0159),
        (0.0100, 0.04032, 0.2480, 0.2560, 1.0323),
        (0.1000, 0.14098, 0.7093, 1.0063, 1.4187),
        (0.1500, 0.18330, 0.8183, 1.4238, 1.7399),
        (0.4000, 0.40496, 0.9877, 6.3289, 6.4074),
        (0.5000, 0.50183, 0.9964, 11.683, 11.725),
        (1.0000, 1.00001, 1.0000, 267.76, 267.76),
    ],
)
def test_table_of_lengths_computed_here(
    over_deep: float, over_length: float, tanh: float, sinh: float, cosh: float
) -> None:
    kd = waves.wave_number(one(np.sqrt(2.0 * np.pi / 9.80665 / over_deep)), one(1.0))[0]
    assert kd / (2.0 * np.pi) == pytest.approx(over_length, abs=6e-6)
    assert [np.tanh(kd), np.sinh(kd), np.cosh(kd)] == pytest.approx([tanh, sinh, cosh], rel=4e-4)


@pytest.mark.parametrize("seconds, ratio", [(3.0, 1.51), (60.0, 1.24), (600.0, 1.05), (1800.0, 1.012)])
def test_gusts_computed_here(seconds: float, ratio: float) -> None:
    assert wind.gust_ratio(one(seconds))[0] == pytest.approx(ratio, abs=5e-3)


# 20 m/s over 3 km, with gravity at 9.81: two texts and one second computation agree on these.
@pytest.mark.parametrize(
    "law, depth, height, period",
    [
        (wind.depth_limited_waves, 4.0, 0.70275, 2.54751),
        (wind.depth_limited_waves, 10.0, 0.76594, 2.63457),
        (wind.finite_depth_waves, 4.0, 0.5229, 2.935),
        (wind.finite_depth_waves, 10.0, 0.5422, 2.978),
    ],
)
def test_growth_computed_here(law, depth: float, height: float, period: float, monkeypatch) -> None:  # type: ignore[no-untyped-def]
    monkeypatch.setattr(wind, "GRAVITY", 9.81)
    found = law(one(20.0), one(3000.0), one(depth))
    assert found[0][0] == pytest.approx(height, rel=1e-4)
    assert found[1][0] == pytest.approx(period, rel=2e-4)


def test_crossing_time_computed_here() -> None:
    """Four laws at 3 km and 20 m/s: 1160, 2194, 2805 and 3406 s; the longest is used."""
    assert wind.crossing_time(one(3000.0), one(20.0))[0] == pytest.approx(3406.0, abs=1.0)
    assert wind.adjusted_wind(one(20.0))[0] == pytest.approx(28.283, abs=5e-4)


# Root mean square at the bed and the largest single wave, from a second summation of the same spectrum.
@pytest.mark.parametrize(
    "height, period, depth, spectrum, single",
    [
        (0.791, 2.740, 4.0, "0.092", 0.379),
        (0.703, 2.548, 4.0, "0.066", 0.263),
        (0.613, 1.940, 4.0, "0.019", 0.051),
        (0.613, 2.238, 4.0, "0.036", 0.127),
        (0.523, 2.935, 4.0, "0.072", 0.304),
        (0.560, 2.443, 4.0, "0.046", 0.177),
        (0.766, 2.635, 10.0, "0.0064", 0.0103),
        (0.542, 2.978, 10.0, "0.0091", 0.0227),
    ],
)
def test_bed_velocity_computed_here(height: float, period: float, depth: float, spectrum: str, single: float) -> None:
    assert_printed(waves.spectral_bed_motion(one(height), one(period), one(depth))[0][0], spectrum)
    number = waves.wave_number(one(period), one(depth))
    level, _ = waves.orbital_velocity(1.86 * one(height), one(period), number, one(depth), one(0.0))
    assert level[0] == pytest.approx(single, rel=1e-2)


def test_rayleigh_computed_here() -> None:
    """The largest of a thousand, and the textbook's caps, which do not bind at 4 m."""
    assert pytest.approx(np.sqrt(0.5 * np.log(1000.0)), abs=2e-3) == waves.DESIGN_RATIO
    assert waves.design_height(one(0.70275), one(0.628287), one(4.0))[0] == pytest.approx(1.30711, abs=1e-5)
    assert waves.breaking_height(one(0.628287), one(4.0))[0] == pytest.approx(1.402, abs=1e-3)


def test_current_computed_here() -> None:
    """1.5 m/s in 2 m over gravel: at the legs by two roughnesses, and at the head, where nearly the mean runs."""
    at = [(0.024, 1e-3, 0.722), (0.024, 3e-4, 0.842), (0.78, 1e-3, 1.51)]
    for above, roughness, speed in at:
        found = current.logarithmic_current(one(1.5), one(above), one(2.0), one(roughness))[0]
        assert found == pytest.approx(speed, abs=4e-3)


def test_wake_computed_here() -> None:
    """0.3 m and 4 s in 2.5 m of water: about 0.24 m/s at the bed."""
    period = one(waves.WAKE_PERIOD)
    number = waves.wave_number(period, one(2.5))
    level, _ = waves.orbital_velocity(one(waves.WAKE_HEIGHT), period, number, one(2.5), one(0.0))
    assert level[0] == pytest.approx(0.24, abs=1e-2)


def test_mast_computed_here() -> None:
    assert wind.wind_at_ten_metres(one(1.0), one(4.0))[0] == pytest.approx(1.140, abs=5e-4)


def test_sustained_wind_computed_here() -> None:
    """A 3 s gust of 30.2 m/s is 20 m/s over an hour, and a little more over the 57 minutes that 3 km take."""
    lasting = wind.sustained_wind(one(30.2), one(3.0), one(3000.0))[0]
    assert lasting == pytest.approx(20.0, abs=0.05)
    assert wind.friction_velocity(one(20.0))[0] == pytest.approx(20.0 * np.sqrt(0.0018), rel=1e-12)
    assert wind.fetch_crossed(one(3406.5), one(20.0))[0] == pytest.approx(3000.0, abs=1.0)


@pytest.mark.parametrize("depth, height, period", [(4.0, 0.703, 2.548), (10.0, 0.766, 2.635)])
def test_depth_limited_waves_computed_here(depth: float, height: float, period: float) -> None:
    found = wind.depth_limited_waves(one(20.0), one(3000.0), one(depth))
    assert [found[0][0], found[1][0]] == pytest.approx([height, period], abs=6e-4)
    assert period * wind.PEAK_OVER_SIGNIFICANT == pytest.approx({4.0: 2.682, 10.0: 2.774}[depth], abs=6e-4)


def test_deep_water_is_led_by_the_spectrum() -> None:
    """At 10 m of case B: 0.024 m/s at the bed where one wave of the peak period makes 0.010."""
    height, period = waves.spectral_wave(one(0.76594), one(2.63457), one(10.0))
    number = waves.wave_number(period, one(10.0))
    level, _ = waves.orbital_velocity(height, period, number, one(10.0), one(0.0))
    assert level[0] == pytest.approx(0.024, abs=5e-4)
    assert waves.wave_number(one(2.63457), one(10.0))[0] * 10.0 > waves.DEEP


def test_wake_period_computed_here() -> None:
    """Four seconds are the wake of a boat at 17 miles an hour."""
    assert waves.wake_period(one(17.1 * 0.44704))[0] == pytest.approx(4.0, abs=5e-3)


def test_seventh_power_computed_here() -> None:
    assert current.seventh_power_current(one(1.5), one(0.64), one(2.0))[0] == pytest.approx(1.5, rel=1e-12)
    assert current.seventh_power_current(one(1.5), one(2.0), one(2.0))[0] == pytest.approx(1.599, abs=1e-3)


@published("dnv-rp-f109", "table of bed roughness, as restated")
@pytest.mark.parametrize("bed, printed", [("silt", "5e-6"), ("sand", "4e-5"), ("gravel", "3e-4"), ("boulders", "4e-2")])
def test_roughness_of_beds(bed: str, printed: str) -> None:
    assert_printed(current.roughness_length_of(bed), printed)
