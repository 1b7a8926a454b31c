"""Wind over open water, and the waves it raises on a lake of some depth."""

from __future__ import annotations

import numpy as np

from lakewright.physics.types import GRAVITY, Array

HOUR_MEAN = 3600.0
"""Time over which a mean wind is averaged [s]."""

TEN_MINUTE_MEAN = 600.0
"""Time over which the wind of `finite_depth_waves` is averaged [s]. Source: a library of earth science, shallow-water
waves: the depth-limited law wants the sustained wind, this one a mean of ten minutes."""

PEAK_OVER_SIGNIFICANT = 1.0 / 0.95
"""Peak period over significant period [-]. Source: Shore Protection Manual (1984), as restated: Ts is 0.95 Tp."""


def wind_at_ten_metres(wind: Array, mast_height: Array) -> Array:
    """Wind at the height that wave laws are written for.

    Parameters
    ----------
    wind : [m/s] measured
    mast_height : [m] of the instrument over water or open ground, above 0 and below 20

    Returns
    -------
    [m/s], broadcast shape

    Source: Shore Protection Manual (1984), chapter 3, section IV (memory: no text at hand).

    >>> round(float(wind_at_ten_metres(np.array([1.0]), np.array([4.0]))[0]), 3)
    1.14
    """
    return wind * (10.0 / mast_height) ** (1.0 / 7.0)


def gust_ratio(averaging: Array) -> Array:
    """Strongest wind averaged over a time, over the mean of its hour.

    Parameters
    ----------
    averaging : [s] 1 to 36000; held at the ends

    Returns
    -------
    [-], same shape

    Source: Coastal Engineering Manual, part II chapter 2, example II-2-2 (longer than an hour); the same, equation
    II-2-1 (up to an hour; memory: its figures).

    >>> [round(float(ratio), 2) for ratio in gust_ratio(np.array([3.0, 60.0, 600.0, 7200.0]))]
    [1.51, 1.24, 1.05, 0.95]
    """
    seconds = np.clip(averaging, 1.0, 36000.0)
    short = 1.277 + 0.296 * np.tanh(0.9 * np.log10(45.0 / seconds))
    return np.where(seconds <= HOUR_MEAN, short, 1.5334 - 0.15 * np.log10(seconds))


def averaged_wind(wind: Array, averaging: Array, wanted_averaging: Array) -> Array:
    """The same wind averaged over another time.

    Parameters
    ----------
    wind : [m/s] averaged over `averaging`
    averaging : [s] as `gust_ratio`
    wanted_averaging : [s] as `gust_ratio`

    Returns
    -------
    [m/s], broadcast shape

    Source: as `gust_ratio`.

    >>> round(float(averaged_wind(np.array([20.3]), np.array([300.0]), np.array([3600.0]))[0]), 1)
    18.6
    """
    return wind * (gust_ratio(wanted_averaging) / gust_ratio(averaging))


def friction_velocity(wind: Array) -> Array:
    """Velocity that stands for the pull of the wind on the water.

    Parameters
    ----------
    wind : [m/s] at 10 m

    Returns
    -------
    [m/s], same shape

    Source: Coastal Engineering Manual, part II chapter 2, equation II-2-36.

    >>> round(float(friction_velocity(np.array([20.0]))[0]), 4)
    0.8485
    """
    return wind * np.sqrt(0.001 * (1.1 + 0.035 * wind))


def crossing_time(fetch: Array, wind: Array) -> Array:
    """Time that waves take to cross the open water, after which they grow no more.

    Parameters
    ----------
    fetch : [m] of open water to windward, in a straight line
    wind : [m/s] at 10 m

    Returns
    -------
    [s], broadcast shape; infinite for no wind

    Source: Coastal Engineering Manual, part II chapter 2, equation II-2-38. The longest of four laws at 3 km and
    20 m/s, so the one that averages a wind the least in favour of big waves.

    >>> round(float(crossing_time(np.array([3000.0]), np.array([20.0]))[0]))
    3407
    """
    calm = wind == 0.0
    pull = friction_velocity(np.where(calm, 1.0, wind))
    seconds = pull / GRAVITY * (GRAVITY * fetch / (pull * pull) / 5.23e-3) ** (2.0 / 3.0)
    return np.where(calm, np.inf, seconds)


def fetch_crossed(duration: Array, wind: Array) -> Array:
    """Fetch that a storm too short for the whole lake has the waves of.

    Parameters
    ----------
    duration : [s] that the wind lasts
    wind : [m/s] at 10 m

    Returns
    -------
    [m], broadcast shape; 0 for no wind

    Source: as `crossing_time`, the other way round.

    >>> round(float(fetch_crossed(np.array([1800.0]), np.array([20.0]))[0]))
    1152
    """
    pull = friction_velocity(wind)
    return 5.23e-3 * np.sqrt(GRAVITY * pull) * duration**1.5


# ours: three passes close 1e-4 of the wind, as the ratio hardly turns with time.
_PASSES = 3
# ours: no lake is so short that less than a minute counts; what is shorter is a gust.
_SHORTEST = 60.0


