"""What starts and stops the pump in place of a pressure switch: a controller of flow or of speed, or an open store."""

from __future__ import annotations

import numpy as np

from lakewright.checks.needs import FLOW_AT_CUT_IN, LEVEL, PUMPED_BY, VALVE
from lakewright.checks.verdict import Check, Verdict, at_least, at_most
from lakewright.state.control import ControlAtRest, ControlInUse, StoreAsBuilt, StoreInUse, Weeping
from lakewright.state.limits import Limits

HOUR = 3600.0


def controller_feels_an_open_tap(control: ControlAtRest, limits: Limits) -> Verdict:
    """Water standing up to the highest tap leaves the controller low enough to start the pump."""
    return at_most(control.static, control.start, limits.switch_comfort, where=control.held)


def controller_lets_the_pump_rest(control: ControlInUse, limits: Limits) -> Verdict:
    """Run shut, at the lowest water, the pump raises pressure well past where the controller starts it, so that it can
    stop and stay stopped."""
    limit = control.start + limits.control_least
    return at_least(control.rest_pressure, limit, limits.control_comfort, where=control.at_open)


def pressure_holds_at_the_need(control: ControlInUse, limits: Limits) -> Verdict:
    """While all that is needed runs, the pump at its rated speed keeps the pressure that the controller is set to."""
    return at_least(control.pressure, control.least_pressure, limits.held_comfort, where=control.held)


def drive_stays_above_its_least_speed(control: ControlInUse, limits: Limits) -> Verdict:
    """With hardly anything drawn, at the highest water, the pump still turns as fast as its drive must."""
    return at_least(control.rest_speed, control.least_speed, limits.speed_comfort, where=control.driven)


def controller_rests_at_a_trickle(weeping: Weeping, limits: Limits) -> Verdict:
    """A drip or a weeping cistern starts the pump no more often than its motor bears."""
    starts, allowed = HOUR / weeping.cycle, HOUR / weeping.least_cycle
    return at_most(starts, allowed, limits.starts_comfort * allowed, where=weeping.held)


def least_flow_cools_the_pump(weeping: Weeping, limits: Limits) -> Verdict:
    """The least flow that keeps the pump running carries its heat away."""
    comfort = limits.cooling_comfort * weeping.cooling_flow
    return at_least(weeping.least_flow, weeping.cooling_flow, comfort, where=weeping.held)


def pump_fills_the_store(control: ControlInUse, limits: Limits) -> Verdict:
    """In the time it is given, the pump brings to the store what a day uses."""
    comfort = limits.need_comfort * control.fill_flow
    return at_least(control.inflow, control.fill_flow, comfort, where=control.filling)


def store_lasts_through_the_peak(store: StoreInUse, limits: Limits) -> Verdict:
    """A whole day's use drawn in two hours, on two days running, leaves water in the store."""
    return at_least(store.left, 0.0, limits.store_comfort * store.volume, where=store.filling)


def store_holds_a_day(store: StoreAsBuilt, limits: Limits) -> Verdict:
    """The store holds what a day uses, so that a pump that stops is noticed before the water is."""
    limit = limits.store_days * store.per_day
    used = limit != 0.0
    return at_least(
        store.volume, limit, limits.store_days_comfort * np.where(used, limit, 1.0), where=store.stored & used
    )


def store_cannot_run_over(store: StoreAsBuilt, limits: Limits) -> Verdict:
    """A float stops the pump when the store is full, and an overflow leads away what it lets by."""
    return at_least(store.stops, limits.stops_least, limits.stops_comfort, where=store.stored)


def booster_stands_under_the_store(store: StoreAsBuilt, limits: Limits) -> Verdict:
    """The lowest water in the store runs to the booster by itself, with no suction line to prime."""
    return at_least(store.over_booster, 0.0, limits.booster_comfort, where=store.stored)


AT_REST = (*LEVEL, *VALVE, "delivery.height")
RESTS = {
    "centrifugal": ("pump.curve", "faults.wear", "faults.speed"),
    "jet": ("site.elevation", "site.weather", "pump.height", "pump.jet"),
}
CENTRIFUGAL = {"centrifugal": (*FLOW_AT_CUT_IN, "need.flow", "days.demand", "pump.curve")}
AT_THE_SHAFT = ("days.temperature", "heat.power")

