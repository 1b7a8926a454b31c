"""The water at the inlet: level, temperature and what follows from them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lakewright.physics import atmosphere, water
from lakewright.physics.suction import head_of
from lakewright.physics.types import Array
from lakewright.state.cases import FOULED, Index
from lakewright.state.facts import Facts


@dataclass(frozen=True, eq=False, repr=False)
class Lake:
    """The lake in a list of cases."""

    level: Array  # m
    density: Array  # kg/m3
    viscosity: Array  # m2/s, kinematic
    atmosphere_head: Array  # m, in a deep low
    vapour_head: Array  # m
    blocked: Array  # share of the screen


def air_pressure(facts: Facts) -> Array:
    """Pressure of the air at the site in a deep low [Pa]."""
    return atmosphere.atmospheric_pressure(facts.site.elevation) * (1.0 - facts.site.weather)


def line_top(facts: Facts) -> Array:
    """Height of the suction line's upper end [m]: at the pump, or at an ejector that hangs below it."""
    return facts.pump.height - facts.ejector.below


def inlet_top(facts: Facts) -> Array:
    """Height of the top of the valve or screen [m], from which the water over it counts."""
    stand = facts.stand
    return stand.frame + stand.riser + stand.inlet_rise - stand.sink - stand.depth


def lake(facts: Facts, day: Index, line: Index) -> Lake:
    """The lake in the cases whose days and lines are given."""
    days = facts.days
    temperature = np.take(days.temperature, day, axis=-1)
    density = water.density(temperature)
    dirty = 1.0 - (1.0 - np.take(days.dirt, day, axis=-1)) * (1.0 - facts.faults.blocked)
    return Lake(
        level=np.take(days.level, day, axis=-1) + facts.faults.level_offset,
        density=density,
        viscosity=water.dynamic_viscosity(temperature) / density,
        atmosphere_head=head_of(air_pressure(facts), density),
        vapour_head=head_of(water.vapour_pressure(temperature), density),
        blocked=np.where(line == FOULED, dirty, facts.faults.blocked),
    )
