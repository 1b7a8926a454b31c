"""The plan of the site from above, to scale: shore, soundings, stand, line, pump, marks to find the stand by."""

from __future__ import annotations

import math
from dataclasses import dataclass

from lakewright import units
from lakewright.documents import ink
from lakewright.documents.layout import Room
from lakewright.documents.paper import MARGIN, STRIP, lying, title_strip
from lakewright.documents.prose import Block, Run, flowed, paragraph, put
from lakewright.documents.scale import largest_within, step, unit_length
from lakewright.documents.scene import Box, Circle, Path, Point, Scene, Text, area, line
from lakewright.report import Report

WORDS, GAP, RIM = 66.0, 7.0, 16.0
"""ours: columns of words, and what is left round the things to scale for sights and names [mm]."""
SIGHT = 24.0  # mm of a line of sight; ours
FAR_HOUSE = 1.0
"""ours: a house further from the pump than this share of all else is drawn where the paper ends, with an arrow."""


@dataclass(frozen=True)
class Plan:
    """What a plan shows. Lengths [m], bearings [degrees] clockwise from north; nan where nobody knows.

    bearing : of the line of soundings, out from the shore; soundings : distances out and depths
    stand, pump : distances out and up; depth : of water at the stand; delivery : length of the line to the house
    sights : marks on shore and their bearings from the stand; wind : from where the worst comes
    """

    units: str
    bearing: float
    soundings: tuple[Point, ...]
    stand: float
    depth: float
    pump: float
    delivery: float
    coordinates: str
    sights: tuple[tuple[str, float], ...]
    wind: float
    fetch: float
    note: str

    @property
    def north_up(self) -> bool:
        """Whether the paper's top is north; else the shore is at the top."""
        return math.isfinite(self.bearing)


class _Sheet:
    """A page, the room left on it, and how metres lie on it."""

    def __init__(self, page: Scene, plot: Box, site: Plan) -> None:
        self.page, self.site = page, site
        self.room = Room(plot)
        self.left_over: list[str] = []
        # Out from the shore on paper: with north up by the bearing, else straight down.
        turn = math.radians(site.bearing) if site.north_up else math.pi
        self.out = (math.sin(turn), -math.cos(turn))
        ends = [0.0, max([x for x, _ in site.soundings] + [_known(site.stand)]), -_known(site.pump) - self.house()]
        low, high = min(ends), max(ends)
        wide, tall = abs(self.out[0]) * (high - low), abs(self.out[1]) * (high - low)
        most = min((plot.width - 2.0 * RIM) / max(wide, 1e-3), (plot.height - 2.0 * RIM) / max(tall, 1e-3))
        self.scale = largest_within(site.units, most)
        middle = 0.5 * (low + high) * self.scale.mm
        self.edge = plot.middle[0] - self.out[0] * middle, plot.middle[1] - self.out[1] * middle

    def house(self) -> float:
        """How far beyond the pump the house is drawn [m]; 0 for one too far for this paper."""
        near = _known(self.site.pump) + max([x for x, _ in self.site.soundings] + [_known(self.site.stand)])
        away = self.site.delivery
        return away if math.isfinite(away) and away <= FAR_HOUSE * near else 0.0

    def at(self, out: float, along: float = 0.0) -> Point:
        """A place so far out from the shore, and so far along it to the right of who looks out."""
        x, y = self.edge
        s = self.scale.mm
        return x + s * (out * self.out[0] - along * self.out[1]), y + s * (out * self.out[1] + along * self.out[0])

    def run(self, points: list[Point], role: str, colour: str, weight: float, dash: tuple[float, ...] = ()) -> None:
        """A line, which words had better leave bare."""
        self.page.add(line(points, role, colour, weight, dash))
        self.room.along(points, 400.0, 1.0)

    def say(self, near: Point, words: str, role: str = "name", bold: bool = False) -> None:
        """Words near a place, wherever there is room; in the column of words where there is none."""
        weight = ink.BOLD if bold else ink.REGULAR
        said = ink.typeset(ink.plain(words))
        wide, high = ink.width(said, ink.SMALL, weight), ink.SMALL * ink.POINT * (ink.ASCENT + ink.DESCENT)
        places = []
        for off in (2.2, 3.4, 5.0, 7.5, 11.0, 15.0):
            for turn in range(16):
                dx, dy = off * math.cos(turn * math.pi / 8.0), off * math.sin(turn * math.pi / 8.0)
                left = near[0] + dx - (0.0 if dx > 0.3 else wide if dx < -0.3 else 0.5 * wide)
                top = near[1] + dy - (0.0 if dy > 0.3 else high if dy < -0.3 else 0.5 * high)
                places.append(Box(left, top, left + wide, top + high))
        best = self.room.first_free(places, 0.5)
        if best is None:
            self.left_over.append(said)
            return
        box = places[best]
        text = Text(box.left, box.top + ink.rise(ink.SMALL), said, role, weight=weight)
        self.page.add(text)
        self.room.words.append(text.box)


