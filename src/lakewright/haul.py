"""What the suction line weighs to whoever lays it and hauls it out."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from lakewright import units
from lakewright.state.facts import Facts
from lakewright.state.walk import State


@dataclass(frozen=True)
class Haul:
    """The line under the water: its length [m] and masses [kg], and its weight full of air.

    empty_share : over that of the water it displaces, weights in it; below 0 it floats
    """

    length: float
    full: float
    drained: float
    weights: float
    empty_share: float


def haul_of(facts: Facts, state: State) -> Haul | None:
    """What the part of the line that lies in the water weighs; None where it does not lie there, or nobody knows."""
    at_rest, line = state.line_at_rest, facts.suction
    if at_rest is None or not at_rest.on_bed.all():
        return None
    length = float((line.bed_length * (1.0 + line.along))[0])
    found = Haul(
        length=length,
        full=length * float(at_rest.full.max()),
        drained=length * float(at_rest.drained.max()),
        weights=float((length * line.weight_mass / line.weight_spacing)[0]),
        empty_share=float(np.min(at_rest.empty_share)),
    )
    return found if all(math.isfinite(each) for each in vars(found).values()) else None


def haul_words(haul: Haul | None, system: str) -> str:
    """A line of what it weighs, and whether it floats when air fills it; nothing where nobody knows.

    >>> haul_words(Haul(30.0, 54.0, 17.0, 14.0, -0.2), "SI")
    'line in the water, 30.0 m: 54.0 kg full, 17.0 kg drained, weights 14.0 kg more; full of air it floats'
    """
    if haul is None:
        return ""
    length = units.show(haul.length, "length", system)
    full, drained, weights = (units.show(each, "mass", system) for each in (haul.full, haul.drained, haul.weights))
    more = f", weights {weights} more" if haul.weights > 0.0 else ""
    floats = "floats" if haul.empty_share < 0.0 else "stays down"
    return f"line in the water, {length}: {full} full, {drained} drained{more}; full of air it {floats}"
