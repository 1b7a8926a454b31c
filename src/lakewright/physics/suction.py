"""The suction side of a pump."""

from __future__ import annotations

from lakewright.physics.types import GRAVITY, Array


def head_of(pressure: Array, density: Array) -> Array:
    """Height of a column of water that stands for a pressure.

    Parameters
    ----------
    pressure : [Pa]
    density : [kg/m3]

    Returns
    -------
    [m] of that water, broadcast shape

    Source: hydrostatics.

    >>> round(float(head_of(101325.0, 999.10)) / 0.3048, 2)
    33.93
    """
    return pressure / (density * GRAVITY)


def npsh_available(atmosphere_head: Array, vapour_head: Array, suction_lift: Array) -> Array:
    """Net positive suction head available at the pump's inlet.

    Parameters
    ----------
    atmosphere_head : [m] absolute pressure on the water's surface, as head
    vapour_head : [m] boiling pressure, as head
    suction_lift : [m] height of the pump over the water plus all losses up to it; negative when flooded

    Returns
    -------
    [m], broadcast shape

    Source: HI Engineering Data Library, pump principles, NPSH; the form of TP-410, example 7.32.

    >>> round(float(npsh_available(33.9, 0.839, -2.0)), 3)
    35.061
    """
    return atmosphere_head - vapour_head - suction_lift
