"""Puts parts together in space, mouth to mouth."""

from __future__ import annotations

import functools
import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from lakewright.state.path import Row, usual_part
from lakewright.state.placed import At, Mouth, Placed, Vector, back, moved, ports_placed
from lakewright.state.runs import SIZES_OF_FRAMES, Run, run_of
from lakewright.stock.joints import engagement, joint, oriented
from lakewright.stock.load import Stock
from lakewright.stock.materials import density_of
from lakewright.stock.ports import Port
from lakewright.stock.rows import Part, Pipe
from lakewright.stock.table import NOMINAL

UP, DOWN = (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)
ASHORE, OUT = (1.0, 0.0, 0.0), (-1.0, 0.0, 0.0)
LEFT, RIGHT = (0.0, 1.0, 0.0), (0.0, -1.0, 0.0)
GOES_IN = ("thread out", "barb", "hose")
"""Kinds of port that go into what they join; of the others, what they join goes into them."""
BODY_OVER_WALL = 1.25
"""memory: the body of a threaded schedule 80 fitting is a quarter thicker than the wall of its pipe (ASTM D2464)."""


@functools.lru_cache(maxsize=64)
def pipe_of(stock: Stock, size: str) -> Pipe:
    """The pipe that a frame of a size is made of."""
    return stock.pipe(f"PVC, {SIZES_OF_FRAMES}, {size} in")


def fitting_outside(stock: Stock, size: str) -> float:
    """Outside of a threaded fitting of a size [m]: its pipe's, and a body round it."""
    pipe = pipe_of(stock, size)
    return pipe.outside + 2.0 * BODY_OVER_WALL * pipe.wall


def straight_length(stock: Stock, part: Row, length: float) -> float:
    """How far a straight part of a length [m] carries on from the face it starts at to the face of the next [m]."""
    return length - sum(engagement(stock, port) for port in ports_placed(part) if port.kind in GOES_IN)


