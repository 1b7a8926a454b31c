"""How the line gets its first water."""

from __future__ import annotations

import numpy as np

from lakewright.checks.needs import AIR, LEVEL, LINE_TOP
from lakewright.checks.verdict import Check, Verdict, at_most
from lakewright.state.limits import Limits
from lakewright.state.priming import Priming


def line_is_primed_in_time(priming: Priming, limits: Limits) -> Verdict:
    """The pump draws the water up before its casing runs hot, or a person fills the line in a bearable time."""
    most = np.where(priming.draws_air, limits.prime_drawn, limits.prime_poured)
    comfort = np.where(priming.draws_air, limits.prime_drawn_comfort, limits.prime_poured_comfort)
    return at_most(priming.time, most, comfort, where=priming.asked)


PRIMING = (
    Check(
        line_is_primed_in_time,
        force="should",
        block="priming",
        cases="standing",
        shows="time",
        at="pump",
        label="to prime",
        limit_words="at most",
        unit="s",
        needs=(
            *AIR,
            *LEVEL,
            "days.temperature",
            "pump.height",
            "holding.at_inlet",
            "holding.flooded",
            *(f"suction.{name}" for name in ("bed_length", "bank_length", "along", "bore", "pocket_length")),
            *(f"priming.{name}" for name in ("draws_air", "air_rate", "dead_head", "casing", "stand_water")),
            "priming.route_height",
        ),
        other_needs=LINE_TOP,
        source="ours",
        remedy="a foot valve that holds what is poured in, a pump that draws more air, or a shorter or narrower line",
        figures=("prime_drawn", "prime_drawn_comfort", "prime_poured", "prime_poured_comfort"),
        reach="picked",
    ),
)
