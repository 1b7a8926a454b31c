"""What the gauges should read, and the gas that a deep vacuum draws out of the water."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from lakewright import units
from lakewright.physics.gas import air_solubility, released_gas_share
from lakewright.physics.tank import cycle_time
from lakewright.physics.types import GRAVITY, Array
from lakewright.physics.water import vapour_pressure
from lakewright.state.cases import CLEAN, CUT_IN, CUT_OUT, OPEN, cases_of
from lakewright.state.control_facts import BY_FLOW, HELD, SWITCH
from lakewright.state.facts import Facts
from lakewright.state.lake import air_pressure, lake, line_top
from lakewright.state.meters import PLATE_OVER_TABLE, drawdown, meters, most_flow, motor_current
from lakewright.state.priming import NEVER
from lakewright.state.walk import State, tank_pressure

GAS_WORTH_A_WORD = 0.02
"""ours: share of the water's volume; less comes out of every line that lifts ten feet, and no pump minds it."""


@dataclass(frozen=True)
class Reading:
    """What a gauge, bucket, watch or clamp should read, lowest and highest over the days; of gauges negative is vacuum.

    name : of the reading in the job file; kind : as it is shown
    within : how far off nine in ten readings of it are at most, by gauge and by eye
    """

    gauge: str
    when: str
    low: float
    high: float
    within: float = 0.0
    name: str = ""
    kind: str = "gauge"


TAP = 0.126e-3
"""What the one open tap is taken to draw [m3/s]. common practice, no source: 2 gpm."""


def readings_of(facts: Facts, state: State, plate_is_read: bool = False) -> tuple[Reading, ...]:
    """What gauges, bucket, watch and clamp should read, the line clean: gauges at the suction port, and at the pump on
    the tank's side of its check; their heights are the pump's. Those whose reading nobody knows are left out.

    Parameters
    ----------
    plate_is_read : whether the motor's current is its plate's, or a table's
    """
    cases = cases_of(len(facts.day_names))
    runs = (cases.running_line == CLEAN) & (cases.running_end != OPEN)
    delivery, day = facts.delivery, cases.running_day[runs]
    water = lake(facts, cases.standing_day, np.full(cases.days, CLEAN))
    still, shut = water.density, state.shut_off
    over = (delivery.height - facts.pump.height) * GRAVITY
    ends = tank_pressure(facts, cases.running_end[runs])
    hangs = (water.level - line_top(facts)) * GRAVITY * still
    low = facts.control.start if facts.control_kind in HELD else delivery.cut_in
    high = state.shut_off.at_tank if facts.control_kind == BY_FLOW else delivery.cut_out
    flow, ended = state.delivery.flow[runs], cases.running_end[runs]
    stored = drawdown(facts)
    cycle = cycle_time(stored, 0.5 * (flow[ended == CUT_IN] + flow[ended == CUT_OUT]), np.full(1, TAP))
    current = motor_current(facts, flow, most_flow(facts))
    plates = np.array((1.0, 1.0) if plate_is_read else PLATE_OVER_TABLE)
    pairs = (
        ("suction", "standing", state.standing.pressure),
        ("pressure", "standing", np.concatenate([low + over * still, high + over * still])),
        ("suction", "running", state.line.pressure[runs]),
        ("pressure", "running", ends + (over + GRAVITY * state.delivery.loss[runs]) * still[day]),
        ("pressure", "shut", shut.at_pump),
        ("suction", "shut", hangs),
    )
    stops = np.minimum(high, shut.at_tank) + over * still if facts.control_kind == SWITCH else np.zeros(0)
    filtered = flow if float(delivery.filters_dirty[0]) > 0.0 else np.zeros(0)
    others = (
        ("pressure", "stopping", "pressure_stop", "gauge", stops),
        ("tyre gauge", "empty", "tank_air", "gauge", delivery.precharge[delivery.tank_volume > 0.0]),
        ("mark", "any time", "lake_level", "height", facts.days.level),
        ("bucket", "running", "flow", "flow", flow),
        ("bucket", "before the filters", "flow_before_filter", "flow", filtered),
        ("bucket", "standing", "drawdown", "volume", stored[stored > 0.0]),
        ("watch", "running", "cycle_time", "minutes", cycle[cycle > 0.0]),
        ("clamp", "running", "motor_current", "current", current[:, None] * plates),
    )
    every = [*((gauge, when, f"{gauge}_{when}", "gauge", found) for gauge, when, found in pairs), *others]
    readings = (_reading(*each) for each in every if each[-1].size)
    return tuple(each for each in readings if math.isfinite(each.low) and math.isfinite(each.high))


