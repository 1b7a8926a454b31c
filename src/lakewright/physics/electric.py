"""Single-phase motors and the wire to them: current, start, voltage lost, energy. Guidance, and no wiring plan."""

from __future__ import annotations

import math

import numpy as np

from lakewright.physics.types import Array

HORSEPOWER = 745.699872
"""One horsepower [W]. Source: NIST SP 811 (2008), B.8."""

# Source: National Electrical Code, table 430.248 (430-148 of 1999, the same digits): full-load current [A] of
# single-phase motors by horsepower, of motors for 115, 200, 208 and 230 V.
MOTOR_SIZES = np.array([1 / 6, 1 / 4, 1 / 3, 1 / 2, 3 / 4, 1.0, 1.5, 2.0, 3.0, 5.0, 7.5, 10.0])
FULL_LOAD = {
    115: np.array([4.4, 5.8, 7.2, 9.8, 13.8, 16.0, 20.0, 24.0, 34.0, 56.0, 80.0, 100.0]),
    200: np.array([2.5, 3.3, 4.1, 5.6, 7.9, 9.2, 11.5, 13.8, 19.6, 32.2, 46.0, 57.5]),
    208: np.array([2.4, 3.2, 4.0, 5.4, 7.6, 8.8, 11.0, 13.2, 18.7, 30.8, 44.0, 55.0]),
    230: np.array([2.2, 2.9, 3.6, 4.9, 6.9, 8.0, 10.0, 12.0, 17.0, 28.0, 40.0, 50.0]),
}

# The same table's note: currents hold for systems of 110 to 120 and of 220 to 240 V.
# ours: 200 and 208 V part in the middle, and each end of the two ranges is given a twentieth more.
SYSTEMS = {115: (104.5, 126.0), 200: (190.0, 204.0), 208: (204.0, 209.0), 230: (209.0, 252.0)}

CODE_LETTERS = {
    letter: top * 1000.0 / HORSEPOWER
    for letter, top in {
        # Source: NEMA code letters as an engineering reference page prints them: upper ends [kVA/hp].
        **{"A": 3.14, "B": 3.55, "C": 3.99, "D": 4.49, "E": 4.99, "F": 5.59, "G": 6.29, "H": 7.09, "J": 7.99},
        **{"K": 8.99, "L": 9.99, "M": 11.19, "N": 12.49, "P": 13.99, "R": 15.99, "S": 17.99, "T": 19.99, "U": 22.39},
    }.items()
}
"""What a motor takes while its rotor stands, over its rating [VA/W], by the code letter on its plate; V has no end."""

START_OVER_FULL_LOAD = 6.0
"""Locked-rotor current over full-load current. Source: National Electrical Code 2008, table 430.251(A), single phase:
every row is six times that of table 430.248."""

# memory: standard ratings of breakers, National Electrical Code 240.6(A) [A].
BREAKER_SIZES = np.array([15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0, 110.0, 125.0])

BREAKER_OVER_FULL_LOAD = 2.5
"""Inverse-time breaker over full-load current, at most. Source: National Electrical Code, 430.52 (restated)."""

CONDUCTOR_OVER_FULL_LOAD = 1.25
"""Ampacity of a motor's conductors over its full-load current, at least.

Source: National Electrical Code, 430.22 (restated)."""

# memory: middles of what small single-phase motors reach at full load: 1/2 hp 55 to 65 %, 1 hp 65 to 75 %, 3 to 5 hp
# 75 to 85 %.
EFFICIENCY_SIZES, EFFICIENCIES = np.array([0.5, 1.0, 3.0, 5.0]), np.array([0.60, 0.70, 0.78, 0.82])


def full_load_current(motor_power: Array, voltage: Array) -> Array:
    """Current of a single-phase motor at its rating, as conductors and breakers are chosen by.

    Parameters
    ----------
    motor_power : [W], from 1/6 to 10 hp
    voltage : [V], of the system

    Returns
    -------
    [A], broadcast shape; nan outside the table and between its voltages

    Source: National Electrical Code, table 430.248, straight between its rows (ours). It is on the high side of most
    plates, so that a motor may be replaced.

    >>> round(float(full_load_current(np.array([0.5 * HORSEPOWER]), np.array([230.0]))[0]), 2)
    4.9
    """
    size = motor_power / HORSEPOWER
    inside = (size >= MOTOR_SIZES[0] * (1.0 - 1e-6)) & (size <= MOTOR_SIZES[-1] * (1.0 + 1e-6))
    found = np.full(np.broadcast_shapes(size.shape, voltage.shape), np.nan)
    for column, (low, high) in SYSTEMS.items():
        here = inside & (voltage >= low) & (voltage < high)
        found = np.where(here, np.interp(size, MOTOR_SIZES, FULL_LOAD[column]), found)
    return found


