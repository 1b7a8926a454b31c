"""What ultraviolet light does to germs: the log reductions that a validated dose is counted for."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array

# Source: 40 CFR 141.720(d)(1): doses [mJ/cm2] of 254 nm light from low-pressure lamps, one a log reduction.
LOGS = np.array([0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0])
CRYPTOSPORIDIUM = np.array([1.6, 2.5, 3.9, 5.8, 8.5, 12.0, 15.0, 22.0])
GIARDIA = np.array([1.5, 2.1, 3.0, 5.2, 7.7, 11.0, 15.0, 22.0])
VIRUSES = np.array([39.0, 58.0, 79.0, 100.0, 121.0, 143.0, 163.0, 186.0])

MILLIJOULE = 10.0
"""1 mJ/cm2 [J/m2]."""

HAIR = 1e-9
"""ours: a tabulated dose counts though a conversion loses the last bit."""


def giardia_by_light(dose: Array) -> Array:
    """Log reduction of Giardia that a validated dose is counted for.

    Parameters
    ----------
    dose : [J/m2] at 254 nm, validated for the flow and the water it is given in

    Returns
    -------
    [log], same shape: the tabulated log no larger dose than this gives; 4 at the most

    Source: 40 CFR 141.720(d)(1). The rule lets nobody read between its columns, so the credit steps down.

    >>> giardia_by_light(np.array([399.0, 219.0, 10.0]))
    array([4. , 3.5, 0. ])
    """
    return _reached(dose, GIARDIA)


def cryptosporidium_by_light(dose: Array) -> Array:
    """Log reduction of Cryptosporidium that a validated dose is counted for.

    Parameters
    ----------
    dose : [J/m2] at 254 nm, validated for the flow and the water it is given in

    Returns
    -------
    [log], same shape: the tabulated log no larger dose than this gives; 4 at the most

    Source: 40 CFR 141.720(d)(1). The rule lets nobody read between its columns, so the credit steps down.

    >>> cryptosporidium_by_light(np.array([400.0, 160.0, 120.0]))
    array([4. , 3.5, 3. ])
    """
    return _reached(dose, CRYPTOSPORIDIUM)


def viruses_by_light(dose: Array) -> Array:
    """Log reduction of viruses that a validated dose is counted for; the hardiest, adenovirus, decides.

    Parameters
    ----------
    dose : [J/m2] at 254 nm, validated for the flow and the water it is given in

    Returns
    -------
    [log], same shape: the tabulated log no larger dose than this gives; 4 at the most

    Source: 40 CFR 141.720(d)(1). The rule lets nobody read between its columns, so the credit steps down.

    >>> viruses_by_light(np.array([400.0, 1860.0]))
    array([0.5, 4. ])
    """
    return _reached(dose, VIRUSES)


def _reached(dose: Array, doses: Array) -> Array:
    steps = np.concatenate([[0.0], LOGS])
    found = steps[np.searchsorted(MILLIJOULE * doses, dose * (1.0 + HAIR), side="right")]
    return np.where(np.isnan(dose), np.nan, found)
