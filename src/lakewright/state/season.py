"""What winter does to the supply, for the checks."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.physics import bed_line, cold_line, frost
from lakewright.physics.shock import pipe_volume
from lakewright.physics.types import Array
from lakewright.state.facts import Facts
from lakewright.state.line_on_bed import line_weight
from lakewright.state.still import Rest

Mask = NDArray[np.bool_]

LAID = 293.15
"""ours: warmth of a line on the day it is laid [K]; a black coil in the sun is warmer, and shortens more."""


@dataclass(frozen=True, eq=False, repr=False)
class Season:
    """The supply in winter. One value each, `shrinks` and `pull` one a day."""

    emptied: Mask
    left: Array  # m3 of water left where frost gets at it
    trench: Array  # m
    frost: Array  # m
    stays: Mask  # a plastic line stays in the water
    slack: Array  # m of line
    shrinks: Array  # m of line
    hauled: Mask
    pull: Array  # N, to drag line and stand along the bed
    closes: Mask  # somebody has named the day
    before_frost: Array  # s, from that day to the early date of the first hard frost
    opens: Mask
    after_frost: Array  # s, from the late date of the last hard frost to that day


def season(facts: Facts, stand: Rest, density: Array) -> Season:
    """The supply in winter; `stand` at rest, in water of a density [kg/m3] a day."""
    winter, line, on_legs = facts.season, facts.suction, facts.stand.on_legs
    length = (line.bed_length + line.bank_length) * (1.0 + line.along)
    left = pipe_volume(line.bore, winter.suction_left) + pipe_volume(facts.delivery.bore, winter.delivery_left)
    weight = line_weight(facts, density) * line.bed_length * (1.0 + line.along) + np.maximum(stand.weight, 0.0)
    early = frost.early_date(winter.first_frost, winter.frost_spread)
    late = frost.late_date(winter.last_frost, winter.frost_spread)
    closes, opens = ~np.isinf(winter.closes), ~np.isinf(winter.opens)
    # What decides whether a check is asked must itself be known: times nothing, it leaves only nan behind.
    return Season(
        emptied=winter.emptied != 0.0,
        left=left + 0.0 * winter.emptied,
        trench=winter.trench_depth + 0.0 * winter.frost_depth,
        frost=winter.frost_depth,
        stays=(winter.expansion != 0.0) & (on_legs != 0.0),
        slack=length * winter.slack / (1.0 + winter.slack) + 0.0 * on_legs,
        shrinks=cold_line.contraction(winter.expansion, length, np.maximum(LAID - facts.days.temperature, 0.0)),
        hauled=(winter.hauled != 0.0) & (on_legs != 0.0),
        pull=bed_line.haul_force(weight, facts.site.bed_friction, np.zeros(1)) + 0.0 * (winter.hauled + on_legs),
        closes=closes,
        before_frost=early - np.where(closes, winter.closes, 0.0),
        opens=opens,
        after_frost=np.where(opens, winter.opens, 0.0) - late,
    )
