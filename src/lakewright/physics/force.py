"""What moving water does to a thin member: drag, inertia and lift, and the coefficients of them."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array

ROUND_DRAG, FLAT_DRAG = 1.2, 2.0
"""Drag coefficients of a round and of a square or angular member across a steady flow [-]. Source: FEMA P-55, 4th ed.,
equation 8.8."""

MAT_DRAG = 1.4
"""Drag coefficient of weed and leaves caught by a member, on their outline [-]. memory: debris on piers, AASHTO LRFD,
clause 3.7.3."""

ROUND_INERTIA = 2.0
"""Inertia coefficient of a round member away from the bed [-]. memory: Shore Protection Manual, chapter 7; the exact
value of ideal flow."""

BED_INERTIA = 3.29
"""Inertia coefficient of a round member on the bed [-]. memory: the value of ideal flow, a third of pi squared."""

HEAD_INERTIA = 1.5
"""Inertia coefficient of a stubby head, upward [-]. memory: ideal flow gives a sphere as much."""

BED_LIFT = 1.26
"""Lift coefficient of a round member on the bed under a steady flow across it [-]. Source: Handbook of PE Pipe, 2nd
ed., chapter 10, worked back from its 100 lb/ft."""

# memory: Sarpkaya's measurements of 1976, 1.5 to 2.0 for cycle numbers of 6 to 30. ours: the step to it and from it
# is a ramp on the outer side, where the coefficient is the larger for it.
_CYCLES, _DRAG = (5.0, 6.0, 30.0, 40.0), (ROUND_DRAG, 2.0, 2.0, ROUND_DRAG)

# Source: DNV-RP-F109, tables 3-9 and 3-10 with no current, as restated by two public programs that agree.
_BED_CYCLES = (2.5, 5.0, 10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0, 100.0, 140.0)
_BED_LEVEL = (13.0, 6.80, 4.55, 3.33, 2.72, 2.40, 2.15, 1.95, 1.80, 1.52, 1.30)
_BED_UPRIGHT = (5.00, 5.00, 4.85, 3.21, 2.55, 2.26, 2.01, 1.81, 1.63, 1.26, 1.05)


def cycle_number(velocity: Array, period: Array, width: Array) -> Array:
    """How many widths the water sweeps past a member in a wave, times pi.

    Parameters
    ----------
    velocity : [m/s] amplitude
    period : [s]
    width : [m] of the member, across the flow

    Returns
    -------
    [-], broadcast shape

    Source: Keulegan and Carpenter (1958), u T / D.

    >>> round(float(cycle_number(np.array([0.2629]), np.array([2.54751]), np.array([0.04826]))[0]), 2)
    13.88
    """
    return velocity * period / width


def free_drag_coefficient(cycle_number: Array) -> Array:
    """Drag coefficient of a smooth round member in waves, away from the bed.

    Parameters
    ----------
    cycle_number : [-] 0 or more

    Returns
    -------
    [-], same shape

    Source: Sarpkaya (1976), memory; as `ROUND_DRAG` outside 6 to 30. ours: straight ramps from 5 and to 40.

    >>> free_drag_coefficient(np.array([3.29, 6.11, 14.12])).tolist()
    [1.2, 2.0, 2.0]
    """
    return np.interp(cycle_number, _CYCLES, _DRAG)


def bed_coefficients(cycle_number: Array) -> tuple[Array, Array]:
    """Largest level and upward force of a wave on a round member on the bed, as coefficients on the velocity squared.

    Parameters
    ----------
    cycle_number : [-] above 0

    Returns
    -------
    [-] twice, same shape; under 2.5 the level one grows as inertia alone, past 140 both stay

    Source: DNV-RP-F109, tables 3-9 and 3-10, no current, as restated. Straight lines between the rows.

    >>> [round(float(each[0]), 3) for each in bed_coefficients(np.array([13.88]))]
    [4.077, 4.214]
    """
    few = np.where(cycle_number < _BED_CYCLES[0], cycle_number, 1.0)
    level = np.interp(cycle_number, _BED_CYCLES, _BED_LEVEL)
    return (
        np.where(cycle_number < _BED_CYCLES[0], _BED_LEVEL[0] * _BED_CYCLES[0] / np.where(few == 0.0, 1.0, few), level),
        np.interp(cycle_number, _BED_CYCLES, _BED_UPRIGHT),
    )


def mixed_coefficient(wave_coefficient: Array, steady_coefficient: Array, velocity: Array, current: Array) -> Array:
    """Coefficient of a member in waves and a current at once.

    Parameters
    ----------
    wave_coefficient : [-] in the waves alone
    steady_coefficient : [-] in the current alone
    velocity : [m/s] amplitude of the waves
    current : [m/s] 0 or more

    Returns
    -------
    [-], broadcast shape; that of the current in still water

    Source: ours: each counts by its share of the largest speed. Measured coefficients on the bed fall faster as a
    current comes in, so this is the heavier side.

    >>> float(mixed_coefficient(np.array([4.0]), np.array([1.2]), np.array([0.3]), np.array([0.1]))[0])
    3.3
    """
    both = velocity + current
    share = np.where(both == 0.0, 0.0, velocity / np.where(both == 0.0, 1.0, both))
    return steady_coefficient + share * (wave_coefficient - steady_coefficient)


def drag_force(coefficient: Array, area: Array, velocity: Array, density: Array) -> Array:
    """Push of moving water on an area; also its lift.

    Parameters
    ----------
    coefficient : [-] of drag or lift
    area : [m2] of the outline, across the flow
    velocity : [m/s] plus and minus have their sense
    density : [kg/m3] of the water

    Returns
    -------
    [N], broadcast shape

    Source: FEMA P-55, 4th ed., equation 8.8.

    >>> float(drag_force(np.array([1.4]), np.array([0.05]), np.array([1.5]), np.array([1000.0]))[0])
    78.75
    """
    return 0.5 * density * coefficient * area * velocity * np.abs(velocity)


def inertia_force(coefficient: Array, volume: Array, acceleration: Array, density: Array) -> Array:
    """Push of accelerating water on what stands in it.

    Parameters
    ----------
    coefficient : [-] of inertia
    volume : [m3] of water displaced
    acceleration : [m/s2] plus and minus have their sense
    density : [kg/m3] of the water

    Returns
    -------
    [N], broadcast shape

    Source: Morison and others (1950), the second term.

    >>> one = np.ones(1)
    >>> round(float(inertia_force(1.5 * one, 2.0358e-3 * one, 0.1559 * one, 1000.0 * one)[0]), 3)
    0.476
    """
    return coefficient * density * volume * acceleration


def wave_peak(drag: Array, inertia: Array) -> Array:
    """Largest force, or moment, of a wave alone, from the amplitudes of its two parts.

    Parameters
    ----------
    drag : [N] or [N m], largest under the crest
    inertia : as `drag`, largest a quarter period from it

    Returns
    -------
    [N] or [N m], broadcast shape

    Source: Morison's equation, D cos|cos| + I sin, at its greatest: D + I2 / 4 D while I is under 2 D, else I.

    >>> [round(float(wave_peak(np.array([d]), np.array([i]))[0]), 3) for d, i in ((9.332, 4.3508), (1.1379, 4.0175))]
    [9.839, 4.018]
    """
    led_by_drag = inertia < 2.0 * drag
    divisor = np.where(led_by_drag, 4.0 * drag, 1.0)
    return np.where(led_by_drag, drag + inertia * inertia / divisor, inertia)
