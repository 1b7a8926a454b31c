"""From the pump to the tank."""

from __future__ import annotations

from lakewright.checks.needs import AIR, CLEAN_LINE, FLOW_AT_CUT_IN, LEVEL, PUMPED_BY, VALVE
from lakewright.checks.verdict import Check, Verdict, at_least
from lakewright.state.limits import Limits
from lakewright.state.walk import Delivery, Filling


def delivers_the_need(delivery: Delivery, limits: Limits) -> Verdict:
    """With the tank at cut-in, the pump brings what is asked, on every day."""
    comfort = limits.need_comfort * delivery.wanted
    return at_least(delivery.flow, delivery.wanted, comfort, where=delivery.at_cut_in)


def reaches_cut_out(delivery: Delivery, limits: Limits) -> Verdict:
    """The pump can raise the tank past cut-out with something to spare, so that it surely stops."""
    comfort = limits.cut_out_comfort
    limit = delivery.cut_out + limits.cut_out_least
    return at_least(delivery.rest_pressure, limit, comfort, where=delivery.at_cut_out)


def runs_long_enough(filling: Filling, limits: Limits) -> Verdict:
    """Each run from cut-in to cut-out lasts as long as the motor needs to cool its start."""
    return at_least(filling.fill_time, filling.minimum_run, limits.run_comfort)


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
        needs=(
            *CLEAN_LINE,
            "delivery.cut_out",
            "delivery.precharge",
            "delivery.tank_volume",
            "site.elevation",
            "pump.minimum_run",
        ),
        other_needs=PUMPED_BY,
        source="ten-starts",
        remedy="use a larger tank",
        figures=("run_comfort",),
    ),
)
