"""What is built: the suction line, the pump and its window, the delivery line, the house."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from lakewright import units
from lakewright.documents import ink
from lakewright.documents.drawing import Drawing
from lakewright.documents.scene import Box, Circle, Path, Point, area, centred, line, rectangle
from lakewright.documents.view import HOUSE_HIGH, HOUSE_WIDE, PUMP_HIGH, PUMP_WIDE

BURIED = 1.8  # mm under the ground at which the delivery line is drawn; for sight, not to scale


def suction(on: Drawing) -> None:
    """On the bed from the stand to the edge, up the bank to the pump."""
    view = on.view
    stand, inlet = view.at(*on.ground.stand), on.pump_inlet()
    over = 0.5
    if on.site.form in ("hung", "floating"):
        edge = min(view.y0, on.ground_y(view.x0)) - 2.0
        hang = min(view.y(on.ground.stand[1] + 0.5), stand[1] - 1.0)
        on.hang = (stand[0], hang)
        start = [on.hang, (stand[0], edge)]
        path = [p for p in on.part(view.x0, inlet[0] - 3.0) if p[1] < edge or p[0] > view.x0 + 2.0]
    else:
        start, path = [], on.part(stand[0], max(inlet[0] - 3.0, stand[0] + 1.0))
    points = [*start, *((x, y - over) for x, y in path)]
    points += [(inlet[0] - 2.0, inlet[1]), inlet]
    on.pipe(points, "suction line")
    on.anchors["suction line"] = _along(points, 0.42)
    on.anchors["bank"] = _along(points, 0.88)
    on.anchors["shore"] = (view.x0, on.ground_y(view.x0))
    _ballast(on, stand)


def _ballast(on: Drawing, stand: Point) -> None:
    """Weights along the line, where a job says how far apart."""
    every = on.site.weights * on.view.mm_along
    if not every > 1.5:
        return
    number = int((on.shore(on.view.y0) - stand[0]) / every)
    for n in range(1, min(number, 60) + 1):
        x = stand[0] + n * every
        y = on.ground_y(x) - 0.5
        on.scene.add(rectangle(Box(x - 0.7, y - 0.75, x + 0.7, y + 0.75), "weight", ink.SOFT, ink.INK, ink.FINE))


def pump(on: Drawing) -> None:
    x, y = on.pump_inlet()
    body = Box(x, y - 0.72 * PUMP_HIGH, x + PUMP_WIDE, y + 0.28 * PUMP_HIGH)
    ground = on.ground_y(body.middle[0])
    if ground > body.bottom + 0.5:
        legs = tuple(((at, body.bottom), (at, ground)) for at in (body.left + 1.5, body.right - 1.5))
        on.scene.add(Path(legs, "pump stand", ink.INK, ink.THIN))
    on.scene.add(rectangle(body, "pump", ink.SHEET, ink.INK, 0.4))
    on.scene.add(Circle(body.left + 2.3, body.middle[1], 1.5, "pump", ink.INK, 0.35))
    ribs = tuple(((body.right - 3.0 + n * 0.8, body.top + 1.0), (body.right - 3.0 + n * 0.8, body.bottom - 1.0))
                 for n in range(3))  # fmt: skip
    on.scene.add(Path(ribs, "pump", ink.INK, ink.FINE))
    on.room.bodies.append(body)
    on.anchors |= {
        "pump inlet": (body.left, y),
        "pump": (body.middle[0], body.top),
        "pump outlet": (body.right, y),
        "priming tee": (body.left - 1.2, y),
        "check valve": (body.left - 1.2, y),
        "joint": (body.left - 2.0, y),
        "power": (body.right - 1.5, body.top),
    }


def delivery(on: Drawing) -> None:
    view = on.view
    x, y = on.pump_inlet()
    start = (x + PUMP_WIDE, y)
    house_x, floor = view.house
    begin = start[0] + 1.6
    foot = max(on.ground_y(begin) + BURIED, y)
    inside = (house_x + 2.2, view.tee)
    if not on.after_break:
        way = [(px, py + BURIED) for px, py in on.part(begin, max(house_x - 1.5, begin + 1.0))]
        points = [start, (begin, y), (begin, foot), *way[1:], (inside[0], floor + BURIED), inside]
        on.pipe(points, "delivery line")
        on.anchors["delivery line"] = _along(points, 0.5)
    else:
        end = on.line[-1][0]
        way = [(px, py + BURIED) for px, py in on.part(begin, max(end, begin + 0.5))]
        one = [start, (begin, y), (begin, foot), *way[1:]]
        other = [(on.after_break[0][0], floor + BURIED), (inside[0], floor + BURIED), inside]
        on.pipe(one, "delivery line")
        on.pipe(other, "delivery line")
        on.anchors["delivery line"] = _along(one, 0.7)


def house(on: Drawing) -> None:
    """The house, its tank and tap; a sketch, with the tank's tee at its height."""
    x, floor = on.view.house
    right, eaves = x + HOUSE_WIDE - 2.0, floor - 13.5
    walls = [(x, floor), (x, eaves), (0.5 * (x + right), floor - HOUSE_HIGH + 1.0), (right, eaves), (right, floor)]
    on.scene.add(area(walls, "house", ink.SHEET, ink.INK, 0.35))
    tee = on.view.tee
    tank_x = x + 8.0
    on.pipe([(x + 2.2, tee), (x + 20.5, tee), (x + 20.5, tee - 4.2)], "delivery line")
    tank = Box(tank_x - 2.6, tee - 8.2, tank_x + 2.6, max(tee + 1.4, floor - 1.0))
    _tank(on, tank)
    dial = (x + 3.6, tee - 2.4)
    on.scene.add(line([(x + 3.6, tee), dial], "gauge", ink.INK, ink.THIN))
    on.scene.add(Circle(*dial, 1.1, "gauge", ink.INK, ink.THIN, ink.SHEET))
    filters = Box(x + 13.0, tee - 3.4, x + 15.0, tee + 1.4), Box(x + 16.2, tee - 3.4, x + 18.2, tee + 1.4)
    for body in filters:
        on.scene.add(rectangle(body, "filters", ink.SHEET, ink.INK, ink.THIN))
    tap = (x + 20.5, tee - 4.2)
    on.scene.add(line([tap, (tap[0] + 2.2, tap[1]), (tap[0] + 2.2, tap[1] + 1.4)], "tap", ink.INK, 0.4))
    on.say(centred(x + 20.2, tee - 5.6, "tap", "name", colour=ink.INK))
    on.room.bodies.append(Box(x - 0.5, floor - HOUSE_HIGH, right + 0.5, floor + 0.5))
    on.anchors |= {
        "tank": (tank_x, tank.top),
        "switch": (dial[0] - 1.1, dial[1]),
        "gauge": (dial[0] - 1.1, dial[1]),
        "filters": (x + 14.0, tee - 3.4),
        "treatment": (x + 17.2, tee - 3.4),
        "tap": (tap[0] + 2.2, tap[1] + 1.4),
        "branch": (x + 20.5, tee),
        "house": (right, eaves + 1.0),
    }


