"""From the pump to the tank."""

from __future__ import annotations

import numpy as np

from lakewright.checks.needs import AIR, FILLING, FLOW_AT_CUT_IN, LEVEL, PUMPED_BY, VALVE
from lakewright.checks.verdict import Check, Verdict, at_least, at_most, under_band
from lakewright.state.limits import Limits
from lakewright.state.walk import Delivery, Filling, ShutOff


def delivers_the_need(delivery: Delivery, limits: Limits) -> Verdict:
    """With the tank at cut-in, the pump brings what is asked, on every day."""
    comfort = limits.need_comfort * delivery.wanted
    return at_least(delivery.flow, delivery.wanted, comfort, where=delivery.asked)


def reaches_cut_out(delivery: Delivery, limits: Limits) -> Verdict:
    """The pump can raise the tank past cut-out with something to spare, so that it surely stops."""
    comfort = limits.cut_out_comfort
    limit = delivery.cut_out + limits.cut_out_least
    return at_least(delivery.rest_pressure, limit, comfort, where=delivery.at_cut_out)


def runs_long_enough(filling: Filling, limits: Limits) -> Verdict:
    """Each run from cut-in to cut-out lasts as long as the motor needs to cool its start."""
    return at_least(filling.fill_time, filling.minimum_run, limits.run_comfort, where=filling.switched)


HOUR = 3600.0

WORST_DRAW = 4.0
"""A pump starts most often when half of what it brings is drawn: a cycle then lasts four runs of a tank that fills
while nobody draws. Source: UFC 3-240-04A, table 7-1, volume by starts an hour. Where the flow falls as the tank fills,
no cycle is shorter (ours: each part of the tank is so by itself), so that this counts no start too few. The shortest
run that a motor is asked to make is the same rule told in seconds: this check only informs."""


def motor_starts_seldom_enough(filling: Filling, limits: Limits) -> Verdict:
    """At the draw that starts the pump most often, it starts no more often than its motor bears."""
    starts, allowed = (HOUR / (WORST_DRAW * time) for time in (filling.fill_time, filling.minimum_run))
    return at_most(starts, allowed, limits.starts_comfort * allowed, where=filling.switched)


def delivery_runs_gently(delivery: Delivery, limits: Limits) -> Verdict:
    """Water runs slowly enough from the pump to the tank that a shut tap or a stopped pump does not hammer."""
    lowest, highest = np.array(limits.delivery_velocity_easy), np.array(limits.delivery_velocity)
    return under_band(delivery.velocity, lowest, highest, where=delivery.at_cut_in)


def tank_bears_the_shut_off(shut_off: ShutOff, limits: Limits) -> Verdict:
    """With every tap shut and the switch stuck, pump or relief valve keeps the tank under what its plate allows."""
    return at_most(shut_off.at_tank, shut_off.tank_bears, limits.shut_off_comfort, where=shut_off.has_tank)


def delivery_pipe_bears_the_shut_off(shut_off: ShutOff, limits: Limits) -> Verdict:
    """The delivery line bears the same pressure for years at its low end, as warm as it gets."""
    return at_most(shut_off.at_pump, shut_off.pipe_bears, limits.shut_off_comfort)


REST_BY = {
    "centrifugal": ("pump.curve", "faults.wear", "faults.speed"),
    "jet": (*AIR, "pump.height", "pump.jet"),
}

DELIVERY = (
    Check(
        delivers_the_need,
        force="must",
        block="delivery",
        cases="running",
        shows="flow",
        at="tank",
        label="at cut-in",
        limit_words="asked",
        unit="m3/s",
        needs=("need.flow", "days.demand", *FLOW_AT_CUT_IN),
        other_needs=PUMPED_BY,
        source="trade-practice",
        remedy="use a pump with more head, a wider line, or a lower cut-in",
        figures=("need_comfort",),
    ),
    Check(
        reaches_cut_out,
        force="must",
        block="delivery",
        cases="running",
        shows="gauge",
        at="switch",
        label="when flow dies",
        limit_words="to pass cut-out",
        unit="Pa",
        needs=(*LEVEL, *VALVE, "delivery.height", "delivery.cut_out"),
        other_needs=REST_BY,
        source="trade-practice",
        remedy="lower the switch's setting, or use a pump with more shut-off head",
        figures=("cut_out_least", "cut_out_comfort"),
    ),
    Check(
        runs_long_enough,
        force="must",
        block="filling",
        cases="filling",
        shows="time",
        at="tank",
        label="from cut-in to cut-out",
        limit_words="at least",
        unit="s",
        needs=FILLING,
        other_needs=PUMPED_BY,
        source="ten-starts",
        remedy="use a larger tank",
        figures=("run_comfort",),
    ),
    Check(
        motor_starts_seldom_enough,
        force="note",
        block="filling",
        cases="filling",
        shows="count",
        at="tank",
        label="starts an hour when half the flow is drawn",
        limit_words="at most",
        unit="1/h",
        needs=FILLING,
        other_needs=PUMPED_BY,
        source="ufc-starts",
        remedy="use a larger tank",
        figures=("starts_comfort",),
    ),
    Check(
        delivery_runs_gently,
        force="should",
        block="delivery",
        cases="running",
        shows="speed",
        at="delivery line",
        label="in the delivery line",
        limit_words="at most",
        unit="m/s",
        needs=FLOW_AT_CUT_IN,
        other_needs=PUMPED_BY,
        source="nspc-pipes",
        remedy="use the next wider delivery pipe",
        figures=("delivery_velocity_easy", "delivery_velocity"),
    ),
    Check(
        tank_bears_the_shut_off,
        force="must",
        block="shut_off",
        cases="standing",
        shows="gauge",
        at="tank",
        label="with every tap shut",
        limit_words="at most",
        unit="Pa",
        needs=(*LEVEL, *VALVE, "delivery.height", "delivery.relief", "delivery.tank_bears"),
        other_needs=REST_BY,
        source="trade-practice",
        remedy="fit a relief valve under the tank's rating and pipe it away, or use a pump with less shut-off",
        figures=("shut_off_comfort",),
    ),
    Check(
        delivery_pipe_bears_the_shut_off,
        force="must",
        block="shut_off",
        cases="standing",
        shows="gauge",
        at="delivery line",
        label="at its low end with every tap shut",
        limit_words="at most",
        unit="Pa",
        needs=(*LEVEL, *VALVE, "pump.height", "delivery.height", "delivery.relief", "delivery.pipe_bears"),
        other_needs=REST_BY,
        source="awwa-pe-manual",
        remedy="use pipe of a higher rating, bury it out of the sun, or fit a relief valve",
        figures=("shut_off_comfort",),
    ),
)
