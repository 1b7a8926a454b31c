"""What must hold whatever the numbers: monotone, no flow no loss, no jumps, balances that close."""

from __future__ import annotations

import numpy as np
import pytest

from lakewright.physics import atmosphere, inlet, pipe, suction, tank, water
from lakewright.physics.curve import Curve, rows_of, shape_keeping, stack, straight_lines, unknown_curve
from lakewright.physics.jet import JetTable, jet_table, unknown_table
from lakewright.physics.types import GRAVITY, Array
from tests.physics.inch_pound import celsius

pytestmark = pytest.mark.law

COLD = 1.5e-6
"""Kinematic viscosity of water near 5 C [m2/s]."""


def pipes(count: int = 500, seed: int = 1) -> tuple[Array, Array, Array, Array]:
    """Bore, length, roughness, viscosity."""
    random = np.random.default_rng(seed)
    return (
        random.uniform(0.012, 0.11, count),
        random.uniform(1.0, 300.0, count),
        np.exp(random.uniform(np.log(1e-7), np.log(3e-4), count)),
        random.uniform(6.6e-7, 1.8e-6, count),
    )


def flow_at(reynolds: Array, bore: Array, viscosity: Array) -> Array:
    return reynolds * viscosity * 0.25 * np.pi * bore


# Water.


def test_water_is_heaviest_near_4_c() -> None:
    degrees = np.arange(0.0, 40.0, 0.05)
    rho = water.density(degrees + 273.15)
    heaviest = degrees[np.argmax(rho)]
    assert 3.9 <= heaviest <= 4.05
    assert np.all(np.diff(rho[degrees > 4.1]) < 0.0)
    assert np.all(np.diff(rho[degrees < 3.9]) > 0.0)


def test_warmer_water_is_thinner_and_boils_sooner() -> None:
    kelvin = np.arange(273.15, 373.0, 0.5)
    assert np.all(np.diff(water.dynamic_viscosity(kelvin)) < 0.0)
    assert np.all(np.diff(water.vapour_pressure(kelvin)) > 0.0)


@pytest.mark.parametrize(
    "function, low, high",
    [
        (water.density, 273.15, 313.15),
        (water.dynamic_viscosity, 253.15, 383.15),
        (water.vapour_pressure, 273.15, 647.096),
    ],
)
def test_water_is_unknown_outside_its_range(function, low: float, high: float) -> None:  # type: ignore[no-untyped-def]
    assert np.isfinite(function(np.array([low, high]))).all()
    assert np.isnan(function(np.array([low - 0.01, high + 0.01, np.nan]))).all()


# Atmosphere and suction.


def test_higher_means_thinner_air_and_more_head_missing() -> None:
    height = np.linspace(-500.0, 11000.0, 1000)
    pressure = atmosphere.atmospheric_pressure(height)
    assert np.all(np.diff(pressure) < 0.0)
    assert np.all(np.diff(atmosphere.barometric_loss(pressure)) > 0.0)


def test_nothing_is_missing_at_the_sea() -> None:
    assert atmosphere.atmospheric_pressure(np.array([0.0]))[0] == 101325.0
    assert atmosphere.barometric_loss(np.array([101325.0]))[0] == 0.0


def test_air_bears_itself() -> None:
    """dP/dz = -rho g, with the density of a perfect gas at the standard temperature."""
    height = np.linspace(0.0, 4000.0, 200)
    step = 1.0
    slope = (atmosphere.atmospheric_pressure(height + step) - atmosphere.atmospheric_pressure(height - step)) / (
        2 * step
    )
    geopotential = 6356766.0 * height / (6356766.0 + height)
    gas = (
        8314.32 / 28.9644
    )  # Source: US Standard Atmosphere 1976, table 2: gas constant and molar mass of air at the sea.
    rho = atmosphere.atmospheric_pressure(height) / (gas * (288.15 - 0.0065 * geopotential))
    gravity = GRAVITY * (6356766.0 / (6356766.0 + height)) ** 2
    np.testing.assert_allclose(slope, -rho * gravity, rtol=1e-6)


