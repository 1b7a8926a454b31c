"""The pump."""

from __future__ import annotations

from lakewright.checks.needs import FLOW, PUMPED_BY
from lakewright.checks.verdict import Check, Verdict, at_least
from lakewright.state.limits import Limits
from lakewright.state.walk import Pump


def pump_stays_on_its_curve(pump: Pump, limits: Limits) -> Verdict:
    """With the tank under pressure, the circuit keeps the pump inside what its maker has published."""
    return at_least(pump.room, 0.0, limits.room_comfort, where=pump.under_pressure)


def pump_curve_falls(pump: Pump, limits: Limits) -> Verdict:
    """Head falls all the way along the pump's curve, so that it settles at one flow."""
    return at_least(pump.fall, 0.0, limits.fall_comfort, where=~pump.is_jet)


PUMP = (
    Check(
        pump_stays_on_its_curve,
        force="should",
        block="pump",
        cases="running",
        shows="head",
        at="pump",
        label="of head inside the published curve",
        limit_words="",
        unit="m",
        needs=FLOW,
        other_needs=PUMPED_BY,
        source="maker-curve",
        remedy="hold the flow with a flow control valve, or use a pump whose curve reaches further",
        figures=("room_comfort",),
        short_words="of head past the published curve",
    ),
    Check(
        pump_curve_falls,
        force="note",
        block="pump",
        cases="all",
        shows="head",
        at="pump",
        label="the least fall between two points",
        limit_words="",
        unit="m",
        needs=(),
        other_needs={"centrifugal": ("pump.fall",)},
        source="maker-curve",
        remedy="a drooping curve may hunt near shut-off: keep cut-out well below the top of the curve",
        figures=("fall_comfort",),
        short_words="of rise between two points",
    ),
)
