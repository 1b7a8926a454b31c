"""Motors and wire against print."""

from __future__ import annotations

import numpy as np
import pytest

from lakewright.physics import electric
from lakewright.physics.electric import HORSEPOWER
from lakewright.physics.types import Array
from tests.published import assert_printed, published

FOOT = 0.3048


def one(value: float) -> Array:
    return np.array([value])


# Source: table 430-148 (1999), full-load current of single-phase motors, every row: hp, then 115, 200, 208, 230 V.
FULL_LOAD = (
    (1 / 6, "4.4", "2.5", "2.4", "2.2"),
    (1 / 4, "5.8", "3.3", "3.2", "2.9"),
    (1 / 3, "7.2", "4.1", "4.0", "3.6"),
    (1 / 2, "9.8", "5.6", "5.4", "4.9"),
    (3 / 4, "13.8", "7.9", "7.6", "6.9"),
    (1, "16", "9.2", "8.8", "8.0"),
    (1.5, "20", "11.5", "11.0", "10"),
    (2, "24", "13.8", "13.2", "12"),
    (3, "34", "19.6", "18.7", "17"),
    (5, "56", "32.2", "30.8", "28"),
    (7.5, "80", "46.0", "44.0", "40"),
    (10, "100", "57.5", "55.0", "50"),
)


@published("nec-430-148", "table 430-148, single phase")
@pytest.mark.parametrize("size, at_115, at_200, at_208, at_230", FULL_LOAD)
def test_full_load_current(size: float, at_115: str, at_200: str, at_208: str, at_230: str) -> None:
    for voltage, printed in zip((115.0, 200.0, 208.0, 230.0), (at_115, at_200, at_208, at_230), strict=True):
        assert_printed(electric.full_load_current(one(size * HORSEPOWER), one(voltage))[0], printed)


@published("nec-430-148", "note on the voltages of systems")
@pytest.mark.parametrize("system, printed", [(110.0, "16"), (120.0, "16"), (220.0, "8.0"), (240.0, "8.0")])
def test_full_load_current_holds_for_systems_of_about_its_voltage(system: float, printed: str) -> None:
    assert_printed(electric.full_load_current(one(HORSEPOWER), one(system))[0], printed)


# Source: table 430.251(A) of 2008, 115 and 230 V.
LOCKED_ROTOR = (
    (0.5, "58.8", "29.4"),
    (0.75, "82.8", "41.4"),
    (1.0, "96", "48"),
    (1.5, "120", "60"),
    (2.0, "144", "72"),
    (3.0, "204", "102"),
    (5.0, "336", "168"),
    (7.5, "480", "240"),
    (10.0, "600", "300"),
)


@published("nec-430-251", "table 430.251(A), single phase")
@pytest.mark.parametrize("size, at_115, at_230", LOCKED_ROTOR)
def test_locked_rotor_current_without_a_code_letter(size: float, at_115: str, at_230: str) -> None:
    for voltage, printed in ((115.0, at_115), (230.0, at_230)):
        full = electric.full_load_current(one(size * HORSEPOWER), one(voltage))[0]
        assert_printed(electric.START_OVER_FULL_LOAD * full, printed)


@published("nema-code-letters", "kVA for each horsepower, upper ends")
@pytest.mark.parametrize(
    "letter, printed", [("A", "3.14"), ("G", "6.29"), ("J", "7.99"), ("L", "9.99"), ("U", "22.39")]
)
def test_what_a_code_letter_takes(letter: str, printed: str) -> None:
    assert_printed(electric.start_ratio_of(letter) * HORSEPOWER / 1000.0, printed)


@published("welder-manual", "example: 230 V, 1/4 hp, code M")
def test_starting_current_by_code_letter() -> None:
    ratio = one(electric.start_ratio_of("M"))
    assert_printed(electric.locked_rotor_current(one(0.25 * HORSEPOWER), ratio, one(230.0))[0], "12.2")