def _known(value: float) -> float:
    return value if math.isfinite(value) else 0.0


def plan(site: Plan, report: Report) -> Scene:
    """The plan as a sheet: north up where the line's bearing is known, else the shore at the top."""
    width, height = lying(report)
    page = Scene(width, height, f"{report.title}: plan of the site")
    wide = width - 2.0 * MARGIN
    page.add(Text(MARGIN, MARGIN + 2.6, ink.wrapped(report.title or "Job", wide, ink.LINE)[0], "title", ink.LINE,
                  colour=ink.SOFT))  # fmt: skip
    y = MARGIN + 3.8 + ink.leading(ink.TITLE)
    page.add(Text(MARGIN, y, f"Plan of the site, {_up(site)}", "first line", ink.TITLE, ink.BOLD))
    y += 2.8
    page.add(line([(MARGIN, y), (width - MARGIN, y)], "rule", ink.HAIR, ink.THIN))
    plot = Box(MARGIN, y + 3.0, width - MARGIN - WORDS - GAP, height - MARGIN - STRIP - 4.0)
    sheet = _Sheet(page, plot, site)
    _water(sheet, plot)
    _compass(sheet, plot)
    _scale_bar(sheet, plot)
    _line(sheet)
    _sights(sheet)
    _names(sheet)
    _words(sheet, Box(plot.right + GAP, plot.top, width - MARGIN, plot.bottom))
    title_strip(page, report, "plan of the site, 1 of 1", sheet.scale.words)
    return page


def _up(site: Plan) -> str:
    return "north up" if site.north_up else "the shore at the top: nobody has taken the bearing of the line"


def _water(sheet: _Sheet, plot: Box) -> None:
    """Water on the one side of a straight shore, cut at the plot's edge."""
    corners = [(plot.left, plot.top), (plot.right, plot.top), (plot.right, plot.bottom), (plot.left, plot.bottom)]
    wet: list[Point] = []
    shore: list[Point] = []

    def side(point: Point) -> float:
        return (point[0] - sheet.edge[0]) * sheet.out[0] + (point[1] - sheet.edge[1]) * sheet.out[1]

    for here, there in zip(corners, [*corners[1:], corners[0]], strict=True):
        a, b = side(here), side(there)
        if a >= 0.0:
            wet.append(here)
        if (a >= 0.0) != (b >= 0.0):
            share = a / (a - b)
            shore.append((here[0] + share * (there[0] - here[0]), here[1] + share * (there[1] - here[1])))
            wet.append(shore[-1])
    sheet.page.add(area(corners, "land", ink.SAND), area(wet, "water", ink.WATER[0]))
    if len(shore) == 2:
        sheet.run(shore, "shore", ink.SAND_EDGE, ink.BOLD_LINE)


