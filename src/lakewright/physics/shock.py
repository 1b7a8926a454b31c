"""Shock chlorination: how much bleach brings a volume of water to a dose, once, before it is flushed away."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array

_LITRE = 1000.0
"""Label strength counts kilograms of chlorine in so much water [kg/m3]: a trade per cent is 10 g in a litre.
Source: 327 IAC 8-3.4-24, note to table 24-1."""


def pipe_volume(bore: Array, length: Array) -> Array:
    """Water that a pipe holds.

    Parameters
    ----------
    bore : [m]
    length : [m]

    Returns
    -------
    [m3], broadcast shape

    Source: area times length.

    >>> round(float(pipe_volume(np.array([6.0 * 0.0254]), np.array([30.48]))[0]) / 3.785411784e-3, 1)
    146.9
    """
    return 0.25 * np.pi * bore * bore * length


def bleach_volume(volume: Array, chlorine_dose: Array, label_strength: Array) -> Array:
    """Bleach that brings water to a dose.

    Parameters
    ----------
    volume : [m3] of water
    chlorine_dose : [kg/m3] of chlorine wanted
    label_strength : [share] of chlorine in the bleach, above 0; what is old has less

    Returns
    -------
    [m3], broadcast shape; what the water itself uses up is not in it

    Source: shock table of Alberta Agriculture, Agdex 716(A10), and 327 IAC 8-3.4-24, which agree on it.

    >>> round(float(bleach_volume(np.array([400.0]), np.array([0.1]), np.array([0.0525]))[0]) * 128.0 / 4.0, 1)
    24.4
    """
    return volume * chlorine_dose / (label_strength * _LITRE)


def granule_mass(volume: Array, chlorine_dose: Array, granule_share: Array) -> Array:
    """Calcium hypochlorite that brings water to a dose.

    Parameters
    ----------
    volume : [m3] of water
    chlorine_dose : [kg/m3] of chlorine wanted
    granule_share : [share] of chlorine in the granules, above 0

    Returns
    -------
    [kg], broadcast shape

    Source: as `bleach_volume`.

    >>> round(float(granule_mass(np.array([2.4 * 4.54609e-3]), np.array([0.2]), np.array([0.7]))[0]) * 1000.0, 2)
    3.12
    """
    return volume * chlorine_dose / granule_share
