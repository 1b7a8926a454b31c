"""Finds room on a drawing: for words, a lens, a flag with its leader. The cheapest place wins, the same every time."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from lakewright.documents.scene import Box, Point

Numbers = NDArray[np.float64]
Bools = NDArray[np.bool_]
Indices = NDArray[np.intp]


def boxes_meet(boxes: Numbers, others: Numbers, gap: float) -> Bools:
    """Whether each of some boxes comes nearer than a gap to each of others; rows of left, top, right, bottom."""
    one, two = boxes[:, None, :], others[None, :, :]
    found: Bools = (
        (one[..., 0] < two[..., 2] + gap)
        & (two[..., 0] < one[..., 2] + gap)
        & (one[..., 1] < two[..., 3] + gap)
        & (two[..., 1] < one[..., 3] + gap)
    )
    return found


def segments_meet_boxes(segments: Numbers, boxes: Numbers, gap: float | Numbers) -> Bools:
    """Whether each segment (x0, y0, x1, y1) runs through each box grown by a gap, or by its own."""
    low, high = np.zeros(1), np.ones(1)
    for axis in (0, 1):
        first, run = segments[:, axis, None], (segments[:, axis + 2] - segments[:, axis])[:, None]
        steep = np.where(np.abs(run) < 1e-9, 1e-9, run)
        one, two = (boxes[:, axis] - gap - first) / steep, (boxes[:, axis + 2] + gap - first) / steep
        low, high = np.maximum(low, np.minimum(one, two)), np.minimum(high, np.maximum(one, two))
    found: Bools = low < high
    return found


def segments_cross(segments: Numbers, others: Numbers) -> Bools:
    """Whether each segment crosses each of others; those that share an end do not count."""

    (px, py, qx, qy), (rx, ry, sx, sy) = segments.T[..., None], np.ascontiguousarray(others.T)
    dx, dy, ex, ey = qx - px, qy - py, sx - rx, sy - ry
    # On which side of the one the ends of the other lie; a line's own ends are given by the difference of two.
    from_p = dx * (ry - py) - dy * (rx - px)
    from_r = ex * (py - ry) - ey * (px - rx)
    turn = dx * ey - dy * ex
    found: Bools = (from_p * (from_p + turn) < -1e-9) & (from_r * (from_r - turn) < -1e-9)
    return found


@dataclass(frozen=True)
class Grid:
    """Places for a box of one size: every left edge with every top, both in rising order [mm].

    A box or a line of the drawing meets a run of places in each row, so runs are marked and no place is asked.
    """

    left: Numbers
    top: Numbers
    wide: float
    high: float

    @classmethod
    def over(cls, area: Box, wide: float, high: float, dx: float, dy: float) -> Grid:
        """All of an area, so far from place to place."""
        left = np.arange(area.left, area.right - wide + 1e-9, dx)
        return cls(left, np.arange(area.top, area.bottom - high + 1e-9, dy), wide, high)

    def part(self, rows: slice, columns: slice) -> Grid:
        """Some of its rows and columns."""
        return replace(self, left=self.left[columns], top=self.top[rows])

    def boxes(self) -> Numbers:
        """The places as rows of left, top, right, bottom, row by row of the grid."""
        x, y = (each.ravel() for each in np.meshgrid(self.left, self.top))
        return np.column_stack([x, y, x + self.wide, y + self.high])

    def near(self, boxes: Numbers, gap: float) -> list[tuple[slice, slice]]:
        """Rows and columns of the places that come nearer to each box than a gap."""
        left, top, right, bottom = boxes.T
        runs = zip(
            *_between(self.top, top - gap - self.high, bottom + gap).tolist(),
            *_between(self.left, left - gap - self.wide, right + gap).tolist(),
            strict=True,
        )
        return [(slice(first, after), slice(one, past)) for first, after, one, past in runs]

    def met(self, lines: Numbers, weights: Numbers, gap: float) -> Numbers:
        """The weights of all segments (x0, y0, x1, y1) that run through each place grown by a gap, (row, column)."""
        x, y, run, rise = (each[:, None] for each in (*lines[:, :2].T, *(lines[:, 2:] - lines[:, :2]).T))
        steep = np.where(np.abs(rise) < 1e-9, 1e-9, rise)
        one, two = (self.top - gap - y) / steep, (self.top + self.high + gap - y) / steep
        enters, leaves = np.maximum(np.minimum(one, two), 0.0), np.minimum(np.maximum(one, two), 1.0)
        ends = x + enters * run, x + leaves * run
        first, last = _between(self.left, np.minimum(*ends) - gap - self.wide, np.maximum(*ends) + gap)
        line, row = np.nonzero(enters < leaves)
        # Each run is a step up where it begins and one down where it ends.
        columns = len(self.left) + 1
        begins, ends_at = (row * columns + each[line, row] for each in (first, last))
        steps = (np.bincount(at, weights[line], len(self.top) * columns) for at in (begins, ends_at))
        found: Numbers = np.cumsum(np.subtract(*steps).reshape(-1, columns), axis=1)[:, :-1]
        return found

    def costs(self, taken: Taken, gap: float) -> Numbers:
        """What a box would cover at each place, (row, column); infinite where it may not be."""
        found = np.zeros((len(self.top), len(self.left)))
        if not found.size:
            return found
        if len(taken.soft):
            found += self.met(taken.soft, taken.cover, 0.4)
        if len(taken.leaders):
            found[self.met(taken.leaders, np.ones(len(taken.leaders)), gap) > 0.5] = np.inf
        for places in (*self.near(taken.words, gap), *self.near(taken.bodies, gap)):
            found[places] = np.inf
        return found


def _between(edges: Numbers, low: Numbers, high: Numbers) -> Indices:
    """The first of rising edges over each `low`, and the first after it that is not under `high`."""
    first = np.searchsorted(edges, low, side="right")
    return np.array([first, np.maximum(np.searchsorted(edges, high, side="left"), first)])


@dataclass(frozen=True)
class Taken:
    """What is taken already, as `Room` has it, in rows: of boxes their edges, of lines their ends.

    cover, cross : what each of the soft lines costs to cover and to cross
    """

    words: Numbers
    bodies: Numbers
    leaders: Numbers
    soft: Numbers
    cover: Numbers
    cross: Numbers

    def with_more(self, other: Taken) -> Taken:
        """The same with words and leaders of another."""
        words, leaders = np.concatenate([self.words, other.words]), np.concatenate([self.leaders, other.leaders])
        return replace(self, words=words, leaders=leaders)

    def costs(self, boxes: Numbers, area: Box, gap: float) -> Numbers:
        """What each box would cover, infinite where it may not be."""
        found = np.full(len(boxes), np.inf)
        out = (
            (boxes[:, 0] < area.left)
            | (boxes[:, 1] < area.top)
            | (boxes[:, 2] > area.right)
            | (boxes[:, 3] > area.bottom)
        )
        out |= boxes_meet(boxes, np.concatenate([self.words, self.bodies]), gap).any(axis=1)
        # Asked the other way round: a segment that meets a box is a box that meets a segment.
        out[~out] = segments_meet_boxes(self.leaders, boxes[~out], gap).any(axis=0)
        free = boxes[~out]
        found[~out] = (segments_meet_boxes(self.soft, free, 0.4) * self.cover[:, None]).sum(axis=0)
        return found

    def leader_costs(self, segments: Numbers, gap: float) -> Numbers:
        """What each leader would cross, infinite where it may not run."""
        words, leaders = len(self.words), len(self.leaders)
        gaps = np.repeat([gap, 0.0], [words, len(self.bodies)])
        meets = segments_meet_boxes(segments, np.concatenate([self.words, self.bodies]), gaps)
        crossing = segments_cross(segments, np.concatenate([self.leaders, self.soft]))
        bad = meets[:, :words].any(axis=1) | crossing[:, :leaders].any(axis=1)
        # A leader may end on a body, and had better not run through one; what it ends on costs all alike.
        cost = 20.0 * meets[:, words:].sum(axis=1) + crossing[:, leaders:] @ self.cross
        return np.where(bad, np.inf, cost)

    def cheapest(
        self,
        costs: Numbers,
        segments: Numbers,
        gap: float,
        least: float = np.inf,
        more: Callable[[Indices], Numbers] | None = None,
    ) -> tuple[int, float] | None:
        """The place that is cheapest with its leader and what it costs, of places whose costs without one are given.

        Nothing where none costs less than `least`. `more` gives what some places cost besides: it is asked for
        those alone that are cheap enough without it.
        """
        order = np.flatnonzero(costs < least)
        order = order[np.argsort(costs[order], kind="stable")]
        best, first, many = None, 0, 128
        while first < len(order) and costs[order[first]] < least:
            # The further one has to look, the more are looked at together.
            some = order[first : first + many]
            first, many = first + many, 4 * many
            known = costs[some] if more is None else costs[some] + more(some)
            some, known = some[known < least], known[known < least]
            if not len(some):
                continue
            whole = known + self.leader_costs(segments[some], gap)
            at = int(np.argmin(whole))
            if whole[at] < least:
                best, least = int(some[at]), float(whole[at])
        return None if best is None else (best, least)


@dataclass
class Room:
    """What is taken already, gathered while a drawing is made.

    words : boxes of texts and flags, which neither boxes nor leaders may meet
    bodies : boxes of things drawn, which no flag may cover
    leaders : no box and no leader may cross one
    soft : lines that are better not covered, each with what it costs to cover and to cross
    """

    area: Box
    words: list[Box] = field(default_factory=list)
    bodies: list[Box] = field(default_factory=list)
    leaders: list[tuple[Point, Point]] = field(default_factory=list)
    soft: list[tuple[Point, Point, float, float]] = field(default_factory=list)

    def along(self, points: Sequence[Point], cover: float, cross: float) -> None:
        """Add a drawn line to what is better left bare."""
        self.soft += [(a, b, cover, cross) for a, b in pairwise(points)]

    def taken(self) -> Taken:
        """All of it by now."""
        weights = np.array([each[2:] for each in self.soft], dtype=float).reshape(-1, 2)
        soft = _segments([(a, b) for a, b, _, _ in self.soft])
        leaders = _segments(self.leaders)
        return Taken(rows_of(self.words), rows_of(self.bodies), leaders, soft, *np.ascontiguousarray(weights.T))

    def first_free(self, boxes: Sequence[Box], gap: float = 0.6) -> int | None:
        """The place in a list that is free and covers least; earlier ones are liked better."""
        if not boxes:
            return None
        costs = self.taken().costs(rows_of(boxes), self.area, gap) + 0.5 * np.arange(len(boxes))
        best = int(np.argmin(costs))
        return best if np.isfinite(costs[best]) else None


def rows_of(boxes: Sequence[Box]) -> Numbers:
    """Boxes as rows of left, top, right, bottom."""
    return np.array([(b.left, b.top, b.right, b.bottom) for b in boxes], dtype=float).reshape(-1, 4)


def _segments(lines: Sequence[tuple[Point, Point]]) -> Numbers:
    return np.array(lines, dtype=float).reshape(-1, 4)