@dataclass
class Building:
    """A stand under way. Each method puts down one part, or some in a row, and gives the mouth where it goes on."""

    stock: Stock
    size: str
    placed: list[Placed] = field(default_factory=list)
    joins: list[tuple[At, At]] = field(default_factory=list)
    openings: list[tuple[At, str]] = field(default_factory=list)
    gaps: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    def mouth(self, at: At) -> Mouth:
        """The mouth at a place."""
        return self.placed[at.part].mouths[at.mouth]

    def part(self, kind: str) -> Part:
        """The part of a kind a shop would take, in the frame's size; `lacking` has seen to it that there is one."""
        found = usual_part(self.stock, kind, self.size)
        assert found is not None, kind
        return found

    def fitting(
        self, part: Part, role: str, wet: bool, facings: Sequence[Vector], at: At | Vector, enters: int = 0
    ) -> int:
        """Put down a fitting with its middle at a point, or one of its mouths at a mouth, and give its number.

        `facings`: which way each of its mouths looks.
        """
        middle = self._beyond(at, part.length) if isinstance(at, At) else at
        tips = [moved(middle, facing, part.length) for facing in facings]
        inside = sum(part.length - make_up for make_up in part.make_up)
        bore = pipe_of(self.stock, self.size).bore
        mouths = tuple(Mouth(tip, way, port) for tip, way, port in zip(tips, facings, part.ports, strict=True))
        placed = Placed(
            part, role, tuple((middle, tip) for tip in tips), fitting_outside(self.stock, self.size), bore, mouths,
            math.nan, part.mass / density_of(part.material), circle(bore) * inside if wet else 0.0, 0, wet,
        )  # fmt: skip
        return self._put(placed, at if isinstance(at, At) else None, enters)

    def straight(
        self, at: At, part: Part | Pipe, role: str, wet: bool, length: float = math.nan, enters: int = 0
    ) -> At:
        """Put down a straight part on a mouth, and give the mouth at its other end; a cap or a plug has none."""
        length = part.length if isinstance(part, Part) else length
        ports, start, facing = ports_placed(part), self.mouth(at).at, self.mouth(at).facing
        end = moved(start, facing, straight_length(self.stock, part, length))
        ends = (start, end) if enters == 0 else (end, start)
        looks = (back(facing), facing) if enters == 0 else (facing, back(facing))
        outside, bore, solid, held = self._tube(part, length)
        placed = Placed(
            part, role, ((start, end),), outside, bore,
            tuple(Mouth(p, f, port) for p, f, port in zip(ends, looks, ports, strict=False)),
            length, solid, held if wet else 0.0, 0, wet,
        )  # fmt: skip
        return At(self._put(placed, at, enters), 1 - enters)

    def run(self, at: At, role: str, wet: bool, distance: float, at_least: bool = False) -> At:
        """Put down nipples and couplings that span a distance [m] from face to face, the longest first."""
        run = self.span(distance, at_least)
        for number, (piece, length) in enumerate(run.pieces):
            if number and run.coupling is not None:
                at = self.straight(at, run.coupling, role, wet)
            at = self.straight(at, piece, role, wet, length)
        return at

    def span(self, distance: float, at_least: bool = False) -> Run:
        """The run for a distance; `lacking` has seen to it that there is one."""
        run = run_of(self.stock, self.size, distance, at_least)
        assert run is not None, distance
        return run

    def between(self, at: At, port: Port, preferred: tuple[str, ...]) -> tuple[Part, ...] | None:
        """The fittings from a mouth to a port, none to two; None where none in stock join them."""
        found = joint(self.stock, self.mouth(at).port, port, preferred)
        return None if found is None else found.parts

    def row(self, at: At, parts: tuple[Part, ...], role: str, wet: bool) -> At:
        """Put down straight parts one after the other."""
        for part, (enters, _) in zip(parts, oriented(parts, self.mouth(at).port), strict=True):
            at = self.straight(at, part, role, wet, enters=enters)
        return at

    def lump(self, placed: Placed, at: At | None = None) -> int:
        """Put down a part that is not threaded pipe or fitting, on a mouth where it has one."""
        return self._put(placed, at, 0)

    def drill(self, first: int, holes: int) -> None:
        """Drill the longest piece of pipe put down since a number."""
        pieces = [n for n in range(first, len(self.placed)) if self.placed[n].kind in ("nipple", "pipe")]
        longest = max(pieces, key=lambda n: self.placed[n].length)
        self.placed[longest] = replace(self.placed[longest], holes=holes)

    def _put(self, placed: Placed, at: At | None, enters: int) -> int:
        self.placed.append(placed)
        number = len(self.placed) - 1
        if at is not None:
            self.joins.append((at, At(number, enters)))
        return number

    def _beyond(self, at: At, distance: float) -> Vector:
        return moved(self.mouth(at).at, self.mouth(at).facing, distance)

    def _tube(self, part: Part | Pipe, length: float) -> tuple[float, float, float, float]:
        """Outside, bore, volume of material and room inside of a straight part."""
        widest = max((port.size for port in ports_placed(part)), key=NOMINAL.__getitem__)
        pipe = pipe_of(self.stock, widest)
        if isinstance(part, Pipe) or (part.kind == "nipple" and part.material == "PVC"):
            bore = circle(pipe.bore)
            return pipe.outside, pipe.bore, (circle(pipe.outside) - bore) * length, bore * length
        if part.kind == "blind nipple":
            return pipe.outside, 0.0, circle(pipe.outside) * length, 0.0
        outside = pipe.outside if part.kind in ("nipple", "reducing nipple") else fitting_outside(self.stock, widest)
        taken = sum(m for m, port in zip(part.make_up, part.ports, strict=True) if port.kind != "thread out")
        inside = max(length - taken, 0.0) if len(part.ports) > 1 else 0.0
        return outside, part.bore, part.mass / density_of(part.material), circle(part.bore) * inside


def circle(width: float) -> float:
    """Area of a circle [m2]."""
    return 0.25 * math.pi * width * width
