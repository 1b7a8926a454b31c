"""What warms a shut pump, as facts."""

from __future__ import annotations

import math
from dataclasses import dataclass

from lakewright.physics.types import Array
from lakewright.state.gather import Gather, one


@dataclass(frozen=True, eq=False, repr=False)
class HeatFacts:
    """What warms a shut pump."""

    power: Array  # W, at the shaft; ours: the motor's rating, which a small pump near shut-off stays under


def heat_facts(power: float, gather: Gather) -> HeatFacts:
    """What warms a shut pump, by the rating of its motor [W]; why that is not known stands where it is first missed."""
    if math.isnan(power) and (why := gather.missing.get("pump.minimum_run")) is not None:
        gather.lack("heat.power", why)
    return HeatFacts(one(power))
