"""Text out: the only formatter."""

from __future__ import annotations

import functools
import math

from lakewright.units.kinds import KINDS
from lakewright.units.spelling import tidy, unit_named
from lakewright.units.tables import LARGEST, Unit

MOST_DIGITS = 4
"""ours: no tape, gauge or table of the trade is read finer than this; money and counts are exact."""

EVERY_DIGIT = 17
"""Of a number for another program, for a job file, or of a bound: as many digits as a float has."""

MOST_FINER = 3
"""ours: a shortfall under a thousandth of what is shown is no longer worth telling apart."""


def show_apart(one: float, other: float, kind: str, system: str) -> tuple[str, str]:
    """Two numbers as `show` has them, with as many more digits as it takes to tell one from the other.

    >>> show_apart(0.3048 * 13.98, 0.3048 * 14.0, "head", "US")
    ('13.98 ft', '14.00 ft')
    """
    for finer in range(MOST_FINER + 1):
        shown = show(one, kind, system, finer), show(other, kind, system, finer)
        if shown[0] != shown[1]:
            return shown
    return show(one, kind, system), show(other, kind, system)


def show(value: float, kind: str, system: str, finer: int = 0, most: int = MOST_DIGITS) -> str:
    """A number in SI as the trade writes it, with its unit; "unknown" for nan, "no limit" for infinity.

    Rounds to the kind's places and to `most` digits, and `finer` more of either, a half away from zero, and never shows
    a minus before nothing. Money keeps its cents, and a whole number of things stays whole. Thousands have no comma but
    in money: it reads two ways, and what is shown is to read back.

    >>> show(0.3175, "part", "US"), show(0.3175, "part", "SI")
    ('12-1/2 in', '318 mm')
    >>> show(17.857 / 86400.0, "daily_flow", "SI"), show(20_000.0, "count", "SI")
    ('17860 L/day', '20000')
    """
    shown = figure(value, kind, system, finer, most)
    unit = unit_of(kind, system)
    if not unit or not math.isfinite(value):
        return shown
    return f"{shown}{unit}" if unit.startswith("/") else f"{shown} {unit}"


def figure(value: float, kind: str, system: str, finer: int = 0, most: int = MOST_DIGITS) -> str:
    """The number of `show` without its unit."""
    how = KINDS[kind]
    if math.isnan(value):
        return "unknown"
    if math.isinf(value):
        return "no limit"
    places = (how.si_places if system == "SI" else how.us_places) + finer
    scale = shown_unit(kind, system)
    number = (value - scale.offset) / scale.factor
    if how.fraction and system != "SI":
        return _in_fractions(number, how.fraction * 2**finer)
    is_exact = how.dimension.startswith("money") or (how.dimension == "count" and number.is_integer())
    digits = _rounded(abs(number), places if is_exact else min(places, _places_of(abs(number), most + finer)))
    nothing = not digits.strip("0.")
    if how.trimmed and "." in digits:
        digits = digits.rstrip("0").rstrip(".")
    if how.dimension.startswith("money"):
        whole, _, rest = digits.partition(".")
        digits = f"${int(whole):,}.{rest}"
    sign = "" if nothing else "-" if number < 0.0 else "+" if how.signed else ""
    return f"{sign}{digits}"


def unit_of(kind: str, system: str) -> str:
    """The unit of `show` without its number; empty for money and plain numbers."""
    how = KINDS[kind]
    unit = how.si_unit if system == "SI" else how.us_unit
    return unit.removeprefix("$")


def _rounded(size: float, places: int) -> str:
    """A number of no sign as digits, a half rounded up; to tens where places are under 0."""
    if size >= LARGEST:
        return f"{size:.{max(places, 0)}f}"
    # ours: a unit's factor leaves dust under a half, as 317.49999999999994 for 317.5; a billionth lifts it.
    steps = math.floor(size * 10.0**places + 0.5 + 1.0e-9)
    if places <= 0:
        return str(steps * 10**-places)
    whole, rest = divmod(steps, 10**places)
    return f"{whole}.{rest:0{places}d}"


def _places_of(size: float, digits: int) -> int:
    """Places behind the point that a number of so many digits has; under 0 where it ends before the point.

    >>> _places_of(17857.1, 4), _places_of(1061.23, 4), _places_of(0.31496, 4)
    (-1, 0, 4)
    """
    return digits if size == 0.0 else digits - 1 - math.floor(math.log10(size))


def _in_fractions(number: float, denominator: int) -> str:
    """A number with a fraction in lowest terms, as 12-1/2."""
    steps = int(_rounded(abs(number) * denominator, 0))
    whole, rest = divmod(steps, denominator)
    common = math.gcd(rest, denominator)
    fraction = f"{rest // common}/{denominator // common}" if rest else ""
    sign = "-" if number < 0.0 and steps else ""
    return sign + (f"{whole}-{fraction}" if whole and fraction else fraction or str(whole))


@functools.cache
def shown_unit(kind: str, system: str) -> Unit:
    how = KINDS[kind]
    unit = unit_named(how.dimension, tidy(how.si_unit if system == "SI" else how.us_unit))
    if unit is None:
        raise KeyError(kind)
    return unit
