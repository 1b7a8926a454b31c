"""What the sheets of a place show: the chart of all places along the soundings, and the plan."""

from __future__ import annotations

import math

from lakewright.checks.registry import CHECKS
from lakewright.documents.place_chart import Place, Places
from lakewright.documents.plan import Plan
from lakewright.job.models import Job
from lakewright.job.quantity import value_of
from lakewright.search.spots import Spots
from lakewright.state.assemble import Assembly
from lakewright.state.profile import bed_profile


def places_of(job: Job, assembly: Assembly, found: Spots) -> Places:
    """The places as the chart shows them."""
    asked = {finding.name for spot in found.spots for finding in spot.findings if finding.status != "not asked"}
    names = [check.name for check in CHECKS if check.name in asked]
    facts = assembly.facts
    levels = dict(zip(facts.day_names, (facts.days.level + facts.faults.level_offset).tolist(), strict=True))
    lowest = min(levels, key=lambda name: levels[name])
    ice = {name: levels[name] - thick for name, thick in zip(facts.day_names, facts.days.ice.tolist(), strict=True)}
    icy = [name for name, thick in zip(facts.day_names, facts.days.ice.tolist(), strict=True) if thick > 0.0]
    named = [("usual water", 0.0), (lowest, levels[lowest])]
    if icy:
        under = min(icy, key=lambda name: ice[name])
        named.append((f"under the ice, {under}", ice[under]))
    depths = [("daylight has faded", found.light), ("warm layer of summer ends", found.layer)]
    return Places(
        bed=tuple(zip(*bed_profile(job), strict=True)),
        places=tuple(
            Place(spot.at, spot.depth, spot.price, tuple(spot.status_of(name) for name in names))
            for spot in found.spots
        ),
        best=found.best,
        inlet=found.inlet,
        asked=value_of(job.stand.at),
        asked_depth=float(facts.stand.depth[0]),
        levels=tuple((name, height) for name, height in named if math.isfinite(height)),
        depths=tuple((name, depth) for name, depth in depths if math.isfinite(depth)),
        checks=tuple(name.replace("_", " ") for name in names),
        name=found.pick.name,
        reasons=found.reasons,
    )


def plan_of(job: Job, assembly: Assembly) -> Plan:
    """What the plan shows of a job and its facts."""
    site, facts = job.site, assembly.facts

    bearing = value_of(site.position.line_bearing)
    return Plan(
        units=job.job.units,
        bearing=math.degrees(bearing),
        soundings=tuple(zip(*bed_profile(job), strict=True)),
        stand=value_of(job.stand.at),
        depth=float(facts.stand.depth[0]),
        pump=value_of(job.pump.distance),
        delivery=float(facts.delivery.length[0]),
        coordinates=site.position.coordinates or "",
        sights=tuple((each.mark, math.degrees(value_of(each.bearing))) for each in site.position.bearings),
        wind=math.degrees(value_of(site.wind.from_bearing)),
        fetch=value_of(site.wind.fetch),
        note=site.position.note or "",
    )
