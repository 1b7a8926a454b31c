"""The bench drawing: the stand in front view and plan, to scale, with dimensions and a table of its parts."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from lakewright import units
from lakewright.documents import ink
from lakewright.documents.bench_words import blocks
from lakewright.documents.dimension import PITCH, Dimension, Placing, dimension
from lakewright.documents.items import Item, is_behind, items_of, numbered
from lakewright.documents.layout import Room
from lakewright.documents.outline import Disc, Outline
from lakewright.documents.paper import MARGIN, PAPERS, STRIP, lying, title_strip
from lakewright.documents.prose import Column, flowed, put
from lakewright.documents.scale import Scale, largest_within
from lakewright.documents.scene import Box, Path, Point, Scene, Text, line, rectangle
from lakewright.documents.stand_view import FRONT, PLAN, Measure, StandView, stand_view
from lakewright.errors import AskError
from lakewright.report import Report
from lakewright.state.placed import Stand
from lakewright.stock.load import Stock

ROOM_RIGHT, ROOM_ABOVE, ROOM_BELOW = 20.0, 11.0, 5.0
"""ours: round a view for numbers and their leaders, beside its dimensions [mm]."""
GAP = 6.0  # mm; ours
COLUMNS = ((92.0, 1), (84.0, 2))
"""ours: width of the columns of words [mm], and how many there are: the first that holds them all."""
CENTRE_DASH, HIDDEN_DASH = (4.0, 0.8, 0.8, 0.8), (1.2, 0.7)  # mm; ours
DASHES = {"ballast": (3.0, 0.7, 0.7, 0.7, 0.7, 0.7)}
"""ours: a long dash and two short ones round what is strapped on [mm]."""
CENTRE_BEYOND = 2.5
"""ours: how far a centre line passes what it is the middle of [mm]."""
FILLS = {
    "pipe": ink.SHEET, "fitting": "#eeeae0", "metal": ink.OCHRE_TINT, "valve": ink.GREEN_TINT, "screen": ink.WATER[0],
    "ballast": "#d7d4cc", "pad": ink.SAND,
}  # fmt: skip
OPEN_DOT = "An open dot: the part is behind what is seen."
NOTHING = "no bench drawing: the stand has no parts"


@dataclass(frozen=True, slots=True)
class Bench:
    """A bench drawing: the sheet; its views and where they lie on it; its dimensions; its items; what is in words."""

    scene: Scene
    views: dict[str, tuple[StandView, Placing]]
    dimensions: tuple[Dimension, ...]
    items: tuple[Item, ...]
    scale: Scale


def bench(stand: Stand, stock: Stock, report: Report) -> Bench:
    """The bench drawing of a stand.

    Parameters
    ----------
    stand : as built
    stock : what it was built from
    report : of its job, for title, units and fingerprint

    Raises
    ------
    AskError where the stand has no parts, with what cannot be had
    """
    if not stand.placed:
        raise AskError("; ".join([NOTHING, *stand.gaps]))
    width, height = lying(report)
    page = Scene(width, height, report.title)
    top, bottom = _header(page, stand, report), height - MARGIN - STRIP - 2.0
    items = items_of(stand, stock)
    # A plan of what hangs shows nothing.
    views = [stand_view(stand, name) for name in ((FRONT, PLAN) if stand.tips else (FRONT,))]
    behind = [OPEN_DOT] if any(is_behind(item, views) for item in items) else []
    column, columns = _columns(stand, items, behind, report.units, bottom - top)
    words = width - MARGIN - len(columns) * (column + GAP) + GAP
    room = Room(Box(MARGIN, top, words - GAP, bottom))
    scale, placed = _laid(views, report.units, room.area)
    drawn = []
    for view, place in placed.values():
        drawn += _draw(page, room, view, place, report.units, standing=bool(stand.tips))
    page.add(*numbered(stand, items, placed, room, report.units))
    put(page, columns, words, top, column, GAP)
    title_strip(page, report, "bench drawing of the stand, 1 of 1", scale.words)
    return Bench(page, placed, tuple(drawn), items, scale)


def _header(page: Scene, stand: Stand, report: Report) -> float:
    """The job's title, and what stand it is; returns where the drawing may begin."""
    wide = page.width - 2.0 * MARGIN
    title = ink.wrapped(report.title or "Job", wide, ink.LINE)[0]
    y = MARGIN + 2.6
    page.add(Text(MARGIN, y, title, "title", ink.LINE, colour=ink.SOFT))
    what = "frame" if stand.tips else "drop"
    legs = f" on {len(stand.tips)} legs, {'in the suction path' if stand.wet else 'dry'}" if stand.tips else ""
    mass = units.show(math.fsum(placed.mass for placed in stand.placed), "mass", report.units)
    said = ink.typeset(f"Intake stand, {stand.form}{legs}; {what} of {stand.size} in pipe; {mass} empty, in air")
    y += 1.2 + ink.leading(ink.TITLE)
    page.add(Text(MARGIN, y, ink.wrapped(said, wide, ink.TITLE, ink.BOLD)[0], "first line", ink.TITLE, ink.BOLD))
    y += 2.8
    page.add(line([(MARGIN, y), (page.width - MARGIN, y)], "rule", ink.HAIR, ink.THIN))
    return y + 2.0


