"""How far out a line is staked so that waves do not roll it."""

from __future__ import annotations

import math

import numpy as np

from lakewright import units
from lakewright.job.models import Job
from lakewright.job.quantity import is_given
from lakewright.state.facts import Facts
from lakewright.state.profile import bed_profile, height_along
from lakewright.state.walk import State
from lakewright.units.tables import FOOT

STEP = {"US": 5.0 * FOOT, "SI": 1.0}
"""ours: stakes are told to so much [m], outward."""


def staked_to(job: Job, facts: Facts, state: State) -> float:
    """Distance out to which stakes hold the line with comfort in every weather [m]; nan where that is not known.

    No further than the stand, where the line ends; nan too where the soundings end before the water is deep enough.
    """
    waves, at = state.line_in_waves, job.stand.at
    if waves is None or not job.site.soundings or not is_given(at):
        return math.nan
    levels = waves.free_depth - facts.suction.held_depth
    need = float((waves.wave_depth - levels).max()) + facts.limits.line_held_comfort
    step, end = STEP[job.job.units], at.value
    out = np.append(step * np.arange(1, math.ceil(end / step)), end)
    depths = height_along(*bed_profile(job), out)
    holds = (depths >= need) | (out >= end)
    found = int(np.argmax(holds))
    return float(out[found]) if bool(holds.any()) and not math.isnan(need) else math.nan


def how_to_stake(job: Job, facts: Facts, state: State) -> str:
    """The words that go with the remedy: how far out, and what the job file then says; none where it is not known."""
    distance = staked_to(job, facts, state)
    if math.isnan(distance):
        return ""
    shown = units.show(distance, "length", job.job.units)
    where = "the stand" if is_given(job.stand.at) and distance >= job.stand.at.value else shown
    return f', out to {where}: staked_to = "{shown}" in [suction]'
