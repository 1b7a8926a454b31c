"""The numbered items of a stand: what is alike has one number, in the table and in a ring beside it on the drawing."""

from __future__ import annotations

import functools
import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from lakewright import units
from lakewright.documents import ink
from lakewright.documents.dimension import Placing
from lakewright.documents.layout import Numbers, Room, Taken
from lakewright.documents.outline import Body, Face, holds
from lakewright.documents.scene import Box, Circle, Leader, Point, Shape, Text, centred, ending_at
from lakewright.documents.stand_view import FRONT, PIPE, PLAN, StandView
from lakewright.state.placed import Placed, Stand
from lakewright.stock.load import Stock
from lakewright.stock.rows import Pipe

RING = 2.5
"""ours: radius of a ring round a number [mm]."""
AROUND = ((30.0, 2.0), (90.0, 6.0), (60.0, 1.0))
"""ours: how far round a part its number is looked for, and in what steps [mm]: near, then wide, then closely."""
CLEAR = 0.6
"""ours: between words and the end of a leader [mm]."""
LEAST_LEADER = 1.6 * RING
"""ours: from the middle of a ring to the part [mm]."""
BY_DISTANCE = 0.6
"""ours: what a millimetre of leader costs, in the costs of `layout.Room`."""
PLACES = 4
"""ours: parts of one item that are tried for its number."""
IN_THE_OTHER_VIEW = 12.0
"""ours: what it costs to number a part in the view that shows it less well."""
SAMPLES = (0.5, 0.3, 0.7, 0.15, 0.85, 0.05, 0.95)
"""ours: where on a part a leader may end, as shares of its box."""
SEEN_FROM_ABOVE = ("leg", "spine", "side", "pad", "ballast")


@dataclass(frozen=True, slots=True)
class Item:
    """One line of the parts table.

    number: as on the drawing; name: in stock; count: pieces, or metres of what is sold by length; length [m]: of a
    piece of pipe from end to end, else nan; cut: whether it is cut from pipe and threaded; holes: to drill in each;
    parts: their numbers in the stand, none for what is not drawn;
    by_length: whether it is sold so.
    """

    number: int
    name: str
    count: float
    length: float
    cut: bool
    holes: int
    parts: tuple[int, ...]
    by_length: bool = False


def items_of(stand: Stand, stock: Stock) -> tuple[Item, ...]:
    """The items of a stand in the order its parts are put down, then what is needed beside them."""
    alike: dict[tuple[str, float, int], list[int]] = {}
    for number, placed in enumerate(stand.placed):
        alike.setdefault((placed.part.name, _piece_length(placed), placed.holes), []).append(number)
    found = [
        Item(n, name, float(len(parts)), length if length >= 0.0 else math.nan,
             isinstance(stand.placed[parts[0]].part, Pipe), holes, tuple(parts))
        for n, ((name, length, holes), parts) in enumerate(alike.items(), start=1)
    ]  # fmt: skip
    for name, count in stand.beside:
        by_length = stock.parts[name].prices.length > 0.0
        found.append(Item(len(found) + 1, name, count, math.nan, False, 0, (), by_length))
    return tuple(found)


def _piece_length(placed: Placed) -> float:
    """Length of a piece of pipe to a nanometre, so that pieces alike are found to be; -1 for what is none."""
    return round(placed.length, 9) if placed.kind in PIPE else -1.0


# Numbers on the drawing.


@dataclass(frozen=True, slots=True)
class Anchor:
    """Where a leader may end on paper, what it costs to number an item there, and whether its part is seen there."""

    at: Point
    dislike: float
    seen: bool


def numbered(
    stand: Stand, items: Sequence[Item], views: Mapping[str, tuple[StandView, Placing]], room: Room, system: str
) -> list[Shape]:
    """The rings with their numbers and leaders, of pieces of pipe with their length; `room` takes them up.

    The dot of a leader is open where its part is behind others. An item for which there is no room is left to the
    table.
    """
    shapes: list[Shape] = []
    # Those that can be seen in fewest places choose first.
    wanted = sorted(((item, _anchors(stand, item, views, room.words)) for item in items), key=lambda pair: len(pair[1]))
    for item, anchors in wanted:
        length = "" if math.isnan(item.length) else ink.typeset(units.show(item.length, "part", system))
        found = _place(room, anchors, 2.0 * RING + (ink.width(length, ink.SMALL) + 0.9 if length else 0.0))
        if found is not None:
            shapes += _ring(room, *found, item.number, length)
    return shapes


def _anchors(
    stand: Stand, item: Item, views: Mapping[str, tuple[StandView, Placing]], words: Sequence[Box]
) -> list[Anchor]:
    """Places where a part of an item is seen, a few in each view, clear of words; one behind others where none is."""
    role = stand.placed[item.parts[0]].role if item.parts else ""
    order = [name for name in ((PLAN, FRONT) if role in SEEN_FROM_ABOVE else (FRONT, PLAN)) if name in views]
    found: list[Anchor] = []
    behind: list[Anchor] = []
    for liking, name in enumerate(order):
        view, place = views[name]
        dislike = liking * IN_THE_OTHER_VIEW
        bare = functools.partial(_is_bare, place, words)
        points = [place.point(point) for point in _seen(view, set(item.parts), bare)]
        # Away from the dimensions, which run at the left and beneath.
        found += [Anchor(at, dislike, True) for at in sorted(points, key=_from_the_corner)[:PLACES]]
        boxes = [outline.body.box for outline in view.outlines if outline.body.part in item.parts]
        behind += [Anchor(place.point(box.middle), dislike, False) for box in boxes[:1]]
    return found or behind


