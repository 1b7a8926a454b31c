"""Ice and frozen ground at a site: as told, or out of how cold its winters are where nobody has measured them."""

from __future__ import annotations

import numpy as np

from lakewright import units
from lakewright.job.models import Job
from lakewright.physics import frost, ice
from lakewright.physics.types import Array
from lakewright.state.gather import Gather, defaults, one

# ours: of the table's band the thicker end: an intake that is frozen in costs more than a longer riser.
COVER = {"stream": "river with snow"}
LAKE = "lake with snow"

# ours: wet silty sand as trenches are dug in, and a cold season of five months; the ground at freezing when it begins,
# which lets the frost go deepest. Cleared ground: a path is often kept over the line.
DRY_DENSITY, MOISTURE, CONDUCTIVITY, SEASON, WARMTH = 1600.0, 0.15, 1.3, 150.0 * 86400.0, 0.0
GROUND = "bare soil"


def design_ice(job: Job, gather: Gather) -> float:
    """Ice on the usual winter day [m]: the thickest seen, else in a quote by how cold the winters are."""
    place, cold = "[site.ice] thickness", job.site.ice.freezing_index
    if job.site.ice.thickness is not None:
        return gather.number("days.ice", job.site.ice.thickness, place, "days.ice in winter")
    if cold is None or gather.grade != "quote":
        return gather.default("days.ice", "[[site.days]]", "days.ice in winter")
    cover = COVER.get(job.site.kind or "", LAKE)
    thick = float(ice.ice_thickness(one(ice.growth_of(cover)[1]), one(cold.value))[0])
    shown = units.show(cold.value, "degree_days", job.job.units)
    return gather.assume("days.ice", thick, "part", f"{shown} of frost, {cover} at its fastest (crrel-04-3)", place)


def ground_frost(job: Job, gather: Gather) -> float:
    """How deep the ground freezes [m]: as told, else in a quote by how cold the winters are, else the usual."""
    name, place, cold = "season.frost_depth", "[site] frost_depth", job.site.ice.freezing_index
    if job.site.frost_depth is not None or cold is None or gather.grade != "quote":
        return gather.number(name, job.site.frost_depth, place, name)
    shown = units.show(cold.value, "degree_days", job.job.units)
    why = f"{shown} of frost on {GROUND}, wet silty sand (ufc-3-130-04); the local code's depth stands over it"
    return gather.assume(name, float(frost_by_index(one(cold.value))[0]), "depth", why, place)


def frost_by_index(freezing_index: Array) -> Array:
    """Depth to which the usual ground freezes in a winter of so much cold [K s]: [m]."""
    surface = frost.SURFACE[GROUND] * np.maximum(freezing_index, 1.0)
    latent = frost.soil_latent_heat(one(DRY_DENSITY), one(MOISTURE))
    heat = frost.soil_heat_capacity(one(DRY_DENSITY), one(MOISTURE))
    fusion = frost.fusion_parameter(surface, one(SEASON), heat, latent)
    return frost.frost_depth(one(CONDUCTIVITY), surface, latent, frost.frost_correction(fusion, one(WARMTH)))


def usual_cover_over_frost() -> float:
    """How much deeper than the frost a line is laid where nobody has said [m]."""
    return defaults()["season.trench under the frost"].value
