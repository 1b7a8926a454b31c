"""The intake stand."""

from __future__ import annotations

import numpy as np

from lakewright.checks.needs import AT_ITS_FEET, FLOW, LOADS, PUMPED_BY, SHAPE, WAVES
from lakewright.checks.verdict import Check, Verdict, at_least, at_most, under_band
from lakewright.state.limits import Limits
from lakewright.state.still import Rest, Still
from lakewright.state.walk import Place, Stand


def screen_is_slow_enough(stand: Stand, limits: Limits) -> Verdict:
    """Water meets the screen no faster than the chosen rule allows, on the area that rule counts."""
    no_rule = np.isinf(stand.face_limit)
    limit = np.where(no_rule, 1.0, stand.face_limit)
    return at_most(stand.face_velocity, limit, limits.screen_comfort * limit, where=~no_rule)


def screen_openings_are_fine_enough(place: Place, limits: Limits) -> Verdict:
    """The screen's openings are no wider than the chosen rule allows, where it names a width."""
    names_none = np.isinf(place.opening_limit)
    limit = np.where(names_none, 1.0, place.opening_limit)
    spare = limits.opening_comfort * limit
    # A screen made to the rule is what the rule wants: the comfort lies outside it, as wide as a made size is rounded.
    return at_most(place.opening, limit + spare, 0.5 * spare, where=~names_none)


def a_screen_stands_where_a_rule_asks(place: Place, _limits: Limits) -> Verdict:
    """Where a rule of fish screens is in force, the foot valve stands inside a screen: its strainer is none."""
    screens = 1.0 - 2.0 * place.is_bare + 0.0 * place.screen_asked
    return at_least(screens, 0.0, 0.5, where=place.screen_asked != 0.0)


def stand_does_not_slide(still: Still, limits: Limits) -> Verdict:
    """Weight, pins and tether hold the stand in its place in every weather."""
    return at_least(still.sliding, limits.slide_least, limits.slide_comfort, where=still.on_legs)


def stand_does_not_tip(still: Still, limits: Limits) -> Verdict:
    """Weight and pins keep it on all its legs in every weather."""
    return at_least(still.tipping, limits.tip_least, limits.tip_comfort, where=still.on_legs)


def stand_is_not_undermined(still: Still, limits: Limits) -> Verdict:
    """Waves and current dig no hole at its feet into which it would lean far."""
    most, spare = limits.scour_lean_most * still.arm, limits.scour_lean_comfort * still.arm
    return at_most(still.scour, most, spare, where=still.on_legs & still.on_grains)


def stand_does_not_float(rest: Rest, limits: Limits) -> Verdict:
    """It stays down with air in all that can hold air: as launched, or blown out for the winter."""
    return at_least(rest.floating, limits.float_least, limits.float_comfort, where=rest.on_legs)


def stand_does_not_sink(rest: Rest, limits: Limits) -> Verdict:
    """Where the bed is soft, it bears the stand when that leans on half of its feet."""
    return at_least(rest.bearing, limits.sink_least, limits.sink_comfort, where=rest.on_legs & rest.is_soft)


def stand_bears_a_snag(rest: Rest, limits: Limits) -> Verdict:
    """A fishing line or a small anchor that catches the line near the bed does not drag the stand away."""
    return at_least(rest.snag, limits.snag_pull, limits.snag_comfort, where=rest.on_legs)


def stand_can_be_lifted(rest: Rest, limits: Limits) -> Verdict:
    """It can be lifted out of the water, iron and all: by one person, or at the most by two."""
    easy, most = np.array(limits.lift_easy_mass), np.array(limits.lift_most)
    return under_band(rest.lifted, easy, most, where=rest.on_legs)


