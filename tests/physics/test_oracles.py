"""The same numbers from independent, general libraries. None of them is needed to run the program."""

from __future__ import annotations

import chemicals.iapws
import chemicals.viscosity
import CoolProp.CoolProp
import fluids.atmosphere
import fluids.fittings
import fluids.flow_meter
import fluids.friction
import iapws
import numpy as np
import pytest
import scipy.integrate
import scipy.interpolate
import scipy.optimize
from iapws._iapws import _Liquid
from iapws.iapws97 import _PSat_T

from lakewright.physics import atmosphere, inlet, pipe, tank, water
from lakewright.physics.curve import shape_keeping, straight_lines
from lakewright.physics.jet import jet_table

DEGREES = np.arange(0.0, 40.01, 2.5)
WARM = DEGREES + 273.15
ONE_ATMOSPHERE = 101325.0

REYNOLDS, RELATIVE = (
    each.ravel()
    for each in np.meshgrid(
        np.geomspace(4000.0, 1e8, 60), [0.0, 1e-7, 1e-6, 1e-5, 1e-4, 5e-4, 1e-3, 5e-3, 0.01, 0.03, 0.05]
    )
)


def test_friction_matches_clamond_of_another_library() -> None:
    theirs = [fluids.friction.Clamond(re, e) for re, e in zip(REYNOLDS, RELATIVE, strict=True)]
    np.testing.assert_allclose(pipe.friction_factor(REYNOLDS, RELATIVE), theirs, rtol=1e-12)


def test_friction_matches_colebrook_solved_by_root_finder() -> None:
    def solved(re: float, e: float) -> float:
        root = scipy.optimize.brentq(
            lambda x: x + 2.0 * np.log10(e / 3.7 + 2.51 * x / re), 1.0, 30.0, xtol=1e-14, rtol=1e-14
        )
        return 1.0 / float(root) ** 2

    theirs = [solved(re, e) for re, e in zip(REYNOLDS, RELATIVE, strict=True)]
    np.testing.assert_allclose(pipe.friction_factor(REYNOLDS, RELATIVE), theirs, rtol=1e-12)


def test_density_within_a_twentieth_of_a_percent() -> None:
    ours = water.density(WARM)
    first = [CoolProp.CoolProp.PropsSI("D", "T", t, "P", ONE_ATMOSPHERE, "Water") for t in np.maximum(WARM, 273.16)]
    second = [iapws.IAPWS97(T=t, P=ONE_ATMOSPHERE / 1e6).rho for t in WARM]
    third = [chemicals.iapws.iapws97_rho(t, ONE_ATMOSPHERE) for t in WARM]
    for theirs in (first, second, third):
        np.testing.assert_allclose(ours, theirs, rtol=5e-4)


def test_viscosity_within_a_twentieth_of_a_percent() -> None:
    ours = water.dynamic_viscosity(WARM)
    first = [CoolProp.CoolProp.PropsSI("V", "T", t, "P", ONE_ATMOSPHERE, "Water") for t in np.maximum(WARM, 273.16)]
    second = [chemicals.viscosity.mu_IAPWS(t, rho) for t, rho in zip(WARM, water.density(WARM), strict=True)]
    # Below its own triple point the first library is asked at 0.01 C, where water is 0.034 % thinner.
    np.testing.assert_allclose(ours, first, rtol=5e-4)
    np.testing.assert_allclose(ours, second, rtol=5e-4)


def test_vapour_pressure_within_a_twentieth_of_a_percent() -> None:
    warm = np.maximum(WARM, 273.16)
    ours = water.vapour_pressure(warm)
    first = [CoolProp.CoolProp.PropsSI("P", "T", t, "Q", 0, "Water") for t in warm]
    second = [chemicals.iapws.iapws95_Psat(t) for t in warm]
    third = [iapws.IAPWS97(T=t, x=0).P * 1e6 for t in warm]
    for theirs in (first, second, third):
        np.testing.assert_allclose(ours, theirs, rtol=5e-4)


def test_constants_are_typed_as_another_library_types_them() -> None:
    """The same equations, so the same digits: finds a slip of one figure, not a wrong equation."""
    kelvin = np.linspace(273.15, 640.0, 40)
    theirs = [_PSat_T(t) * 1e6 for t in kelvin]
    np.testing.assert_allclose(water.vapour_pressure(kelvin), theirs, rtol=1e-12)
    theirs = [_Liquid(t, 0.1)["mu"] for t in WARM]
    np.testing.assert_allclose(water.dynamic_viscosity(WARM), theirs, rtol=1e-12)