def test_heads_add_up() -> None:
    random = np.random.default_rng(4)
    pressure, rho = random.uniform(0.0, 1e5, 100), random.uniform(992.0, 1000.0, 100)
    np.testing.assert_allclose(suction.head_of(pressure, rho) * rho * GRAVITY, pressure, rtol=1e-14)
    air, vapour, lift = random.uniform(6.0, 10.0, (3, 100))
    left = suction.npsh_available(air, vapour, lift)
    np.testing.assert_allclose(left + lift + vapour, air, atol=1e-14)
    assert np.all(suction.npsh_available(air, vapour, lift + 1.0) < left)


# Friction.


def test_still_water_loses_nothing() -> None:
    bore, length, roughness, viscosity = pipes()
    still = np.zeros(500)
    assert np.all(pipe.pipe_loss(still, bore, length, roughness, viscosity) == 0.0)
    assert np.all(pipe.fitting_loss(still, np.full(500, 9.0)) == 0.0)
    assert np.all(inlet.screen_loss(still, np.full(500, 0.01)) == 0.0)
    assert np.all(pipe.velocity(still, bore) == 0.0)
    assert np.all(inlet.approach_velocity(still, bore) == 0.0)


def test_more_flow_loses_more_in_every_regime() -> None:
    bore, length, roughness, viscosity = (each[:, None] for each in pipes(60))
    flow = flow_at(np.geomspace(1.0, 1e7, 3000)[None, :], bore, viscosity)
    loss = pipe.pipe_loss(flow, bore, length, roughness, viscosity)
    assert np.all(np.diff(loss, axis=1) > 0.0)


def test_wider_shorter_smoother_warmer_never_loses_more() -> None:
    bore, length, roughness, viscosity = pipes(2000)
    flow = np.exp(np.random.default_rng(2).uniform(np.log(1e-6), np.log(5e-3), 2000))
    loss = pipe.pipe_loss(flow, bore, length, roughness, viscosity)
    assert np.all(pipe.pipe_loss(flow, bore, 0.9 * length, roughness, viscosity) < loss)
    assert np.all(pipe.pipe_loss(flow, bore, length, 0.9 * roughness, viscosity) <= loss)
    # In the critical zone the factor rises with the Reynolds number, and a wider pipe still loses less.
    assert np.all(pipe.pipe_loss(flow, 1.05 * bore, length, roughness, viscosity) < loss)
    reynolds = pipe.velocity(flow, bore) * bore / viscosity
    steady = (reynolds < 2000.0 * 0.95) | (reynolds > 4000.0)
    warmer = pipe.pipe_loss(flow, bore, length, roughness, 0.95 * viscosity)
    assert np.all(warmer[steady] <= loss[steady] * (1.0 + 1e-14))


def test_two_pipes_in_a_row_are_one_pipe() -> None:
    bore, length, roughness, viscosity = pipes()
    flow = np.exp(np.random.default_rng(3).uniform(np.log(1e-6), np.log(5e-3), 500))
    whole = pipe.pipe_loss(flow, bore, length, roughness, viscosity)
    parts = sum(pipe.pipe_loss(flow, bore, share * length, roughness, viscosity) for share in (0.3, 0.7, 0.0))
    np.testing.assert_allclose(parts, whole, rtol=1e-13)


@pytest.mark.parametrize("edge", [pipe.LAMINAR_END, pipe.TURBULENT_START])
@pytest.mark.parametrize("relative", [0.0, 1e-5, 1e-3, 0.05])
def test_friction_does_not_jump(edge: float, relative: float) -> None:
    around = np.array([edge * (1.0 - 1e-9), edge, edge * (1.0 + 1e-9)])
    factor = pipe.friction_factor(around, np.full(3, relative))
    np.testing.assert_allclose(factor, factor[1], rtol=1e-8)


