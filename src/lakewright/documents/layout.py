"""Finds room on a drawing: for words, a lens, a flag with its leader. The cheapest place wins, the same every time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from lakewright.documents.scene import Box, Point

Numbers = NDArray[np.float64]
Bools = NDArray[np.bool_]


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


def segments_meet_boxes(segments: Numbers, boxes: Numbers, gap: float) -> Bools:
    """Whether each segment (x0, y0, x1, y1) runs through each box grown by a gap."""
    low, high = np.zeros((len(segments), len(boxes))), np.ones((len(segments), len(boxes)))
    for axis in (0, 1):
        first, run = segments[:, None, axis], segments[:, None, axis + 2] - segments[:, None, axis]
        near, far = boxes[None, :, axis] - gap, boxes[None, :, axis + 2] + gap
        steep = np.where(np.abs(run) < 1e-9, 1e-9, run)
        one, two = (near - first) / steep, (far - first) / steep
        low, high = np.maximum(low, np.minimum(one, two)), np.minimum(high, np.maximum(one, two))
    found: Bools = low < high
    return found


def segments_cross(segments: Numbers, others: Numbers) -> Bools:
    """Whether each segment crosses each of others; those that share an end do not count."""

    def side(a: Numbers, b: Numbers, c: Numbers) -> Numbers:
        found: Numbers = (b[..., 0] - a[..., 0]) * (c[..., 1] - a[..., 1]) - (b[..., 1] - a[..., 1]) * (
            c[..., 0] - a[..., 0]
        )
        return found

    p, q = segments[:, None, :2], segments[:, None, 2:]
    r, s = others[None, :, :2], others[None, :, 2:]
    found: Bools = (side(p, q, r) * side(p, q, s) < -1e-9) & (side(r, s, p) * side(r, s, q) < -1e-9)
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
        bad = np.zeros(len(segments), dtype=bool)
        if self.words:
            bad |= segments_meet_boxes(segments, rows_of(self.words), gap).any(axis=1)
        if self.leaders:
            bad |= segments_cross(segments, _segments(self.leaders)).any(axis=1)
        cost = np.zeros(len(segments))
        if self.soft:
            lines = _segments([(a, b) for a, b, _, _ in self.soft])
            weights = np.array([cross for _, _, _, cross in self.soft])
            cost += (segments_cross(segments, lines) * weights).sum(axis=1)
        if self.bodies:
            # A leader may end on a body, and had better not run through one; what it ends on costs all alike.
            cost += 20.0 * segments_meet_boxes(segments, rows_of(self.bodies), 0.0).sum(axis=1)
        return np.where(bad, np.inf, cost)

    def cheapest(
        self, costs: Numbers, segments: Numbers, gap: float, least: float = np.inf
    ) -> tuple[int, float] | None:
        """The place that is cheapest with its leader and what it costs, of places whose costs without one are given.

        Nothing where none costs less than `least`.
        """
        order = np.argsort(costs, kind="stable")
        order = order[: int(np.isfinite(costs).sum())]
        best = None
        for first in range(0, len(order), 64):
            some = order[first : first + 64]
            if costs[some[0]] >= least:
                break
            whole = costs[some] + self.leader_costs(segments[some], gap)
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