def _tank(on: Drawing, box: Box) -> None:
    turns = [math.pi * n / 10.0 for n in range(11)]
    r = 0.5 * box.width
    cx, top, low = box.middle[0], box.top + r, box.bottom - r
    rim = [(cx - r * math.cos(t), top - r * math.sin(t)) for t in turns]
    rim += [(cx + r * math.cos(t), low + r * math.sin(t)) for t in turns]
    on.scene.add(area(rim, "tank", ink.SHEET, ink.INK, 0.35))
    middle = box.middle[1]
    on.scene.add(line([(box.left, middle), (box.right, middle)], "tank", ink.INK, ink.FINE, (0.8, 0.6)))


def window(on: Drawing) -> None:
    """The pump's window as a bar beside it, with its heights."""
    bottom, top = on.site.window
    if not (math.isfinite(bottom) and math.isfinite(top)):
        return
    view, plot = on.view, on.view.plot
    x = on.pump_inlet()[0] - 5.5
    is_open = top >= bottom
    low, high = min(bottom, top), max(bottom, top)
    bar = Box(x, max(view.y(high), plot.top + 1.0), x + 1.9, min(view.y(low), plot.bottom - 1.0))
    colour, fill = (ink.GREEN, ink.GREEN_TINT) if is_open else (ink.RED, ink.RED_TINT)
    on.scene.add(replace(rectangle(bar, "pump window", fill, colour, 0.25), see_through=0.85))
    if not is_open:
        on.scene.add(Path((((bar.left, bar.top), (bar.right, bar.bottom)), ((bar.right, bar.top),
                             (bar.left, bar.bottom))), "pump window", colour, ink.FINE))  # fmt: skip
    on.room.bodies.append(bar)
    on.anchors["window"] = (bar.left, bar.middle[1])
    edges = [ink.typeset(units.show(edge, "height", on.site.units)) for edge in (bottom, top)]
    words = (
        ("pump window", f"{edges[0]} to {edges[1]}")
        if is_open
        else ("no pump window:", f"above {edges[0]}", f"and below {edges[1]}")
    )
    on.beside(words, bar, colour)


def heights(on: Drawing) -> None:
    """Names and heights under pump and house, and what the break leaves out."""
    site, view = on.site, on.view
    x, y = on.pump_inlet()
    if math.isfinite(site.pump_height):
        on.under(x + 0.5 * PUMP_WIDE, max(on.ground_y(x + 4.0), y + 0.5 * PUMP_HIGH),
                    (ink.typeset(f"pump {units.show(site.pump_height, 'height', site.units)}"),))  # fmt: skip
    house_x, floor = view.house
    lines = []
    if math.isfinite(site.tee_height):
        lines.append(ink.typeset(f"{site.fills} {units.show(site.tee_height, 'height', site.units)}"))
    if math.isfinite(site.tap_height):
        lines.append(ink.typeset(f"tap {units.show(site.tap_height, 'height', site.units)}"))
    if lines:
        on.under(house_x + 0.5 * HOUSE_WIDE, floor + 1.6, lines)
    if on.after_break and math.isfinite(site.delivery_length):
        long = units.show(site.delivery_length, "length", site.units)
        x, y = on.line[-1]
        on.under(x - 15.0, y + 3.0, (f"{long} of line", f"from pump to {site.fills}"))


def _along(points: Sequence[Point], share: float) -> Point:
    """The point at a share of a line's length."""
    lengths = [math.dist(a, b) for a, b in pairwise(points)]
    left = share * sum(lengths)
    for (a, b), length in zip(pairwise(points), lengths, strict=True):
        if left <= length and length > 0.0:
            part = left / length
            return a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part
        left -= length
    return points[-1]
