"""What holds the water while the pump rests, and what the line then bears."""

from __future__ import annotations

from lakewright.checks.needs import LEVEL, LINE_TOP
from lakewright.checks.verdict import Check, Verdict, all_or_nothing, at_least, at_most
from lakewright.state.limits import Limits
from lakewright.state.standing import Standing


def valves_hold_the_water(standing: Standing, limits: Limits) -> Verdict:
    """A valve holds the water while the pump rests, and another stands behind it."""
    return at_least(standing.holders, limits.holders_least, limits.holders_comfort, where=standing.flooded != 1.0)


def foot_valve_seats_as_mounted(standing: Standing, limits: Limits) -> Verdict:
    """The foot valve shuts the way it is mounted: hanging by its weight, else by a spring."""
    return at_least(standing.spring, limits.spring_least, limits.spring_comfort, where=~standing.hangs)


def line_bears_its_pressure(standing: Standing, limits: Limits) -> Verdict:
    """The suction line bears, for years, the pressure that its valves leave in it while the pump rests."""
    allowed = standing.allowed_pressure
    return at_most(standing.end_pressure, allowed, limits.pressure_comfort * allowed)


def flooded_suction_can_be_shut(standing: Standing, limits: Limits) -> Verdict:
    """A line that the water runs down by itself has a valve to shut it by, and no foot valve."""
    return all_or_nothing(standing.shut_by, limits.shutters_least, where=standing.flooded != 0.0)


ARRANGEMENT = ("holding.at_inlet", "holding.at_pump")

HOLDING = (
    Check(
        foot_valve_seats_as_mounted,
        force="must",
        block="standing",
        cases="all",
        shows="pressure_difference",
        at="foot valve",
        label="of spring to shut the foot valve as it is mounted",
        limit_words="at least",
        unit="Pa",
        needs=("stand.seats", "stand.hangs", "stand.opening_pressure"),
        source="trade-practice",
        remedy="use a foot valve with a spring, made to stand that way, or hang it",
        figures=("spring_least", "spring_comfort"),
    ),
    Check(
        valves_hold_the_water,
        force="must",
        block="standing",
        cases="all",
        shows="count",
        at="foot valve",
        label="valves that hold while the pump rests",
        limit_words="at least",
        unit="",
        needs=(*ARRANGEMENT, "holding.flooded"),
        source="trade-practice",
        remedy="a spring foot valve, and a spring check at the pump behind it",
        figures=("holders_least", "holders_comfort"),
    ),
    Check(
        line_bears_its_pressure,
        force="must",
        block="standing",
        cases="standing",
        shows="gauge",
        at="suction line",
        label="in the line at the stand while the pump rests",
        limit_words="at most",
        unit="Pa",
        needs=(
            *ARRANGEMENT,
            *LEVEL,
            "days.temperature",
            "pump.height",
            "delivery.height",
            "delivery.cut_out",
            "faults.airtight",
            "stand.depth",
            "stand.frame",
            "stand.sink",
            "suction.allowed_pressure",
        ),
        other_needs=LINE_TOP,
        source="pe3408-factors",
        remedy="put a spring check at the pump, so that the line stands at lift, or use pipe of a higher rating",
        figures=("pressure_comfort",),
        short_words="of vacuum in the line at the stand",
    ),
    Check(
        flooded_suction_can_be_shut,
        force="must",
        block="standing",
        cases="all",
        shows="count",
        at="suction line",
        label="valves to shut the flooded line by",
        limit_words="at least",
        unit="",
        needs=("holding.flooded", "suction.valves", "stand.foot_valve"),
        source="trade-practice",
        remedy="put a full-bore valve in the line at the pump, and a screen without a foot valve at its end",
        figures=("shutters_least",),
    ),
)
