"""Frost in the ground, and the dates it comes and goes by."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import Array

# Source: UFC 3-130-05, equation 12-3 and its list: water freezes with 144 Btu/lb. A Btu/lb is 2326 J/kg (NIST SP 811).
_FUSION = 144.0 * 2326.0
# Source: Corps of Engineers, modified Berggren as restated in a road calculation: C = gamma (0.17 + 0.75 w) Btu/lb F.
_MINERAL, _WATER, _BTU_PER_POUND_F = 0.17, 0.75, 4186.8

SURFACE = {"snow": 1.0, "bare soil": 0.7, "turf": 0.5, "shaded": 0.9, "concrete": 0.75}
"""Freezing index of a surface over that of the air. Source: UFC 3-130-04, table 4-1."""

TENTH = 1.28155
"""Standard deviations before the mean that a tenth of all years lies. Source: Abramowitz and Stegun, table 26.5."""

# Source: Abramowitz and Stegun, equation 7.1.26: within 1.5e-7.
_RATIONAL = (0.254829592, -0.284496736, 1.421413741, -1.453152027, 1.061405429)
_PACE = 0.3275911
# ours: fifty halvings of three leave the last bit.
_HALVINGS = 50


def soil_latent_heat(dry_density: Array, moisture: Array) -> Array:
    """Heat that a soil gives off when its water freezes.

    Parameters
    ----------
    dry_density : [kg/m3] of the soil, dry
    moisture : [share] water over dry soil, by mass

    Returns
    -------
    [J/m3], broadcast shape

    Source: UFC 3-130-05, chapter 12: L = 144 gamma w.

    >>> round(float(soil_latent_heat(np.array([1601.846]), np.array([0.15]))[0]) / 37258.9)
    2160
    """
    return _FUSION * dry_density * moisture


def soil_heat_capacity(dry_density: Array, moisture: Array) -> Array:
    """Heat that warms a soil by a kelvin, mean of frozen and thawed.

    Parameters
    ----------
    dry_density : [kg/m3]
    moisture : [share] water over dry soil, by mass

    Returns
    -------
    [J/(m3 K)], broadcast shape

    Source: Corps of Engineers as restated: C = gamma (0.17 + 0.75 w).

    >>> round(float(soil_heat_capacity(np.array([1601.846]), np.array([0.15]))[0]) / 67066.1, 2)
    28.25
    """
    return _BTU_PER_POUND_F * dry_density * (_MINERAL + _WATER * moisture)


def fusion_parameter(surface_index: Array, season: Array, heat_capacity: Array, latent_heat: Array) -> Array:
    """Heat of cooling the frozen soil over the heat of freezing it.

    Parameters
    ----------
    surface_index : [K s] cold of a winter at the ground's surface
    season : [s] length of the cold season
    heat_capacity : [J/(m3 K)] of the soil
    latent_heat : [J/m3] of the soil

    Returns
    -------
    [ratio], broadcast shape

    Source: Corps of Engineers as restated: mu = v_s C / L with v_s = n F / t.

    >>> given = (9.6e7, 1.2e7, 1.9e6, 8.0e7)
    >>> round(float(fusion_parameter(*(np.array([each]) for each in given))[0]), 2)
    0.19
    """
    return surface_index / season * heat_capacity / latent_heat


def frost_correction(fusion: Array, warmth_ratio: Array) -> Array:
    """Share of Stefan's depth that frost reaches, for the heat besides that of freezing.

    Parameters
    ----------
    fusion : [ratio] as `fusion_parameter`, above 0
    warmth_ratio : [ratio] mean of the year above freezing over mean of the winter below it, 0 or more

    Returns
    -------
    [share], broadcast shape

    Source: Neumann's solution with the soil alike frozen and thawed, on which the chart of the modified Berggren
    equation stands; halved a fixed number of times.

    >>> round(float(frost_correction(np.array([0.2]), np.array([1.0]))[0]), 3)
    0.776
    """
    low, high = np.full_like(fusion + warmth_ratio, 1e-9), np.full_like(fusion + warmth_ratio, 3.0)
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        inside = _error_function(middle)
        pull = np.exp(-middle * middle) * (1.0 / inside - warmth_ratio / (1.0 - inside))
        more = pull > np.sqrt(np.pi) * middle / fusion
        low, high = np.where(more, middle, low), np.where(more, high, middle)
    return low * np.sqrt(2.0 / fusion) + 0.0 * warmth_ratio


def frost_depth(conductivity: Array, surface_index: Array, latent_heat: Array, correction: Array) -> Array:
    """How deep the ground freezes in a winter.

    Parameters
    ----------
    conductivity : [W/(m K)] of the soil, mean of frozen and thawed
    surface_index : [K s] cold of a winter at the ground's surface
    latent_heat : [J/m3] of the soil
    correction : [share] as `frost_correction`; 1 for Stefan's depth, which is too deep where winters are mild

    Returns
    -------
    [m], broadcast shape

    Source: modified Berggren equation, UFC 3-130-04, chapter 4: X = lambda sqrt(48 k n F / L), in SI sqrt(2 k n F / L).

    >>> given = (1.0 * 1.730735, 1000.0 * 48000.0, 2160.0 * 37258.9, 1.0)
    >>> round(float(frost_depth(*(np.array([each]) for each in given))[0]) / 0.3048, 2)
    4.71
    """
    return correction * np.sqrt(2.0 * conductivity * surface_index / latent_heat)


def early_date(mean_date: Array, date_spread: Array) -> Array:
    """The date before which one autumn in ten has its first hard frost.

    Parameters
    ----------
    mean_date : [s] after the new year, of the first hard frost
    date_spread : [s] standard deviation of that date from year to year

    Returns
    -------
    [s] after the new year, broadcast shape

    Source: the 10th percentile, which regional climate centres call the early date; of a normal distribution.

    >>> round(float(early_date(np.array([278.0]), np.array([9.0]))[0]), 2)
    266.47
    """
    return mean_date - TENTH * date_spread


def late_date(mean_date: Array, date_spread: Array) -> Array:
    """The date after which one spring in ten still has a hard frost.

    Parameters
    ----------
    mean_date : [s] after the new year, of the last hard frost
    date_spread : [s] standard deviation of that date from year to year

    Returns
    -------
    [s] after the new year, broadcast shape

    Source: as `early_date`, the 90th percentile.

    >>> round(float(late_date(np.array([120.0]), np.array([10.0]))[0]), 1)
    132.8
    """
    return mean_date + TENTH * date_spread


def _error_function(x: Array) -> Array:
    t = 1.0 / (1.0 + _PACE * x)
    total = np.zeros_like(x)
    for each in reversed(_RATIONAL):
        total = (total + each) * t
    return 1.0 - total * np.exp(-x * x)
