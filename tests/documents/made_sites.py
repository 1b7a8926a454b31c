"""Made-up sites as plain numbers, and findings of every kind on them: all invented, over ranges wider than life."""

from __future__ import annotations

import math
import random
from dataclasses import replace

from lakewright.checks.registry import CHECKS
from lakewright.documents.site import Day, Site
from lakewright.report import Finding

NAMES = (
    "July weekend", "late September, lowest water", "February under ice", "April melt", "June, power back at night",
    "hot afternoon with the whole herd at the trough", "A", "été très sec", "day of the flood in the wet year",
)  # fmt: skip
STATUSES = ("fails", "unknown", "tight", "holds", "not asked")


def random_site(seed: int) -> Site:
    """One site; a sixth of them lack soundings, a sixth the ground, some nearly everything."""
    draw = random.Random(f"site {seed}")
    at = math.exp(draw.uniform(math.log(0.5), math.log(400.0)))
    depth = min(math.exp(draw.uniform(math.log(0.3), math.log(30.0))), at * draw.choice((0.3, 1.0, 4.0)))
    pump_distance = math.exp(draw.uniform(math.log(0.3), math.log(120.0)))
    pump_height = draw.uniform(-0.5, 7.0)
    tee = pump_height + draw.choice((draw.uniform(-1.0, 6.0), draw.uniform(5.0, 60.0)))
    low, flood = -draw.uniform(0.0, 8.0), draw.uniform(0.0, 4.0)
    waves = draw.uniform(0.0, 0.8)
    days = tuple(
        Day(
            draw.choice(NAMES) + ("" if draw.random() < 0.7 else f" {n}"),
            draw.choice((0.0, low, flood, draw.uniform(low, flood))),
            draw.choice((0.0, 0.0, draw.uniform(0.05, 1.0))),
        )
        for n in range(draw.randint(0, 7))
    )
    site = Site(
        title=f"made-up site {seed}",
        units=draw.choice(("US", "SI")),
        kind=draw.choice(("lake", "lake", "stream", "pond", "reservoir", "tank")),
        soundings=profile(draw, at * draw.uniform(1.0, 2.0), at, depth) if draw.random() < 0.83 else (),
        ground=profile(draw, pump_distance * draw.uniform(1.0, 4.0), pump_distance, pump_height)
        if draw.random() < 0.83
        else (),
        at=at,
        depth=depth,
        form=draw.choice(("upright", "side", "low", "hung", "floating", "box")),
        attitude=draw.choice(("up", "side", "down")),
        legs=draw.choice((3, 4)),
        reach=draw.choice((math.nan, draw.uniform(0.1, 1.2))),
        frame=draw.uniform(0.03, 0.3),
        riser=draw.uniform(0.05, 2.5),
        inlet_rise=draw.uniform(0.1, 0.6),
        sink=draw.choice((0.0, draw.uniform(0.0, 0.4))),
        bed_length=at,
        weights=draw.choice((math.nan, draw.uniform(0.5, 5.0))),
        pump_distance=pump_distance,
        pump_height=pump_height,
        window=(flood + waves, low + draw.uniform(3.0, 7.0)),
        delivery_length=math.exp(draw.uniform(math.log(2.0), math.log(900.0))),
        tee_height=tee,
        tap_height=draw.choice((math.nan, tee + draw.uniform(0.0, 4.0))),
        days=days,
        low=low,
        flood=flood,
        waves=waves,
    )
    return lacking(draw, site)


def profile(draw: random.Random, far: float, at: float, height: float) -> tuple[tuple[float, float], ...]:
    """A few points, rising along, that pass through one and go on."""
    inner = sorted(draw.uniform(0.05, 0.95) * at for _ in range(draw.randint(0, 5)))
    points = [(x, height * (x / at) ** draw.uniform(0.4, 2.0)) for x in inner]
    start = [(0.0, draw.choice((0.0, 0.0, 0.2 * height)))] if draw.random() < 0.8 else []
    beyond = [(far, height * draw.uniform(0.7, 1.5))] if far > at * 1.02 else []
    every = [*start, *points, (at, height), *beyond]
    return tuple(point for n, point in enumerate(every) if n == 0 or point[0] > every[n - 1][0] + 1e-6)


def lacking(draw: random.Random, site: Site) -> Site:
    """The same with some of it not known."""
    if draw.random() < 0.7:
        return site
    names = ("at", "depth", "riser", "pump_distance", "pump_height", "delivery_length", "tee_height", "flood", "sink")
    site = replace(site, **{name: math.nan for name in names if draw.random() < 0.4})
    return site if draw.random() < 0.6 else replace(site, window=(math.nan, math.nan))


def random_findings(seed: int) -> tuple[Finding, ...]:
    """A finding of each check: on some sites all fail, on some all hold, on some nothing is known."""
    draw = random.Random(f"findings {seed}")
    mood = draw.choice(((1, 0, 0, 0, 0), (0, 1, 0, 0, 0), (0, 0, 0, 1, 0), (2, 2, 3, 8, 1), (2, 2, 3, 8, 1)))
    order = {status: n for n, status in enumerate(STATUSES)}
    found = [made_finding(check.name, draw.choices(STATUSES, mood)[0], draw) for check in CHECKS]
    return tuple(sorted(found, key=lambda finding: order[finding.status]))


def made_finding(name: str, status: str, draw: random.Random) -> Finding:
    check = next(check for check in CHECKS if check.name == name)
    known = status in ("fails", "tight", "holds")
    value = draw.choice((-1.0, 1.0, 1.0)) * math.exp(draw.uniform(-4.0, 7.0)) if known else None
    limit = math.exp(draw.uniform(-4.0, 7.0)) if known else None
    return Finding(
        name=name,
        station=check.at,
        status=status,
        force=check.force,
        value=value,
        limit=limit,
        unit=check.unit,
        margin=0.5 if known else None,
        case="a day" if known else None,
        source=check.source,
        remedy=check.remedy,
        message="made up",
    )
