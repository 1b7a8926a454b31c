"""The taps, and the switch that is to feel them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from lakewright.checks.verdict import Check, Verdict, at_least, at_most
from lakewright.state.facts import TapFacts
from lakewright.state.limits import Limits
from lakewright.state.taps import Taps
from lakewright.state.walk import Place


def switch_can_start_the_pump(place: Place, limits: Limits) -> Verdict:
    """Water standing up to the highest tap leaves the switch low enough to feel that the tank is empty."""
    return at_most(place.tap_static, place.cut_in, limits.switch_comfort, where=place.switched)


def taps_have_pressure(taps: Taps, _limits: Limits) -> Verdict:
    """With the tank at cut-in and filters due for changing, the highest tap of every branch has what it wants."""
    return _at_the_taps(taps, taps.at_cut_in & ~taps.boosted)


def booster_delivers_the_need(taps: Taps, _limits: Limits) -> Verdict:
    """While all that is needed runs, the store nearly empty and filters due for changing, the booster gives the highest
    tap of every branch what it wants."""
    return _at_the_taps(taps, taps.at_cut_in & taps.boosted)


def _at_the_taps(taps: Taps, where: NDArray[np.bool_]) -> Verdict:
    verdict = at_least(taps.pressure, taps.least, taps.easy - taps.least, where=where)
    return replace(verdict, which_by_case=taps.which)


FROM_THE_TANK = (
    *("delivery.filters_clean", "delivery.filters_dirty"),
    *(f"taps.{name}" for name in TapFacts.__dataclass_fields__),
)
"""What any pressure at a tap rests on: the filters, and the branch."""

TAPS = (
    Check(
        switch_can_start_the_pump,
        force="must",
        block="place",
        cases="standing",
        shows="gauge",
        at="switch",
        label="that never leave the switch",
        limit_words="at most",
        unit="Pa",
        needs=("days.temperature", "taps.height", "delivery.height", "delivery.cut_in"),
        source="trade-practice",
        remedy="put switch and tank at the house",
        figures=("switch_comfort",),
        short_words="of fall from the switch to the highest tap",
    ),
    Check(
        taps_have_pressure,
        force="must",
        block="taps",
        cases="running",
        shows="gauge",
        at="tap",
        label="at the tap",
        limit_words="at least",
        unit="Pa",
        needs=(
            *("days.temperature", "days.demand", "delivery.height", "delivery.cut_in", "need.flow"),
            *FROM_THE_TANK,
        ),
        source="ipc-2018-fixtures",
        remedy="put switch and tank nearer the tap, use a wider branch or larger filters, or a higher cut-in",
        short_words="short of reaching the tap at all",
    ),
    Check(
        booster_delivers_the_need,
        force="must",
        block="taps",
        cases="running",
        shows="gauge",
        at="tap",
        label="at the tap",
        limit_words="at least",
        unit="Pa",
        needs=(
            *("days.temperature", "days.demand", "need.flow", "control.low", "control.booster"),
            *FROM_THE_TANK,
        ),
        source="ipc-2018-fixtures",
        remedy="a booster with more head at the flow needed, a higher store, a wider branch or larger filters",
        short_words="short of reaching the tap at all",
    ),
)
