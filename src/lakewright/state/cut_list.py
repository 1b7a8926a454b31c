"""What is cut, drilled, taped and carried to build a stand."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass, replace

from lakewright.state.bill_extras import CLAMPS_A_BARB
from lakewright.state.placed import At, Placed, Stand
from lakewright.stock.joints import engagement
from lakewright.stock.load import Stock
from lakewright.stock.measure import POUND
from lakewright.stock.rows import Pipe

STRAIGHT = ("nipple", "pipe", "blind nipple")
TAPE_TURNS = 3
"""common practice, no source: turns of tape on a plastic thread."""
MOST_MASS = 50.0 * POUND
"""common practice, no source: frames are shipped in pieces under 50 lb."""
WATER = 1000.0
"""ours: fresh water [kg/m3], to a thousandth what a cold lake holds."""


@dataclass(frozen=True, slots=True)
class CutPiece:
    """A straight piece of pipe between two fittings, and how many alike there are.

    what: its name in stock; cut: whether it is cut from pipe and threaded, else it is bought as it is; between: the
    kinds of its neighbours, nothing at an open end; centre_to_centre [m]: from the middle of one to that of the other,
    of a part with no middle from its face; centre_to_mouth, make_up [m]: at each end; length [m]: from end to end;
    holes: to be drilled.
    """

    role: str
    what: str
    size: str
    cut: bool
    between: tuple[str, str]
    centre_to_centre: float
    centre_to_mouth: tuple[float, float]
    make_up: tuple[float, float]
    length: float
    holes: int
    count: int = 1


@dataclass(frozen=True, slots=True)
class Bundle:
    """Parts of a stand that are carried together: by number, and what they weigh [kg] empty and full of water."""

    what: str
    parts: tuple[int, ...]
    dry: float
    wet: float


@dataclass(frozen=True, slots=True)
class Making:
    """What it takes to put a stand together.

    pieces: of pipe; fittings: how many of each kind; threads: made up, and each male one taped with so many turns;
    clamps: on barbs and shanks; holes: drilled in all; caps.
    """

    pieces: tuple[CutPiece, ...]
    fittings: dict[str, int]
    threads: int
    tape_turns: int
    clamps: int
    holes: int
    caps: int


def making_of(stand: Stand, stock: Stock) -> Making:
    """What it takes to put a stand together."""
    fittings = Counter(each.kind for each in stand.placed if each.mouths and each.kind not in STRAIGHT)
    threads = sum("thread" in stand.placed[one.part].mouths[one.mouth].port.kind for one, _ in stand.joins)
    open_ends = [stand.placed[at.part].mouths[at.mouth].port for at, _ in stand.openings]
    return Making(
        pieces=cut_list(stand, stock),
        fittings=dict(fittings),
        threads=threads,
        tape_turns=TAPE_TURNS * threads,
        clamps=CLAMPS_A_BARB * sum(port.kind in ("barb", "hose") for port in open_ends),
        holes=sum(each.holes for each in stand.placed),
        caps=fittings["cap"],
    )


def cut_list(stand: Stand, stock: Stock) -> tuple[CutPiece, ...]:
    """The pieces of pipe of a stand, alike ones counted together, in the order they are put down.

    Cut length = centre to centre - both centre to mouth + both make-ups.
    """
    met = {one: other for pair in stand.joins for one, other in (pair, pair[::-1])}
    counts: dict[CutPiece, int] = {}
    for number, placed in enumerate(stand.placed):
        if placed.kind in STRAIGHT:
            ends = [met.get(At(number, mouth)) for mouth in (0, 1)]
            piece = _piece(stand, stock, placed, ends)
            counts[piece] = counts.get(piece, 0) + 1
    return tuple(replace(piece, count=count) for piece, count in counts.items())


def _piece(stand: Stand, stock: Stock, placed: Placed, ends: list[At | None]) -> CutPiece:
    sides = [(_neighbour(stand, end), mouth) for end, mouth in zip(ends, placed.mouths, strict=True)]
    middles = [mouth.at if side is None else _middle(side, mouth.at) for side, mouth in sides]
    reaches = [math.dist(middle, mouth.at) for middle, mouth in zip(middles, placed.mouths, strict=True)]
    taken = [engagement(stock, mouth.port) for mouth in placed.mouths]
    kinds = ["" if side is None else side.kind for side, _ in sides]
    return CutPiece(
        role=placed.role,
        what=placed.part.name,
        size=placed.part.size if hasattr(placed.part, "size") else "",
        cut=isinstance(placed.part, Pipe),
        between=(kinds[0], kinds[1]),
        centre_to_centre=_tidy(math.dist(*middles)),
        centre_to_mouth=(_tidy(reaches[0]), _tidy(reaches[1])),
        make_up=(taken[0], taken[1]),
        length=_tidy(placed.length),
        holes=placed.holes,
    )


def _neighbour(stand: Stand, end: At | None) -> Placed | None:
    return None if end is None else stand.placed[end.part]


def _middle(placed: Placed, face: tuple[float, float, float]) -> tuple[float, float, float]:
    """The middle of a fitting or a coupling; of what has none the face."""
    return placed.middle if len(placed.segments) > 1 or placed.kind == "coupling" else face


def _tidy(length: float) -> float:
    """To a nanometre, so that pieces alike are found to be."""
    return round(length, 9)


def knocked_down(stand: Stand) -> tuple[Bundle, ...]:
    """A stand in pieces under 50 lb: each side of the frame, the middle with riser and head, each piece of ballast."""
    groups: dict[str, list[int]] = {}
    for number, placed in enumerate(stand.placed):
        groups.setdefault(_carried_with(placed, number), []).append(number)
    whole = [_bundle(stand, what, numbers) for what, numbers in groups.items()]
    return tuple(part for bundle in whole for part in _halved(stand, bundle))


def _carried_with(placed: Placed, number: int) -> str:
    if placed.role == "ballast":
        return f"ballast {number}"
    if placed.role in ("leg", "spine", "side", "pad"):
        level = max((end for segment in placed.segments for end in segment), key=lambda end: abs(end[1]))[1]
        return "left side" if level > 0.0 else "right side"
    return "middle"


def _bundle(stand: Stand, what: str, numbers: list[int]) -> Bundle:
    dry = math.fsum(stand.placed[n].mass for n in numbers)
    held = math.fsum(stand.placed[n].held for n in numbers)
    name = stand.placed[numbers[0]].part.name if what.startswith("ballast") else what
    return Bundle(name, tuple(numbers), dry, dry + WATER * held)


def _halved(stand: Stand, bundle: Bundle) -> tuple[Bundle, ...]:
    """A bundle in as many parts as it takes to be light enough."""
    if bundle.dry < MOST_MASS or len(bundle.parts) == 1:
        return (bundle,)
    middle = len(bundle.parts) // 2
    halves = (bundle.parts[:middle], bundle.parts[middle:])
    return tuple(part for half in halves for part in _halved(stand, _bundle(stand, bundle.what, list(half))))
