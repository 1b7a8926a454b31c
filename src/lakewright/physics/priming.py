"""Getting the air out: how long a pump that primes itself takes to draw the water up."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from lakewright.physics.tank import GAUSS_NODES, GAUSS_WEIGHTS
from lakewright.physics.types import Array

LEAST_HEAD = 1e-9
"""ours: where less air than this [m] is left, all is refused; it keeps a quotient finite until then."""


def evacuation_time(
    air_volumes: tuple[Array, ...],
    front_heights: tuple[Array, ...],
    air_rate: Array,
    dead_head: Array,
    atmosphere_head: Array,
) -> Array:
    """Time in which a pump draws water up a line by drawing out the air in it.

    Parameters
    ----------
    air_volumes : [m3] of air ahead of the water, one a point of its way from the lake to the pump, falling
    front_heights : [m] of the water's front over the lake, one a point
    air_rate : [m3/s] of air at the pump's inlet while there is no vacuum
    dead_head : [m] of water that the pump's deepest vacuum holds up, at which it moves no more air
    atmosphere_head : [m] absolute pressure of the air, as head

    Returns
    -------
    [s], broadcast shape; infinite where the way rises to the dead head or past it

    Source: Boyle's law: the air ahead expands, d(P V) = -P S dt, with S = S0 (1 - h / h_dead) falling evenly to nothing
    (ours); three Gauss nodes from point to point. A line that dips after a crest still holds the crest's height.

    >>> one = np.ones(1)
    >>> float(evacuation_time((4.0e-3 * one, 0.0 * one), (0.0 * one, 0.0 * one), 1e-3 * one, 8.0 * one, 10.3 * one)[0])
    4.0
    """
    deepest = np.minimum(dead_head, atmosphere_head)
    time, crest = 0.0 * (air_rate + deepest), np.maximum(front_heights[0], 0.0)
    # The nodes of each piece of the way along a first axis; the pieces one after the other.
    axes = max(each.ndim for each in (time, *air_volumes, *front_heights))
    share, half_weight = (0.5 * np.array(each).reshape(-1, *[1] * axes) for each in (GAUSS_NODES, GAUSS_WEIGHTS))
    share += 0.5
    with np.errstate(divide="ignore", invalid="ignore"):
        for (volume, next_volume), next_height in zip(pairwise(air_volumes), front_heights[1:], strict=True):
            climb, swept = np.maximum(next_height - crest, 0.0), volume - next_volume
            height = crest + share * climb
            # Air passed on, as large as it is at the pump: what the front sweeps, and what the rest expands by.
            passed = swept + (volume - share * swept) * climb / np.maximum(atmosphere_head - height, LEAST_HEAD)
            rate = air_rate * np.maximum(1.0 - height / dead_head, 0.0)
            first, second, third = half_weight * np.where(passed == 0.0, 0.0, passed / rate)
            time, crest = time + (first + second + third), crest + climb
    return np.where(crest >= deepest, np.inf, time) + 0.0 * crest
