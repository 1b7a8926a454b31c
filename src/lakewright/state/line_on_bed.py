"""Whether the suction line stays on the bed, and where waves would roll it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.physics import bed_line
from lakewright.physics.footing import kept_share
from lakewright.physics.types import GRAVITY, Array
from lakewright.state.facts import Facts
from lakewright.state.weather import Weather

Mask = NDArray[np.bool_]

MOST_HEIGHTS = 2.0
"""ours: no line is asked to be held in more water than so many heights of the largest wave: the law of lying still is
made for stiff heavy pipes, and a thin line may shift a little."""


@dataclass(frozen=True, eq=False, repr=False)
class LineAtRest:
    """The line full of water. Standing cases."""

    on_bed: Mask  # not where the inlet hangs or floats
    net_share: Array  # weight of line and weights under water, over that of the water the line displaces
    empty_share: Array  # the same full of air
    full: Array  # kg/m out of the water
    drained: Array  # kg/m


@dataclass(frozen=True, eq=False, repr=False)
class LineInWaves:
    """The line under waves. Weather cases."""

    on_bed: Mask
    free_depth: Array  # m of water where the line leaves its trench or its last stake; infinite where all is held
    wave_depth: Array  # m of water up to which it must be held, 0 where no wave comes


def line_at_rest(facts: Facts, density: Array) -> LineAtRest:
    """Weight of the line in water of a density [kg/m3] a day."""
    line = facts.suction
    displaced = 0.25 * np.pi * line.outside * line.outside * density
    return LineAtRest(
        on_bed=facts.stand.on_legs != 0.0,
        net_share=line_weight(facts, density) / (GRAVITY * displaced) + 0.0 * facts.stand.on_legs,
        empty_share=line_weight(facts, density, air=1.0) / (GRAVITY * displaced) + 0.0 * facts.stand.on_legs,
        full=bed_line.line_mass(line.outside, line.bore, line.material_density, density),
        drained=bed_line.line_mass(line.outside, line.bore, line.material_density, np.zeros(1)) + 0.0 * density,
    )


def line_weight(facts: Facts, density: Array, air: float = 0.0) -> Array:
    """Weight under water of a metre of line and of the weights on it [N/m], `air` the share of the bore full of air."""
    line = facts.suction
    share = (line.bore / line.outside) ** 2
    displaced = 0.25 * np.pi * line.outside * line.outside * density
    bare = bed_line.net_weight_share(share, np.full(1, air), line.material_density, density) * displaced
    weights = kept_share(line.weight_density, density) * line.weight_mass / line.weight_spacing
    return GRAVITY * (bare + weights)


def line_in_waves(facts: Facts, weather: Weather) -> LineInWaves:
    """How deep the largest waves reach a line of that weight, weather by weather."""
    line = facts.suction
    weight = line_weight(facts, weather.density)
    rolled = bed_line.burial_depth(
        weather.largest, weather.peak, line.outside, facts.site.bed_friction, weight, weather.density
    )
    return LineInWaves(
        on_bed=facts.stand.on_legs != 0.0,
        free_depth=line.held_depth + weather.level + 0.0 * facts.stand.on_legs,
        wave_depth=np.where(weather.largest == 0.0, 0.0, np.minimum(rolled, MOST_HEIGHTS * weather.largest)),
    )
