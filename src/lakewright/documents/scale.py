"""Scales people draw at, and the steps people count in."""

from __future__ import annotations

import math
from dataclasses import dataclass

from lakewright.units.tables import FOOT, INCH

# ours: the round feet to an inch and the round ratios found on a draughtsman's rule, and their tens.
FEET_TO_AN_INCH = (0.25, 1 / 3, 0.5, 2 / 3, 5 / 6, 1, 4 / 3, 2, 3, 4, 5, 8, 10, 15, 20, 30, 40, 50, 60, 80, 100, 150,
                   200, 300, 400, 500, 600, 800, 1000, 1500, 2000, 3000, 4000, 5000, 6000, 8000, 10000)  # fmt: skip
RATIOS = (2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 125, 150, 200, 250, 300, 400, 500, 600, 750, 1000, 1250, 1500,
          2000, 2500, 3000, 4000, 5000, 7500, 10000, 15000, 20000, 50000, 100000)  # fmt: skip

# ours: how many times larger heights may be drawn.
LARGER = (1, 2, 3, 4, 5, 8, 10, 15, 20, 30, 50)


@dataclass(frozen=True)
class Scale:
    """A named scale: millimetres of paper to a metre of ground."""

    words: str
    mm: float


def scales(system: str) -> list[Scale]:
    """All named scales, the largest drawing first."""
    if system == "SI":
        return [Scale(f"1 : {ratio}", 1000.0 / ratio) for ratio in RATIOS]
    return [Scale(_feet(feet), INCH * 1000.0 / (feet * FOOT)) for feet in FEET_TO_AN_INCH]


def _feet(feet: float) -> str:
    return f"1 in = {feet * 12.0:g} in" if feet % 1.0 else f"1 in = {feet:g} ft"


def largest_within(system: str, most: float) -> Scale:
    """The largest named scale of at most so many millimetres to the metre.

    >>> largest_within("SI", 3.0).words
    '1 : 400'
    """
    every = scales(system)
    return next((scale for scale in every if scale.mm <= most), every[-1])


def unit_length(system: str) -> tuple[float, str]:
    """The unit of the axes [m], and its name."""
    return (1.0, "m") if system == "SI" else (FOOT, "ft")


def step(mm_per_unit: float, least_mm: float) -> float:
    """The smallest of 1, 2, 5 and their tens, in units of the axis, that is so far apart on paper.

    >>> step(1.0, 12.0)
    20.0
    """
    power = math.floor(math.log10(least_mm / mm_per_unit))
    for exponent in (power, power + 1):
        for digit in (1.0, 2.0, 5.0):
            found = digit * 10.0**exponent
            if found * mm_per_unit >= least_mm * (1.0 - 1e-9):
                return found
    return 10.0 ** (power + 2)


def label(value: float, every: float) -> str:
    """A figure of an axis counted in such steps, without idle digits."""
    places = max(0, -math.floor(math.log10(every) + 1e-9))
    return f"{abs(value):.{places}f}"