STAND = (
    Check(
        a_screen_stands_where_a_rule_asks,
        force="must",
        block="place",
        cases="standing",
        shows="count",
        at="screen",
        label="screen round the inlet",
        limit_words="",
        unit="1",
        needs=("site.screen_asked", "stand.is_bare"),
        source="washington-2021",
        remedy="stand the foot valve inside a screen made to the rule; a bare foot-valve strainer is not a fish screen",
        short_words="bare strainer, no screen",
    ),
    Check(
        screen_openings_are_fine_enough,
        force="must",
        block="place",
        cases="standing",
        shows="bore",
        at="screen",
        label="wide, the screen's openings",
        limit_words="at most",
        unit="m",
        needs=("site.screen_opening", "stand.screen_opening"),
        source="screen-openings",
        remedy="use a screen with finer openings; ask the authority which rule is in force",
        figures=("opening_comfort",),
    ),
    Check(
        screen_is_slow_enough,
        force="must",
        block="stand",
        cases="running",
        shows="face_speed",
        at="screen",
        label="at the screen's face",
        limit_words="at most",
        unit="m/s",
        needs=("site.screen_velocity", "site.screen_on_open", *FLOW),
        other_needs=PUMPED_BY,
        source="nmfs-1996",
        remedy="use a larger screen, clean it, or hold the flow down; ask the authority which rule is in force",
        figures=("screen_comfort",),
    ),
    Check(
        stand_does_not_slide,
        force="must",
        block="still",
        cases="weather",
        shows="count",
        at="ballast",
        label="times what would slide it",
        limit_words="at least",
        unit="1",
        needs=(*LOADS, "site.bed_friction", "stand.held"),
        source="em-1110-2-2100",
        remedy="add ballast in whole pieces, pins through the legs, or a tether",
        figures=("slide_least", "slide_comfort"),
        reach="picked",
    ),
    Check(
        stand_does_not_tip,
        force="must",
        block="still",
        cases="weather",
        shows="count",
        at="ballast",
        label="times what would tip it",
        limit_words="at least",
        unit="1",
        needs=(*LOADS, "stand.arm", "stand.held_down"),
        source="em-1110-2-2100",
        remedy="use longer legs or a shorter riser, add ballast in whole pieces, or pins through the legs",
        figures=("tip_least", "tip_comfort"),
        reach="picked",
    ),
    Check(
        stand_is_not_undermined,
        force="should",
        block="still",
        cases="weather",
        shows="part",
        at="bed",
        label="of hole dug at its feet",
        limit_words="at most",
        unit="m",
        needs=(*WAVES, *AT_ITS_FEET, "days.current", "stand.depth", "stand.on_legs", "stand.arm"),
        source="sumer-1992",
        remedy="longer legs, flat stones round the feet, or dig it in; a hole a little deep buries the legs by itself",
        figures=("scour_lean_most", "scour_lean_comfort"),
        reach="picked",
    ),
    Check(
        stand_does_not_float,
        force="must",
        block="rest",
        cases="standing",
        shows="count",
        at="ballast",
        label="times what would float it, full of air",
        limit_words="at least",
        unit="1",
        needs=(*SHAPE, "members.holds_air", "stand.on_legs", "days.temperature"),
        source="em-1110-2-2100",
        remedy="drill dry legs so that they flood, or add ballast",
        figures=("float_least", "float_comfort"),
        reach="picked",
    ),
    Check(
        stand_does_not_sink,
        force="must",
        block="rest",
        cases="standing",
        shows="count",
        at="bed",
        label="times its weight, what the mud bears",
        limit_words="at least",
        unit="1",
        needs=(*SHAPE, "stand.on_legs", "stand.rest_area", "site.mud_strength", "days.temperature"),
        source="geotechnical-tables",
        remedy="put mud pads under the legs, and hold it with pins instead of weight",
        figures=("sink_least", "sink_comfort"),
        reach="picked",
    ),
    Check(
        stand_bears_a_snag,
        force="note",
        block="rest",
        cases="standing",
        shows="force",
        at="ballast",
        label="of pull on the line moves it",
        limit_words="at least",
        unit="N",
        needs=(*SHAPE, "stand.on_legs", "stand.held", "site.bed_friction", "days.temperature"),
        source="ours",
        remedy="keep the line's joint low and tie the stand to the shore or to an anchor",
        figures=("snag_pull", "snag_comfort"),
        reach="picked",
    ),
    Check(
        stand_can_be_lifted,
        force="should",
        block="rest",
        cases="standing",
        shows="mass",
        at="stand",
        label="to lift out of the water",
        limit_words="at most",
        unit="kg",
        needs=(*SHAPE, "members.holds_air", "stand.on_legs", "days.temperature"),
        source="trade-practice",
        remedy="two people, and clip the iron on in the water",
        figures=("lift_easy_mass", "lift_most"),
        reach="picked",
    ),
)
