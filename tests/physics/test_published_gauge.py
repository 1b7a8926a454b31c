"""The gauge at the pump's inlet against print, and what is computed here where no print was found."""

from __future__ import annotations

import numpy as np
import pytest

from lakewright.physics.gauge import lowest_pressure, running_pressure, standing_pressure
from lakewright.physics.suction import head_of
from lakewright.physics.types import Array
from lakewright.physics.water import density, vapour_pressure
from tests.physics.inch_pound import FOOT, INCH_OF_MERCURY, POUND_PER_CUBIC_FOOT, PSI, celsius, fahrenheit
from tests.published import assert_printed, published

NO, YES = np.array([0.0]), np.array([1.0])
WATER = density(fahrenheit(60.0))


def standing(inlet: Array, pump: Array, feet: float, airtight: Array = YES, water: Array = WATER) -> float:
    """40 psi in the tank, whose tee is 10 ft over the water."""
    tank, tee = np.array([40.0 * PSI]), np.array([10.0 * FOOT])
    return float(standing_pressure(inlet, pump, airtight, np.array([feet * FOOT]), tank, tee, water)[0])


# The glossary of the same texts: primed, with no appreciable flow, the gauge shows the lift in inches of mercury.
@published("nwcg-estimations", "table 3.1, lift for 1 in of mercury")
def test_lift_of_one_inch_of_mercury() -> None:
    assert_printed(-INCH_OF_MERCURY / standing(YES, YES, 1.0), "1.134")


@published("drafting-cards", "lift by gauge")
def test_lift_by_gauge() -> None:
    assert_printed(-INCH_OF_MERCURY / standing(YES, YES, 1.0), "1.13")


@published("nwcg-estimations", "table 3.1, pressure of 1 ft of head")
def test_pressure_of_a_foot_of_head() -> None:
    # Foot valve alone: the line stands under the tank's pressure and head, less 1 ft at a gauge 1 ft higher.
    heaviest = density(celsius(4.0))
    lower, higher = (standing(YES, NO, feet, water=heaviest) for feet in (4.0, 5.0))
    assert_printed((lower - higher) / PSI, "0.434")


@published("nwcg-estimations", "table 3.1, maximum theoretical lift")
def test_deepest_reading_of_dry_vacuum() -> None:
    deepest = lowest_pressure(np.array([14.7 * PSI]), NO)
    assert_printed(head_of(-deepest, np.array([62.4 * POUND_PER_CUBIC_FOOT]))[0] / FOOT, "33.9")


# Pressure correction is lift and losses in feet over 2.3.
@published("drafting-cards", "pressure correction at draft")
def test_pressure_correction_at_draft() -> None:
    feet = 10.0 + 5.0
    assert_printed(-feet / (running_pressure(np.array([feet * FOOT]), NO, WATER)[0] / PSI), "2.3")


# From here on: computed here, for want of print.


def test_running_gauge_computed_here() -> None:
    """12 gpm through 60 ft of 1.380 in at 15 C: 10 ft of lift, 1.334 and 1.172 ft of losses, 2.574 ft/s."""
    lift = np.array([(10.0 + 1.334 + 1.172) * FOOT])
    reading = running_pressure(lift, np.array([2.574 * FOOT]), density(celsius(15.0)))
    assert reading[0] / INCH_OF_MERCURY == pytest.approx(-11.12, abs=0.005)


def test_standing_gauge_computed_here() -> None:
    """10 ft of lift is 8.8 inches of mercury."""
    assert standing(YES, YES, 10.0) / INCH_OF_MERCURY == pytest.approx(-8.8, abs=0.05)


def test_foot_valve_alone_computed_here() -> None:
    """40 psi at a tee as high as the gauge stands in the line whole; 60 psi and a house 12 ft up are past 65."""
    assert standing(YES, NO, 10.0) == pytest.approx(40.0 * PSI)
    high = standing_pressure(YES, NO, YES, 3.0 * FOOT * YES, 60.0 * PSI * YES, 15.0 * FOOT * YES, WATER)
    assert high[0] / PSI == pytest.approx(65.2, abs=0.05)


def test_check_at_the_pump_alone() -> None:
    """Empty at the first bubble; at lift as long as nothing leaks in; full when the pump stands under the water."""
    assert standing(NO, YES, 10.0, airtight=NO) == 0.0
    assert standing(NO, YES, 10.0) == standing(YES, YES, 10.0)
    assert standing(NO, YES, -4.0, airtight=NO) == standing(YES, YES, -4.0) > 0.0


def test_air_that_comes_in_lets_go_of_the_gauge_though_the_foot_valve_holds_the_water() -> None:
    assert standing(YES, YES, 10.0, airtight=NO) == 0.0
    half = standing(YES, YES, 10.0, airtight=0.5 * YES)
    assert half == pytest.approx(0.5 * standing(YES, YES, 10.0))


def test_nothing_holds() -> None:
    assert standing(NO, NO, 10.0) == 0.0
    assert standing(NO, NO, -4.0) == pytest.approx(4.0 * FOOT * WATER[0] * 9.80665)


@pytest.mark.parametrize("unknown", [0, 1, 2])
def test_valve_nobody_looked_at_leaves_the_reading_unknown(unknown: int) -> None:
    flags = [YES, YES, YES]
    flags[unknown] = np.array([np.nan])
    assert np.isnan(standing_pressure(flags[0], flags[1], flags[2], YES, YES, YES, WATER)[0])


def test_boiling_water_computed_here() -> None:
    """At the sea and 10 C no gauge reads deeper than 29.6 inches of mercury."""
    deepest = lowest_pressure(np.array([101325.0]), vapour_pressure(celsius(10.0)))
    assert deepest[0] / INCH_OF_MERCURY == pytest.approx(-29.56, abs=0.005)
