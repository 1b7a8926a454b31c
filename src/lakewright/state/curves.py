"""A pump against its circuit over a range of flows: what the flow would be asked and given, case by case."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lakewright.physics.jet import JetTable
from lakewright.physics.types import Array
from lakewright.state.cases import cases_of
from lakewright.state.facts import Facts
from lakewright.state.hydraulics import circuit
from lakewright.state.lake import lake, line_top
from lakewright.state.solve import _centrifugal, _jet
from lakewright.state.walk import tank_pressure

FLOWS = 61
"""ours: even flows from none to the most; a curve through them is smooth on a sheet."""


@dataclass(frozen=True, eq=False, repr=False)
class Curves:
    """Over flows on the last axis, one row a running case, or one row where all share it.

    Of a centrifugal pump heads [m] are those the pump makes and the whole circuit asks, from water to tank; of a jet
    those over its outlet. `available` and `required` are net positive suction heads [m]; of a jet the suction lift
    with its losses, and the highest that its maker's table has. nan where the maker says nothing.
    """

    flow: Array  # m3/s, one row
    pump: Array
    system: Array
    available: Array
    required: Array


def curves_of(facts: Facts, marked: Array) -> Curves:
    """The curves of one job; nan throughout where it has no pump.

    Parameters
    ----------
    marked : flows at which the curves are to be exact, and to which they reach at least [m3/s]
    """
    cases = cases_of(len(facts.day_names))
    water = lake(facts, cases.running_day, cases.running_line)
    pressure = tank_pressure(facts, cases.running_end)
    path = circuit(facts, water, cases.running_line, pressure)
    if facts.pump_kind == "jet":
        unit = _jet(facts, water, path, pressure)
        end = float(np.max(unit.factor * unit.table.at(unit.still_lift, unit.table.first_pressure)[0]))
    else:
        scale = float(np.max((1.0 - facts.faults.air) * facts.faults.speed))
        end = float(facts.pump.curve.last[0]) * scale
    flow = np.unique(np.concatenate([np.linspace(0.0, max(end, float(np.max(marked))), FLOWS), marked]))
    losses = path.losses(flow[:, None])
    lift = line_top(facts) - water.level + losses.suction
    if facts.pump_kind == "jet":
        reached, over = unit.point(losses.suction, losses.delivery)
        pump = _jet_head(unit.factor, unit.table, reached, flow) / unit.weight
        return Curves(flow, pump.T, (over / unit.weight).T, reached.T, facts.pump.jet.last_lift[None, :])
    pump_at = _centrifugal(facts, path)
    share = flow / pump_at.flow_scale
    head = pump_at.head_scale * pump_at.curve.at(share)
    required = facts.faults.speed * facts.faults.speed * facts.pump.required.at(share)
    available = water.atmosphere_head - water.vapour_head - lift
    system = path.static + losses.suction + losses.delivery
    return Curves(flow, head[None, :], system.T, available.T, required[None, :])


def _jet_head(factor: Array, table: JetTable, lift: Array, flow: Array) -> Array:
    """Pressure at which a jet gives a flow at a lift [Pa gauge], (flow, case); nan where it gives it at none."""
    # Between the table's own pressures its flow is straight.
    pressures = np.unique([*table.pressure_starts, *table.last_pressure])
    given = np.atleast_1d(factor)[..., None] * table.at(lift[..., None], pressures)[0]
    found = np.full(lift.shape, np.nan)
    for row in np.ndindex(lift.shape):
        falls, wanted = given[row], flow[row[0]]
        if lift[row] <= table.last_lift[0] and falls[-1] <= wanted <= falls[0]:
            # At rest the pressure at which flow is first nothing; else the one that gives it.
            rest = int(np.argmax(falls <= 0.0))
            found[row] = np.interp(-wanted, -falls, pressures) if wanted > 0.0 else pressures[rest]
    return found
