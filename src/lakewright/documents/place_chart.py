"""The chart of places along the soundings: the bed with its waters, what holds where, what the line costs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from lakewright import units
from lakewright.documents import ink
from lakewright.documents.levels import Level, stacked
from lakewright.documents.paper import MARGIN, STRIP, lying, title_strip
from lakewright.documents.prose import Block, Run, flowed, paragraph, put
from lakewright.documents.scale import label, step, unit_length
from lakewright.documents.scene import Box, Circle, Path, Point, Scene, Text, area, centred, ending_at, line, rectangle
from lakewright.report import Report

WORDS, GAP, NAMES, GUTTER = 66.0, 7.0, 44.0, 9.0
"""ours: columns of words, of names at the left of the strips, and of figures beside an axis [mm]."""
STRIP_HIGH, PRICE_HIGH = 5.2, 30.0  # mm; ours
STATUSES = {"fails": (ink.RED, 1.0), "tight": (ink.OCHRE, 0.6), "holds": (ink.GREEN, 0.25)}
"""Colour and height of a status in a strip, so that it reads in grey too; what is not known is hollow."""
KEY = (("fails", "fails"), ("tight", "tight"), ("holds", "holds"), ("unknown", "not known"))


@dataclass(frozen=True)
class Place:
    """One place: distance and depth [m], price of the line to it [cents], the status of each check."""

    at: float
    depth: float
    price: float
    statuses: tuple[str, ...]


@dataclass(frozen=True)
class Places:
    """What the chart shows.

    bed : distances and depths sounded [m]; places : from the shore out; best : which of them
    inlet : height of the inlet's top over the bed [m]
    asked, asked_depth : where the job has the stand [m], nan where it does not say
    levels : heights [m] of the waters named; depths : [m] under the usual level, named
    checks : in words; name : of the best; reasons : why
    """

    bed: tuple[Point, ...]
    places: tuple[Place, ...]
    best: int
    inlet: float
    asked: float
    asked_depth: float
    levels: tuple[tuple[str, float], ...]
    depths: tuple[tuple[str, float], ...]
    checks: tuple[str, ...]
    name: str
    reasons: tuple[str, ...]


def place_chart(places: Places, report: Report) -> Scene:
    """The chart as a sheet."""
    width, height = lying(report)
    page = Scene(width, height, f"{report.title}: places for the intake")
    top, bottom = _header(page, places, report), height - MARGIN - STRIP - 2.0
    right = width - MARGIN - WORDS - GAP
    strips = STRIP_HIGH * len(places.checks)
    plot = Box(MARGIN + NAMES, top, right, bottom - strips - PRICE_HIGH - 22.0)
    across = _Across(plot, places.bed[-1][0])
    _bed(page, places, plot, across, report.units)
    below = _strips(page, places, plot.bottom + 4.0, across)
    _prices(page, places, Box(plot.left, below + 6.0, plot.right, below + 6.0 + PRICE_HIGH - 6.0), across, report.units)
    _words(page, places, Box(right + GAP, top, width - MARGIN, bottom))
    title_strip(page, report, "places for the intake, 1 of 1", "depths not to the scale of distances")
    return page


@dataclass(frozen=True)
class _Across:
    """Distances on paper: the shore at the left."""

    plot: Box
    far: float

    def __call__(self, at: float) -> float:
        return self.plot.left + self.plot.width * at / self.far


def _header(page: Scene, places: Places, report: Report) -> float:
    wide = page.width - 2.0 * MARGIN
    page.add(Text(MARGIN, MARGIN + 2.6, ink.wrapped(report.title or "Job", wide, ink.LINE)[0], "title", ink.LINE,
                  colour=ink.SOFT))  # fmt: skip
    y = MARGIN + 3.8 + ink.leading(ink.TITLE)
    said = ink.wrapped(ink.typeset(f"The place for the intake: {places.name}"), wide, ink.TITLE, ink.BOLD)[0]
    page.add(Text(MARGIN, y, said, "first line", ink.TITLE, ink.BOLD))
    y += 2.8
    page.add(line([(MARGIN, y), (page.width - MARGIN, y)], "rule", ink.HAIR, ink.THIN))
    return y + 3.0


def _bed(page: Scene, places: Places, plot: Box, across: _Across, system: str) -> None:
    """The bed and the waters over it, depths from the usual level."""
    heights = [height for _, height in places.levels]
    highest = max([0.0, *heights])
    deepest = max(depth for _, depth in places.bed)
    shown = [(name, -depth) for name, depth in places.depths if depth <= 1.15 * deepest]
    lowest = min([-deepest, *heights, *(height for _, height in shown)])
    per_metre = plot.height / (1.06 * (highest - lowest))

    def up(height: float) -> float:
        return plot.top + (highest - height) * per_metre

    bed = [(across(x), up(-depth)) for x, depth in places.bed]
    page.add(area([(plot.left, up(0.0)), (plot.right, up(0.0)), *reversed(bed)], "water", ink.WATER[1]))
    page.add(area([*bed, (plot.right, plot.bottom), (plot.left, plot.bottom)], "bed", ink.SAND))
    page.add(line(bed, "bed", ink.SAND_EDGE, ink.BOLD_LINE))
    page.add(*(Circle(x, y, 0.5, "sounding", "", 0.0, ink.SAND_EDGE) for x, y in bed))
    named: list[Level] = []
    for name, height in sorted([*places.levels, *shown], key=lambda each: -each[1]):
        lines = [*ink.wrapped(name, NAMES - 14.0, ink.SMALL), ink.typeset(units.show(height, "height", system))]
        named.append(Level(height, tuple(lines), height != 0.0, 0.0))
    column = Box(MARGIN, plot.top - 1.0, plot.left - 6.0, plot.bottom)
    for level, box in stacked(named, [up(level.height) for level in named], column):
        y = up(level.height)
        page.add(line([(plot.left, y), (plot.right, y)], "level", ink.WATERLINE, ink.THIN if level.dotted else
                      ink.BOLD_LINE, (2.0, 1.0) if level.dotted else ()))  # fmt: skip
        page.add(line([(box.right + 0.8, box.middle[1]), (plot.left, y)], "leader", ink.SOFT, ink.FINE))
        for row, words in enumerate(level.lines):
            base = box.top + ink.rise(ink.SMALL) + row * ink.leading(ink.SMALL)
            weight = ink.BOLD if row == len(level.lines) - 1 else ink.REGULAR
            page.add(ending_at(box.right, base, words, "level name", weight=weight, colour=ink.LEVEL_NAME))
    best = places.places[places.best]
    if abs(places.asked - best.at) > 0.01:
        asked = [
            (across(places.asked), up(-places.asked_depth)),
            (across(places.asked), up(places.inlet - places.asked_depth)),
        ]
        page.add(line(asked, "stand asked for", ink.GREY, 0.9))
    x, foot = across(best.at), up(-best.depth)
    head = up(places.inlet - best.depth)
    page.add(line([(x, foot), (x, head)], "stand", ink.INK, 0.9), line([(x - 1.6, foot), (x + 1.6, foot)], "stand",
             ink.INK, ink.BOLD_LINE), Circle(x, head, 1.0, "inlet", ink.INK, ink.THIN, ink.SHEET))  # fmt: skip
    page.add(rectangle(plot, "frame", "", ink.SOFT, ink.FINE))


def _strips(page: Scene, places: Places, top: float, across: _Across) -> float:
    """A strip a check: how it stands at each place, and under all of them the distances."""
    ats = [place.at for place in places.places]
    edges = [ats[0], *(0.5 * (a + b) for a, b in pairwise(ats)), ats[-1]]
    y = top
    for number, words in enumerate(places.checks):
        base = y + 0.5 * STRIP_HIGH
        name = ink.wrapped(words, NAMES - 2.0, ink.SMALL)[0]
        page.add(ending_at(across.plot.left - 2.0, base + 0.85, name, "strip name"))
        page.add(line([(across.plot.left, y + STRIP_HIGH - 0.6), (across.plot.right, y + STRIP_HIGH - 0.6)], "strip",
                      ink.HAIR, ink.FINE))  # fmt: skip
        for status, first, after in _runs([place.statuses[number] for place in places.places]):
            span = (across(edges[first]), across(edges[after]))
            page.add(*_mark(status, span, y + STRIP_HIGH - 0.6, STRIP_HIGH - 1.2))
        y += STRIP_HIGH
    best = across(places.places[places.best].at)
    page.add(line([(best, top - 3.6), (best, y)], "best", ink.INK, ink.FINE, (1.2, 0.7)))
    return y


def _runs(statuses: Sequence[str]) -> list[tuple[str, int, int]]:
    """Neighbours of one status as one: the status, the first of them, and the one after the last."""
    starts = [n for n, status in enumerate(statuses) if n == 0 or status != statuses[n - 1]]
    return [(statuses[a], a, b) for a, b in pairwise([*starts, len(statuses)])]


def _mark(status: str, span: tuple[float, float], base: float, high: float) -> list[Path]:
    if status == "not asked":
        return []
    if status not in STATUSES:
        return [rectangle(Box(span[0], base - 0.5 * high, span[1], base), "unknown", "", ink.GREY, ink.FINE)]
    colour, share = STATUSES[status]
    return [rectangle(Box(span[0], base - share * high, span[1], base), status, colour)]


def _prices(page: Scene, places: Places, plot: Box, across: _Across, system: str) -> None:
    """What the line costs in whole coils, place by place, over the distances."""
    known = [place for place in places.places if not math.isnan(place.price)]
    unit, name = unit_length(system)
    every = step(plot.width / places.bed[-1][0] * unit, 12.0)
    ticks: list[tuple[Point, ...]] = [((plot.left, plot.bottom), (plot.right, plot.bottom))]
    for n in range(int(places.bed[-1][0] / unit / every + 1e-9) + 1):
        x = across(n * every * unit)
        ticks.append(((x, plot.bottom), (x, plot.bottom + 1.2)))
        page.add(centred(x, plot.bottom + 4.2, label(n * every, every), "distance", colour=ink.SOFT))
    page.add(Path(tuple(ticks), "axis", ink.SOFT, ink.FINE))
    page.add(Text(plot.left, plot.bottom + 8.0, f"{name} from the water’s edge, the shore at the left", "axis",
                  colour=ink.SOFT))  # fmt: skip
    if not known:
        page.add(ending_at(plot.left - 2.0, plot.bottom, "no pipe chosen: no price", "price", colour=ink.SOFT))
        return
    most = max(place.price for place in known)
    per_cent = (plot.height - 3.0) / max(most, 1.0)
    steps: list[Point] = []
    for place in known:
        y = plot.bottom - place.price * per_cent
        if steps and abs(steps[-1][1] - y) > 1e-6:
            steps.append((across(place.at), steps[-1][1]))
        steps.append((across(place.at), y))
    page.add(line(steps, "price", ink.INK, ink.BOLD_LINE))
    page.add(ending_at(plot.left - 2.0, plot.bottom - 0.5 * plot.height, "suction line", "strip name"))
    page.add(ending_at(plot.left - 2.0, plot.bottom - 0.5 * plot.height + 3.2, "in whole coils", "strip name"))
    _price_names(page, known, plot, across, per_cent, system)


def _price_names(page: Scene, known: Sequence[Place], plot: Box, across: _Across, per_cent: float, system: str) -> None:
    """Each price where its step begins, as long as it has room."""
    right = -math.inf
    seen: set[float] = set()
    for place in known:
        if place.price in seen:
            continue
        seen.add(place.price)
        x, y = across(place.at) + 0.8, plot.bottom - place.price * per_cent - 1.0
        text = Text(x, y, ink.typeset(units.show(place.price, "money", system)), "price")
        if x > right and text.box.right < plot.right:
            page.add(text)
            right = text.box.right + 1.0


def _words(page: Scene, places: Places, box: Box) -> None:
    """Why there, and what the marks mean."""
    said = [ink.typeset(f"{reason[0].upper()}{reason[1:]}.") for reason in places.reasons]
    why = Block("Why there", [paragraph([Run(words)], box.width, ink.BODY, after=2.0) for words in said])
    key = Block("In the strips")
    for status, words in KEY:
        key.rows.append(paragraph([Run(words)], box.width, ink.SMALL, 8.0, _mark(status, (0.0, 5.0), 2.6, 2.6), 1.4))
    more = (
        "Drawn at every break of the bed and every fiftieth of the length sounded. Light and the warm layer are told: "
        "nothing passes or fails by them. The stand in black is at the place told, "
        "one in grey where the job has it. Local rules and whoever holds them decide where an intake may stand."
    )
    key.rows.append(paragraph([Run(more)], box.width, ink.SMALL))
    columns = flowed([why, key], 1, box.height)
    if columns is None:
        short = Block("Why there", why.rows[:2])
        columns = flowed([short, key], 1, box.height) or []
    put(page, columns, box.left, box.top, box.width, GAP)