def sustained_wind(wind: Array, averaging: Array, fetch: Array) -> Array:
    """Strongest wind that lasts for as long as its waves take to cross the fetch.

    Parameters
    ----------
    wind : [m/s] at 10 m, averaged over `averaging`
    averaging : [s] as `gust_ratio`
    fetch : [m] of open water to windward

    Returns
    -------
    [m/s], broadcast shape; 0 for no wind

    Source: as `gust_ratio` and `crossing_time`; the averaging time is the crossing time (Coastal Engineering Manual,
    part II chapter 2).

    >>> round(float(sustained_wind(np.array([30.0]), np.array([3.0]), np.array([3000.0]))[0]), 2)
    19.88
    """
    calm = wind == 0.0
    hourly = np.where(calm, 1.0, wind) / gust_ratio(averaging)
    mean = hourly + 0.0 * fetch
    for _ in range(_PASSES):
        mean = hourly * gust_ratio(np.maximum(crossing_time(fetch, mean), _SHORTEST))
    return np.where(calm, 0.0, mean)


def adjusted_wind(wind: Array) -> Array:
    """Wind-stress factor of the depth-limited law.

    Parameters
    ----------
    wind : [m/s] at 10 m

    Returns
    -------
    [m/s], same shape

    Source: Shore Protection Manual (1984), volume I, chapter 3, as restated.

    >>> round(float(adjusted_wind(np.array([20.0]))[0]), 3)
    28.283
    """
    return 0.71 * wind**1.23


def depth_limited_waves(wind: Array, fetch: Array, depth: Array) -> tuple[Array, Array]:
    """Waves on a lake of one depth: significant height and significant period.

    Parameters
    ----------
    wind : [m/s] at 10 m, sustained for the crossing time
    fetch : [m] of open water to windward
    depth : [m] along the fetch, above 0

    Returns
    -------
    [m] and [s], broadcast shape; 0 and 0 for no wind or no fetch

    Source: Shore Protection Manual (1984), volume I, equations 3-39 and 3-40, as restated. The period is the
    significant one: `PEAK_OVER_SIGNIFICANT` makes it the peak period.

    >>> [round(float(each[0]), 3) for each in depth_limited_waves(np.full(1, 20.0), np.full(1, 3e3), np.full(1, 4.0))]
    [0.703, 2.548]
    """
    calm = wind == 0.0
    U_A = adjusted_wind(np.where(calm, 1.0, wind))
    X, d = GRAVITY * fetch / (U_A * U_A), GRAVITY * depth / (U_A * U_A)
    a, b = np.tanh(0.530 * d**0.75), np.tanh(0.833 * d**0.375)
    height = 0.283 * a * np.tanh(0.00565 * np.sqrt(X) / a) * (U_A * U_A / GRAVITY)
    period = 7.54 * b * np.tanh(0.0379 * X ** (1.0 / 3.0) / b) * (U_A / GRAVITY)
    return np.where(calm, 0.0, height), np.where(calm, 0.0, period)


def finite_depth_waves(wind: Array, fetch: Array, depth: Array) -> tuple[Array, Array]:
    """Waves as measured on a shallow lake: significant height and peak period.

    Parameters
    ----------
    wind : [m/s] at 10 m, a mean of ten minutes, about 5 to 20
    fetch : [m] of open water to windward
    depth : [m] mean along the fetch, above 0

    Returns
    -------
    [m] and [s], broadcast shape; 0 and 0 for no wind or no fetch

    Source: Young and Verhagen, Coastal Engineering 29 (1996), as restated. Its frequency to the power -0.37 is written
    here as a period to the power 0.37.

    >>> [round(float(each[0]), 3) for each in finite_depth_waves(np.full(1, 20.0), np.full(1, 3e3), np.full(1, 4.0))]
    [0.523, 2.936]
    """
    calm = wind == 0.0
    U = np.where(calm, 1.0, wind)
    X, d = GRAVITY * fetch / (U * U), GRAVITY * depth / (U * U)
    A1, A2 = np.tanh(0.493 * d**0.75), np.tanh(0.331 * d**1.01)
    energy = 3.64e-3 * (A1 * np.tanh(3.13e-3 * X**0.57 / A1)) ** 1.74
    period = (A2 * np.tanh(5.215e-4 * X**0.73 / A2)) ** 0.37 / 0.133
    height = 4.0 * np.sqrt(energy) * (U * U / GRAVITY)
    return np.where(calm, 0.0, height), np.where(calm, 0.0, period * (U / GRAVITY))


def deep_water_waves(wind: Array, fetch: Array) -> tuple[Array, Array]:
    """Waves where no bed is felt, for the spread of the laws: significant height and peak period.

    Parameters
    ----------
    wind : [m/s] at 10 m, a mean of ten minutes
    fetch : [m] of open water to windward, short of a full-grown sea

    Returns
    -------
    [m] and [s], broadcast shape

    Source: Hasselmann and others (1973), the mean law of the JONSWAP measurements, in a coastal textbook's problem.

    >>> [round(float(each[0]), 2) for each in deep_water_waves(np.array([20.0]), np.array([3000.0]))]
    [0.56, 2.44]
    """
    height = 0.0016 * wind * np.sqrt(fetch / GRAVITY)
    return height, 0.286 * (wind * fetch / (GRAVITY * GRAVITY)) ** (1.0 / 3.0)
