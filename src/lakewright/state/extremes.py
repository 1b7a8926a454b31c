"""How low a level falls once in so many years: plotting positions, fits by L-moments, and how far off they may be."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from statistics import NormalDist

import numpy as np

from lakewright.physics.types import Array

EULER = 0.5772156649015329
"""Euler's constant, the mean of a standard Gumbel variate."""

CUNNANE = 0.4
"""Plotting constant that suits most laws. Source: Cunnane (1978), as `plotting-positions` restates it."""

Fit = Callable[[Array], float]
"""The level that falls short of in one year of so many, of a sample of yearly lows in rising order."""


def plotting_positions(count: int, constant: float) -> Array:
    """Share of years lower than each of a sample in rising order.

    Source: (m - a) / (n + 1 - 2 a); a is 0 after Weibull, 0.4 after Cunnane, 0.44 after Gringorten.

    >>> [round(float(each), 5) for each in plotting_positions(20, 0.44)[:1]]
    [0.02783]
    """
    rank = np.arange(1.0, count + 1.0)
    share: Array = (rank - constant) / (count + 1.0 - 2.0 * constant)
    return share


def l_moments(rising: Array) -> tuple[float, float, float]:
    """First two L-moments of a sample in rising order, and the ratio of the third to the second.

    Source: Hosking (1990), unbiased, by probability-weighted moments.

    >>> l_moments(np.array([1.0, 2.0, 3.0]))
    (2.0, 0.6666666666666665, 0.0)
    """
    n = len(rising)
    rank = np.arange(n)
    b0 = float(np.mean(rising))
    b1 = float(np.sum(rank * rising)) / (n * (n - 1))
    b2 = float(np.sum(rank * (rank - 1) * rising)) / (n * (n - 1) * (n - 2))
    second = 2.0 * b1 - b0
    third = 6.0 * b2 - 6.0 * b1 + b0
    # Years all alike have no shape.
    return b0, second, third / second if second > 0.0 else 0.0


def normal_low(rising: Array, years: float) -> float:
    """Low of a normal law. Source: Hosking (1990): its deviation is the root of pi times the second L-moment."""
    mean, second, _ = l_moments(rising)
    return mean + math.sqrt(math.pi) * second * NormalDist().inv_cdf(1.0 / years)


def gumbel_low(rising: Array, years: float) -> float:
    """Low of a Gumbel law of minima. Source: Hosking (1990): its scale is the second L-moment over ln 2."""
    mean, second, _ = l_moments(rising)
    scale = second / math.log(2.0)
    return mean + EULER * scale + scale * math.log(-math.log(1.0 - 1.0 / years))


def general_low(rising: Array, years: float) -> float:
    """Low of a general extreme value law of minima, of which Gumbel's and Weibull's are kinds.

    Source: Hosking, Wallis and Wood (1985), by L-moments; its shape to 9e-4.
    """
    mean, second, skew = l_moments(-rising[::-1])
    c = 2.0 / (3.0 + skew) - math.log(2.0) / math.log(3.0)
    shape = 7.8590 * c + 2.9554 * c * c
    if abs(shape) < 1e-6:  # ours: there its two forms agree to all figures
        return gumbel_low(rising, years)
    gamma = math.gamma(1.0 + shape)
    scale = second * shape / ((1.0 - math.pow(2.0, -shape)) * gamma)
    place = mean - scale * (1.0 - gamma) / shape
    reduced = math.pow(-math.log(1.0 - 1.0 / years), shape)
    return -(place + scale * (1.0 - reduced) / shape)


LAWS: Mapping[str, Callable[[Array, float], float]] = {
    "normal": normal_low,
    "Gumbel": gumbel_low,
    "general extreme value": general_low,
}
"""Laws of yearly lows. No law of logarithms: the gauge's zero is anyone's choice, and would move the answer."""


def fit_of(rising: Array, law: str) -> float:
    """How straight a sample lies against a law: correlation with what the law has at its plotting positions.

    Source: Filliben (1975), the probability plot correlation, here for any law.
    """
    shares = plotting_positions(len(rising), CUNNANE)
    wanted = np.array([LAWS[law](rising, 1.0 / float(share)) for share in shares])
    if float(np.std(wanted)) == 0.0 or float(np.std(rising)) == 0.0:
        return 0.0
    return float(np.corrcoef(wanted, rising)[0, 1])


def memory(by_year: Sequence[float]) -> float:
    """Correlation of each year with the one before, from 0 to 0.99: lows that come in runs tell less than their number.

    >>> memory([1.0, 2.0, 1.0, 2.0])
    0.0
    """
    off = np.array(by_year) - np.mean(by_year)
    whole = float(np.sum(off * off))
    return min(max(float(np.sum(off[1:] * off[:-1])) / whole, 0.0), 0.99) if whole > 0.0 else 0.0


def independent_years(count: int, correlation: float) -> float:
    """Years without memory that tell as much. Source: n (1 - r) / (1 + r), for a series that remembers a year.

    >>> round(independent_years(98, 0.8319), 1)
    9.0
    """
    return count * (1.0 - correlation) / (1.0 + correlation)


def spread(rising: Array, law: str, years: float) -> float:
    """Standard error of a low if the years were independent: each year left out once. Source: Tukey's jackknife."""
    n = len(rising)
    without = np.array([LAWS[law](np.delete(rising, k), years) for k in range(n)])
    return float(np.sqrt((n - 1.0) / n * np.sum((without - np.mean(without)) ** 2)))


@dataclass(frozen=True, slots=True)
class Low:
    """A level that a year falls below once in so many, and where nine times in ten it truly lies."""

    years: float
    level: float
    lowest: float
    highest: float


@dataclass(frozen=True, slots=True)
class Lows:
    """What a series of yearly lows says."""

    law: str
    lows: tuple[Low, ...]
    correlation: float
    independent: float


NINE_IN_TEN = NormalDist().inv_cdf(0.95)


def lows_of(by_year: Sequence[float], periods: Sequence[float]) -> Lows:
    """Lows of the law that lies straightest, with bands that allow for the memory of the series.

    Parameters
    ----------
    by_year : yearly lows in the order of the years, five or more
    periods : years
    """
    rising = np.sort(np.array(by_year, dtype=float))
    law = max(LAWS, key=lambda name: fit_of(rising, name))
    correlation = memory(by_year)
    independent = independent_years(len(by_year), correlation)
    widened = math.sqrt(len(by_year) / independent)
    found = []
    for years in periods:
        level = LAWS[law](rising, years)
        off = NINE_IN_TEN * widened * spread(rising, law, years)
        found.append(Low(years, level, level - off, level + off))
    return Lows(law, tuple(found), correlation, independent)