def test_friction_is_hagen_and_poiseuille_below_2000() -> None:
    reynolds = np.geomspace(1e-3, 2000.0, 500)
    np.testing.assert_allclose(pipe.friction_factor(reynolds, np.full(500, 0.03)), 64.0 / reynolds, rtol=1e-14)


def test_laminar_loss_grows_with_flow_itself() -> None:
    """32 nu V L / (g D^2), whatever the roughness."""
    bore, length, roughness, viscosity = pipes()
    flow = flow_at(np.random.default_rng(6).uniform(1.0, 2000.0, 500), bore, viscosity)
    expected = 32.0 * viscosity * pipe.velocity(flow, bore) * length / (GRAVITY * bore * bore)
    np.testing.assert_allclose(pipe.pipe_loss(flow, bore, length, roughness, viscosity), expected, rtol=1e-12)


def test_colebrook_closes_its_own_equation() -> None:
    reynolds, relative = np.meshgrid(np.geomspace(4e3, 1e8, 200), [0.0, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 0.05])
    factor = pipe.colebrook(reynolds.ravel(), relative.ravel())
    root = np.sqrt(factor)
    # Clamond's constants carry -2 log10(x / 3.7 + 2.51 / (Re sqrt f)) to 18 digits.
    right = -2.0 * np.log10(relative.ravel() / 3.7 + 2.51 / (reynolds.ravel() * root))
    np.testing.assert_allclose(1.0 / root, right, rtol=2e-11)


def test_power_of_friction_is_its_slope() -> None:
    reynolds = np.concatenate(
        [np.geomspace(10.0, 1990.0, 100), np.geomspace(2010.0, 3980.0, 100), np.geomspace(4020.0, 1e7, 200)]
    )
    relative = np.resize([0.0, 1e-5, 1e-3, 0.03], reynolds.size)
    factor, power = pipe.friction_factor_with_power(reynolds, relative)
    step = 1e-4
    more = pipe.friction_factor(reynolds * np.exp(step), relative)
    less = pipe.friction_factor(reynolds * np.exp(-step), relative)
    np.testing.assert_allclose(power, np.log(more / less) / (2.0 * step), atol=2e-7)
    assert factor.tobytes() == pipe.friction_factor(reynolds, relative).tobytes()


# Inlet.


def test_valve_loses_more_the_faster_and_the_less_open() -> None:
    speed = np.linspace(0.0, 4.0, 500)
    arguments = [np.full(500, value) for value in (9.0, 0.6, 0.35, 1.0)]
    loss = inlet.valve_loss(speed, *arguments)
    assert np.all(np.diff(loss) >= 0.0)
    assert np.all(inlet.valve_loss(speed, *arguments[:3], np.full(500, 0.5)) >= loss)
    assert np.all(loss >= 0.35)


def test_valve_loss_is_held_below_full_lift_without_a_jump() -> None:
    full = np.full(3, 0.6)
    speed = np.array([0.0, 0.6 * (1.0 - 1e-9), 0.6 * (1.0 + 1e-9)])
    loss = inlet.valve_loss(speed, np.full(3, 40.0), full, np.zeros(3), np.ones(3))
    np.testing.assert_allclose(loss, 40.0 * 0.6**2 / (2.0 * GRAVITY), rtol=1e-8)


def test_half_open_valve_loses_four_times() -> None:
    speed, one = np.array([0.8, 2.5]), np.ones(2)
    whole = inlet.valve_loss(speed, 9.0 * one, 0.6 * one, 0.0 * one, one)
    np.testing.assert_allclose(inlet.valve_loss(speed, 9.0 * one, 0.6 * one, 0.0 * one, 0.5 * one), 4.0 * whole)


