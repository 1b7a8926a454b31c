"""Bed and bank of a section, and the break in them where the house is far away."""

from __future__ import annotations

from functools import cache

import numpy as np

from lakewright.documents import ink
from lakewright.documents.drawing import FAN, Drawing
from lakewright.documents.layout import Numbers
from lakewright.documents.scene import Path, area, line


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


@cache
def _strewn() -> tuple[Numbers, Numbers]:
    """Places across and down, as shares of the paper: strewn the same way every time."""
    seed, shares = 12345, []
    for _ in range(2 * 360):
        seed = (1103515245 * seed + 12345) % 2**31
        shares.append(((seed >> 8) % 4096) / 4096.0)
    return np.array(shares[::2]), np.array(shares[1::2])


def _texture(on: Drawing) -> None:
    """Short dashes in the ground."""
    plot, (across, down) = on.view.plot, _strewn()
    x, y = plot.left + 2.0 + (plot.width - 5.0) * across, plot.top + plot.height * down
    in_ground = (y < plot.bottom - 1.0) & (y > _ground(on, x) + 1.4) & (y > _ground(on, x + 1.6) + 1.4)
    if on.after_break:
        in_ground &= (x <= on.line[-1][0] - 2.0) | (x >= on.after_break[0][0] + 1.0)
    places = zip(x[in_ground].tolist(), y[in_ground].tolist(), strict=True)
    if dashes := tuple(((a, b), (a + 1.4, b - 0.12)) for a, b in places):
        on.scene.add(Path(dashes, "texture", ink.SAND_MARK, ink.FINE))


def _ground(on: Drawing, x: Numbers) -> Numbers:
    """Where the ground is on paper at many places."""
    found: Numbers = np.interp(x, *np.array(on.line).T)
    if on.after_break:
        (after, floor), *_ = on.after_break
        found = np.where(x >= after, floor, found)
    return found
