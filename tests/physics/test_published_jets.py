"""Ejectors and the heat of a shut pump against print."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import brentq

from lakewright.physics import ejector, heat
from tests.physics.inch_pound import FOOT
from tests.published import assert_printed, published

FLOW, THROAT = np.array([0.010]), 0.25 * np.pi * 0.045**2
WATER, BRINE = np.array([998.0]), np.array([1098.0])
NOZZLE, ENTRY, MIXING = np.array([0.04]), np.array([0.11]), np.array([0.186 + 0.12])
SUCTION, OUTLET = 133.6e3, 200e3

HORSEPOWER, GPM, RANKINE = 745.7, 6.30902e-5, 1.0 / 1.8


def rise(area_ratio: float) -> float:
    """Outlet over suction in the example, for a nozzle of some share of the throat."""
    jet = ejector.jet_pressure(FLOW, np.array([area_ratio * THROAT]), WATER)
    ratio, area, dense = np.ones(1), np.array([area_ratio]), BRINE / WATER
    up = ejector.diffuser_rise(jet, ratio, area, MIXING, dense)
    return float((up - ejector.entry_drop(jet, ratio, area, ENTRY, dense))[0])


def motive_pressure(area_ratio: float) -> float:
    """Pressure before the nozzle in the example."""
    jet = ejector.jet_pressure(FLOW, np.array([area_ratio * THROAT]), WATER)
    drop = ejector.entry_drop(jet, np.ones(1), np.array([area_ratio]), ENTRY, BRINE / WATER)
    return SUCTION + float((ejector.nozzle_drop(jet, NOZZLE) - drop)[0])


def example() -> float:
    """Area ratio of the nozzle that makes the example's outlet pressure."""
    return float(brentq(lambda ratio: SUCTION + rise(ratio) - OUTLET, 0.05, 0.5, xtol=1e-15))


@published("pump-handbook-jets", "example of water that drives brine")
def test_nozzle_of_the_ejector_in_the_example() -> None:
    assert_printed(example(), "0.247404")
    assert_printed(2.0 * np.sqrt(example() * THROAT / np.pi), "0.0223829")


@published("pump-handbook-jets", "example of water that drives brine")
def test_motive_pressure_of_the_example() -> None:
    assert_printed(motive_pressure(example()), "426256")


@published("pump-handbook-jets", "example of water that drives brine")
def test_pressure_ratio_and_efficiency_of_the_example() -> None:
    # As much is drawn as drives, so both are one number.
    assert_printed((OUTLET - SUCTION) / (motive_pressure(example()) - OUTLET), "0.293473")


@published("pump-handbook-jets", "example of pressure before the nozzle")
def test_pressure_before_a_nozzle_that_is_given() -> None:
    # Tolerance 0.1 Pa: more digits are printed than the inputs have.
    assert_printed(motive_pressure((0.02238 / 0.045) ** 2), "426434.60314398", tolerance=0.1)


@published("pump-temperature-pages", "rise at 5000 ft and 80 %")
def test_rise_of_water_that_passes() -> None:
    assert_printed(heat.passing_rise(5000.0 * FOOT, 0.8) / RANKINE, "1.6")


@published("pump-temperature-pages", "20 hp, 70 %, 50000 lb/h")
def test_rise_by_power_and_mass() -> None:
    # Head by the power that reaches the water: eta P = m g H.
    head = 0.7 * 20.0 * HORSEPOWER / (50000.0 * 0.45359237 / 3600.0 * 9.80665)
    assert_printed(heat.passing_rise(head, 0.7) / RANKINE, "0.31")


@published("pump-temperature-pages", "metres of head by kelvin, 427")
def test_head_that_warms_water_by_one_kelvin() -> None:
    assert_printed(1.0 / heat.passing_rise(1.0, 0.5), "427")


# Tolerance half a percent: the pages round the heat of a pound and the weight of a gallon.
@published("pump-temperature-pages", "minimum flow by power, 15 F and 20 F")
@pytest.mark.parametrize("degrees, printed", [(15.0, "2.95"), (20.0, "3.93")])
def test_least_flow_by_rise(degrees: float, printed: str) -> None:
    gallons = heat.least_flow(HORSEPOWER, degrees * RANKINE, 999.1) / GPM
    assert_printed(1.0 / gallons, printed, tolerance=5e-3 * float(printed))


@pytest.mark.law
def test_a_shut_casing_warms_as_its_least_flow_would() -> None:
    """What passes in a minute at the least flow warms by the rise; shut in, it takes that minute."""
    power, rise, density = np.array([373.0]), np.array([8.0]), np.array([998.0])
    volume = 60.0 * heat.least_flow(power, rise, density)
    assert heat.warming_time(power, volume, rise, density) == pytest.approx(60.0, rel=1e-12)
