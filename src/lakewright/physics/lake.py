"""Light and layers of a lake: how deep daylight reaches, and how deep the summer's warm water lies."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import GRAVITY, Array

DISC_CONSTANT = 1.45
"""Attenuation times depth at which a white disk fades [-]. Source: Walker (1980), as two pages restate it. Clear and
middling lakes have 1.2 to 1.9; the smaller it is, the deeper the light is taken to reach."""

FADED = 0.01
"""Share of daylight under which water plants and algae no longer live on it [-]. Source: Reinart and others (2000): the
level without growth lies near this depth in 13 lakes."""

AIR_DENSITY = 1.2
"""Of cool air [kg/m3]. Source: US Standard Atmosphere 1976, 1.225 at 15 C; 1.2 near 20 C."""

AIR_DRAG = 1.3e-3
"""Drag of the wind on a lake [-]. memory: the usual figure for winds of 5 to 15 m/s."""


def light_attenuation(disc_depth: Array) -> Array:
    """How fast daylight fades with depth, by where a white disk fades from sight.

    Parameters
    ----------
    disc_depth : [m], above 0

    Returns
    -------
    [1/m], same shape

    Source: as `DISC_CONSTANT`.

    >>> round(float(light_attenuation(np.array([4.0]))[0]), 4)
    0.3625
    """
    return DISC_CONSTANT / disc_depth


def light_depth(attenuation: Array, light_share: Array) -> Array:
    """Depth at which a share of the daylight at the surface is left.

    Parameters
    ----------
    attenuation : [1/m], above 0
    light_share : [share], above 0

    Returns
    -------
    [m], broadcast shape

    Source: Beer's law.

    >>> round(float(light_depth(np.array([0.425]), np.array([0.01]))[0]), 2)
    10.84
    """
    return -np.log(light_share) / attenuation


def wind_stress(wind: Array) -> Array:
    """Pull of the wind on a square metre of water.

    Parameters
    ----------
    wind : [m/s] at 10 m

    Returns
    -------
    [Pa], same shape

    Source: as `AIR_DENSITY` and `AIR_DRAG`.

    >>> round(float(wind_stress(np.array([10.0]))[0]), 3)
    0.156
    """
    return AIR_DENSITY * AIR_DRAG * wind * wind


def warm_layer(stress: Array, density_step: Array, fetch: Array) -> Array:
    """Depth of a small lake's warm water at the end of summer.

    Parameters
    ----------
    stress : [Pa] of a late-summer storm
    density_step : [kg/m3] by which the deep water is heavier, above 0
    fetch : [m] length of the lake, under 5000

    Returns
    -------
    [m], broadcast shape; nan where the deep water is no heavier

    Source: Gorham and Boyce (1989), abstract: twice the root of stress over g times the step, times the root of length.

    >>> round(float(warm_layer(np.array([0.15]), np.array([1.5]), np.array([1000.0]))[0]), 3)
    6.387
    """
    layered = density_step > 0.0
    step = np.where(layered, density_step, np.nan)
    return 2.0 * np.sqrt(stress * fetch / (GRAVITY * step))
