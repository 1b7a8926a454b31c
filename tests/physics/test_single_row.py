"""A row's answer depends on that row alone, to the last bit: in a batch, strided, with any neighbours."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from lakewright.physics.curve import Curve, rows_of, shape_keeping, stack, straight_lines
from lakewright.physics.jet import JetTable, jet_table, stack_tables, tables_of
from lakewright.physics.types import Array
from tests.physics.formulas import Function, formulas

ROWS = 400

TUPLES = ("flows", "moduli", "air_volumes", "front_heights", "draws")
"""Parameters of several arrays each."""

pytestmark = pytest.mark.law


def draw(seed: int) -> dict[str, Array]:
    """Arguments by name, in and a little outside their ranges; a name has one range wherever it stands."""
    random = np.random.default_rng(seed)

    def between(low: float, high: float) -> Array:
        return random.uniform(low, high, ROWS)

    def over_decades(low: float, high: float) -> Array:
        return np.exp(random.uniform(np.log(low), np.log(high), ROWS))

    cut_in = between(1e5, 3e5)
    flow = over_decades(1e-7, 1e-2)
    flow[:3] = 0.0
    return {
        "flow": flow,
        "bore": between(0.012, 0.11),
        "length": between(0.0, 300.0),
        "roughness": over_decades(1e-7, 5e-4),
        "viscosity": between(6.5e-7, 1.8e-6),
        "reynolds": over_decades(1.0, 1e8),
        "relative_roughness": between(0.0, 0.05),
        "speed": between(0.0, 4.0),
        "coefficient": between(0.0, 20.0),
        "full_lift": between(0.0, 2.0),
        "opening_head": between(0.0, 1.0),
        "opening": between(0.05, 1.0),
        "open_area": over_decades(1e-4, 1e-1),
        "effective_area": over_decades(1e-3, 1e-1),
        "lift_factor": between(15.0, 60.0),
        "density": between(992.0, 1000.0),
        "temperature": between(263.0, 323.0),
        "elevation": between(-100.0, 4000.0),
        "pressure": between(0.0, 1.1e5),
        "atmosphere_head": between(5.0, 10.4),
        "vapour_head": between(0.05, 0.8),
        "suction_lift": between(-3.0, 9.0),
        "precharge": cut_in - between(0.0, 2e4),
        "cut_in": cut_in,
        "cut_out": cut_in + between(5e4, 2e5),
        "atmosphere": between(6e4, 1.02e5),
        "flows": np.stack([between(0.0, 1e-3) for _ in range(3)]),
        "moduli": np.stack([between(1e8, 3e9) for _ in range(6)]),
        "load_time": over_decades(1e3, 2e9),
        "stiffness": between(0.4, 1.7),
        "modulus": between(1e8, 3e9),
        "poisson": between(0.3, 0.45),
        "wall": between(0.001, 0.02),
        "mean_diameter": between(0.012, 0.13),
        "ovality": between(0.0, 0.1),
        "collapse_pressure": over_decades(1e4, 1e7),
        "safety": between(1.0, 3.0),
        "standing_vacuum": between(-4e5, 9e4),
        "long_allowable": over_decades(1e4, 1e6),
        "running_vacuum": between(0.0, 5e4),
        "short_allowable": over_decades(1e4, 1e6),
        "solubility": between(0.015, 0.03),
        "vapour_pressure": between(600.0, 4300.0),
        "design_stress": between(4e6, 1.4e7),
        "outside_ratio": between(7.0, 41.0),
        "inside_ratio": between(5.3, 24.0),
        "rating": between(5e5, 6e6),
        "warmth_share": between(0.2, 1.0),
        "joint_share": between(0.5, 1.0),
        "inside_pressure": between(-9e4, 6e5),
        "allowed": between(1e5, 6e6),
        "holds_at_inlet": 1.0 * (between(0.0, 1.0) > 0.5),
        "holds_at_pump": 1.0 * (between(0.0, 1.0) > 0.5),
        "airtight": between(0.0, 1.0),
        "gauge_height": between(-3.0, 8.0),
        "tank_pressure": between(1e5, 4.5e5),
        "tank_height": between(-3.0, 20.0),
        **draw_over_the_bed(between, over_decades),
        **draw_of_drinking_water(between, over_decades),
        **draw_in_winter(between),
        **draw_of_motors(between, over_decades),
        **draw_of_jets_and_waves(between, over_decades),
        **draw_of_control(between, over_decades),
    }


def draw_in_winter(between: Callable[[float, float], Array]) -> dict[str, Array]:
    """Of ice, frost, a line in the cold and shock chlorination."""
    return {
        "growth": between(5e-6, 1e-4),
        "freezing_index": between(-1e7, 2e8),
        "dry_density": between(800.0, 2200.0),
        "moisture": between(0.02, 0.5),
        "surface_index": between(1e6, 2e8),
        "season": between(5e6, 2e7),
        "heat_capacity": between(1e6, 3e6),
        "latent_heat": between(2e7, 3e8),
        "fusion": between(0.01, 2.0),
        "warmth_ratio": between(0.0, 5.0),
        "conductivity": between(0.3, 3.0),
        "correction": between(0.2, 1.0),
        "mean_date": between(2e7, 3e7),
        "date_spread": between(0.0, 2e6),
        "expansion": between(1e-5, 2e-4),
        "cooling": between(-10.0, 40.0),
        "chlorine_dose": between(0.0, 0.3),
        "label_strength": between(0.05, 0.15),
        "granule_share": between(0.5, 0.8),
    }


def draw_of_motors(
    between: Callable[[float, float], Array], over_decades: Callable[[float, float], Array]
) -> dict[str, Array]:
    """Of motors, their cable, and a tank drawn down."""
    return {
        "tank_volume": between(0.0, 0.4),
        "drawn_volume": over_decades(1e-4, 1e-1),
        "motor_power": over_decades(100.0, 8000.0),
        "voltage": between(100.0, 260.0),
        "motor_current": between(2.0, 70.0),
        "start_ratio": between(3.0, 30.0),
        "wire_resistance": over_decades(1e-3, 2e-2),
        "shaft_power": between(100.0, 3000.0),
        "motor_share": between(0.4, 0.9),
    }


def draw_of_control(
    between: Callable[[float, float], Array], over_decades: Callable[[float, float], Array]
) -> dict[str, Array]:
    """Of a drive, an open store and a trickle."""
    calm = np.where(np.arange(ROWS) < 3, 0.0, 1.0)
    return {
        "speed_ratio": between(0.3, 1.1),
        "drive_share": between(0.8, 1.0),
        "shut_off": between(10.0, 90.0),
        "store_volume": between(0.0, 8.0),
        "inflow": calm * over_decades(1e-6, 1e-3),
        "draws": np.stack([calm * over_decades(1e-6, 1e-3) for _ in range(5)]),
        "step": over_decades(60.0, 8000.0),
        "per_day": calm * between(0.1, 8.0),
        "drawdown": calm * over_decades(1e-4, 1e-1),
        "trickle": calm * over_decades(1e-7, 1e-4),
        "stop_delay": between(0.0, 60.0),
        "pump_flow": between(1e-4, 2e-3),
        "drawn": over_decades(1e-6, 2e-3),
    }


def draw_of_jets_and_waves(
    between: Callable[[float, float], Array], over_decades: Callable[[float, float], Array]
) -> dict[str, Array]:
    """Of ejectors, priming, surge and heat."""
    return {
        "motive_flow": over_decades(1e-4, 3e-3),
        "nozzle_area": over_decades(5e-6, 1e-4),
        "jet": over_decades(1e3, 1e6),
        "nozzle_loss": between(0.0, 0.2),
        "flow_ratio": between(0.0, 3.0),
        "area_ratio": between(0.1, 0.6),
        "entry_loss": between(0.0, 0.2),
        "mixing_loss": between(0.1, 0.5),
        "density_ratio": between(0.9, 1.1),
        "annulus": over_decades(1e-5, 1e-3),
        "suction_pressure": between(-1e4, 2e5),
        "cavitation": between(0.8, 1.7),
        "air_volumes": np.stack([between(0.0, 0.02) + 0.02 * n for n in (3, 2, 1, 0)]),
        "front_heights": np.stack([between(-1.0, 2.0) + 1.5 * n for n in range(4)]),
        "air_rate": over_decades(1e-5, 1e-3),
        "dead_head": between(4.0, 9.0),
        "water_modulus": between(2.0e9, 2.2e9),
        "factor": between(0.7, 1.2),
        "wave_speed": between(150.0, 1400.0),
        "stop_time": between(-0.5, 3.0).clip(0.0),
        "momentum": between(0.0, 300.0),
        "head": between(-5.0, 80.0),
        "resistance": between(0.0, 8.0),
        "efficiency": between(0.1, 0.8),
        "power": between(100.0, 2000.0),
        "casing": over_decades(5e-4, 1e-2),
        "rise": between(1.0, 70.0),
    }


def draw_over_the_bed(
    between: Callable[[float, float], Array], over_decades: Callable[[float, float], Array]
) -> dict[str, Array]:
    """Of wind, waves, current, stand and line on the bed; the first rows calm."""
    calm = np.where(np.arange(ROWS) < 3, 0.0, 1.0)
    return {
        "wind": calm * between(0.1, 35.0),
        "mast_height": between(1.0, 20.0),
        "averaging": over_decades(0.5, 5e4),
        "wanted_averaging": over_decades(0.5, 5e4),
        "disc_depth": between(0.3, 15.0),
        "grain": np.where(np.arange(ROWS) % 7 == 3, np.inf, over_decades(1e-5, 2e-2)),
        "water_speed": calm * between(0.01, 3.0),
        "moving_speed": over_decades(0.05, 3.0),
        "attenuation": over_decades(0.05, 5.0),
        "light_share": over_decades(1e-3, 1.0),
        "stress": calm * between(0.01, 0.4),
        "density_step": calm * between(0.1, 4.0),
        "duration": over_decades(60.0, 4e4),
        "fetch": over_decades(10.0, 5e4),
        "depth": over_decades(0.2, 60.0),
        "period": calm * between(0.5, 12.0),
        "peak_period": calm * between(0.5, 12.0),
        "wave_height": calm * between(0.0, 2.0),
        "significant_height": calm * between(0.0, 1.2),
        "wave_number": over_decades(0.05, 20.0),
        "above_bed": between(0.0, 2.0),
        "boat_speed": between(0.0, 15.0),
        "mean_speed": between(0.0, 3.0),
        "roughness_length": over_decades(5e-6, 4e-2),
        "velocity": calm * between(0.0, 2.0),
        "current": calm * between(0.0, 2.0),
        "acceleration": between(-2.0, 2.0),
        "width": between(0.01, 0.3),
        "area": between(0.0, 0.2),
        "volume": between(0.0, 0.01),
        "cycle_number": calm * over_decades(0.1, 300.0),
        "wave_coefficient": between(0.5, 13.0),
        "steady_coefficient": between(0.5, 2.0),
        "drag": calm * between(0.0, 50.0),
        "inertia": between(0.0, 50.0),
        "section": between(1e-3, 2e-3),
        "hollow": between(0.0, 1e-3),
        "material_density": between(900.0, 8000.0),
        "fill_density": between(0.0, 1000.0),
        "friction": between(-0.1, 0.7),
        "slope": between(0.0, 0.5),
        "reach": between(0.2, 0.8),
        "legs": np.round(between(3.0, 6.0)),
        "force": between(0.0, 100.0),
        "uplift": between(0.0, 30.0),
        "moment": between(0.0, 50.0),
        "arm": between(0.1, 0.5),
        "need": between(0.0, 200.0),
        "weight": between(-20.0, 100.0),
        "need_gain": between(0.0, 12.0),
        "kept_share": between(0.1, 0.9),
        "dry_weight": between(5.0, 100.0),
        "buoyancy": between(5.0, 100.0),
        "flotation_safety": between(1.0, 1.5),
        "load": between(0.0, 200.0),
        "pad_area": over_decades(1e-3, 1e-1),
        "side_area": over_decades(1e-3, 1e-1),
        "strength": calm * over_decades(50.0, 1e4),
        "strength_gain": calm * over_decades(50.0, 5e3),
        "mud_weight": calm * between(500.0, 8000.0),
        "firm_depth": between(0.0, 1.0),
        "bearing_factor": between(5.0, 9.0),
        "push": between(0.0, 100.0),
        "disc": between(0.03, 0.2),
        "pull_time": over_decades(1.0, 1e5),
        "rest_time": over_decades(1e2, 1e7),
        "bore_share": between(0.4, 0.9),
        "air_share": between(0.0, 1.0),
        "wanted_ratio": between(1.0, 1.6),
        "spacing": between(0.5, 5.0),
        "outside": between(0.02, 0.12),
        "line_mass": between(0.3, 12.0),
        "ballast_density": between(2000.0, 8000.0),
        "line_weight": between(-10.0, 60.0),
        "mud_hold": between(0.0, 100.0),
        "hold_distance": between(0.1, 0.7),
        "hold_height": between(0.0, 1.9),
        "lift_distance": between(0.0, 1.9),
        "twist": between(0.0, 2.5),
        "grip": between(0.9, 1.0),
        "one_lift": between(5.0, 30.0),
        "people": np.round(between(1.0, 4.0)),
    }


def draw_of_drinking_water(
    between: Callable[[float, float], Array], over_decades: Callable[[float, float], Array]
) -> dict[str, Array]:
    """Of chlorine, light and filters, a little past the ends of their tables."""
    low_flow, low_loss = between(1e-4, 3e-4), between(1e3, 9e3)
    return {
        "ph": between(5.5, 9.2),
        "residual": between(1e-4, 3.2e-3),
        "contact": over_decades(1e-2, 40.0),
        "log_reduction": np.round(between(-1.0, 4.4), 1),
        "contact_volume": between(0.01, 2.0),
        "baffling": between(0.0, 1.0),
        "dose": over_decades(5.0, 3000.0),
        "low_flow": low_flow,
        "low_loss": low_loss,
        "high_flow": 2.0 * low_flow,
        "high_loss": low_loss * between(1.9, 4.1),
        "viscous": over_decades(1e6, 1e8),
        "turbulent": over_decades(1e10, 1e11),
        "viscosity_ratio": between(0.8, 1.8),
        "dirt": between(0.0, 0.3),
        "turbidity": np.maximum(between(-1.0, 10.0), 0.0),
        "solids": between(5e-4, 2e-3),
        "caught": between(0.5, 1.0),
    }


def draw_for(name: str, seed: int) -> dict[str, Array]:
    drawn = draw(seed)
    if name == "colebrook":
        # Its law begins there; below it the two passes mean nothing.
        drawn["reynolds"] = np.maximum(drawn["reynolds"], 4000.0)
    return drawn


def flat(answer: Any) -> list[Array]:
    return list(answer) if isinstance(answer, tuple) else [answer]


def arguments(function: Function, drawn: dict[str, Array], shaped: Callable[[Array], Array]) -> list[Any]:
    names = function.__code__.co_varnames[: function.__code__.co_argcount]
    return [tuple(map(shaped, drawn[name])) if name in TUPLES else shaped(drawn[name]) for name in names]


def same_bits(one: Array, other: Array) -> bool:
    return one.shape == other.shape and one.tobytes() == np.ascontiguousarray(other).tobytes()


def strided(values: Array) -> Array:
    wide = np.full(3 * values.size, np.nan)
    wide[1::3] = values
    return wide[1::3]


def shuffled(values: Array) -> Array:
    return values[np.random.default_rng(5).permutation(values.size)]


# Neighbours must not matter: one row alone, and every row between copies of another.
@pytest.mark.parametrize("name", sorted(formulas()))
def test_row_is_its_own(name: str) -> None:
    function = formulas()[name]
    drawn = draw_for(name, sum(map(ord, name)))
    batch = flat(function(*arguments(function, drawn, lambda v: v)))
    order = np.random.default_rng(5).permutation(ROWS)
    for whole, spread, mixed, tall in zip(
        batch,
        flat(function(*arguments(function, drawn, strided))),
        flat(function(*arguments(function, drawn, shuffled))),
        flat(function(*arguments(function, drawn, lambda v: np.broadcast_to(v[:, None], (ROWS, 3))))),
        strict=True,
    ):
        assert same_bits(whole, spread)
        assert same_bits(whole[order], mixed)
        assert all(same_bits(whole, tall[:, column]) for column in range(3))
    for row in range(ROWS):
        alone = flat(function(*arguments(function, drawn, lambda v, r=row: v[r : r + 1].copy())))
        for whole, one in zip(batch, alone, strict=True):
            assert same_bits(whole[row : row + 1], one), f"{name}, row {row}"


@pytest.mark.parametrize("name", sorted(formulas()))
def test_arguments_are_left_alone(name: str) -> None:
    function = formulas()[name]
    drawn = draw_for(name, 7)
    before = {key: value.copy() for key, value in drawn.items()}
    function(*arguments(function, drawn, lambda v: v))
    assert all(same_bits(before[key], drawn[key]) for key in drawn)


def some_curves() -> list[Curve]:
    random = np.random.default_rng(11)
    curves = []
    for points in (2, 3, 4, 7, 3, 9):
        x = np.concatenate([[0.0], np.cumsum(random.uniform(1e-4, 4e-4, points - 1))])
        y = 40.0 - np.concatenate([[0.0], np.cumsum(random.uniform(0.1, 9.0, points - 1))])
        curves += [shape_keeping(list(x), list(y)), straight_lines(list(x), list(y))]
    return curves


def test_curve_of_a_batch_is_the_curve_alone() -> None:
    curves = some_curves()
    batch = stack(curves)
    x = np.random.default_rng(3).uniform(-1e-4, 3e-3, (len(curves), 64))
    together = batch.at(x)
    for row, curve in enumerate(curves):
        assert same_bits(together[row], curve.at(x[row]))
        picked = rows_of(batch, np.array([row, row]))
        assert same_bits(together[row], picked.at(np.stack([x[row], x[row]]))[1])
        for column in range(0, 64, 7):
            assert same_bits(together[row, column : column + 1], curve.at(x[row, column : column + 1]))


def some_tables() -> list[JetTable]:
    random = np.random.default_rng(13)
    tables = []
    for _ in range(5):
        lifts, pressures = np.cumsum(random.uniform(1.0, 2.0, 5)), np.cumsum(random.uniform(5e4, 1e5, 4))
        flows = np.sort(random.uniform(0.0, 1e-3, (5, 4)), axis=1)[:, ::-1].copy()
        flows[:, -1] = 0.0
        tables.append(jet_table(list(lifts), list(pressures), flows.tolist()))
    return tables


def test_table_of_a_batch_is_the_table_alone() -> None:
    tables = some_tables()
    batch = stack_tables(tables)
    random = np.random.default_rng(17)
    lift, pressure = random.uniform(-2.0, 12.0, (5, 64)), random.uniform(-1e4, 5e5, (5, 64))
    together, rest = batch.at(lift, pressure), batch.rest_pressure(lift)
    for row, table in enumerate(tables):
        alone = table.at(lift[row], pressure[row])
        assert all(same_bits(many[row], one) for many, one in zip(together, alone, strict=True))
        assert same_bits(rest[row], table.rest_pressure(lift[row]))
        picked = tables_of(batch, np.array([row]))
        assert same_bits(together[0][row : row + 1], picked.at(lift[row : row + 1], pressure[row : row + 1])[0])
        for column in range(0, 64, 7):
            point = lift[row, column : column + 1], pressure[row, column : column + 1]
            assert same_bits(together[0][row, column : column + 1], table.at(*point)[0])
