"""Outlines as bodies hide each other, held against every rim walked point by point."""

from __future__ import annotations

import math
import random
from collections.abc import Iterator

import pytest

from lakewright.documents.outline import Arc, Body, Disc, Face, outlines
from lakewright.documents.scene import Box, Point


def drawn_bodies(seed: int) -> list[Body]:
    rng = random.Random(f"bodies {seed}")

    def face() -> Face:
        u, v = rng.uniform(-1.0, 1.0), rng.uniform(-1.0, 1.0)
        if rng.random() < 0.5:
            return Disc(u, v, rng.uniform(0.1, 0.6))
        return Box(u, v, u + rng.uniform(0.1, 1.0), v + rng.uniform(0.1, 1.0))

    return [Body(tuple(face() for _ in range(rng.randint(1, 3))), n, rng.random(), "pipe") for n in range(6)]


def rim(face: Face, steps: int = 97) -> Iterator[Point]:
    for n in range(steps):
        share = (n + 0.37) / steps
        if isinstance(face, Disc):
            yield face.u + face.radius * math.cos(math.tau * share), face.v + face.radius * math.sin(math.tau * share)
        else:
            yield face.left + share * face.width, face.top
            yield face.left + share * face.width, face.bottom
            yield face.left, face.top + share * face.height
            yield face.right, face.top + share * face.height


def depth_inside(face: Face, point: Point) -> float:
    """How far inside a face a point is; below 0 outside."""
    if isinstance(face, Disc):
        return face.radius - math.dist(point, (face.u, face.v))
    return min(point[0] - face.left, face.right - point[0], point[1] - face.top, face.bottom - point[1])


def drawn_at(edges: tuple[tuple[Point, Point], ...], arcs: tuple[Arc, ...], point: Point, near: float = 1e-6) -> bool:
    for (u0, v0), (u1, v1) in edges:
        along = min(u0, u1) - near <= point[0] <= max(u0, u1) + near
        if along and min(v0, v1) - near <= point[1] <= max(v0, v1) + near:
            return True
    for arc in arcs:
        angle = math.atan2(point[1] - arc.v, point[0] - arc.u)
        on_circle = abs(math.dist(point, (arc.u, arc.v)) - arc.radius) < near
        if on_circle and (angle - arc.start) % math.tau <= arc.end - arc.start + near:
            return True
    return False


@pytest.mark.law
@pytest.mark.parametrize("seed", range(20))
def test_a_point_of_a_rim_is_drawn_where_nothing_of_its_own_or_nearer_covers_it(seed: int) -> None:
    found = outlines(drawn_bodies(seed))
    bodies = [outline.body for outline in found]
    walked = 0
    for number, outline in enumerate(found):
        for at, face in enumerate(outline.body.faces):
            own = [other for n, other in enumerate(outline.body.faces) if n != at]
            covers = [*own, *(each for body in bodies[number + 1 :] for each in body.faces)]
            for point in rim(face):
                deepest = max((depth_inside(cover, point) for cover in covers), default=-1.0)
                if abs(deepest) > 1e-4:
                    walked += 1
                    assert drawn_at(outline.edges, outline.arcs, point) == (deepest < 0.0), (number, face, point)
    assert walked > 1000


def test_an_elbow_is_two_arms_and_a_round_corner() -> None:
    arms = (Box(-0.02, -0.1, 0.02, 0.0), Box(0.0, -0.02, 0.1, 0.02))
    (elbow,) = outlines([Body((*arms, Disc(0.0, 0.0, 0.02)), 0, 0.0, "fitting")])
    (corner,) = elbow.arcs
    assert (round(corner.start, 9), round(corner.end, 9)) == (round(0.5 * math.pi, 9), round(math.pi, 9))
    lengths = sorted(round(math.dist(*edge), 6) for edge in elbow.edges)
    # Both mouths, both inner sides from where the arms part, both outer sides.
    assert lengths == [0.04, 0.04, 0.08, 0.08, 0.1, 0.1]


def test_of_two_that_lie_one_behind_the_other_one_is_drawn() -> None:
    box = Box(0.0, 0.0, 1.0, 0.1)
    far, near = outlines([Body((box,), 0, 0.0, "pipe"), Body((box,), 1, 1.0, "pipe")])
    assert (far.edges, len(near.edges)) == ((), 4)


def test_what_is_drawn_over_hides_nothing_and_comes_last() -> None:
    box = Box(0.0, 0.0, 1.0, 0.1)
    over = Body((box.grown(0.1),), 1, 1.0, "ballast", over=True)
    under, *rest = outlines([over, over, Body((box,), 0, 0.0, "pipe")])
    assert len(under.edges) == 4
    assert [each.body for each in rest] == [over]
