"""Whole cents, out of rates, shares and lengths of time.

Whatever is worked out is worked out exactly, as a fraction, and rounded once, a half up, in `cents`.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate, pairwise


def cents(amount: Fraction) -> int:
    """Whole cents, a half up: the one place where money is rounded.

    >>> cents(Fraction(5, 2)), cents(Fraction(249, 100))
    (3, 2)
    """
    return math.floor(amount + Fraction(1, 2))


def exact(number: float) -> Fraction:
    """A number as somebody wrote it, without the dust its unit left.

    ours: the nearest fraction with a denominator up to a million; shares and rates are not written finer.

    >>> exact(0.33299999999999996)
    Fraction(333, 1000)
    """
    return Fraction(number).limit_denominator(1_000_000)


def by_markup(share: Fraction) -> Fraction:
    """Price over cost, of a share added to the cost.

    >>> by_markup(Fraction(1, 4))
    Fraction(5, 4)
    """
    return 1 + share


def by_margin(share: Fraction) -> Fraction:
    """Price over cost, of a share of the price that is not cost; the share is less than one.

    >>> by_margin(Fraction(1, 4))
    Fraction(4, 3)
    """
    return 1 / (1 - share)


def asked(costs: Sequence[int], factor: Fraction) -> list[int]:
    """What is asked for each of some costs: running totals are rounded, so that the lines add up to the whole, rounded.

    >>> asked([1, 1, 1], Fraction(3, 2))
    [2, 1, 2]
    """
    ends = [cents(factor * total) for total in accumulate(costs)]
    return [end - start for start, end in pairwise([0, *ends])]
