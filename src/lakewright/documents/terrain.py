"""The ground of a site as it will be drawn: what was measured, and what had to be taken in its stead, said in words."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from lakewright.documents.scene import Point
from lakewright.documents.site import Site

# ours: what is drawn, for its shape only, where nobody knows.
DEPTH, OUT, BANK, PUMP_HEIGHT, RUN, TEE_OVER_PUMP = 3.0, 30.0, 8.0, 1.5, 12.0, 2.0
FRAME, RISER, INLET_RISE = 0.05, 0.6, 0.3
FURTHEST = 1.35  # of the stand's distance: soundings further out than that are left off


def known(value: float, otherwise: float) -> float:
    """A number, or what is drawn where there is none."""
    return value if math.isfinite(value) else otherwise


@dataclass(frozen=True)
class Terrain:
    """The line of bed and ground: x along (out is minus) and height [m], left to right, from `out` to the pump and on.

    notes : what the drawing takes for granted
    """

    points: tuple[Point, ...]
    sounded_to: float
    stand: Point
    pump: Point
    tee: float
    run: float
    notes: tuple[str, ...]

    @property
    def deepest(self) -> float:
        """Lowest height of the bed."""
        return min(height for _, height in self.points)

    def height(self, x: float) -> float:
        """Height of bed or ground at a place; level beyond the ends."""
        return height_at(self.points, x)


def height_at(points: Sequence[Point], x: float) -> float:
    """Height of a line at a place, straight between its points and level beyond them."""
    if x <= points[0][0]:
        return points[0][1]
    for (x0, y0), (x1, y1) in pairwise(points):
        if x <= x1 and x1 > x0:
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    return points[-1][1]


def terrain(site: Site) -> Terrain:
    """Bed and ground of a site."""
    notes: list[str] = []
    at = known(site.at, known(site.bed_length, max((d for d, _ in site.soundings), default=OUT)))
    at = max(at, 0.05)
    if not math.isfinite(site.at):
        notes.append("place of the stand open: drawn for shape")
    bed = _bed(site, at, notes)
    pump_x = max(known(site.pump_distance, BANK), 0.05)
    pump_height = known(site.pump_height, PUMP_HEIGHT)
    if not (math.isfinite(site.pump_distance) and math.isfinite(site.pump_height)):
        notes.append("place of the pump open: drawn for shape")
    bank = _bank(site, pump_x, pump_height, notes)
    tee = known(site.tee_height, pump_height + TEE_OVER_PUMP)
    length = max(known(site.delivery_length, RUN), 0.0)
    # A line that is all rise still has to be drawn beside the pump.
    run = max(math.sqrt(max(length**2 - (tee - pump_height) ** 2, 0.0)), 0.3 * length)
    points = [(-d, -depth) for d, depth in reversed(bed)] + bank
    return Terrain(
        points=tuple(points),
        sounded_to=points[0][0],
        stand=(-at, height_at(points, -at)),
        pump=(pump_x, pump_height),
        tee=tee,
        run=run,
        notes=tuple(notes),
    )


def _bed(site: Site, at: float, notes: list[str]) -> list[Point]:
    """Distance out and depth, rising, from the water's edge to a little beyond the stand."""
    soundings = list(site.soundings)
    if not soundings:
        notes.append("bed not sounded: drawn straight")
        return [(0.0, 0.0), (at, max(known(site.depth, DEPTH), 0.05))]
    if soundings[0][0] > 0.0:
        soundings.insert(0, (0.0, 0.0))
    kept = [s for s in soundings if s[0] <= FURTHEST * at or site.kind == "tank"]
    rest = soundings[len(kept) :]
    # One sounding beyond the cut is kept, brought in to it, so that the bed runs on past the stand.
    if rest and kept[-1][0] < at:
        (x0, y0), (x1, y1) = kept[-1], rest[0]
        cut = FURTHEST * at
        kept.append((cut, y0 + (y1 - y0) * (cut - x0) / (x1 - x0)))
    return kept


def _bank(site: Site, pump_x: float, pump_height: float, notes: list[str]) -> list[Point]:
    """Distance up and height, rising, from the water's edge to where the ground was measured."""
    ground = list(site.ground)
    if len(ground) < 2:
        notes.append("bank not measured: drawn straight")
        last = [*ground, (0.0, 0.0)][0]
        start = [last] if last[0] < pump_x else []
        return [*([(0.0, 0.0)] if not start or start[0][0] > 0.0 else []), *start, (pump_x, pump_height)]
    if ground[0][0] > 0.0:
        ground.insert(0, (0.0, 0.0))
    return ground
