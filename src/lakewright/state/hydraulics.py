"""The circuit as the pump sees it: what a flow costs in head, in a list of cases."""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np

from lakewright.physics import inlet, pipe
from lakewright.physics.suction import head_of
from lakewright.physics.types import GRAVITY, Array
from lakewright.state.cases import FOULED, Index
from lakewright.state.facts import Facts
from lakewright.state.lake import Lake

ONE = np.ones(1)
"""A flow of 1 m3/s: losses that go with the square of flow are known from it."""


@dataclass(frozen=True, eq=False, repr=False)
class Losses:
    """Heads lost at one flow, station by station [m], and the velocities they come from [m/s]."""

    riser_velocity: Array
    velocity: Array
    screen: Array
    valve: Array
    riser: Array
    line: Array
    fittings: Array
    suction: Array
    delivery_velocity: Array
    delivery: Array


@dataclass(frozen=True, eq=False, repr=False)
class Circuit:
    """What the flow depends on besides the pump. Arrays broadcast over batch and case."""

    static: Array
    density: Array
    viscosity: Array
    open_area: Array
    valve_coefficient: Array
    valve_opening: Array
    full_lift: Array
    opening_head: Array
    riser_bore: Array
    riser_length: Array
    bore: Array
    length: Array
    roughness: Array
    coefficient: Array
    delivery_bore: Array
    delivery_length: Array
    delivery_roughness: Array
    delivery_coefficient: Array

    def losses(self, flow: Array) -> Losses:
        """Every loss at a flow, by the published functions."""
        riser_velocity = pipe.velocity(flow, self.riser_bore)
        velocity = pipe.velocity(flow, self.bore)
        screen = inlet.screen_loss(flow, self.open_area)
        valve = self.valve(riser_velocity)
        riser = pipe.pipe_loss(flow, self.riser_bore, self.riser_length, self.roughness, self.viscosity)
        line = pipe.pipe_loss(flow, self.bore, self.length, self.roughness, self.viscosity)
        fittings = pipe.fitting_loss(velocity, self.coefficient)
        suction = screen + valve + riser + line + fittings
        delivery_velocity = pipe.velocity(flow, self.delivery_bore)
        delivery = pipe.pipe_loss(
            flow, self.delivery_bore, self.delivery_length, self.delivery_roughness, self.viscosity
        ) + pipe.fitting_loss(delivery_velocity, self.delivery_coefficient)
        return Losses(
            riser_velocity,
            velocity,
            screen,
            valve,
            riser,
            line,
            fittings,
            suction,
            delivery_velocity,
            delivery,
        )

    def valve(self, riser_velocity: Array) -> Array:
        """Head the foot valve takes at a velocity in the riser."""
        return inlet.valve_loss(
            riser_velocity, self.valve_coefficient, self.full_lift, self.opening_head, self.valve_opening
        )

    def pick(self, rows: tuple[Index, ...], shape: tuple[int, ...]) -> Circuit:
        """Some single cases, as a batch with a case axis of size 1."""
        return Circuit(*(pick_cases(getattr(self, f.name), rows, shape) for f in fields(Circuit)))


@dataclass(frozen=True, eq=False, repr=False)
class Resistance:
    """A circuit's losses boiled down for a solver: what goes with the square of flow, the valve's floor, three pipes.

    Pipes are stacked on a leading axis: riser, suction line, delivery line.
    """

    suction_square: Array  # m/(m3/s)2, screen and fittings
    delivery_square: Array
    valve_square: Array
    valve_floor: Array  # m
    pipe_reynolds: Array  # s/m3, Reynolds number of each pipe for each unit of flow
    pipe_roughness: Array  # relative
    pipe_square: Array  # m/(m3/s)2, loss of each pipe for a friction factor of 1

    def at(self, flow: Array) -> tuple[Array, Array, Array, Array]:
        """Suction loss, delivery loss [m], and flow times the change of each with flow [m]. Flow above 0."""
        square = flow * flow
        stacks = (self.pipe_reynolds, self.pipe_roughness, self.pipe_square)
        axes = max(flow.ndim + 1, *(stack.ndim for stack in stacks))
        reynolds, roughness, squares = (_with_axes(stack, axes) for stack in stacks)
        factor, power = pipe.friction_factor_with_power(reynolds * flow, roughness)
        pipes = factor * (squares * square)
        steep = pipes * (2.0 + power)
        lifted = self.valve_square * square
        floats = lifted < self.valve_floor
        plain = self.suction_square * square
        far = self.delivery_square * square
        suction = pipes[0] + pipes[1] + plain + np.maximum(lifted, self.valve_floor)
        suction_steep = steep[0] + steep[1] + 2.0 * (plain + np.where(floats, 0.0, lifted))
        return suction, pipes[2] + far, suction_steep, steep[2] + 2.0 * far

    def take(self, cases: Index) -> Resistance:
        """The same in some of the cases."""
        parts = (getattr(self, f.name) for f in fields(self))
        return Resistance(*(part if part.shape[-1] == 1 else np.take(part, cases, axis=-1) for part in parts))

    def pick(self, rows: tuple[Index, ...], shape: tuple[int, ...]) -> Resistance:
        """Some single cases, as a batch with a case axis of size 1."""
        plain = {
            name: pick_cases(getattr(self, name), rows, shape)
            for name in ("suction_square", "delivery_square", "valve_square", "valve_floor")
        }
        stacked = {
            name: np.stack([pick_cases(one, rows, shape) for one in getattr(self, name)])
            for name in ("pipe_reynolds", "pipe_roughness", "pipe_square")
        }
        return Resistance(**plain, **stacked)


