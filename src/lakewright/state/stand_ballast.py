"""What keeps a stand where it is: ballast in whole pieces, mud pads, stakes, straps, a tether."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping, Sequence

from lakewright.state.placed import Placed, Vector
from lakewright.state.stand_build import Building
from lakewright.stock.load import Stock
from lakewright.stock.measure import FOOT, INCH
from lakewright.stock.rows import Part

FAMILIES: Mapping[str, str] = {
    r"sealed|capped|pipe": "sealed pipe",
    r"angle": "angle",
    r"\bbars?\b|\brods?\b|rebar": "bar",
    r"flat|strip": "flat",
    r"block": "solid block",
    r"paver|concrete|stone": "paver",
    r"bag|sand": "bag",
    r"plate|cast iron": "plate",
    r"steel|iron": "angle",
}
"""ours: words in which ballast is asked for, and the series of the stock they mean; the first that is found."""
STRAPS_A_PIECE = 2
"""ours: one at each end."""
MOST_PIECES_A_LEG = 12
"""ours: more on a leg is another kind of ballast."""
SPARE_ROPE = 10.0 * FOOT
"""ours: for knots at both ends."""


def ballast_pieces(stock: Stock, what: str | None, mass: float, legs: int) -> tuple[Part, int] | None:
    """The piece of ballast that makes up a mass in whole pieces, as many on each leg, and how many in all.

    Parameters
    ----------
    what : a name in stock, or words such as "steel angle"; none given is steel angle
    mass : [kg] in air, at least
    legs : each takes as many

    Returns
    -------
    piece and count, of those that suit the least mass over, then the fewest pieces; None where nothing in stock does
    """
    wanted = (what or "steel angle").strip()
    rows = stock.parts_of("ballast")
    named = [part for part in rows if part.name == wanted]
    series = next((series for words, series in FAMILIES.items() if re.search(words, wanted.casefold())), None)
    choices = named or [part for part in rows if part.series == series]
    counted = [(part, legs * max(1, math.ceil(mass / (legs * part.mass) - 1e-9))) for part in choices]
    fit = [(part, count) for part, count in counted if count <= legs * MOST_PIECES_A_LEG]
    return min(fit, key=lambda each: (round(each[0].mass * each[1], 3), each[1], each[0].name), default=None)


def ballast_on(placed: Sequence[Placed], tips: tuple[Vector, ...], piece: Part, count: int) -> Iterator[Placed]:
    """Whole pieces strapped along the legs, from the tip inward, one after the other and then over the first."""
    for tip in tips:
        reach = math.hypot(tip[0], tip[1])
        start, along = _leg_at(placed, tip)
        room = max(int(reach / (2.0 * piece.length)), 1)
        for number in range(count // len(tips)):
            out = (number % room) * piece.length
            ends = [(start[0] - along[0] * d, start[1] - along[1] * d, start[2]) for d in (out, out + piece.length)]
            width, solid = piece.figures["width"], piece.figures["volume"]
            yield Placed(piece, "ballast", ((ends[0], ends[1]),), width, 0.0, (), piece.length, solid, 0.0, 0, False)


def _leg_at(placed: Sequence[Placed], tip: Vector) -> tuple[Vector, Vector]:
    """The tip of a leg, and which way it looks."""
    legs = [each for each in placed if each.role == "leg"]
    nearest = min(legs, key=lambda each: math.dist(each.segments[0][1], tip))
    start, end = nearest.segments[0]
    length = math.dist(start, end)
    return tip, ((end[0] - start[0]) / length, (end[1] - start[1]) / length, 0.0)


def pad_for(stock: Stock, width: float) -> Part | None:
    """The mud pad of a width [m], or the next wider."""
    wide = [pad for pad in stock.parts_of("mud pad") if math.sqrt(pad.figures["area"]) >= width - 0.1 * INCH]
    return min(wide, key=lambda pad: (pad.price, pad.name), default=None)


def lay_pads(building: Building, tips: tuple[Vector, ...], pad: Part) -> None:
    """Lay a pad flat on the bed under every tip, as a round plate of its area."""
    area, thickness = pad.figures["area"], pad.figures["thickness"]
    across, solid = math.sqrt(4.0 * area / math.pi), area * thickness
    for x, y, _ in tips:
        axis = ((x, y, 0.0), (x, y, thickness))
        building.lump(Placed(pad, "pad", (axis,), across, 0.0, (), thickness, solid, 0.0, 0, False))


def beside(stock: Stock, pieces: int, pins: int, tether: float) -> tuple[tuple[str, float], ...]:
    """Straps for pieces of ballast, stakes, and rope for a tether of a length [m]; by name in stock and count."""
    wanted = (("strap", float(STRAPS_A_PIECE * pieces)), ("stake", float(pins)))
    found = [(cheapest(stock, kind), count) for kind, count in wanted if count]
    if tether > 0.0:
        found.append((cheapest(stock, "haul rope"), FOOT * math.ceil((tether + SPARE_ROPE) / FOOT - 1e-9)))
    return tuple((part.name, count) for part, count in found if part is not None)


def cheapest(stock: Stock, kind: str) -> Part | None:
    """The cheapest part of a kind."""
    return min(stock.parts_of(kind), key=lambda part: (part.price, part.name), default=None)
