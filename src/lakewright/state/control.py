"""What a controller or the float of a store does in place of a pressure switch."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.physics import speed, water
from lakewright.physics.atmosphere import atmospheric_pressure
from lakewright.physics.heat import least_flow
from lakewright.physics.store import PEAK_TIME, least_content, peak_draws, weeping_cycle
from lakewright.physics.tank import drawdown_share
from lakewright.physics.types import GRAVITY, Array
from lakewright.state.cases import CUT_IN, OPEN, Cases
from lakewright.state.control_facts import BY_FLOW, BY_SPEED, HELD, STORE
from lakewright.state.facts import Facts
from lakewright.state.hydraulics import Circuit
from lakewright.state.solve import Operation, head_left

Mask = NDArray[np.bool_]

HEATED_BY = 15.0 / 1.8
"""The most that passing water is warmed [K]. Source: pages on the minimum flow of centrifugal pumps, 15 F."""


@dataclass(frozen=True, eq=False, repr=False)
class ControlInUse:
    """A controller, or an open store, while the pump runs. Running cases."""

    held: Mask  # by a controller, with the tank at the pressure that decides
    at_open: Mask  # by a controller, asked once a day and line
    start: Array  # Pa gauge
    rest_pressure: Array  # Pa gauge, when flow dies at the rated speed
    pressure: Array  # Pa gauge, with the need running at the rated speed
    least_pressure: Array  # Pa gauge, at which a controller starts the pump, or that it holds
    driven: Mask  # by speed
    rest_speed: Array  # share of the rated speed at which it holds that pressure while nobody draws
    least_speed: Array  # share that the drive allows
    filling: Mask  # an open store
    inflow: Array  # m3/s
    fill_flow: Array  # m3/s, that makes good a day's use in the time given for it


@dataclass(frozen=True, eq=False, repr=False)
class ControlAtRest:
    """A controller while nobody draws. Standing cases."""

    held: Mask
    static: Array  # Pa gauge, that the highest tap keeps on it
    start: Array  # Pa gauge


@dataclass(frozen=True, eq=False, repr=False)
class Weeping:
    """A controller while a trickle runs. Standing cases."""

    held: Mask
    cycle: Array  # s, from start to start
    least_cycle: Array  # s, that the motor bears
    least_flow: Array  # m3/s, down to which the pump runs on
    cooling_flow: Array  # m3/s, that keeps its water from warming


@dataclass(frozen=True, eq=False, repr=False)
class StoreInUse:
    """An open store over two days of peaks. Running cases; the pump fills it."""

    filling: Mask
    left: Array  # m3, the least that is left in it
    volume: Array  # m3


@dataclass(frozen=True, eq=False, repr=False)
class StoreAsBuilt:
    """An open store. Standing cases; what is as built has one value."""

    stored: Mask
    volume: Array  # m3
    per_day: Array  # m3
    stops: Array  # of float and overflow
    over_booster: Array  # m, the lowest water over the booster's suction port


def _is(facts: Facts, *kinds: str) -> Mask:
    return np.array([facts.control_kind in kinds])


def control_in_use(facts: Facts, cases: Cases, path: Circuit, operation: Operation) -> ControlInUse:
    """What a controller, or an open store, asks of the pump."""
    control, pump, flow = facts.control, facts.pump, operation.flow
    centrifugal, held = facts.pump_kind == "centrifugal", facts.control_kind in HELD
    at_cut_in, demand = cases.running_end == CUT_IN, np.take(facts.days.demand, cases.running_day, axis=-1)
    nothing = np.zeros_like(flow)
    pressure, rest_speed = nothing, nothing
    if held and centrifugal:
        left = head_left(facts, path, facts.need.flow * demand)
        # Past the end of its curve, or of what a valve lets through, the pump has no pressure left for anyone.
        pressure = np.maximum(facts.delivery.cut_in + path.density * GRAVITY * left, 0.0)
        faults = facts.faults
        shut_off = (1.0 - faults.wear) * faults.speed * faults.speed * pump.curve.c0[..., :1]
        rest_speed = speed.least_speed_ratio(shut_off - operation.left_at_rest, shut_off)
    asked = facts.control_kind == STORE
    fill_flow = control.per_day * demand / control.fill_time if asked else nothing + 1.0
    return ControlInUse(
        held=at_cut_in & held & centrifugal,
        at_open=(cases.running_end == OPEN) & held,
        start=control.start,
        rest_pressure=operation.rest_pressure,
        pressure=pressure,
        least_pressure=facts.delivery.cut_in,
        driven=at_cut_in & centrifugal & _is(facts, BY_SPEED),
        rest_speed=rest_speed,
        least_speed=control.least_speed,
        filling=at_cut_in & asked,
        inflow=flow,
        fill_flow=fill_flow,
    )


def control_at_rest(facts: Facts, static: Array) -> ControlAtRest:
    """What a controller feels while nobody draws; `static` in Pa gauge, that the highest tap keeps on it."""
    return ControlAtRest(_is(facts, *HELD), static, facts.control.start)


def weeping(facts: Facts, stopped: Array) -> Weeping:
    """A controller while a trickle runs, day by day; `stopped` in Pa gauge, at which the pump stops run shut."""
    control, delivery = facts.control, facts.delivery
    still = 0.0 * facts.days.level
    held = _is(facts, *HELD)
    if not held.any():
        none = still + 1.0
        return Weeping(held, none, none, none, none)
    # A drive slows to nothing at the pressure it holds; a controller of flow lets pressure rise to the pump's shut-off.
    most = stopped if facts.control_kind == BY_FLOW else delivery.cut_in + still
    air = atmospheric_pressure(facts.site.elevation)
    share = drawdown_share(np.minimum(delivery.precharge, control.start), control.start, most, air)
    drawdown = delivery.tank_volume * np.maximum(share, 0.0)
    density = water.density(facts.days.temperature)
    return Weeping(
        held,
        cycle=weeping_cycle(drawdown, control.trickle, control.delay),
        # ours: the rule of starts, told as the time between them: four of the shortest runs.
        least_cycle=4.0 * facts.pump.minimum_run,
        least_flow=control.least_flow,
        cooling_flow=least_flow(facts.heat.power, np.array([HEATED_BY]), density),
    )


def store_in_use(facts: Facts, cases: Cases, inflow: Array) -> StoreInUse:
    """An open store over two days of peaks, in the running cases; `inflow` in m3/s."""
    control, stored = facts.control, facts.control_kind == STORE
    left = np.zeros_like(inflow)
    if stored:
        demand = np.take(facts.days.demand, cases.running_day, axis=-1)
        draws = peak_draws(control.per_day * demand)
        left = least_content(control.store_volume, inflow, draws, np.array([PEAK_TIME]))
    asked = (cases.running_end == CUT_IN) & stored
    return StoreInUse(asked, left, control.store_volume)


def store_as_built(facts: Facts) -> StoreAsBuilt:
    """An open store as it is built."""
    control = facts.control
    return StoreAsBuilt(
        stored=_is(facts, STORE),
        volume=control.store_volume,
        per_day=control.per_day * facts.days.demand,
        stops=control.stops,
        over_booster=control.low - control.booster_height,
    )
