"""What is left over at the flows the walk returns, asked anew of the published functions.

To see the figures for 10^5 circuits of each kind of pump: python -m tests.state.residual
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.physics import pipe
from lakewright.physics.suction import head_of
from lakewright.physics.types import GRAVITY, Array
from lakewright.state.cases import cases_of
from lakewright.state.facts import Facts
from lakewright.state.hydraulics import Losses, circuit
from lakewright.state.lake import lake
from lakewright.state.walk import State, tank_pressure, walk
from tests.made import most_of, random_batch

CHUNK = 4000
"""ours: jobs walked at once; the figures do not depend on it."""

SEA_LEVEL = 101325.0
"""[Pa] Source: US Standard Atmosphere 1976."""

Mask = NDArray[np.bool_]


class Balance:
    """A batch's circuits in the running cases, at any flow. It shares nothing with the solver but the facts."""

    def __init__(self, facts: Facts) -> None:
        cases = cases_of(len(facts.day_names))
        self.facts = facts
        self.tank = tank_pressure(facts, cases.running_end)
        self.water = lake(facts, cases.running_day, cases.running_line)
        self.circuit = circuit(facts, self.water, cases.running_line, self.tank)
        self.weight = self.water.density * GRAVITY
        faults = facts.faults
        self.flow_scale = (1.0 - faults.air) * faults.speed
        self.head_scale = (1.0 - faults.wear) * faults.speed * faults.speed
        self.jet_scale = self.flow_scale * (1.0 - faults.wear) * faults.nozzle

    @property
    def most(self) -> Array:
        """The most flow that each maker publishes, as this pump runs."""
        if self.facts.pump_kind == "jet":
            return most_of(self.facts.pump.jet) * self.jet_scale
        return self.facts.pump.curve.last * self.flow_scale

    def losses(self, flow: Array) -> Losses:
        return self.circuit.losses(flow)

    def left(self, flow: Array) -> Array:
        """Head [m] or, for a jet, flow [m3/s] left over at a flow."""
        if self.facts.pump_kind == "jet":
            return self.jet_scale * self.facts.pump.jet.at(*self.table_point(flow))[0] - flow
        losses = self.losses(flow)
        x = np.minimum(flow / self.flow_scale, self.facts.pump.curve.last)
        head = self.head_scale * self.facts.pump.curve.at(x)
        rise = self.facts.delivery.height - self.water.level + self.tank / self.weight
        return head - rise - losses.suction - losses.delivery

    def table_point(self, flow: Array) -> tuple[Array, Array]:
        """Equivalent lift [m] and discharge pressure [Pa gauge] at a flow."""
        losses = self.losses(flow)
        height = self.facts.pump.height
        thin = head_of(np.array([SEA_LEVEL]), self.water.density) - self.water.atmosphere_head
        lift = height - self.water.level + losses.suction + thin
        return lift, self.tank + self.weight * (self.facts.delivery.height - height + losses.delivery)

    def past_table(self, flow: Array) -> Mask:
        """Where a jet's maker says nothing of this flow."""
        lift, pressure = self.table_point(flow)
        table = self.facts.pump.jet
        return (lift > table.last_lift) | (pressure > table.last_pressure)

    def head_left(self, flow: Array) -> Array:
        """What is left over, as head [m]: a jet's left-over flow times what one more flow would cost in losses."""
        left = self.left(flow)
        if self.facts.pump_kind != "jet":
            return left
        span = 1e-6 * np.maximum(flow, 1e-12)
        more, less = self.losses(flow + span), self.losses(np.maximum(flow - span, 0.0))
        steep = (more.suction + more.delivery - less.suction - less.delivery) / (2.0 * span)
        return left * steep

    def bisected(self, most: Array) -> Array:
        """The flow at which nothing is left over, by halving alone."""
        low, high = np.zeros_like(most), most.copy()
        for _ in range(60):
            middle = 0.5 * (low + high)
            more = self.left(middle) > 0.0
            low, high = np.where(more, middle, low), np.where(more, high, middle)
        return 0.5 * (low + high)

    def in_transition(self, flow: Array) -> Mask:
        """Where any pipe runs between laminar and turbulent."""
        c, found = self.circuit, np.zeros(np.shape(flow), dtype=bool)
        for bore in (c.riser_bore, c.bore, c.delivery_bore):
            reynolds = pipe.velocity(flow, bore) * bore / c.viscosity
            found |= (reynolds > 2000.0) & (reynolds < 4000.0)
        return found


