"""Dimensions on paper: a line between two arrows, its figure in it or beside it, lines that carry it to its points."""

from __future__ import annotations

import math
from dataclasses import dataclass

from lakewright.documents import ink
from lakewright.documents.scene import Box, Path, Point, Text, area, centred, line
from lakewright.documents.stand_view import Measure

ARROW, HALF_ARROW = 2.0, 0.42  # mm; ours
TAIL = 3.2
"""ours: how far an arrow that points inward reaches out [mm]."""
GAP, BEYOND = 0.8, 1.0
"""ours: between a line and what it leaves bare, and how far lines of extension pass the line of dimension [mm]."""
PITCH = 6.0
"""ours: from one level dimension to the next [mm]."""
ROLE, FIGURE = "dimension", "dimension figure"


@dataclass(frozen=True, slots=True)
class Placing:
    """Where a view lies on paper: `mm` of paper to a metre, and where its origin is [mm]."""

    mm: float
    x: float
    y: float

    def point(self, at: Point) -> Point:
        """A point of the view on paper."""
        return self.x + self.mm * at[0], self.y + self.mm * at[1]

    def box(self, box: Box) -> Box:
        """A box of the view on paper."""
        (left, top), (right, bottom) = self.point((box.left, box.top)), self.point((box.right, box.bottom))
        return Box(left, top, right, bottom)


@dataclass(frozen=True, slots=True)
class Dimension:
    """A measure where it is drawn.

    view: its name; measure: what it measures; line: the ends of its line on paper, start then end; figure: its words;
    shapes: lines and arrows.
    """

    view: str
    measure: Measure
    line: tuple[Point, Point]
    figure: Text
    shapes: tuple[Path, ...]

    @property
    def lines(self) -> list[tuple[Point, Point]]:
        """Its straight lines, without arrows."""
        return [(run[0], run[-1]) for shape in self.shapes if not shape.closed for run in shape.runs]


def dimension(view: str, measure: Measure, place: Placing, at: float, words: str, within: Box) -> Dimension:
    """A dimension drawn.

    Parameters
    ----------
    view : its name
    measure : what is measured
    place : where the view lies
    at : [mm] where the line runs, across the paper for what is upright, down it for what is level
    words : the figure
    within : what the figure may not leave
    """
    start, end = place.point(measure.start), place.point(measure.end)
    ends = {"up": ((at, start[1]), (at, end[1])), "across": ((start[0], at), (end[0], at)), "slant": (start, end)}
    low, high = ends[measure.way]
    runs, middle, inward = _line(low, high, words, within)
    figure = centred(middle[0], middle[1] + 0.5 * (ink.ASCENT - ink.DESCENT) * ink.SMALL * ink.POINT, words, FIGURE)
    carried = [_extension(*pair) for pair in ((start, low), (end, high)) if math.dist(*pair) > BEYOND]
    shapes = [line(run, ROLE, ink.INK, ink.FINE) for run in (*runs, *carried)]
    shapes += [_arrow(low, high, inward), _arrow(high, low, inward)]
    return Dimension(view, measure, (low, high), figure, tuple(shapes))


def _line(low: Point, high: Point, words: str, within: Box) -> tuple[list[tuple[Point, Point]], Point, bool]:
    """The runs of the line, the middle of its figure, and whether its arrows point inward from outside.

    Figure and arrows between the ends where there is room; else the arrows outside; else the figure past an end.
    """
    length = math.dist(low, high)
    along = ((high[0] - low[0]) / length, (high[1] - low[1]) / length)
    wide, tall = ink.width(words, ink.SMALL), (ink.ASCENT + ink.DESCENT) * ink.SMALL * ink.POINT
    # How much of the line the figure takes: by its width, or its height where the line is steep.
    half = min(
        (0.5 * wide + GAP) / max(abs(along[0]), 1e-9), (0.5 * tall + GAP) / max(abs(along[1]), 1e-9)
    )  # fmt: skip

    def on(distance: float) -> Point:
        return low[0] + distance * along[0], low[1] + distance * along[1]

    middle = 0.5 * length
    tails = [(on(-TAIL), low), (high, on(length + TAIL))]
    if length >= 2.0 * (half + ARROW):
        return [(low, on(middle - half)), (on(middle + half), high)], on(middle), False
    if length >= 2.0 * half:
        return tails, on(middle), True
    inward = length < 2.0 * ARROW + GAP
    tail = TAIL if inward else 0.0
    past, before = on(length + tail + half), on(-tail - half)
    fits = within.left <= past[0] - 0.5 * wide and past[0] + 0.5 * wide <= within.right
    return tails if inward else [(low, high)], past if fits and past[1] - 0.5 * tall >= within.top else before, inward


def _extension(start: Point, end: Point) -> tuple[Point, Point]:
    """From just off what is measured to just past the line."""
    length = math.dist(start, end)
    x, y = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    return (start[0] + GAP * x, start[1] + GAP * y), (end[0] + BEYOND * x, end[1] + BEYOND * y)


def _arrow(tip: Point, other: Point, inward: bool) -> Path:
    """An arrow whose tip is at one end, pointing away from the other, or toward it from outside."""
    length = math.dist(tip, other)
    way = -1.0 if inward else 1.0
    x, y = way * (other[0] - tip[0]) / length, way * (other[1] - tip[1]) / length
    back = (tip[0] + ARROW * x, tip[1] + ARROW * y)
    sides = ((back[0] - HALF_ARROW * y, back[1] + HALF_ARROW * x), (back[0] + HALF_ARROW * y, back[1] - HALF_ARROW * x))
    return area((tip, *sides), ROLE, ink.INK)
