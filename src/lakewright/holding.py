"""What keeps stand and line where they are, in words beside the findings that ask for it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from lakewright import units
from lakewright.checks.verdict import FAILS, STATUS_WORDS, TIGHT
from lakewright.job.models import Job
from lakewright.job.quantity import value_of
from lakewright.state.ballast import Ballast, how_to_hold
from lakewright.state.facts import Facts
from lakewright.state.profile import bed_profile, first_as_deep
from lakewright.units.showing import shown_unit

if TYPE_CHECKING:
    from lakewright.report import Finding

HELD_BY_WEIGHT = ("stand_does_not_slide", "stand_does_not_tip", "stand_does_not_float")
"""Checks to which ballast is the answer, unless weight is the wrong one here."""


def told_how_to_hold(findings: Sequence[Finding], ballast: Ballast, facts: Facts, system: str) -> tuple[Finding, ...]:
    """The findings, with what would hold this stand where it does not stay or hardly does."""
    words = how_to_hold(ballast, facts, system)
    return tuple(replace(f, message=f"{f.message}; {words}") if asks_how_to_hold(f) else f for f in findings)


def told_how_far_to_hold(finding: Finding, job: Job, facts: Facts) -> Finding:
    """What keeps the line in the waves, with how far out the job's soundings say that is: a whole foot or metre."""
    if finding.name != "line_is_held_in_the_waves" or finding.status != STATUS_WORDS[FAILS] or not job.site.soundings:
        return finding
    system = job.job.units
    depth = (finding.limit or 0.0) - float(facts.days.level.min())
    stand = value_of(job.stand.at)
    out = first_as_deep(*bed_profile(job), depth)
    step = shown_unit("length", system).factor
    out = step * math.ceil(out / step + 0.5) if math.isfinite(out) else out
    if math.isnan(out) or out >= stand:
        words = "along the soundings nowhere before the stand: hold it all the way"
    else:
        words = f"out to {units.show(out, 'length', system)} from the water's edge ([suction] staked_to)"
    return replace(finding, remedy=f"{finding.remedy}: {words}")


def asks_how_to_hold(finding: Finding) -> bool:
    return finding.name in HELD_BY_WEIGHT and finding.status in (STATUS_WORDS[FAILS], STATUS_WORDS[TIGHT])
