"""A stand seen from in front and from above, in metres: what of each part is seen, its centre lines, what is measured.

In front the eye looks along y, with the shore to the right; the plan looks down on the same.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from lakewright.documents.outline import Body, Disc, Edge, Face, Outline, box_round, outlines
from lakewright.documents.scene import Box, Point
from lakewright.state.placed import Placed, Stand, Vector

Look: TypeAlias = Callable[[Vector], tuple[float, float, float]]
"""From a place in space to u, v on the drawing and how near it is to the eye, all [m]."""
FRONT, PLAN = "front view", "plan"
END_ON = 1e-6
"""ours: a cylinder is seen end-on where it is no longer than this [m]."""
PIPE = ("nipple", "pipe", "blind nipple")
BEAD = 0.3
"""ours: the bead of a threaded fitting, as a share of the way from its face to its middle."""
BASKET = 0.4
"""ours: where the body of a foot valve ends and its basket begins, as a share of its length."""
SLOTS = 14
"""ours: lines that tell a screen or a basket from a plain cylinder."""


def _from_front(at: Vector) -> tuple[float, float, float]:
    return at[0], -at[2], -at[1]


def _from_above(at: Vector) -> tuple[float, float, float]:
    return at[0], -at[1], at[2]


LOOKS: dict[str, Look] = {FRONT: _from_front, PLAN: _from_above}


@dataclass(frozen=True, slots=True)
class Measure:
    """What a dimension measures [m].

    name: what it is; start, end: the points it is between; way: "across", "up" or "slant"; side: where its line runs,
    "left" or "below" of the view, or "through" it.
    """

    name: str
    start: Point
    end: Point
    way: str
    side: str

    @property
    def value(self) -> float:
        """The length it shows."""
        du, dv = abs(self.end[0] - self.start[0]), abs(self.end[1] - self.start[1])
        return {"across": du, "up": dv, "slant": math.hypot(du, dv)}[self.way]


@dataclass(frozen=True, slots=True)
class StandView:
    """One view: outlines, the farthest first; centre lines; measures; the box round it all."""

    name: str
    outlines: tuple[Outline, ...]
    centres: tuple[Edge, ...]
    measures: tuple[Measure, ...]
    box: Box


def stand_view(stand: Stand, name: str) -> StandView:
    """A view of a stand that has parts."""
    look = LOOKS[name]
    bodies = [body for number, placed in enumerate(stand.placed) for body in _bodies(placed, number, look)]
    around = box_round([body.box for body in bodies])
    if name == FRONT and stand.tips:
        around = Box(around.left, around.top, around.right, max(around.bottom, 0.0))
    boxes = [face.box if isinstance(face, Disc) else face for body in bodies for face in body.faces]
    measures = (_at_the_edge(each, boxes) for each in (_heights(stand, around) if name == FRONT else _spreads(stand)))
    return StandView(name, tuple(outlines(bodies)), tuple(_centres(stand, look)), tuple(measures), around)


# Parts as bodies.


def _bodies(placed: Placed, number: int, look: Look) -> Iterator[Body]:
    radius = 0.5 * placed.outside
    if placed.role == "pad":
        yield _pad(placed, number, look)
        return
    if len(placed.segments) > 1:
        yield from _fitting(placed, number, look, radius)
        return
    (start, end) = placed.segments[0]
    role = drawn_as(placed)
    over = placed.role in ("ballast", "sheltered")
    face, near = _cylinder(look(start), look(end), radius)
    marks = () if isinstance(face, Disc) or over else tuple(_marks(placed, look(start), look(end), radius))
    yield Body((face,), number, near, role, marks, over)


def drawn_as(placed: Placed) -> str:
    """What a part is drawn as: pipe, fitting, metal, valve, screen, ballast or pad."""
    if placed.role in ("ballast", "pad"):
        return placed.role
    kinds = {"foot valve": "valve", "screen": "screen", **dict.fromkeys(PIPE, "pipe")}
    material = getattr(placed.part, "material", "")
    return kinds.get(placed.kind, "fitting" if material.startswith("PVC") else "metal")


def _cylinder(start: Vector, end: Vector, radius: float) -> tuple[Face, float]:
    (u0, v0, near0), (u1, v1, near1) = start, end
    nearest = max(near0, near1)
    if math.hypot(u1 - u0, v1 - v0) < END_ON:
        return Disc(u0, v0, radius), nearest
    across, along = (radius, 0.0) if abs(u1 - u0) < abs(v1 - v0) else (0.0, radius)
    box = Box(min(u0, u1) - across, min(v0, v1) - along, max(u0, u1) + across, max(v0, v1) + along)
    return box, nearest + radius


def _fitting(placed: Placed, number: int, look: Look, radius: float) -> Iterator[Body]:
    """A body with a round middle and an arm a mouth; an arm that looks at the eye is a round face before it."""
    u, v, near = look(placed.segments[0][0])
    role, faces, marks = drawn_as(placed), [Disc(u, v, radius)], []
    arms: list[Face] = []
    for start, end in placed.segments:
        face, nearest = _cylinder(look(start), look(end), radius)
        if isinstance(face, Box):
            arms.append(face)
            marks.append(_across(look(end), look(start), BEAD, radius))
        elif nearest > near + END_ON:
            yield Body((face,), number, nearest, role)
    yield Body((*arms, *faces), number, near + radius, role, tuple(marks))


def _pad(placed: Placed, number: int, look: Look) -> Body:
    """A square plate of its area."""
    (start, end), half = placed.segments[0], 0.5 * math.sqrt(getattr(placed.part, "figures", {})["area"])
    ends = (look(start), look(end))
    low, high = min(v for _, v, _ in ends), max(v for _, v, _ in ends)
    u, thick = ends[0][0], high - low
    if thick < END_ON:
        low, high = low - half, high + half
    return Body((Box(u - half, low, u + half, high),), number, max(near for _, _, near in ends), "pad")


def _across(start: Vector, end: Vector, share: float, radius: float) -> Edge:
    """A line across a cylinder at a share of the way along it."""
    u, v = start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])
    upright = abs(end[0] - start[0]) < abs(end[1] - start[1])
    return ((u - radius, v), (u + radius, v)) if upright else ((u, v - radius), (u, v + radius))


def _marks(placed: Placed, start: Vector, end: Vector, radius: float) -> Iterator[Edge]:
    """Lines across a straight part that tell what it is."""
    if placed.kind == "screen":
        yield from (_across(start, end, (n + 1) / (SLOTS + 1), radius) for n in range(SLOTS))
    elif placed.kind == "foot valve":
        steps = SLOTS // 2
        yield from (_across(start, end, BASKET + (1.0 - BASKET) * n / steps, radius) for n in range(steps))
    elif placed.kind == "cap":
        yield _across(start, end, BEAD, radius)


# Centre lines.


def _centres(stand: Stand, look: Look) -> Iterator[Edge]:
    """The axes of pipe and fittings, those in one line as one."""
    lines: dict[tuple[bool, float], list[float]] = {}
    for placed in stand.placed:
        if placed.role in ("ballast", "pad", "sheltered"):
            continue
        for start, end in placed.segments:
            (u0, v0, _), (u1, v1, _) = look(start), look(end)
            upright = abs(u1 - u0) < abs(v1 - v0)
            if max(abs(u1 - u0), abs(v1 - v0)) > END_ON:
                at, ends = (u0, (v0, v1)) if upright else (v0, (u0, u1))
                lines.setdefault((upright, round(at, 7)), []).extend(ends)
    for (upright, at), along in lines.items():
        low, high = min(along), max(along)
        yield ((at, low), (at, high)) if upright else ((low, at), (high, at))


# Measures.


def _heights(stand: Stand, around: Box) -> Iterator[Measure]:
    """What is measured in front: heights over the bed, or how a hanging stand hangs; and how far the line's end is."""
    top, bottom = -around.top, -around.bottom
    if stand.tips:
        bottom = 0.0
        heights = [("frame", stand.axis_height), ("entrance", stand.inlet_height), ("overall", top)]
    else:
        elbow = next((placed.middle[2] for placed in stand.placed if len(placed.segments) > 1), top)
        heights = [("elbow", elbow), ("overall", top)]
    yield from _distinct(Measure(name, (0.0, -bottom), (0.0, -height), "up", "left") for name, height in heights)
    if stand.line_end is not None:
        end = stand.placed[stand.line_end.part].mouths[stand.line_end.mouth].at
        yield Measure("line end", (0.0, -end[2]), (end[0], -end[2]), "across", "below")


