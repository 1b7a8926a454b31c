"""The water of a section: its depth in steps, its levels and their days, ice where a day has it."""

from __future__ import annotations

from lakewright.documents import ink
from lakewright.documents.drawing import FAN, Drawing
from lakewright.documents.scale import step, unit_length
from lakewright.documents.scene import Box, Leader, Path, Point, ending_at, line, rectangle


def water(on: Drawing) -> None:
    """Water by depth, in steps of the scale at the left; ice on the days that have it."""
    view, plot = on.view, on.view.plot
    unit, _ = unit_length(on.site.units)
    every = step(view.mm_up * unit, 8.0) * unit
    left, right = on.far_shore(), on.shore(view.y(on.site.surface))
    high, deepest = on.site.surface, on.ground.deepest
    for shade in ink.WATER:
        if high <= deepest - every:
            break
        low = high - every if shade != ink.WATER[-1] else deepest
        box = Box(left, view.y(high), right, min(max(view.y(max(low, deepest)), view.y(high)), plot.bottom))
        if box.height > 0.0:
            on.scene.add(rectangle(box, "water", shade))
        high = low
    on.anchors["water"] = (left + 0.75 * (view.at(*on.ground.stand)[0] - left), view.y(on.site.surface))


def level_lines(on: Drawing) -> None:
    view = on.view
    left = max(view.plot.left + on.labels + FAN, on.far_shore())
    for level in on.levels:
        y = view.y(level.height)
        # Water lower than the bed is shown under it, as far as the edge.
        dry = level.height < on.ground.deepest
        right = view.x0 if dry else on.shore(y)
        if right <= left:
            continue
        if level.ice > 0.0 and not dry:
            _ice(on, left, y, level.ice)
        usual = abs(level.height) < 1e-9
        dash = (0.3, 0.9) if level.dotted else ()
        weight = 0.4 if usual else 0.2
        on.scene.add(line([(left, y), (right, y)], "level", ink.WATERLINE, weight, dash))
        on.room.along([(left, y), (right, y)], 20.0, 0.3)


def _ice(on: Drawing, left: float, y: float, thick: float) -> None:
    """A sheet of ice under its level, to the bed."""
    under = y + max(thick * on.view.mm_up, 0.7)
    right_over, right_under = on.shore(y), on.shore(under)
    points = [(left, y), (right_over, y), (max(right_under, left), under), (left, under)]
    sheet = Path((tuple(points),), "ice", ink.ICE_EDGE, ink.FINE, ink.ICE, closed=True, see_through=0.8)
    on.scene.add(sheet)
    hatch = tuple(((x, under), (x + 0.8 * (under - y), y)) for x in _steps(left + 1.0, right_over - 3.0, 4.0))
    if hatch:
        on.scene.add(Path(hatch, "ice", ink.ICE_EDGE, ink.FINE))
    on.anchors["ice"] = (left + 0.5 * (right_over - left), under)


def level_names(on: Drawing) -> None:
    view, plot = on.view, on.view.plot
    begin = max(plot.left + on.labels + FAN, on.far_shore())
    for level, box in on.named():
        y = box.top
        rows = len(level.lines)
        for row, words in enumerate(level.lines):
            size, lead = ink.SMALL, ink.leading(ink.SMALL)
            base = y + ink.rise(size) + row * lead
            weight = ink.BOLD if row == rows - 1 else ink.REGULAR
            on.say(ending_at(plot.left + on.labels, base, words, "level name", weight=weight, colour=ink.LEVEL_NAME))
        end = (begin, view.y(level.height))
        start = (plot.left + on.labels + 0.8, box.middle[1])
        on.scene.add(Leader(start, end, "level leader", ink.WATERLINE, ink.FINE))
        on.room.leaders.append((start, end))


def handle_places(on: Drawing, wide: float, high: float) -> tuple[Point, ...]:
    """Where a hand takes the water by on each day: beside the names, with nothing else put there."""
    x = max(on.view.plot.left + on.labels + FAN, on.far_shore()) + 0.5 * wide
    places = tuple((x, on.view.y(day.level)) for day in on.site.days)
    ys = [on.view.y(on.site.surface), *(y for _, y in places)]
    if wide > 0.0:
        on.room.bodies.append(Box(x - 0.5 * wide, min(ys) - 0.5 * high, x + 0.5 * wide, max(ys) + 0.5 * high))
    return places


def _steps(first: float, last: float, by: float) -> list[float]:
    """Places from one to another, so far apart."""
    return [first + n * by for n in range(max(0, int((last - first) / by) + 1))] if last >= first else []
