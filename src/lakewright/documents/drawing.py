"""One drawing under way: the ground on paper, the room left, and what every part of it is drawn with."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from lakewright.documents import ink
from lakewright.documents.layout import Room
from lakewright.documents.lens import lens
from lakewright.documents.levels import Level, label_width, levels_of, stacked
from lakewright.documents.scene import Box, Point, Scene, Text, centred, line
from lakewright.documents.site import Site
from lakewright.documents.terrain import height_at, terrain
from lakewright.documents.view import BREAK, view

FAN = 7.0  # mm from the levels' names to where their lines begin


class Drawing:
    """A scene, the room left on it, and the anchors found so far."""

    def __init__(self, site: Site, width: float, height: float) -> None:
        self.site = site
        self.ground = terrain(site)
        self.levels = levels_of(site)
        self.lens = lens(site, min(19.0, 0.165 * height))
        self.labels = label_width(self.levels) + 2.0
        self.view = view(site, self.ground, width, height, self.labels + FAN, self.lens.box.height + 4.0)
        self.scene = Scene(width, height, f"{site.title}: section of the site")
        plot = self.view.plot
        self.room = Room(Box(plot.left + 1.0, plot.top + 1.0, plot.right - 1.0, plot.bottom - 1.0))
        self.anchors: dict[str, Point] = {}
        self.notes = list(self.ground.notes)
        self.hang = self.view.at(*self.ground.stand)
        self.line, self.after_break = self._ground_lines()

    @property
    def scale_words(self) -> str:
        """The scale, and how heights differ from it."""
        larger = self.view.larger
        return self.view.words + (f", heights {larger} times larger" if larger > 1 else "")

    def _ground_lines(self) -> tuple[list[Point], list[Point]]:
        """The ground on paper: from the left edge to the house or the break, and after the break."""
        view, ground = self.view, self.ground
        plot, (house_x, floor) = view.plot, view.house
        points = [view.at(x, height) for x, height in ground.points]
        first = points[0]
        if self.site.kind == "tank":
            rim = view.y(max([0.0, *(level.height for level in self.levels)]) + 0.05) - 1.0
            points = [(plot.left, rim), (first[0], rim), *points]
        else:
            points = [(plot.left, first[1]), *points]
        if not view.broken:
            kept = [p for p in points if p[0] < house_x - 3.0]
            return [*kept, (house_x - 1.5, floor), (plot.right, floor)], []
        begin = house_x - 3.0
        cut = self._cut([*points, (plot.right, points[-1][1])], begin - BREAK, plot.top + 4.0)
        kept = [p for p in points if p[0] < cut]
        kept.append((cut, height_at([*points, (plot.right, points[-1][1])], cut)))
        return [(x, max(y, plot.top + 3.0)) for x, y in kept], [(begin, floor), (plot.right, floor)]

    def _cut(self, points: Sequence[Point], most: float, top: float) -> float:
        """Where the ground is broken off: before the house, or where it leaves the drawing beyond the pump."""
        pump = self.view.x(self.ground.pump[0])
        for (x0, y0), (x1, y1) in pairwise(points):
            if x1 > pump and y1 < top <= y0:
                return min(most, max(x0 + (x1 - x0) * (y0 - top) / (y0 - y1), pump + 12.0))
        return most

    def ground_y(self, x: float) -> float:
        """Where the ground is on paper."""
        if self.after_break and x >= self.after_break[0][0]:
            return self.after_break[0][1]
        return height_at(self.line, x)

    def shore(self, y: float) -> float:
        """Where a level meets the ground, going up from the stand."""
        start = self.view.at(*self.ground.stand)[0]
        for (x0, y0), (x1, y1) in pairwise(self.line):
            if x1 > start and y1 <= y < y0:
                return x0 + (x1 - x0) * (y0 - y) / (y0 - y1)
        return min(self.line[-1][0], self.view.x(self.ground.pump[0]))

    def far_shore(self) -> float:
        """Where water begins at the left: the paper's edge, or a tank's wall."""
        if self.site.kind == "tank":
            return self.view.at(*self.ground.points[0])[0]
        return self.view.plot.left

    def part(self, left: float, right: float) -> list[Point]:
        """The ground line between two places on paper."""
        inner = [p for p in self.line if left < p[0] < right]
        return [(left, height_at(self.line, left)), *inner, (right, height_at(self.line, right))]

    def named(self) -> list[tuple[Level, Box]]:
        """Where each level's name stands."""
        plot = self.view.plot
        column = Box(plot.left, plot.top + 0.5, plot.left + self.labels, plot.bottom - 0.5)
        return stacked(self.levels, [self.view.y(level.height) for level in self.levels], column)

    def names_clear_of(self, y: float) -> bool:
        """Whether no name of a level stands across a height of the paper."""
        return all(not box.top < y < box.bottom for _, box in self.named())

    def pump_inlet(self) -> Point:
        """Where the suction line ends."""
        return self.view.at(*self.ground.pump)

    def pipe(self, points: Sequence[Point], role: str) -> None:
        """A pipe drawn as pipe: two walls and what runs between."""
        self.scene.add(line(points, role, ink.INK, 0.95), line(points, role, ink.PIPE_WATER, 0.5))
        self.room.along(points, 60.0, 2.0)

    def say(self, text: Text) -> None:
        """Add words, and keep others off them."""
        self.scene.add(text)
        self.room.words.append(text.box)

    def beside(self, words: Sequence[str], bar: Box, colour: str) -> None:
        """Words next to a bar: left of its upper end before all, wherever there is room."""
        wide = max(ink.width(text, ink.SMALL, ink.BOLD) for text in words)
        high = _height_of(len(words))
        tops = [bar.top + 1.0 + 2.0 * n for n in range(int(max(bar.height - high, 0.0) / 2.0) + 1)]
        tops += [bar.top - high - 1.0, bar.top - 0.5 * high, *(bar.top - high - 3.0 * n for n in range(1, 8))]
        places = [Box(bar.left - 1.2 - wide, top, bar.left - 1.2, top + high) for top in tops]
        places += [Box(bar.right + 1.2, top, bar.right + 1.2 + wide, top + high) for top in tops]
        best = self.room.first_free(places, 0.4)
        if best is None:
            return
        box = places[best]
        for row, text in enumerate(words):
            base = _baseline(box, row)
            weight = ink.BOLD if row == 0 else ink.REGULAR
            said = Text(box.left, base, text, "pump window", weight=weight, colour=colour)
            self.say(said.moved(box.width - said.width, 0.0) if box.right <= bar.left else said)

    def under(self, x: float, y: float, words: Sequence[str]) -> None:
        """A few short lines under a thing, pushed down or aside until they are clear."""
        wide, high = max(ink.width(text, ink.SMALL) for text in words), _height_of(len(words))
        places = [
            Box(x + dx - 0.5 * wide, y + dy, x + dx + 0.5 * wide, y + dy + high)
            for dy in (1.6, 2.6, 4.0, 6.0, 8.0, 10.0, 12.0, -9.0, -12.0, -16.0, -20.0)
            for dx in (0.0, 4.0, -4.0, 8.0, -8.0, 13.0, -13.0)
        ]
        best = self.room.first_free(places, 0.4)
        if best is None:
            return
        box = places[best]
        for row, text in enumerate(words):
            self.say(centred(box.middle[0], _baseline(box, row), text, "name", colour=ink.INK))


def _height_of(rows: int) -> float:
    """How high some lines of small words are [mm]."""
    return ink.leading(ink.SMALL) * (rows - 1) + (ink.ASCENT + ink.DESCENT) * ink.SMALL * ink.POINT


def _baseline(box: Box, row: int) -> float:
    """Where a line of small words stands in its box."""
    return box.top + ink.rise(ink.SMALL) + row * ink.leading(ink.SMALL)
