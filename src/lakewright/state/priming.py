"""How the line gets its first water: what it holds, and how long it takes."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright import units
from lakewright.physics.priming import evacuation_time
from lakewright.physics.types import Array
from lakewright.state.cases import CLEAN
from lakewright.state.facts import Facts
from lakewright.state.lake import lake, line_top

POURED = units.read("2 gpm", "flow")
"""ours: a can of five gallons through a funnel in two and a half minutes [m3/s]."""

NEVER = units.read("1 day", "time")
"""ours: what cannot be primed at all takes a day [s], which no limit allows."""


@dataclass(frozen=True, eq=False, repr=False)
class Priming:
    """How the line gets its first water. Standing cases."""

    asked: NDArray[np.bool_]  # the pump stands over the water and nothing is to run to it by itself
    draws_air: NDArray[np.bool_]  # the pump draws the air out itself; else the line is filled by hand
    fill: Array  # m3 of water in line, stand and casing
    time: Array  # s


def priming(facts: Facts) -> Priming:
    """How the line gets its first water, day by day."""
    days = np.arange(len(facts.day_names))
    water = lake(facts, days, np.full(len(days), CLEAN))
    suction, first = facts.suction, facts.priming
    area = 0.25 * np.pi * suction.bore * suction.bore
    length = (suction.bed_length + suction.bank_length) * (1.0 + suction.along)
    fill = area * length + first.stand_water + first.casing
    ways, ahead = _way(facts, water.level, area * length)
    # Pockets under the water give up their air last, when the vacuum is deepest.
    pockets = area * suction.pocket_length * (1.0 + suction.along)
    volumes = (*(each + pockets for each in ahead), 0.0 * ahead[-1])
    drawn = evacuation_time(volumes, (*ways, ways[-1]), first.air_rate, first.dead_head, water.atmosphere_head)
    by_hand = np.where(facts.holding.at_inlet == 1.0, fill / POURED, NEVER) + 0.0 * facts.holding.at_inlet
    draws_air = first.draws_air == 1.0
    lift = line_top(facts) - water.level
    return Priming(
        asked=(facts.holding.flooded != 1.0) & ~(lift <= 0.0),
        draws_air=draws_air,
        fill=fill + 0.0 * water.level,
        time=np.where(draws_air, np.minimum(drawn, NEVER), by_hand)
        + 0.0 * (first.draws_air + facts.holding.flooded + lift),
    )


def _way(facts: Facts, level: Array, whole: Array) -> tuple[tuple[Array, ...], tuple[Array, ...]]:
    """Heights over the water of places along the line, and air between each and the pump [m3]; under water is none."""
    route = facts.priming.route_height
    heights = [route[..., n : n + 1] - level for n in range(route.shape[-1])]
    piece = whole / (len(heights) - 1)
    dry_to, ahead = np.maximum(heights[-1], 0.0), [0.0 * heights[-1]]
    for low, high in zip(heights[-2::-1], heights[:0:-1], strict=True):
        # What of each height is over the water: a piece is dry by the share of its climb that is.
        over, dry_to = dry_to, np.maximum(low, 0.0)
        climb = np.abs(high - low)
        dry = np.minimum(np.maximum(over, dry_to) / np.maximum(climb, 1e-12), 1.0)
        ahead.append(ahead[-1] + piece * dry)
    return tuple(heights), tuple(reversed(ahead))
