"""What must hold of a line's wall, its gas and its gauge, whatever the numbers."""

from __future__ import annotations

import numpy as np
import pytest

from lakewright.physics import collapse, gas, gauge, rating
from tests.physics.inch_pound import fahrenheit

pytestmark = pytest.mark.law


def drawn(low: float, high: float, seed: int) -> np.ndarray:
    return np.random.default_rng(seed).uniform(low, high, 500)


def test_thicker_stiffer_narrower_bears_more() -> None:
    modulus, poisson, wall, mean = drawn(1e8, 3e9, 1), drawn(0.3, 0.45, 2), drawn(1e-3, 1e-2, 3), drawn(0.02, 0.1, 4)
    bears = collapse.ring_collapse_pressure(modulus, poisson, wall, mean)
    np.testing.assert_allclose(collapse.ring_collapse_pressure(modulus, poisson, 2.0 * wall, mean), 8.0 * bears)
    np.testing.assert_allclose(collapse.ring_collapse_pressure(2.0 * modulus, poisson, wall, mean), 2.0 * bears)
    np.testing.assert_allclose(collapse.ring_collapse_pressure(modulus, poisson, wall, 2.0 * mean), bears / 8.0)
    assert np.all(collapse.ring_collapse_pressure(modulus, poisson + 0.01, wall, mean) > bears)


def test_ring_is_the_same_in_its_other_forms() -> None:
    """E t3 / [4 (1 - nu2) R3] and 24 E I / [(1 - nu2) Dm3], with I = t3/12."""
    modulus, poisson, wall, mean = drawn(1e8, 3e9, 1), drawn(0.3, 0.45, 2), drawn(1e-3, 1e-2, 3), drawn(0.02, 0.1, 4)
    bears = collapse.ring_collapse_pressure(modulus, poisson, wall, mean)
    stiff = modulus / (1.0 - poisson**2)
    np.testing.assert_allclose(bears, stiff * wall**3 / (4.0 * (0.5 * mean) ** 3), rtol=1e-13)
    np.testing.assert_allclose(bears, 24.0 * stiff * (wall**3 / 12.0) / mean**3, rtol=1e-13)


def test_rounder_bears_more() -> None:
    factor = collapse.ovality_factor(np.linspace(0.0, 0.3, 500))
    assert factor[0] == 1.0
    assert np.all(np.diff(factor) < 0.0)


@pytest.mark.parametrize("compound", ["PE2708", "PE3608", "PE4710", "PVC 1120"])
def test_longer_loads_find_a_softer_wall(compound: str) -> None:
    seconds = np.geomspace(*collapse.LOAD_TIMES[:: len(collapse.LOAD_TIMES) - 1], 2000)[1:-1]
    rows = tuple(np.full_like(seconds, each) for each in collapse.moduli_of(compound))
    modulus = collapse.apparent_modulus(rows, seconds, np.ones_like(seconds))
    assert np.all(np.diff(modulus) < 0.0)
    # Straight over the logarithm of time between two rows.
    middle = np.array([np.sqrt(collapse.LOAD_TIMES[2] * collapse.LOAD_TIMES[3])])
    between = collapse.apparent_modulus(tuple(row[:1] for row in rows), middle, np.ones(1))
    np.testing.assert_allclose(between, 0.5 * (rows[2][:1] + rows[3][:1]), rtol=1e-12)


def test_loads_outside_the_table_are_unknown() -> None:
    rows = tuple(np.full(3, each) for each in collapse.moduli_of("PE4710"))
    seconds = np.array([1799.0, 51.0 * collapse.YEAR, np.nan])
    assert np.isnan(collapse.apparent_modulus(rows, seconds, np.ones(3))).all()


@pytest.mark.parametrize(
    "function, low, high",
    [
        (collapse.polyethylene_stiffness, 30.0, 140.0),
        (collapse.pvc_stiffness, 73.0, 140.0),
        (rating.pvc_rating_share, 73.0, 140.0),
        (rating.polyethylene_rating_share, 32.0, 100.0),
        (rating.thread_rating_share, 32.0, 110.0),
    ],
)
def test_warmer_never_bears_more(function, low: float, high: float) -> None:  # type: ignore[no-untyped-def]
    degrees = np.linspace(low, high, 1000)
    share = function(fahrenheit(degrees))  # type: ignore[arg-type]
    share = np.ravel(share)
    assert np.isfinite(share).all()
    assert np.all(np.diff(share) <= 0.0)
    assert np.isnan(function(np.array([fahrenheit(high + 0.01)[0], np.nan]))).all()


def test_vacuum_uses_the_wall_up_as_it_grows() -> None:
    standing = np.linspace(-2e5, 9e4, 500)
    long, running, short = np.full(500, 4e4), np.full(500, 2e4), np.full(500, 9e4)
    use = collapse.combined_vacuum_use(standing, long, running, short)
    assert np.all(np.diff(use) >= 0.0)
    assert np.all(use[standing < -2e4] == 0.0)
    np.testing.assert_allclose(collapse.combined_vacuum_use(np.zeros(1), long[:1], running[:1], short[:1]), 2.0 / 9.0)


def test_warmer_water_holds_less_air() -> None:
    kelvin = np.linspace(273.15, 303.15, 1000)
    assert np.all(np.diff(gas.air_solubility(kelvin) / kelvin) < 0.0)
    assert np.isnan(gas.air_solubility(np.array([273.14, 303.16, np.nan]))).all()


def test_deeper_suction_frees_more_gas() -> None:
    pressure = np.linspace(1.1e5, 1228.0, 1000)
    share = gas.released_gas_share(np.full(1000, 0.0237), np.full(1000, 101325.0), pressure, np.full(1000, 1228.0))
    assert np.all(share[pressure >= 101325.0] == 0.0)
    assert np.all(np.diff(share) >= 0.0)
    assert share[-1] == np.inf
    below = gas.released_gas_share(*(np.array([each]) for each in (0.0237, 101325.0, 600.0, 1228.0)))
    assert below[0] == np.inf


def test_gauge_running_slowly_is_the_gauge_standing() -> None:
    height, rho = drawn(-2.0, 8.0, 1), drawn(992.0, 1000.0, 2)
    one, tank = np.ones(500), np.full(500, 3e5)
    standing = gauge.standing_pressure(one, one, one, height, tank, 5.0 * one, rho)
    np.testing.assert_allclose(gauge.running_pressure(height, 0.0 * one, rho), standing, rtol=1e-14)
    assert np.all(gauge.running_pressure(height, one, rho) < standing)


def test_foot_valve_alone_never_leaves_less_than_with_a_check() -> None:
    """With the tank's tee over the gauge, the line it leaves open to the tank stands higher by tank and head."""
    height, rho, tank = drawn(-2.0, 8.0, 1), drawn(992.0, 1000.0, 2), drawn(1e5, 4e5, 3)
    one, none, tee = np.ones(500), np.zeros(500), np.full(500, 9.0)
    alone = gauge.standing_pressure(one, none, one, height, tank, tee, rho)
    both = gauge.standing_pressure(one, one, one, height, tank, tee, rho)
    np.testing.assert_allclose(alone - both, tank + tee * rho * 9.80665, rtol=1e-12)


def test_ratings_by_either_ratio_agree() -> None:
    """Mean diameter over wall is DR - 1 and SIDR + 1: SIDR 7 is DR 9."""
    stress, inside = drawn(4e6, 1.4e7, 1), drawn(5.3, 24.0, 2)
    np.testing.assert_allclose(
        rating.rating_by_inside_ratio(stress, inside), rating.rating_by_outside_ratio(stress, inside + 2.0), rtol=1e-14
    )