def test_missing_valve_loses_nothing() -> None:
    nothing = np.zeros(4)
    assert np.all(inlet.valve_loss(np.array([0.0, 0.1, 1.0, 3.0]), nothing, nothing, nothing, np.ones(4)) == 0.0)


def test_half_the_screen_loses_four_times() -> None:
    flow, area = np.array([1e-3, 2e-3]), np.array([0.02, 0.03])
    np.testing.assert_allclose(inlet.screen_loss(flow, 0.5 * area), 4.0 * inlet.screen_loss(flow, area), rtol=1e-14)
    np.testing.assert_allclose(inlet.screen_loss(2.0 * flow, area), 4.0 * inlet.screen_loss(flow, area), rtol=1e-14)
    assert np.all(inlet.approach_velocity(flow, 2.0 * area) < inlet.approach_velocity(flow, area))


def test_denser_water_lifts_the_disc_sooner() -> None:
    lifted = inlet.full_lift_velocity(np.array([20.0, 20.0, 45.0]), np.array([990.0, 1000.0, 1000.0]))
    assert lifted[0] > lifted[1]
    assert lifted[2] == pytest.approx(lifted[1] * 2.25)


def test_faster_water_asks_more_cover() -> None:
    speed = np.linspace(0.0, 1.52, 400)
    assert np.all(np.diff(inlet.vortex_cover(speed, np.full(400, 0.04))) > 0.0)
    assert np.all(np.diff(inlet.tabulated_cover(speed)) >= 0.0)
    still = np.array([0.0])
    assert inlet.vortex_cover(still, np.array([0.04]))[0] == 0.04


def test_wider_inlet_asks_less_cover_only_up_to_a_size() -> None:
    """At equal flow the least cover is five thirds of a bore that grows as flow to the power 0.4."""
    flow = np.array([6.309e-4])
    bore = np.geomspace(0.01, 0.4, 4001)
    cover = inlet.vortex_cover(pipe.velocity(flow, bore), bore)
    least = np.argmin(cover)
    assert bore[least] == pytest.approx((1.5 * 2.3 * 4.0 / (np.pi * np.sqrt(GRAVITY)) * flow[0]) ** 0.4, rel=2e-3)
    assert cover[least] == pytest.approx(5.0 / 3.0 * bore[least], rel=2e-3)
    assert np.all(np.diff(cover[: least - 5]) < 0.0)
    assert np.all(np.diff(cover[least + 5 :]) > 0.0)


def test_cover_table_allows_nothing_above_5_ft_a_second() -> None:
    edge = 5.0 * 0.3048
    assert np.isfinite(inlet.tabulated_cover(np.array([edge]))[0])
    assert np.isinf(inlet.tabulated_cover(np.array([edge * (1.0 + 1e-12)]))[0])


# Tank.


def tanks(count: int = 300) -> tuple[Array, Array, Array, Array]:
    random = np.random.default_rng(8)
    cut_in = random.uniform(1.2e5, 3e5, count)
    return (
        cut_in - random.uniform(0.0, 3e4, count),
        cut_in,
        cut_in + random.uniform(7e4, 2e5, count),
        random.uniform(6e4, 1.02e5, count),
    )


def test_drawdown_is_a_share_and_grows_with_precharge_and_span() -> None:
    precharge, cut_in, cut_out, air = tanks()
    share = tank.drawdown_share(precharge, cut_in, cut_out, air)
    assert np.all((share > 0.0) & (share < 1.0))
    assert np.all(tank.drawdown_share(precharge - 1e4, cut_in, cut_out, air) < share)
    assert np.all(tank.drawdown_share(precharge, cut_in, cut_out + 1e4, air) > share)
    assert np.all(tank.drawdown_share(precharge, cut_in, cut_in, air) == 0.0)


