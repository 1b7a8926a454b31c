"""What the gauges should read, and the gas that a deep vacuum draws out of the water."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from lakewright import units
from lakewright.physics.gas import air_solubility, released_gas_share
from lakewright.physics.types import GRAVITY
from lakewright.physics.water import vapour_pressure
from lakewright.state.cases import CLEAN, OPEN, cases_of
from lakewright.state.control_facts import BY_FLOW, HELD
from lakewright.state.facts import Facts
from lakewright.state.lake import air_pressure, lake
from lakewright.state.priming import NEVER
from lakewright.state.walk import State, tank_pressure

GAS_WORTH_A_WORD = 0.02
"""ours: share of the water's volume; less comes out of every line that lifts ten feet, and no pump minds it."""


@dataclass(frozen=True)
class Reading:
    """What a gauge should read, lowest and highest over the days [Pa gauge]; negative is vacuum."""

    gauge: str
    when: str
    low: float
    high: float


def readings_of(facts: Facts, state: State) -> tuple[Reading, ...]:
    """What gauges should read, the line clean: at the suction port, and at the pump on the tank's side of its check.

    Heights are the pump's. Those whose reading nobody knows are left out.
    """
    cases = cases_of(len(facts.day_names))
    runs = (cases.running_line == CLEAN) & (cases.running_end != OPEN)
    delivery, day = facts.delivery, cases.running_day[runs]
    still = lake(facts, cases.standing_day, np.full(cases.days, CLEAN)).density
    over = (delivery.height - facts.pump.height) * GRAVITY
    ends = tank_pressure(facts, cases.running_end[runs])
    low = facts.control.start if facts.control_kind in HELD else delivery.cut_in
    high = state.shut_off.at_tank if facts.control_kind == BY_FLOW else delivery.cut_out
    pairs = (
        ("suction", "standing", state.standing.pressure),
        ("pressure", "standing", np.concatenate([low + over * still, high + over * still])),
        ("suction", "running", state.line.pressure[runs]),
        ("pressure", "running", ends + (over + GRAVITY * state.delivery.loss[runs]) * still[day]),
    )
    readings = [Reading(name, when, float(found.min()), float(found.max())) for name, when, found in pairs]
    return tuple(each for each in readings if math.isfinite(each.low))


def reading_words(reading: Reading, system: str) -> str:
    """A reading in words: vacuum where there is vacuum alone.

    >>> reading_words(Reading("suction", "standing", -34e3, -27e3), "US")
    'suction 8.0 to 10.0 inHg of vacuum'
    """
    kind, sign, after = ("vacuum", -1.0, " of vacuum") if reading.high < 0.0 else ("gauge", 1.0, "")
    low, high = (units.show(sign * value, kind, system) for value in sorted((reading.low, reading.high), key=abs))
    if low == high:
        return f"{reading.gauge} {low}{after}"
    return f"{reading.gauge} {low.partition(' ')[0]} to {high}{after}"


def gauge_words(readings: Sequence[Reading], system: str) -> tuple[str, ...]:
    """A line for the gauges while the pump stands, and one while it runs."""
    lines = []
    for when in ("standing", "running"):
        words = [reading_words(each, system) for each in readings if each.when == when]
        if words:
            lines.append(f"gauges {when}: {', '.join(words)}")
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


def prime_words(facts: Facts, state: State, system: str) -> str:
    """What to say beside the time it takes to prime: how, with how much water, and what then holds it."""
    if state.priming is None:
        return ""
    if float(state.priming.time.max()) >= NEVER:
        return "; it never will: nothing draws the air out, and no valve holds what is poured in"
    held = HOLDERS.get((float(facts.holding.at_inlet[0]), float(facts.holding.at_pump[0])), "held by nothing")
    if bool(state.priming.draws_air.all()):
        return f"; the pump draws the air out, {held}"
    return f"; {units.show(float(state.priming.fill.max()), 'volume', system)} poured in, {held}"
