"""The suction line as it is laid."""

from __future__ import annotations

from lakewright.checks.needs import LEVEL, LINE_TOP
from lakewright.checks.verdict import Check, Verdict, at_least, at_most
from lakewright.state.limits import Limits
from lakewright.state.standing import Route


def line_rises_to_the_pump(route: Route, limits: Limits) -> Verdict:
    """From the lowest waterline to the pump the line rises all the way, so that no air stays in it."""
    return at_least(route.slope, 0.0, limits.slope_comfort, where=route.lifts)


def no_joint_above_the_water(route: Route, limits: Limits) -> Verdict:
    """From the lowest waterline to the pump the line is in one piece: a joint that leaks there draws air."""
    return at_most(route.joints, limits.joints_most, limits.joints_comfort, where=route.lifts)


def line_fills_without_pockets(route: Route, limits: Limits) -> Verdict:
    """Under the water the line has no hump in which much air stays when it is filled."""
    return at_most(route.pocket, limits.pocket_most, limits.pocket_comfort)


def frozen_band_is_buried(route: Route, limits: Limits) -> Verdict:
    """A line that stays for the winter lies buried down past the reach of the ice."""
    return at_least(route.buried, 0.0, limits.buried_comfort, where=route.freezes)


ROUTE = (
    Check(
        line_fills_without_pockets,
        force="note",
        block="route",
        cases="all",
        shows="volume",
        at="suction line",
        label="of line that air may stay in",
        limit_words="at most",
        unit="m3",
        needs=("suction.pocket_length", "suction.along", "suction.bore"),
        source="trade-practice",
        remedy="lay it clear of the hump, or expect to pour that much more when priming, a burp, and a refill",
        figures=("pocket_most", "pocket_comfort"),
    ),
    Check(
        frozen_band_is_buried,
        force="should",
        block="route",
        cases="standing",
        shows="depth",
        at="shore",
        label="from the ice down to the end of the trench",
        limit_words="",
        unit="m",
        needs=(*LEVEL, "days.ice", "suction.buried_to"),
        source="trade-practice",
        remedy="bury it further out, at low water, or haul it out before the ice",
        figures=("buried_comfort",),
        short_words="of line in reach of the ice past the end of the trench",
    ),
    Check(
        line_rises_to_the_pump,
        force="must",
        block="route",
        cases="standing",
        shows="slope",
        at="bank",
        label="of rise where the line is flattest",
        limit_words="",
        unit="m/m",
        needs=(*LEVEL, "pump.height", "suction.slope"),
        other_needs=LINE_TOP,
        source="trade-practice",
        remedy="lay it to rise all the way from the lowest waterline to the pump",
        figures=("slope_comfort",),
        short_words="of fall where the line should rise",
    ),
    Check(
        no_joint_above_the_water,
        force="should",
        block="route",
        cases="standing",
        shows="count",
        at="bank",
        label="joints between the lowest waterline and the pump",
        limit_words="at most",
        unit="",
        needs=(*LEVEL, "pump.height", "suction.joints"),
        other_needs=LINE_TOP,
        source="trade-practice",
        remedy="turn the coil so that the splice lies in the lake",
        figures=("joints_most", "joints_comfort"),
    ),
)