def _spreads(stand: Stand) -> Iterator[Measure]:
    """What is measured in the plan: side fittings and legs from the middle, a tip by its reach, and all of it."""
    sides = [placed.middle for placed in stand.placed if placed.role == "side"]
    # The leg that takes the line has no cap: where the line takes hold is measured in front.
    tips = [placed.segments[0][1] for placed in stand.placed if placed.role == "leg" and placed.kind == "cap"]
    levels = [("spine", at[1]) for at in sides] or [("leg", tip[1]) for tip in tips]
    yield from _distinct(Measure(name, (0.0, 0.0), (0.0, -y), "up", "left") for name, y in levels)
    yield from _overall(tips, 1)
    out = {round(abs(x), 7): (x, y) for x, y, _ in tips if abs(x) > END_ON}
    yield from (Measure("leg", (0.0, -y), (x, -y), "across", "below") for _, (x, y) in sorted(out.items()))
    yield from _overall(tips, 0)
    slant = [tip for tip in tips if min(abs(tip[0]), abs(tip[1])) > END_ON]
    if slant:
        # The corner that neither the line of a wet frame nor what looks away from the shore is in.
        x, y, _ = min(slant, key=lambda tip: (tip[1], -tip[0]))
        yield Measure("reach", (0.0, 0.0), (x, -y), "slant", "through")


def _at_the_edge(measure: Measure, boxes: Sequence[Box]) -> Measure:
    """A measure from the edges of what it measures on its line's side, so that no line runs through a part."""

    def edge(at: Point) -> Point:
        if measure.side == "left":
            return min((box.left for box in boxes if _spans(box.top, at[1], box.bottom)), default=at[0]), at[1]
        return at[0], max((box.bottom for box in boxes if _spans(box.left, at[0], box.right)), default=at[1])

    if measure.side == "through":
        return measure
    return replace(measure, start=edge(measure.start), end=edge(measure.end))


def _spans(low: float, at: float, high: float) -> bool:
    return low - END_ON <= at <= high + END_ON


def _overall(tips: Sequence[Vector], axis: int) -> Iterator[Measure]:
    """From the outermost tip on one side to that on the other, each as near to the dimension's line as there is one."""
    if not tips:
        return
    low = min(tips, key=lambda tip: (tip[axis], tip[1 - axis]))
    high = min(tips, key=lambda tip: (-tip[axis], tip[1 - axis]))
    if high[axis] - low[axis] > END_ON:
        way, side = ("across", "below") if axis == 0 else ("up", "left")
        yield Measure("overall", (low[0], -low[1]), (high[0], -high[1]), way, side)


def _distinct(measures: Iterable[Measure]) -> Iterator[Measure]:
    """Each length once, nothing shorter than is drawn."""
    seen: set[tuple[float, float]] = set()
    for measure in measures:
        key = (round(measure.end[0], 5), round(measure.end[1], 5))
        if measure.value > END_ON and key not in seen:
            seen.add(key)
            yield measure
