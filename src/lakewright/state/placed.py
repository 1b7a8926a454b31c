"""A stand as built: every part of it with its place in space, what joins what, and what it stands on.

Axes [m]: the origin on the bed under the riser's axis, z up, x toward the shore, where the line leaves, y sideways.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypeAlias

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
        """Water of the suction path inside the stand [m3], wet legs and riser: to be primed and set moving."""
        return math.fsum(each.held for each in self.placed if each.wet)

    @property
    def unmet(self) -> tuple[At, ...]:
        """Mouths that nothing meets and nobody left open."""
        taken = {at for pair in self.joins for at in pair} | {at for at, _ in self.openings}
        every = (At(n, m) for n, placed in enumerate(self.placed) for m in range(len(placed.mouths)))
        return tuple(at for at in every if at not in taken)


def footprint_of(tips: tuple[Vector, ...]) -> float:
    """Distance from the axis to the nearest chord of the hull of the tips [m]; negative where the axis is outside.

    n legs of one reach R, evenly spread, give R cos(pi/n); fewer than three tips have no hull, and give 0.

    >>> square = tuple((0.4 * x, 0.4 * y, 0.0) for x, y in ((1, 0), (0, 1), (-1, 0), (0, -1)))
    >>> round(footprint_of(square), 5)
    0.28284
    """
    points = sorted({(round(x, 9), round(y, 9)) for x, y, _ in tips})
    # A chord of the hull has every tip on its left, or on it.
    chords = [
        (a, b) for a in points for b in points if a != b and all(_left(a, b, point) >= -1e-12 for point in points)
    ]
    if len(points) < 3 or not chords:
        return 0.0
    return min(_left(a, b, (0.0, 0.0)) / math.dist(a, b) for a, b in chords)


def _left(a: tuple[float, float], b: tuple[float, float], point: tuple[float, float]) -> float:
    """Twice the area of the triangle of a chord and a point, above 0 where the point is on its left."""
    return (b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0])


def moved(point: Vector, facing: Vector, distance: float) -> Vector:
    """The point a distance [m] away in a direction."""
    return (point[0] + distance * facing[0], point[1] + distance * facing[1], point[2] + distance * facing[2])


def back(facing: Vector) -> Vector:
    """The opposite direction."""
    return (-facing[0], -facing[1], -facing[2])


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
