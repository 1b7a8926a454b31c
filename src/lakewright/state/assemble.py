"""From a job and the stock to facts: where every number of the job gets its SI value, or its name among the missing."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path

import numpy as np

from lakewright import units
from lakewright.errors import JobError, UnitError
from lakewright.job.models import Job
from lakewright.job.quantity import Quantity
from lakewright.physics.types import Array
from lakewright.state.ballast import MOST, Ballast, ballast_of
from lakewright.state.branches import tap_facts
from lakewright.state.control_facts import control_facts, control_of, pressures_of
from lakewright.state.demand import Demand, demand_of
from lakewright.state.drinking_facts import drinking_facts
from lakewright.state.exposure import weather_facts
from lakewright.state.facts import Facts, FaultFacts, NeedFacts, StandFacts
from lakewright.state.gather import OPEN, Assumed, Gather, one
from lakewright.state.heat_facts import heat_facts
from lakewright.state.holding import holding_facts
from lakewright.state.intake import stand_facts, suction_facts
from lakewright.state.limits import limit_rows, limits_with
from lakewright.state.placing_site import placing_facts
from lakewright.state.power_facts import power_facts
from lakewright.state.priming_facts import priming_facts
from lakewright.state.protection_facts import protection_facts
from lakewright.state.route import line_heights, route_facts
from lakewright.state.site import day_facts, site_facts
from lakewright.state.stand_members import Planned, no_members, planned, rest_area
from lakewright.state.supply import delivery_facts, pump_facts, rated_power, with_ejector
from lakewright.state.surge_facts import surge_facts
from lakewright.state.winter import season_facts
from lakewright.stock.load import Stock


@dataclass(frozen=True)
class Assembly:
    """Facts, and what stands behind them."""

    facts: Facts
    assumed: tuple[Assumed, ...]
    missing: dict[str, str]
    standings: dict[str, str]
    parts: dict[str, str]  # names in stock, by key of the job file, the usual ones of a quote among them
    unjudged: tuple[str, ...] = ()  # fields of the job file that nothing reads yet
    ranges: Mapping[str, Quantity] = field(default_factory=dict)  # by fact, what was given with its own doubt
    # What ballast the stand needs, where it stands on the bed and enough is known: dear, so worked out when asked.
    ballast: Callable[[], Ballast | None] = lambda: None
    per_day: float = math.nan  # m3 that are used in a day
    text: str = ""  # of the job file, as it stands
    file: Path | None = None  # where that is, or will be


def facts_of(job: Job, stock: Stock, file: str = "", weighted: bool = True) -> Assembly:
    """Put a job's facts together.

    Parameters
    ----------
    job : as read
    stock : what can be had
    file : name of the job file, for messages
    weighted : whether the stand has its ballast; worked out it is dear, and nothing asked of all designs reads it

    Returns
    -------
    Assembly; a fact nobody gave is nan in the facts and named in `missing`

    Raises
    ------
    JobError where the job names a part that is not in stock or a limit that is not there
    """
    gather = Gather(job.job.grade)
    overrides = _overrides(job, gather)
    demand = demand_of(job)
    need = need_flow(job, demand, gather)
    pump, kind = pump_facts(job, stock, gather)
    days, names = day_facts(job, gather)
    pump, ejector, kind = with_ejector(job, pump, days, kind, gather)
    route = route_facts(job, float(pump.height[0]), days, gather)
    suction, size = suction_facts(job, stock, need, route, gather)
    site, stand = site_facts(job, stock, gather), stand_facts(job, stock, size, gather)
    plan = planned(job, stock, stand, gather.parts, gather)
    warmest = float(days.temperature.max())
    pressures = pressures_of(job, stock, gather)
    delivery = delivery_facts(job, stock, pressures, float(pump.height[0]), warmest, gather)
    taps, tap_names = tap_facts(job, stock, replace(demand, flow=need), float(delivery.height[0]), gather)
    heights = line_heights(job, suction, stand, float((pump.height - ejector.below)[0]), gather)
    water = riser_water(stand) if plan is None else plan.bare.water_held
    facts = Facts(
        site=site,
        weather=weather_facts(job, gather),
        placing=placing_facts(job, days, gather),
        days=days,
        stand=stand if plan is None else on_its_feet(stand, plan, gather),
        members=no_members() if plan is None else plan.members(0.0),
        suction=suction,
        pump=pump,
        delivery=delivery,
        taps=taps,
        holding=holding_facts(job, gather),
        drinking=drinking_facts(job, stock, replace(demand, flow=need), float(np.max(taps.filtered)), gather),
        need=NeedFacts(one(need)),
        faults=fault_facts(job),
        season=season_facts(job, stock, suction, float(pump.height[0]), float(delivery.height[0]), gather),
        protection=protection_facts(
            job, float(delivery.cut_in[0]), float(pump.height[0]), float(delivery.height[0]), days.ice, gather
        ),
        power=power_facts(job, stock, gather),
        limits=limits_with(overrides),
        pump_kind=kind,
        day_names=names,
        tap_names=tap_names,
        priming=priming_facts(job, heights, water, gather),
        surge=surge_facts(stock, _pipe_named(job, "suction", gather), _pipe_named(job, "delivery", gather), gather),
        ejector=ejector,
        heat=heat_facts(rated_power(job, stock), gather),
        control=control_facts(job, stock, pressures.start, demand.per_day, gather),
        control_kind=control_of(job),
    )
    if gather.mistakes:
        raise JobError([replace(mistake, file=file) for mistake in gather.mistakes])
    ballast: Callable[[], Ballast | None] = partial(_told, None)
    if weighted:
        facts, ballast = with_ballast(job, facts, plan, gather)
    return Assembly(
        facts,
        tuple(gather.assumed.values()),
        gather.missing,
        gather.standings,
        gather.parts,
        ranges=gather.ranges,
        ballast=ballast,
        per_day=demand.per_day,
    )


def _pipe_named(job: Job, table: str, gather: Gather) -> str | None:
    """Name in the stock of a line's pipe, the usual one of a quote among them; none where it is not from the stock."""
    line = getattr(job, table)
    return line.stock if line.stock == OPEN else gather.parts.get(f"[{table}] stock")


