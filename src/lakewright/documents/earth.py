"""Bed and bank of a section, and the break in them where the house is far away."""

from __future__ import annotations

from lakewright.documents import ink
from lakewright.documents.drawing import FAN, Drawing
from lakewright.documents.scene import Path, Point, area, line


def earth(on: Drawing) -> None:
    view, plot = on.view, on.view.plot
    for points in filter(None, (on.line, on.after_break)):
        outline = [*points, (points[-1][0], plot.bottom), (points[0][0], plot.bottom)]
        on.scene.add(area(outline, "ground", ink.SAND))
    _texture(on)
    sounded = view.x(on.ground.sounded_to)
    edge = on.line if on.site.kind == "tank" else on.line[1:]
    on.scene.add(line(edge, "ground", ink.SAND_EDGE, 0.32))
    if on.site.kind != "tank" and sounded > plot.left + 1.0:
        dash = (1.4, 1.0)
        left = plot.left if on.names_clear_of(on.line[0][1]) else plot.left + on.labels + FAN
        on.scene.add(line([(left, on.line[0][1]), (max(left, sounded), on.line[0][1])], "not sounded",
                            ink.SAND_EDGE, 0.25, dash))  # fmt: skip
    on.room.along(on.line, 8.0, 0.5)
    if on.after_break:
        on.scene.add(line(on.after_break, "ground", ink.SAND_EDGE, 0.32))
        on.room.along(on.after_break, 3.0, 0.5)
        _break_marks(on)


def _break_marks(on: Drawing) -> None:
    plot = on.view.plot
    for x, top in ((on.line[-1][0], on.line[-1][1]), on.after_break[0]):
        points = [(x, top - 4.0)]
        y, side = top - 4.0, 1.0
        while y < plot.bottom - 3.0:
            y += 3.0
            points.append((x + 0.7 * side, y))
            side = -side
        points.append((x, plot.bottom))
        on.scene.add(line(points, "break", ink.SOFT, ink.FINE))
        on.room.along([points[0], points[-1]], 40.0, 0.5)


def _texture(on: Drawing) -> None:
    """Short dashes in the ground, strewn the same way every time."""
    plot, seed = on.view.plot, 12345
    dashes: list[tuple[Point, ...]] = []
    for _ in range(360):
        seed = (1103515245 * seed + 12345) % 2**31
        x = plot.left + 2.0 + (plot.width - 5.0) * ((seed >> 8) % 4096) / 4096.0
        seed = (1103515245 * seed + 12345) % 2**31
        y = plot.top + plot.height * ((seed >> 8) % 4096) / 4096.0
        in_break = bool(on.after_break) and on.line[-1][0] - 2.0 < x < on.after_break[0][0] + 1.0
        if in_break or y >= plot.bottom - 1.0:
            continue
        if y > on.ground_y(x) + 1.4 and y > on.ground_y(x + 1.6) + 1.4:
            dashes.append(((x, y), (x + 1.4, y - 0.12)))
    if dashes:
        on.scene.add(Path(tuple(dashes), "texture", ink.SAND_MARK, ink.FINE))
