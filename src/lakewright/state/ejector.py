"""What an ejector of known sizes does at work: how near its water is to boiling, and whether the pump stays primed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from lakewright.physics.atmosphere import SEA_LEVEL_PRESSURE
from lakewright.physics.ejector import most_drawn
from lakewright.physics.suction import head_of
from lakewright.physics.types import GRAVITY, Array
from lakewright.state.cases import OPEN, cases_of
from lakewright.state.facts import Facts

if TYPE_CHECKING:
    from lakewright.state.walk import State


@dataclass(frozen=True, eq=False, repr=False)
class Ejector:
    """An ejector of known sizes at work. Running cases."""

    is_jet: NDArray[np.bool_]
    fitted: NDArray[np.bool_]  # its sizes are known
    under_pressure: NDArray[np.bool_]  # all but the open tank
    drawn_share: Array  # of the most it draws before its water boils
    outlet: Array  # Pa gauge, at the pump's outlet
    least_outlet: Array  # Pa gauge, under which the pump's own inlet runs short; 0 where the ejector sits at the pump


def ejector(facts: Facts, passed: State, tank: Array) -> Ejector:
    """An ejector at work, read at its lift in thin air as its table is.

    Parameters
    ----------
    passed : the blocks that the flow passes
    tank : [Pa gauge] in the running cases
    """
    sized, water, cases = facts.ejector, passed.lake, cases_of(len(facts.day_names))
    weight = water.density * GRAVITY
    sea = head_of(np.array([SEA_LEVEL_PRESSURE]), water.density)
    lift = facts.pump.height - water.level + passed.line.suction_loss + sea - water.atmosphere_head
    before = weight * (sea + sized.below - lift)
    most = most_drawn(sized.annulus, before, weight * water.vapour_head, water.density, sized.cavitation)
    flow = passed.flow.flow
    moving = flow != 0.0
    share = flow / np.where(moving, np.maximum(most, 1e-12), 1.0) + 0.0 * most
    outlet = tank + weight * (facts.delivery.height - facts.pump.height + passed.delivery.loss)
    least = sized.least_outlet.at(np.minimum(lift, sized.least_outlet.last))
    return Ejector(
        is_jet=np.array([facts.pump_kind == "jet"]),
        fitted=sized.fitted != 0.0,
        under_pressure=cases.running_end != OPEN,
        drawn_share=share + 0.0 * sized.fitted,
        outlet=np.maximum(outlet, sized.outlet_held),
        least_outlet=least,
    )
