"""Air that lake water holds, and what of it comes out under suction."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array
from lakewright.physics.water import ICE_POINT

# Source: Handbook of Chemistry, 15th ed., table 5.1, column of air, 0 to 12 C; Kaye and Laby, Tables (1941), page 145,
# from 15 C. Volume of air at 0 C and one atmosphere in one of water.
_DEGREES = np.array([*np.arange(13.0), 15.0, 20.0, 25.0, 30.0])
_COLD = [29.18, 28.42, 27.69, 26.99, 26.32, 25.68, 25.06, 24.47, 23.90, 23.36, 22.84, 22.34, 21.87]
_VOLUMES = 1e-3 * np.array([*_COLD, 20.5, 18.7, 17.1, 15.7])

_HAIR = 1e-9
"""ours: an edge of the table in C belongs to it, though adding 273.15 loses the last bit [K]."""


def air_solubility(temperature: Array) -> Array:
    """Volume of air, as warm as the water and at one atmosphere, that a volume of lake water holds.

    Parameters
    ----------
    temperature : [K], valid 273.15 to 303.15

    Returns
    -------
    [share], same shape; nan outside the valid range

    Source: Handbook of Chemistry, 15th ed., table 5.1, and Kaye and Laby (1941), page 145, both after Winkler (1904);
    straight lines between rows; brought from 0 C to the water's temperature as a perfect gas. They count water under
    one atmosphere of moist air, so the air alone is 1 % (at 10 C) to 4 % (at 30 C) more.

    >>> round(float(air_solubility(np.array([283.15]))[0]), 4)
    0.0237
    """
    degrees = temperature - ICE_POINT
    inside = (degrees >= _DEGREES[0] - _HAIR) & (degrees <= _DEGREES[-1] + _HAIR)
    return np.where(inside, np.interp(degrees, _DEGREES, _VOLUMES) * (temperature / ICE_POINT), np.nan)


def released_gas_share(solubility: Array, atmosphere: Array, pressure: Array, vapour_pressure: Array) -> Array:
    """Volume of gas beside a volume of water whose pressure has fallen, once everything that can has come out.

    Parameters
    ----------
    solubility : [share] as `air_solubility` gives it
    atmosphere : [Pa] absolute, on the lake
    pressure : [Pa] absolute, of the water now
    vapour_pressure : [Pa] absolute, of the water

    Returns
    -------
    [share], broadcast shape; 0 at the atmosphere's pressure and above, infinite where the water boils

    Source: Henry's law: dissolved air goes with the pressure of air, which fills what vapour leaves. An upper bound:
    a pump gives the air no time to reach it.

    >>> round(float(released_gas_share(0.02368, np.array([101325.0]), 56504.0, 1228.0)[0]), 4)
    0.0192
    """
    gone = np.maximum(atmosphere - pressure, 0.0)
    left = np.maximum(pressure - vapour_pressure, 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        return solubility * gone / left