def locked_rotor_current(motor_power: Array, start_ratio: Array, voltage: Array) -> Array:
    """Current in the first moment of a start, at full voltage.

    Parameters
    ----------
    motor_power : [W]
    start_ratio : [VA/W]
    voltage : [V]

    Returns
    -------
    [A], broadcast shape

    Source: meaning of the code letters on motors' plates, National Electrical Code, 430.7(B).

    >>> quarter, most = np.array([0.25 * HORSEPOWER]), np.array([CODE_LETTERS["M"]])
    >>> round(float(locked_rotor_current(quarter, most, np.array([230.0]))[0]), 1)
    12.2
    """
    return motor_power * start_ratio / voltage


def voltage_drop(motor_current: Array, length: Array, wire_resistance: Array) -> Array:
    """Voltage lost on the way to a single-phase load and back.

    Parameters
    ----------
    motor_current : [A]
    length : [m], one way
    wire_resistance : [ohm/m], of one conductor as warm as it runs

    Returns
    -------
    [V], broadcast shape

    Source: Ohm's law over both conductors. The lag of a motor's current is left out: on wires up to 4 AWG it lessens
    the loss.

    >>> round(float(voltage_drop(np.array([4.0]), np.array([30.48]), np.array([4.99 / 304.8]))[0]), 2)
    3.99
    """
    return 2.0 * motor_current * length * wire_resistance


def largest_breaker(motor_current: Array) -> Array:
    """The largest inverse-time breaker before a motor: the next made size where the rule's figure is none.

    Parameters
    ----------
    motor_current : [A], full load by the table

    Returns
    -------
    [A], same shape; infinite past the sizes listed, nan where nothing is known

    Source: National Electrical Code, 430.52, 250 % (restated); made sizes 240.6(A).

    >>> largest_breaker(np.array([4.9, 28.0])).tolist()
    [15.0, 70.0]
    """
    wanted = BREAKER_OVER_FULL_LOAD * motor_current
    sizes = np.append(BREAKER_SIZES, np.inf)
    # A figure that is a made size but for its last bits is that size.
    found = sizes[np.minimum(np.searchsorted(sizes, wanted * (1.0 - 1e-9)), len(sizes) - 1)]
    return np.where(np.isnan(motor_current), np.nan, found)


def motor_efficiency(motor_power: Array) -> Array:
    """Share of what a small single-phase motor takes that reaches its shaft at full load.

    Parameters
    ----------
    motor_power : [W], of its rating

    Returns
    -------
    [share], same shape

    Source: memory, as `EFFICIENCIES`, straight between and flat beyond: the plate or a meter says more.

    >>> round(float(motor_efficiency(np.array([HORSEPOWER]))[0]), 2)
    0.7
    """
    found: Array = np.interp(motor_power / HORSEPOWER, EFFICIENCY_SIZES, EFFICIENCIES)
    return found


def pumping_energy(shaft_power: Array, motor_share: Array, flow: Array) -> Array:
    """Energy a motor takes for the water its pump moves.

    Parameters
    ----------
    shaft_power : [W]
    motor_share : [share], of what it takes that reaches its shaft
    flow : [m3/s]

    Returns
    -------
    [J/m3], broadcast shape; infinite at no flow

    Source: energy over volume.

    >>> float(pumping_energy(np.array([400.0]), np.array([0.5]), np.array([4e-4]))[0])
    2000000.0
    """
    with np.errstate(divide="ignore"):
        return shaft_power / motor_share / flow


def start_ratio_of(letter: str) -> float:
    """The most that a motor of a code letter takes at a start, over its rating [VA/W]; nan for one without an end.

    >>> round(start_ratio_of("L") * HORSEPOWER / 1000.0, 2)
    9.99
    """
    return CODE_LETTERS.get(letter, math.nan)
