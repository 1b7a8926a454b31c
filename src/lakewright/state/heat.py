"""A pump that runs on with every tap shut, should its switch not stop it: it warms the water in its casing."""

from __future__ import annotations

from dataclasses import dataclass

from lakewright import units
from lakewright.physics import water
from lakewright.physics.heat import warming_time
from lakewright.physics.types import Array
from lakewright.state.facts import Facts

HOT = units.read("140 F", "temperature")
"""The most that PVC at its outlet bears [K]. Source: page on derating PVC pipe, no service above 140 F."""


@dataclass(frozen=True, eq=False, repr=False)
class Heat:
    """A pump that runs shut. Standing cases."""

    time: Array  # s until the water in the casing is hot


def heat(facts: Facts) -> Heat:
    """How long a pump that runs shut takes to warm what is in its casing, day by day."""
    temperature = facts.days.temperature
    density = water.density(temperature)
    return Heat(warming_time(facts.heat.power, facts.priming.casing, HOT - temperature, density))