def test_constant_flow_fills_the_drawdown() -> None:
    precharge, cut_in, cut_out, air = tanks()
    flow = np.full(300, 7e-4)
    seconds = tank.filling_time(precharge, cut_in, cut_out, air, (flow, flow, flow))
    # Three nodes are exact to the fifth power: 1/(p + P)2 over the widest span here is 4e-4 off at most.
    np.testing.assert_allclose(seconds * flow, tank.drawdown_share(precharge, cut_in, cut_out, air), rtol=4e-4)


def test_pump_that_stops_short_never_fills() -> None:
    some, none = np.array([5e-4]), np.array([0.0])
    pressures = (np.array([1.9e5]), np.array([2.1e5]), np.array([3.4e5]), np.array([1e5]))
    assert np.isinf(tank.filling_time(*pressures, (some, some, none))[0])
    assert np.isfinite(tank.filling_time(*pressures, (some, some, some))[0])


def test_nodes_lie_between_and_weights_add_up() -> None:
    low, high = np.array([2e5]), np.array([3.5e5])
    first, middle, last = tank.filling_pressures(low, high)
    assert low < first < middle < last < high
    assert sum(tank.GAUSS_WEIGHTS) == pytest.approx(2.0, abs=1e-15)
    # Exact to the fifth power on -1 to 1.
    for power in range(6):
        whole = sum(weight * node**power for weight, node in zip(tank.GAUSS_WEIGHTS, tank.GAUSS_NODES, strict=True))
        assert whole == pytest.approx((1.0 - (-1.0) ** (power + 1)) / (power + 1), abs=1e-15)


# Curves.


def pump_points(seed: int) -> tuple[list[float], list[float]]:
    random = np.random.default_rng(seed)
    count = int(random.integers(2, 9))
    flow = np.concatenate([[0.0], np.cumsum(random.uniform(1e-4, 5e-4, count - 1))])
    head = 45.0 - np.concatenate([[0.0], np.cumsum(random.uniform(0.05, 9.0, count - 1))])
    return list(flow), list(head)


@pytest.mark.parametrize("make", [shape_keeping, straight_lines])
@pytest.mark.parametrize("seed", range(40))
def test_curve_goes_through_its_points_and_never_turns(make, seed: int) -> None:  # type: ignore[no-untyped-def]
    flow, head = pump_points(seed)
    curve = make(flow, head)
    np.testing.assert_allclose(curve.at(np.array(flow)), head, atol=1e-12)
    between = curve.at(np.linspace(0.0, flow[-1], 2000))
    assert np.all(np.diff(between) <= 1e-12)


@pytest.mark.parametrize("make", [shape_keeping, straight_lines])
def test_curve_is_never_carried_past_its_points(make) -> None:  # type: ignore[no-untyped-def]
    flow, head = pump_points(3)
    curve = make(flow, head)
    last = flow[-1]
    assert np.isfinite(curve.at(np.array([last]))[0])
    assert np.isnan(curve.at(np.array([last * (1.0 + 1e-12), 2.0 * last, np.inf]))).all()
    assert np.all(curve.at(np.array([-1e-3, -1e-12, 0.0])) == head[0])


def test_droop_is_kept_and_not_smoothed_away() -> None:
    curve = shape_keeping([0.0, 1.0, 2.0, 3.0], [40.0, 42.0, 38.0, 20.0])
    near = curve.at(np.linspace(0.0, 3.0, 3001))
    assert near.max() == 42.0
    assert np.argmax(near) == 1000


def test_straight_lines_lie_above_a_curve_that_bends_up() -> None:
    flow = np.array([0.0, 1.0, 2.0, 3.0])
    required = 1.0 + 0.5 * flow**2
    x = np.linspace(0.0, 3.0, 301)
    assert np.all(straight_lines(list(flow), list(required)).at(x) >= 1.0 + 0.5 * x**2 - 1e-12)


