"""A stand as built: every part of it with its place in space, what joins what, and what it stands on.

Axes [m]: the origin on the bed under the riser's axis, z up, x toward the shore, where the line leaves, y sideways.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from lakewright.state.path import Row, ports_of
from lakewright.stock.ports import Port
from lakewright.stock.rows import FootValve, Part, Pipe, Screen

Vector: TypeAlias = tuple[float, float, float]
Segment: TypeAlias = tuple[Vector, Vector]

ROLES = ("riser", "leg", "spine", "centre", "side", "head", "sheltered", "line end", "ballast", "pad")
"""What a part of a stand is there for; sheltered is a valve inside its screen, which weighs and is not washed."""


@dataclass(frozen=True, slots=True)
class Mouth:
    """One port of a placed part: the middle of the face where the next part begins, and which way it looks out.

    Where two parts join, their mouths are one point and look at each other. A thread that goes into another part has
    its mouth on that part's face: what lies beyond is make-up.
    """

    at: Vector
    facing: Vector
    port: Port


@dataclass(frozen=True, slots=True)
class At:
    """One mouth of one part of a stand, by their numbers."""

    part: int
    mouth: int


@dataclass(frozen=True, slots=True)
class Placed:
    """One part of a stand where it stands.

    part: its row of the stock; role: one of ROLES; segments: the axes of the cylinders it fills, of a fitting one a
    mouth, from its middle outward; outside, bore [m] of those cylinders, bore 0 where it is solid or filled;
    mouths: in the order of the row's ports; length [m]: of a straight piece from end to end, with what goes into its
    neighbours, else nan; solid [m3]: its material; held [m3]: the closed room inside that holds water, or air in an
    empty line; 0 where it is drilled or open to the lake; holes: drilled in it; wet: whether suction acts in it.
    """

    part: Row
    role: str
    segments: tuple[Segment, ...]
    outside: float
    bore: float
    mouths: tuple[Mouth, ...]
    length: float
    solid: float
    held: float
    holes: int
    wet: bool

    @property
    def kind(self) -> str:
        """The kind of its row; a piece cut from pipe and threaded is pipe."""
        if isinstance(self.part, Part):
            return self.part.kind
        names: dict[type, str] = {Pipe: "pipe", FootValve: "foot valve", Screen: "screen"}
        return names[type(self.part)]

    @property
    def mass(self) -> float:
        """Its mass in air, empty [kg]."""
        return self.part.mass * (self.length if isinstance(self.part, Pipe) else 1.0)

    @property
    def middle(self) -> Vector:
        """Where the axes of a fitting meet, or the middle of a straight part."""
        start, end = self.segments[0]
        if len(self.segments) > 1:
            return start
        return (0.5 * (start[0] + end[0]), 0.5 * (start[1] + end[1]), 0.5 * (start[2] + end[2]))


@dataclass(frozen=True, slots=True)
class Stand:
    """A stand as built from the stock.

    form, size (nominal, of the frame), wet: as asked, or as a job that does not say gets it; placed: its parts;
    joins: mouths that meet; openings: mouths left open on purpose, and to what; line_end: the mouth that takes the
    suction line, none where its fittings cannot be had; axis_height [m]: of the frame's pipe over the bed;
    inlet_height [m]: of the entrance of the inlet over the bed; inlet_rise [m]: how far valve and screen reach over
    that; tips: the outer ends of the legs; beside: what else is needed, by name in stock and count (metres of what is
    sold by length); gaps: what cannot be had; notes: what was taken where nobody said.
    """

    form: str
    size: str
    wet: bool
    placed: tuple[Placed, ...]
    joins: tuple[tuple[At, At], ...]
    openings: tuple[tuple[At, str], ...]
    line_end: At | None
    axis_height: float
    inlet_height: float
    inlet_rise: float
    tips: tuple[Vector, ...]
    beside: tuple[tuple[str, float], ...]
    gaps: tuple[str, ...]
    notes: tuple[str, ...]

    @property
    def riser(self) -> float:
        """Height of the entrance of the inlet over the frame's axis, as built [m]."""
        return self.inlet_height - self.axis_height

    @property
    def footprint(self) -> float:
        """Distance from under the riser to the nearest edge it can tip over [m]; 0 where it stands on no legs."""
        return footprint_of(self.tips)

    @property
    def water_held(self) -> float:
        """Water of the suction path inside the stand [m3], wet legs and riser: part of what is primed and brought up."""
        return math.fsum(each.held for each in self.placed if each.wet)

    @property
    def unmet(self) -> tuple[At, ...]:
        """Mouths that nothing meets and nobody left open."""
        taken = {at for pair in self.joins for at in pair} | {at for at, _ in self.openings}
        every = (At(n, m) for n, placed in enumerate(self.placed) for m in range(len(placed.mouths)))
        return tuple(at for at in every if at not in taken)


def footprint_of(tips: tuple[Vector, ...]) -> float:
    """Distance from the axis to the nearest chord of the hull of the tips [m]; negative where the axis is outside.

    n legs of one reach R, evenly spread, give R cos(pi/n).

    >>> square = tuple((0.4 * x, 0.4 * y, 0.0) for x, y in ((1, 0), (0, 1), (-1, 0), (0, -1)))
    >>> round(footprint_of(square), 5)
    0.28284
    """
    points = np.unique(np.round(np.array(tips)[:, :2], 9), axis=0) if tips else np.empty((0, 2))
    if len(points) < 3:
        return 0.0
    around = np.arctan2(*(points - points.mean(axis=0)).T[::-1])
    edge = points[np.argsort(around)]
    along = np.roll(edge, -1, axis=0) - edge
    # Chords of the hull have every other tip on their left; a tip inside the hull starts or ends none of them.
    chords = [(a, b) for a in edge for b in edge if (a != b).any() and bool((_turn(a, b, edge) >= -1e-12).all())]
    if not chords or not (np.abs(along) > 0.0).any():
        return 0.0
    return min(float(_turn(a, b, np.zeros((1, 2)))[0] / math.hypot(*(b - a))) for a, b in chords)


def _turn(a: np.ndarray, b: np.ndarray, points: np.ndarray) -> np.ndarray:  # type: ignore[type-arg]
    """Twice the area of the triangle of a chord and each point, above 0 where the point is on its left."""
    along, to = b - a, points - a
    return np.asarray(along[0] * to[:, 1] - along[1] * to[:, 0])


def parts_of(stand: Stand) -> dict[str, float]:
    """The parts of a stand by name in stock: pieces, or metres of what is sold by length."""
    counts: dict[str, float] = {}
    for placed in stand.placed:
        amount = placed.length if isinstance(placed.part, Pipe) else 1.0
        counts[placed.part.name] = counts.get(placed.part.name, 0.0) + amount
    for name, count in stand.beside:
        counts[name] = counts.get(name, 0.0) + count
    return counts


def ports_placed(part: Row) -> tuple[Port, ...]:
    """The ports of a part as it is placed: a piece cut from plastic pipe is threaded at both ends."""
    if isinstance(part, Pipe):
        return (Port(part.size, "NPT", "thread out"),) * 2
    return ports_of(part)