@published("electrician-course", "100 ft of 16 AWG at 4 A")
def test_voltage_lost_in_a_long_wire() -> None:
    lost = electric.voltage_drop(one(4.0), one(100.0 * FOOT), one(4.99 / (1000.0 * FOOT)))[0]
    assert_printed(lost, "4.0")
    # Tolerance 0.1 %: the text takes its own rounded 4.0 V.
    assert_printed(100.0 * lost / 24.0, "16.7", tolerance=0.1)


@published("nec-article-430", "worked motor of 5 hp at 230 V")
def test_conductor_and_breaker_of_a_motor() -> None:
    full = electric.full_load_current(one(5.0 * HORSEPOWER), one(230.0))
    assert_printed(electric.CONDUCTOR_OVER_FULL_LOAD * full[0], "35")
    assert_printed(electric.largest_breaker(full)[0], "70")


@published("pumping-cost-page", "10 gpm over 10 ft")
def test_cost_of_pumping() -> None:
    flow, head = 10.0 * 6.30902e-5, 10.0 * FOOT
    shaft = 1000.0 * 9.80665 * flow * head / 0.9
    energy = electric.pumping_energy(one(shaft), one(0.9), one(flow))[0]
    assert_printed(0.1 * energy * flow * 3600.0 / 3.6e6, "0.002")


# Laws.


@pytest.mark.law
def test_a_larger_motor_takes_more_and_twice_the_voltage_half_as_much() -> None:
    sizes = np.linspace(1 / 6, 10.0, 400) * HORSEPOWER
    low, high = (electric.full_load_current(sizes, one(voltage)) for voltage in (115.0, 230.0))
    assert np.all(np.diff(low) > 0.0)
    assert np.all(np.diff(high) > 0.0)
    assert np.allclose(low, 2.0 * high)


@pytest.mark.law
@pytest.mark.parametrize("size, voltage", [(0.1, 230.0), (12.0, 230.0), (1.0, 150.0), (1.0, 400.0), (np.nan, 230.0)])
def test_outside_the_table_nothing_is_known(size: float, voltage: float) -> None:
    assert np.isnan(electric.full_load_current(one(size * HORSEPOWER), one(voltage))[0])


@pytest.mark.law
def test_no_current_and_no_wire_lose_nothing_and_the_rest_goes_with_each() -> None:
    some = (one(5.0), one(60.0), one(0.005))
    lost = electric.voltage_drop(*some)[0]
    for place in range(3):
        changed = [2.0 * each if n == place else each for n, each in enumerate(some)]
        assert electric.voltage_drop(*changed)[0] == pytest.approx(2.0 * lost)
        changed = [0.0 * each if n == place else each for n, each in enumerate(some)]
        assert electric.voltage_drop(*changed)[0] == 0.0


@pytest.mark.law
def test_a_breaker_is_the_least_made_size_that_reaches_the_rule() -> None:
    current = np.linspace(1.0, 49.0, 500)
    found = electric.largest_breaker(current)
    wanted = electric.BREAKER_OVER_FULL_LOAD * current
    assert np.all(found >= wanted * (1.0 - 1e-9))
    smaller = electric.BREAKER_SIZES[np.maximum(np.searchsorted(electric.BREAKER_SIZES, found) - 1, 0)]
    assert np.all((smaller < wanted) | (found == electric.BREAKER_SIZES[0]))
    assert np.isinf(electric.largest_breaker(one(60.0))[0])


@pytest.mark.law
def test_a_letter_without_an_end_is_unknown() -> None:
    assert np.isnan(electric.start_ratio_of("V"))


@pytest.mark.law
def test_larger_motors_waste_less_and_no_flow_costs_without_end() -> None:
    sizes = np.linspace(0.25, 8.0, 200) * HORSEPOWER
    assert np.all(np.diff(electric.motor_efficiency(sizes)) >= 0.0)
    assert electric.pumping_energy(one(300.0), one(0.6), one(0.0))[0] == np.inf