def test_nobody_knows_an_unknown_curve_or_table() -> None:
    x = np.array([0.0, 1.0, 5.0])
    assert np.isnan(unknown_curve().at(x)).all()
    assert np.isnan(unknown_table().at(x, x)[0]).all()
    assert np.isnan(unknown_table().rest_pressure(x)).all()
    mixed = stack([unknown_curve(), straight_lines([0.0, 1.0, 2.0], [3.0, 2.0, 0.0])])
    answer = mixed.at(np.array([[0.5], [0.5]]))
    assert np.isnan(answer[0, 0])
    assert answer[1, 0] == 2.5


def test_unknown_x_gives_unknown_y() -> None:
    assert np.isnan(straight_lines([0.0, 1.0], [2.0, 1.0]).at(np.array([np.nan]))[0])


def test_slope_of_cells_is_a_central_difference() -> None:
    flow, head = pump_points(5)
    curve = shape_keeping(flow, head)
    x = np.linspace(flow[0], flow[-1], 500)[1:-1]
    start, _, c1, c2, c3 = curve.cells(x)
    u, step = x - start, 1e-9
    slope = c1 + u * (2.0 * c2 + 3.0 * u * c3)
    away = np.min(np.abs(x[:, None] - np.array(flow)), axis=1) > 2.0 * step
    difference = (curve.at(x + step) - curve.at(x - step)) / (2.0 * step)
    np.testing.assert_allclose(slope[away], difference[away], rtol=1e-4, atol=1.0)


def test_rows_of_a_batch_come_in_the_order_asked() -> None:
    batch = stack([straight_lines([0.0, 1.0], [value, 0.0]) for value in (5.0, 6.0, 7.0)])
    picked: Curve = rows_of(batch, np.array([2, 0]))
    np.testing.assert_array_equal(picked.at(np.zeros((2, 1)))[:, 0], [7.0, 5.0])


# Jet tables.


def table() -> JetTable:
    """Falls with lift and with pressure to nothing at the last pressure; the rows are invented."""
    return jet_table(
        [1.5, 3.0, 4.5, 6.0, 7.5],
        [0.0, 1.4e5, 2.1e5, 2.8e5, 3.5e5],
        [
            [6.0e-4, 6.0e-4, 5.7e-4, 3.0e-4, 0.0],
            [5.4e-4, 5.4e-4, 5.0e-4, 2.2e-4, 0.0],
            [4.7e-4, 4.7e-4, 4.2e-4, 1.0e-4, 0.0],
            [3.9e-4, 3.8e-4, 3.0e-4, 0.0, 0.0],
            [2.9e-4, 2.7e-4, 1.4e-4, 0.0, 0.0],
        ],
    )


def test_jet_gives_its_corners_back() -> None:
    jet = table()
    value = jet.at(np.array([1.5, 4.5, 7.5, 6.0]), np.array([0.0, 2.1e5, 3.5e5, 2.8e5]))[0]
    np.testing.assert_allclose(value, [6.0e-4, 4.2e-4, 0.0, 0.0], atol=1e-18)


def test_jet_falls_with_lift_and_with_pressure() -> None:
    jet = table()
    lift, pressure = np.linspace(-1.0, 9.0, 201), np.linspace(-1e4, 4e5, 201)
    value, by_lift, by_pressure = jet.at(lift[:, None] + 0.0 * pressure, pressure + 0.0 * lift[:, None])
    assert np.all(np.diff(value, axis=0) <= 1e-18)
    assert np.all(np.diff(value, axis=1) <= 1e-18)
    assert np.all(by_lift <= 0.0)
    assert np.all(by_pressure <= 0.0)
    assert value.min() >= -1e-18
    assert value.max() == pytest.approx(6.0e-4)


def test_jet_is_held_at_its_edges() -> None:
    jet = table()
    inside, outside = np.array([1.5, 7.5]), np.array([-3.0, 12.0])
    pressure = np.array([1e5, 1e5])
    np.testing.assert_array_equal(jet.at(inside, pressure)[0], jet.at(outside, pressure)[0])
    assert np.all(jet.at(outside, pressure)[1] == 0.0)
    assert np.all(jet.at(inside, np.array([-1e5, 9e5]))[2] == 0.0)