def test_atmosphere_matches_another_library() -> None:
    height = np.linspace(-400.0, 10500.0, 60)
    theirs = [fluids.atmosphere.ATMOSPHERE_1976(z).P for z in height]
    # They round the height of each layer.
    np.testing.assert_allclose(atmosphere.atmospheric_pressure(height), theirs, rtol=2e-8)


@pytest.mark.parametrize("style, factor", [("foot valve poppet disc", 20.0), ("foot valve hinged disc", 45.0)])
def test_full_lift_matches_another_library(style: str, factor: float) -> None:
    theirs = fluids.fittings.v_lift_valve_Crane(999.1, D1=0.04, D2=0.04, style=style)
    assert inlet.full_lift_velocity(np.array([factor]), np.array([999.1]))[0] == pytest.approx(theirs, rel=1e-12)


@pytest.mark.parametrize("seed", range(30))
def test_shape_keeping_matches_another_library(seed: int) -> None:
    random = np.random.default_rng(seed)
    count = int(random.integers(2, 10))
    x = np.cumsum(random.uniform(0.1, 2.0, count))
    # Some rise, some fall, some turn, some stand still.
    y = np.round(np.cumsum(random.normal(0.0, 1.0, count)), 0 if seed % 3 == 0 else 9)
    inside = np.linspace(x[0], x[-1], 400)
    theirs = scipy.interpolate.PchipInterpolator(x, y)(inside)
    np.testing.assert_allclose(shape_keeping(list(x), list(y)).at(inside), theirs, atol=1e-12)
    np.testing.assert_allclose(straight_lines(list(x), list(y)).at(inside), np.interp(inside, x, y), atol=1e-12)


def test_jet_table_matches_another_library() -> None:
    random = np.random.default_rng(2)
    lifts, pressures = np.cumsum(random.uniform(0.5, 2.0, 6)), np.cumsum(random.uniform(3e4, 9e4, 5))
    flows = random.uniform(0.0, 1e-3, (6, 5))
    lift = random.uniform(lifts[0], lifts[-1], 500)
    pressure = random.uniform(pressures[0], pressures[-1], 500)
    theirs = scipy.interpolate.RegularGridInterpolator((lifts, pressures), flows)(np.column_stack([lift, pressure]))
    ours = jet_table(list(lifts), list(pressures), flows.tolist()).at(lift, pressure)[0]
    np.testing.assert_allclose(ours, theirs, rtol=1e-12, atol=1e-18)


def test_filling_time_matches_the_integral() -> None:
    """85 gal, 30/50, a pump of 150 - 0.25 q2 ft at 18 ft of lift: 2.01 min in the reference notes."""

    def gallons_a_minute(psi: float) -> float:
        return float(np.sqrt((150.0 - 18.0 - 2.307 * psi) / 0.25))

    precharge, cut_in, cut_out, air = 28.0, 30.0, 50.0, 14.7
    exact, _ = scipy.integrate.quad(
        lambda p: 85.0 * (precharge + air) / (p + air) ** 2 / gallons_a_minute(p),
        cut_in,
        cut_out,
        epsabs=1e-12,
    )
    limits = np.array([cut_in]), np.array([cut_out])
    first, middle, last = (np.array([gallons_a_minute(float(p[0]))]) for p in tank.filling_pressures(*limits))
    ours = 85.0 * tank.filling_time(np.array([precharge]), *limits, np.array([air]), (first, middle, last))[0]
    assert ours == pytest.approx(exact, rel=5e-4)
    assert round(exact, 2) == 2.01


# An orifice plate by ISO 5167, thin and sharp, where a kink is neither: an eighth apart is near.
@pytest.mark.parametrize("opening", [0.06, 0.1, 0.2, 0.3, 0.4, 0.5])
def test_narrow_place_against_an_orifice_plate(opening: float) -> None:
    bore, hole = 0.0409, 0.0409 * float(np.sqrt(opening))
    kwargs = {"rho": 999.0, "mu": 1.1e-3, "m": 0.5, "taps": "D"}
    discharge = fluids.flow_meter.C_Reader_Harris_Gallagher(D=bore, Do=hole, **kwargs)
    plate = fluids.flow_meter.discharge_coefficient_to_K(D=bore, Do=hole, C=discharge)
    assert pipe.narrowing_coefficient(np.array([opening]))[0] == pytest.approx(plate, rel=0.125)
