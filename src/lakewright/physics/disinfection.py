"""What free chlorine does to germs: the residual times the time the quickest tenth of the water has spent with it."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array
from lakewright.physics.water import ICE_POINT

MILLIGRAM_MINUTE = 0.06
"""1 mg/L for 1 min [kg s/m3]."""

MILLIGRAM = 1e-3
"""1 mg/L [kg/m3]."""

COLDEST, WARMEST, TURN = 0.5, 25.0, 12.5
"""Ends of the federal tables [C], the outer ones open; and where the fit for cold water gives way to the other."""

LEAST_RESIDUAL, MOST_RESIDUAL = 0.4, 3.0
"""First and last row of the federal tables [mg/L]; the first holds for less too."""

LEAST_PH, MOST_PH = 6.0, 9.0
"""First and last column of the federal tables; the first holds for less too."""

HAIR = 1e-9
"""ours: an edge of a table belongs to it though a conversion loses the last bit."""

MOST_GIARDIA = 3.0
"""Log reduction the federal tables go up to."""

# memory: guidance of 1991, viruses by free chlorine at pH 6 to 9 [mg min/L]; columns begin at these temperatures [C].
VIRUS_COLUMNS = np.array([0.5, 5.0, 10.0, 15.0, 20.0, 25.0])
VIRUS_LOGS = np.array([2.0, 3.0, 4.0])
VIRUS_CONTACT = np.array(
    [
        [6.0, 4.0, 3.0, 2.0, 1.0, 1.0],
        [9.0, 6.0, 4.0, 3.0, 2.0, 1.0],
        [12.0, 8.0, 6.0, 4.0, 3.0, 2.0],
    ]
)


def contact_time(contact_volume: Array, baffling: Array, flow: Array) -> Array:
    """Time that nine tenths of the water stay in a tank or pipe at least.

    Parameters
    ----------
    contact_volume : [m3]
    baffling : [share] of the filling time that counts, 1 for a long pipe
    flow : [m3/s] the most that passes

    Returns
    -------
    [s], broadcast shape; infinite for no flow, 0 where there is no room

    Source: 40 CFR 141.2, "disinfectant contact time": volume over the peak flow, times what a tracer study gives.

    >>> gallon, gpm = 3.785411784e-3, 6.30901964e-5
    >>> round(float(contact_time(np.array([200.0 * gallon]), np.array([0.3]), np.array([10.0 * gpm]))[0]) / 60.0, 2)
    6.0
    """
    room, flows = contact_volume * baffling, flow != 0.0
    return np.where(flows | (room == 0.0), room / np.where(flows, flow, 1.0), np.inf)


def giardia_contact(temperature: Array, ph: Array, residual: Array, log_reduction: Array) -> Array:
    """Residual times contact time that free chlorine needs for Giardia, never below the federal tables.

    Parameters
    ----------
    temperature : [K] of the water; under 0.5 C as at 0.5 C, over 25 C as at 25 C
    ph : [-] up to 9; under 6 as at 6
    residual : [kg/m3] at the end of the contact, up to 3 mg/L; under 0.4 mg/L as at 0.4 mg/L
    log_reduction : [log] wanted; the tables go to 3

    Returns
    -------
    [kg s/m3], broadcast shape; nan past pH 9 and past 3 mg/L, where the tables end

    Source: Smith, Clark, Pierce and Regli 1995, equations for water under and over 12.5 C, as remembered; held to all
    588 cells of 40 CFR 141.74(b)(3), tables 1.1 to 1.6, of which it is 1.000 to 1.18 times.

    >>> three_log, half_neutral = np.array([3.0]), np.array([7.5])
    >>> round(float(giardia_contact(np.array([278.15]), half_neutral, np.array([1e-3]), three_log)[0]) / 0.06, 1)
    193.1
    """
    T = np.clip(temperature - ICE_POINT, COLDEST, WARMEST)
    C = np.maximum(residual / MILLIGRAM, LEAST_RESIDUAL)
    C = np.where(C <= MOST_RESIDUAL * (1.0 + HAIR), C, np.nan)
    pH = np.where(ph <= MOST_PH * (1.0 + HAIR), np.maximum(ph, LEAST_PH), np.nan)
    # memory: all constants of both equations.
    cold = 0.353 * log_reduction * (12.006 + np.exp(2.46 - 0.073 * T + 0.125 * C + 0.389 * pH))
    warm = 0.361 * log_reduction * (-2.261 + np.exp(2.69 - 0.065 * T + 0.111 * C + 0.361 * pH))
    return MILLIGRAM_MINUTE * np.where(T < TURN, cold, warm)


def giardia_by_chlorine(contact: Array, temperature: Array, ph: Array, residual: Array) -> Array:
    """Log reduction of Giardia that a contact with free chlorine brings.

    Parameters
    ----------
    contact : [kg s/m3] residual times contact time
    temperature : [K]
    ph : [-]
    residual : [kg/m3]

    Returns
    -------
    [log], broadcast shape, 0 to 3; nan where the tables end

    Source: 40 CFR 141.74(b)(3): the log goes in proportion to the contact; see `giardia_contact`.

    >>> one, warm = np.array([1.0]), np.array([293.15])
    >>> round(float(giardia_by_chlorine(0.06 * 30.0 * one, warm, 7.0 * one, 1e-3 * one)[0]), 2)
    1.54
    """
    for_three = giardia_contact(temperature, ph, residual, np.array([MOST_GIARDIA]))
    return np.minimum(MOST_GIARDIA * contact / for_three, MOST_GIARDIA)


def virus_contact(temperature: Array, log_reduction: Array) -> Array:
    """Residual times contact time that free chlorine needs for viruses, at pH 6 to 9.

    Parameters
    ----------
    temperature : [K] of the water; a column of the table holds up to the next warmer one, the first below 0.5 C too
    log_reduction : [log] wanted, taken up to the next of the tabulated 2, 3 and 4

    Returns
    -------
    [kg s/m3], broadcast shape; 0 where nothing is wanted, nan past 4 log

    Source: table of the guidance to the surface water treatment rule, as remembered; its 4 log at 10 C is the
    6 mg min/L of Washington's publication 331-343.

    >>> virus_contact(np.array([283.15, 279.0]), np.array([4.0])) / 0.06
    array([6., 8.])
    """
    column = _column(temperature)
    needed = np.full(np.broadcast_shapes(column.shape, log_reduction.shape), np.nan)
    for log, row in zip(VIRUS_LOGS[::-1], VIRUS_CONTACT[::-1], strict=True):
        needed = np.where(log_reduction <= log * (1.0 + HAIR), row[column], needed)
    needed = np.where(log_reduction <= 0.0, 0.0, needed)
    return MILLIGRAM_MINUTE * np.where(np.isnan(temperature), np.nan, needed)


def viruses_by_chlorine(contact: Array, temperature: Array) -> Array:
    """Log reduction of viruses that a contact with free chlorine brings, at pH 6 to 9: the tabulated log it reaches.

    Parameters
    ----------
    contact : [kg s/m3] residual times contact time
    temperature : [K]

    Returns
    -------
    [log], broadcast shape: 0, 2, 3 or 4

    Source: the table of `virus_contact`; nothing between its rows, and nothing under 2 log, is counted (ours).

    >>> viruses_by_chlorine(0.06 * np.array([5.9, 6.0, 2.0]), np.array([283.15]))
    array([3., 4., 0.])
    """
    column, reached = _column(temperature), np.zeros(np.broadcast_shapes(contact.shape, temperature.shape))
    for log, row in zip(VIRUS_LOGS, VIRUS_CONTACT, strict=True):
        reached = np.where(contact >= MILLIGRAM_MINUTE * row[column] * (1.0 - HAIR), log, reached)
    return np.where(np.isnan(contact) | np.isnan(temperature), np.nan, reached)


def _column(temperature: Array) -> np.ndarray[tuple[int, ...], np.dtype[np.intp]]:
    """The column of the virus table for each temperature: the one no warmer than it."""
    at = np.searchsorted(VIRUS_COLUMNS, (temperature - ICE_POINT) + HAIR, side="right") - 1
    return np.clip(at, 0, len(VIRUS_COLUMNS) - 1)
