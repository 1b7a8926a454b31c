"""The blow when the pump stops: asked only where the lines are long or the tank stands high."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from lakewright.checks.needs import AIR, FLOW, PUMPED_BY, PUMPED_UP_BY, unique
from lakewright.checks.verdict import Check, Verdict, at_least, at_most
from lakewright.state.limits import Limits
from lakewright.state.surge import Surge


def delivery_bears_the_surge(surge: Surge, limits: Limits) -> Verdict:
    """The delivery line bears the blow at the pump when the pump stops."""
    bears = surge.delivery_bears
    return at_most(surge.delivery_peak, bears, limits.pressure_comfort * bears, where=_asked(surge, limits))


def suction_bears_the_slam(surge: Surge, limits: Limits) -> Verdict:
    """The suction line bears the blow of its column at the stand when the pump stops."""
    bears = surge.suction_bears
    return at_most(surge.suction_peak, bears, limits.pressure_comfort * bears, where=_asked(surge, limits))


def suction_column_stays_whole(surge: Surge, limits: Limits) -> Verdict:
    """When the pump stops, the column in the suction line does not swing back, part at the pump and slam together."""
    return at_least(surge.column_left, 0.0, limits.column_comfort, where=_asked(surge, limits) & surge.stands)


def _asked(surge: Surge, limits: Limits) -> NDArray[np.bool_]:
    """Where practice asks after surge: on long lines, and up to high tanks."""
    far = ~(surge.length <= limits.surge_length) | ~(surge.climb <= limits.surge_climb)
    return far & surge.under_pressure


RESTS = ("pump.height", "holding.at_inlet", "holding.at_pump")

SURGE = (
    Check(
        delivery_bears_the_surge,
        force="should",
        block="surge",
        cases="running",
        shows="gauge",
        at="delivery line",
        label="in the delivery line when the pump stops",
        limit_words="at most",
        unit="Pa",
        needs=unique(FLOW, ("pump.height", "surge.delivery_speed", "surge.delivery_allowance", "delivery.pipe_bears")),
        other_needs=PUMPED_BY,
        source="wylie-streeter-1993",
        remedy="a check valve at the pump that shuts by its spring, a wider pipe, or pipe of a higher rating",
        figures=("pressure_comfort", "surge_length", "surge_climb"),
        reach="picked",
    ),
    Check(
        suction_bears_the_slam,
        force="should",
        block="surge",
        cases="running",
        shows="gauge",
        at="suction line",
        label="in the line at the stand when the pump stops",
        limit_words="at most",
        unit="Pa",
        needs=unique(
            FLOW,
            RESTS,
            (
                "surge.suction_speed",
                "faults.airtight",
                "surge.suction_allowance",
                "suction.allowed_pressure",
                "stand.depth",
                "stand.frame",
            ),
            ("stand.sink",),
        ),
        other_needs=PUMPED_UP_BY,
        source="wylie-streeter-1993",
        remedy="a wider suction pipe, or pipe of a higher rating",
        figures=("pressure_comfort", "surge_length", "surge_climb"),
        reach="picked",
    ),
    Check(
        suction_column_stays_whole,
        force="note",
        block="surge",
        cases="running",
        shows="head",
        at="suction line",
        label="left over boiling at the pump when it stops",
        limit_words="",
        unit="m",
        needs=unique(FLOW, AIR, ("pump.height", "holding.at_inlet", "surge.suction_speed")),
        other_needs=PUMPED_UP_BY,
        source="wylie-streeter-1993",
        remedy="it knocks and wears the joints: a foot valve with a spring, or a wider suction pipe",
        figures=("column_comfort", "surge_length", "surge_climb"),
        short_words="of head short: the water parts at the pump and knocks",
        reach="picked",
    ),
)