def _compass(sheet: _Sheet, plot: Box) -> None:
    """An arrow to the north where it is known, and one with the worst wind."""
    x, y = plot.right - 12.0, plot.top + 14.0
    box = Box(x - 9.0, y - 12.0, x + 9.0, y + 12.0)
    if sheet.site.north_up:
        _arrow(sheet, (x, y + 8.0), (x, y - 6.0), ink.INK)
        sheet.page.add(Text(x - 1.0, y - 7.5, "N", "north", ink.BODY, ink.BOLD))
        sheet.room.words.append(box)
        if math.isfinite(sheet.site.wind):
            turn = math.radians(sheet.site.wind)
            blows = (-math.sin(turn), math.cos(turn))
            x0, y0 = plot.right - 34.0, plot.top + 14.0
            _arrow(sheet, (x0 - 7.0 * blows[0], y0 - 7.0 * blows[1]), (x0 + 7.0 * blows[0], y0 + 7.0 * blows[1]),
                   ink.WATERLINE)  # fmt: skip
            sheet.room.bodies.append(Box(x0 - 8.0, y0 - 8.0, x0 + 8.0, y0 + 8.0))
            sheet.say((x0, y0 + 8.0), "worst wind")


def _arrow(sheet: _Sheet, start: Point, end: Point, colour: str) -> None:
    length = math.dist(start, end)
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    back = (end[0] - 2.6 * ux, end[1] - 2.6 * uy)
    head = [end, (back[0] - 0.9 * uy, back[1] + 0.9 * ux), (back[0] + 0.9 * uy, back[1] - 0.9 * ux)]
    sheet.page.add(line([start, back], "arrow", colour, ink.BOLD_LINE), area(head, "arrow", colour))


def _scale_bar(sheet: _Sheet, plot: Box) -> None:
    unit, name = unit_length(sheet.site.units)
    every = step(sheet.scale.mm * unit, 12.0)
    long = every * sheet.scale.mm * unit
    x, y = plot.left + 4.0, plot.bottom - 4.0
    sheet.page.add(line([(x, y - 1.2), (x, y), (x + long, y), (x + long, y - 1.2)], "scale bar", ink.INK, ink.THIN))
    text = Text(x + long + 1.5, y, ink.typeset(f"{every:g} {name}"), "scale bar")
    sheet.page.add(text)
    sheet.room.words += [text.box, Box(x, y - 2.0, x + long, y + 0.5)]


def _line(sheet: _Sheet) -> None:
    """Soundings, stand, suction line, pump and the way to the house."""
    site = sheet.site
    if site.soundings:
        far = max(x for x, _ in site.soundings)
        sheet.run([sheet.at(0.0), sheet.at(far)], "soundings", ink.SOFT, ink.FINE, (1.0, 1.0))
        sheet.page.add(*(Circle(*sheet.at(x), 0.6, "sounding", "", 0.0, ink.SOFT) for x, _ in site.soundings))
    if math.isfinite(site.pump) and math.isfinite(site.stand):
        sheet.run([sheet.at(site.stand), sheet.at(-site.pump)], "suction line", ink.INK, 0.7)
    if math.isfinite(site.pump):
        beyond = sheet.house()
        start = sheet.at(-site.pump)
        if beyond:
            sheet.run([start, sheet.at(-site.pump - beyond)], "delivery line", ink.INK, ink.THIN, (2.0, 1.0))
            _square(sheet, sheet.at(-site.pump - beyond), 3.0, "house")
        elif math.isfinite(site.delivery):
            end = (start[0] - 16.0 * sheet.out[0], start[1] - 16.0 * sheet.out[1])
            _arrow(sheet, start, end, ink.INK)
            sheet.room.along([start, end], 400.0, 1.0)
        _square(sheet, start, 1.6, "pump")
    if math.isfinite(site.stand):
        x, y = sheet.at(site.stand)
        sheet.page.add(Circle(x, y, 1.6, "stand", ink.INK, ink.BOLD_LINE, ink.SHEET))
        sheet.page.add(Circle(x, y, 0.5, "stand", "", 0.0, ink.INK))
        sheet.room.bodies.append(Box(x - 1.8, y - 1.8, x + 1.8, y + 1.8))


