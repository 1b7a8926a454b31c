"""What must hold of ice, frost, cold pipes and shock chlorination, whatever the numbers."""

from __future__ import annotations

import numpy as np
import pytest

from lakewright.physics import cold_line, frost, ice, shock

pytestmark = pytest.mark.law


def drawn(low: float, high: float, seed: int) -> np.ndarray:
    return np.random.default_rng(seed).uniform(low, high, 500)


def test_ice_grows_with_cold_and_thick_ice_slower() -> None:
    cold, growth = np.linspace(0.0, 2e8, 500), np.full(500, ice.growth_of("lake with snow")[1])
    thick = ice.ice_thickness(growth, cold)
    assert thick[0] == 0.0
    assert np.all(np.diff(thick) > 0.0)
    assert np.all(np.diff(thick, 2) < 0.0)
    assert np.all(ice.ice_thickness(growth, -cold) == 0.0)


def test_every_cover_grows_no_faster_than_bare_ice_conducts() -> None:
    # memory: ice of 2.2 W/(m K), 917 kg/m3, 334 kJ/kg.
    ceiling = (2.0 * 2.2 / (917.0 * 334e3)) ** 0.5
    for cover in ice.COVERS:
        slow, fast = ice.growth_of(cover)
        assert 0.0 < slow <= fast < ceiling


def test_frost_is_never_deeper_than_stefan_has_it_and_nears_it() -> None:
    fusion, warmth = drawn(0.01, 2.0, 1), drawn(0.0, 5.0, 2)
    share = frost.frost_correction(fusion, warmth)
    assert np.all((share > 0.0) & (share < 1.0))
    assert np.all(frost.frost_correction(fusion, warmth + 0.1) < share)
    assert np.all(frost.frost_correction(fusion + 0.1, warmth) < share)
    assert frost.frost_correction(np.array([1e-4]), np.zeros(1))[0] == pytest.approx(1.0, abs=1e-3)


def test_wet_soil_freezes_less_deep_and_cold_deeper() -> None:
    conductivity, index, dry, wet = drawn(0.5, 3.0, 1), drawn(1e6, 2e8, 2), drawn(800.0, 2200.0, 3), drawn(0.05, 0.3, 4)
    one = np.ones(500)
    deep = frost.frost_depth(conductivity, index, frost.soil_latent_heat(dry, wet), one)
    assert np.all(frost.frost_depth(conductivity, index, frost.soil_latent_heat(dry, 2.0 * wet), one) < deep)
    np.testing.assert_allclose(
        frost.frost_depth(conductivity, 4.0 * index, frost.soil_latent_heat(dry, wet), one), 2 * deep
    )


def test_early_comes_before_late_by_as_much_on_either_side() -> None:
    mean, spread = drawn(1e7, 3e7, 1), drawn(0.0, 2e6, 2)
    np.testing.assert_allclose(mean - frost.early_date(mean, spread), frost.late_date(mean, spread) - mean, rtol=1e-6)


def test_what_is_not_cooled_does_not_shrink() -> None:
    expansion, length = drawn(1e-5, 2e-4, 1), drawn(1.0, 300.0, 2)
    assert np.all(cold_line.contraction(expansion, length, np.zeros(500)) == 0.0)
    halves = 2.0 * cold_line.contraction(expansion, 0.5 * length, np.full(500, 20.0))
    np.testing.assert_allclose(cold_line.contraction(expansion, length, np.full(500, 20.0)), halves)


def test_air_at_rest_stores_nothing_and_never_more_than_if_kept_warm() -> None:
    air, volume, atmosphere = drawn(1.02e5, 1e6, 1), drawn(1e-3, 1.0, 2), np.full(500, 101325.0)
    energy = cold_line.stored_energy(air, volume, atmosphere)
    assert np.all(cold_line.stored_energy(atmosphere, volume, atmosphere) == 0.0)
    assert np.all((energy > 0.0) & (energy < air * volume * np.log(air / atmosphere) * 1.01))


def test_chlorine_in_is_chlorine_wanted() -> None:
    volume, dose, strength = drawn(0.0, 5.0, 1), drawn(0.0, 0.3, 2), drawn(0.05, 0.15, 3)
    np.testing.assert_allclose(shock.bleach_volume(volume, dose, strength) * 1000.0 * strength, volume * dose)
    np.testing.assert_allclose(shock.granule_mass(volume, dose, strength) * strength, volume * dose)
