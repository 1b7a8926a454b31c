"""The suction line while the pump rests, and as it is laid."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.physics import collapse, gauge
from lakewright.physics.types import GRAVITY, Array
from lakewright.state.cases import CLEAN
from lakewright.state.facts import Facts
from lakewright.state.lake import lake, line_top


@dataclass(frozen=True, eq=False, repr=False)
class Standing:
    """What holds the water, and how the line then stands. Standing cases; what is as built has one value."""

    pressure: Array  # Pa gauge, in the line at the pump
    end_pressure: Array  # Pa gauge, in the line at the stand
    allowed_pressure: Array  # Pa gauge
    holders: Array  # valves that hold
    flooded: Array  # 1 where the water is to run to the pump by itself, else 0
    shut_by: Array  # valves that shut a flooded line; none counts where a foot valve is in it
    spring: Array  # Pa of spring that shuts the foot valve, none where it is not made to stand so
    hangs: NDArray[np.bool_]


@dataclass(frozen=True, eq=False, repr=False)
class Route:
    """The suction line as it is laid. Standing cases; what is as built has one value."""

    lifts: NDArray[np.bool_]  # the pump stands over the water
    slope: Array  # m/m
    joints: Array
    pocket: Array  # m3
    buried: Array  # m, from the underside of the ice down to where the trench ends
    freezes: NDArray[np.bool_]  # there is ice, and the line stays under it


def standing(facts: Facts, stopped: Array) -> Standing:
    """The line while the pump rests, day by day, just after it has stopped with the tank at `stopped` [Pa gauge]."""
    days = np.arange(len(facts.day_names))
    water = lake(facts, days, np.full(len(days), CLEAN))
    stand, delivery, holding = facts.stand, facts.delivery, facts.holding
    pressure = gauge.standing_pressure(
        holding.at_inlet,
        holding.at_pump,
        facts.faults.airtight,
        line_top(facts) - water.level,
        stopped,
        delivery.height - water.level,
        water.density,
    )
    end = stand.frame - stand.sink - stand.depth
    return Standing(
        pressure=pressure,
        end_pressure=pressure + (line_top(facts) - end) * water.density * GRAVITY,
        allowed_pressure=facts.suction.allowed_pressure,
        holders=holding.at_inlet + holding.at_pump + 0.0 * holding.flooded,
        flooded=holding.flooded,
        shut_by=facts.suction.valves * (1.0 - stand.foot_valve) + 0.0 * holding.flooded,
        spring=stand.opening_pressure * stand.seats + 0.0 * stand.hangs,
        hangs=stand.hangs == 1.0,
    )


def route(facts: Facts) -> Route:
    """The line as it is laid, day by day."""
    level = facts.days.level + facts.faults.level_offset
    suction, top = facts.suction, line_top(facts)
    length = suction.pocket_length * (1.0 + suction.along)
    return Route(
        lifts=~(top - level <= 0.0),
        slope=suction.slope + 0.0 * (top - level),
        joints=suction.joints + 0.0 * (top - level),
        pocket=0.25 * np.pi * suction.bore * suction.bore * length,
        buried=level - facts.days.ice - suction.buried_to,
        freezes=(facts.days.ice != 0.0) & (suction.buried_to != -np.inf),
    )


def vacuum_use(facts: Facts, standing_pressure: Array, running_pressure: Array) -> Array:
    """Share of the vacuum at which the line folds, or for which it is printed, that it is put under.

    Parameters
    ----------
    standing_pressure : [Pa] gauge, in the line at the pump, of the same day
    running_pressure : [Pa] gauge, there
    """
    suction, whole = facts.suction, np.ones(1)
    mean = suction.outside - suction.wall

    def bears(modulus: Array) -> Array:
        round_pipe = collapse.ring_collapse_pressure(modulus, suction.poisson, suction.wall, mean)
        return collapse.allowable_vacuum(round_pipe, suction.ovality, whole)

    held, added = -standing_pressure, standing_pressure - running_pressure
    folds = collapse.combined_vacuum_use(held, bears(suction.long_modulus), added, bears(suction.short_modulus))
    most = np.maximum(np.maximum(held, -running_pressure), 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        printed = np.where(most == 0.0, 0.0, most / suction.vacuum_rating)
    return np.maximum(folds, printed)
