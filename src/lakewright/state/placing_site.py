"""What the site says of places in its water: silt, boats, clarity, the size of the lake."""

from __future__ import annotations

import math

from lakewright.job.models import Job
from lakewright.state.exposure import SHELTERED, SILTY, SOFT, boats_pass, stands_on_the_bed
from lakewright.state.facts import DayFacts
from lakewright.state.gather import Gather, defaults, one
from lakewright.state.placing_facts import PlacingFacts


def placing_facts(job: Job, days: DayFacts, gather: Gather) -> PlacingFacts:
    """What the site says of places in its water."""
    still = job.site.kind not in SHELTERED
    return PlacingFacts(
        silt=one(_silt(job, gather)),
        boats=one(boats_pass(job)),
        lies_still=one(still),
        disc_depth=one(_disc_depth(job, gather) if still else math.nan),
        lake_length=one(_length(job, gather) if still else math.nan),
        warmest=one(float(days.temperature.max())),
    )


def _silt(job: Job, gather: Gather) -> float:
    """Whether waves stir the bed up; a box in the bank, a tank and what hangs stand over none that they reach."""
    kind = job.site.bed.kind
    if job.site.kind == "tank" or not stands_on_the_bed(job):
        return 0.0
    if kind is None or kind == "unknown":
        if gather.grade == "build":
            return gather.lack("placing.silt", "[site.bed] kind is not given: push an oar in")
        return float(job.site.kind != "stream")
    return float(kind in (*SOFT, *SILTY))


def _disc_depth(job: Job, gather: Gather) -> float:
    given = job.site.clarity.secchi
    return gather.number("placing.disc_depth", given, "[site.clarity] secchi")


def _length(job: Job, gather: Gather) -> float:
    """The lake's length: as far as the wind has it, else the usual one that the wind takes too."""
    given = job.site.wind.fetch
    if given is None and gather.grade == "quote":
        return defaults()["weather.fetch"].value
    return gather.number("placing.lake_length", given, "[site.wind] fetch")
