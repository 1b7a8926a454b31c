"""Waves and current at the stand, day by day and weather by weather."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lakewright.physics import water, waves, wind
from lakewright.physics.types import Array
from lakewright.state.cases import CALM, CURRENT, Cases
from lakewright.state.facts import Facts

LEAST_DEPTH = 0.3
"""ours: a stand in less water than this [m] is taken as in so much: whether it is covered is another question."""


@dataclass(frozen=True, eq=False, repr=False)
class Weather:
    """What pushes, in the weather cases."""

    largest: Array  # m, height of the largest wave where nothing breaks it
    peak: Array  # s, its period
    wave_height: Array  # m, of the wave felt at the stand, 0 for none
    period: Array  # s, of that wave
    current: Array  # m/s, mean over the depth
    running: Array  # m/s, the same without what a lake may run unmeasured
    level: Array  # m
    depth: Array  # m, of water at the stand
    density: Array  # kg/m3


def largest_waves(facts: Facts) -> tuple[Array, Array]:
    """Height [m] of the largest wave and peak period [s], in the weather cases, where nothing breaks it.

    By two laws of the wind and of boats, on every day without ice.
    """
    level = facts.days.level + facts.faults.level_offset
    ice = facts.days.ice
    open_water = np.where(ice > 0.0, 0.0, 1.0) + 0.0 * ice
    storms = _storms(facts, level)
    none = np.zeros_like(level)
    wake = facts.weather.wake
    # In each weather, (..., day) each, in the order of the cases.
    heights = [none, none, *(waves.DESIGN_RATIO * height for height, _ in storms), wake + none]
    periods = [none, none, *(period for _, period in storms), np.where(wake == 0.0, 0.0, waves.WAKE_PERIOD) + none]
    largest, peak = (_by_case([each * open_water for each in some]) for some in (heights, periods))
    return largest, peak


def level_then(facts: Facts, cases: Cases) -> Array:
    """Level of the water in the weather cases [m]."""
    return np.take(facts.days.level + facts.faults.level_offset, cases.weather_day, axis=-1)


def weather_of(facts: Facts, cases: Cases) -> Weather:
    """Waves of two laws and of boats on every day without ice, and current on every day."""
    largest, peak = largest_waves(facts)
    level = level_then(facts, cases)
    there = facts.stand.depth + level
    depth = np.maximum(there, LEAST_DEPTH)
    # On a bed that has fallen dry nothing pushes.
    wet = np.where(there > 0.0, 1.0, 0.0) + 0.0 * there
    wave_height, period = felt_wave(largest * wet, peak * wet, depth)
    least = np.where(cases.weather_kind == CURRENT, facts.weather.least_current, 0.0)
    running = np.where(cases.weather_kind == CALM, 0.0, np.take(facts.days.current, cases.weather_day, axis=-1))
    density = water.density(facts.days.temperature)
    return Weather(
        largest=largest,
        peak=peak,
        wave_height=wave_height,
        period=period,
        current=np.maximum(running, least) * wet,
        running=running * wet,
        level=level,
        depth=depth,
        density=np.take(density, cases.weather_day, axis=-1),
    )


def _storms(facts: Facts, level: Array) -> tuple[tuple[Array, Array], tuple[Array, Array]]:
    """Significant height and peak period by both laws, each with the mean of the wind that it was made for."""
    blows = facts.weather
    depth = np.maximum(blows.fetch_depth + level, LEAST_DEPTH)
    sustained = wind.sustained_wind(blows.wind, blows.averaging, blows.fetch)
    height, significant = wind.depth_limited_waves(sustained, blows.fetch, depth)
    ten_minutes = wind.averaged_wind(blows.wind, blows.averaging, np.array([wind.TEN_MINUTE_MEAN]))
    measured = wind.finite_depth_waves(ten_minutes, blows.fetch, depth)
    return (height, wind.PEAK_OVER_SIGNIFICANT * significant), measured


def _by_case(by_weather: list[Array]) -> Array:
    """Arrays over the days, one a weather, as one over the cases: day, then weather."""
    stacked = np.stack(np.broadcast_arrays(*by_weather), axis=-1)
    return np.ascontiguousarray(stacked.reshape(*stacked.shape[:-2], -1))


def bed_speed(height: Array, period: Array, depth: Array) -> Array:
    """Speed of the water along the bed under a wave [m/s]; none where there is no wave.

    Parameters
    ----------
    height : [m]; period : [s]; depth : [m]
    """
    along, _ = waves.orbital_velocity(height, period, waves.wave_number(period, depth), depth, np.zeros(1))
    return along


def felt_wave(largest: Array, peak: Array, depth: Array) -> tuple[Array, Array]:
    """Height and period of the wave that the bed feels: the largest one unless it breaks, in deep water the spectrum's.

    Parameters
    ----------
    largest : [m] where nothing breaks it; peak : [s] 0 for no wave; depth : [m]
    """
    number = waves.wave_number(peak, depth)
    height = np.where(peak == 0.0, 0.0, np.minimum(largest, waves.breaking_height(number, depth)))
    period = np.broadcast_to(peak, height.shape).copy()
    # A spectrum is dear: it is summed where it is asked for.
    deep = np.broadcast_to((number * depth > waves.DEEP) & (peak > 0.0), height.shape)
    if deep.any():
        storm = (np.broadcast_to(each, height.shape)[deep] for each in (largest / waves.DESIGN_RATIO, peak, depth))
        height[deep], period[deep] = waves.spectral_wave(*storm)
    return height, period
