"""What keeps the suction line on the bed, as facts."""

from __future__ import annotations

import math
import re

import numpy as np

from lakewright import units
from lakewright.job.models import Job
from lakewright.job.quantity import is_given
from lakewright.physics import bed_line
from lakewright.physics.footing import kept_share
from lakewright.physics.types import Array
from lakewright.state.gather import Gather, defaults, one, why_not
from lakewright.state.limits import standard_limits
from lakewright.state.profile import bed_profile, height_along
from lakewright.stock.rows import Pipe

WATER = 1000.0
"""ours: fresh water [kg/m3], to choose weights by."""

IRON, CONCRETE = 7850.0, 2300.0
"""memory: densities of steel and of concrete [kg/m3]."""

POUND = units.read("1 lb", "mass")


def line_on_bed_facts(job: Job, pipe: Pipe | None, bore: float, gather: Gather) -> dict[str, Array]:
    """Density of the wall, mass, density and spacing of the weights, and the depth to which it is held."""
    weights = job.suction.weights
    if pipe is None:
        why = why_not("[suction] stock", job.suction.stock)
        outside, wall = math.nan, gather.lack("suction.material_density", why)
    else:
        outside = pipe.outside
        wall = pipe.mass / (0.25 * math.pi * (pipe.outside**2 - pipe.bore**2))
    spacing = defaults()["suction.weight_spacing"].value if weights.spacing is None else weights.spacing.value
    density = CONCRETE if re.search("concrete|block", (weights.what or "").casefold()) else IRON
    if weights.mass is None and gather.grade == "quote":
        mass = _usual_weight(outside, bore, wall, density, spacing)
        every = units.show(spacing, "length", job.job.units)
        why = f"every {every} in whole pounds: the line lies with a quarter of the water it displaces (ppi-handbook)"
        gather.assume("suction.weight_mass", mass, "mass", why, "[suction.weights] mass")
    else:
        mass = gather.number("suction.weight_mass", weights.mass, "[suction.weights] mass", kind="mass")
    return {
        "material_density": one(wall),
        "weight_mass": one(mass),
        "weight_density": one(density),
        "weight_spacing": one(spacing),
        "held_depth": one(_held_depth(job, gather)),
    }


def _usual_weight(outside: float, bore: float, wall: float, density: float, spacing: float) -> float:
    """Mass in air of each weight that holds a full line down with comfort, in whole pounds [kg]."""
    full = bed_line.line_mass(one(outside), one(bore), one(wall), one(WATER))
    wanted = 1.0 + standard_limits().line_weight_easy
    displaced = 0.25 * math.pi * outside * outside * WATER
    short = spacing * (wanted * displaced - float(full[0])) / float(kept_share(one(density), one(WATER))[0])
    return math.nan if math.isnan(short) else POUND * math.ceil(max(short, 0.0) / POUND)


def _held_depth(job: Job, gather: Gather) -> float:
    """Depth of the bed where the line leaves its trench or its last stake [m]; infinite where it never does."""
    at = job.stand.at
    given = [each.value for each in (job.suction.buried_from, job.suction.staked_to) if each is not None]
    if not given or not job.site.soundings:
        return gather.default("suction.held_depth", "[suction] staked_to", "suction.held_depth")
    if is_given(at) and max(given) >= at.value:
        return math.inf
    depth = float(height_along(*bed_profile(job), one(max(given)))[0])
    if np.isnan(depth):
        return gather.lack("suction.held_depth", "[suction] staked_to lies beyond the last of [[site.soundings]]")
    return depth
