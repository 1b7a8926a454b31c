"""Finds room on a drawing: for words, a lens, a flag with its leader. The cheapest place wins, the same every time."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
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


@dataclass
class Room:
    """What is taken already.

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

    def costs(self, boxes: Numbers, gap: float) -> Numbers:
        """What each box would cover, infinite where it may not be."""
        area = self.area
        found = np.full(len(boxes), np.inf)
        out = (
            (boxes[:, 0] < area.left)
            | (boxes[:, 1] < area.top)
            | (boxes[:, 2] > area.right)
            | (boxes[:, 3] > area.bottom)
        )
        taken = rows_of(self.words + self.bodies)
        if len(taken):
            out |= boxes_meet(boxes, taken, gap).any(axis=1)
        if self.leaders:
            # Asked the other way round: a segment that meets a box is a box that meets a segment.
            out[~out] = segments_meet_boxes(_segments(self.leaders), boxes[~out], gap).any(axis=0)
        free = boxes[~out]
        cost = np.zeros(len(free))
        if self.soft:
            lines = _segments([(a, b) for a, b, _, _ in self.soft])
            weights = np.array([cover for _, _, cover, _ in self.soft])
            cost += (segments_meet_boxes(lines, free, 0.4) * weights[:, None]).sum(axis=0)
        found[~out] = cost
        return found

    def leader_costs(self, segments: Numbers, gap: float) -> Numbers:
        """What each leader would cross, infinite where it may not run."""
        bad, cost = np.zeros(len(segments), dtype=bool), np.zeros(len(segments))
        words = len(self.words)
        if words or self.bodies:
            gaps = np.repeat([gap, 0.0], [words, len(self.bodies)])
            meets = segments_meet_boxes(segments, rows_of(self.words + self.bodies), gaps)
            bad |= meets[:, :words].any(axis=1)
            # A leader may end on a body, and had better not run through one; what it ends on costs all alike.
            cost += 20.0 * meets[:, words:].sum(axis=1)
        leaders = len(self.leaders)
        if leaders or self.soft:
            crossing = segments_cross(segments, _segments([*self.leaders, *((a, b) for a, b, _, _ in self.soft)]))
            bad |= crossing[:, :leaders].any(axis=1)
            cost += crossing[:, leaders:] @ np.array([cross for _, _, _, cross in self.soft])
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
        order = np.argsort(costs, kind="stable")
        order = order[: int(np.isfinite(costs).sum())]
        best, first, many = None, 0, 64
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

    def grid(self, wide: float, high: float, dx: float, dy: float) -> Numbers:
        """Boxes of one size on a grid over the whole area."""
        xs = np.arange(self.area.left, self.area.right - wide + 1e-9, dx)
        ys = np.arange(self.area.top, self.area.bottom - high + 1e-9, dy)
        x, y = (each.ravel() for each in np.meshgrid(xs, ys))
        return np.column_stack([x, y, x + wide, y + high])

    def first_free(self, boxes: Sequence[Box], gap: float = 0.6) -> int | None:
        """The place in a list that is free and covers least; earlier ones are liked better."""
        if not boxes:
            return None
        costs = self.costs(rows_of(boxes), gap) + 0.5 * np.arange(len(boxes))
        best = int(np.argmin(costs))
        return best if np.isfinite(costs[best]) else None


def rows_of(boxes: Sequence[Box]) -> Numbers:
    """Boxes as rows of left, top, right, bottom."""
    return np.array([[b.left, b.top, b.right, b.bottom] for b in boxes], dtype=float).reshape(-1, 4)


def _segments(lines: Sequence[tuple[Point, Point]]) -> Numbers:
    return np.array([[*a, *b] for a, b in lines], dtype=float).reshape(-1, 4)
