"""Which coils to buy for a length of pipe."""

from __future__ import annotations

import heapq
from collections.abc import Sequence

MILLIMETRE = 0.001
"""ours: coils are added up in whole millimetres, so that two of 100 ft are as long as one of 200."""


def coils_for(sold: Sequence[float], needed: float, whole: float = 0.0) -> tuple[float, ...]:
    """The coils that cover a length with the least left over, the longest last.

    Parameters
    ----------
    sold : [m], the lengths it is sold in
    needed : [m], to be covered
    whole : [m], how much of the far end must be of one piece; nothing where a splice may lie anywhere

    Returns
    -------
    [m], lengths bought: one coil where one reaches; else the set of least total length, which is the cheapest as
    pipe is priced by its length, and of those the one with the fewest splices. Where no coil is as long as `whole`
    the splices cannot be kept out of it.

    >>> coils_for([30.0, 60.0, 90.0, 120.0], 61.0), coils_for([15.0, 30.0], 70.0, whole=20.0)
    ((90.0,), (15.0, 30.0, 30.0))
    """
    reaching = [coil for coil in sold if coil >= needed - MILLIMETRE]
    if reaching:
        return (min(reaching),)
    last = [coil for coil in sold if coil >= whole - MILLIMETRE] or [max(sold)]
    sets = [(*_least(sold, needed - coil), coil) for coil in last]
    best = min(sets, key=lambda coils: (round(sum(coils) / MILLIMETRE), len(coils), coils))
    return tuple(sorted(best))


def _least(sold: Sequence[float], needed: float) -> tuple[float, ...]:
    """Coils of the least total length that cover a length, and of those the fewest."""
    heap: list[tuple[int, int, tuple[float, ...]]] = [(0, 0, ())]
    seen: set[int] = set()
    while True:
        total, count, coils = heapq.heappop(heap)
        if total * MILLIMETRE >= needed - MILLIMETRE:
            return coils
        if total not in seen:
            seen.add(total)
            for coil in sold:
                heapq.heappush(heap, (total + round(coil / MILLIMETRE), count + 1, (*coils, coil)))
