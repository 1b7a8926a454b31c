"""The plain numbers that a drawing of the site needs."""

from __future__ import annotations

from lakewright.documents.site import Day, Site
from lakewright.job.models import Job
from lakewright.job.quantity import value_of
from lakewright.state.control_facts import STORE
from lakewright.state.facts import Facts
from lakewright.state.profile import bed_profile, ground_profile
from lakewright.window import window_of


def site_of(job: Job, facts: Facts) -> Site:
    """The plain numbers that a drawing needs, of a job and the facts of a design for it."""
    stand, window = facts.stand, window_of(facts)
    levels = facts.days.level + facts.faults.level_offset
    heights = zip(facts.day_names, levels.tolist(), facts.days.ice.tolist(), strict=True)
    flood, waves = float(facts.site.flood[0]), float(facts.site.waves[0])
    return Site(
        title=job.job.title or "Job",
        units=job.job.units,
        kind=job.site.kind or "lake",
        soundings=tuple(zip(*bed_profile(job), strict=True)),
        ground=tuple(zip(*ground_profile(job), strict=True)),
        at=value_of(job.stand.at),
        depth=float(stand.depth[0]),
        form=job.stand.form or "upright",
        attitude=job.stand.inlet.attitude or "up",
        legs=job.stand.legs or 4,
        reach=value_of(job.stand.reach),
        frame=float(stand.frame[0]),
        riser=float(stand.riser[0]),
        inlet_rise=float(stand.inlet_rise[0]),
        sink=float(stand.sink[0]),
        bed_length=float(facts.suction.bed_length[0]),
        weights=value_of(job.suction.weights.spacing),
        pump_distance=value_of(job.pump.distance),
        pump_height=float(facts.pump.height[0]),
        pump_kind=facts.pump_kind,
        window=(window.bottom, window.top),
        delivery_length=float(facts.delivery.length[0]),
        tee_height=float(facts.delivery.height[0]),
        fills="store" if facts.control_kind == STORE else "tank",
        tap_height=value_of(job.delivery.tap_height),
        days=tuple(Day(name, level, ice) for name, level, ice in heights),
        low=float(levels.min()),
        flood=flood,
        waves=waves,
    )
