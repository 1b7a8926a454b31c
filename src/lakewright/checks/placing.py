"""Where in the water the inlet stands: breakers, troughs, boats, silt; and light and warmth, which are only told."""

from __future__ import annotations

from lakewright.checks.needs import INLET_HEIGHT, LEVEL, WAVES, unique
from lakewright.checks.verdict import Check, Verdict, at_least, told, under_band
from lakewright.state.limits import Limits
from lakewright.state.placing import Placing


def stand_is_outside_breakers(placing: Placing, limits: Limits) -> Verdict:
    """The stand is in deeper water than the largest waves break in."""
    comfort = limits.breaker_comfort * placing.breaks_in
    # Where no waves come nothing is asked, and a yardstick of nothing would divide by it.
    some = placing.breaks_in + 1.0 * (placing.breaks_in == 0.0)
    return at_least(placing.depth, placing.breaks_in, comfort + (some - placing.breaks_in), where=placing.waves)


def water_covers_the_inlet_in_a_trough(placing: Placing, limits: Limits) -> Verdict:
    """In the trough of the largest wave the inlet is still under water."""
    return at_least(placing.trough_cover, 0.0, limits.trough_comfort, where=placing.waves)


def boats_pass_over_the_inlet(placing: Placing, limits: Limits) -> Verdict:
    """Where boats pass, a motor's foot goes over the inlet on the lowest day without ice."""
    return at_least(placing.boat_cover, limits.boat_draft, limits.boat_comfort, where=placing.boats)


def waves_leave_silt_lying(placing: Placing, limits: Limits) -> Verdict:
    """The waves of every year, and those of boats, leave the silt under the inlet lying."""
    easy, most = limits.stir_easy + 0.0 * placing.stirred, limits.stir_most + 0.0 * placing.stirred
    return under_band(placing.stirred, easy, most, where=placing.over_silt)


def light_at_the_inlet_is_told(placing: Placing, _limits: Limits) -> Verdict:
    """How much water is over the inlet, and under how much daylight has faded: less lives where it has."""
    return told(placing.cover, placing.light, where=placing.lies_still)


def warm_layer_is_told(placing: Placing, _limits: Limits) -> Verdict:
    """How much water is over the inlet, and how deep the warm water of summer lies: under it, it is cold and steady."""
    return told(placing.cover, placing.layer, where=placing.layered)


PLACING = (
    Check(
        stand_is_outside_breakers,
        force="should",
        block="placing",
        cases="weather",
        shows="depth",
        at="stand",
        label="of water at the stand",
        limit_words="the largest waves break in",
        unit="m",
        needs=unique(WAVES, ("stand.depth", "stand.on_legs")),
        source="cem-ii-1",
        remedy="set the stand further out, in deeper water",
        figures=("breaker_comfort",),
        short_words="of bed fallen dry at the stand",
        reach="picked",
    ),
    Check(
        water_covers_the_inlet_in_a_trough,
        force="must",
        block="placing",
        cases="weather",
        shows="depth",
        at="inlet",
        label="of water over the inlet in the trough of the largest wave",
        limit_words="",
        unit="m",
        needs=unique(WAVES, INLET_HEIGHT, ("stand.on_legs",)),
        source="ours",
        remedy="set the stand in deeper water, or use a shorter riser or a low form",
        figures=("trough_comfort",),
        short_words="of the inlet out of the water in the trough of the largest wave",
        reach="picked",
    ),
    Check(
        boats_pass_over_the_inlet,
        force="should",
        block="placing",
        cases="standing",
        shows="depth",
        at="inlet",
        label="of water over the inlet where boats pass",
        limit_words="at least",
        unit="m",
        needs=unique(LEVEL, INLET_HEIGHT, ("days.ice", "placing.boats")),
        source="trade-practice",
        remedy="set it in deeper water, use a low form, or mark it with a buoy",
        figures=("boat_draft", "boat_comfort"),
        short_words="of the inlet out of the water where boats pass",
        reach="picked",
    ),
    Check(
        waves_leave_silt_lying,
        force="should",
        block="placing",
        cases="weather",
        shows="speed",
        at="bed",
        label="along the bed in the waves of every year",
        limit_words="silt rises at the latest at",
        unit="m/s",
        needs=unique(WAVES, ("stand.depth", "stand.on_legs", "placing.silt")),
        source="ours",
        remedy="set the stand in deeper water, use a longer riser, or hang the inlet under a float",
        figures=("stir_easy", "stir_most"),
        reach="picked",
    ),
    Check(
        light_at_the_inlet_is_told,
        force="note",
        block="placing",
        cases="standing",
        shows="depth",
        at="inlet",
        label="of water over the inlet",
        limit_words="daylight has faded under",
        unit="m",
        needs=unique(LEVEL, INLET_HEIGHT, ("days.ice", "placing.lies_still", "placing.disc_depth")),
        source="reinart-2000",
        remedy="lower a white disk and note where it fades; less light, less for filters and lamp to do",
        short_words="of the inlet out of the water",
        reach="picked",
    ),
    Check(
        warm_layer_is_told,
        force="note",
        block="placing",
        cases="standing",
        shows="depth",
        at="inlet",
        label="of water over the inlet",
        limit_words="the warm water of summer is about as deep as",
        unit="m",
        needs=unique(
            LEVEL,
            INLET_HEIGHT,
            ("days.ice", "placing.lies_still", "placing.lake_length", "placing.warmest"),
        ),
        source="gorham-boyce-1989",
        remedy="let down a thermometer late in summer; deep water may lack air, and taste of iron and sulphur",
        short_words="of the inlet out of the water",
        reach="picked",
    ),
)
