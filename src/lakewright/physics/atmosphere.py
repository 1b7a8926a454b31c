"""The air over the water."""

from __future__ import annotations

from lakewright.physics.types import GRAVITY, Array

SEA_LEVEL_PRESSURE = 101325.0
"""Pressure of the standard atmosphere at the sea [Pa]. Source: US Standard Atmosphere 1976, table 2."""

CONVENTIONAL_WATER = 1000.0
"""Density of water in a conventional head [kg/m3]. Source: NIST SP 811 (2008), appendix B.8, conventional foot."""


def atmospheric_pressure(elevation: Array) -> Array:
    """Pressure of the standard atmosphere.

    Parameters
    ----------
    elevation : [m] above the sea (geometric), valid -500 to 11000

    Returns
    -------
    [Pa], same shape

    Source: US Standard Atmosphere 1976, equations 18 and 33a with tables 2 and 4.

    >>> round(float(atmospheric_pressure(1000.0)))
    89876
    """
    geopotential = 6356766.0 * elevation / (6356766.0 + elevation)
    return SEA_LEVEL_PRESSURE * (288.15 / (288.15 - 0.0065 * geopotential)) ** (-34.163195 / 6.5)


def barometric_loss(pressure: Array) -> Array:
    """Head of water missing against the standard atmosphere at the sea.

    Parameters
    ----------
    pressure : [Pa] absolute, of the air at the site

    Returns
    -------
    [m] of water of conventional density, same shape; negative in a high

    Source: definition; the conventional foot of water of NIST SP 811 (2008), appendix B.8.

    >>> round(float(barometric_loss(84307.0)), 3)
    1.735
    """
    return (SEA_LEVEL_PRESSURE - pressure) / (CONVENTIONAL_WATER * GRAVITY)
