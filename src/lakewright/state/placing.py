"""The place in the water: breakers, troughs, boats, stirred silt, light and layers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.physics import lake, water, waves
from lakewright.physics.types import Array
from lakewright.state.cases import WAKE, Cases
from lakewright.state.facts import Facts
from lakewright.state.lake import inlet_top
from lakewright.state.weather import LEAST_DEPTH, Weather, bed_speed, largest_waves, level_then

Mask = NDArray[np.bool_]

EVERY_YEAR = 2.0 / 3.0
"""ours: wind of a storm of every year over that of the design storm, once in ten years or in fifty: how silt lies is
settled by the storms that come each year."""

LATE_WIND = 10.0
"""ours: wind [m/s] of a late-summer storm, a fresh breeze, which sets how deep the warm water lies."""

DEEP_WATER = 279.15
"""ours: temperature [K] of a lake's deep water in summer, 6 C."""

LAYERED = 288.15
"""ours: warmest day [K] at or under which a lake is taken as mixed, 15 C."""


@dataclass(frozen=True, eq=False, repr=False)
class Placing:
    """What the place gives the inlet. Weather cases first, then days."""

    waves: Mask  # weather: whether any come where the inlet stands on the bed
    depth: Array  # weather: m of water at the stand
    breaks_in: Array  # weather: m of water in which the largest wave breaks
    trough_cover: Array  # weather: m of water over the inlet in the trough of that wave
    stirred: Array  # weather: m/s along the bed in the waves of every year
    over_silt: Mask  # weather
    boats: Mask  # days: open water that boats pass over
    boat_cover: Array  # days: m of water over the inlet there
    cover: Array  # days: m of water over the inlet
    lies_still: Mask  # days of open water, of a lake
    light: Array  # days: m at which daylight has faded
    layered: Mask  # the same days, of a lake whose warmest day is warm
    layer: Array  # days: m of warm water at the end of summer


def placing(facts: Facts, weather: Weather, cases: Cases) -> Placing:
    """What the place of a stand gives its inlet, in every weather and on every day."""
    stand, site, ice = facts.stand, facts.placing, facts.days.ice
    top = inlet_top(facts)
    level = facts.days.level + facts.faults.level_offset
    come = (stand.on_legs != 0.0) & ~(weather.largest == 0.0)
    depth = stand.depth + weather.level
    felt = np.minimum(weather.largest, waves.BREAKING * np.maximum(depth, 0.0))
    open_water = ~(ice > 0.0)
    still = open_water & ~(site.lies_still == 0.0)
    layered = ~(site.warmest <= LAYERED)
    step = water.density(np.full_like(site.warmest, DEEP_WATER)) - water.density(site.warmest)
    late = lake.wind_stress(np.array([LATE_WIND]))
    faded = lake.light_depth(lake.light_attenuation(site.disc_depth), np.array([lake.FADED]))
    return Placing(
        waves=come,
        depth=depth + 0.0 * stand.on_legs,
        breaks_in=weather.largest / waves.BREAKING,
        trough_cover=weather.level - top - 0.5 * felt + 0.0 * stand.on_legs,
        stirred=stirred_speed(facts, cases) + 0.0 * stand.on_legs,
        over_silt=come & ~(site.silt == 0.0),
        boats=open_water & ~(site.boats == 0.0),
        boat_cover=level - top + 0.0 * (ice + site.boats),
        cover=level - top + 0.0 * ice,
        lies_still=still,
        light=faded + 0.0 * site.lies_still,
        layered=still & layered,
        layer=lake.warm_layer(late, np.where(layered, step, 1.0), site.lake_length) + 0.0 * site.lies_still,
    )


def stirred_speed(facts: Facts, cases: Cases) -> Array:
    """Speed along the bed in the waves of every year [m/s]: of a storm the significant wave, of a boat its own."""
    mild = facts.with_values({"weather.wind": EVERY_YEAR * facts.weather.wind})
    largest, peak = largest_waves(mild)
    height = largest / np.where(cases.weather_kind == WAKE, 1.0, waves.DESIGN_RATIO)
    depth = np.maximum(facts.stand.depth + level_then(mild, cases), LEAST_DEPTH)
    felt = np.minimum(height, waves.BREAKING * depth)
    return bed_speed(felt, peak, depth) + 0.0 * facts.placing.silt