@dataclass(frozen=True)
class Residual:
    """A batch's running cases, sorted by how each flow is accounted for. Arrays are (job, case)."""

    flow: Array
    head_left: Array
    closed: Mask  # a flow at which nothing should be left over
    falling: Mask  # more flow leaves less over
    at_rest: Mask  # no flow, and the pump cannot lift
    run_out: Mask  # the last flow of the curve, head left over
    refused: Mask  # no flow, and the jet's table does not say
    bracketed: Mask
    transition: Mask
    near_shut_off: Mask  # a flow under a twentieth of the most this pump gives
    near_run_out: Mask  # over nineteen twentieths


def residual_of(facts: Facts, state: State) -> Residual:
    """Account for every running flow of a batch."""
    balance, flow = Balance(facts), state.flow.flow
    rest = balance.left(np.zeros_like(flow))
    is_jet = facts.pump_kind == "jet"
    most = np.broadcast_to(balance.most, flow.shape)
    still = flow == 0.0
    at_rest = still & (rest <= 0.0)
    refused = np.zeros_like(still)
    if is_jet:
        refused = still & (rest > 0.0) & balance.past_table(balance.bisected(np.maximum(rest, 1e-9)))
    run_out = ~still & (flow == most) & (balance.left(flow) >= 0.0) & (not is_jet)
    share = flow / most
    span = 1e-5 * flow
    falls = balance.left(flow - span) > balance.left(flow + span)
    return Residual(
        flow=flow,
        head_left=balance.head_left(flow),
        closed=~still & ~run_out,
        falling=falls,
        at_rest=at_rest,
        run_out=run_out,
        refused=refused,
        bracketed=state.flow.bracketed,
        transition=~still & balance.in_transition(flow),
        near_shut_off=~still & (share < 0.05),
        near_run_out=~still & ~run_out & (share > 0.95),
    )


def chunks(kind: str, jobs: int) -> Iterator[Residual]:
    """So many generated jobs of one day, six circuits each, a chunk at a time."""
    for number in range(jobs // CHUNK):
        facts = random_batch(number, CHUNK, kind, 1)
        yield residual_of(facts, walk(facts))


def figures(kind: str, jobs: int) -> dict[str, float]:
    """The figures of the report, over all chunks."""
    found: dict[str, float] = {}
    worst: dict[str, float] = {"closed": 0.0, "transition": 0.0, "near_shut_off": 0.0, "near_run_out": 0.0}
    count = 0
    names = ("closed", "at_rest", "run_out", "refused", "bracketed", "transition", "near_shut_off", "near_run_out")
    for part in chunks(kind, jobs):
        count += part.flow.size
        for name in names:
            found[name] = found.get(name, 0.0) + float(getattr(part, name).sum())
        for name in worst:
            left = np.abs(part.head_left[part.closed & getattr(part, name)])
            worst[name] = max(worst[name], float(left.max(initial=0.0)))
    shares = {name: found[name] / count for name in found}
    return {"circuits": count, **shares, **{f"left over, {name}": value for name, value in worst.items()}}


def main(jobs: int = 100_000) -> None:
    for kind in ("centrifugal", "jet"):
        found = figures(kind, jobs)
        print(f"{kind}: {jobs:,} jobs, {int(found.pop('circuits')):,} circuits")
        for name, value in found.items():
            print(f"  {name.replace('_', ' '):28} {value:.1e} m" if "left" in name else f"  {name:28} {value:8.3%}")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
