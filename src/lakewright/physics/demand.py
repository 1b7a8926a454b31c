"""What is asked of a supply: fixtures, allowances, watering."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lakewright.physics.curve import Curve
from lakewright.physics.types import Array


def peak_flow(fixture_units: Array, chart: Curve) -> Array:
    """Flow that fixtures draw at once, seldom exceeded, by the fixture units of them all.

    Parameters
    ----------
    fixture_units : [-] sum over the fixtures, of one code's list alone
    chart : straight lines through the same code's rows of units and flow [m3/s]

    Returns
    -------
    [m3/s], same shape; 0 for no units, the first row's flow up to its units, nan past the last row

    Source: the plumbing codes' table look-up with straight lines between rows (International Plumbing Code 2018,
    appendix E). Holding the first row's flow below it is ours: one fixture draws that much.

    >>> from lakewright.physics.curve import straight_lines
    >>> float(peak_flow(np.array([2.5]), straight_lines([1, 2, 3], [3.0, 5.0, 6.5]))[0])
    5.75
    """
    units = np.asarray(fixture_units, dtype=float)
    return np.where(units == 0.0, 0.0, chart.at(units))


@dataclass(frozen=True)
class Allowances:
    """Uses of water, one a place: what each adds to a peak, what its outlet gives, and the group it is summed in.

    Three arrays of one axis. `group` counts from 0: house, yard, farm.
    """

    allowance: Array
    outlet: Array
    group: tuple[int, ...]


def peak_allowance(counts: Array, uses: Allowances) -> Array:
    """Peak flow of a home or farm: the sum of allowances, the largest use of each group at its outlet's full flow.

    Parameters
    ----------
    counts : [-] how many of each use, last axis as in `uses`
    uses : their allowances [m3/s]

    Returns
    -------
    [m3/s], shape of `counts` without its last axis

    Source: private water systems for farm and home, pages in an archive of 2008 (peak demand allowance and fixture
    flow rate). Of uses with the same allowance the one with the largest outlet is replaced (ours).

    >>> uses = Allowances(np.array([0.5, 2.0]), np.array([2.0, 8.0]), (0, 0))
    >>> peak_allowance(np.array([[2.0, 1.0]]), uses)
    array([9.])
    """
    total = np.zeros(counts.shape[:-1])
    for group in sorted(set(uses.group)):
        largest, extra = np.full(total.shape, -1.0), np.zeros(total.shape)
        for place in [place for place, of in enumerate(uses.group) if of == group]:
            count, allowance = counts[..., place], uses.allowance[place]
            more = uses.outlet[place] - allowance
            total = total + count * allowance
            ahead = (count > 0.0) & ((allowance > largest) | ((allowance == largest) & (more > extra)))
            largest, extra = np.where(ahead, allowance, largest), np.where(ahead, more, extra)
        total = total + extra
    return total


@dataclass(frozen=True)
class Watering:
    """Land watered to a depth in every period, while the pump runs a share of the time.

    area [m2], depth [m], period [s], running [share] above 0, efficiency [share] above 0: what is of use of what is
    pumped.
    """

    area: Array
    depth: Array
    period: Array
    running: Array
    efficiency: Array

    def volume(self) -> Array:
        """Water pumped in one period [m3], broadcast shape. Source: area times depth over efficiency.

        >>> acre, inch, day = np.array([4046.8564224]), np.array([0.0254]), np.array([86400.0])
        >>> float(np.round(Watering(acre, inch, day, np.ones(1), np.ones(1)).volume()[0] / 3.785411784e-3))
        27154.0
        """
        return self.area * self.depth / self.efficiency

    def flow(self) -> Array:
        """Flow while the pump runs for it [m3/s], broadcast shape. Source: volume over the time it runs."""
        return self.volume() / (self.period * self.running)
