"""What gauges, bucket and watch would read at a visit: the walk, asked at the pressure that the visit finds."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from lakewright.physics import gauge, tank
from lakewright.physics.atmosphere import SEA_LEVEL_PRESSURE
from lakewright.physics.suction import head_of, npsh_available
from lakewright.physics.types import GRAVITY, Array
from lakewright.search.unknowns import Visits
from lakewright.state.cases import CLEAN
from lakewright.state.facts import Facts
from lakewright.state.hydraulics import Circuit, Losses, circuit, pick_cases
from lakewright.state.lake import Lake, lake, line_top
from lakewright.state.meters import drawdown, most_flow, motor_current
from lakewright.state.solve import Alike, Mask, Operation, operate

PRIME_LOST = 0.10
"""Share of air past which a pump moves no water. memory: 7 to 10 %, and much by the pump."""

REQUIRED = 1.0
"""ours: net suction head [m] taken as required where no curve gives it; a small pump far from its most flow."""

LONGEST = 3600.0
"""ours: a pump that does not keep up with the tap never stops; a watch is put away after an hour [s]."""

HALVINGS = 14
"""ours: to a part in sixteen thousand of the flow, of which a bucket tells one in twenty."""


@dataclass(frozen=True)
class Sight:
    """What a visit would read, by reading; every array broadcasts over (row, sample, 1)."""

    readings: Mapping[str, Array]
    bands: Mapping[str, tuple[Array, Array]]  # of the pressures, between which the person chooses
    pumped: Array  # m3/s at the pressure looked at


def sight(facts: Facts, visits: Visits, seen: Mapping[str, Array], drawn: Array, current: Array) -> Sight:
    """What a visit would read.

    Parameters
    ----------
    facts : a batch over (row, sample), of one day
    visits : of the visit, one sample a row
    seen : true values of the readings that are there, SI; the pressures among them say at which the pump is looked at
    drawn : share of the flow that runs elsewhere
    current : the motor's current over that of a sound one
    """
    delivery = facts.delivery
    water = lake(facts, np.zeros(1, dtype=np.intp), np.full(1, CLEAN))
    weight = water.density * GRAVITY
    rise = (delivery.height - facts.pump.height) * weight
    ends = np.concatenate(np.broadcast_arrays(delivery.cut_in, delivery.cut_out), axis=-1)
    flow, losses, dead = _run(facts, water, ends)
    loss = losses.delivery * weight
    least, most = _attainable(delivery.cut_in, delivery.cut_out, dead)
    gauge_low = least + rise + np.where(dead > least, loss[..., :1], 0.0)
    gauge_high = np.maximum(most + rise + loss[..., 1:], gauge_low)
    if "pressure_running" in seen:
        at_gauge = seen["pressure_running"]
        pumped, losses, _ = _run(_at_the_gauge(facts), water, at_gauge)
        held = at_gauge - rise
    else:
        held = least + visits.running * (most - least)
        pumped, losses, _ = _run(facts, water, held)
        at_gauge = held + rise + losses.delivery * weight
    resting = least + visits.standing * (most - least)
    if "pressure_standing" in seen:
        resting = seen["pressure_standing"] - rise
    delivered = pumped * (1.0 - drawn)
    cycle = _cycle(facts, visits.tap, 0.5 * (flow[..., :1] + flow[..., 1:]), drawn)
    readings = {
        "suction_standing": _standing(facts, water, resting),
        "suction_running": _suction(facts, water, pumped, losses),
        "pressure_standing": resting + rise,
        "pressure_running": at_gauge,
        "flow": np.minimum(delivered, _through_filters(facts, held, weight)),
        "flow_before_filter": np.where(delivery.filters_dirty > 0.0, delivered, np.nan),
        "pressure_shut": np.where(facts.faults.air < PRIME_LOST, np.maximum(dead + rise, 0.0), 0.0),
        "suction_shut": _hanging(facts, water),
        "pressure_stop": np.minimum(delivery.cut_out, np.maximum(dead, 0.0)) + rise,
        "tank_air": np.where(delivery.tank_volume > 0.0, np.maximum(delivery.precharge, 0.0), np.nan),
        "lake_level": facts.days.level + facts.faults.level_offset,
        "motor_current": current * motor_current(facts, pumped, most_flow(facts)),
        "drawdown": drawdown(facts),
        "cycle_time": cycle,
    }
    bands = {"pressure_standing": (least + rise, most + rise), "pressure_running": (gauge_low, gauge_high)}
    return Sight(readings, bands, pumped)


def _attainable(cut_in: Array, cut_out: Array, dead: Array) -> tuple[Array, Array]:
    """Least and most pressure at which a person finds the tank: what the pump can hold of the switch's band.

    A pump that does not hold the least of it is found at whatever is left.
    """
    most = np.minimum(cut_out, dead)
    holds = most > cut_in
    return np.where(holds, cut_in, 0.0), np.where(holds, most, cut_in)


def _at_the_gauge(facts: Facts) -> Facts:
    """The same system as far as the gauge after the pump."""
    nothing = np.zeros(1)
    return facts.with_values(
        {
            "delivery.height": facts.pump.height,
            "delivery.length": nothing,
            "delivery.coefficient": nothing,
            "faults.delivery_opening": np.ones(1),
        }
    )


def _run(facts: Facts, water: Lake, pressure: Array) -> tuple[Array, Losses, Array]:
    """Flow [m3/s], every loss at it, and the pressure at which flow dies [Pa gauge], by tank pressure."""
    cases = pressure.shape[-1]
    path = circuit(facts, water, np.full(cases, CLEAN), pressure)
    with np.errstate(divide="ignore", invalid="ignore"):
        found = operate(facts, water, path, pressure, Alike(np.zeros(1, dtype=np.intp), np.zeros(cases, dtype=np.intp)))
        primed = facts.faults.air < PRIME_LOST
        flow = np.where(primed, _held_by_suction(facts, water, path, found), 0.0)
    return flow, path.losses(flow), np.where(primed, found.rest_pressure[..., :1], 0.0)


def _required(facts: Facts, flow: Array, speed: Array, scale: Array) -> Array:
    """Net suction head that the pump asks for [m]; a jet's is in its last lift."""
    if facts.pump_kind == "jet":
        return np.zeros(1)
    curve = facts.pump.required
    found = speed * speed * curve.at(np.minimum(flow / scale, curve.last))
    return np.where(np.isnan(found), REQUIRED, found)


