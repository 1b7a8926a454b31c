"""The suction line on the bed: whether it floats, what keeps it down, where weight is no answer, and hauling it."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from lakewright.physics.force import bed_coefficients, cycle_number
from lakewright.physics.types import GRAVITY, Array, Index
from lakewright.physics.waves import breaking_height, orbital_velocity, wave_number

LINE_SAFETY = 1.1
"""Factor on what waves do to a line [-]. Source: DNV-RP-F109, equation 3.38, as restated."""

WALL_OVER_MINIMUM = 1.06
"""Average wall of a pipe over its least wall [-]. Source: Handbook of PE Pipe, 2nd ed., chapter 10, table 1."""


def bore_share(outside_ratio: Array) -> Array:
    """Bore's area over the area of the outside.

    Parameters
    ----------
    outside_ratio : [-] outside diameter over least wall

    Returns
    -------
    [share], same shape

    Source: as `WALL_OVER_MINIMUM`: (1 - 2.12 / DR) squared.

    >>> round(float(bore_share(np.array([11.0]))[0]), 4)
    0.6517
    """
    clear = 1.0 - 2.0 * WALL_OVER_MINIMUM / outside_ratio
    return clear * clear


def line_mass(outside: Array, bore: Array, material_density: Array, fill_density: Array) -> Array:
    """Mass of a line and of what is in it, on each metre: what is hauled out, full or drained.

    Parameters
    ----------
    outside : [m] diameter
    bore : [m]
    material_density : [kg/m3] of the wall
    fill_density : [kg/m3] of what is in it, 0 for air

    Returns
    -------
    [kg/m], broadcast shape

    Source: volume times density. Pipe as bought weighs some 5 % more, its wall being over the least.

    >>> round(float(line_mass(*(np.array([each]) for each in (0.04826, 0.039486, 955.0, 1000.0)))[0]), 2)
    1.8
    """
    hollow = bore * bore
    return 0.25 * np.pi * (material_density * (outside * outside - hollow) + fill_density * hollow)


def net_weight_share(bore_share: Array, air_share: Array, material_density: Array, density: Array) -> Array:
    """Weight of a line under water over the weight of the water it displaces.

    Parameters
    ----------
    bore_share : [share] bore's area over the outside's
    air_share : [share] of the bore that holds air
    material_density : [kg/m3] of the wall
    density : [kg/m3] of the water in and around it

    Returns
    -------
    [ratio], broadcast shape; less than 0 for what floats

    Source: Handbook of PE Pipe, 2nd ed., chapter 10, its K.

    >>> empty, wall, water = np.ones(1), np.array([59.6]), np.array([62.3])
    >>> round(float(net_weight_share(bore_share(np.array([11.0])), empty, wall, water)[0]), 3)
    -0.667
    """
    return material_density / density * (1.0 - bore_share) + (1.0 - air_share) * bore_share - 1.0


def sinking_mass(
    wanted_ratio: Array, spacing: Array, outside: Array, line_mass: Array, ballast_density: Array, density: Array
) -> Array:
    """Mass in air of each weight of a line that is to be heavier than water by a ratio.

    Parameters
    ----------
    wanted_ratio : [ratio] line, contents and weights over the water they displace, above 1 to sink
    spacing : [m] from one weight to the next
    outside : [m] diameter of the line
    line_mass : [kg/m] of the line and what is in it
    ballast_density : [kg/m3] above `wanted_ratio` times that of the water
    density : [kg/m3] of the water

    Returns
    -------
    [kg], broadcast shape; 0 where the line is heavy enough

    Source: Pan American Health Organization, outfalls of small diameter in polyethylene (2002), section 10.2.

    >>> given = [np.array([each]) for each in (1.3, 3.0, 0.04826, 1.80199, 2300.0, 1000.0)]
    >>> round(float(sinking_mass(*given)[0]), 2)
    3.97
    """
    displaced = 0.25 * np.pi * outside * outside * density
    short = spacing * (wanted_ratio * displaced - line_mass)
    return np.maximum(short, 0.0) / (1.0 - wanted_ratio * density / ballast_density)


def line_weight_need(
    wave_height: Array, period: Array, depth: Array, outside: Array, friction: Array, density: Array
) -> Array:
    """Submerged weight of a line, each metre, that lies still under a wave across it.

    Parameters
    ----------
    wave_height : [m] crest to trough; held at what breaks there
    period : [s] 0 for no wave
    depth : [m] of still water over the bed, above 0
    outside : [m] diameter of the line
    friction : [-] above 0
    density : [kg/m3] of the water

    Returns
    -------
    [N/m], broadcast shape; `LINE_SAFETY` in it

    Source: DNV-RP-F109, equation 3.38, no current and no bed piled against the line, as restated. Made for long heavy
    pipes, and harsh for a thin bending one: an indicator.

    >>> given = [np.array([each]) for each in (1.30711, 2.54751, 4.0, 0.04826, 0.35, 1000.0)]
    >>> round(float(line_weight_need(*given)[0]))
    29
    """
    number = wave_number(period, depth)
    held = np.where(period == 0.0, 0.0, np.minimum(wave_height, breaking_height(number, depth)))
    velocity, _ = orbital_velocity(held, period, number, depth, np.zeros_like(depth))
    level, upward = bed_coefficients(cycle_number(velocity, period, outside))
    return LINE_SAFETY * 0.5 * density * outside * velocity * velocity * (level / friction + upward)


# ours: ten times a sixteenth of some 100 m leave less than the thickness of a hair.
_ROUNDS, _PIECES = 10, 16

_FEW = 256
"""ours: of so many lines the calls cost more than the arithmetic."""


def burial_depth(
    wave_height: Array, period: Array, outside: Array, friction: Array, line_weight: Array, density: Array
) -> Array:
    """Depth of water from which outward a line's weight holds it; nearer to shore it is buried, staked or sleeved.

    Parameters
    ----------
    wave_height : [m] crest to trough, in deep water; 0 for none
    period : [s] 0 for no wave
    outside : [m] diameter of the line
    friction : [-] above 0
    line_weight : [N/m] submerged, as it lies
    density : [kg/m3] of the water

    Returns
    -------
    [m], broadcast shape; 0 where there is no wave, infinite for a line that floats

    Source: as `line_weight_need`; sought in ever smaller pieces, a fixed number of times, between the depth where the
    wave breaks and half its length, outward of which the need falls (but for a hundredth of it, where the steepest
    waves break). ours: never less deep than where the wave breaks.

    >>> given = [np.array([each]) for each in (1.30711, 2.54751, 0.04826, 0.35, 29.1, 1000.0)]
    >>> round(float(burial_depth(*given)[0]), 1)
    4.0
    """
    still = (period == 0.0) | (wave_height == 0.0)
    given = (wave_height, period, outside, friction, line_weight, density)
    moving = np.broadcast_to(~still, np.broadcast_shapes(*(each.shape for each in given)))
    # Only where a wave comes is there anything to seek.
    height, seconds, *line = (np.broadcast_to(each, moving.shape)[moving] for each in given)
    shallow = height / 0.78
    deep = shallow + GRAVITY * seconds * seconds / (2.0 * np.pi)

    def moves(depth: Array) -> NDArray[np.bool_]:
        there = (each if depth.ndim == 1 else each[:, None] for each in (height, seconds, *line))
        high, long, wide, rub, weight, heavy = there
        return np.asarray(line_weight_need(high, long, depth, wide, rub, heavy) > weight)

    for _ in range(_ROUNDS):
        at = _pieces_off(moves, shallow, deep)
        shallow, deep = (shallow + (at + more) / _PIECES * (deep - shallow) for more in (0, 1))
    reached = np.zeros(moving.shape)
    reached[moving] = np.where(np.broadcast_to(line_weight, moving.shape)[moving] > 0.0, deep, np.inf)
    return np.where(np.isnan(line_weight + friction), np.nan, reached)


def _pieces_off(moves: Callable[[Array], NDArray[np.bool_]], shallow: Array, deep: Array) -> Index:
    """How many pieces off the shore's end the line still moves, of `_PIECES` between two depths.

    Of few lines all depths are asked at once, of many one after the other, which is less work.
    """
    if len(shallow) <= _FEW:
        steps = np.arange(1, _PIECES) / _PIECES
        within = moves(shallow[:, None] + steps * (deep - shallow)[:, None])
        return np.asarray(np.cumprod(within, axis=-1).sum(axis=-1))
    least, most = np.zeros(len(shallow), dtype=np.intp), np.full(len(shallow), _PIECES)
    while np.any(most - least > 1):
        middle = (least + most) // 2
        more = moves(shallow + middle / _PIECES * (deep - shallow))
        least, most = np.where(more, middle, least), np.where(more, most, middle)
    return least


def span_deflection(line_weight: Array, spacing: Array, modulus: Array, outside: Array, bore: Array) -> Array:
    """Rise or sag of a line between two weights, if it turns freely over them.

    Parameters
    ----------
    line_weight : [N/m] submerged, less than 0 where it floats up
    spacing : [m] from one weight to the next
    modulus : [Pa] of the wall for as long as it lasts
    outside : [m] diameter
    bore : [m]

    Returns
    -------
    [m], broadcast shape; down is plus. A fifth of it if the line is held straight over the weights

    Source: beam under an even load, 5 w s4 / (384 E I), I = pi (Do4 - Di4) / 64.

    >>> given = [np.array([each]) for each in (-1.252 * 9.81, 3.0, 0.8e9, 0.04826, 0.0394863)]
    >>> round(float(span_deflection(*given)[0]), 2)
    -0.11
    """
    stiff = np.pi / 64.0 * (outside**4 - bore**4) * modulus
    squared = spacing * spacing
    return 5.0 / 384.0 * line_weight * squared * squared / stiff


def haul_force(weight: Array, friction: Array, mud_hold: Array) -> Array:
    """Pull that drags a line or a stand along the bed.

    Parameters
    ----------
    weight : [N] submerged, less than 0 for what floats
    friction : [-]
    mud_hold : [N] of mud to be broken first, 0 on a firm bed

    Returns
    -------
    [N], broadcast shape

    Source: friction on a level bed.

    >>> float(haul_force(np.array([127.0]), np.array([0.5]), np.zeros(1))[0])
    63.5
    """
    return friction * np.maximum(weight, 0.0) + mud_hold