def _square(sheet: _Sheet, middle: Point, half: float, role: str) -> None:
    box = Box(middle[0] - half, middle[1] - half, middle[0] + half, middle[1] + half)
    corners = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
    sheet.page.add(Path((corners,), role, ink.INK, ink.THIN, ink.SHEET, closed=True))
    sheet.room.bodies.append(box)


def _sights(sheet: _Sheet) -> None:
    """Lines from the stand toward the marks it is found by, where north is known."""
    site = sheet.site
    if not (site.north_up and math.isfinite(site.stand)):
        return
    x, y = sheet.at(site.stand)
    for _, bearing in site.sights:
        turn = math.radians(bearing)
        end = (x + SIGHT * math.sin(turn), y - SIGHT * math.cos(turn))
        sheet.run([(x, y), end], "sight", ink.RED, ink.FINE, (3.0, 0.8, 0.6, 0.8))
    for mark, bearing in site.sights:
        turn = math.radians(bearing)
        end = (x + SIGHT * math.sin(turn), y - SIGHT * math.cos(turn))
        sheet.say(end, f"{mark}, bearing {bearing:.0f} degrees")


def _names(sheet: _Sheet) -> None:
    site, system = sheet.site, sheet.site.units
    if math.isfinite(site.stand):
        depth = f" in {units.show(site.depth, 'depth', system)} of water" if math.isfinite(site.depth) else ""
        sheet.say(sheet.at(site.stand), f"stand, {units.show(site.stand, 'length', system)} out{depth}", bold=True)
    if math.isfinite(site.pump):
        sheet.say(sheet.at(-site.pump), f"pump, {units.show(site.pump, 'length', system)} up", bold=True)
        beyond = sheet.house()
        if beyond:
            sheet.say(sheet.at(-site.pump - beyond), "house")
        elif math.isfinite(site.delivery):
            start = sheet.at(-site.pump)
            end = (start[0] - 16.0 * sheet.out[0], start[1] - 16.0 * sheet.out[1])
            sheet.say(end, f"to the house, {units.show(site.delivery, 'length', system)} of line")
    for x, sounded in site.soundings:
        if sounded > 0.0:
            sheet.say(sheet.at(x), units.show(sounded, "depth", system), "sounding")
    sheet.say(sheet.edge, "water’s edge at the usual level", "shore")


def _words(sheet: _Sheet, box: Box) -> None:
    """Where the stand is, what nobody has said, and what is not drawn as it lies."""
    site, system = sheet.site, sheet.site.units
    found = Block("How to find the stand again")

    def add(block: Block, words: str) -> None:
        block.rows.append(paragraph([Run(ink.typeset(words))], box.width, ink.BODY))

    add(found, f"Coordinates: {site.coordinates}" if site.coordinates else "Coordinates: nobody has taken them.")
    for mark, bearing in site.sights:
        add(found, f"Bearing {bearing:.0f} degrees to {mark}")
    if len(site.sights) < 2:
        add(found, "Bearings from the stand to two marks on shore find it again.")
    if site.note:
        add(found, site.note)
    drawn = Block("How it is drawn")
    add(drawn, f"To scale, {_up(site)}. Soundings in dots, depths below the usual level. Shore and lines are drawn "
               "straight: nobody has surveyed them. Pump, house and stand are not to scale.")  # fmt: skip
    if math.isfinite(site.fetch):
        where = f", from {site.wind:.0f} degrees" if math.isfinite(site.wind) else ""
        add(drawn, f"Open water to windward: {units.show(site.fetch, 'length', system)}{where}.")
    if sheet.left_over:
        add(drawn, f"No room on the plan for: {'; '.join(sheet.left_over)}.")
    add(drawn, "Lot lines, neighbours’ lines, septic field and swimming area are to be drawn in by hand where they "
               "are not noted.")  # fmt: skip
    columns = flowed([found, drawn], 1, box.height) or flowed([drawn], 1, box.height) or []
    put(sheet.page, columns, box.left, box.top, box.width, GAP)