# Where the views lie.


def _laid(views: Sequence[StandView], system: str, area: Box) -> tuple[Scale, dict[str, tuple[StandView, Placing]]]:
    """The views one over the other or side by side, whichever is larger, at one named scale.

    One over the other, the plan is beneath in SI and above in US, as each draws it.
    """
    rims = [_rim(view) for view in views]
    wide, high = [view.box.width for view in views], [view.box.height for view in views]
    rim_wide, rim_high = [rim.left + rim.right for rim in rims], [rim.top + rim.bottom for rim in rims]
    stacked = min(
        min((area.width - rim) / max(w, 1e-3) for rim, w in zip(rim_wide, wide, strict=True)),
        (area.height - sum(rim_high)) / sum(high),
    )
    beside = min(
        (area.width - sum(rim_wide)) / max(sum(wide), 1e-3),
        min((area.height - rim) / max(h, 1e-3) for rim, h in zip(rim_high, high, strict=True)),
    )
    scale = largest_within(system, max(stacked, beside))
    down = stacked >= beside
    order = list(reversed(range(len(views)))) if down and system != "SI" else list(range(len(views)))
    sizes = [(w * scale.mm + rw, h * scale.mm + rh)
             for w, h, rw, rh in zip(wide, high, rim_wide, rim_high, strict=True)]  # fmt: skip
    return scale, dict(_placings(views, rims, sizes, order, area, scale, down))


def _placings(
    views: Sequence[StandView],
    rims: Sequence[Box],
    sizes: Sequence[tuple[float, float]],
    order: Sequence[int],
    area: Box,
    scale: Scale,
    down: bool,
) -> Iterator[tuple[str, tuple[StandView, Placing]]]:
    """Each view where it lies: spare room shared between them, their origins in line."""
    total = sum(size[1 if down else 0] for size in sizes)
    spare = ((area.height if down else area.width) - total) / (len(views) + 1)
    at = (area.top if down else area.left) + spare
    lefts = [rim.left - scale.mm * view.box.left for view, rim in zip(views, rims, strict=True)]
    rights = [size[0] - left for size, left in zip(sizes, lefts, strict=True)]
    axis = area.left + max(lefts) + max(0.5 * (area.width - max(lefts) - max(rights)), 0.0)
    for n in order:
        view, rim, (wide, high) = views[n], rims[n], sizes[n]
        if down:
            x, y = axis, at + rim.top - scale.mm * view.box.top
        else:
            x, y = at + lefts[n], area.top + 0.5 * (area.height - high) + rim.top - scale.mm * view.box.top
        at += spare + (high if down else wide)
        yield view.name, (view, Placing(scale.mm, x, y))


def _rim(view: StandView) -> Box:
    """What a view needs round it for its title, dimensions and numbers, as widths of its four sides [mm]."""
    rows = rows_of([measure for measure in view.measures if measure.side == "left"])
    below = sum(measure.side == "below" for measure in view.measures)
    return Box(sum(_wide(row) for row in rows) + 8.0, ROOM_ABOVE, ROOM_RIGHT, PITCH * below + ROOM_BELOW)


def _wide(row: Sequence[Measure]) -> float:
    """What a row of upright dimensions takes across the paper: its widest figure in either system, and a gap [mm]."""
    figures = (units.show(measure.value, "part", system) for measure in row for system in PAPERS)
    return max(ink.width(words, ink.SMALL) for words in figures) + 2.5


# What is drawn.


def _draw(page: Scene, room: Room, view: StandView, place: Placing, system: str, standing: bool) -> list[Dimension]:
    """A view with its bed, centre lines and dimensions."""
    around = place.box(view.box)
    for outline in view.outlines:
        page.add(*_fills(outline, place))
        room.bodies += [place.box(face.box if isinstance(face, Disc) else face) for face in outline.body.faces]
    if view.name == FRONT and standing:
        page.add(_bed(around, place))
    for outline in view.outlines:
        page.add(*_strokes(outline, place))
    for edge in view.centres:
        run = _longer(place.point(edge[0]), place.point(edge[1]))
        page.add(line(run, "centre line", ink.SOFT, ink.FINE, CENTRE_DASH))
        room.along(run, 0.5, 0.2)
    drawn = _dimensions(view, place, around, room.area, system)
    for each in drawn:
        if each.measure.side == "through":
            page.add(rectangle(each.figure.box.grown(0.2), "bare", ink.SHEET))
        page.add(*each.shapes, each.figure)
        room.words.append(each.figure.box)
        for run in each.lines:
            room.along(run, 400.0, 4.0)
    _name(page, room, view, around)
    return drawn


