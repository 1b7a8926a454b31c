"""The hydraulic grade line: how high water would stand in a tube at each place from the lake to the tank."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lakewright.physics.types import GRAVITY, Array
from lakewright.state.cases import CLEAN, cases_of
from lakewright.state.facts import Facts
from lakewright.state.lake import inlet_top, lake, line_top
from lakewright.state.walk import State, tank_pressure


@dataclass(frozen=True, eq=False, repr=False)
class GradeLine:
    """Along the path, one place a column. Heights are from the usual level [m].

    at : length along the pipe from the inlet [m]; pipe : its height
    grade : of each running case; rest : of each day with the pump stopped, what holds the line holding
    boils : the grade at which the water there boils, each running case; nan on the side of the pump that it presses
    suction : how many of the places lie before the pump
    """

    at: Array
    pipe: Array
    grade: Array
    rest: Array
    boils: Array
    suction: int


def grade_line(facts: Facts, state: State) -> GradeLine:
    """The hydraulic grade line of one job.

    Losses of screen and valve lie at the inlet, those of fittings before the pump at the pump, those after it spread
    over the delivery line (ours: nobody says where they sit).

    Source: Bernoulli's equation; the grade is height and pressure head, without the velocity's.
    """
    cases = cases_of(len(facts.day_names))
    water = lake(facts, cases.running_day, cases.running_line)
    line, suction, delivery = state.line, facts.suction, facts.delivery
    speed = line.velocity * line.velocity * (0.5 / GRAVITY)
    riser_speed = line.riser_velocity * line.riser_velocity * (0.5 / GRAVITY)
    heights = facts.priming.route_height
    share = np.linspace(0.0, 1.0, heights.shape[-1])
    length = float(((suction.bed_length + suction.bank_length) * (1.0 + suction.along))[0])
    riser = float(facts.stand.riser[0])
    at = np.concatenate([[0.0, 0.0, riser], riser + share * length, [riser + length]])
    top = float(inlet_top(facts)[0])
    end = float(line_top(facts)[0])
    pipe = np.concatenate([[top, top, heights[0]], heights[:-1], [end, end]])
    entered = water.level - line.screen_loss - line.valve_loss
    through = entered - line.riser_loss
    along = (through - speed)[:, None] - line.line_loss[:, None] * share
    # At the pump as its gauge reads, but for the vacuum that boiling water would stop at.
    inlet = water.level - line.suction_loss - speed
    before = [
        water.level[:, None],
        (entered - riser_speed)[:, None],
        (through - riser_speed)[:, None],
        along,
        inlet[:, None],
    ]
    pressed, far = _pressed(facts, state)
    grade = np.concatenate([*before, pressed], axis=-1)
    boils = pipe - (water.atmosphere_head - water.vapour_head)[:, None]
    return GradeLine(
        at=np.concatenate([at, at[-1] + far]),
        pipe=np.concatenate([pipe, np.linspace(float(facts.pump.height[0]), float(delivery.height[0]), 2)]),
        grade=grade,
        rest=_rest(facts, state, len(at)),
        boils=np.concatenate([boils, np.full((len(boils), 2), np.nan)], axis=-1),
        suction=len(at),
    )


def _pressed(facts: Facts, state: State) -> tuple[Array, Array]:
    """Grade at the pump's outlet and at the tank's tee, (case, 2), and how far along the pipe each lies [m]."""
    cases, delivery = cases_of(len(facts.day_names)), facts.delivery
    density = lake(facts, cases.running_day, cases.running_line).density
    tank = delivery.height + tank_pressure(facts, cases.running_end) / (density * GRAVITY)
    speed = state.delivery.velocity * state.delivery.velocity * (0.5 / GRAVITY)
    leaving = tank + state.delivery.loss - speed
    return np.stack(np.broadcast_arrays(leaving, tank), axis=-1), np.array([0.0, float(delivery.length[0])])


def _rest(facts: Facts, state: State, places: int) -> Array:
    """Grade of each day with the pump stopped and the tank full: one height before the pump, one after it."""
    days = np.arange(len(facts.day_names))
    density = lake(facts, days, np.full(len(days), CLEAN)).density
    before = line_top(facts) + state.standing.pressure / (density * GRAVITY)
    after = facts.delivery.height + facts.delivery.cut_out / (density * GRAVITY)
    return np.concatenate([np.repeat(before[:, None], places, axis=1), np.repeat(after[:, None], 2, axis=1)], axis=1)