CONTROL = (
    Check(
        controller_feels_an_open_tap,
        force="must",
        block="control_at_rest",
        cases="standing",
        shows="gauge",
        at="switch",
        label="that never leave the controller",
        limit_words="and it starts at",
        unit="Pa",
        needs=("days.temperature", "taps.height", "delivery.height", "control.start"),
        source="trade-practice",
        remedy="put the controller at the house, or one that starts at more",
        figures=("switch_comfort",),
        short_words="of fall from the controller to the highest tap",
    ),
    Check(
        controller_lets_the_pump_rest,
        force="must",
        block="control_in_use",
        cases="running",
        shows="gauge",
        at="switch",
        label="when flow dies",
        limit_words="for the pump to rest",
        unit="Pa",
        needs=(*AT_REST, "control.start"),
        other_needs=RESTS,
        source="ours",
        remedy="set the controller lower, or use a pump with more shut-off head",
        figures=("control_least", "control_comfort"),
    ),
    Check(
        pressure_holds_at_the_need,
        force="must",
        block="control_in_use",
        cases="running",
        shows="gauge",
        at="tank",
        label="with the need running",
        limit_words="and the controller is set to",
        unit="Pa",
        needs=(),
        other_needs=CENTRIFUGAL,
        source="trade-practice",
        remedy="set the controller lower, or use a pump with more head or a wider line",
        figures=("held_comfort",),
    ),
    Check(
        drive_stays_above_its_least_speed,
        force="should",
        block="control_in_use",
        cases="running",
        shows="share",
        at="pump",
        label="of its speed with hardly anything drawn",
        limit_words="and its drive allows",
        unit="",
        needs=(),
        other_needs={
            "centrifugal": (
                *(*AT_REST, "delivery.cut_in", "pump.curve", "faults.wear", "faults.speed"),
                "control.least_speed",
            )
        },
        source="affinity-guide",
        remedy="a pump with less shut-off head, or a higher pressure to hold",
        figures=("speed_comfort",),
        reach="picked",
    ),
    Check(
        controller_rests_at_a_trickle,
        force="should",
        block="weeping",
        cases="standing",
        shows="count",
        at="tank",
        label="starts an hour while a trickle runs",
        limit_words="at most",
        unit="1/h",
        needs=(
            *("delivery.precharge", "delivery.tank_volume", "site.elevation", "pump.minimum_run"),
            *("control.start", "control.trickle", "control.delay"),
            *("delivery.cut_in", "delivery.relief", *AT_REST),
        ),
        other_needs=RESTS,
        source="ufc-starts",
        remedy="mend what drips, or use a larger tank beside the controller",
        figures=("starts_comfort",),
        reach="picked",
    ),
    Check(
        least_flow_cools_the_pump,
        force="should",
        block="weeping",
        cases="standing",
        shows="flow",
        at="pump",
        label="keep the pump running",
        limit_words="and its heat asks for",
        unit="m3/s",
        needs=(*AT_THE_SHAFT, "control.least_flow"),
        source="pump-temperature-pages",
        remedy="a controller that stops at more flow",
        figures=("cooling_comfort",),
        reach="picked",
    ),
    Check(
        pump_fills_the_store,
        force="must",
        block="control_in_use",
        cases="running",
        shows="flow",
        at="tank",
        label="into the store",
        limit_words="asked",
        unit="m3/s",
        needs=("days.demand", "control.per_day", "control.fill_time", *FLOW_AT_CUT_IN),
        other_needs=PUMPED_BY,
        source="ours",
        remedy="use a pump with more flow, a wider line, or give it longer",
        figures=("need_comfort",),
    ),
    Check(
        store_lasts_through_the_peak,
        force="must",
        block="store_in_use",
        cases="running",
        shows="volume",
        at="tank",
        label="left in the store after a day drawn in two hours",
        limit_words="",
        unit="m3",
        needs=("days.demand", "control.per_day", "control.store_volume", *FLOW_AT_CUT_IN),
        other_needs=PUMPED_BY,
        source="penn-state-planning",
        remedy="a larger store, or a pump that brings more",
        figures=("store_comfort",),
        short_words="lacking in the store when a day is drawn in two hours",
        reach="picked",
    ),
    Check(
        store_holds_a_day,
        force="should",
        block="store_as_built",
        cases="standing",
        shows="volume",
        at="tank",
        label="in the store",
        limit_words="and a day uses",
        unit="m3",
        needs=("days.demand", "control.per_day", "control.store_volume"),
        source="storage-page",
        remedy="a larger store",
        figures=("store_days", "store_days_comfort"),
        reach="picked",
    ),
    Check(
        store_cannot_run_over,
        force="must",
        block="store_as_built",
        cases="all",
        shows="count",
        at="tank",
        label="of a float that stops the pump and an overflow",
        limit_words="at least",
        unit="",
        needs=("control.stops",),
        source="trade-practice",
        remedy="a float switch that stops the pump, and an overflow led well away from the footing",
        figures=("stops_least", "stops_comfort"),
        reach="picked",
    ),
    Check(
        booster_stands_under_the_store,
        force="must",
        block="store_as_built",
        cases="all",
        shows="head",
        at="tank",
        label="of water over the booster with the store nearly empty",
        limit_words="",
        unit="m",
        needs=("control.low", "control.booster_height"),
        source="trade-practice",
        remedy="set the booster lower than the store's outlet, or the store higher",
        figures=("booster_comfort",),
        short_words="of lift from the store to the booster",
        reach="picked",
    ),
)

OF_CONTROL = frozenset(check.name for check in CONTROL) | {"booster_delivers_the_need"}
"""What a pressure switch never asks."""
