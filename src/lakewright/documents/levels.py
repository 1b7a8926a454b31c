"""The water's levels and the days they belong to, named in a column that never overlaps."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from lakewright import units
from lakewright.documents import ink
from lakewright.documents.scene import Box
from lakewright.documents.site import Site

WIDEST, MOST_ROWS, MOST = 36.0, 4, 10  # mm of a name, rows of one level, levels named. ours
GAP = 0.9  # mm from name to name


@dataclass(frozen=True)
class Level:
    """A level with all that is said of it: the names of its days, the last line its height."""

    height: float
    lines: tuple[str, ...]
    dotted: bool
    ice: float


def levels_of(site: Site) -> list[Level]:
    """The levels of a site, highest first; days whose levels read alike share one."""
    found: dict[str, tuple[float, list[str], bool, float]] = {}

    def add(height: float, name: str, dotted: bool, ice: float = 0.0) -> None:
        if not math.isfinite(height):
            return
        key = units.show(height, "height", site.units)
        at, names, dots, most = found.get(key, (height, [], False, 0.0))
        found[key] = (at, [*names, name], dots or dotted, max(most, ice))

    for day in site.days:
        ice = day.ice if math.isfinite(day.ice) else 0.0
        thick = f", ice {units.show(ice, 'part', site.units)}" if ice > 0.0 else ""
        add(day.level, f"{ink.plain(day.name)}{thick}", False, ice)
    if not any(abs(height) < 1e-9 for height, *_ in found.values()):
        add(0.0, "usual water", False)
    for height, name in ((site.flood, "flood"), (site.low, "lowest")):
        key = units.show(height, "height", site.units)
        if any(name in words.lower() for words in found.get(key, (0.0, [], False, 0.0))[1]):
            at, names, _, ice = found[key]
            found[key] = (at, names, True, ice)
        else:
            add(height, name, True)
    levels = [
        Level(height, _lines(names, key), dotted and abs(height) > 1e-9, ice)
        for key, (height, names, dotted, ice) in found.items()
    ]
    return sorted(levels, key=lambda level: -level.height)[:MOST]


def _lines(names: Sequence[str], height: str) -> tuple[str, ...]:
    """Names and height in a few short lines; days that do not fit are counted."""
    for count in range(len(names), 0, -1):
        rest = len(names) - count
        more = f", {rest} more" if rest else ""
        rows = ink.wrapped("; ".join(names[:count]) + more, WIDEST, ink.SMALL)
        if len(rows) < MOST_ROWS:
            return (*rows, ink.typeset(height))
    return (*ink.wrapped(names[0], WIDEST, ink.SMALL)[: MOST_ROWS - 1], ink.typeset(height))


def label_width(levels: Sequence[Level]) -> float:
    """Width of the widest line [mm]."""
    return max(
        ink.width(words, ink.SMALL, ink.BOLD if row == len(level.lines) - 1 else ink.REGULAR)
        for level in levels
        for row, words in enumerate(level.lines)
    )


def stacked(levels: Sequence[Level], ys: Sequence[float], area: Box) -> list[tuple[Level, Box]]:
    """A box for each level's name, as near its level as the others let it; they never meet.

    Where the column is too short for all, the last ones are left out.
    """
    high = [len(level.lines) * ink.leading(ink.SMALL) for level in levels]
    while high and sum(high) + GAP * (len(high) - 1) > area.height:
        high.pop()
    tops = [y - 0.5 * tall for y, tall in zip(ys, high, strict=False)]
    # Down, then up: each is pushed clear of its neighbour, and all of them into the column.
    for _ in range(2 * len(tops)):
        for n, tall in enumerate(high):
            least = area.top if n == 0 else tops[n - 1] + high[n - 1] + GAP
            if tops[n] < least:
                short = least - tops[n]
                tops[n] += short
                if n:
                    # Shared between the two, so that a crowd stays around its middle.
                    tops[n] -= 0.5 * short
                    tops[n - 1] -= 0.5 * short
            tops[n] = min(tops[n], area.bottom - tall)
    for n in range(len(tops)):
        least = area.top if n == 0 else tops[n - 1] + high[n - 1] + GAP
        tops[n] = max(tops[n], least)
    limit = area.bottom
    for n in range(len(tops) - 1, -1, -1):
        tops[n] = min(tops[n], limit - high[n])
        limit = tops[n] - GAP
    return [
        (level, Box(area.left, top, area.right, top + tall))
        for level, top, tall in zip(levels, tops, high, strict=False)
    ]
