"""What is asked of the supply, worked out from what the job says of it: use by use, branch by branch."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from lakewright.errors import Mistake
from lakewright.job.models import Job
from lakewright.job.models_need import Branch, Need
from lakewright.job.quantity import is_given, value_of
from lakewright.physics.demand import Watering
from lakewright.state.demand_home import HOSE, home_flow, peak_of_people, per_person
from lakewright.state.demand_tables import Family, Row, animals, figures, fixtures, named, nearest, plain
from lakewright.state.demand_work import DemandLine, Work, quoted
from lakewright.state.gather import one


@dataclass(frozen=True, slots=True)
class BranchDemand:
    """What one branch draws [m3/s]: `asked` without a flow control, `flow` with it."""

    name: str
    water: str
    flow: float
    asked: float
    together: bool
    uses: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Demand:
    """What the pump must bring, and how that was found."""

    flow: float  # [m3/s]: as given, else as worked; nan where something is missing
    worked: float  # [m3/s]: from the branches, whether or not the job gives a flow
    given: bool
    per_day: float  # [m3], nan where nobody has said how many people
    family: Family
    branches: tuple[BranchDemand, ...]  # those of the job in its order, then uses that no branch carries
    lines: tuple[DemandLine, ...]  # what `worked` rests on
    beside: tuple[DemandLine, ...]  # what other rules say
    missing: tuple[str, ...]
    mistakes: tuple[Mistake, ...]


@dataclass(frozen=True, slots=True)
class _Use:
    name: str
    flow: float
    together: bool
    water: str


def demand_of(job: Job, family: Family = "A") -> Demand:
    """What a job asks of its pump.

    Parameters
    ----------
    job : as read
    family : of the fixture units; "A" asks the more of a house

    Returns
    -------
    Demand; what the job says nothing of is nan and named in `missing`, names nobody knows are in `mistakes`
    """
    need, work = job.need, Work(job.job.grade == "quote", family)
    treated = bool(job.treatment.steps) or job.treatment.uv.stock is not None
    counts = _counted(fixtures(), need.fixtures, "fixtures", work)
    herd = _counted(animals(), need.stock, "stock", work)
    drunk = _drunk(herd, work)
    watering = _watering(need, work)
    uses = [*_steady(need, counts, work), *_stock(drunk, work), *_irrigation(watering, work), *_fire(need, work)]
    alone = not uses and not any(is_given(branch.flow) for branch in need.branches)
    home = home_flow(job, counts, alone, work)
    if home is not None:
        uses.insert(0, _Use("home", home, True, "treated" if treated else "raw"))
    cap = value_of(job.delivery.flow_control) if is_given(job.delivery.flow_control) else math.inf
    branches = _branches(need, uses, cap, work)
    # A name nobody knows may stand for any flow.
    known = bool(branches) and not work.mistakes
    worked = _most_at_once(branches, cap) if known else math.nan
    if cap < math.inf and any(branch.water == "treated" for branch in branches):
        work.lines.append(DemandLine("flow control", cap, "flow", "", "caps the treated branches together"))
    return Demand(
        flow=value_of(need.flow) if is_given(need.flow) else worked,
        worked=worked,
        given=is_given(need.flow),
        per_day=_per_day(job, drunk, watering, work),
        family=family,
        branches=branches,
        lines=tuple(work.lines),
        beside=tuple(work.beside),
        missing=tuple(dict.fromkeys(work.missing)),
        mistakes=tuple(work.mistakes),
    )


def _counted(rows: Mapping[str, Row], given: Mapping[str, int], table: str, work: Work) -> dict[str, int]:
    """How many of each known thing; a name nobody knows is a mistake."""
    counts: dict[str, int] = {}
    for name, count in given.items():
        row = named(rows, name)
        if row is None:
            close, kind = nearest(rows, name), "a fixture" if table == "fixtures" else "an animal"
            remedy = f"did you mean {' or '.join(close)}?" if close else "write the one nearest in kind"
            work.refuse(table, name, quoted(name), f"{kind} that is known: {', '.join(rows)}", remedy)
        else:
            counts[row.name] = counts.get(row.name, 0) + count
    return counts


def _per_day(job: Job, drunk: float, watering: Watering | None, work: Work) -> float:
    """Water used in a day [m3]."""
    if is_given(job.need.per_day):
        return value_of(job.need.per_day)
    people = value_of(job.need.people) * per_person(job).value
    if job.need.people is not None and (job.need.baths or job.need.kitchens or job.need.fixtures):
        peak_of_people(job, work.beside)
    if job.need.people is None and not (job.need.baths or job.need.kitchens or job.need.fixtures):
        people = 0.0 if drunk or watering else math.nan
    watered = float((watering.volume() / watering.period)[0]) * DAY if watering else 0.0
    return people + drunk + watered


# Whatever runs besides.

DAY = 86_400.0
WEEK = 7.0 * DAY


def _steady(need: Need, counts: Mapping[str, int], work: Work) -> list[_Use]:
    """What runs on for long once it runs: a hose, washing of floors, filters and softeners."""
    uses = []
    for row in fixtures().values():
        count = counts.get(row.name, 0)
        if row.name == HOSE:
            # One hose runs at a time (ours). Where the code counts hose bibs in units, they are in the home's flow.
            together = need.hose != "no"
            count = 1 if need.hose == "yes" or (count and work.family not in row.units) else 0
        else:
            together = not row.alone
            count = min(count, 1) if row.alone else count
        if row.steady and count:
            why = "added to the fixtures" if together else "not while the others run"
            what = "a hose" if row.name == HOSE else row.name if count == 1 else f"{row.name}, {count}"
            work.lines.append(DemandLine(what, count * row.steady, "flow", "missouri-g1801", why))
            uses.append(_Use("hose" if row.name == HOSE else row.name, count * row.steady, together, "raw"))
    return uses


def _drunk(herd: Mapping[str, int], work: Work) -> float:
    """Water the stock drinks in a day [m3]."""
    total = []
    for name, count in sorted(herd.items()):
        row = animals()[name]
        total.append(count * row.per_day)
        work.lines.append(DemandLine(f"{name}, {count}, a day", total[-1], "volume", row.source, "on a hot day"))
    return math.fsum(total)


def _stock(drunk: float, work: Work) -> list[_Use]:
    if not drunk:
        return []
    row = figures()["drinking of stock"]
    work.lines.append(DemandLine("stock, while it drinks", drunk / row.value, "flow", row.source, row.why))
    return [_Use("stock", drunk / row.value, True, "raw")]


def _watering(need: Need, work: Work) -> Watering | None:
    """The watering a job asks, None where it asks none."""
    given = need.irrigation
    if given.area is None:
        if given.depth_per_week is not None or given.hours is not None or given.method is not None:
            work.lack("[need.irrigation] area is not given")
            area = math.nan
        else:
            return None
    else:
        area = value_of(given.area)
    hours = work.figure("hours a day", given.hours, "[need.irrigation] hours", "hours")
    return Watering(
        one(area),
        one(work.figure("depth a week", given.depth_per_week, "[need.irrigation] depth_per_week", "part")),
        one(WEEK),
        one(hours / DAY if hours else math.nan),
        one(work.figure(f"efficiency, {given.method or 'unknown'}", None, "[need.irrigation] method", "share")),
    )


def _irrigation(watering: Watering | None, work: Work) -> list[_Use]:
    if watering is None:
        return []
    flow = float(watering.flow()[0])
    why = "area times depth, over the hours it runs and the share that is of use"
    work.lines.append(DemandLine("watering, while it runs", flow, "flow", "irrigation-pages", why))
    return [_Use("irrigation", flow, True, "raw")]


def _fire(need: Need, work: Work) -> list[_Use]:
    if not is_given(need.fire):
        return []
    flow = value_of(need.fire)
    work.lines.append(DemandLine("fire", flow, "flow", "", "the job says so; not while the others run"))
    return [_Use("fire", flow, False, "raw")]


# Branches.

# ours: what people call a branch, and the use it then serves.
CALLED = {
    "home": "house home cabin cottage camp lodge bunkhouse kitchen dwelling apartment",
    "stock": "trough stock livestock barn cattle cow horse paddock corral pasture",
    "irrigation": "lawn garden field irrigation sprinkler orchard",
    "fire": "fire hydrant",
    "hose": "hose dock yard boathouse",
}


def _use_called(branch: Branch, only: bool) -> str:
    """The use a branch serves by its name, else by its water; empty where neither says."""
    words = set(plain(branch.name).split())
    called = next((use for use, names in CALLED.items() if words & set(names.split())), "")
    return called or ("home" if branch.water == "treated" or (branch.water is None and only) else "")


def _branches(need: Need, uses: Sequence[_Use], cap: float, work: Work) -> tuple[BranchDemand, ...]:
    """Every branch of the job with what it draws, then the uses that none of them carries."""
    left, found = {use.name: use for use in uses}, {}
    # By name, so that the order of the file makes no difference to who gets what.
    for branch in sorted(need.branches, key=lambda branch: branch.name.casefold()):
        called = _use_called(branch, len(need.branches) == 1)
        use = left.pop(called, None)
        if is_given(branch.flow):
            asked = value_of(branch.flow)
            work.lines.append(DemandLine(f"branch {branch.name}", asked, "flow", "", "the job says so"))
        else:
            asked = use.flow if use else _usual_branch(branch, called, work)
        together = branch.with_others if branch.with_others is not None else use.together if use else True
        water = branch.water or (use.water if use else "raw")
        served = (called,) if called else ()
        found[branch.name] = _capped(branch.name, water, asked, together, served, cap)
    own = [_capped(use.name, use.water, use.flow, use.together, (use.name,), cap) for use in left.values()]
    return (*(found[branch.name] for branch in need.branches), *own)


def _usual_branch(branch: Branch, called: str, work: Work) -> float:
    """What a branch draws that says nothing and serves nothing else the job speaks of."""
    if work.quote and called == "home":
        return work.practice("need.flow, one bath", work.lines)
    if work.quote and (called == "hose" or (not called and branch.water == "raw")):
        return work.practice("need.flow, hose", work.lines)
    return work.lack(f"[[need.branches]] flow of {quoted(branch.name)} is not given")


def _capped(name: str, water: str, asked: float, together: bool, uses: tuple[str, ...], cap: float) -> BranchDemand:
    # Not min: a flow nobody knows stays unknown.
    flow = float(np.minimum(asked, cap)) if water == "treated" else asked
    return BranchDemand(name, water, flow, asked, together, uses)


def _most_at_once(branches: Sequence[BranchDemand], cap: float) -> float:
    """The largest flow that is drawn at once: all that run together, or one that runs alone."""
    if any(math.isnan(branch.flow) for branch in branches):
        return math.nan
    raw = [branch.flow for branch in branches if branch.together and branch.water != "treated"]
    treated = [branch.flow for branch in branches if branch.together and branch.water == "treated"]
    together = math.fsum([*raw, min(math.fsum(treated), cap)])
    return max([together, *(branch.flow for branch in branches if not branch.together)])