def test_slopes_of_jet_are_central_differences() -> None:
    jet = table()
    random = np.random.default_rng(21)
    lift, pressure = random.uniform(1.6, 7.4, 400), random.uniform(1e3, 3.45e5, 400)
    _, by_lift, by_pressure = jet.at(lift, pressure)
    off_lines = (np.min(np.abs(lift[:, None] - [3.0, 4.5, 6.0]), axis=1) > 1e-3) & (
        np.min(np.abs(pressure[:, None] - [1.4e5, 2.1e5, 2.8e5]), axis=1) > 10.0
    )
    up, across = 1e-4, 1.0
    slope = (jet.at(lift + up, pressure)[0] - jet.at(lift - up, pressure)[0]) / (2.0 * up)
    np.testing.assert_allclose(by_lift[off_lines], slope[off_lines], atol=1e-13)
    slope = (jet.at(lift, pressure + across)[0] - jet.at(lift, pressure - across)[0]) / (2.0 * across)
    np.testing.assert_allclose(by_pressure[off_lines], slope[off_lines], atol=1e-17)


def test_jet_at_its_rest_pressure_gives_nothing() -> None:
    jet = table()
    lifts = np.array([1.5, 3.0, 4.5, 6.0, 7.5])
    rest = jet.rest_pressure(lifts)
    np.testing.assert_allclose(rest, [3.5e5, 3.5e5, 3.5e5, 2.8e5, 2.8e5])
    assert np.all(jet.at(lifts, rest)[0] <= 1e-18)
    across = np.linspace(0.0, 9.0, 91)
    assert np.all(np.diff(jet.rest_pressure(across)) <= 1e-9)


# One suction line from end to end, worked beforehand with another library: not print.


def test_npsh_of_one_line_worked_beforehand() -> None:
    foot, inch, gpm = 0.3048, 0.0254, 3.785411784e-3 / 60.0
    warm = celsius(15.0)
    rho = water.density(warm)
    nu = water.dynamic_viscosity(warm) / rho
    flow, bore = np.array([12.0 * gpm]), np.array([1.380 * inch])
    speed = pipe.velocity(flow, bore)
    roughness = np.array([1.5e-6])
    friction = pipe.pipe_loss(flow, bore, np.array([60.0 * foot]), roughness, nu)
    # Poppet foot valve 420 x 0.022, two ells 60 x 0.022, two inserts 0.826.
    fittings = pipe.fitting_loss(speed, np.array([9.24 + 1.32 + 0.826]))
    air = suction.head_of(atmosphere.atmospheric_pressure(np.array([1000.0 * foot])), rho)
    vapour = suction.head_of(water.vapour_pressure(warm), rho)
    left = suction.npsh_available(air, vapour, 10.0 * foot + friction + fittings)
    assert round(speed[0] / foot, 3) == 2.574
    assert round(pipe.friction_factor(speed * bore / nu, roughness / bore)[0], 5) == 0.02483
    assert round(friction[0] / foot, 3) == 1.334
    assert round(fittings[0] / foot, 3) == 1.172
    assert round(left[0] / foot, 2) == 19.64
    assert round(left[0], 3) == 5.987


def test_a_pipe_left_whole_loses_not_a_bit_more_and_a_narrower_one_always_more() -> None:
    opening = np.linspace(0.01, 1.0, 400)
    found = pipe.narrowing_coefficient(opening)
    assert found[-1] == 0.0
    assert np.all(np.diff(found) < 0.0)
    # The jet is narrower than its hole, so it loses more than an enlargement from the hole itself.
    assert np.all(found[:-1] > ((1.0 - opening[:-1]) / opening[:-1]) ** 2)
