"""Where a suction pump may stand at a site, and the honest no with its ways out where it may not."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from lakewright import units
from lakewright.physics.atmosphere import barometric_loss
from lakewright.state.facts import Facts
from lakewright.state.lake import air_pressure
from lakewright.units.tables import FOOT


@dataclass(frozen=True)
class Window:
    """Where a suction pump may stand: heights above the usual water [m]."""

    bottom: float
    top: float

    @property
    def is_open(self) -> bool:
        """Whether there is any such place."""
        return self.top >= self.bottom


def window_of(facts: Facts) -> Window:
    """The pump's window at this site."""
    level = facts.days.level + facts.faults.level_offset
    # An ejector that hangs below the pump lifts for it.
    ceiling = facts.limits.lift_ceiling + float(facts.ejector.below[0]) - float(barometric_loss(air_pressure(facts))[0])
    highest = float(np.maximum(facts.site.flood, level).max() + facts.site.waves.max())
    if facts.site.walled[0] > 0.5:
        # The walls of a tank keep its water from a pump that stands lower.
        highest = min(highest, float(facts.pump.height.max()))
    return Window(highest, float(level.min()) + ceiling)


class WayOut(str):
    """A way out, in words; `writes`: where it is a change of the job's own fields, what it writes, by their keys."""

    writes: Mapping[str, str]

    def __new__(cls, words: str, writes: Mapping[str, str] | None = None) -> WayOut:
        """The words, with what they write."""
        made = super().__new__(cls, words)
        made.writes = dict(writes or {})
        return made


WAYS_OUT = (
    WayOut("set a pump near the water and push up to the house"),
    WayOut("use a jet with two pipes, its ejector down at the water"),
    WayOut("put the pump in the water"),
    WayOut("float the pump on the water, where there is no ice"),
    WayOut("lift slowly to a storage tank part of the way and boost from there"),
)
# common practice, no source: the ways out that the trade names.


def window_words(window: Window, height: float, system: str) -> str:
    """The window in words; nothing where it is not known or not open."""
    if not window.is_open:
        return ""
    bottom, top = (units.show(edge, "height", system) for edge in (window.bottom, window.top))
    stands = "" if math.isnan(height) else f"; the pump stands at {units.show(height, 'height', system)}"
    return f"pump window {bottom} to {top} from the usual water level{stands}"


def no_suction_pump(facts: Facts, window: Window, system: str) -> tuple[str, tuple[WayOut, ...]] | None:
    """The honest no and the ways out, where no suction pump will do; nothing where one may."""
    bottom, top = (units.show(edge, "height", system) for edge in (window.bottom, window.top))
    if window.top < window.bottom:
        line = (
            f"No suction pump will do this: it would have to stand above {bottom} to stay clear of the highest water"
            f" and below {top} to lift from the lowest."
        )
        return line, WAYS_OUT
    height = float(facts.pump.height.max())
    if height > window.top:
        down = units.show(window.top - facts.limits.window_top_comfort, "height", system)
        line = (
            f"No suction pump will do this from {units.show(height, 'height', system)}: from above {top} none lifts"
            f" the lowest water here."
        )
        # Lower than the highest water comes it would drown: then the way is said, and not written.
        writes = (
            {"pump.height": down.lstrip("+")} if window.top - facts.limits.window_top_comfort >= window.bottom else {}
        )
        return line, (WayOut(f"move the pump down the bank, to {down} or lower", writes), *WAYS_OUT)
    return None


TOLD_SHORT = 3.0 * FOOT
"""How much a lift told by phone may be short [m]. common practice, no source: 3 ft."""


def go_or_no(facts: Facts, system: str) -> tuple[bool, str, tuple[WayOut, ...]]:
    """Whether to go on asking: from the levels, the altitude and the pump's height alone."""
    window = window_of(facts)
    no = no_suction_pump(facts, window, system)
    if no is not None:
        return False, *no
    height = float(facts.pump.height.max())
    if height < window.bottom:
        bottom = units.show(window.bottom, "height", system)
        at = units.show(height, "height", system)
        line = f"The pump would stand in the water: at {at}, and the highest water with its waves reaches {bottom}."
        return False, line, (WayOut(f"set the pump above {bottom}"),)
    words = window_words(window, height, system) or "the pump's window is not known yet"
    short = units.show(TOLD_SHORT, "length", system)
    doubt = f" A lift told by phone may be {short} short: measure it." if window.top - height < TOLD_SHORT else ""
    return True, f"Go on: a suction pump may do this; {words}.{doubt}", ()
