"""What raises waves and current at the stand, and how the bed takes hold of what stands on it, as facts."""

from __future__ import annotations

import math

from lakewright.job.models import Job
from lakewright.job.quantity import Quantity
from lakewright.physics import current, footing, scour, waves
from lakewright.physics.wind import HOUR_MEAN
from lakewright.state.facts import WeatherFacts
from lakewright.state.gather import Gather, defaults, one

SOFT = ("mud",)
SILTY = ("silt", "weed")
SHELTERED = ("stream", "tank")
"""Kinds of water on which no wind raises waves that a bed would feel."""


def is_soft(job: Job) -> bool:
    """Whether the bed is mud, or an oar sinks in it."""
    soft = job.site.bed.soft
    return job.site.bed.kind in SOFT or (soft is not None and soft.value > defaults()["site.soft bed"].value)


def stands_on_the_bed(job: Job) -> bool:
    """Whether the inlet stands on legs on the bed; one of no form said does."""
    return job.stand.form not in ("hung", "floating", "box")


def weather_facts(job: Job, gather: Gather) -> WeatherFacts:
    """Wind, fetch, wakes and current; nothing of it where no stand stands on the bed."""
    site, blows = job.site, job.site.wind
    calm = not stands_on_the_bed(job) or site.kind == "tank"
    if calm or (site.kind in SHELTERED and blows.fetch is None):
        wind, averaging, fetch, fetch_depth = 0.0, HOUR_MEAN, 0.0, 1.0
    else:
        seasonal = job.need.season in ("hauled", "drained")
        season = "weather.wind for a season" if seasonal else "weather.wind"
        wind = gather.number("weather.wind", blows.speed, "[site.wind] speed", season)
        # The usual wind is the mean of an hour, and says so itself.
        averaging = HOUR_MEAN
        if blows.speed is not None or blows.averaging is not None:
            averaging = gather.number("weather.averaging", blows.averaging, "[site.wind] averaging")
        fetch = gather.number("weather.fetch", blows.fetch, "[site.wind] fetch")
        fetch_depth = _fetch_depth(job, gather)
    return WeatherFacts(
        wind=one(wind),
        averaging=one(averaging),
        fetch=one(fetch),
        fetch_depth=one(fetch_depth),
        wake=one(0.0 if calm or not boats_pass(job) else waves.WAKE_HEIGHT),
        least_current=one(_LEAST_CURRENT.get(site.kind or "lake", _LAKE_CURRENT)),
    )


# ours: what a lake may run along its bed after days of wind; a tank is stirred by what fills it. In a stream the day's
# current is told.
_LAKE_CURRENT = 0.25
_LEAST_CURRENT = {"tank": 0.05, "stream": 0.05}


def boats_pass(job: Job) -> bool:
    """Whether boats pass; where nobody says so, they do on any lake."""
    boats, kind = job.site.boats, job.site.kind
    return boats in ("some", "many") or (boats in (None, "unknown") and kind not in SHELTERED)


def _fetch_depth(job: Job, gather: Gather) -> float:
    """Mean depth along the fetch; the deepest sounding where nobody knows, as deeper water makes longer waves."""
    given, soundings = job.site.wind.depth, job.site.soundings
    if given is None and soundings:
        deepest = max(each.depth.value for each in soundings)
        why = "the deepest sounding: the deeper the lake, the longer its waves"
        return gather.assume("weather.fetch_depth", deepest, "depth", why, "[site.wind] depth")
    if given is None and gather.grade == "quote" and job.site.wind.fetch is None:
        # The usual fetch says how deep it is.
        return defaults()["weather.fetch_depth"].value
    return gather.number("weather.fetch_depth", given, "[site.wind] depth")


def stream_current(job: Job, given: Quantity | None, gather: Gather) -> float:
    """Speed of the current on a day [m/s]: the day's, else the site's; none where no stream is."""
    of_day = given if given is not None else job.site.current
    if of_day is None and (job.site.kind != "stream" or not stands_on_the_bed(job)):
        return 0.0
    return gather.number("days.current", of_day, "[site] current", "days.current in a stream")


def bed_facts(job: Job, gather: Gather) -> tuple[float, float, float, float]:
    """Friction [-], roughness [m], strength of mud [Pa] and grain [m], infinite where there is none."""
    kind = job.site.bed.kind
    friction = footing.friction_of(kind or "")
    if math.isnan(friction):
        friction = gather.default("site.bed_friction", "[site.bed] kind", "site.bed_friction")
        kind = "silt"
    grain = scour.grain_of(kind or "")
    if math.isnan(friction):
        grain = gather.lack("site.grain", "[site.bed] kind is not given")
    strength = math.inf
    if stands_on_the_bed(job) and is_soft(job):
        strength = gather.default("site.mud_strength", "[site.bed]", "site.mud_strength in soft bed")
    elif stands_on_the_bed(job) and kind in SILTY:
        strength = gather.default("site.mud_strength", "[site.bed]", "site.mud_strength on silt")
    return friction, current.roughness_length_of(kind or ""), strength, grain


def debris_area(job: Job) -> float:
    """Outline of weed and leaves caught at the head [m2]: in a stream, more where weed grows.

    ours: half and all of what a leaf fall leaves on a strainer nobody cleans; on a lake it drops off between storms.
    """
    if job.site.kind != "stream":
        return 0.0
    return 0.1 if job.site.weed == "many" else 0.05


# ours: what a pin of 2 ft of 1/2 in steel through a leg takes level and upward [N], by what it stands in: a quarter of
# a person's push and a tenth of the pull that draws it. Mud is counted as far as it is stiff; rock takes none.
_PIN_HOLDS = {"sand": (150.0, 40.0), "gravel": (150.0, 40.0), "clay": (150.0, 40.0), "silt": (60.0, 15.0)}
_PIN_HOLDS |= dict.fromkeys(("mud", "weed"), (30.0, 10.0))

TETHER_HOLDS = 500.0
"""ours: level force that a rope to the bank or to an anchor takes [N]: a quarter of what a light rope parts at."""


def held_by(job: Job, gather: Gather) -> tuple[float, float]:
    """Level and upward force that pins and tether take [N]."""
    level, upward = _PIN_HOLDS.get(job.site.bed.kind or "", (0.0, 0.0))
    pins = float(job.stand.pins or 0)
    if job.stand.pins is None and gather.grade == "quote" and stands_on_the_bed(job) and is_soft(job):
        pins = gather.default("stand.pins", "[stand] pins", "stand.pins in soft bed")
    return pins * level + (TETHER_HOLDS if job.stand.tether else 0.0), pins * upward
