"""A jet pump as its maker publishes it: flow by suction lift and discharge pressure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from lakewright.physics.curve import _offsets
from lakewright.physics.types import Array, Index


@dataclass(frozen=True)
class JetTable:
    """Flow over lift and pressure, straight in each between the table's lines, held at its edges.

    Cells are numbered lift by lift; `a..d` are the coefficients of 1, u, v and u v, with u and v the distances from
    the cell's low corner. Leading axes are those of a batch; the breaks are padded with infinity. `last_lift` and
    `last_pressure` bound what the maker says. `shut_off` is the pressure at which
    flow is first nothing, nan on a line of lift whose flow never ends inside the table.
    """

    lift_starts: Array
    lift_breaks: Array
    first_lift: Array
    last_lift: Array
    pressure_starts: Array
    pressure_breaks: Array
    first_pressure: Array
    last_pressure: Array
    a: Array
    b: Array
    c: Array
    d: Array
    shut_off: Array
    shut_off_slope: Array
    last_shut_off: Array

    def at(self, lift: Array, pressure: Array) -> tuple[Array, Array, Array]:
        """Flow [m3/s] at an equivalent lift [m] and discharge pressure [Pa gauge], and its two slopes there."""
        lift_in = np.minimum(np.maximum(lift, self.first_lift), self.last_lift)
        pressure_in = np.minimum(np.maximum(pressure, self.first_pressure), self.last_pressure)
        row = _cell(lift_in, self.lift_breaks)
        column = _cell(pressure_in, self.pressure_breaks)
        columns = self.pressure_starts.shape[-1]
        cell = row * columns + column + _offsets(self.a)
        u = lift_in - np.take(self.lift_starts, row + _offsets(self.lift_starts))
        v = pressure_in - np.take(self.pressure_starts, column + _offsets(self.pressure_starts))
        a, b, c, d = (np.take(table, cell) for table in (self.a, self.b, self.c, self.d))
        value = a + u * b + v * (c + u * d)
        by_lift = np.where(lift_in == lift, b + v * d, 0.0)
        by_pressure = np.where(pressure_in == pressure, c + u * d, 0.0)
        return value, by_lift, by_pressure

    def rest_pressure(self, lift: Array) -> Array:
        """Discharge pressure [Pa gauge] at which flow is first nothing, by equivalent lift [m], held at the edges."""
        lift_in = np.minimum(np.maximum(lift, self.first_lift), self.last_lift)
        row = _cell(lift_in, self.lift_breaks) + _offsets(self.lift_starts)
        start, value, slope = (np.take(t, row) for t in (self.lift_starts, self.shut_off, self.shut_off_slope))
        beyond = lift_in - start
        between = np.where(beyond == 0.0, value, value + slope * beyond)
        return np.where(lift_in == self.last_lift, self.last_shut_off, between)


def _cell(x: Array, breaks: Array) -> Index:
    where = np.zeros(np.broadcast_shapes(x.shape, (*breaks.shape[:-1], 1)), dtype=np.intp)
    for point in range(breaks.shape[-1]):
        where += x >= breaks[..., point, None]
    return where


def jet_table(lifts: Sequence[float], pressures: Sequence[float], flows: Sequence[Sequence[float]]) -> JetTable:
    """Read a maker's table.

    Parameters
    ----------
    lifts : two or more, rising [m]
    pressures : two or more, rising [Pa gauge]
    flows : one row a lift, one column a pressure [m3/s]

    Returns
    -------
    JetTable without leading axes

    Source: bilinear interpolation; no value is carried past the table (ours: held at the low edges, which is the
    cautious
    side, and refused past the high ones by whoever asks).

    >>> t = jet_table([1.5, 3.0], [0.0, 2e5], [[1e-3, 0.0], [5e-4, 0.0]])
    >>> round(float(t.at(np.array([1.5]), np.array([1e5]))[0][0]), 6)
    0.0005
    """
    x, y, q = np.array(lifts, dtype=float), np.array(pressures, dtype=float), np.array(flows, dtype=float)
    dx, dy = np.diff(x)[:, None], np.diff(y)[None, :]
    corner, up, right, far = q[:-1, :-1], q[1:, :-1], q[:-1, 1:], q[1:, 1:]
    rest = np.array([y[np.argmax(row <= 0.0)] if np.any(row <= 0.0) else np.nan for row in q])
    return JetTable(
        x[:-1],
        x[1:-1],
        x[:1],
        x[-1:],
        y[:-1],
        y[1:-1],
        y[:1],
        y[-1:],
        corner.ravel(),
        ((up - corner) / dx).ravel(),
        ((right - corner) / dy).ravel(),
        ((far - up - right + corner) / (dx * dy)).ravel(),
        rest[:-1],
        np.diff(rest) / np.diff(x),
        rest[-1:],
    )


def unknown_table() -> JetTable:
    """A table nobody has given: nan everywhere."""
    blank, none = np.full(1, np.nan), np.empty(0)
    return JetTable(blank, none, blank, blank, blank, none, blank, blank, *([blank] * 7))


def stack_tables(tables: Sequence[JetTable]) -> JetTable:
    """A batch of tables with one leading axis; smaller ones are padded with cells no value falls in."""
    rows = max(t.lift_starts.shape[-1] for t in tables)
    columns = max(t.pressure_starts.shape[-1] for t in tables)

    def padded(name: str, size: int, fill: float) -> Array:
        return np.stack([np.pad(a, (0, size - a.shape[-1]), constant_values=fill) for a in _each(tables, name)])

    def cells(name: str) -> Array:
        square = [a.reshape(t.lift_starts.shape[-1], -1) for t, a in zip(tables, _each(tables, name), strict=True)]
        return np.stack([np.pad(a, [(0, rows - a.shape[0]), (0, columns - a.shape[1])]).ravel() for a in square])

    edges = ("first_lift", "last_lift", "first_pressure", "last_pressure", "last_shut_off")
    return JetTable(
        lift_starts=padded("lift_starts", rows, 0.0),
        lift_breaks=padded("lift_breaks", rows - 1, np.inf),
        pressure_starts=padded("pressure_starts", columns, 0.0),
        pressure_breaks=padded("pressure_breaks", columns - 1, np.inf),
        **{name: cells(name) for name in ("a", "b", "c", "d")},
        shut_off=padded("shut_off", rows, 0.0),
        shut_off_slope=padded("shut_off_slope", rows, 0.0),
        **{name: np.stack(_each(tables, name)) for name in edges},
    )


def _each(tables: Sequence[JetTable], name: str) -> list[Array]:
    return [getattr(t, name) for t in tables]


def tables_of(batch: JetTable, index: Index) -> JetTable:
    """The tables of a batch named by `index`."""
    return JetTable(*(np.ascontiguousarray(getattr(batch, name)[index]) for name in JetTable.__dataclass_fields__))
