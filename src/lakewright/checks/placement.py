"""Where pump and intake stand."""

from __future__ import annotations

import numpy as np

from lakewright.checks.needs import AIR, FLOW, INLET_HEIGHT, LEVEL, LINE_TOP, PUMPED_BY, unique
from lakewright.checks.verdict import Check, Verdict, at_least, within_band, worse_of
from lakewright.state.limits import Limits
from lakewright.state.walk import Place, Stand


def pump_stands_in_its_window(place: Place, limits: Limits) -> Verdict:
    """The pump stands low enough to reach the lowest water and, but for a tank's walls, over the highest."""
    ceiling = limits.lift_ceiling - place.barometric_loss
    low_enough = at_least(ceiling - place.lift, 0.0, limits.window_top_comfort)
    dry = np.where(place.walled > 0.5, np.inf, place.above_flood) + 0.0 * place.walled
    high_enough = at_least(dry, 0.0, limits.window_bottom_comfort)
    return worse_of(low_enough, high_enough)


def water_covers_the_inlet(stand: Stand, limits: Limits) -> Verdict:
    """Enough water stands over the inlet that it draws no air, by every rule we know."""
    lowest = np.minimum(stand.cover_vortex, stand.cover_by_velocity)
    highest = np.maximum(np.maximum(stand.cover_vortex, stand.cover_by_velocity), stand.cover_floor)
    return within_band(stand.cover, lowest, highest, least_band=limits.cover_comfort)


def inlet_stands_clear_of_the_bed(place: Place, limits: Limits) -> Verdict:
    """The inlet stands high enough over the bed to leave silt behind."""
    return at_least(place.bed_clearance, place.bed_wanted, limits.bed_comfort)


def inlet_stays_below_the_ice(place: Place, limits: Limits) -> Verdict:
    """Water is left between the ice and the inlet on every day that has ice."""
    return at_least(place.ice_clearance, limits.ice_gap, limits.ice_comfort, where=place.ice != 0.0)


PLACEMENT = (
    Check(
        pump_stands_in_its_window,
        force="must",
        block="place",
        cases="standing",
        shows="lift",
        at="pump",
        label="inside the pump's window",
        limit_words="",
        unit="m",
        needs=(*AIR, "site.flood", "site.waves", "site.walled", *LEVEL, "pump.height"),
        other_needs=LINE_TOP,
        source="trade-lift",
        remedy="move the pump toward the water, or up out of its reach, until it stands inside the window",
        figures=("lift_ceiling", "window_top_comfort", "window_bottom_comfort"),
        short_words="outside the pump's window",
    ),
    Check(
        water_covers_the_inlet,
        force="must",
        block="stand",
        cases="running",
        shows="depth",
        at="inlet",
        label="of water over the inlet",
        limit_words="at least",
        unit="m",
        needs=unique(("site.cover_floor",), INLET_HEIGHT, FLOW),
        other_needs=PUMPED_BY,
        source="ufc-4-832",
        remedy="set the stand in deeper water, use a shorter riser or a low form",
        figures=("cover_comfort",),
        short_words="of the inlet out of the water",
    ),
    Check(
        inlet_stands_clear_of_the_bed,
        force="must",
        block="place",
        cases="standing",
        shows="depth",
        at="riser",
        label="from the bed to the inlet",
        limit_words="at least",
        unit="m",
        needs=("site.bed_wanted", "stand.frame", "stand.riser", "stand.sink"),
        source="dfo-1995",
        remedy="use a longer riser, or mud pads that keep the stand from settling",
        figures=("bed_comfort",),
    ),
    Check(
        inlet_stays_below_the_ice,
        force="must",
        block="place",
        cases="standing",
        shows="depth",
        at="inlet",
        label="between ice and inlet",
        limit_words="at least",
        unit="m",
        needs=(*LEVEL, "days.ice", *INLET_HEIGHT),
        source="stormwater-ice",
        remedy="set the stand in deeper water, or plan to haul it out before the ice",
        figures=("ice_gap", "ice_comfort"),
        short_words="of ice below the inlet's top",
    ),
)
