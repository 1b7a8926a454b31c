"""Where pump and circuit agree. Any pump answers one question: what is left over at flow q?

Every row is solved by the same fixed number of passes and from its own numbers alone, so that a design has the same
bits alone and in any batch. The few rows that have not closed by then are finished, each within its own bracket.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from lakewright.physics import curve as curves
from lakewright.physics import jet as jets
from lakewright.physics.atmosphere import SEA_LEVEL_PRESSURE
from lakewright.physics.suction import head_of
from lakewright.physics.types import GRAVITY, Array, Index
from lakewright.state.facts import Facts
from lakewright.state.hydraulics import Circuit, Losses, Resistance, pick_cases, resistance
from lakewright.state.lake import Lake

PASSES = 2
"""ours: steps taken by all rows with every loss exact; from the start below, nearly all close in them."""

FINISHING_PASSES = 110
"""ours: for the rows left, steps alone, then a step and a halving by turns; fifty halvings exhaust a double."""

STEPS_FIRST = 6
"""ours: steps alone before halving begins."""

CLOSED = 1e-11
"""ours: a row counts as closed when less head than this is left over [m]; a hundredth of what is promised."""

CLOSED_FLOW = 1e-16
"""ours: the same for a jet, whose left-over is a flow [m3/s]; about 1e-11 m on a domestic line."""

NEARLY = 1e-6
"""ours: head [m] within which a sign is not trusted; ten thousand times what a closed row may leave over."""

NEARLY_FLOW = 1e-10
"""ours: the same for a jet [m3/s]."""

LEAST_SHARE = 1e-12
"""ours: flows are sought above this share of the most; a loss divided by no flow has no slope."""

LOSS_BEND = 0.88
"""ours: losses go with flow to the power 1.75 to 2, so q L'' / L' is about this; it only hastens the steps."""

Mask = NDArray[np.bool_]
Rows = tuple[Index, ...]
Table = TypeVar("Table", curves.Curve, jets.JetTable)


@dataclass(frozen=True, eq=False, repr=False)
class Operation:
    """Where pump and circuit agree, in a list of cases."""

    flow: Array  # m3/s; 0 where the pump cannot lift
    left_over: Array  # at that flow: [m] centrifugal, [m3/s] jet; about 0 where they agree
    left_at_rest: Array  # at no flow: [m] centrifugal, [m3/s] jet
    room: Array  # m, head by which the circuit keeps the pump inside what its maker says
    rest_pressure: Array  # Pa gauge at the tank's tee when flow dies
    losses: Losses
    bracketed: Mask  # where the first passes did not close


@dataclass(frozen=True, eq=False, repr=False)
class Centrifugal:
    """A centrifugal pump on a circuit. Its left-over is a head [m]."""

    curve: curves.Curve
    flow_scale: Array
    head_scale: Array
    static: Array
    resistance: Resistance
    closed = CLOSED

    def head(self, flow: Array) -> tuple[Array, Array, Array]:
        """Head of the pump at a flow inside its curve, and its first and second change with flow."""
        x = flow / self.flow_scale
        start, c0, c1, c2, c3 = self.curve.cells(x)
        u = x - start
        head = self.head_scale * (c0 + u * (c1 + u * (c2 + u * c3)))
        scale = self.head_scale / self.flow_scale
        slope = scale * (c1 + u * (2.0 * c2 + u * (3.0 * c3)))
        return head, slope, (scale / self.flow_scale) * (2.0 * c2 + u * (6.0 * c3))

    def next_flow(self, flow: Array) -> tuple[Array, Array]:
        """Head left over at a flow above 0, and a better flow."""
        suction, delivery, suction_steep, delivery_steep = self.resistance.at(flow)
        return self.step(flow, suction + delivery, suction_steep + delivery_steep)

    def step(self, flow: Array, loss: Array, steep: Array) -> tuple[Array, Array]:
        """Head left over where loss and flow times its slope are known, and a better flow (Halley's step)."""
        head, head_slope, head_bend = self.head(flow)
        loss_slope = steep / flow
        left = head - self.static - loss
        slope = head_slope - loss_slope
        ratio = left / slope
        bend = (head_bend - LOSS_BEND * loss_slope / flow) / slope
        return left, flow - ratio / np.maximum(1.0 - 0.5 * ratio * bend, 0.5)

    def left_at(self, flow: Array, losses: Losses) -> Array:
        """Head left over where the losses are already known."""
        return self.head(flow)[0] - self.static - losses.suction - losses.delivery

    def pick(self, rows: Rows, shape: tuple[int, ...]) -> Centrifugal:
        """Some single cases, as a batch."""
        return Centrifugal(
            _pick_table(self.curve, rows, shape),
            pick_cases(self.flow_scale, rows, shape),
            pick_cases(self.head_scale, rows, shape),
            pick_cases(self.static, rows, shape),
            self.resistance.pick(rows, shape),
        )