def pick_cases(array: Array, rows: tuple[Index, ...], shape: tuple[int, ...]) -> Array:
    """Some single cases of an array that broadcasts to a shape, as a batch with a case axis of size 1."""
    return np.ascontiguousarray(np.broadcast_to(array, shape)[rows][:, None])


def resistance(circuit: Circuit) -> Resistance:
    """Boil a circuit's losses down, each by its own published function at a flow of 1 m3/s."""
    c = circuit
    riser, line, far = (pipe.velocity(ONE, bore) for bore in (c.riser_bore, c.bore, c.delivery_bore))
    pipes = (
        (riser, c.riser_bore, c.riser_length, c.roughness),
        (line, c.bore, c.length, c.roughness),
        (far, c.delivery_bore, c.delivery_length, c.delivery_roughness),
    )
    return Resistance(
        suction_square=inlet.screen_loss(ONE, c.open_area) + pipe.fitting_loss(line, c.coefficient),
        delivery_square=pipe.fitting_loss(far, c.delivery_coefficient),
        valve_square=pipe.fitting_loss(riser, c.valve_coefficient) / (c.valve_opening * c.valve_opening),
        valve_floor=c.valve(np.zeros(1)),
        pipe_reynolds=_stacked([speed * bore / c.viscosity for speed, bore, _, _ in pipes]),
        pipe_roughness=_stacked([roughness / bore for _, bore, _, roughness in pipes]),
        pipe_square=_stacked([pipe.fitting_loss(speed, length / bore) for speed, bore, length, _ in pipes]),
    )


def _with_axes(stack: Array, axes: int) -> Array:
    """Stacked pipes with so many axes, new ones behind the pipes' own: a flow or a length may differ where a bore does
    not, and what is one for all of a batch must not be taken for one a pipe.
    """
    return stack.reshape(len(stack), *[1] * (axes - stack.ndim), *stack.shape[1:])


def _stacked(arrays: list[Array]) -> Array:
    return np.stack(np.broadcast_arrays(*arrays))


def circuit(facts: Facts, lake: Lake, line: Index, tank_pressure: Array) -> Circuit:
    """The circuit in a list of cases.

    Parameters
    ----------
    facts : of one job or a batch
    lake : the water in the same list of cases
    line : CLEAN or FOULED, one a case
    tank_pressure : [Pa gauge] one a case
    """
    fouled = line == FOULED
    stand, suction, delivery = facts.stand, facts.suction, facts.delivery
    return Circuit(
        static=delivery.height - lake.level + tank_pressure / (lake.density * GRAVITY),
        density=lake.density,
        viscosity=lake.viscosity,
        open_area=stand.screen_area * stand.screen_structure * stand.screen_open * (1.0 - lake.blocked),
        valve_coefficient=stand.valve_coefficient,
        valve_opening=facts.faults.valve_opening,
        full_lift=inlet.full_lift_velocity(stand.valve_lift_factor, lake.density),
        opening_head=head_of(stand.opening_pressure, lake.density),
        riser_bore=stand.riser_bore,
        riser_length=stand.riser,
        bore=suction.bore,
        length=(suction.bed_length + suction.bank_length) * (1.0 + suction.along),
        roughness=np.where(fouled, suction.roughness_fouled, suction.roughness),
        coefficient=suction.coefficient + pipe.narrowing_coefficient(facts.faults.line_opening),
        delivery_bore=delivery.bore,
        delivery_length=delivery.length,
        delivery_roughness=np.where(fouled, delivery.roughness_fouled, delivery.roughness),
        delivery_coefficient=delivery.coefficient + pipe.narrowing_coefficient(facts.faults.delivery_opening),
    )
