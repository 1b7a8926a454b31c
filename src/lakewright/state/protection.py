"""What keeps the pump from harm: whether what should stop it can, and does not when it should not."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lakewright.physics import tank, water
from lakewright.physics.atmosphere import atmospheric_pressure
from lakewright.physics.types import GRAVITY, Array
from lakewright.state.cases import CUT_IN, CUT_OUT, ENDS, OPEN, Cases
from lakewright.state.control_facts import SWITCH
from lakewright.state.facts import Facts
from lakewright.state.taps import highest_tap

Mask = NDArray[np.bool_]

START_DELAY = 3.0
"""ours: from the switch's closing until a primed pump brings all it can [s]; the tank feeds the taps meanwhile."""


@dataclass(frozen=True, eq=False, repr=False)
class GuardsAtRest:
    """What guards the pump. Standing cases."""

    has_cut_off: Mask
    cut_off: Array  # Pa gauge
    static: Array  # Pa gauge, that water standing up to the highest tap keeps on the cut-off
    guards: Array  # devices that can stop a pump to which no water comes
    winter: Mask
    guarded: Array  # 1 where something keeps the frost out
    has_float: Mask
    float_cover: Array  # m, of water over the inlet when a float stops the pump
    cover_floor: Array  # m, that practice asks


@dataclass(frozen=True, eq=False, repr=False)
class GuardsInUse:
    """The same while the pump runs. Running cases."""

    at_cut_in: Mask
    at_cut_out: Mask
    has_cut_off: Mask
    cut_off: Array  # Pa gauge
    lowest: Array  # Pa gauge, at the switch, at a start and at the highest draw
    at_pump: Mask  # a pressure switch, beside the pump
    lost: Array  # Pa, from a switch at the pump to the tank
    span: Array  # Pa, from cut-in to cut-out, where there are two
    has_relief: Mask
    relief_flow: Array  # m3/s
    relief_asked: Array  # m3/s, that the pump brings at the pressure at which the valve opens


def guards_at_rest(facts: Facts, inlet_top: Array) -> GuardsAtRest:
    """What stops a pump that runs dry, day by day; the inlet's top in m over the job's zero."""
    given = facts.protection
    density = water.density(facts.days.temperature)
    static = density * GRAVITY * (highest_tap(facts) - given.switch_height)
    known = np.where(np.isnan(static + given.cut_off), np.nan, 0.0)
    opens = np.where(static < given.cut_off, 1.0, 0.0) + known
    return GuardsAtRest(
        has_cut_off=given.cut_off != -np.inf,
        cut_off=given.cut_off,
        static=static,
        guards=given.guards + opens,
        winter=given.winter != 0.0,
        guarded=given.guarded + 0.0 * given.winter,
        has_float=given.float_at != -np.inf,
        float_cover=given.float_at - inlet_top,
        cover_floor=facts.site.cover_floor,
    )


def guards_in_use(facts: Facts, cases: Cases, flow: Array, loss: Array) -> GuardsInUse:
    """What guards the pump while it runs.

    Parameters
    ----------
    flow : [m3/s] and loss : [m] of the delivery line, in the running cases
    """
    given, delivery = facts.protection, facts.delivery
    density = water.density(np.take(facts.days.temperature, cases.running_day, axis=-1))
    return GuardsInUse(
        at_cut_in=cases.running_end == CUT_IN,
        at_cut_out=cases.running_end == CUT_OUT,
        has_cut_off=given.cut_off != -np.inf,
        cut_off=given.cut_off,
        lowest=_lowest(facts, cases, flow),
        at_pump=(given.at_pump != 0.0) & (facts.control_kind == SWITCH),
        lost=density * GRAVITY * loss + 0.0 * given.at_pump,
        span=delivery.cut_out - delivery.cut_in if facts.control_kind == SWITCH else np.ones(1),
        has_relief=delivery.relief != np.inf,
        relief_flow=given.relief_flow,
        relief_asked=_at_relief(facts, flow),
    )


def _lowest(facts: Facts, cases: Cases, flow: Array) -> Array:
    """The lowest pressure that the taps can draw the tank down to [Pa gauge]: in a start, or by asking more than the
    pump brings at cut-in.

    ours: between cut-in and an open tank pressure is straight in flow. A pump's curve and losses bend below that line
    nowhere where they bend downward, so that the true pressure is no lower.
    """
    delivery = facts.delivery
    wanted = facts.need.flow * np.take(facts.days.demand, cases.running_day, axis=-1)
    at_cut_in, at_open = _at_end(flow, CUT_IN), _at_end(flow, OPEN)
    room = at_open - at_cut_in
    share = (at_open - wanted) / np.where(room > 0.0, room, np.inf)
    steady = delivery.cut_in * np.where(wanted > at_cut_in, np.clip(share, 0.0, 1.0), 1.0) + 0.0 * (room + wanted)
    air = atmospheric_pressure(facts.site.elevation)
    drawn = START_DELAY * wanted
    start = tank.pressure_left(delivery.precharge, delivery.cut_in, air, delivery.tank_volume, drawn)
    return np.minimum(steady, start)


def _at_relief(facts: Facts, flow: Array) -> Array:
    """What the pump brings at the pressure at which the relief valve opens [m3/s]; none where it never gets there.

    ours: straight on from cut-in through cut-out. A curve that bends downward lies below that line.
    """
    delivery = facts.delivery
    at_cut_in, at_cut_out = _at_end(flow, CUT_IN), _at_end(flow, CUT_OUT)
    span = delivery.cut_out - delivery.cut_in
    beyond = np.where(delivery.relief == np.inf, 0.0, delivery.relief - delivery.cut_out)
    falls = (at_cut_in - at_cut_out) / np.where(span == 0.0, np.inf, span)
    return np.maximum(at_cut_out - falls * beyond, 0.0)


def _at_end(values: Array, end: int) -> Array:
    """Every running case's value with the tank at one end of the pump's run, its day and line being the same."""
    found: Array = np.repeat(values[..., end :: len(ENDS)], len(ENDS), axis=-1)
    return found