@dataclass(frozen=True, eq=False, repr=False)
class Jet:
    """A jet pump, by its maker's table, on a circuit. Its left-over is a flow [m3/s]."""

    table: jets.JetTable
    factor: Array
    still_lift: Array  # m, equivalent lift before any loss
    still_pressure: Array  # Pa gauge, discharge pressure before any loss
    weight: Array  # N/m3
    resistance: Resistance
    closed = CLOSED_FLOW

    def point(self, suction: Array, delivery: Array) -> tuple[Array, Array]:
        """Equivalent lift [m] and discharge pressure [Pa gauge] at given losses."""
        return self.still_lift + suction, self.still_pressure + self.weight * delivery

    def next_flow(self, flow: Array) -> tuple[Array, Array]:
        """Flow left over at a flow above 0, and a better flow (Newton's step)."""
        suction, delivery, suction_steep, delivery_steep = self.resistance.at(flow)
        value, by_lift, by_pressure = self.table.at(*self.point(suction, delivery))
        slope = (by_lift * suction_steep + by_pressure * self.weight * delivery_steep) / flow
        left = self.factor * value - flow
        return left, flow - left / (self.factor * slope - 1.0)

    def left_at(self, flow: Array, losses: Losses) -> Array:
        """Flow left over where the losses are already known."""
        return self.factor * self.table.at(*self.point(losses.suction, losses.delivery))[0] - flow

    def pick(self, rows: Rows, shape: tuple[int, ...]) -> Jet:
        """Some single cases, as a batch."""
        return Jet(
            _pick_table(self.table, rows, shape),
            pick_cases(self.factor, rows, shape),
            pick_cases(self.still_lift, rows, shape),
            pick_cases(self.still_pressure, rows, shape),
            pick_cases(self.weight, rows, shape),
            self.resistance.pick(rows, shape),
        )


@dataclass(frozen=True)
class Alike:
    """Which cases differ in tank pressure alone, and so have the same losses at the same flow.

    `first` is one case of each such group, `group` the group of every case.
    """

    first: Index
    group: Index


def operate(facts: Facts, lake: Lake, circuit: Circuit, tank_pressure: Array, alike: Alike) -> Operation:
    """Solve a list of cases, whatever the pump.

    Parameters
    ----------
    facts : of one job or a batch
    lake, circuit : in the list of cases
    tank_pressure : [Pa gauge] in the same list, as given to the circuit
    alike : of the list
    """
    if facts.pump_kind == "jet":
        return _operate_jet(facts, lake, circuit, tank_pressure)
    return _operate_centrifugal(facts, circuit, tank_pressure, alike)


def _centrifugal(facts: Facts, circuit: Circuit) -> Centrifugal:
    faults = facts.faults
    head_scale = (1.0 - faults.wear) * (faults.speed * faults.speed)
    flow_scale = (1.0 - faults.air) * faults.speed
    return Centrifugal(facts.pump.curve, flow_scale, head_scale, circuit.static, resistance(circuit))


def _jet(facts: Facts, lake: Lake, circuit: Circuit, tank_pressure: Array) -> Jet:
    faults = facts.faults
    factor = (1.0 - faults.air) * (1.0 - faults.wear) * faults.speed * faults.nozzle
    thin_air = head_of(np.array([SEA_LEVEL_PRESSURE]), lake.density) - lake.atmosphere_head
    weight = circuit.density * GRAVITY
    pressure = tank_pressure + weight * (facts.delivery.height - facts.pump.height)
    lift = facts.pump.height - lake.level + thin_air
    return Jet(facts.pump.jet, factor, lift, pressure, weight, resistance(circuit))


