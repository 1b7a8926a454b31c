"""How fast a stream runs at each height over its bed."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array

# Source: DNV-RP-F109, table of bed roughness, as restated: grains alone, so the smoother and the faster near the bed.
# ours: which row a word of the job file means: sand its medium sand, rock and concrete its coarse sand, weed its silt.
_ROUGHNESS_LENGTH = {
    "mud": 5e-6,
    "silt": 5e-6,
    "clay": 5e-6,
    "weed": 5e-6,
    "sand": 4e-5,
    "rock": 1e-4,
    "concrete": 1e-4,
    "gravel": 3e-4,
    "boulders": 4e-2,
}

MEAN_OVER_SURFACE = 0.85
"""Mean speed of a stream over the speed of its surface [-]. memory: what hydrographers use for a float."""


def roughness_length_of(bed: str) -> float:
    """Height over a bed at which a logarithmic current comes to rest [m]; nan for a bed nobody named.

    >>> roughness_length_of("gravel"), roughness_length_of("unknown")
    (0.0003, nan)
    """
    return _ROUGHNESS_LENGTH.get(bed, np.nan)


def logarithmic_current(mean_speed: Array, above_bed: Array, depth: Array, roughness_length: Array) -> Array:
    """Speed of a stream at a height over its bed, by the roughness of the bed.

    Parameters
    ----------
    mean_speed : [m/s] over the depth
    above_bed : [m] height of the place, 0 or more; held at the surface
    depth : [m], above 2.72 roughness lengths
    roughness_length : [m] height at which the current comes to rest, above 0

    Returns
    -------
    [m/s], broadcast shape; 0 below the roughness length

    Source: law of the wall, u = u* / 0.4 ln(z / z0), with its mean over the depth (DNV-RP-F109, section 3.4.2, from
    memory).

    >>> one = np.ones(1)
    >>> round(float(logarithmic_current(1.5 * one, 0.024 * one, 2.0 * one, 1e-3 * one)[0]), 3)
    0.722
    """
    z = np.clip(above_bed, roughness_length, depth)
    return mean_speed * np.log(z / roughness_length) / (np.log(depth / roughness_length) - 1.0)


def seventh_power_current(mean_speed: Array, above_bed: Array, depth: Array) -> Array:
    """Speed of a stream at a height over its bed, where nobody knows the bed.

    Parameters
    ----------
    mean_speed : [m/s] over the depth
    above_bed : [m] height of the place, 0 or more
    depth : [m], above 0

    Returns
    -------
    [m/s], broadcast shape; from half the depth upward one value

    Source: Soulsby, Dynamics of Marine Sands (1997), equation 28 (memory: no text at hand).

    >>> round(float(seventh_power_current(np.array([1.5]), np.array([0.64]), np.array([2.0]))[0]), 3)
    1.5
    """
    return mean_speed * (np.minimum(above_bed, 0.5 * depth) / (0.32 * depth)) ** (1.0 / 7.0)
