"""When water moves the grains of a bed, and how deep it digs round what stands there."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import GRAVITY, Array

# ours: a grain for each bed without cohesion that nobody has sieved, fine ones, as these move first. What is not named
# here does not move by the grain: rock, boulders and concrete stay, mud and clay hold together.
_GRAIN = {"silt": 3e-5, "weed": 3e-5, "sand": 3e-4, "gravel": 8e-3}

UNDER_WATER = 1.65
"""Density of quartz over that of water, less 1 [-]. memory: 2650 kg/m3 is taken everywhere."""

VISCOSITY = 1.3e-6
"""Of water at 10 C [m2/s]. memory; it moves the result little."""

COARSE = 5e-4
"""Grain [m] from which the flow at the bed counts as rough. Source: Komar and Miller, 1974 (memory)."""


def grain_of(bed: str) -> float:
    """Grain that is taken for a bed [m]; infinite for one that does not move, nan for one nobody named.

    >>> grain_of("sand"), grain_of("rock"), grain_of("unknown")
    (0.0003, inf, nan)
    """
    return np.nan if bed in ("", "unknown") else _GRAIN.get(bed, np.inf)


def stirring_velocity(grain: Array, period: Array) -> Array:
    """Velocity of waves at the bed that begins to move its grains.

    Parameters
    ----------
    grain : [m], infinite for a bed that does not move
    period : [s] of the wave

    Returns
    -------
    [m/s], broadcast shape; infinite for such a bed

    Source: Komar and Miller (1974), as Soulsby (1997) writes them: [0.118 g (s - 1)]^(2/3) d^(1/3) T^(1/3) of fine
    grains, [1.09 g (s - 1)]^(4/7) d^(3/7) T^(1/7) from 0.5 mm (memory: no text at hand).

    >>> [round(float(stirring_velocity(np.array([d]), np.array([2.5]))[0]), 2) for d in (3e-4, 8e-3)]
    [0.14, 0.74]
    """
    fine = (0.118 * GRAVITY * UNDER_WATER) ** (2.0 / 3.0) * np.cbrt(grain * period)
    coarse = (1.09 * GRAVITY * UNDER_WATER) ** (4.0 / 7.0) * grain ** (3.0 / 7.0) * period ** (1.0 / 7.0)
    moving: Array = np.where(grain < COARSE, fine, coarse)
    return moving


def scouring_speed(grain: Array, depth: Array) -> Array:
    """Speed of a current, mean over the depth, that begins to move the grains of the bed.

    Parameters
    ----------
    grain : [m], infinite for a bed that does not move
    depth : [m] of water

    Returns
    -------
    [m/s], broadcast shape; infinite for such a bed

    Source: Soulsby (1997), threshold of a current: 7 (h/d)^(1/7) [g (s - 1) d f]^(1/2), f the threshold of Shields,
    0.30 / (1 + 1.2 D*) + 0.055 [1 - exp(-0.020 D*)] (memory: no text at hand).

    >>> [round(float(scouring_speed(np.array([d]), np.array([2.0]))[0]), 2) for d in (3e-4, 8e-3)]
    [0.35, 1.3]
    """
    moves = np.isfinite(grain)
    size = np.where(moves, grain, 1.0)
    star = size * np.cbrt(GRAVITY * UNDER_WATER / (VISCOSITY * VISCOSITY))
    shields = 0.30 / (1.0 + 1.2 * star) + 0.055 * -np.expm1(-0.020 * star)
    speed = 7.0 * (depth / size) ** (1.0 / 7.0) * np.sqrt(GRAVITY * UNDER_WATER * size * shields)
    wanted: Array = np.where(moves, speed, grain + 0.0 * speed)
    return wanted


def dug_share(water_speed: Array, moving_speed: Array) -> Array:
    """Share of the full hole that is dug at a speed of the water.

    Parameters
    ----------
    water_speed, moving_speed : [m/s], in waves or in a current; the second begins to move the grains

    Returns
    -------
    [-], broadcast shape, 0 to 1: none up to half the moving speed, all from it on

    Source: clear-water scour grows in a straight line from half of what moves the grains (memory: no text at hand).

    >>> dug_share(np.array([0.1, 0.2, 0.3, 0.5]), np.array([0.4])).round(2).tolist()
    [0.0, 0.0, 0.5, 1.0]
    """
    return np.clip(2.0 * water_speed / moving_speed - 1.0, 0.0, 1.0)


def scour_in_current(width: Array) -> Array:
    """Depth of the hole that a current digs in sand round an upright member.

    Parameters
    ----------
    width : [m]

    Returns
    -------
    [m], same shape

    Source: Sumer, Fredsoe and Christiansen (1992), 1.3 D with a standard deviation of 0.7, as restated.

    >>> round(float(scour_in_current(np.array([0.04826]))[0]), 3)
    0.063
    """
    return 1.3 * width


def scour_in_waves(width: Array, cycle_number: Array) -> Array:
    """Depth of the hole that waves dig in sand round an upright member.

    Parameters
    ----------
    width : [m]
    cycle_number : [-]

    Returns
    -------
    [m], broadcast shape; none up to 6

    Source: Sumer, Fredsoe and Christiansen (1992), as restated. For short stubs too (ours: never less than a pile).

    >>> round(float(scour_in_waves(np.array([0.04826]), np.array([14.12]))[0]), 3)
    0.014
    """
    return 1.3 * width * -np.expm1(-0.03 * np.maximum(cycle_number - 6.0, 0.0))


def scour_under_pipe(width: Array, cycle_number: Array) -> Array:
    """Depth of the hollow that waves dig under a pipe on sand, into which it then settles.

    Parameters
    ----------
    width : [m]
    cycle_number : [-] 0 or more

    Returns
    -------
    [m], broadcast shape

    Source: Sumer and Fredsoe (1990), 0.1 D times the root of the cycle number (memory: no text at hand).

    >>> round(float(scour_under_pipe(np.array([0.04826]), np.array([13.88]))[0]), 3)
    0.018
    """
    return 0.1 * width * np.sqrt(cycle_number)
