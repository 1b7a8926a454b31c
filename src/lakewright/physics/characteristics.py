"""A line stopped at its near end, step by step along the characteristics of its waves."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import GRAVITY, Array

REACHES = 8
"""ours: pieces of the line; friction of a house's line moves the peak by under 1 % from here on."""

RETURNS = 4
"""ours: returns of the wave that are followed; what takes longer to stop makes a quarter of the sudden rise at most."""

LEAST_STOP = 1e-9
"""ours: nothing stops in less [s]; a share of no time has no value."""


def near_heads(
    wave_speed: Array, length: Array, velocity: Array, resistance: Array, stop_time: Array, reaches: int, returns: int
) -> Array:
    """Head at the near end, over that of the far end, at every step.

    Parameters
    ----------
    wave_speed : [m/s]
    length : [m]
    velocity : [m/s] at first, toward the far end; negative for water that comes from there
    resistance : [s2/m] head lost along the whole line for a velocity of 1 m/s
    stop_time : [s] in which the velocity at the near end falls evenly to nothing
    reaches, returns : how many pieces the line has, and how many returns of the wave are followed

    Returns
    -------
    [m], the first step of time before any change, steps on a new last axis

    Source: Wylie and Streeter, Fluid Transients in Systems (1993): one pipe, Courant number 1, quasi-steady friction.
    """
    shape = np.broadcast_shapes(*(each.shape for each in (wave_speed, length, velocity, resistance, stop_time)))
    steps = 2 * reaches * returns + 1
    place = np.arange(reaches + 1) / reaches
    steady, stiff, piece = velocity[..., None], wave_speed[..., None] / GRAVITY, resistance[..., None] / reaches
    speeds = np.broadcast_to(steady, (*shape, reaches + 1)) + 0.0 * place
    heads = resistance[..., None] * steady * np.abs(steady) * (1.0 - place) + 0.0 * speeds
    step = length / (wave_speed * reaches) / np.maximum(stop_time, LEAST_STOP)
    stopping = steady * np.maximum(1.0 - np.arange(steps) * step[..., None], 0.0)
    found = np.empty((*shape, steps))
    found[..., 0] = heads[..., 0]
    # The steps are many and the line is short, so arrays are written over. What comes from the left and from the right
    # of each place, one step before:
    half_compliance, lost, carried = 0.5 / stiff, np.empty_like(speeds), np.empty_like(speeds)
    forward, backward = carried[..., :-1], lost[..., 1:]
    for number in range(1, steps):
        # Friction may stop what moves, and not turn it back: in a line that is all friction it would.
        np.abs(speeds, out=lost)
        lost *= piece
        np.minimum(lost, stiff, out=lost)
        lost *= speeds
        np.multiply(speeds, stiff, out=carried)
        carried -= lost
        np.subtract(heads, carried, out=lost)
        carried += heads
        near_speed = stopping[..., number]
        heads[..., 1:-1] = 0.5 * (forward[..., :-1] + backward[..., 1:])
        speeds[..., 1:-1] = half_compliance * (forward[..., :-1] - backward[..., 1:])
        heads[..., 0] = backward[..., 0] + stiff[..., 0] * near_speed
        speeds[..., 0] = near_speed
        heads[..., -1] = 0.0
        speeds[..., -1] = forward[..., -1] / stiff[..., 0]
        found[..., number] = heads[..., 0]
    return found


def stopped_line(
    wave_speed: Array, length: Array, velocity: Array, resistance: Array, stop_time: Array
) -> tuple[Array, Array]:
    """The highest and the lowest head at the near end of a line that is stopped there, over that of its far end.

    Parameters
    ----------
    wave_speed : [m/s]
    length : [m]
    velocity : [m/s] at first, toward the far end; negative for water that comes from there
    resistance : [s2/m] head lost along the whole line for a velocity of 1 m/s
    stop_time : [s] in which the velocity at the near end falls evenly to nothing

    Returns
    -------
    two of [m], broadcast shape

    Source: as `near_heads`. Water that boils, and columns that part, are not followed: the lowest says whether they do.

    >>> one = np.ones(1)
    >>> [round(float(head[0]), 2) for head in stopped_line(300.0 * one, 60.0 * one, one, 0.0 * one, 0.0 * one)]
    [30.59, -30.59]
    """
    heads = near_heads(wave_speed, length, velocity, resistance, stop_time, REACHES, RETURNS)
    return np.max(heads, axis=-1), np.min(heads, axis=-1)