def falls_short(facts: Facts, lake: Lake, circuit: Circuit, tank_pressure: Array, flow: Array) -> Mask:
    """Where the pump surely brings less than a flow: a sign, not a root, for sorting out the hopeless.

    Within a hair of the flow the answer is no, so that nothing is called hopeless that is only close.
    """
    if facts.pump_kind == "jet":
        left, _ = _jet(facts, lake, circuit, tank_pressure).next_flow(flow)
        return (left < -NEARLY_FLOW) | (flow > facts.delivery.flow_control * (1.0 + 1e-9))
    unit = _centrifugal(facts, circuit)
    most = np.minimum(facts.pump.curve.last * unit.flow_scale, facts.delivery.flow_control)
    left, _ = unit.next_flow(np.minimum(flow, most))
    rest = unit.head_scale * facts.pump.curve.c0[..., :1] - circuit.static - unit.resistance.valve_floor
    # A drooping curve may bring the flow although it cannot start against the head: both are asked.
    return (left < -NEARLY) | (rest < -NEARLY) | (flow > most * (1.0 + 1e-9))


def head_left(facts: Facts, circuit: Circuit, flow: Array) -> Array:
    """Head that a centrifugal pump has left over at a flow [m]; none at all past its curve or what a valve holds."""
    unit = _centrifugal(facts, circuit)
    most = np.minimum(facts.pump.curve.last * unit.flow_scale, facts.delivery.flow_control)
    left, _ = unit.next_flow(np.minimum(np.maximum(flow, LEAST_SHARE * most), most))
    return np.where(flow > most * (1.0 + 1e-9), -np.inf, left)


def _operate_centrifugal(facts: Facts, circuit: Circuit, tank_pressure: Array, alike: Alike) -> Operation:
    pump = facts.pump
    unit = _centrifugal(facts, circuit)
    resist = unit.resistance
    run_out, held = pump.curve.last * unit.flow_scale, facts.delivery.flow_control
    most = np.minimum(run_out, held)
    rest = unit.head_scale * pump.curve.c0[..., :1] - circuit.static - resist.valve_floor
    loss, steep = (np.take(part, alike.group, axis=-1) for part in _most_loss(resist, most, alike))
    at_most = unit.head(most)[0] - circuit.static - loss
    inside = (rest > 0.0) & (at_most < 0.0)
    start = _start(unit, rest, at_most, loss, steep, most)
    flow = np.where(rest <= 0.0, 0.0, np.where(at_most >= 0.0, most, _passes(unit, start, most)))
    flow = np.where(np.isnan(rest) | np.isnan(at_most), np.nan, flow)
    flow, losses, left, bracketed = _finish(unit, circuit, flow, most, inside)
    return Operation(
        flow=flow,
        left_over=np.where(inside, left, np.where(rest <= 0.0, rest, at_most)),
        left_at_rest=rest,
        # A valve that holds the flow under the last point of the curve leaves the pump no way past it.
        room=np.where(held < run_out, np.inf, -at_most),
        rest_pressure=rest * (circuit.density * GRAVITY) + tank_pressure,
        losses=losses,
        bracketed=bracketed,
    )


def _most_loss(resist: Resistance, most: Array, alike: Alike) -> tuple[Array, Array]:
    """Loss at the most flow and its steepness, one case a group."""
    suction, delivery, suction_steep, delivery_steep = resist.take(alike.first).at(most)
    return suction + delivery, suction_steep + delivery_steep


def _start(unit: Centrifugal, rest: Array, at_most: Array, loss: Array, steep: Array, most: Array) -> Array:
    """A first flow: where two parabolas through no flow and the most flow cross, bettered once.

    The bettering takes the loss to go with a power of flow that is right at the most flow.
    """
    share = rest / np.maximum(rest - at_most, 1e-9)
    ratio = np.sqrt(np.minimum(np.maximum(share, 1e-6), 1.0))
    floor = unit.resistance.valve_floor
    above = np.maximum(loss - floor, 1e-9)
    power = steep / above
    guess = above * np.exp(power * np.log(ratio))
    _, better = unit.step(most * ratio, floor + guess, power * guess)
    return np.minimum(np.maximum(better, 1e-3 * most), most)


