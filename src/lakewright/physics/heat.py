"""How a pump warms the water it holds: a little while water passes, and without end while none does."""

from __future__ import annotations

from lakewright.physics.types import GRAVITY, Array

SPECIFIC_HEAT = 4186.8
"""Of water [J/(kg K)]. Source: the international table calorie; the steam tables have 4182 at 20 C and 4217 at 0 C."""


def passing_rise(head: Array, efficiency: Array) -> Array:
    """How much warmer water leaves a pump than it came.

    Parameters
    ----------
    head : [m] that the pump adds
    efficiency : [share] of its shaft's power that becomes head, above 0

    Returns
    -------
    [K], broadcast shape

    Source: pages on the temperature rise of centrifugal pumps: g H (1 / eta - 1) / c.

    >>> round(float(passing_rise(1524.0, 0.8)) * 1.8, 2)
    1.61
    """
    return GRAVITY * head * (1.0 / efficiency - 1.0) / SPECIFIC_HEAT


def least_flow(power: Array, rise: Array, density: Array) -> Array:
    """Flow at which all of a shaft's power warms the water by so much and no more.

    Parameters
    ----------
    power : [W] at the shaft
    rise : [K] allowed
    density : [kg/m3]

    Returns
    -------
    [m3/s], broadcast shape

    Source: pages on the minimum flow of centrifugal pumps; all of the power goes into heat near shut-off.

    >>> round(float(least_flow(745.7, 15.0 / 1.8, 999.1)) / 6.30902e-5, 3)
    0.339
    """
    return power / (SPECIFIC_HEAT * density * rise)


def warming_time(power: Array, casing: Array, rise: Array, density: Array) -> Array:
    """Time in which the water in a casing warms while none passes and none of the heat is lost.

    Parameters
    ----------
    power : [W] at the shaft, above 0
    casing : [m3] of water in it
    rise : [K]
    density : [kg/m3]

    Returns
    -------
    [s], broadcast shape

    Source: as `least_flow`. ours: no heat is lost through the casing, so it takes no less than this.

    >>> round(float(warming_time(0.5 * 745.7, 3.7854e-3, 142.0 / 1.8, 999.1)) / 60.0)
    56
    """
    return SPECIFIC_HEAT * density * casing * rise / power
