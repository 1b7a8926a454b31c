"""The way of the suction line as facts: how it rises, where air stays in it, how far it is buried."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from lakewright.job.models import Job
from lakewright.job.quantity import value_of
from lakewright.physics.types import Array
from lakewright.state.facts import DayFacts, StandFacts, SuctionFacts
from lakewright.state.gather import Gather, one
from lakewright.state.limits import standard_limits
from lakewright.state.profile import bed_profile, ground_profile, height_along

PLACES = 25
"""ours: places along the line, even, at which its height is known."""

Points = Sequence[tuple[float, float]]
"""Places along a line, from the inlet toward the pump: length or distance, and height [m]."""


def least_slope(line: Points, above: float) -> float:
    """Least rise over length of what of a line lies above a height; nan where nothing does.

    >>> least_slope([(0, -2), (10, 0), (20, 1), (30, 3)], above=-1)
    0.1
    """
    parts = [(b[1] - a[1]) / (b[0] - a[0]) for a, b in pairwise(line) if max(a[1], b[1]) > above and b[0] > a[0]]
    return min(parts, default=math.nan)


def pocket_length(line: Points) -> float:
    """Length of a line that lies higher than some place nearer its end, where air stays when it is filled [m].

    >>> pocket_length([(0, -5), (10, -3), (20, -4), (40, 0)])
    15.0
    """
    held, floor = 0.0, math.inf
    for (start, low), (end, high) in reversed(list(pairwise(line))):
        floor = min(floor, high)
        top, bottom = max(low, high), min(low, high)
        if top > floor:
            held += (end - start) * (min(1.0, (top - floor) / (top - bottom)) if top > bottom else 1.0)
    return held


def bed_height(job: Job, at: float) -> float:
    """Height of the bed so far out [m]; nan where nobody has sounded."""
    profile = bed_profile(job)
    return -float(height_along(*profile, one(at))[0]) if profile[0] else math.nan


def bed_points(job: Job, at: float) -> list[tuple[float, float]]:
    """The bed from a place so far out to the water's edge: distance from that place, and height."""
    points = [(at - out, -depth) for out, depth in zip(*bed_profile(job), strict=True) if out < at]
    return [(0.0, bed_height(job, at)), *reversed(points)] if points else []


def bank_points(job: Job, distance: float, height: float) -> list[tuple[float, float]]:
    """The ground from the water's edge to the pump, as the line lies on it; nothing where nobody has looked."""
    ground = list(zip(*ground_profile(job), strict=True))
    return [*(point for point in ground if point[0] < distance), (distance, height)] if ground else []


def slope_of(job: Job, distance: float, height: float, lowest: float) -> float:
    """Least rise of the line above the lowest water, as ground and bed lie, for a pump there; nan if not known."""
    bank = bank_points(job, distance, height)
    if not bank or math.isnan(distance + height):
        return math.nan
    out = max(bed_profile(job)[0], default=0.0)
    bed = [(where - out, up) for where, up in bed_points(job, out)]
    return least_slope([*bed, *bank], lowest)


def route_facts(job: Job, pump_height: float, days: DayFacts, gather: Gather) -> dict[str, Array]:
    """How the line rises, its joints, its pockets and its trench."""
    route = [(p.distance.value, p.height.value) for p in job.suction.route]
    found = {
        "slope": _slope(job, route, pump_height, float(days.level.min()), gather),
        "joints": _joints(job, gather),
        "pocket_length": _pocket_length(job, route, gather),
        "buried_to": _buried_to(job, days, gather),
    }
    return {name: one(value) for name, value in found.items()}


def _slope(job: Job, route: Points, pump_height: float, lowest: float, gather: Gather) -> float:
    if job.suction.slope is not None:
        return gather.number("suction.slope", job.suction.slope, "[suction] slope")
    if route:
        return least_slope(route, lowest)
    if job.site.ground and any(place is not None and place.open for place in (job.pump.distance, job.pump.height)):
        return gather.lack("suction.slope", "[pump] distance is open: design chooses it")
    found = slope_of(job, value_of(job.pump.distance), pump_height, lowest)
    return gather.default("suction.slope", "[suction] slope", "suction.slope") if math.isnan(found) else found


