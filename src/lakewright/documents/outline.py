"""Outlines of bodies seen from one side: what of each edge is not hidden by a nearer body.

Metres, u to the right and v down, as on paper. Everything threaded stands square, so every body is boxes and discs.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

from lakewright.documents.scene import Box, Point

Edge: TypeAlias = tuple[Point, Point]
"""A straight edge, level or upright."""
SLACK = 1e-9
"""ours: a nanometre [m]; edges that coincide are one edge."""
LEAST = 2e-5
"""ours: what is left of an edge is drawn from a fiftieth of a millimetre on [m]."""


@dataclass(frozen=True, slots=True)
class Disc:
    """A round face, or the round of a corner [m]."""

    u: float
    v: float
    radius: float

    @property
    def box(self) -> Box:
        """The square round it."""
        return Box(self.u - self.radius, self.v - self.radius, self.u + self.radius, self.v + self.radius)


@dataclass(frozen=True, slots=True)
class Arc:
    """A part of a circle, from one angle to a greater one [rad], clockwise on paper; all of it from 0 to 2 pi."""

    u: float
    v: float
    radius: float
    start: float
    end: float

    @property
    def whole(self) -> bool:
        """Whether it is the circle."""
        return self.end - self.start > math.tau - 1e-9

    @property
    def points(self) -> tuple[Point, ...]:
        """Points along it, near enough to look round."""
        steps = max(2, math.ceil((self.end - self.start) / (math.pi / 24.0)))
        angles = (self.start + (self.end - self.start) * n / steps for n in range(steps + 1))
        return tuple((self.u + self.radius * math.cos(a), self.v + self.radius * math.sin(a)) for a in angles)


Face: TypeAlias = Box | Disc


@dataclass(frozen=True, slots=True)
class Body:
    """One thing as seen: the faces it is made of, and lines on it.

    part: its number in the stand; near [m]: how far toward the eye its nearest point is; role: what it is drawn as;
    over: drawn over the others in dashes, hiding nothing, as what is inside another or strapped on it.
    """

    faces: tuple[Face, ...]
    part: int
    near: float
    role: str
    marks: tuple[Edge, ...] = ()
    over: bool = False

    @property
    def box(self) -> Box:
        """The least box round it."""
        return box_round([face.box if isinstance(face, Disc) else face for face in self.faces])


@dataclass(frozen=True, slots=True)
class Outline:
    """What is seen of the edges of a body."""

    body: Body
    edges: tuple[Edge, ...]
    arcs: tuple[Arc, ...]
    marks: tuple[Edge, ...]


def box_round(boxes: Sequence[Box]) -> Box:
    """The least box round some boxes."""
    return Box(
        min(box.left for box in boxes),
        min(box.top for box in boxes),
        max(box.right for box in boxes),
        max(box.bottom for box in boxes),
    )


def outlines(bodies: Sequence[Body]) -> list[Outline]:
    """The outlines of bodies as they hide each other, the farthest first; what is drawn over comes last."""
    order = sorted((body for body in bodies if not body.over), key=_near)
    found = [
        _outline(body, [face for nearer in order[number + 1 :] for face in nearer.faces])
        for number, body in enumerate(order)
    ]
    # What is drawn over and lies in one place is drawn once.
    over = {body.faces: body for body in reversed(bodies) if body.over}
    return found + [_outline(body, ()) for body in reversed(over.values())]


def _near(body: Body) -> float:
    return body.near


def _outline(body: Body, nearer: Sequence[Face]) -> Outline:
    edges: list[Edge] = []
    arcs: list[Arc] = []
    for number, face in enumerate(body.faces):
        # Of two faces of one body that coincide, the first is drawn.
        others = [each for n, each in enumerate(body.faces) if n != number and (each != face or n < number)]
        covers = [*nearer, *others]
        if isinstance(face, Disc):
            arcs += _arcs_left(face, covers)
        else:
            edges += [left for edge in _sides(face) for left in _edges_left(edge, covers)]
    marks = tuple(left for edge in body.marks for left in _edges_left(edge, nearer))
    return Outline(body, tuple(edges), tuple(arcs), marks)


def _sides(box: Box) -> tuple[Edge, ...]:
    corners = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
    return tuple(pairwise((*corners, corners[0])))


def _edges_left(edge: Edge, covers: Sequence[Face]) -> list[Edge]:
    """What is left of a straight edge beside faces that cover it, their rims included."""
    (u0, v0), (u1, v1) = edge
    upright = abs(u1 - u0) < abs(v1 - v0)
    at = u0 if upright else v0
    first, last = sorted((v0, v1) if upright else (u0, u1))
    spans = sorted(span for face in covers if (span := _covered(face, at, upright)) is not None)
    left, start = [], first
    for low, high in spans:
        if low > start:
            left.append((start, min(low, last)))
        start = max(start, high)
    left.append((start, last))
    kept = [(low, high) for low, high in left if high - low > LEAST]
    return [((at, low), (at, high)) if upright else ((low, at), (high, at)) for low, high in kept]


def _covered(face: Face, at: float, upright: bool) -> tuple[float, float] | None:
    """From where to where a face covers the line at a place, level or upright."""
    if isinstance(face, Disc):
        middle, off = (face.v, at - face.u) if upright else (face.u, at - face.v)
        if abs(off) >= face.radius - SLACK:
            return None
        half = math.sqrt(face.radius**2 - off * off)
        return middle - half - SLACK, middle + half + SLACK
    across = (face.left, face.right) if upright else (face.top, face.bottom)
    along = (face.top, face.bottom) if upright else (face.left, face.right)
    if not across[0] - SLACK <= at <= across[1] + SLACK:
        return None
    return along[0] - SLACK, along[1] + SLACK


def _arcs_left(disc: Disc, covers: Sequence[Face]) -> list[Arc]:
    """What is left of a circle beside faces that cover it."""
    meets = [face for face in covers if _box(face).grown(SLACK).meets(disc.box)]
    cuts = sorted({angle for face in meets for angle in _crossings(disc, face)})
    ends = [*cuts, cuts[0] + math.tau] if cuts else [0.0, math.tau]
    left = []
    for start, end in pairwise(ends):
        middle = 0.5 * (start + end)
        point = (disc.u + disc.radius * math.cos(middle), disc.v + disc.radius * math.sin(middle))
        if (end - start) * disc.radius > LEAST and not any(holds(face, point) for face in meets):
            left.append(Arc(disc.u, disc.v, disc.radius, start, end))
    return left


def _box(face: Face) -> Box:
    return face.box if isinstance(face, Disc) else face


def holds(face: Face, point: Point) -> bool:
    """Whether a point lies on a face, its rim included."""
    if isinstance(face, Disc):
        return math.hypot(point[0] - face.u, point[1] - face.v) <= face.radius + SLACK
    return face.grown(SLACK).holds_point(point)


def _crossings(disc: Disc, face: Face) -> Iterator[float]:
    """Angles from 0 to 2 pi at which a circle crosses the lines of a face's edges."""
    if isinstance(face, Disc):
        apart = math.hypot(face.u - disc.u, face.v - disc.v)
        if not abs(face.radius - disc.radius) < apart < face.radius + disc.radius:
            return
        toward = math.atan2(face.v - disc.v, face.u - disc.u)
        half = math.acos((disc.radius**2 + apart**2 - face.radius**2) / (2.0 * disc.radius * apart))
        yield from ((toward - half) % math.tau, (toward + half) % math.tau)
        return
    for off in (face.left - disc.u, face.right - disc.u):
        if abs(off) < disc.radius:
            half = math.acos(off / disc.radius)
            yield from (half, math.tau - half)
    for off in (face.top - disc.v, face.bottom - disc.v):
        if abs(off) < disc.radius:
            half = math.asin(off / disc.radius)
            yield from (half % math.tau, (math.pi - half) % math.tau)
