"""The stand where it is, and the lens that shows it large."""

from __future__ import annotations

import math

import numpy as np

from lakewright.documents import ink
from lakewright.documents.drawing import Drawing
from lakewright.documents.layout import Grid, rows_of, segments_meet_boxes
from lakewright.documents.lens import Lens
from lakewright.documents.scene import Box, Leader, Point, Text, line


def stand(on: Drawing) -> None:
    """A sketch of the stand where it is, and the lens that shows it large."""
    x, y = on.view.at(*on.ground.stand)
    spot = on.hang if on.site.form in ("hung", "floating") else (x, y - 1.5)
    if on.site.form not in ("hung", "floating"):
        on.scene.add(line([(x - 1.3, y - 0.4), (x + 1.3, y - 0.4)], "stand", ink.INK, 0.6))
        on.scene.add(line([(x, y - 0.4), (x, y - 2.6)], "stand", ink.INK, 0.6))
    on.room.bodies.append(Box(x - 1.6, y - 3.0, x + 1.6, y))
    placed = _room_for(on, on.lens, spot)
    if placed is None:
        on.anchors |= dict.fromkeys(on.lens.anchors, spot)
        return
    cx, cy = placed
    dx, dy = spot[0] - cx, spot[1] - cy
    away = math.hypot(dx, dy)
    r = on.lens.radius
    tie = Leader((cx + dx * r / away, cy + dy * r / away), spot, "lens leader", ink.SOFT, ink.FINE)
    on.scene.add(tie)
    on.room.leaders.append((tie.start, tie.end))
    for shape in on.lens.shapes:
        moved = shape.moved(cx, cy)
        if isinstance(moved, Text):
            on.say(moved)
        else:
            on.scene.add(moved)
    on.room.bodies.append(Box(cx - r, cy - r, cx + r, cy + r))
    on.anchors |= {name: (cx + dx, cy + dy) for name, (dx, dy) in on.lens.anchors.items()}
    # Leaders had better not run along the legs.
    foot = on.anchors["ballast"]
    on.room.along([foot, (2.0 * cx - foot[0], foot[1])], 0.0, 8.0)


def _room_for(on: Drawing, what: Lens, spot: Point) -> Point | None:
    """The centre of the cheapest free place for the lens, its tie to the stand clear of words."""
    box, room = what.box, on.room
    grid = Grid.over(room.area, box.width, box.height, 2.0, 2.0)
    boxes = grid.boxes()
    if not len(boxes):
        return None
    centres = np.column_stack([boxes[:, 0] - box.left, boxes[:, 1] - box.top])
    away = np.array(spot) - centres
    length = np.hypot(*away.T)
    starts = centres + away * (what.radius / np.maximum(length, 1e-9))[:, None]
    ties = np.column_stack([starts, np.broadcast_to(np.array(spot), starts.shape)])
    # The caption hangs under the circle: a tie must not run through it.
    through = segments_meet_boxes(ties - np.column_stack([centres, centres]), rows_of([what.caption]), 0.6)[:, 0]
    away_from_it = np.where(through | (length < what.radius + 4.0), np.inf, 0.9 * length)
    taken = room.taken()
    found = taken.cheapest(away_from_it + grid.costs(taken, 1.0).ravel(), ties, 0.5)
    if found is None:
        return None
    x, y = centres[found[0]].tolist()
    return x, y
