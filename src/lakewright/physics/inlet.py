"""Where water enters: foot valve, screen, cover over the inlet."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import GRAVITY, Array

ORIFICE = 0.60
"""Discharge coefficient of an untested screen [-]. Source: a water-treatment textbook, chapter 5.1.2."""


def full_lift_velocity(lift_factor: Array, density: Array) -> Array:
    """Velocity at which the disc of a check or foot valve is lifted fully.

    Parameters
    ----------
    lift_factor : [m/s (kg/m3)^1/2] N of the valve: 20 for a poppet foot valve, 45 hinged
    density : [kg/m3]

    Returns
    -------
    [m/s], broadcast shape

    Source: TP-410 (metric), page A-28, V = N times the root of specific volume (the printed lift check, 50, is
    confirmed).

    >>> round(float(full_lift_velocity(50.0, 998.6)), 2)
    1.58
    """
    return lift_factor / np.sqrt(density)


def valve_loss(
    speed: Array,
    coefficient: Array,
    full_lift: Array,
    opening_head: Array,
    opening: Array,
) -> Array:
    """Head lost in a foot valve, its own strainer included, fully open or not.

    Parameters
    ----------
    speed : [m/s] in the riser, 0 or more
    coefficient : [-] loss coefficient fully open, on that speed
    full_lift : [m/s] velocity of full lift; below it the disc floats and the loss stays as it is there
    opening_head : [m] of water that lifts the spring, at any flow
    opening : [share] of the full opening, 1 in good order

    Returns
    -------
    [m] of the water flowing, broadcast shape

    Source: TP-410, page A-28 (coefficient and velocity of full lift); HI Engineering Data Library, III-B note 2
    (below full lift the coefficient is higher). ours: the loss below full lift is held at its value there.

    >>> round(float(valve_loss(0.1, 9.24, 0.579, 0.352, 1.0)), 3)
    0.352
    """
    moving = np.maximum(speed, full_lift)
    return np.maximum(coefficient * (moving * moving * (0.5 / GRAVITY)) / (opening * opening), opening_head)


def screen_loss(flow: Array, open_area: Array) -> Array:
    """Head lost through a screen in still water.

    Parameters
    ----------
    flow : [m3/s], 0 or more
    open_area : [m2] of openings that are not blocked

    Returns
    -------
    [m] of the water flowing, broadcast shape

    Source: as `ORIFICE`.

    >>> round(float(screen_loss(0.1524, 1.0)) * 1000, 2)
    3.29
    """
    speed = flow / (ORIFICE * open_area)
    return speed * speed * (0.5 / GRAVITY)


def approach_velocity(flow: Array, effective_area: Array) -> Array:
    """Velocity toward a screen, on the area not behind its structure and not blocked.

    Parameters
    ----------
    flow : [m3/s], 0 or more
    effective_area : [m2]

    Returns
    -------
    [m/s], broadcast shape

    Source: NMFS, addendum on juvenile fish screen criteria for pump intakes (1996): area is flow over approach
    velocity.

    >>> round(float(approach_velocity(0.0012618, 0.0207)), 3)
    0.061
    """
    return flow / effective_area


def vortex_cover(speed: Array, bore: Array) -> Array:
    """Cover over an inlet's mouth below which a vortex may draw air.

    Parameters
    ----------
    speed : [m/s] in the mouth
    bore : [m] of the mouth

    Returns
    -------
    [m], broadcast shape

    Source: ANSI/HI 9.8-1998, clause 9.8.7: S/D = 1 + 2.3 Fr. Made for sump inlets of 100 mm and more; an
    extrapolation here, so it is one edge of a band.

    >>> round(float(vortex_cover(1.1315, 0.0266446)), 3)
    0.162
    """
    return bore * (1.0 + 2.3 * speed / np.sqrt(GRAVITY * bore))


# Source: UFC 4-832-01N, pump station suction inlets: 2, 3, 4, 5 ft/s ask 1.0, 1.5, 2.0, 2.6 ft; 5 ft/s is the most
# allowed.
_FEET = 0.3048
_COVER_SPEED = np.array([2.0, 3.0, 4.0, 5.0]) * _FEET
_COVER_DEPTH = np.array([1.0, 1.5, 2.0, 2.6]) * _FEET


def tabulated_cover(speed: Array) -> Array:
    """Cover over the highest opening of an inlet, by velocity.

    Parameters
    ----------
    speed : [m/s] in the mouth

    Returns
    -------
    [m], same shape; the first row's below 2 ft/s, infinite above 5 ft/s, which the table does not allow

    Source: UFC 4-832-01N, table of submergence, straight lines between rows as it says.

    >>> round(float(tabulated_cover(2.5 * 0.3048)) / 0.3048, 3)
    1.25
    """
    return np.interp(speed, _COVER_SPEED, _COVER_DEPTH, right=np.inf)