def _pocket_length(job: Job, route: Points, gather: Gather) -> float:
    """Length of the line under the water where air stays [m]; nan where nobody has sounded all the way to the stand."""
    in_water = [point for point in route if point[1] <= 0.0]
    if in_water:
        return pocket_length(in_water)
    at, name = job.stand.at, "suction.pocket_length"
    if at is not None and at.open:
        return gather.lack(name, "[stand] at is open: design chooses it")
    if not job.site.soundings:
        return gather.default(name, "[[site.soundings]]", name)
    if at is None:
        return gather.lack(name, "[stand] at is not given")
    if math.isnan(bed_height(job, at.value)):
        return gather.lack(name, "[stand] at lies beyond the last of [[site.soundings]]")
    return pocket_length(bed_points(job, at.value))


def _joints(job: Job, gather: Gather) -> float:
    given = job.suction.joints_above_water
    place = "[suction] joints_above_water"
    return gather.default("suction.joints", place, "suction.joints") if given is None else float(given)


def _buried_to(job: Job, days: DayFacts, gather: Gather) -> float:
    """Height of the bed where the trench ends [m]. A line that is hauled or drained asks for none."""
    if job.need.season in ("hauled", "drained"):
        return -math.inf
    given, place = job.suction.buried_from, "[suction] buried_from"
    if given is None:
        under_ice = float(np.min((days.level - days.ice)[days.ice != 0.0], initial=math.inf))
        if gather.grade != "quote" or math.isinf(under_ice):
            return gather.lack("suction.buried_to", f"{place} is not given")
        wanted = under_ice - standard_limits().buried_comfort
        why = "the trench is to end under the lowest ice (trade-practice)"
        return gather.assume("suction.buried_to", wanted, "height", why, place)
    height = bed_height(job, given.value)
    lack = f"{place} lies beyond [[site.soundings]]"
    return gather.lack("suction.buried_to", lack) if math.isnan(height) else height


def line_heights(job: Job, suction: SuctionFacts, stand: StandFacts, pump_height: float, gather: Gather) -> Array:
    """Height of the line at even lengths from the stand to the pump [m]: as measured, else straight."""
    bed, bank, bottom = (float(each[0]) for each in (suction.bed_length, suction.bank_length, -stand.depth))
    if math.isnan(bed + bank + bottom + pump_height):
        names = ("suction.bed_length", "suction.bank_length", "stand.depth", "pump.height")
        why = next((gather.missing[name] for name in names if name in gather.missing), "[suction] route is not given")
        return gather.lack("priming.route_height", why) * np.ones(PLACES)
    if job.suction.route:
        line: Points = [(p.distance.value, p.height.value) for p in job.suction.route]
    elif bank == 0.0:
        # Of a line of one length nobody has said how much lies in the water: all of it is taken as over it.
        line = [(0.0, 0.0), (bed, pump_height)]
    else:
        wet = _along(bed_points(job, value_of(job.stand.at))) or [(0.0, bottom), (bed, 0.0)]
        dry = _along(bank_points(job, value_of(job.pump.distance), pump_height)) or [(0.0, 0.0), (bank, pump_height)]
        line = [*wet, *((wet[-1][0] + at, height) for at, height in dry)]
    at, height = np.array(line).T
    even: Array = np.interp(np.linspace(at[0], at[-1], PLACES), at, height)
    return even


def _along(points: Points) -> list[tuple[float, float]]:
    """A profile with lengths along it in the place of distances."""
    steps = [math.hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points)]
    return [(math.fsum(steps[:n]), point[1]) for n, point in enumerate(points)]
