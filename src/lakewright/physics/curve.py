"""Curves given as points: kept in shape between them, never carried past them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from lakewright.physics.types import Array, Index


@dataclass(frozen=True)
class Curve:
    """One cubic a cell, for one curve or for a batch of curves.

    `starts` are the left ends of the cells, `breaks` the inner points (padded with infinity where curves of a batch
    have fewer), `c0..c3` the coefficients in powers of the distance from the cell's left end. Leading axes are those of
    the batch, the last axis is the cell. `first` and `last` have a last axis of size 1.
    """

    starts: Array
    breaks: Array
    c0: Array
    c1: Array
    c2: Array
    c3: Array
    first: Array
    last: Array

    def cells(self, x: Array) -> tuple[Array, ...]:
        """Left end and coefficients of the cell each x lies in, each of x's broadcast shape."""
        where = np.zeros(np.broadcast_shapes(x.shape, self.first.shape), dtype=np.intp)
        for point in range(self.breaks.shape[-1]):
            where += x >= self.breaks[..., point, None]
        where += _offsets(self.starts)
        return tuple(np.take(table, where) for table in (self.starts, self.c0, self.c1, self.c2, self.c3))

    def at(self, x: Array) -> Array:
        """Value at x, held at the first point's below it, nan above the last point."""
        inside = np.minimum(np.maximum(x, self.first), self.last)
        start, c0, c1, c2, c3 = self.cells(inside)
        u = inside - start
        value = c0 + u * (c1 + u * (c2 + u * c3))
        return np.where(x > self.last, np.nan, value)


def _offsets(table: Array) -> Index:
    """Where each row of a batch begins in the flattened table, with a last axis of size 1.

    >>> _offsets(np.zeros((2, 3))).tolist()
    [[0], [3]]
    """
    lead = table.shape[:-1]
    step = np.array([table.shape[-1]], dtype=np.intp)
    return (np.arange(int(np.prod(lead)), dtype=np.intp) * step).reshape((*lead, 1))


def shape_keeping(x: Sequence[float], y: Sequence[float]) -> Curve:
    """The cubic that rises and falls only where its points do.

    Parameters
    ----------
    x : two or more, rising
    y : as many

    Returns
    -------
    Curve without leading axes

    Source: Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980) 238; slopes by the weighted harmonic mean of
    Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300; three-point ends.

    >>> round(float(shape_keeping([0, 10, 20], [120, 108, 60]).at(np.array([5.0]))[0]), 2)
    116.4
    """
    knots, values = np.array(x, dtype=float), np.array(y, dtype=float)
    step = np.diff(knots)
    secant = np.diff(values) / step
    if len(knots) == 2:
        return _curve(knots, values[:-1], secant, np.zeros(1), np.zeros(1))
    slope = np.zeros_like(values)
    left, right = secant[:-1], secant[1:]
    same = left * right > 0.0
    w1, w2 = 2.0 * step[1:] + step[:-1], step[1:] + 2.0 * step[:-1]
    with np.errstate(divide="ignore", invalid="ignore"):
        slope[1:-1] = np.where(same, (w1 + w2) / (w1 / left + w2 / right), 0.0)
    slope[0] = _end_slope(step[0], step[1], secant[0], secant[1])
    slope[-1] = _end_slope(step[-1], step[-2], secant[-1], secant[-2])
    c2 = (3.0 * secant - 2.0 * slope[:-1] - slope[1:]) / step
    c3 = (slope[:-1] + slope[1:] - 2.0 * secant) / (step * step)
    return _curve(knots, values[:-1], slope[:-1], c2, c3)


def _end_slope(near: float, far: float, secant: float, next_secant: float) -> float:
    slope = ((2.0 * near + far) * secant - near * next_secant) / (near + far)
    if slope * secant <= 0.0:
        return 0.0
    if secant * next_secant <= 0.0 and abs(slope) > 3.0 * abs(secant):
        return float(3.0 * secant)
    return float(slope)


def straight_lines(x: Sequence[float], y: Sequence[float]) -> Curve:
    """Straight lines from point to point. On a curve that bends upward they lie above it: the cautious side.

    >>> float(straight_lines([0, 10, 20], [2, 3, 7]).at(np.array([15.0]))[0])
    5.0
    """
    knots, values = np.array(x, dtype=float), np.array(y, dtype=float)
    flat = np.zeros(len(knots) - 1)
    return _curve(knots, values[:-1], np.diff(values) / np.diff(knots), flat, flat)


def _curve(knots: Array, c0: Array, c1: Array, c2: Array, c3: Array) -> Curve:
    return Curve(knots[:-1], knots[1:-1], c0, c1, c2, c3, knots[:1], knots[-1:])


def unknown_curve() -> Curve:
    """A curve nobody has given: nan everywhere.

    >>> unknown_curve().at(np.array([1.0]))
    array([nan])
    """
    blank = np.full(1, np.nan)
    return Curve(blank, np.empty(0), blank, blank, blank, blank, blank, blank)


def stack(curves: Sequence[Curve]) -> Curve:
    """A batch of curves with one leading axis; shorter ones are padded with cells no value falls in."""
    most = max(curve.starts.shape[-1] for curve in curves)

    def padded(arrays: list[Array], size: int, fill: float) -> Array:
        return np.stack([np.concatenate([a, np.full(size - a.shape[-1], fill)]) for a in arrays])

    return Curve(
        padded([c.starts for c in curves], most, 0.0),
        padded([c.breaks for c in curves], most - 1, np.inf),
        *(padded([getattr(c, name) for c in curves], most, 0.0) for name in ("c0", "c1", "c2", "c3")),
        *(np.stack([getattr(c, name) for c in curves]) for name in ("first", "last")),
    )


def rows_of(batch: Curve, index: Index) -> Curve:
    """The curves of a batch named by `index`, one leading axis.

    >>> rows_of(stack([straight_lines([0, 1], [0, 1])]), np.array([0, 0])).first.shape
    (2, 1)
    """
    return Curve(*(np.ascontiguousarray(getattr(batch, name)[index]) for name in Curve.__dataclass_fields__))