def riser_water(stand: StandFacts) -> float:
    """Water in the riser of an inlet that stands on no legs [m3]."""
    return float((0.25 * math.pi * stand.riser_bore * stand.riser_bore * stand.riser)[0])


LEAST_ARM = 1e-6
"""ours: a stand on one leg or two stands on an edge [m]."""


def on_its_feet(stand: StandFacts, plan: Planned, gather: Gather) -> StandFacts:
    """The facts of a stand with the edge it tips over and what it rests on, as built."""
    found = plan.bare
    if not found.placed:
        why = found.gaps[0] if found.gaps else "the stand cannot be built"
        for fact in ("stand.arm", "stand.rest_area", "members.width"):
            gather.lack(fact, why)
        return stand
    return replace(stand, arm=one(max(found.footprint, LEAST_ARM)), rest_area=one(rest_area(found)))


def with_ballast(
    job: Job, facts: Facts, plan: Planned | None, gather: Gather
) -> tuple[Facts, Callable[[], Ballast | None]]:
    """The facts with the ballast that the job gives, or in a quote that the stand needs; and what tells the need."""
    if plan is None:
        return facts, partial(_told, None)
    needs: Callable[[], Ballast | None] = partial(ballast_of, facts, plan)
    mass = math.nan
    if job.stand.ballast.mass is not None:
        mass = job.stand.ballast.mass.value
        if math.isinf(plan.in_pieces(mass)):
            mass = gather.lack(
                "members.section", "[stand.ballast] what is not like any ballast in stock, or too much of it"
            )
    elif gather.grade == "quote":
        mass, why = plan.in_pieces(plan.floor), "practice; the rest is for pins and a tether"
        needed = needs()
        needs = partial(_told, needed)
        if needed is not None and needed.mass <= MOST:
            mass, why = needed.mass, needed.law
        gather.assume("stand.ballast", mass, "mass", f"asked by {why}; bought near the site", "[stand.ballast] mass")
    else:
        gather.lack("members.section", "[stand.ballast] mass is not given")
    return replace(facts, members=plan.members(mass)), needs


def _told(needed: Ballast | None) -> Ballast | None:
    """What is known already."""
    return needed


HIGHEST_LIFT = 10.33
"""Head of the standard atmosphere in water at the sea [m]. Source: US Standard Atmosphere 1976, 101325 Pa."""


def _overrides(job: Job, gather: Gather) -> dict[str, float]:
    """The limits a job changes, SI."""
    rows, found = limit_rows(), {}
    for name, override in job.limits.items():
        key, figures = f"[limits.{name}]", override.figures
        if name not in rows:
            gather.mistake(key, repr(name), "the name of a limit", f"write one of: {', '.join(rows)}")
        elif set(figures) != {"value"}:
            gather.mistake(
                key,
                f"{sorted(figures)}",
                "value and reason",
                f'write value = "{rows[name].text}" and a reason',
            )
        else:
            try:
                value = units.read(str(figures["value"]), rows[name].dimension)
            except UnitError as error:
                gather.mistake(f"{key} value", error.found, error.wanted, error.remedy)
                continue
            if name in ("lift_ceiling", "lift_easy") and value > HIGHEST_LIFT:
                remedy = "no air pushes water higher than that, at the sea and cold"
                gather.mistake(f"{key} value", repr(figures["value"]), "less than 33.9 ft", remedy)
                continue
            if name.endswith("comfort") and value <= 0.0:
                gather.mistake(f"{key} value", repr(figures["value"]), "more than nothing", "a comfort is a yardstick")
                continue
            found[name] = value
            gather.assumed[f"limits.{name}"] = Assumed(
                f"limits.{name}", value, rows[name].kind, "override", override.reason
            )
    return found


def need_flow(job: Job, demand: Demand, gather: Gather) -> float:
    """Flow asked of the pump [m3/s]: the job's own, else worked from what it says the water is for."""
    gather.mistakes += demand.mistakes
    if job.need.flow is not None:
        return gather.number("need.flow", job.need.flow, "[need] flow")
    if math.isnan(demand.flow):
        return gather.number("need.flow", None, "[need] flow", "need.flow, one bath")
    for line in demand.lines:
        source = f" ({line.source})" if line.source else ""
        gather.assume("need.flow", line.value, line.kind, f"{line.what}: {line.why}{source}", "[need]")
    return demand.flow


def fault_facts(job: Job) -> FaultFacts:
    """What the job says is wrong; neutral where it says nothing."""
    faults = job.pump.faults

    def fault(given: Quantity | None, neutral: float) -> Array:
        return one(neutral if given is None else given.value)

    return FaultFacts(
        blocked=fault(faults.blocked, 0.0),
        valve_opening=fault(faults.valve_opening, 1.0),
        air=fault(faults.air, 0.0),
        wear=fault(faults.wear, 0.0),
        speed=fault(faults.speed, 1.0),
        nozzle=one(1.0 - (0.0 if faults.nozzle is None else faults.nozzle.value)),
        level_offset=fault(faults.level_offset, 0.0),
        line_opening=fault(faults.line_opening, 1.0),
        delivery_opening=fault(faults.delivery_opening, 1.0),
        airtight=fault(faults.airtight, 1.0),
    )
