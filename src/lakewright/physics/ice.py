"""Ice on lakes and streams, out of how cold a winter is. An estimate of its thickness, never of what it bears."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array

# Metres for the root of a kelvin-second, out of inches for the root of a Fahrenheit-day. Source: NIST SP 811, B.8.
_INCH_PER_ROOT_DAY = 0.0254 * (1.8 / 86400.0) ** 0.5

# Source: CRREL technical note 04-3, table of growth coefficients, inches for the root of a Fahrenheit-day, from and to.
_GROWTH = {
    "windy lake, no snow": (0.80, 0.80),
    "lake with snow": (0.50, 0.70),
    "river with snow": (0.40, 0.50),
    "sheltered stream": (0.20, 0.40),
}
COVERS = tuple(_GROWTH)


def growth_of(cover: str) -> tuple[float, float]:
    """How fast ice grows under a cover: from and to [m (K s)^-1/2].

    >>> [round(each * 86400.0**0.5 * 100.0, 1) for each in growth_of("lake with snow")]
    [1.7, 2.4]
    """
    slow, fast = _GROWTH[cover]
    return slow * _INCH_PER_ROOT_DAY, fast * _INCH_PER_ROOT_DAY


def ice_thickness(growth: Array, freezing_index: Array) -> Array:
    """Thickness of the ice after so much cold.

    Parameters
    ----------
    growth : [m/(K s)^1/2] as `growth_of` has it
    freezing_index : [K s] cold of a winter: kelvin under freezing, summed over the time since the water froze over

    Returns
    -------
    [m], broadcast shape

    Source: Stefan's law with the coefficients of CRREL technical note 04-3.

    >>> growth, winter = growth_of("windy lake, no snow")[1], 1000.0 * 86400.0 / 1.8
    >>> round(float(ice_thickness(np.array([growth]), np.array([winter]))[0]) / 0.0254, 1)
    25.3
    """
    return growth * np.sqrt(np.maximum(freezing_index, 0.0))
