"""What is asked when the tank is known: the few checks that rest on it, and what a circuit hands them.

The flow does not feel the tank, so a circuit is solved without it. Of each circuit one number is kept for every block
that such a check reads, enough to make the block again, with its worst case alone.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import chain
from typing import Any

from lakewright.checks.registry import FLOW_CHECKS
from lakewright.physics.types import Array
from lakewright.search.parts import Problem
from lakewright.state.facts import Facts
from lakewright.state.walk import Filling, ShutOff, State, has_tank, is_switched


@dataclass(frozen=True)
class Handed:
    """How a block that feels the tank is reduced to one number a circuit, and made again with a tank."""

    kept: Callable[[State], Array]  # without the axis of cases
    easiest: float  # of a circuit that was not solved: it fails nothing more
    block: Callable[[Array, Facts], Any]  # from what was kept, with an axis of one case


def _filling(per_volume: Array, facts: Facts) -> Filling:
    return Filling(per_volume * facts.delivery.tank_volume, per_volume, facts.pump.minimum_run, is_switched(facts))


def _shut_off(most: Array, facts: Facts) -> ShutOff:
    return ShutOff(most, facts.delivery.tank_bears, most, facts.delivery.pipe_bears, has_tank(facts))


HANDED: Mapping[str, Handed] = {
    "filling": Handed(lambda state: state.filling.per_volume.min(axis=-1), math.inf, _filling),
    "shut_off": Handed(lambda state: state.shut_off.at_tank.max(axis=-1), -math.inf, _shut_off),
}
"""By block. Every check that needs a fact of the tank reads one of these; a test holds them to it."""


def tank_checks(problem: Problem) -> tuple[int, ...]:
    """The numbers of the checks that rest on a fact which the choice of a tank sets."""
    facts = set(problem.part("tank").columns)
    return tuple(
        n for n, check in enumerate(FLOW_CHECKS) if facts & {*check.needs, *chain(*check.other_needs.values())}
    )
