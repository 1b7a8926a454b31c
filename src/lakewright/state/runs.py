"""Straight runs of threaded pipe between two fittings: standard nipples where they do, else a piece cut to length."""

from __future__ import annotations

import functools
import itertools
from collections.abc import Iterator
from dataclasses import dataclass

from lakewright.state.path import BY_THE_WATER, is_threaded, usual_part
from lakewright.stock.joints import engagement
from lakewright.stock.load import Stock
from lakewright.stock.measure import INCH
from lakewright.stock.ports import Port
from lakewright.stock.rows import Part, Pipe

NO_SHORTER = INCH / 16.0
"""ours: a sixteenth of an inch short is no shorter."""
MOST_OVER = 2.05 * INCH
"""ours: standard nipples step by 2 in; what misses by more is cut from pipe and threaded."""
MOST_NIPPLES = 4
"""ours: more than four in a row is a length of pipe, cut and threaded: fewer joints to seal."""
SIZES_OF_FRAMES = "schedule 80"
"""common practice, no source: what is threaded is schedule 80."""


@dataclass(frozen=True, slots=True)
class Run:
    """Nipples with a coupling between each two, or one piece cut from pipe and threaded.

    nipples: standard ones; pipe, cut [m]: what is cut and how long, where there are none; coupling: between two;
    distance [m]: from the face of one fitting to the face of the next, as it comes out.
    """

    nipples: tuple[Part, ...]
    pipe: Pipe | None
    cut: float
    coupling: Part | None
    distance: float

    @property
    def pieces(self) -> tuple[tuple[Part | Pipe, float], ...]:
        """Each piece and its length from end to end [m]."""
        if self.pipe is not None:
            return ((self.pipe, self.cut),)
        return tuple((nipple, nipple.length) for nipple in self.nipples)


@functools.lru_cache(maxsize=1 << 12)
def run_of(stock: Stock, size: str, distance: float, at_least: bool = False) -> Run | None:
    """The run that spans a distance from face to face.

    Parameters
    ----------
    stock : what can be had
    size : nominal size
    distance : [m] from the face of one fitting to the face of the next; the shortest nipple where it is less
    at_least : whether it must reach; else the nearest will do

    Returns
    -------
    Run of the fewest standard nipples, then of those nearest to the distance; a piece cut and threaded where none
    comes within 2 in, or more than four would be wanted; None where the stock has neither

    >>> from lakewright.stock.load import load_stock
    >>> run = run_of(load_stock(), "1-1/2", 0.50, at_least=True)
    >>> [part.name.split(" x ")[1] for part in run.nipples], round(run.distance, 3)
    (['12 in', '10 in'], 0.544)
    """
    nipples = _of_nipples(stock, size, distance, at_least)
    cut = _cut(stock, size, distance) if nipples is None or len(nipples.nipples) > MOST_NIPPLES else None
    return cut or nipples


def _of_nipples(stock: Stock, size: str, distance: float, at_least: bool) -> Run | None:
    """Standard nipples that span a distance, where any do."""
    make_up = engagement(stock, Port(size, "NPT", "thread out"))
    coupling = usual_part(stock, "coupling", size)
    lengths = _standard(stock, size)
    between = coupling.length if coupling else 0.0
    best: tuple[float, tuple[float, ...]] | None = None
    for chain in _chains(lengths, distance, make_up, between) if lengths else ():
        if len(chain) > 1 and coupling is None:
            break
        if best is not None and len(chain) > len(best[1]):
            break
        reached = _reached(chain, make_up, between)
        off = reached - distance
        if at_least and off < -NO_SHORTER:
            continue
        if (best is None or abs(off) < best[0]) and (abs(off) <= MOST_OVER or (chain == lengths[:1] and off > 0.0)):
            best = abs(off), chain
    if best is not None:
        chain = tuple(sorted(best[1], reverse=True))
        nipples = tuple(_nipples(stock, size)[length] for length in chain)
        return Run(nipples, None, 0.0, coupling, _reached(chain, make_up, between))
    return None


def _cut(stock: Stock, size: str, distance: float) -> Run | None:
    """A piece of pipe cut to span a distance and threaded, where it comes in such lengths."""
    make_up = engagement(stock, Port(size, "NPT", "thread out"))
    pipe = next(
        (p for p in stock.pipes.values() if (p.family, p.series, p.size) == ("PVC", SIZES_OF_FRAMES, size)), None
    )
    # ours: a piece of less than two threads and an inch between them cannot be held while it is threaded.
    cut = max(distance, INCH) + 2.0 * make_up
    return Run((), pipe, cut, None, cut - 2.0 * make_up) if pipe is not None and cut <= max(pipe.coils) else None


def _reached(chain: tuple[float, ...], make_up: float, between: float) -> float:
    return sum(chain) - 2.0 * make_up * len(chain) + between * (len(chain) - 1)


def _chains(lengths: tuple[float, ...], distance: float, make_up: float, between: float) -> Iterator[tuple[float, ...]]:
    """Chains of standard lengths that may do, the fewest pieces first: the longest, and two of any length last."""
    longest = lengths[-1]
    least = 1
    while _reached((longest,) * least, make_up, between) < distance - MOST_OVER:
        least += 1
    for pieces in (least, least + 1):
        for last in itertools.combinations_with_replacement(lengths, min(pieces, 2)):
            yield (longest,) * (pieces - 2) + last


def _standard(stock: Stock, size: str) -> tuple[float, ...]:
    return tuple(sorted(_nipples(stock, size)))


@functools.lru_cache(maxsize=64)
def _nipples(stock: Stock, size: str) -> dict[float, Part]:
    """The standard nipples of a size by length, of the material a shop would take under water."""
    rows = [part for part in stock.parts_of("nipple") if is_threaded(part, size)]
    fit = [part for part in rows if part.material == "PVC"] or [p for p in rows if p.material in BY_THE_WATER]
    return {part.length: part for part in sorted(fit, key=lambda part: (-part.price, part.name))}


def close_nipple(stock: Stock, size: str) -> Run | None:
    """The shortest standard nipple."""
    return run_of(stock, size, 0.0)
