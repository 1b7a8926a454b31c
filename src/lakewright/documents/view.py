"""From metres of site to millimetres of paper: scales, breaks, and what room each part gets."""

from __future__ import annotations

import math
from dataclasses import dataclass

from lakewright.documents.scale import LARGER, largest_within
from lakewright.documents.scene import Box, Point
from lakewright.documents.site import Site
from lakewright.documents.terrain import Terrain, known

# mm of paper, all ours: gutters for the scales, the house and pump as drawn, what is left bare over and under.
GUTTER_LEFT, GUTTER_BELOW = 10.0, 12.5
HOUSE_WIDE, HOUSE_HIGH, HOUSE_MARGIN = 27.0, 20.0, 3.0
PUMP_WIDE, PUMP_HIGH = 8.0, 5.0
BREAK, STUB = 7.0, 17.0
OVER, UNDER = 5.0, 14.0
WORTH_A_BREAK = 1.9  # ours: a run that would shrink all the rest more than this is broken
LITTLE = 0.42  # ours: of the height there is, under which heights are drawn larger than distances
NOT_A_HOUSE_UP = 0.9  # ours: a house higher over the rest than this share of the rest is set beside a break


@dataclass(frozen=True)
class View:
    """A scaled view: `mm_along` and `mm_up` for a metre, the water's edge at `x0`, the usual level at `y0`.

    house : left end and floor of the house on paper; tee : height of the tank's tee on paper
    broken : whether the line to the house is; lifted : whether the house is not at its height
    """

    plot: Box
    mm_along: float
    mm_up: float
    x0: float
    y0: float
    house: Point
    broken: bool
    lifted: bool
    tee: float
    words: str
    larger: int
    labels: float

    def at(self, x: float, height: float) -> Point:
        """A place of the site on paper."""
        return self.x0 + x * self.mm_along, self.y0 - height * self.mm_up

    def x(self, along: float) -> float:
        """A distance on paper."""
        return self.x0 + along * self.mm_along

    def y(self, height: float) -> float:
        """A height on paper."""
        return self.y0 - height * self.mm_up


def view(site: Site, ground: Terrain, width: float, height: float, labels: float, lens_high: float) -> View:
    """The largest named scale at which everything has room.

    Parameters
    ----------
    width, height : of the paper [mm]
    labels : width of the levels' names at the left [mm]
    lens_high : height that the lens needs over or under the water [mm]
    """
    plot = Box(GUTTER_LEFT, 0.0, width - 0.5, height - GUTTER_BELOW)
    wide = plot.width - labels - HOUSE_WIDE - HOUSE_MARGIN
    out, pump_x = -ground.points[0][0], ground.pump[0]
    near, far = out + pump_x, out + pump_x + ground.run
    # Beside what is to scale stand the pump and its window, a stub of line, and the break.
    window = 14.0
    core = _core_up(site, ground)
    lifted = ground.tee > core + NOT_A_HOUSE_UP * (core - min(ground.deepest, 0.0))
    along_whole = (wide - window) / far
    along_broken = (wide - window - STUB - BREAK) / near
    broken = lifted or along_broken > WORTH_A_BREAK * along_whole
    most = along_broken if broken else along_whole
    highest = max(0.0, known(site.flood, 0.0), *(day.level for day in site.days if math.isfinite(day.level)))

    def room(mm_up: float) -> tuple[float, float]:
        up = max(core * mm_up + OVER, ground.pump[1] * mm_up + PUMP_HIGH + OVER, lens_high + highest * mm_up)
        if not lifted:
            up = max(up, ground.tee * mm_up + HOUSE_HIGH + OVER)
        return up, max(-ground.deepest, -lowest, 0.3) * mm_up + UNDER

    lowest = min(level for level in (0.0, site.low, *(day.level for day in site.days)) if math.isfinite(level))
    scale = largest_within(site.units, most)
    while sum(room(scale.mm)) > plot.height:
        smaller = largest_within(site.units, scale.mm * 0.999)
        if smaller.mm == scale.mm:
            break
        scale = smaller
    larger = 1
    for times in LARGER:
        up, down = room(scale.mm * times)
        if up + down > plot.height:
            break
        larger = times
        if (core - ground.deepest) * scale.mm * times >= LITTLE * plot.height:
            break
    mm_up = scale.mm * larger
    up, down = room(mm_up)
    spare_up = max(plot.height - up - down, 0.0)
    y0 = plot.top + up + 0.45 * spare_up
    used = (near if broken else far) * scale.mm + window + (STUB + BREAK if broken else 0.0)
    spare = max(wide - used, 0.0)
    x0 = plot.left + labels + 0.5 * spare + out * scale.mm
    last_x = plot.right - HOUSE_WIDE - HOUSE_MARGIN
    # A line so short that the house would stand on the pump is drawn a little longer than it is.
    true_x = max(x0 + (ground.pump[0] + ground.run) * scale.mm, x0 + ground.pump[0] * scale.mm + window)
    house_x = last_x if broken else min(true_x, last_x)
    tee = y0 - ground.tee * mm_up
    floor = tee + 3.2
    earth = y0 - ground.height((house_x + 0.5 * HOUSE_WIDE - x0) / scale.mm) * mm_up
    # Where the ground at the house is about as high as its tank, the house stands on the ground as measured.
    if not broken and -3.0 < earth - tee < 7.0:
        floor, tee = earth, min(tee, earth - 1.8)
    if lifted:
        floor = plot.top + OVER + HOUSE_HIGH
        tee = floor - 3.2
    words = scale.words
    return View(plot, scale.mm, mm_up, x0, y0, (house_x, floor), broken, lifted, tee, words, larger, labels)


def _core_up(site: Site, ground: Terrain) -> float:
    """The highest thing to be shown, the house left out."""
    # All of it to the house where the line is not broken; to a little beyond the pump where it may be.
    end = ground.pump[0] + (ground.run if ground.run < 3.0 * ground.pump[0] else 0.0)
    bank = [height for x, height in ground.points if 0.0 <= x <= end]
    top = max(known(edge, 0.0) for edge in site.window)
    levels = [day.level for day in site.days if math.isfinite(day.level)]
    return max([0.3, ground.pump[1], top, known(site.flood, 0.0) + known(site.waves, 0.0), *levels, *bank])
