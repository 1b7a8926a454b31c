"""What reaches the taps when the tank is at its lowest. The axis of branches is born here and reduced here."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.physics import pipe, water
from lakewright.physics.types import GRAVITY, Array, Index
from lakewright.state.cases import CUT_IN, FOULED, Cases
from lakewright.state.control_facts import STORE
from lakewright.state.facts import Facts
from lakewright.state.lake import Lake


@dataclass(frozen=True, eq=False, repr=False)
class Taps:
    """The tap that lacks most, with the tank at cut-in. Running cases."""

    pressure: Array  # Pa gauge
    least: Array  # Pa gauge, that it wants
    easy: Array  # Pa gauge, with which nobody complains
    which: Index  # of `Facts.tap_names`
    at_cut_in: NDArray[np.bool_]
    boosted: NDArray[np.bool_]  # from an open store


def taps(facts: Facts, cases: Cases, lake: Lake) -> Taps:
    """Every branch's highest tap while its branch runs, and of them the one that lacks most, case by case."""
    pressure = _pressure(facts, cases, lake)
    least, easy = facts.taps.least[..., None], facts.taps.easy[..., None]
    which = np.argmin((pressure - least) / (easy - least), axis=-2, keepdims=True)
    return Taps(
        pressure=_of(which, pressure, pressure),
        least=_of(which, least, pressure),
        easy=_of(which, easy, pressure),
        which=which[..., 0, :],
        at_cut_in=cases.running_end == CUT_IN,
        boosted=np.array([facts.control_kind == STORE]),
    )


def _of(which: Index, array: Array, like: Array) -> Array:
    found: Array = np.take_along_axis(np.broadcast_to(array, like.shape), which, axis=-2)[..., 0, :]
    return found


def _pressure(facts: Facts, cases: Cases, lake: Lake) -> Array:
    """Gauge pressure at every tap [Pa], shape (..., branch, case)."""
    branch, delivery = facts.taps, facts.delivery
    density, viscosity = lake.density[..., None, :], lake.viscosity[..., None, :]
    demand = np.take(facts.days.demand, cases.running_day, axis=-1)[..., None, :]
    bore, length, roughness = (part[..., None] for part in (branch.bore, branch.length, branch.roughness))
    loss = pipe.pipe_loss(branch.flow[..., None] * demand, bore, length, roughness, viscosity)
    rise = branch.height[..., None] - delivery.height[..., None, :]
    told = np.where(cases.running_line == FOULED, delivery.filters_dirty, delivery.filters_clean)[..., None, :]
    share = branch.filtered[..., None] * demand / facts.need.flow[..., None, :]
    filters = told * filter_share(share)
    if facts.control_kind == STORE:
        return density * GRAVITY * (_boosted(facts, demand) - branch.height[..., None] - loss) - filters
    return delivery.cut_in[..., None, :] - density * GRAVITY * (rise + loss) - filters


def _boosted(facts: Facts, demand: Array) -> Array:
    """Height to which the booster lifts the need from the lowest water in the store [m], shape (..., 1, case).

    Past the end of its curve it lifts nothing.
    """
    control = facts.control
    flow = (facts.need.flow[..., None, :] * demand)[..., 0, :]
    head = np.where(flow > control.booster.last, 0.0, control.booster.at(np.minimum(flow, control.booster.last)))
    found: Array = (control.low + head)[..., None, :]
    return found


def filter_share(share: Array) -> Array:
    """What filters lose, as a share of the loss told at one flow, by the flow as a share of that one.

    A loss told at one flow is part Darcy's, which goes with flow, and part Forchheimer's, with its square. Which of
    them rules nobody tells, and no mix of the two is more than the larger (ours). Cold water adds nothing: a filter
    is changed by what it loses, however cold.

    >>> filter_share(np.array([0.5, 1.0, 2.0])).tolist()
    [0.5, 1.0, 4.0]
    """
    return np.maximum(share, share * share)


def static_over_switch(facts: Facts) -> Array:
    """Pressure that the water standing in the highest tap's pipe keeps on the switch, day by day [Pa]."""
    found: Array = water.density(facts.days.temperature) * GRAVITY * (highest_tap(facts) - facts.delivery.height)
    return found


def highest_tap(facts: Facts) -> Array:
    """Height of the highest tap of all branches [m]."""
    found: Array = np.max(facts.taps.height, axis=-1, keepdims=True)
    return found