def _reading(gauge: str, when: str, name: str, kind: str, found: Array) -> Reading:
    within = float(np.max(meters()[name].within(found)))
    return Reading(gauge, when, float(found.min()), float(found.max()), within, name, kind)


def reading_words(reading: Reading, system: str) -> str:
    """A reading in words: vacuum where there is vacuum alone.

    >>> reading_words(Reading("suction", "standing", -34e3, -27e3), "US")
    'suction 8.0 to 10.0 inHg of vacuum'
    """
    vacuum = reading.kind == "gauge" and reading.high < 0.0
    kind, sign, after = ("vacuum", -1.0, " of vacuum") if vacuum else (reading.kind, 1.0, "")
    low, high = (units.show(sign * value, kind, system) for value in sorted((reading.low, reading.high), key=abs))
    span = low if low == high else f"{low.partition(' ')[0]} to {high}"
    before = f"{reading.gauge} " if reading.kind == "gauge" else ""
    near = f" \u00b1 {units.show(reading.within, kind, system).partition(' ')[0]}" if reading.within else ""
    return f"{before}{span}{after}{near}"


GAUGED = {
    "standing": "standing",
    "running": "running",
    "shut": "running, the valve after the pump shut for a moment",
    "stopping": "as it stops",
}
"""States of the pump in which gauges are read, and how they are called."""


def gauge_words(readings: Sequence[Reading], system: str) -> tuple[str, ...]:
    """A line for the gauges in each state of the pump, and one for bucket, watch and clamp."""
    lines = []
    for when, said in GAUGED.items():
        words = [reading_words(each, system) for each in readings if each.when == when and each.kind == "gauge"]
        if words:
            lines.append(f"gauges {said}: {', '.join(words)}")
    tap = units.show(TAP, "flow", system)
    after = {
        "flow": "by bucket",
        "drawdown": "from cut-out to cut-in",
        "cycle_time": f"from start to start with a tap of {tap} open",
        "motor_current": "of motor current",
    }
    words = [f"{reading_words(each, system)} {after[each.name]}" for each in readings if each.name in after]
    if words:
        lines.append(f"readings: {', '.join(words)}")
    return tuple(lines)


def gas_words(facts: Facts, state: State, system: str) -> str:
    """What to say beside the lift of the air that comes out of the water; nothing where it is little."""
    day = cases_of(len(facts.day_names)).running_day
    temperature = np.take(facts.days.temperature, day, axis=-1)
    air, boils = air_pressure(facts), vapour_pressure(temperature)
    share = released_gas_share(air_solubility(temperature), air, air + state.line.pressure, boils)
    most = float(share.max())
    if not GAS_WORTH_A_WORD < most < 1.0:
        return ""
    return f"; up to {units.show(most, 'share', system)} of gas may come out of the water"


HOLDERS = {
    (1.0, 1.0): "held by foot valve and check",
    (1.0, 0.0): "held by the foot valve alone",
    (0.0, 1.0): "held by the check while no air gets in",
}
"""What holds a primed line, by what holds at the inlet and at the pump."""


def held_words(facts: Facts) -> str:
    """What holds the water in the line."""
    return HOLDERS.get((float(facts.holding.at_inlet[0]), float(facts.holding.at_pump[0])), "held by nothing")


def prime_words(facts: Facts, state: State, system: str) -> str:
    """What to say beside the time it takes to prime: how, with how much water, and what then holds it."""
    if state.priming is None:
        return ""
    if float(state.priming.time.max()) >= NEVER:
        return "; it never will: nothing draws the air out, and no valve holds what is poured in"
    held = held_words(facts)
    if bool(state.priming.draws_air.all()):
        return f"; the pump draws the air out, {held}"
    return f"; {units.show(float(state.priming.fill.max()), 'volume', system)} poured in, {held}"
