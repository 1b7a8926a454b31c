"""Waves of small steepness over a level bed, and what water does under them."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from lakewright.physics.types import GRAVITY, Array

DESIGN_RATIO = 1.86
"""Largest of a thousand waves, some 45 minutes of a storm, over the significant height [-]. Source: Rayleigh's law,
the root of half ln 1000 is 1.858. ours: one wave can tip a stand, so the largest counts and not the significant one."""

DEEP = 4.0
"""ours: past this k d a storm is felt at the bed by the long waves of its spectrum, not by one wave of the peak
period [-]."""

WAKE_HEIGHT, WAKE_PERIOD = 0.3, 4.0
"""Height [m] and period [s] of a boat's wake where nobody says more. common practice, no source."""

BREAKING = 0.78
"""Height over depth past which a wave breaks on a level bed [-]. Source: McCowan, as textbooks of the coast give it."""

# ours: from Eckart's start, 5 % off at most, three steps of Newton leave 3e-15 of omega2 d / g at every k d.
_NEWTON_STEPS = 3


def _eckart(y: Array) -> Array:
    """k d from omega2 d / g, within 5 %. Source: Coastal Engineering Manual, equation II-1-11."""
    return y / np.sqrt(np.tanh(y))


def wave_number(period: Array, depth: Array) -> Array:
    """Two pi over the length of a wave.

    Parameters
    ----------
    period : [s], 0 or more
    depth : [m] of still water, above 0

    Returns
    -------
    [1/m], broadcast shape; infinite for a period of 0, nan where there is no water

    Source: linear wave theory, omega2 = g k tanh(k d) (Coastal Engineering Manual, equation II-1-8), from the start of
    its equation II-1-11 by a fixed number of Newton's steps.

    >>> round(2.0 * np.pi / float(wave_number(np.array([10.0]), np.array([3.0]))[0]), 2)
    53.15
    """
    still = period == 0.0
    omega = 2.0 * np.pi / np.where(still, 1.0, period)
    d = np.where(depth > 0.0, depth, np.nan)
    y = omega * omega * d / GRAVITY
    x = _eckart(y)
    for _ in range(_NEWTON_STEPS):
        t = np.tanh(x)
        x = x - (x * t - y) / (t + x * (1.0 - t * t))
    return np.where(still, np.inf, x / d)


def orbital_velocity(
    wave_height: Array, period: Array, wave_number: Array, depth: Array, above_bed: Array
) -> tuple[Array, Array]:
    """Amplitudes of the water's velocity, level and upright; times two pi over the period, of its acceleration.

    Parameters
    ----------
    wave_height : [m] crest to trough
    period : [s], 0 for no wave
    wave_number : [1/m] of that period in that depth
    depth : [m] of still water, above 0
    above_bed : [m] height of the place, 0 or more; held at the still water

    Returns
    -------
    [m/s] twice, broadcast shape. At phase theta, 0 under the crest: level velocity times cos, level acceleration times
    sin, upward velocity times sin, upward acceleration times -cos

    Source: linear wave theory (Coastal Engineering Manual, equations II-1-21 to II-1-24); cosh and sinh written as
    powers that do not overflow in deep water.

    >>> T, d, one = np.array([8.0]), np.array([15.0]), np.ones(1)
    >>> u, w = orbital_velocity(5.5 * one, T, wave_number(T, d), d, 10.0 * one)
    >>> round(float(u[0] * np.cos(np.pi / 3)), 2), round(float(w[0] * np.sin(np.pi / 3)), 2)
    (0.99, 1.11)
    """
    still = period == 0.0
    k = np.where(still, 1.0, wave_number)
    z = np.minimum(above_bed, depth)
    swing = np.where(still, 0.0, np.pi * wave_height / np.where(still, 1.0, period)) / -np.expm1(-2.0 * k * depth)
    down, mirrored = np.exp(k * (z - depth)), np.exp(-k * (z + depth))
    return swing * (down + mirrored), swing * (down - mirrored)


def breaking_height(wave_number: Array, depth: Array) -> Array:
    """Height past which a wave breaks.

    Parameters
    ----------
    wave_number : [1/m]
    depth : [m] of still water, above 0

    Returns
    -------
    [m], broadcast shape

    Source: the smaller of McCowan's 0.78 d and Miche's 0.142 L tanh(k d), as textbooks of the coast give them.

    >>> round(float(breaking_height(np.array([0.628287]), np.array([4.0]))[0]), 3)
    1.402
    """
    return np.minimum(BREAKING * depth, 0.142 * (2.0 * np.pi / wave_number) * np.tanh(wave_number * depth))


def design_height(significant_height: Array, wave_number: Array, depth: Array) -> Array:
    """Largest wave of a storm, unless it breaks.

    Parameters
    ----------
    significant_height : [m] mean of the highest third
    wave_number : [1/m]
    depth : [m] of still water, above 0

    Returns
    -------
    [m], broadcast shape

    Source: as `DESIGN_RATIO` and `breaking_height`.

    >>> round(float(design_height(np.array([0.70275]), np.array([0.628287]), np.array([4.0]))[0]), 4)
    1.3071
    """
    return np.minimum(DESIGN_RATIO * significant_height, breaking_height(wave_number, depth))


# Source: Kelvin (1887): cosine of the angle between the crests' course at the wake's edge and the boat's.
_WAKE_EDGE = (2.0 / 3.0) ** 0.5


