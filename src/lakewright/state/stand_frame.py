"""The frame of a stand: legs from tees and crosses, since nothing threaded has five mouths in one plane."""

from __future__ import annotations

import math

from lakewright.job.models import Job
from lakewright.state.placed import At, Vector
from lakewright.state.stand_build import ASHORE, DOWN, LEFT, OUT, RIGHT, UP, Building
from lakewright.stock.measure import INCH

HOLES = 2
"""ours: one hole through both walls of the pipe, 1/4 in: the lower drains it, the upper lets the air out."""
HOLE = 0.25 * INCH
"""ours"""
MOST_LEGS = 6
_SPREAD = {
    (1, 1): (1.0, 1.0),
    (2, 1): (math.cos(math.pi / 3.0), 1.0),
    (2, 2): (math.cos(math.pi / 4.0), math.cos(math.pi / 4.0)),
    (3, 2): (math.sin(math.pi / 10.0), math.sin(0.3 * math.pi)),
    (3, 3): (math.cos(math.pi / 3.0), math.cos(math.pi / 3.0)),
}
"""ours: how far out the two side fittings stand, as a share of the reach, so that the tips stand round in a ring."""


def lay_frame(building: Building, legs: int, reach: float, wet: bool, height: float) -> tuple[At, At | None]:
    """Lay the frame, its centre tee over the origin, legs left and right of it.

    Parameters
    ----------
    legs : 1 to 6: side by side a straight one, a tee with two or a cross with three
    reach : [m] level from the riser's axis to the tip of a leg
    wet : whether it is part of the suction path; else it is drilled to flood
    height : [m] of its axis over the bed

    Returns
    -------
    the mouth of the centre tee that looks up, and where it is wet the end of the leg that takes the line
    """
    centre = building.fitting(building.part("tee"), "centre", wet, (LEFT, RIGHT, UP), (0.0, 0.0, height))
    sides = (legs - legs // 2, legs // 2)
    spread = _SPREAD.get(sides, (1.0, 1.0))
    line: At | None = None
    for number, (count, share) in enumerate(zip(sides, spread, strict=True)):
        at, takes_line = At(centre, number), wet and number == 0
        outward = (LEFT, RIGHT)[number]
        if count == 0:
            building.straight(at, building.part("plug"), "centre", wet)
        elif count == 1:
            end = _leg(building, at, reach, wet, takes_line)
            line = line or end
        else:
            end = _side(building, at, outward, count, reach, share * reach, wet, takes_line)
            line = line or end
    return At(centre, 2), line


def _side(
    building: Building, at: At, outward: Vector, count: int, reach: float, out: float, wet: bool, takes_line: bool
) -> At | None:
    """A spine to a tee or cross, and the legs on it; the shoreward one takes the line."""
    kind = "tee" if count == 2 else "cross"
    part = building.part(kind)
    inward = (0.0, -outward[1], 0.0)
    first = len(building.placed)
    at = building.run(at, "spine", wet, out - 2.0 * part.length)
    if not wet:
        building.drill(first, HOLES)
    looks = (ASHORE, OUT, inward, outward)[: len(part.ports)]
    number = building.fitting(part, "side", wet, looks, at, enters=2)
    level = abs(building.placed[number].middle[1])
    along = math.sqrt(max(reach * reach - level * level, 0.0))
    line = _leg(building, At(number, 0), along - part.length, wet, takes_line, part.length)
    _leg(building, At(number, 1), along - part.length, wet, False, part.length)
    if count == 3:
        _leg(building, At(number, 3), reach - level - part.length, wet, False, part.length)
    return line


def _leg(
    building: Building, at: At, distance: float, wet: bool, takes_line: bool, centre_to_mouth: float | None = None
) -> At | None:
    """A leg with a cap, or with its end left for the line; `distance` [m] from the fitting's face to the tip.

    Where `centre_to_mouth` is not given it is counted from the fitting's middle.
    """
    cap = building.part("cap")
    if centre_to_mouth is None:
        distance -= building.part("tee").length
    first = len(building.placed)
    end = building.run(at, "leg", wet, distance - cap.length)
    if not wet:
        building.drill(first, HOLES)
    if takes_line:
        return end
    building.straight(end, cap, "leg", wet)
    return None


def tips_of(building: Building, line: At | None) -> tuple[Vector, ...]:
    """The outer ends of the legs; the leg that takes the line bears as far out as if it had a cap."""
    caps = [each.segments[0][1] for each in building.placed if each.role == "leg" and each.kind == "cap"]
    if line is None:
        return tuple(caps)
    mouth, cap = building.mouth(line), building.part("cap").length
    at = (mouth.at[0] + cap * mouth.facing[0], mouth.at[1] + cap * mouth.facing[1], mouth.at[2])
    return (at, *caps)


def lay_suction_tee(building: Building, at: At, level: bool) -> tuple[At, At]:
    """A tee on the centre tee of a dry frame, with a solid nipple between; gives its mouths for riser and line.

    Upright it takes the line on its branch; level, as a low stand has it, the water runs straight through.
    """
    at = building.straight(at, building.part("blind nipple"), "centre", False)
    tee = building.part("tee")
    if level:
        number = building.fitting(tee, "centre", True, (OUT, ASHORE, DOWN), at, enters=2)
        return At(number, 0), At(number, 1)
    number = building.fitting(tee, "centre", True, (DOWN, UP, ASHORE), at)
    return At(number, 1), At(number, 2)


def kinds_wanted(legs: int, wet: bool) -> tuple[str, ...]:
    """The kinds of part a frame on legs is made of, in its own size."""
    kinds = ["tee", "cap", "coupling", "elbow"]
    kinds += ["cross"] if legs > 4 else ["plug"] if legs == 1 else []
    return tuple(kinds if wet else [*kinds, "blind nipple"])


def usual_size(job: Job, valve_size: str) -> str:
    """Nominal size of the frame: as the job says, else that of the foot valve or the line."""
    said = (job.stand.frame or "").strip().strip('"').removesuffix("in").strip()
    return valve_size if said in ("", "open") else said
