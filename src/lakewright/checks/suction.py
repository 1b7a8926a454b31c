"""The suction side, from the inlet to the pump."""

from __future__ import annotations

import numpy as np

from lakewright.checks.needs import AIR, FLOW, LINE_WEIGHT, PUMPED_BY, PUMPED_UP_BY, WAVES, unique
from lakewright.checks.verdict import Check, Verdict, at_least, at_most, under_band
from lakewright.state.limits import Limits
from lakewright.state.line_on_bed import LineAtRest, LineInWaves
from lakewright.state.walk import Flow, Line


def lift_is_within_practice(flow: Flow, limits: Limits) -> Verdict:
    """Height and losses together stay within what the trade lifts at this altitude."""
    easy, ceiling = limits.lift_easy - flow.barometric_loss, limits.lift_ceiling - flow.barometric_loss
    return under_band(flow.suction_lift, easy, ceiling)


def suction_stays_liquid(flow: Flow, limits: Limits) -> Verdict:
    """Water reaches the pump without boiling, in every case."""
    wanted = np.maximum(limits.npsh_ratio * flow.npsh_required, flow.npsh_required + limits.npsh_plus)
    return at_least(flow.npsh_available, wanted, limits.npsh_comfort, where=~flow.is_jet)


def suction_runs_gently(line: Line, limits: Limits) -> Verdict:
    """Water runs slowly enough in the suction line."""
    return at_most(line.velocity, limits.suction_velocity, limits.suction_velocity_comfort)


def line_bears_its_vacuum(line: Line, limits: Limits) -> Verdict:
    """The wall bears what the valves hold for years, and what running adds, as warm and as oval as it is."""
    under_vacuum = ~(line.vacuum_use == 0.0)
    times = 1.0 / np.where(under_vacuum, line.vacuum_use, 1.0)
    return at_least(times, limits.collapse_least, limits.collapse_comfort, where=under_vacuum)


WALL = (
    "suction.outside",
    "suction.wall",
    "suction.ovality",
    "suction.poisson",
    "suction.long_modulus",
    "suction.short_modulus",
    "suction.vacuum_rating",
)


def line_stays_down(line_at_rest: LineAtRest, limits: Limits) -> Verdict:
    """The line, full of water and with its weights, lies on the bed."""
    return at_least(line_at_rest.net_share, 0.0, limits.line_weight_easy, where=line_at_rest.on_bed)


def line_is_held_in_the_waves(line_in_waves: LineInWaves, limits: Limits) -> Verdict:
    """From the shore out to where waves no longer roll it, the line is buried or staked: weight is no answer there."""
    asked = line_in_waves.on_bed & (line_in_waves.wave_depth != 0.0)
    return at_least(line_in_waves.free_depth, line_in_waves.wave_depth, limits.line_held_comfort, where=asked)


SUCTION = (
    Check(
        lift_is_within_practice,
        force="must",
        block="flow",
        cases="running",
        shows="lift",
        at="suction line",
        label="of lift and losses",
        limit_words="at most",
        unit="m",
        needs=(*AIR, "pump.height", *FLOW),
        other_needs=PUMPED_UP_BY,
        source="trade-lift",
        remedy="lower the pump toward the water, shorten the line or use a wider one",
        figures=("lift_easy", "lift_ceiling"),
    ),
    Check(
        suction_stays_liquid,
        force="must",
        block="flow",
        cases="running",
        shows="head",
        at="pump inlet",
        label="of net suction head",
        limit_words="at least",
        unit="m",
        needs=(),
        other_needs={"centrifugal": (*AIR, "pump.height", "pump.curve", "pump.required", *FLOW)},
        source="hi-9.6.1",
        remedy="lower the pump toward the water, use a wider suction pipe, or a pump that asks less",
        figures=("npsh_ratio", "npsh_plus", "npsh_comfort"),
    ),
    Check(
        suction_runs_gently,
        force="should",
        block="line",
        cases="running",
        shows="speed",
        at="suction line",
        label="in the suction line",
        limit_words="at most",
        unit="m/s",
        needs=FLOW,
        other_needs=PUMPED_BY,
        source="velocity-practice",
        remedy="use the next wider suction pipe",
        figures=("suction_velocity", "suction_velocity_comfort"),
    ),
    Check(
        line_bears_its_vacuum,
        force="must",
        block="line",
        cases="running",
        shows="count",
        at="pump inlet",
        label="times the vacuum in the line before it folds",
        limit_words="at least",
        unit="",
        needs=unique(
            AIR,
            FLOW,
            ("pump.height", "delivery.height", "delivery.cut_out", "holding.at_inlet", "holding.at_pump"),
            ("faults.airtight",),
            WALL,
        ),
        other_needs=PUMPED_UP_BY,
        source="ppi-handbook",
        remedy="use pipe with a thicker wall, rated 160 psi or better, shade it, or lower the pump",
        figures=("collapse_least", "collapse_comfort"),
    ),
    Check(
        line_stays_down,
        force="should",
        block="line_at_rest",
        cases="standing",
        shows="share",
        at="suction line",
        label="of the water it displaces, the line's weight under water",
        limit_words="",
        unit="1",
        needs=(*LINE_WEIGHT, "stand.on_legs"),
        source="ppi-handbook",
        remedy="put weights on the line, heavier or nearer to each other",
        figures=("line_weight_easy",),
        short_words="of the water it displaces short of lying on the bed",
        reach="picked",
    ),
    Check(
        line_is_held_in_the_waves,
        force="should",
        block="line_in_waves",
        cases="weather",
        shows="depth",
        at="suction line",
        label="of water where the line lies free",
        limit_words="waves reach",
        unit="m",
        needs=(*WAVES, *LINE_WEIGHT, "stand.on_legs", "site.bed_friction", "suction.held_depth"),
        source="ours",
        remedy="bury, sleeve or stake the line from the shore out to that depth",
        figures=("line_held_comfort",),
        short_words="of the line lies free out of the water",
        reach="picked",
    ),
)