def wake_period(boat_speed: Array) -> Array:
    """Period of the highest waves of a boat's wake, where no bed is felt.

    Parameters
    ----------
    boat_speed : [m/s] through the water

    Returns
    -------
    [s], same shape

    Source: Kelvin (1887): at the wake's edge the crests move at an angle to the boat's course whose cosine is the root
    of two thirds, so at that share of its speed; deep water has period = 2 pi speed / g.

    >>> round(float(wake_period(np.array([7.65]))[0]), 2)
    4.0
    """
    return boat_speed * (2.0 * np.pi * _WAKE_EDGE / GRAVITY)


def _spectrum() -> tuple[tuple[float, float], ...]:
    """Frequencies over the peak's, and the share of a storm's energy that each stands for.

    Twelve Gauss-Legendre nodes in each of three spans that meet where the spectrum has its kink.
    """
    nodes, weights = np.polynomial.legendre.leggauss(12)
    edges = (0.5, 1.0, 1.7, 4.0)
    r = np.concatenate([0.5 * (b - a) * nodes + 0.5 * (a + b) for a, b in pairwise(edges)])
    dr = np.concatenate([0.5 * (b - a) * weights for a, b in pairwise(edges)])
    # Source: Hasselmann and others (1973), mean JONSWAP spectrum (memory: its figures).
    width = np.where(r <= 1.0, 0.07, 0.09)
    energy = dr * r**-5.0 * np.exp(-1.25 * r**-4.0) * 3.3 ** np.exp(-0.5 * ((r - 1.0) / width) ** 2)
    beyond = 0.25 * edges[-1] ** -4.0  # of r^-5 past the last span, which moves nothing at the bed
    return tuple(zip(r.tolist(), (energy / (np.sum(energy) + beyond)).tolist(), strict=True))


_SPECTRUM = _spectrum()

_AT_ONCE = 1 << 12
"""ours: so many values, of some frequencies together, stay near the processor."""


def spectral_bed_motion(significant_height: Array, peak_period: Array, depth: Array) -> tuple[Array, Array]:
    """Level velocity and acceleration at the bed under all the waves of a storm, as root mean squares.

    Parameters
    ----------
    significant_height : [m] mean of the highest third
    peak_period : [s], 0 for no wave
    depth : [m] of still water, above 0

    Returns
    -------
    [m/s] and [m/s2], broadcast shape

    Source: linear wave theory summed over the mean JONSWAP spectrum (Hasselmann and others, 1973; memory: its figures).

    >>> both = spectral_bed_motion(np.array([0.70275]), np.array([2.54751]), np.array([4.0]))
    >>> round(float(both[0][0]), 3)
    0.066
    """
    still = peak_period == 0.0
    peak = np.where(still, 1.0, peak_period)
    velocity2 = np.zeros(np.broadcast_shapes(significant_height.shape, peak.shape, depth.shape))
    acceleration2 = velocity2.copy()
    many = max(1, _AT_ONCE // max(1, velocity2.size))
    for first in range(0, len(_SPECTRUM), many):
        some = np.array(_SPECTRUM[first : first + many]).reshape(-1, 2, *[1] * velocity2.ndim)
        ratio, share = some[:, 0], some[:, 1]
        period = peak / ratio
        omega = 2.0 * np.pi / period
        decay = np.exp(-wave_number(period, depth) * depth)
        moved = omega * (2.0 * decay / (1.0 - decay * decay))
        parts = share * moved * moved
        # One frequency after the other, so that a row's sum is in the same order whatever stands beside it.
        for part, swift in zip(parts, parts * (omega * omega), strict=True):
            velocity2 += part
            acceleration2 += swift
    size = np.where(still, 0.0, 0.25 * significant_height)
    return size * np.sqrt(velocity2), size * np.sqrt(acceleration2)


def spectral_wave(significant_height: Array, peak_period: Array, depth: Array) -> tuple[Array, Array]:
    """Height and period of the one wave that moves the bed's water as the largest of a storm's spectrum does.

    Parameters
    ----------
    significant_height : [m] mean of the highest third
    peak_period : [s], 0 for no wave
    depth : [m] of still water, above 0

    Returns
    -------
    [m] and [s], broadcast shape; to be used where k d of the peak period passes `DEEP`

    Source: as `spectral_bed_motion`; ours: the period keeps velocity over acceleration, the height makes the velocity
    twice `DESIGN_RATIO` times the root mean square.

    >>> height, period = spectral_wave(np.array([0.76594]), np.array([2.63457]), np.array([10.0]))
    >>> round(float(height[0]), 2), round(float(period[0]), 2)
    (0.49, 3.31)
    """
    still = peak_period == 0.0
    velocity, acceleration = spectral_bed_motion(significant_height, peak_period, depth)
    moving = acceleration > 0.0
    period = np.where(moving, 2.0 * np.pi * velocity / np.where(moving, acceleration, 1.0), peak_period)
    seconds = np.where(still, 1.0, period)
    decay = np.exp(-wave_number(seconds, depth) * depth)
    # So deep that nothing arrives: 0 over 0 without it.
    arrives = np.where(decay == 0.0, 1.0, decay)
    height = 2.0 * DESIGN_RATIO * velocity * seconds / np.pi * (1.0 - decay * decay) / (2.0 * arrives)
    return np.where(still, 0.0, height), np.where(still, 0.0, period)