def _operate_jet(facts: Facts, lake: Lake, circuit: Circuit, tank_pressure: Array) -> Operation:
    table = facts.pump.jet
    unit = _jet(facts, lake, circuit, tank_pressure)
    resist, factor = unit.resistance, unit.factor
    still_lift, still_pressure = unit.point(resist.valve_floor, np.zeros(1))
    rest = factor * table.at(still_lift, still_pressure)[0]
    # On the zero edge of the table a product's rounding may leave a hair: that is nothing.
    rest = np.where(rest > CLOSED_FLOW, rest, np.minimum(rest, 0.0))
    # No flow can be more than the table gives before any loss, nor than a valve holds.
    most = np.minimum(np.maximum(rest, 1e-9), facts.delivery.flow_control)
    at_most, _ = unit.next_flow(most)
    runs, held = rest > 0.0, at_most >= 0.0
    inside = runs & ~held
    flow = np.where(runs, np.where(held, most, _passes(unit, 0.75 * most, most)), 0.0)
    # An unknown loss anywhere on the line leaves the flow unknown: a bracket would close on nothing.
    flow = np.where(np.isnan(rest) | np.isnan(at_most), np.nan, flow)
    flow, losses, left, bracketed = _finish(unit, circuit, flow, most, inside)
    lift, pressure = unit.point(losses.suction, losses.delivery)
    # Past its high edges the table does not say: no flow is promised there.
    silent = runs & ((lift > table.last_lift) | (pressure > table.last_pressure))
    room = np.minimum(table.last_lift - lift, np.where(silent, (table.last_pressure - pressure) / unit.weight, np.inf))
    if silent.any():
        flow = np.where(silent, 0.0, flow)
        losses = circuit.losses(flow)
    return Operation(
        flow=flow,
        left_over=np.where(silent, 0.0, np.where(runs, left, rest)),
        left_at_rest=rest,
        room=room,
        rest_pressure=table.rest_pressure(still_lift) - (still_pressure - tank_pressure),
        losses=losses,
        bracketed=bracketed & ~silent,
    )


def _passes(unit: Centrifugal | Jet, start: Array, most: Array) -> Array:
    """A few steps for all rows, kept between no flow and the most."""
    flow = start
    for _ in range(PASSES):
        flow = np.minimum(np.maximum(unit.next_flow(flow)[1], LEAST_SHARE * most), most)
    return flow


def _finish(
    unit: Centrifugal | Jet, circuit: Circuit, flow: Array, most: Array, inside: Mask
) -> tuple[Array, Losses, Array, Mask]:
    """Finish the rows that have not closed, and return every loss at the flow found."""
    losses = circuit.losses(flow)
    left = unit.left_at(flow, losses)
    unclosed = inside & (np.abs(left) > unit.closed)
    if not unclosed.any():
        return flow, losses, left, unclosed
    shape, rows = left.shape, np.nonzero(unclosed)
    few = unit.pick(rows, shape)
    found = _bracketed(few, pick_cases(flow, rows, shape), pick_cases(most, rows, shape))
    few_losses = circuit.pick(rows, shape).losses(found)
    patched = {f.name: _put(getattr(losses, f.name), rows, getattr(few_losses, f.name), shape) for f in fields(Losses)}
    flow, left = _put(flow, rows, found, shape), _put(left, rows, few.left_at(found, few_losses), shape)
    return flow, replace(losses, **patched), left, unclosed


def _bracketed(unit: Centrifugal | Jet, flow: Array, most: Array) -> Array:
    """Steps kept inside a bracket that each one tightens. A row that has closed moves no more.

    A step onto the bracket's end is taken: refusing it makes rows flutter.
    """
    low, high = LEAST_SHARE * most, most
    for turn in range(FINISHING_PASSES):
        left, better = unit.next_flow(flow)
        closed = np.abs(left) <= 0.1 * unit.closed
        if closed.all():
            break
        more = left > 0.0
        low, high = np.where(more, flow, low), np.where(more, high, flow)
        inside = (better >= low) & (better <= high)
        if turn >= STEPS_FIRST and turn % 2:
            inside = np.zeros_like(inside)
        flow = np.where(closed, flow, np.where(inside, better, 0.5 * (low + high)))
    return flow


def _put(array: Array, rows: Rows, new: Array, shape: tuple[int, ...]) -> Array:
    """An array just made, with some of its cases put anew: in place where it has every case of its own."""
    whole = array if array.shape == shape and array.flags.writeable else np.array(np.broadcast_to(array, shape))
    whole[rows] = np.broadcast_to(new, (len(rows[0]), 1))[:, 0]
    return whole


def _pick_table(table: Table, rows: Rows, shape: tuple[int, ...]) -> Table:
    """The curves or tables of some single cases; one shared by all stays as it is."""
    parts = [getattr(table, f.name) for f in fields(table)]
    if parts[0].ndim == 1:
        return table
    wide = [np.broadcast_to(part, (*shape[:-1], part.shape[-1])) for part in parts]
    return type(table)(*(np.ascontiguousarray(part[rows[:-1]]) for part in wide))