def _suction_head(facts: Facts, water: Lake) -> Array:
    """Head that pushes water to the pump before any loss [m]: over boiling, or for a jet over its table's last lift."""
    if facts.pump_kind == "jet":
        thin = head_of(np.array([SEA_LEVEL_PRESSURE]), water.density) - water.atmosphere_head
        return facts.pump.jet.last_lift - (facts.pump.height - water.level + thin)
    return npsh_available(water.atmosphere_head, water.vapour_head, line_top(facts) - water.level)


def _held_by_suction(facts: Facts, water: Lake, path: Circuit, found: Operation) -> Array:
    """The flow where the suction side gives no more: past it the water boils at the pump, or a jet's table ends."""
    faults, flow = facts.faults, found.flow
    if facts.pump_kind == "jet":
        # Past its last lift a table promises nothing; a line still brings what it can at that lift.
        silent = (found.room < 0.0) & (found.left_at_rest > 0.0)
        flow = np.where(silent, most_flow(facts), flow)
    parts = (_suction_head(facts, water), faults.speed, np.maximum((1.0 - faults.air) * faults.speed, 1e-9))

    def gives(path: Circuit, flow: Array, head: Array, speed: Array, scale: Array) -> Mask:
        return np.asarray(head - path.losses(flow).suction >= _required(facts, flow, speed, scale))

    short = ~gives(path, flow, *parts) & (flow > 0.0)
    if not short.any():
        return flow
    shape, rows = short.shape, np.nonzero(short)
    few = path.pick(rows, shape)
    picked = tuple(pick_cases(part, rows, shape) for part in parts)
    high = pick_cases(flow, rows, shape)
    low = np.zeros_like(high)
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        enough = gives(few, middle, *picked)
        low, high = np.where(enough, middle, low), np.where(enough, high, middle)
    held = np.array(np.broadcast_to(flow, shape))
    held[rows] = low[:, 0]
    return held


def _suction(facts: Facts, water: Lake, flow: Array, losses: Losses) -> Array:
    """The suction gauge, running."""
    weight = water.density * GRAVITY
    lift = line_top(facts) - water.level
    moving = np.where(flow > 0.0, losses.suction, 0.0)
    deepest = gauge.lowest_pressure(water.atmosphere_head * weight, water.vapour_head * weight)
    primed = np.maximum(gauge.running_pressure(lift + moving, losses.velocity, water.density), deepest)
    # A pump that moves no water because of the air in it pulls next to nothing.
    return np.where(facts.faults.air < PRIME_LOST, primed, np.maximum(-lift * weight, 0.0))


def _hanging(facts: Facts, water: Lake) -> Array:
    """The suction gauge, running, the valve after the pump shut: what the lift alone pulls."""
    pulls = -(line_top(facts) - water.level) * (water.density * GRAVITY)
    return np.where(facts.faults.air < PRIME_LOST, pulls, np.maximum(pulls, 0.0))


def _standing(facts: Facts, water: Lake, tank_pressure: Array) -> Array:
    """The suction gauge, standing."""
    holding, delivery = facts.holding, facts.delivery
    lift = line_top(facts) - water.level
    return gauge.standing_pressure(
        holding.at_inlet,
        holding.at_pump,
        np.where(facts.faults.air < PRIME_LOST, facts.faults.airtight, 0.0),
        lift,
        tank_pressure,
        delivery.height - water.level,
        water.density,
    )


def _through_filters(facts: Facts, held: Array, weight: Array) -> Array:
    """What a tap behind the filters gives, wide open [m3/s]."""
    delivery = facts.delivery
    up = np.maximum(facts.taps.height.max(axis=-1, keepdims=True) - delivery.height, 0.0)
    left = np.maximum(held - np.where(np.isnan(up), 0.0, up) * weight, 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        passes = facts.need.flow * np.sqrt(left / delivery.filters_dirty)
    return np.where(delivery.filters_dirty > 0.0, passes, np.inf)


def _cycle(facts: Facts, tap: Array, flow: Array, drawn: Array) -> Array:
    """From one start to the next with one tap open [s]."""
    return np.minimum(tank.cycle_time(drawdown(facts), flow, tap + drawn * flow), LONGEST)
