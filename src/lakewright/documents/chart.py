"""A plot on paper: two axes in the job's units, lines and bands kept inside its frame, names beside what they name."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from lakewright.documents import ink
from lakewright.documents.levels import Level, stacked
from lakewright.documents.scale import label, step
from lakewright.documents.scene import Box, Path, Point, Scene, Text, area, centred, ending_at, line, rectangle
from lakewright.physics.types import Array

Span = tuple[float, float]
Values: TypeAlias = Sequence[float] | Array


@dataclass(frozen=True)
class Plot:
    """A frame on paper, and the least and most that its axes show."""

    box: Box
    x: Span
    y: Span

    def across(self, x: float) -> float:
        """Where on paper a value of the lower axis lies [mm]."""
        return self.box.left + self.box.width * (x - self.x[0]) / (self.x[1] - self.x[0])

    def up(self, y: float) -> float:
        """Where on paper a value of the upright axis lies [mm]."""
        return self.box.bottom - self.box.height * (y - self.y[0]) / (self.y[1] - self.y[0])

    def at(self, x: float, y: float) -> Point:
        """A point on paper."""
        return self.across(x), self.up(y)


@dataclass(frozen=True)
class Axis:
    """What an axis counts: its unit in SI, what stands at it, and how far apart its figures are at least [mm]."""

    unit: float
    words: str
    apart: float
    signed: bool = False


def spread(values: Iterable[float], room: float = 0.05, least: float = 1e-9) -> Span:
    """From the least to the most of what is known, with room beyond both; from 0 to 1 where nothing is.

    >>> spread([0.0, math.nan, 10.0], room=0.1)
    (-1.0, 11.0)
    """
    known = [value for value in values if math.isfinite(value)]
    if not known:
        return 0.0, 1.0
    low, high = min(known), max(known)
    more = room * max(high - low, least)
    return low - more, high + more


def frame(page: Scene, plot: Plot, lower: Axis | None, upright: Axis) -> None:
    """The frame with its axes; without a lower one where another plot stands beneath."""
    box = plot.box
    ticks: list[tuple[Point, ...]] = []
    for value, words in _figures(plot.y, upright, box.height):
        y = plot.up(value)
        ticks.append(((box.left - 1.2, y), (box.left, y)))
        page.add(line([(box.left, y), (box.right, y)], "grid", ink.HAIR, ink.FINE))
        if box.top + 3.6 < y:
            page.add(ending_at(box.left - 1.8, y + 0.85, words, "axis", colour=ink.SOFT))
    page.add(ending_at(box.left - 1.8, box.top + 2.2, upright.words, "axis", colour=ink.SOFT))
    for value, words in _figures(plot.x, lower, box.width) if lower else ():
        x = plot.across(value)
        ticks.append(((x, box.bottom), (x, box.bottom + 1.2)))
        page.add(centred(x, box.bottom + 4.0, words, "axis", colour=ink.SOFT))
    if lower:
        page.add(Text(box.left, box.bottom + 7.6, lower.words, "axis", colour=ink.SOFT))
    page.add(Path(tuple(ticks), "axis", ink.SOFT, ink.FINE), rectangle(box, "frame", "", ink.SOFT, ink.FINE))


def _figures(span: Span, axis: Axis, long: float) -> list[tuple[float, str]]:
    """The values of an axis that have a figure, and the figures."""
    every = step(long / ((span[1] - span[0]) / axis.unit), axis.apart)
    first, last = (math.ceil(span[0] / axis.unit / every - 1e-9), math.floor(span[1] / axis.unit / every + 1e-9))
    found = []
    for n in range(first, last + 1):
        sign = "\u2212" if n < 0 else "+" if n > 0 and axis.signed else ""
        found.append((n * every * axis.unit, sign + label(n * every, every)))
    return found


def runs(plot: Plot, xs: Values, ys: Values) -> list[list[Point]]:
    """A line on paper, in as many runs as what is unknown or outside the frame parts it into; cut at the frame."""
    found: list[list[Point]] = []
    for (x0, y0), (x1, y1) in pairwise(zip(xs, ys, strict=True)):
        cut = _inside(plot, (x0, y0), (x1, y1))
        if cut is None:
            continue
        start, end = plot.at(*cut[0]), plot.at(*cut[1])
        if found and found[-1][-1] == start:
            found[-1].append(end)
        else:
            found.append([start, end])
    return found


def _inside(plot: Plot, one: Point, other: Point) -> tuple[Point, Point] | None:
    """What of a straight line lies between the least and most of the upright axis."""
    (x0, y0), (x1, y1) = one, other
    if not all(map(math.isfinite, (x0, y0, x1, y1))):
        return None
    low, high = plot.y
    if y0 == y1:
        return (one, other) if low <= y0 <= high else None
    shares = sorted(((low - y0) / (y1 - y0), (high - y0) / (y1 - y0)))
    first, last = max(0.0, shares[0]), min(1.0, shares[1])
    if first >= last:
        return None
    ends = [one if share == 0.0 else other if share == 1.0 else (x0 + share * (x1 - x0), y0 + share * (y1 - y0))
            for share in (first, last)]  # fmt: skip
    return ends[0], ends[1]


def curve(
    page: Scene, plot: Plot, xs: Values, ys: Values, role: str,
    stroke: str = ink.INK, weight: float = ink.BOLD_LINE, dash: tuple[float, ...] = (),
) -> None:  # fmt: skip
    """A line through values, kept inside the frame."""
    page.add(*(line(run, role, stroke, weight, dash) for run in runs(plot, xs, ys)))


def band(page: Scene, plot: Plot, xs: Values, low: Values, high: Values, role: str, fill: str) -> None:
    """What lies between two lines, where both are known."""

    def kept(value: float) -> float:
        return min(max(value, plot.y[0]), plot.y[1])

    rows = zip(xs, low, high, strict=True)
    known = [(x, kept(a), kept(b)) for x, a, b in rows if math.isfinite(a + b)]
    if len(known) > 1:
        there = [plot.at(x, a) for x, a, _ in known]
        page.add(area([*there, *(plot.at(x, b) for x, _, b in reversed(known))], role, fill))


@dataclass(frozen=True)
class Name:
    """Words beside a plot, the point on paper they speak of, and whether their last line is a figure, set heavy."""

    point: Point
    lines: tuple[str, ...]
    figure: bool = False


def names(page: Scene, found: Sequence[Name], column: Box, right: bool = True) -> None:
    """Names in a column beside a plot, each tied to its point; they never meet."""
    rows = sorted(found, key=lambda name: (name.point[1], name.point[0]))
    levels = [Level(float(n), name.lines, False, 0.0) for n, name in enumerate(rows)]
    for level, box in stacked(levels, [name.point[1] for name in rows], column):
        name = rows[int(level.height)]
        edge = box.left - 0.8 if right else box.right + 0.8
        page.add(line([name.point, (edge, box.middle[1])], "leader", ink.SOFT, ink.FINE))
        for n, words in enumerate(level.lines):
            base = box.top + ink.rise(ink.SMALL) + n * ink.leading(ink.SMALL)
            weight = ink.BOLD if name.figure and n == len(level.lines) - 1 else ink.REGULAR
            if right:
                page.add(Text(box.left, base, words, "name", weight=weight))
            else:
                page.add(ending_at(box.right, base, words, "name", weight=weight))


def wrapped_name(point: Point, words: str, wide: float, figure: str = "") -> Name:
    """A name in lines of at most a width [mm], its figure last."""
    lines = ink.wrapped(ink.typeset(words), wide, ink.SMALL)
    return Name(point, (*lines, ink.typeset(figure)) if figure else tuple(lines), bool(figure))


def header(page: Scene, title: str, words: str, margin: float) -> float:
    """The job's title and what the sheet shows; returns where the plot may begin."""
    wide = page.width - 2.0 * margin
    page.add(Text(margin, margin + 2.6, ink.wrapped(title or "Job", wide, ink.LINE)[0], "title", ink.LINE,
                  colour=ink.SOFT))  # fmt: skip
    y = margin + 3.8 + ink.leading(ink.TITLE)
    size = next(
        (size for size in (ink.TITLE, ink.LINE) if len(ink.wrapped(words, wide, size, ink.BOLD)) == 1), ink.LINE
    )
    page.add(Text(margin, y, ink.wrapped(words, wide, size, ink.BOLD)[0], "first line", size, ink.BOLD))
    y += 2.8
    page.add(line([(margin, y), (page.width - margin, y)], "rule", ink.HAIR, ink.THIN))
    return y + 3.0
