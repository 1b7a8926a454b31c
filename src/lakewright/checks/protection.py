"""What keeps the pump from harm: running dry, a switch that cannot feel, pressure with nowhere to go, and frost."""

from __future__ import annotations

from lakewright.checks.needs import FLOW, FLOW_AT_CUT_IN, INLET_HEIGHT, PUMPED_BY
from lakewright.checks.verdict import Check, Verdict, all_or_nothing, at_least, at_most
from lakewright.state.limits import Limits
from lakewright.state.protection import GuardsAtRest, GuardsInUse


def cut_off_can_trip(guards: GuardsAtRest, limits: Limits) -> Verdict:
    """Water standing up to the highest tap leaves the low-pressure cut-off low enough to open when no water comes."""
    return at_most(guards.static, guards.cut_off, limits.cut_off_comfort, where=guards.has_cut_off)


def cut_off_stays_shut(guards: GuardsInUse, limits: Limits) -> Verdict:
    """In a start, and at the highest draw, pressure stays over the low-pressure cut-off."""
    asked = guards.at_cut_in & guards.has_cut_off
    return at_least(guards.lowest, guards.cut_off, limits.cut_off_room, where=asked)


def running_dry_is_caught(guards: GuardsAtRest, limits: Limits) -> Verdict:
    """Something that can act here stops the pump when no water comes; a cut-off that cannot open is nothing."""
    return all_or_nothing(guards.guards, limits.guards_least)


def float_stops_in_time(guards: GuardsAtRest, limits: Limits) -> Verdict:
    """When the float stops the pump, water still covers the inlet as practice asks."""
    return at_least(guards.float_cover, guards.cover_floor, limits.cover_comfort, where=guards.has_float)


def relief_passes_the_pump(guards: GuardsInUse, limits: Limits) -> Verdict:
    """An open relief valve passes all that the pump brings at the pressure at which it opens."""
    asked = guards.at_cut_out & guards.has_relief
    return at_least(guards.relief_flow, guards.relief_asked, limits.relief_comfort, where=asked)


def switch_feels_the_tank(guards: GuardsInUse, limits: Limits) -> Verdict:
    """What a running pump loses between a switch beside it and the tank is less than the switch's span, so that it does
    not stop and start again at once."""
    asked = guards.at_cut_in & guards.at_pump
    return at_most(guards.lost, guards.span, limits.chatter_comfort * guards.span, where=asked)


def pump_house_stays_warm(guards: GuardsAtRest, _limits: Limits) -> Verdict:
    """Where water is drawn in winter, something keeps pump, tank and switch from freezing."""
    return all_or_nothing(guards.guarded, 1.0, where=guards.winter)


STANDS_ON_CUT_OFF = ("days.temperature", "taps.height", "protection.switch_height", "protection.cut_off")

PROTECTION = (
    Check(
        cut_off_can_trip,
        force="should",
        block="guards_at_rest",
        cases="standing",
        shows="gauge",
        at="switch",
        label="that never leave the low-pressure cut-off",
        limit_words="and it opens at",
        unit="Pa",
        needs=STANDS_ON_CUT_OFF,
        source="cut-off-switch",
        remedy="put switch and cut-off at the house, or let a current relay, flow switch or thermostat stop the pump",
        figures=("cut_off_comfort",),
        short_words="of fall from the cut-off to the highest tap",
        reach="picked",
    ),
    Check(
        cut_off_stays_shut,
        force="should",
        block="guards_in_use",
        cases="running",
        shows="gauge",
        at="switch",
        label="at the lowest while somebody draws",
        limit_words="and the cut-off opens at",
        unit="Pa",
        needs=(
            *FLOW_AT_CUT_IN,
            *("need.flow", "days.demand", "delivery.precharge", "delivery.tank_volume", "site.elevation"),
            "protection.cut_off",
        ),
        other_needs=PUMPED_BY,
        source="cut-off-switch",
        remedy="hold the draw with a flow control valve, use a pump with more flow, or a larger tank with its air set"
        " 2 psi under cut-in",
        figures=("cut_off_room",),
        reach="picked",
    ),
    Check(
        running_dry_is_caught,
        force="should",
        block="guards_at_rest",
        cases="standing",
        shows="count",
        at="pump",
        label="guard that can stop a pump running dry",
        limit_words="",
        unit="",
        needs=("protection.guards", *STANDS_ON_CUT_OFF),
        source="trade-practice",
        remedy="a low-pressure cut-off where it can open, a current relay, a flow switch, or a casing thermostat",
        figures=("guards_least",),
        reach="picked",
    ),
    Check(
        float_stops_in_time,
        force="should",
        block="guards_at_rest",
        cases="all",
        shows="depth",
        at="inlet",
        label="over the inlet when the float stops the pump",
        limit_words="at least",
        unit="m",
        needs=(*INLET_HEIGHT, "protection.float_at", "site.cover_floor"),
        source="trade-practice",
        remedy="set the float higher",
        figures=("cover_comfort",),
        short_words="of the inlet in the air when the float stops the pump",
        reach="picked",
    ),
    Check(
        relief_passes_the_pump,
        force="should",
        block="guards_in_use",
        cases="running",
        shows="flow",
        at="tank",
        label="through the open relief valve",
        limit_words="and the pump brings at most",
        unit="m3/s",
        needs=(*FLOW, "delivery.relief", "protection.relief_flow"),
        other_needs=PUMPED_BY,
        source="trade-practice",
        remedy="use a larger relief valve, or one set higher where tank and pipe bear it",
        figures=("relief_comfort",),
        reach="picked",
    ),
    Check(
        switch_feels_the_tank,
        force="should",
        block="guards_in_use",
        cases="running",
        shows="gauge",
        at="switch",
        label="lost from the switch to the tank",
        limit_words="and its span is",
        unit="Pa",
        needs=(*FLOW, "protection.at_pump"),
        other_needs=PUMPED_BY,
        source="trade-practice",
        remedy="put the switch at the tank's tee, with no valve or filter between, or use a wider line",
        figures=("chatter_comfort",),
        reach="picked",
    ),
    Check(
        pump_house_stays_warm,
        force="should",
        block="guards_at_rest",
        cases="all",
        shows="count",
        at="pump",
        label="guard of pump, tank and switch against frost",
        limit_words="",
        unit="",
        needs=("protection.winter", "protection.guarded"),
        source="trade-practice",
        remedy="a heater on a thermostat, heat cable on a ground-fault circuit, or drain it all before frost",
        reach="picked",
    ),
)