def is_behind(item: Item, views: Sequence[StandView]) -> bool:
    """Whether an item that is drawn is seen in no view."""
    return bool(item.parts) and not any(_seen(view, set(item.parts)) for view in views)


def _from_the_corner(at: Point) -> tuple[float, Point]:
    return at[1] - at[0], at


def _is_bare(place: Placing, words: Sequence[Box], point: Point) -> bool:
    """Whether a point of a view is clear of words on paper."""
    return not any(box.grown(CLEAR).holds_point(place.point(point)) for box in words)


def _always(_: Point) -> bool:
    return True


def _seen(view: StandView, parts: set[int], bare: Callable[[Point], bool] = _always) -> list[Point]:
    """A point of each body of some parts that is seen and bare, where there is one."""
    bodies = [outline.body for outline in view.outlines]
    found = []
    for number, body in enumerate(bodies):
        if body.part in parts:
            nearer = [face for each in bodies[number + 1 :] if not each.over for face in each.faces]
            point = _point_seen(body, nearer, bare)
            found += [point] if point else []
    return found


def _point_seen(body: Body, nearer: Sequence[Face], bare: Callable[[Point], bool]) -> Point | None:
    """The point nearest the middle of a body that nothing nearer hides."""
    box = body.box
    grid = [(box.left + a * box.width, box.top + b * box.height) for a in SAMPLES for b in SAMPLES]
    on_it = [point for point in grid if bare(point) and any(holds(face, point) for face in body.faces)]
    return next((point for point in on_it if not any(holds(face, point) for face in nearer)), None)


def _place(room: Room, anchors: Sequence[Anchor], wide: float) -> tuple[Box, Anchor] | None:
    """The cheapest box for a number and where its leader goes; near the part, else anywhere."""
    taken = room.taken()
    for reach, step in AROUND:
        best: tuple[Box, Anchor] | None = None
        least = math.inf
        for anchor in anchors:
            found = _box_for(taken, room.area, anchor, _around(anchor.at, reach, step, wide), least)
            if found is not None:
                best, least = (found[0], anchor), found[1]
        if best is not None:
            return best
    return None


def _box_for(taken: Taken, area: Box, anchor: Anchor, boxes: Numbers, least: float) -> tuple[Box, float] | None:
    """The cheapest of some boxes for a number and what it costs; none where it costs no less than `least`."""
    middles = np.column_stack([_ring_x(boxes, anchor.at), boxes[:, 1] + RING])
    away = np.array(anchor.at) - middles
    far = np.maximum(np.hypot(away[:, 0], away[:, 1]), 1e-9)
    starts = middles + away * (RING / far)[:, None]
    segments = np.column_stack([starts, np.broadcast_to(anchor.at, starts.shape)])
    costs = np.where(far < LEAST_LEADER, np.inf, BY_DISTANCE * far + anchor.dislike)
    found = taken.cheapest(costs, segments, 0.4, least, lambda some: taken.costs(boxes[some], area, 0.7))
    return None if found is None else (Box(*(float(edge) for edge in boxes[found[0]])), found[1])


def _around(anchor: Point, reach: float, step: float, wide: float) -> Numbers:
    steps = np.arange(-reach, reach + 1e-9, step)
    x, y = (each.ravel() for each in np.meshgrid(anchor[0] + steps - 0.5 * wide, anchor[1] + steps - RING))
    return np.column_stack([x, y, x + wide, y + 2.0 * RING])


def _ring_x(boxes: Numbers, anchor: Point) -> Numbers:
    """Middle of the ring: at the end of its box that is nearer to the part."""
    left = boxes[:, 0] + boxes[:, 2] < 2.0 * anchor[0]
    found: Numbers = np.where(left, boxes[:, 2] - RING, boxes[:, 0] + RING)
    return found


def _ring(room: Room, box: Box, anchor: Anchor, number: int, length: str) -> list[Shape]:
    at, y = anchor.at, 0.5 * (box.top + box.bottom)
    right = box.left + box.right < 2.0 * at[0]
    x = box.right - RING if right else box.left + RING
    far = math.dist((x, y), at)
    start = (x + RING * (at[0] - x) / far, y + RING * (at[1] - y) / far)
    base = y + 0.5 * (ink.ASCENT - ink.DESCENT) * ink.SMALL * ink.POINT
    dot = Circle(*at, 0.45, "item dot", "" if anchor.seen else ink.INK, ink.FINE, ink.INK if anchor.seen else ink.SHEET)
    shapes: list[Shape] = [
        Leader(start, at, "item leader", ink.INK, ink.FINE),
        dot,
        Circle(x, y, RING, "item ring", ink.INK, ink.THIN, ink.SHEET),
        centred(x, base, str(number), "item number", weight=ink.BOLD),
    ]
    if length:
        words = Text(box.left + 2.0 * RING + 0.9, base, length, "piece length")
        shapes.append(ending_at(box.left + words.width, base, length, "piece length") if right else words)
    room.words.append(box)
    room.leaders.append((start, at))
    return shapes