def _fills(outline: Outline, place: Placing) -> Iterator[Path]:
    if outline.body.over and outline.body.role != "ballast":
        return
    fill, share = FILLS[outline.body.role], 0.5 if outline.body.over else 1.0
    for face in outline.body.faces:
        if isinstance(face, Disc):
            yield Path((_round(face, place),), "fill", fill=fill, closed=True, see_through=share)
        else:
            box = place.box(face)
            corners = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
            yield Path((corners,), "fill", fill=fill, closed=True, see_through=share)


def _round(disc: Disc, place: Placing, steps: int = 48) -> tuple[Point, ...]:
    angles = (math.tau * n / steps for n in range(steps))
    return tuple(place.point((disc.u + disc.radius * math.cos(a), disc.v + disc.radius * math.sin(a))) for a in angles)


def _strokes(outline: Outline, place: Placing) -> Iterator[Path]:
    runs = [tuple(place.point(point) for point in edge) for edge in outline.edges]
    runs += [tuple(place.point(point) for point in arc.points) for arc in outline.arcs]
    marks = tuple(tuple(place.point(point) for point in edge) for edge in outline.marks)
    if runs:
        dash, weight = (DASHES.get(outline.body.role, HIDDEN_DASH), ink.FINE) if outline.body.over else ((), ink.THIN)
        yield Path(tuple(runs), "outline", ink.INK, weight, dash=dash)
    if marks:
        yield Path(marks, "outline", ink.SOFT, ink.FINE)


def _longer(start: Point, end: Point) -> tuple[Point, Point]:
    length = math.dist(start, end)
    x, y = CENTRE_BEYOND * (end[0] - start[0]) / length, CENTRE_BEYOND * (end[1] - start[1]) / length
    return (start[0] - x, start[1] - y), (end[0] + x, end[1] + y)


def _bed(around: Box, place: Placing) -> Path:
    """The bed: a line under the stand with short strokes beneath."""
    y, left, right = place.y, around.left - 4.0, around.right + 4.0
    strokes = [((left, y), (right, y))]
    steps = int((right - left) / 4.0)
    strokes += [((left + 4.0 * n + 1.4, y), (left + 4.0 * n, y + 1.4)) for n in range(1, steps)]
    return Path(tuple(strokes), "bed", ink.SAND_EDGE, ink.FINE)


def _dimensions(view: StandView, place: Placing, around: Box, area: Box, system: str) -> list[Dimension]:
    """The dimensions of a view, the shortest nearest; those at its left that follow one another on one line."""
    at: list[tuple[Measure, float]] = []
    left, below = around.left - 4.0, around.bottom + 1.5
    for row in rows_of([measure for measure in view.measures if measure.side == "left"]):
        at += [(measure, left - 0.5 * _wide(row)) for measure in row]
        left -= _wide(row)
    for row in rows_of([measure for measure in view.measures if measure.side == "below"], together=False):
        below += PITCH
        at += [(measure, below) for measure in row]
    at += [(measure, 0.0) for measure in view.measures if measure.side == "through"]
    return [dimension(view.name, measure, place, line_at, _figure(measure, system), area) for measure, line_at in at]


def _figure(measure: Measure, system: str) -> str:
    return ink.typeset(units.show(measure.value, "part", system))


def rows_of(measures: Sequence[Measure], together: bool = True) -> list[list[Measure]]:
    """Measures in rows, the shortest in the first; where they may stand together, those beside each other do."""
    rows: list[list[Measure]] = []
    for measure in sorted(measures, key=_value):
        low, high = _span(measure)
        free = (
            row for row in rows if together and all(low >= b - 1e-6 or high <= a + 1e-6 for a, b in map(_span, row))
        )
        row = next(free, None)
        if row is None:
            rows.append([measure])
        else:
            row.append(measure)
    return rows


def _span(measure: Measure) -> tuple[float, float]:
    """From where to where an upright measure runs [m], with nothing off where it is long enough for its figure."""
    low, high = sorted((measure.start[1], measure.end[1]))
    return low, high


def _value(measure: Measure) -> float:
    return measure.value


def _name(page: Scene, room: Room, view: StandView, around: Box) -> None:
    """The name of a view over it."""
    text = Text(around.left, around.top - ROOM_ABOVE + 3.0, f"{view.name}, shore to the right".capitalize(),
                "view name", ink.BODY, ink.BOLD)  # fmt: skip
    page.add(text)
    room.words.append(text.box)


# What is said.


def _columns(
    stand: Stand, items: Sequence[Item], more: Sequence[str], system: str, height: float
) -> tuple[float, list[Column]]:
    """The columns of words, as few as hold them all."""
    for column, count in COLUMNS:
        found = flowed(blocks(stand, items, more, system, column), count, height)
        if found is not None:
            return column, found
    raise AssertionError("a stand of more parts than two columns hold")
