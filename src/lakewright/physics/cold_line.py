"""A pipe in the cold: how much shorter it gets, and what compressed air holds that blows it empty."""

from __future__ import annotations

from lakewright.physics.types import Array

# Source: Handbook of PE pipe, 2nd ed., 9e-5 for each F. Source: engineering page, thermal expansion of a PVC pipe,
# 50.4e-6 for each C. memory: copper 16.5e-6, galvanized steel 12e-6 for each C.
EXPANSION = {"polyethylene": 9e-5 * 1.8, "PVC": 50.4e-6, "copper": 16.5e-6, "steel": 12e-6}
"""Length that a pipe gains over its length, for each kelvin [1/K]."""

# Source: ASME PCC-2, appendix 501-II, equation II-2: 1/(k - 1) = 2.5 and (k - 1)/k = 0.286 with k = 1.4 for air.
_PER_VOLUME, _POWER = 2.5, 0.286


def contraction(expansion: Array, length: Array, cooling: Array) -> Array:
    """How much shorter a pipe gets when it cools and nothing holds it.

    Parameters
    ----------
    expansion : [1/K] as `EXPANSION`
    length : [m] of the pipe
    cooling : [K] from the warmth it was laid in to the coldest it gets

    Returns
    -------
    [m], broadcast shape

    Source: Handbook of PE pipe, 2nd ed.: an inch in a hundred feet for every ten degrees Fahrenheit.

    >>> import numpy as np
    >>> round(float(contraction(np.array([9e-5 * 1.8]), np.array([100.0]), np.array([10.0 / 1.8]))[0]) * 12.0, 2)
    1.08
    """
    return expansion * length * cooling


def stored_energy(pressure: Array, volume: Array, atmosphere: Array) -> Array:
    """Energy that air under pressure lets go when what holds it bursts.

    Parameters
    ----------
    pressure : [Pa] absolute, of the air
    volume : [m3] that it fills
    atmosphere : [Pa] absolute, around it

    Returns
    -------
    [J], broadcast shape

    Source: ASME PCC-2, appendix 501-II, equation II-2, as a public page has it.

    >>> import numpy as np
    >>> round(float(stored_energy(np.array([1.1e6]), np.array([0.3]), np.array([1e5]))[0]) / 1000.0)
    409
    """
    return _PER_VOLUME * pressure * volume * (1.0 - (atmosphere / pressure) ** _POWER)
